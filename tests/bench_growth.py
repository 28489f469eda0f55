"""How times grow with a shop's data: the same work at 1, 10 and 100 times as much, each beside a floor of that run.

Used by tests.bench. A floor is what the quickest ordinary tool needs for the least that the work could be: json.loads
for loading a file, rapidfuzz for finding a code. A ratio that stays says that we grow as the floor does.
"""

from __future__ import annotations

import json
import random
import statistics
import tempfile
import time
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from typing import TYPE_CHECKING, Any

from rapidfuzz import process

from counter import catalogue, desk, marks, training

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

TIMES = (1, 10, 100)


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
    ours()  # what is made once and kept is not what grows
    pairs = [(_ms(ours), _ms(floor)) for _ in range(repeats)]
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
    lamps = [lamp for lamp in catalogue.load().lamps if lamp.length_mm is not None]
    rows = [
        {"kind": "lamp", "of": lamp.id, "part": "length_mm", "value": lamp.length_mm.value, "who": "Ada"}
        | {"on": "2026-01-05", "how": f"caliper {number}"}
        for number in range(20 * times)
        for lamp in [lamps[number % len(lamps)]]
    ]
    shop = json.dumps({"format": "lamp-counter/shop", "version": 1, "confirmed": rows})
    (data / catalogue.SHOP_FILE).write_text(shop)
    shipped = (catalogue_file()).read_text(encoding="utf-8")
    return (lambda: catalogue.load(data)), (lambda: (json.loads(shipped), json.loads(shop)))


def catalogue_file() -> Path:
    from counter import paths

    return paths.resources() / "catalogue.json"


def _record(data: Path, times: int) -> Any:
    """Read a trainee's record of 500 answers and more."""
    noon = datetime(2026, 1, 5, 12, tzinfo=UTC)
    who = training.add_trainee(data, "Ada", noon).id
    file = data / "training" / f"{who}.jsonl"
    line = training.Assigned(at=noon, family="G24q").model_dump(mode="json")
    with file.open("a", encoding="utf-8") as record:
        for number in range(500 * times):
            at = (noon + timedelta(seconds=number)).isoformat()
            record.write(json.dumps({**line, "at": at, "family": f"family {number % 9}"}) + "\n")
    raw = file.read_text(encoding="utf-8").splitlines()
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


WORK: dict[str, Callable[[Path, int], Any]] = {
    "read a worn code, maker's table of 100": _read,
    "load, 20 confirmed values": _load,
    "read a record of 500 lines": _record,
    "assess, 146 lamp types": _assess,
}
