"""How times grow with a shop's data: the same work at 1, 10 and 100 times as much, each beside a floor of that run.

Used by tests.bench. A floor is what the quickest ordinary tool needs for the least that the work could be: json.loads
for loading a file, rapidfuzz for finding a code. A ratio that stays says that we grow as the floor does.
"""

from __future__ import annotations

import csv
import itertools
import json
import os
import random
import sqlite3
import statistics
import tempfile
import time
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from typing import TYPE_CHECKING, Any

from rapidfuzz import fuzz, process

from counter import catalogue, desk, marks, shelf, shop, training
from counter.catalogue._load import _made_of
from counter.shelf._demo import HEADINGS, demo_lines

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

TIMES = (1, 10, 100)
LONG_MS = 2000  # what takes so long is measured once


def growth(repeats: int = 5) -> dict[str, dict[str, dict[str, float]]]:
    """Return for each kind of work and each size the medians of ours and of the floor, in ms, and their ratio."""
    found: dict[str, dict[str, dict[str, float]]] = {}
    with tempfile.TemporaryDirectory() as folder:
        for name, make in WORK.items():
            rows = found.setdefault(name, {})
            for times in TIMES:
                data = Path(folder) / f"{name} {times}"
                data.mkdir()
                ours, floor = make(data, times)
                rows[str(times)] = _row(ours, floor, repeats)
    return found


def _row(ours: Callable[[], object], floor: Callable[[], object], repeats: int) -> dict[str, float]:
    first = _ms(ours)  # what is made once and kept is not what grows
    pairs = [(_ms(ours), _ms(floor)) for _ in range(repeats if first < LONG_MS else 1)]
    our_ms, floor_ms = (statistics.median(column) for column in zip(*pairs, strict=True))
    return {"ms": our_ms, "floor_ms": floor_ms, "ratio": our_ms / floor_ms if floor_ms else float("inf")}


def _ms(act: Callable[[], object]) -> float:
    begun = time.perf_counter()
    act()
    return (time.perf_counter() - begun) * 1000


# -- the work: what is measured, and its floor


def _read(_: Path, times: int) -> Any:
    """Read a worn code of a maker whose table has 100 codes and more."""
    rng = random.Random(times)
    names = {f"NL-{rng.randrange(10**7):07d}": watts for watts in range(100 * times)}
    choices = {
        name: marks.HouseChoice(means="a lamp", facts=marks.HouseFacts(watts=5 + watts % 50, base="G23"))
        for name, watts in names.items()
    }
    house = (marks.HouseMaker(maker="Northlamp", codes=choices),)
    shipped = catalogue.load()
    wanted = list(names)
    worn = iter(range(10**6))

    def ours() -> object:
        code = wanted[next(worn) % len(wanted)]
        return marks.read(shipped, f"{code[:6]}?{code[7:]}", house)

    return ours, lambda: process.extractOne(wanted[0].replace("7", "?"), wanted)


def _load(data: Path, times: int) -> Any:
    """Load the catalogue under a shop's layer of 20 confirmed values and more."""
    layer = _confirmed(data, times)
    shipped = (catalogue_file()).read_text(encoding="utf-8")

    def ours() -> object:
        _made_of.cache_clear()  # as in a process of its own
        return shop.load_catalogue(data)

    return ours, (lambda: (json.loads(shipped), json.loads(layer)))


def _confirmed(data: Path, times: int) -> str:
    lamps = [lamp for lamp in catalogue.load().lamps if lamp.length_mm is not None]
    rows = [
        {"kind": "lamp", "of": lamp.id, "part": "length_mm", "value": lamp.length_mm.value, "who": "Ada"}
        | {"on": "2026-01-05", "how": f"caliper {number}"}
        for number in range(20 * times)
        for lamp in [lamps[number % len(lamps)]]
    ]
    layer = json.dumps({"format": "lamp-counter/shop", "version": 1, "confirmed": rows})
    (data / catalogue.SHOP_FILE).write_text(layer)  # the file that the store takes over
    return layer


def catalogue_file() -> Path:
    from counter import paths

    return paths.resources() / "catalogue.json"


