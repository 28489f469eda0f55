"""About says the versions that the command line says."""

from __future__ import annotations

from counter import __version__
from counter.window.about_dialog import AboutDialog


def test_about_names_the_program_the_catalogue_and_the_folder(window, data):
    said = " ".join(words.text() for words in AboutDialog(window).words)
    assert __version__ in said
    assert str(window.catalogue.edition) in said
    assert str(data) in said


def test_the_menu_opens_it_and_it_goes_when_closed(window, qtbot):
    action = next(one for one in window.answer.menu.menu().actions() if one.text().startswith("About"))
    action.trigger()
    (dialog,) = window.findChildren(AboutDialog)
    assert dialog.isVisible()
    with qtbot.waitSignal(dialog.destroyed):
        dialog.close()
    assert window.findChildren(AboutDialog) == []
