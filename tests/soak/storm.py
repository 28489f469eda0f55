"""Kills, damaged files and nonsense in numbers: python -m tests.soak.storm WHAT COUNT [--seed N] [--json].

    kills     processes killed at random moments while they write, over every kind of write: nothing acknowledged is
              lost, and what is there is whole
    mutants   files of every kind with bits flipped, pieces lost, doubled or cut off: loaded or refused in words
    codes     marks of every kind read            labels    ballast labels of every kind read
    cases     cases of every kind assessed

Prints how many, what went wrong, and the slowest, which it names. Exit 1 where anything went wrong. Slow tests run
small counts of each; the full ones are for a night.
"""

from __future__ import annotations

import argparse
import contextlib
import json
import os
import random
import signal
import sys
import tempfile
import time
from datetime import UTC, date, datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any, NamedTuple, get_args

from pydantic import ValidationError

from counter import catalogue, desk, fit, marks, paths, shop, training
from counter.desk import Case, CaseProblem
from counter.files import write_atomic
from counter.shop._load import FILE
from tests import fuzz_marks

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

SHIPPED = catalogue.load()
DAY = date(2026, 1, 5)
NOON = datetime(2026, 1, 5, 12, tzinfo=UTC)


class Storm(NamedTuple):
    """What came of one kind: how many, what went wrong, and the slowest in milliseconds of processor time."""

    kind: str
    count: int
    wrong: tuple[str, ...]
    slowest_ms: float = 0.0
    slowest: str = ""


# -- kills

Say = "Callable[[int], None]"


def _atomic(data: Path, say: Any) -> None:
    for number in range(10**6):
        write_atomic(data / "whole.bin", number.to_bytes(8, "big") * 20_000)
        say(number)


def _atomic_kept(data: Path) -> int:
    raw = (data / "whole.bin").read_bytes()
    if len(raw) != 160_000 or raw != raw[:8] * 20_000:
        raise AssertionError("a file in pieces")
    return int.from_bytes(raw[:8], "big") + 1


def _confirm(data: Path, say: Any) -> None:
    lamps = [lamp.id for lamp in SHIPPED.lamps if lamp.length_mm is not None]
    for number, lamp in enumerate(lamps):
        value = SHIPPED.lamp_by_id[lamp].length_mm.value
        shop.confirm(
            data, kind="lamp", of=lamp, part="length_mm", value=value, who="Ada", on=DAY, how=f"caliper {number}"
        )
        say(number)


def _confirm_kept(data: Path) -> int:
    loaded = shop.load_catalogue(data)
    if loaded.problems:
        raise AssertionError(str(loaded.problems[0]))
    return len(shop.layer(shop.open_store(data)).content["confirmed"])


def _slip(data: Path, say: Any) -> None:
    store = shop.open_store(data)
    for number in range(10**6):
        slip = {"key": f"{number:012x}", "at": "2026-01-05T12:00:00+00:00", "day": "2026-01-05", "till": "one"}
        shop.add_slip(store, slip | {"lamp": None, "base": None, "watts": None, "body": {}, "words": ""}, [])
        say(number)


def _slips_kept(data: Path) -> int:
    numbers = [one.number for one in shop.find_slips(shop.open_store(data), limit=10**6)]
    if sorted(numbers) != list(range(1, len(numbers) + 1)):
        raise AssertionError("numbers with a gap, or twice")
    return len(numbers)


def _record(data: Path, say: Any) -> None:
    who = training.add_trainee(data, "Ada", NOON).id
    for number in range(10**6):
        training.assign(data, who, f"family {number}", NOON)
        say(number)


def _record_kept(data: Path) -> int:
    people = training.trainees(data)
    if not people:
        return 0
    found = training.progress(data, people[0].id)
    if found.torn > 1:
        raise AssertionError(f"{found.torn} torn lines")
    return len(found.events)


KINDS: dict[str, tuple[Callable[[Path, Any], None], Callable[[Path], int]]] = {
    "whole file": (_atomic, _atomic_kept),
    "the shop's layer": (_confirm, _confirm_kept),
    "training record": (_record, _record_kept),
    "slips": (_slip, _slips_kept),
}