def _record(data: Path, times: int) -> Any:
    """Read a trainee's record of 500 answers and more."""
    noon = datetime(2026, 1, 5, 12, tzinfo=UTC)
    who = "0123456789abcdef"
    file = data / "training" / f"{who}.jsonl"  # the file that the store takes over
    file.parent.mkdir()
    line = training.Assigned(at=noon, family="G24q").model_dump(mode="json")
    with file.open("w", encoding="utf-8") as record:
        record.write(training.Trainee(id=who, name="Ada", at=noon).model_dump_json() + "\n")
        for number in range(500 * times):
            at = (noon + timedelta(seconds=number)).isoformat()
            record.write(json.dumps({**line, "at": at, "family": f"family {number % 9}"}) + "\n")
    raw = file.read_text(encoding="utf-8").splitlines()
    assert len(training.progress(data, who).events) == 500 * times
    return (lambda: training.progress(data, who)), (lambda: [json.loads(one) for one in raw])


def _assess(_: Path, times: int) -> Any:
    """Assess a case over a catalogue with so many times the lamp types, each a wattage of its own."""
    shipped = catalogue.load()
    lamps = list(_multiplied(shipped, times))
    whole = catalogue.Catalogue.model_construct(
        **{name: getattr(shipped, name) for name in catalogue.Catalogue.model_fields if name != "lamps"},
        lamps=tuple(lamps),
    )
    case = desk.Case(looks={"legs": "4", "pins": "4", "glass": "white"}, on=date(2026, 1, 5))
    answer = desk.assess(whole, case).model_dump_json()
    return (lambda: desk.assess(whole, case)), (lambda: json.loads(answer))


def _multiplied(shipped: catalogue.Catalogue, times: int) -> Iterator[catalogue.Lamp]:
    for number in range(times):
        for lamp in shipped.lamps:
            yield lamp if number == 0 else lamp.model_copy(update={"id": f"{lamp.id}/{number}"})


def _import(data: Path, times: int) -> Any:
    """Read a stock list of 1000 lines and more and match it; the floor finds each description among our codes."""
    shipped = catalogue.load()
    path = data / "list.csv"
    rows = [HEADINGS, *(line.cells for line in demo_lines(shipped, 1000 * times, 5))]
    path.write_text("\n".join(",".join(f'"{cell}"' for cell in row) for row in rows), encoding="utf-8")
    made = (marks.format_code(shipped, lamp.id, "nema", "840") for lamp in shipped.lamps)
    codes = sorted({code for code in made if code})

    def floor() -> object:
        with path.open(encoding="utf-8") as file:
            said = {row["Description"] for row in csv.DictReader(file)}
        return [process.extractOne(one, codes, scorer=fuzz.WRatio, score_cutoff=86) for one in said]

    return (lambda: shelf.read_plan(path, shelf.Matcher(shipped), None)), floor


def _search(data: Path, times: int) -> Any:
    """Search a shelf of 1000 items and more; the floor asks SQLite's own index for the same beginning of a word."""
    store = shop.open_store(data)
    shipped = catalogue.load()
    path = data / "list.csv"
    rows = [HEADINGS, *(line.cells for line in demo_lines(shipped, 1000 * times, 5))]
    path.write_text("\n".join(",".join(f'"{cell}"' for cell in row) for row in rows), encoding="utf-8")
    shelf.put(store, shelf.read_plan(path, shelf.Matcher(shipped), None))
    plain = sqlite3.connect(":memory:")
    plain.execute("CREATE VIRTUAL TABLE lines USING fts5(words)")
    plain.executemany("INSERT INTO lines VALUES (?)", ((" ".join(row),) for row in rows[1:]))
    wanted = "SELECT rowid FROM lines WHERE lines MATCH 'cfq2*' LIMIT 100"
    return (lambda: shelf.find(store, "cfq2")), (lambda: plain.execute(wanted).fetchall())


