"""The language of the window: our own sentences by gettext, the words of Qt's own dialogs by Qt's catalogues."""

from __future__ import annotations

from PySide6.QtCore import QCoreApplication, QLibraryInfo, QTranslator

from counter import language

_installed: list[QTranslator] = []  # Qt only borrows it


def speak(code: str) -> None:
    """Speak a language from now on; what stands on the screen already is for its owner to show again."""
    language.use(code)
    application = QCoreApplication.instance()
    if application is None:
        return
    for old in _installed:
        application.removeTranslator(old)
    _installed.clear()
    if language.current() == language.OWN:
        return
    translator = QTranslator()
    if translator.load(f"qtbase_{language.current()}", QLibraryInfo.path(QLibraryInfo.LibraryPath.TranslationsPath)):
        application.installTranslator(translator)
        _installed.append(translator)
