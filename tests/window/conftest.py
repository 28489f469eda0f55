"""A language for the length of one window."""

import pytest
from PySide6.QtCore import QSettings

from counter import language
from counter.window.main_window import SETTINGS_FILE
from counter.window.parts.languages import speak


@pytest.fixture
def in_spanish(data):
    """Let windows start in Spanish, as they do where it was chosen before."""
    data.mkdir(exist_ok=True)
    settings = QSettings(str(data / SETTINGS_FILE), QSettings.Format.IniFormat)
    settings.setValue("language", "es")
    settings.sync()
    yield
    speak(language.OWN)
