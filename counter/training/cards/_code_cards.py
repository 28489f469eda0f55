"""Cards on printed codes: what a part says, and what a worn code could be, as `assess` reads them.

Only to find wrong answers are many codes read, without the rest of an assessment: that would take ten times as long.
"""

from __future__ import annotations

import re
from itertools import islice
from typing import TYPE_CHECKING

from counter.desk import Case
from counter.marks import format_code, read, spoken
from counter.training._models import Point
from counter.training.cards._build import Asked, Choice, build

if TYPE_CHECKING:
    import random
    from collections.abc import Iterable, Iterator

    from counter.catalogue import Lamp
    from counter.marks import Reading, Span
    from counter.training._models import Card, CardKind
    from counter.training.cards._facts import Lore

SYSTEMS = ("nema", "ilcos", "ansi-linear", "ansi-germicidal", "lbs")
COLOURS = ("827", "830", "835", "840", "865")  # the three digits printed for colour rendering and temperature
EASY_PARTS = ("rendering", "colour")  # any lamp has them: not worth guessing at
WRONG_CHOICES = 3
DIGITS = "0123456789"
READ_AT_MOST = 12  # codes read for the wrong choices of one card: reading is what takes its time


def code_points(lore: Lore, kind: CardKind) -> Iterator[Point]:
    """Yield one point for each family that codes are printed for."""
    for family in lore.lamps_of:
        if _codes(lore, family, COLOURS[0]):
            yield Point(id=f"{kind}/{family}", kind=kind, family=family)


def _code(lore: Lore, lamp: Lamp, system: str, colour: str) -> str | None:
    return format_code(lore.catalogue, lamp.id, system, colour)


def _codes(lore: Lore, family: str, colour: str) -> list[str]:
    """Return the codes printed for the lamps of a family in one colour."""
    lamps = lore.lamps_of.get(family, ())
    return [code for lamp in lamps for system in SYSTEMS if (code := _code(lore, lamp, system, colour))]


def _pick(lore: Lore, family: str, rng: random.Random) -> tuple[str, Reading] | None:
    """Pick a code of a family and read it; None where it is not read as itself."""
    codes = _codes(lore, family, rng.choice(COLOURS))
    if not codes:
        return None
    code = rng.choice(codes)
    found = readings_of(lore, code)
    return (code, found[0]) if found and found[0].lamps and found[0].canonical == code else None


def readings_of(lore: Lore, code: str) -> tuple[Reading, ...]:
    """Return how the counter reads a text."""
    return lore.assessed(Case(marks=code)).readings


def read_card(lore: Lore, point: Point, rng: random.Random) -> Card | None:
    """Ask what one part of a code says."""
    picked = _pick(lore, point.family, rng)
    spans = [span for span in picked[1].spans if is_askable(picked[0], span)] if picked else []
    if picked is None or not spans:
        return None
    code, reading = picked
    span = rng.choice(spans)
    kept = _as_kept(lore, code, span)
    if kept is None:
        return None
    wrong = islice(_other_meanings(lore, reading.system, kept, rng), WRONG_CHOICES)
    asked = Asked(
        kind="read-code",
        axis="code",
        question={"code": code, "part": span.text},
        why={"code": code, "part": span.text, "means": span.means},
        code=code,
        part=span.text,
        case=Case(marks=code),
    )
    others = (Choice(one, spoken(one)) for one in wrong)
    return build(point, asked, [Choice(kept.means, span.means, 1.0), *others])


def _as_kept(lore: Lore, code: str, span: Span) -> Span | None:
    """Return a part with its meaning in the program's own words, as records keep it."""
    readings = read(lore.catalogue, code).readings[:1]
    parts = (one for reading in readings for one in reading.spans)
    return next((one for one in parts if one.start == span.start and spoken(one.means) == span.means), None)


def is_askable(code: str, span: Span) -> bool:
    """Whether a part says something without a guess, stands in the code once, and does not give itself away."""
    bare = re.escape(span.text.strip().removesuffix("W"))
    gives_away = re.search(rf"\b{bare}\b", span.means) is not None
    return bool(bare and span.means and not span.assumed) and code.count(span.text) == 1 and not gives_away


def _other_meanings(lore: Lore, system: str, span: Span, rng: random.Random) -> Iterator[str]:
    """Yield what the same part says in other codes of the system, leaving out what says more or less the same."""
    seen = [span.means]
    colour = rng.choice(COLOURS)
    codes = [code for lamp in lore.catalogue.lamps if (code := _code(lore, lamp, system, colour))]
    if span.part in EASY_PARTS:
        codes = [code.replace(colour, other) for other in COLOURS for code in codes[:1]]
    for code in rng.sample(codes, min(READ_AT_MOST, len(codes))):
        for other in (one for reading in read(lore.catalogue, code).readings[:1] for one in reading.spans):
            if other.part == span.part and not any(_says_the_same(other.means, one) for one in seen):
                seen.append(other.means)
                yield other.means


def _says_the_same(one: str, other: str) -> bool:
    """Whether every word of one meaning stands in the other, so that both may be true."""
    words, others = set(re.findall(r"\w+", one)), set(re.findall(r"\w+", other))
    return words <= others or others <= words


def worn_card(lore: Lore, point: Point, rng: random.Random) -> Card | None:
    """Ask what a code with one unreadable character could be; wrong answers fit it too, but are no lamp's code."""
    picked = _pick(lore, point.family, rng)
    places = _places(*picked) if picked else []
    if picked is None or not places:
        return None
    code, at = picked[0], rng.choice(places)
    worn = f"{code[:at]}?{code[at + 1 :]}"
    if code not in could_be(readings_of(lore, worn)):
        return None
    wrong = islice(_impossible(lore, picked[1], at, rng), WRONG_CHOICES)
    asked = Asked(
        kind="worn-code",
        axis="code",
        question={"code": worn},
        why={"answer": code},
        code=worn,
        case=Case(marks=worn),
    )
    return build(point, asked, [Choice(code, code, 1.0), *(Choice(one, one) for one in wrong)])


def _places(code: str, reading: Reading) -> list[int]:
    """Return the places worth guessing at: not the first, alike in a whole system, the colour, or the W of watts."""
    spans = (span for span in reading.spans if span.part not in EASY_PARTS)
    return [
        at for span in spans for at in range(span.start, span.end) if at and code[at].isalnum() and code[at] != "W"
    ]


def _impossible(lore: Lore, reading: Reading, at: int, rng: random.Random) -> Iterator[str]:
    """Yield texts that differ from a code in one place, and are no code of any lamp type."""
    code = reading.canonical
    like = DIGITS if code[at].isdigit() else _letters(lore, reading.system, is_capital=code[at].isupper())
    for char in rng.sample(like, min(READ_AT_MOST // 2, len(like))):
        text = f"{code[:at]}{char}{code[at + 1 :]}"
        if text not in could_be(read(lore.catalogue, text).readings):
            yield text


def _letters(lore: Lore, system: str, *, is_capital: bool) -> str:
    """Return the letters that stand in codes of a system; any other gives away that it was made up."""
    codes = (_code(lore, lamp, system, COLOURS[0]) or "" for lamp in lore.catalogue.lamps)
    return "".join(sorted({one for one in "".join(codes) if one.isalpha() and one.isupper() == is_capital}))


def could_be(readings: Iterable[Reading]) -> set[str]:
    """Return the codes of lamp types among some readings."""
    return {reading.canonical for reading in readings if reading.lamps}
