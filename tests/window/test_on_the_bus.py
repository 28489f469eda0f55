"""The program through the real accessibility bus: what reaches a tool for those who cannot see, and what it can do.

Debian packages xvfb, dbus-daemon, at-spi2-core and libxcb-cursor0; skipped where one is missing.
"""

from __future__ import annotations

import ctypes.util
import shutil
import time
from pathlib import Path

import pytest

jeepney = pytest.importorskip("jeepney")

from tests.window.bus import DESKTOP, FOCUSABLE, SHOWING, desktop  # noqa: E402 - it speaks by jeepney

LAUNCHERS = ("/usr/libexec/at-spi-bus-launcher", "/usr/lib/at-spi2-core/at-spi-bus-launcher")
MISSING = [one for one in ("Xvfb", "dbus-daemon") if shutil.which(one) is None]
MISSING += [] if any(Path(one).exists() for one in LAUNCHERS) else ["at-spi2-core"]
MISSING += [] if ctypes.util.find_library("xcb-cursor") else ["libxcb-cursor0"]
SECONDS = 60

pytestmark = [
    pytest.mark.slow,
    pytest.mark.skipif(bool(MISSING), reason=f"the accessibility bus needs {', '.join(MISSING)}"),
]


def until(read, what):
    """Ask again until something is there."""
    end = time.monotonic() + SECONDS
    while time.monotonic() < end:
        found = read()
        if found:
            return found
    raise AssertionError(f"never on the bus: {what}")


@pytest.fixture(scope="module")
def program(tmp_path_factory):
    """Return the bus with the program on it, awake: its outlines are there."""
    with desktop(tmp_path_factory.mktemp("bus")) as (bus, process):
        until(lambda: process.poll() is None and bus.children(DESKTOP), "the program")
        until(lambda: find(bus, "Legs: 1 bent tube"), "the looks")
        yield bus


def shown(bus):
    application = bus.children(DESKTOP)[0]
    return [node for node in bus.walk(application) if node.has(SHOWING)]


def find(bus, name, role=""):
    return next((one for one in shown(bus) if one.name == name and role in ("", one.role)), None)


def nameless(bus):
    """Return what can have the keyboard and does not say what it is; a box says its value, so its label counts."""
    found = []
    for one in shown(bus):
        says = [*bus.labels(one.ref), one.description] if one.role == "combo box" else [one.name]
        if one.has(FOCUSABLE) and not any(words.strip() for words in says):
            found.append(f"{one.role} {one.name} {one.description}")
    return found


def test_the_window_is_there_by_name_and_nothing_is_nameless(program):
    assert program.node(program.children(DESKTOP)[0]).name == "lamp-counter"
    assert find(program, "Lamp counter", "frame")
    assert nameless(program) == []


def test_a_case_is_served_and_heard(program):
    for name in ("Glass colour: clear", "Pins: 2 pins", "Legs: 1 bent tube"):
        program.act(find(program, name))
    until(lambda: find(program, "Verdict: ask first", "label"), "the verdict")
    said = until(program.announced, "an announcement")
    assert any("UV-C" in words and "ask first" in words for words, _ in said)
    assert all(urgent == 2 for words, urgent in said if "WARNING" in words)
    assert "UV-C" in find(program, "Answer").description

    listed = [one.name for one in program.walk(find(program, "Outlines, most likely first", "list").ref)]
    assert any("UV-C germicidal" in name for name in listed)
    assert any("for lighting" in name for name in listed)

    program.types(find(program, "Marks on the lamp"), "GFT9W/G23")
    strip = until(lambda: find(program, "The marks, part by part", "label"), "the parts of the code")
    until(lambda: "G23: base" in find(program, strip.name).description, "the last part of the code")
    assert "GF: germicidal" in find(program, strip.name).description
    until(lambda: find(program, "Face of G23, pins toward you", "graphic"), "the drawing of the face")
    assert "Pins: 2" in find(program, "Face of G23, pins toward you").description
    assert "clear" in find(program, "Side of a lamp on G23", "graphic").description

    table = find(program, "What is known of it", "table")
    cells = [one.name for one in program.walk(table.ref) if one.role == "cell"]
    at = cells.index("Tube")
    assert cells[at : at + 3] == ["Tube", "12.7\N{THIN SPACE}mm", "reprinted"]

    program.act(find(program, "More about the fixture"))
    until(lambda: find(program, "Ballast label"), "the rest of the fixture")
    assert nameless(program) == []
