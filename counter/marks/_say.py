"""What is said of a text: what was understood, what not, and what to look at instead."""

from __future__ import annotations

from typing import TYPE_CHECKING

from counter.marks._sentences import (
    CLASHES,
    DOUBTFUL_NUMBER,
    EITHER,
    EITHER_KIND,
    LOOK_INSTEAD,
    MAKERS_OWN,
    MAKERS_OWN_LOOK,
    NEAREST,
    NOT_UNDERSTOOD,
    NOTHING,
    OTHER_MEANING,
    PARTLY,
    TAKEN_AS,
    TOO_LITTLE,
    TOO_LONG,
)
from counter.marks._tables import tables
from counter.marks._weigh import is_worn

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from counter.marks._makers import MakersRead
    from counter.marks._models import Reading
    from counter.marks._resolve import Meaning
    from counter.marks._segments import Together
    from counter.marks._weigh import Clean
    from counter.marks._worn import Worn


def too_long(length: int, most: int) -> str:
    """Say that a text was cut; the text itself is kept."""
    return TOO_LONG.format(n=length, most=most)


def nothing(unknown: Sequence[tuple[int, int]], text: str) -> str:
    """Say that a text is no code, and what to look at instead."""
    what = _quoted(unknown, text) or repr(text.strip()[:30])
    return NOTHING.format(text=what, what=LOOK_INSTEAD)


def _quoted(places: Sequence[tuple[int, int]], text: str) -> str:
    return ", ".join(repr(text[start:end][:30]) for start, end in places[:4])


def clash(key: str, first: object, second: object) -> str:
    """Say that a text states one thing twice, with two values."""

    def name(value: object) -> str:
        return str(getattr(value, "text", f"{value:g}" if isinstance(value, float) else value))

    return CLASHES[key].format(one=name(first), other=name(second))


def of_reading(reading: Reading, meaning: Meaning, joined: Together) -> list[str]:
    """Say what was assumed for a reading, and what of it is impossible or in doubt."""
    problems = list(reading.assumptions)
    if joined.facts.keys() & {"base", "watts", "number", "pins", "shapes"}:
        problems += meaning.problems
    kinds = {lamp.kind for lamp in meaning.lamps}
    if reading.lamps and "uv-c" in kinds and len(kinds) > 1:
        problems.append(EITHER_KIND)
    return problems


def of_worn(clean: Clean, worn: Worn, makers: MakersRead, readings: Sequence[Reading], text: str) -> tuple[str, ...]:
    """Say what a worn text was taken as, or that it cannot be told."""
    if not readings:
        return (nothing(clean.unknown, text), *(() if worn.is_complete and not is_worn(text) else (TOO_LITTLE,)))
    best = readings[0]
    problems = _of_makers(makers, readings) if best.grammar == "letters" else _left_over(clean, best, text)
    others = [other for other in readings[1:] if other.probability > best.probability / 2]
    guessed = best.assumptions if best.canonical not in {reading.canonical for reading in clean.readings} else ()
    if guessed and best.probability < tables()["limits"]["clear_probability"]:
        problems.append(TOO_LITTLE)
    elif guessed and others:
        rest = " or ".join(other.canonical for other in others)
        problems.append(EITHER.format(code=best.canonical, others=rest))
    elif guessed:
        says = NEAREST if clean.is_unlisted else TAKEN_AS
        problems.append(says.format(code=best.canonical, what=" ".join(guessed)))
    elif not worn.is_complete:
        problems.append(TOO_LITTLE)
    return tuple(problems)


def _of_makers(makers: MakersRead, readings: Sequence[Reading]) -> list[str]:
    """Say which letters are a maker's own, which known ones do not go with the rest, and what is in doubt."""
    best = readings[0]
    own = list(dict.fromkeys(span.text for span in best.spans if span.part == "maker"))
    problems = []
    if makers.denied:
        listed = ", ".join(makers.denied)
        problems.append(OTHER_MEANING.format(letters=listed))
    if own:
        says = MAKERS_OWN if len(best.lamps) == 1 else MAKERS_OWN_LOOK
        problems.append(says.format(letters=", ".join(own), what=LOOK_INSTEAD))
    for what, unit in (("watts", "W"), ("cct_k", "K")):
        mine = getattr(best.lamp, what)
        likely = (one for one in readings[1:] if one.probability > best.probability / 5)
        others = {value for one in likely if (value := getattr(one.lamp, what)) not in (None, mine)}
        if mine is not None and others:
            more = " or ".join(f"{value:g}" for value in sorted(others))
            problems.append(DOUBTFUL_NUMBER.format(n=f"{mine:g}", unit=unit, others=more))
    return problems


def _left_over(clean: Clean, best: Reading, text: str) -> list[str]:
    """Return what the grammars had to say, where the best reading is theirs or the text was typed without a gap."""
    is_clean = any(best.canonical == reading.canonical for reading in clean.readings)
    if not is_clean and (clean.unknown or is_worn(text)):
        return []
    problems = list(clean.problems)
    if clean.unknown:
        problems.append(_partly(clean, best, text))
    return problems


def _partly(clean: Clean, best: Reading, text: str) -> str:
    """Say what was not understood, and where the rest leaves several lamp types open, what to look at."""
    unread = _quoted(clean.unknown, text)
    if len(best.lamps) == 1:
        return NOT_UNDERSTOOD.format(text=unread)
    return PARTLY.format(read=" ".join(_stretches(best, text)), text=unread, what=LOOK_INSTEAD)


def _stretches(reading: Reading, text: str) -> Iterator[str]:
    """Yield what was read as it was typed, parts that touch as one."""
    spans = sorted((one for one in reading.spans if one.part != "maker"), key=lambda span: span.start)
    ends = [at for at, span in enumerate(spans) if at + 1 == len(spans) or spans[at + 1].start > span.end]
    first = 0
    for last in ends:
        yield text[spans[first].start : spans[last].end]
        first = last + 1
