"""The file of window settings may hold anything: the window opens at a size that a screen has."""

from __future__ import annotations

import os
import sys

import pytest
from PySide6.QtCore import QSettings

from counter.window.main_window import SETTINGS_FILE

BAD = ["", "x", "0 0 16000000 16000000 0", "9 9 9", "--5 1 1 1 1", "1 2 3 4 " + "9" * 5000, f"0 0 {10**9} 900 1", "²"]


@pytest.mark.parametrize("text", BAD)
def test_places_that_no_screen_has_are_not_taken(windows, data, text):
    data.mkdir()
    settings = QSettings(str(data / SETTINGS_FILE), QSettings.Format.IniFormat)
    for name in ("window", "sizes/across", "sizes/middle", "sizes/column"):
        settings.setValue(name, text)
    settings.sync()
    window = windows(awake=False)
    assert max(window.width(), window.height()) <= 2000
    assert all(size >= 0 for size in window.places.across.sizes())


def test_a_window_of_a_larger_screen_is_no_larger_than_this_one(windows, data, qapp):
    room = qapp.primaryScreen().availableGeometry()
    data.mkdir()
    settings = QSettings(str(data / SETTINGS_FILE), QSettings.Format.IniFormat)
    settings.setValue("window", f"40 30 {room.width() + 300} {room.height() + 200} 0")
    settings.sync()
    window = windows(awake=False)
    assert window.width() <= room.width()
    assert window.height() <= room.height()


@pytest.mark.skipif(sys.platform == "win32", reason="pipes and links as POSIX has them")
@pytest.mark.parametrize("kind", ["pipe", "itself", "folder", "giant", "device"])
def test_what_is_no_file_is_left_alone(windows, data, kind):
    data.mkdir()
    path = data / SETTINGS_FILE
    if kind == "pipe":
        os.mkfifo(path)
    elif kind == "folder":
        path.mkdir()
    elif kind == "giant":
        with path.open("wb") as file:
            file.truncate(10_000_000_000)
    else:
        path.symlink_to(path if kind == "itself" else "/dev/zero")
    first = windows()
    first.set_units("in")
    first.close()
    assert windows().units == "in"
