"""What is said of a text: what was understood, what not, and what to look at instead."""

from __future__ import annotations

from typing import TYPE_CHECKING

from counter.marks._resolve import LOOK_INSTEAD
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

_TOO_LITTLE = "Too little can be read to tell these codes apart: give one or two more characters."
_CLASH = {
    "base": "Two bases in one text: {} and {}. Which of them stands on the lamp?",
    "number": "Two numbers in one text: {} and {}. Which of them stands on the lamp?",
    "tube_mm": "Two tube diameters in one text: {} mm and {} mm. Measure the tube.",
    "watts": "Two wattages in one text: {} W and {} W. Which of them stands on the lamp?",
    "pins": "Two numbers of pins in one text: {} and {}. Count them.",
    "kind": "Two kinds of lamp in one text: {} and {}. Ask before anything is sold.",
    "cct_k": "Two colours in one text: {} K and {} K. The first was taken.",
}


def too_long(length: int, most: int) -> str:
    """Say that a text was cut; the text itself is kept."""
    return f"{length} characters: only the first {most} were read. Type the one line that stands on the lamp."


def nothing(unknown: Sequence[tuple[int, int]], text: str) -> str:
    """Say that a text is no code, and what to look at instead."""
    what = _quoted(unknown, text) or repr(text.strip()[:30])
    return f"Nothing understood in {what}. {LOOK_INSTEAD}"


def _quoted(places: Sequence[tuple[int, int]], text: str) -> str:
    return ", ".join(repr(text[start:end][:30]) for start, end in places[:4])


def clash(key: str, first: object, second: object) -> str:
    """Say that a text states one thing twice, with two values."""

    def name(value: object) -> str:
        return str(getattr(value, "text", f"{value:g}" if isinstance(value, float) else value))

    return _CLASH[key].format(name(first), name(second))


def of_reading(reading: Reading, meaning: Meaning, joined: Together) -> list[str]:
    """Say what was assumed for a reading, and what of it is impossible or in doubt."""
    problems = list(reading.assumptions)
    if joined.facts.keys() & {"base", "watts", "number", "pins", "shapes"}:
        problems += meaning.problems
    kinds = {lamp.kind for lamp in meaning.lamps}
    if reading.lamps and "uv-c" in kinds and len(kinds) > 1:
        problems.append("This does not say whether it is a lighting or a germicidal lamp (UV-C): look at the glass.")
    return problems


def of_worn(clean: Clean, worn: Worn, makers: MakersRead, readings: Sequence[Reading], text: str) -> tuple[str, ...]:
    """Say what a worn text was taken as, or that it cannot be told."""
    if not readings:
        return (nothing(clean.unknown, text), *(() if worn.is_complete and not is_worn(text) else (_TOO_LITTLE,)))
    best = readings[0]
    problems = _of_makers(makers, readings) if best.grammar == "letters" else _left_over(clean, best, text)
    others = [other for other in readings[1:] if other.probability > best.probability / 2]
    guessed = best.assumptions if best.canonical not in {reading.canonical for reading in clean.readings} else ()
    if guessed and best.probability < tables()["limits"]["clear_probability"]:
        problems.append(_TOO_LITTLE)
    elif guessed and others:
        rest = " or ".join(other.canonical for other in others)
        problems.append(f"Either {best.canonical} or {rest}: look at the doubtful characters again.")
    elif guessed:
        problems.append(f"Taken as {best.canonical}: {' '.join(guessed)}")
    elif not worn.is_complete:
        problems.append(_TOO_LITTLE)
    return tuple(problems)


def _of_makers(makers: MakersRead, readings: Sequence[Reading]) -> list[str]:
    """Say which letters are a maker's own, which known ones do not go with the rest, and what is in doubt."""
    best = readings[0]
    own = list(dict.fromkeys(span.text for span in best.spans if span.part == "maker"))
    problems = []
    if makers.denied:
        listed = ", ".join(makers.denied)
        problems.append(f"{listed} has another meaning in this shop than the rest of the code. Which is right?")
    if own:
        rest = f" {LOOK_INSTEAD}" if len(best.lamps) != 1 else ""
        problems.append(f"The maker's own, not known in this shop: {', '.join(own)}.{rest}")
    for what, unit in (("watts", "W"), ("cct_k", "K")):
        mine = getattr(best.lamp, what)
        likely = (one for one in readings[1:] if one.probability > best.probability / 5)
        others = {value for one in likely if (value := getattr(one.lamp, what)) not in (None, mine)}
        if mine is not None and others:
            more = " or ".join(f"{value:g}" for value in sorted(others))
            problems.append(f"{mine:g} {unit} or {more} {unit}: look at the number again.")
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
    unread = f"Not understood: {_quoted(clean.unknown, text)}."
    if len(best.lamps) == 1:
        return f"{unread} The rest was read."
    return f"Understood: {' '.join(_stretches(best, text))}. {unread} {LOOK_INSTEAD}"


def _stretches(reading: Reading, text: str) -> Iterator[str]:
    """Yield what was read as it was typed, parts that touch as one."""
    spans = sorted((one for one in reading.spans if one.part != "maker"), key=lambda span: span.start)
    ends = [at for at, span in enumerate(spans) if at + 1 == len(spans) or spans[at + 1].start > span.end]
    first = 0
    for last in ends:
        yield text[spans[first].start : spans[last].end]
        first = last + 1
