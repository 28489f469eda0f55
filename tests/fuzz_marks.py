"""Feed reading with many strings of every kind: python -m tests.fuzz_marks COUNT [SEED]. Nothing may raise."""

from __future__ import annotations

import random
import sys
import time
from math import isfinite

from counter import catalogue, marks
from counter.marks._vocabulary import codes_of

SHIPPED = catalogue.load()
CODES = list(codes_of(SHIPPED, marks.shipped_house()))
SIGNS = "GX24q-3/?*FCTRWU0O1IlSB859, .=()\"'\n\t°×"
WORDS = [
    "26W",
    "4-pin",
    "841",
    "quad",
    "G24q",
    "2G11",
    "T8",
    "?",
    "*",
    "uv-c",
    "48 inch",
    "120V",
    "F32T8",
    "🙂",
    "\x00",
]


def any_text(rng: random.Random) -> str:
    """Return a string: of any character, of code-like signs, of words, or a code with damage."""
    kind = rng.randrange(5)
    if kind == 0:
        return "".join(chr(rng.randrange(0x110000)) for _ in range(rng.randrange(12)))
    if kind == 1:
        return "".join(rng.choice(SIGNS) for _ in range(rng.randrange(24)))
    if kind == 2:
        return rng.choice((" ", "/", "", ", ", "\n")).join(rng.choice(WORDS) for _ in range(rng.randrange(6)))
    signs = list(rng.choice(CODES))
    for _ in range(rng.randrange(5)):
        place = rng.randrange(len(signs))
        signs[place] = rng.choice(("", "?", "*", rng.choice(SIGNS), chr(rng.randrange(0x3000)), signs[place] * 2))
    return "".join(signs)


def check(text: str) -> None:
    """Read a text and check what must hold of every answer."""
    found = marks.read(SHIPPED, text)
    assert found.text == text
    chances = [reading.probability for reading in found.readings]
    assert all(isfinite(chance) and 0 <= chance <= 1 for chance in chances)
    assert sum(chances) <= 1 + 1e-9
    assert chances == sorted(chances, reverse=True)
    for reading in found.readings:
        assert all(text[span.start : span.end] == span.text != "" for span in reading.spans)
        assert set(reading.lamps) <= SHIPPED.lamp_by_id.keys()
    assert all(0 < value <= 1 + 1e-9 for value in found.likelihood.values())
    assert 0 < found.floor <= 1


def main(count: int, seed: int = 1) -> None:
    """Run and say how far it came."""
    rng = random.Random(seed)
    begun = time.perf_counter()
    for number in range(1, count + 1):
        text = any_text(rng)
        try:
            check(text)
        except Exception:
            print(f"string {number} of seed {seed}: {text!r}")
            raise
        if number % 20_000 == 0:
            print(f"{number} strings, {time.perf_counter() - begun:.0f} s", flush=True)
    print(f"{count} strings of seed {seed}: nothing raised, every answer whole")


if __name__ == "__main__":
    main(int(sys.argv[1]), *map(int, sys.argv[2:3]))