def _slip(data: Path, times: int) -> Any:
    """Put a slip into a log of 100 and more; the floor is one row into a table of SQLite's, kept for good."""
    store = shop.open_store(data)
    key = (f"{number:012x}" for number in itertools.count())

    def ours() -> object:
        slip = {"key": next(key), "at": "2026-01-05T12:00:00+00:00", "day": "2026-01-05", "till": "one"}
        slip |= {"lamp": "G23/9/twin", "base": "G23", "watts": 9.0, "body": {}, "words": " g23 9w"}
        return shop.add_slip(store, slip, [])

    for _ in range(100 * times):
        ours()
    plain = sqlite3.connect(data / "floor.db", isolation_level=None)
    plain.execute("PRAGMA journal_mode=WAL")
    plain.execute("CREATE TABLE rows (number INTEGER PRIMARY KEY, body TEXT)")
    return ours, lambda: plain.execute("INSERT INTO rows (body) VALUES ('{}')")


def _photo(_: Path, times: int) -> Any:
    """Measure a picture of 0.17 megapixels and more; the floor decodes it and finds its edges."""
    import cv2
    import numpy as np

    from counter.measure import measure_pixels, pixels_of
    from tests.simulate_photos import take

    shipped = catalogue.load()
    wide = round(480 * times**0.5)
    raw = take(shipped, 7, size=(wide, wide * 3 // 4)).jpeg

    def floor() -> object:
        image = cv2.imdecode(np.frombuffer(raw, np.uint8), cv2.IMREAD_GRAYSCALE)
        return cv2.findContours(cv2.Canny(image, 60, 180), cv2.RETR_LIST, cv2.CHAIN_APPROX_SIMPLE)

    return (lambda: measure_pixels(shipped, pixels_of(raw))), floor


def _window(data: Path, times: int) -> tuple[Any, Any]:
    """Return the application, and a window that is awake over a shop's layer of 20 confirmed values and more."""
    os.environ["QT_QPA_PLATFORM"] = "offscreen"
    from PySide6.QtWidgets import QApplication

    from counter.app import make_application
    from counter.window.main_window import MainWindow

    _confirmed(data, times)
    shop.load_catalogue(data)  # as on any day but the first, the store has taken the file over
    application = QApplication.instance() or make_application(["bench"])
    window = MainWindow(data)
    window.show()
    window.wake()
    application.processEvents()
    return application, window


def _start(data: Path, times: int) -> Any:
    """Open the window to its first paint, its libraries loaded; the floor opens an empty one."""
    application, first = _window(data, times)
    from PySide6.QtWidgets import QMainWindow

    first.close()

    def opened(make: Callable[[], Any]) -> object:
        window = make()
        window.resize(1280, 800)
        window.show()
        application.processEvents()
        return window.close()

    return (lambda: opened(lambda: type(first)(data))), (lambda: opened(QMainWindow))


def _look(data: Path, times: int) -> Any:
    """Press a look and paint what follows; the floor writes the answer as JSON and reads it."""
    application, window = _window(data, times)
    presses = itertools.cycle(("2", "4"))

    def ours() -> object:
        wanted = next(presses)
        next(one for one in window.looks.rows["legs"].buttons if one.value == wanted).click()
        return application.processEvents()

    return ours, lambda: json.loads(window.assessment.model_dump_json())


def _key(data: Path, times: int) -> Any:
    """Type a character of a code and paint what follows; the floor writes the answer as JSON and reads it."""
    application, window = _window(data, times)
    from PySide6.QtTest import QTest

    keys = itertools.cycle("CFQ26W/G24q/841 ")

    def ours() -> object:
        QTest.keyClick(window.marks.field, next(keys))
        application.processEvents()
        while window.marks._pause.isActive():
            application.processEvents()
        return application.processEvents()

    return ours, lambda: json.loads(window.assessment.model_dump_json())


WORK: dict[str, Callable[[Path, int], Any]] = {
    "open the window, 20 confirmed values": _start,
    "a look to its paint, 20 confirmed values": _look,
    "a key to its paint, 20 confirmed values": _key,
    "read a worn code, maker's table of 100": _read,
    "load, 20 confirmed values": _load,
    "read a record of 500 lines": _record,
    "assess, 271 lamp types": _assess,
    "read and match a list of 1000 lines": _import,
    "search 1000 lines": _search,
    "a slip into a log of 100": _slip,
    "measure a picture of 0.17 megapixels": _photo,
}
