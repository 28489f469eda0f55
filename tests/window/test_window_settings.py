"""The file of window settings may hold anything: the window opens at a size that a screen has."""

from __future__ import annotations

import os
import random
import sys

import pytest
from PySide6.QtCore import QSettings

from counter.window.main_window import SETTINGS_FILE


def kept(data):
    return QSettings(str(data / SETTINGS_FILE), QSettings.Format.IniFormat)


@pytest.mark.parametrize("seed", range(8))
def test_flipped_bits_open_no_giant(windows, data, seed):
    windows().close()
    rng = random.Random(seed)
    settings = kept(data)
    raw = bytearray(str(settings.value("window")).encode())
    for _ in range(3):
        raw[rng.randrange(len(raw))] ^= 1 << rng.randrange(7)
    settings.setValue("window", raw.decode("ascii", "replace"))
    settings.sync()
    window = windows(awake=False)
    assert max(window.width(), window.height()) <= 16_384


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