def kills(count: int, rng: random.Random) -> Iterator[Storm]:
    """Kill writers of each kind; processes are forked, as starting a thousand anew would take most of the time."""
    for kind, (work, kept) in KINDS.items():
        wrong = []
        share = -(-count // len(KINDS))
        for _ in range(share):
            with tempfile.TemporaryDirectory() as folder:
                told = _killed(Path(folder), work, rng)
                try:
                    found = kept(Path(folder)) if told else told
                except Exception as fault:
                    wrong.append(f"{type(fault).__name__}: {fault}")
                    continue
                finally:
                    shop.close_all()
                if found < told:
                    wrong.append(f"{told} acknowledged, {found} kept")
        yield Storm(kind, share, tuple(wrong))


def _killed(data: Path, work: Callable[[Path, Any], None], rng: random.Random) -> int:
    """Let a process write until a random moment and kill it; return how many writes it acknowledged."""
    reading, writing = os.pipe()
    child = os.fork()
    if child == 0:
        os.close(reading)
        try:
            work(data, lambda _: os.write(writing, b"."))
        finally:
            os._exit(0)
    os.close(writing)
    told = len(os.read(reading, 1))
    for _ in range(rng.randrange(12)):
        told += len(os.read(reading, 1))
    time.sleep(rng.random() * 0.004)  # into the next write
    os.kill(child, signal.SIGKILL)
    os.waitpid(child, 0)
    while more := os.read(reading, 4096):
        told += len(more)
    os.close(reading)
    return told


# -- damaged files


def samples() -> dict[str, tuple[bytes, Callable[[Path], object]]]:
    """Return one sound file of each kind, and what loads it; a new store takes over a shop's old files."""
    from counter.window.outlines import opening

    with tempfile.TemporaryDirectory() as folder:
        data = Path(folder)
        for row in _some_confirmed():
            shop.confirm(data, **{**row, "on": DAY})
        who = training.add_trainee(data, "Ada", NOON).id
        for number in range(5):
            training.assign(data, who, f"family {number}", NOON)
        _, lines = shop.record_lines(data, who)
        shop.close_all()
        store = (data / FILE).read_bytes()
    first = training.Trainee(id=who, name="Ada", at=NOON).model_dump_json()
    record = "".join(f"{line}\n" for line in (first, *lines)).encode()
    layer = json.dumps({"format": "lamp-counter/shop", "version": 1, "confirmed": _some_confirmed()}).encode()
    house = marks.HouseTable(makers=marks.shipped_house()).model_dump_json(indent=1).encode()
    case = Case(marks=fuzz_marks.CODES[0], looks={"legs": "4"}, use="lighting").model_dump_json().encode()
    return {
        "catalogue.json": ((paths.resources() / "catalogue.json").read_bytes(), catalogue.check_file),
        FILE: (store, _loaded),
        catalogue.SHOP_FILE: (layer, _loaded),
        "house-codes.json": (house, marks.read_house),
        "case.json": (case, lambda path: desk.read_case(path, SHIPPED)),
        f"training/{who}.jsonl": (record, lambda path: training.progress(path.parents[1], path.stem)),
        "opening.json": (b'{"of": "", "sum": 0, "cards":\n[]\n}', lambda path: opening.remembered(path.parent)),
    }


def _some_confirmed() -> list[dict[str, Any]]:
    lamps = ("G24q-2/18/quad", "G24q-3/26/quad")
    return [
        {"kind": "lamp", "of": lamp, "part": "length_mm", "value": SHIPPED.lamp_by_id[lamp].length_mm.value}
        | {"who": "Ada", "on": DAY.isoformat(), "how": "with a caliper"}
        for lamp in lamps
    ]


def _loaded(path: Path) -> object:
    return shop.load_catalogue(path.parent)


SAID = (CaseProblem, ValidationError, OSError, training.UnknownTraineeError, shop.StoreProblem)


def damaged(raw: bytes, rng: random.Random) -> bytes:
    """Return a file with one to four faults of the kinds that disks, editors and hands make."""
    for _ in range(rng.randrange(1, 5)):
        at, length = rng.randrange(len(raw) + 1), rng.randrange(1, 60)
        kind = rng.randrange(6)
        if kind == 0 and raw:
            at = rng.randrange(len(raw))
            raw = raw[:at] + bytes([raw[at] ^ 1 << rng.randrange(8)]) + raw[at + 1 :]
        elif kind == 1:
            raw = raw[:at] + raw[at + length :]
        elif kind == 2:
            raw = raw[:at] + raw[at : at + length] * 2 + raw[at + length :]
        elif kind == 3:
            raw = raw[:at]
        elif kind == 4:
            raw = raw[:at] + rng.randbytes(length) + raw[at:]
        else:
            raw = _with_other_value(raw, rng)
    return raw


def _with_other_value(raw: bytes, rng: random.Random) -> bytes:
    """Put another JSON value in the place of one, so that the file stays JSON and only what it says is wrong."""
    values = [
        b"null",
        b"-1",
        b"1e999",
        b'""',
        b"[]",
        b"{}",
        b'"\\ud800"',
        b"true",
        b"9" * 400,
        b'"' + b"x" * 300 + b'"',
    ]
    places = [at for at in range(len(raw)) if raw[at : at + 1] == b":"]
    if not places:
        return raw
    at = rng.choice(places) + 1
    ends = [end for sign in (b",", b"}", b"\n") if (end := raw.find(sign, at)) > 0]
    return raw[:at] + b" " + rng.choice(values) + (raw[min(ends) :] if ends else b"")


def mutants(count: int, rng: random.Random) -> Iterator[Storm]:
    """Load damaged files of each kind; each is taken or refused in words."""
    kinds = samples()
    for name, (raw, load) in kinds.items():

        def one(name: str = name, raw: bytes = raw, load: Callable[[Path], object] = load) -> str:
            content = damaged(raw, rng)
            with tempfile.TemporaryDirectory() as folder:
                path = Path(folder) / name
                path.parent.mkdir(exist_ok=True)
                path.write_bytes(content)
                try:
                    with contextlib.suppress(*SAID):
                        load(path)
                finally:
                    shop.close_all()
            return repr(content[:80])

        yield _timed(name, -(-count // len(kinds)), one)


# -- nonsense


def codes(count: int, rng: random.Random) -> Iterator[Storm]:
    """Read marks of every kind."""

    def one() -> str:
        text = fuzz_marks.any_text(rng)
        fuzz_marks.check(text)
        return repr(text)

    yield _timed("codes", count, one)


LABEL_WORDS = (
    "ELECTRONIC BALLAST", "for (2) F32T8", "26W/32W/42W", "CFQ26W/G24q", "120-277V 50/60Hz", "MIN -18C", "0.21A",
    "EOL", "LINE", "magnetic", "class P", "rapid start", "UV-C", "germicidal", "emergency", "dimming",
    "1 lamp", "THD<10%", "replace with", "\n", "?", "*", "W", "\x00", "🙂", "(", ")", "18", "/", "-",
)  # fmt: skip


def any_label(rng: random.Random) -> str:
    if rng.randrange(4) == 0:
        return fuzz_marks.any_text(rng)
    return rng.choice((" ", "\n", ", ", "")).join(rng.choice(LABEL_WORDS) for _ in range(rng.randrange(30)))


def labels(count: int, rng: random.Random) -> Iterator[Storm]:
    """Read ballast labels of every kind."""

    def one() -> str:
        text = any_label(rng)
        fit.parse_label(text)
        return repr(text)

    yield _timed("labels", count, one)


def any_case(rng: random.Random) -> Case:
    """Return a case of any looks, marks and fixture that a hand could bring together."""
    looks: dict[str, str | float] = {}
    for look in rng.sample(SHIPPED.looks, rng.randrange(5)):
        if look.is_measured:
            looks[look.key] = rng.uniform(look.low or 1, look.high or 2000)
        elif look.values:
            looks[look.key] = rng.choice([*(value.value for value in look.values), desk.CANNOT_TELL])
    bases = [base.designation for base in SHIPPED.bases]
    holder = rng.choice([None, "", rng.choice(bases), fuzz_marks.any_text(rng)])
    fixture = {"holder": holder, "label": any_label(rng)[:4000] if rng.randrange(2) else ""}
    fixture["ballast"] = rng.choice(
        ("magnetic", "electronic", "dimming", "led-driver", "bypassed", "none", "unknown")
    )
    lamp = rng.choice([None, None, rng.choice(SHIPPED.lamps).id])
    use = rng.choice(get_args(fit.Use))
    return Case(looks=looks, marks=fuzz_marks.any_text(rng), fixture=fixture, chosen=lamp, use=use)


def cases(count: int, rng: random.Random) -> Iterator[Storm]:
    """Assess cases of every kind, and write the answers as JSON."""

    def one() -> str:
        case = any_case(rng)
        found = desk.assess(SHIPPED, case)
        json.loads(found.model_dump_json())
        if found.verdict == "sell" and found.asks:
            raise AssertionError("sold with a question open")
        return case.model_dump_json()

    yield _timed("cases", count, one)


def _timed(kind: str, count: int, one: Callable[[], str]) -> Storm:
    wrong: list[str] = []
    slowest, what = 0.0, ""
    for _ in range(count):
        begun = time.process_time()  # not the clock: other processes may hold this one up
        said = ""
        try:
            said = one()
        except Exception as fault:
            wrong.append(f"{type(fault).__name__}: {fault}"[:300])
        took = (time.process_time() - begun) * 1000
        if took > slowest:
            slowest, what = took, said
    return Storm(kind, count, tuple(wrong), slowest, what)


STORMS = {"kills": kills, "mutants": mutants, "codes": codes, "labels": labels, "cases": cases}


def main() -> int:
    """Run one and print what came of it."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("what", choices=STORMS)
    parser.add_argument("count", type=int)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--json", action="store_true")
    chosen = parser.parse_args()
    found = list(STORMS[chosen.what](chosen.count, random.Random(chosen.seed)))
    if chosen.json:
        print(json.dumps([one._asdict() for one in found]))
    else:
        for one in found:
            slowest = f"slowest {one.slowest_ms:.0f} ms {one.slowest[:40]}" if one.slowest else ""
            print(f"{one.kind:<38} {one.count:>8}  wrong {len(one.wrong)}  {slowest}")
            for words in one.wrong[:5]:
                print(f"    {words}")
    return int(any(one.wrong for one in found))


if __name__ == "__main__":
    sys.exit(main())
