"""Worn codes: what can be meant, by cost; each as a reading whose spans stand in the typed text."""

from __future__ import annotations

import re
from collections import Counter
from typing import TYPE_CHECKING, NamedTuple

from counter.marks._answer import answer
from counter.marks._lex import STRETCH, UNREADABLE, fold
from counter.marks._models import Span
from counter.marks._noise import Alignment, align, noise
from counter.marks._segments import cut
from counter.marks._sentences import LEFT_OUT, PUT_IN, TAKEN
from counter.marks._tables import tables
from counter.marks._vocabulary import vocabulary

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from counter.marks._house import HouseMaker
    from counter.marks._known import Known
    from counter.marks._models import Reading
    from counter.marks._vocabulary import Vocabulary

_MOST_CODES = 48  # looked at for one text
_CHOICES = 5
_MOST_ALIKE = 4  # codes of one lamp type that are read: more, mostly its colours, are never shown
_MOST_KEPT = 1024  # codes whose own reading is kept
_LEAST_READABLE = 2  # with one character or none, half of all codes fit


class Guess(NamedTuple):
    """A code that can be meant, its cost, and the line of the folded text it is read from."""

    code: str
    cost: float
    start: int
    line: str


class Worn(NamedTuple):
    """Readings of a worn text with their costs, cheapest first."""

    readings: tuple[tuple[Reading, float], ...]
    is_complete: bool


def read_worn(plain: str, text: str, known: Known, house: tuple[HouseMaker, ...], known_cost: float) -> Worn:
    """Return what a folded text can mean, by what the catalogue says can exist.

    `known_cost` is that of the best other way to read the text: what costs much more need not be found.
    """
    words = vocabulary(known, house)
    most = known_cost + tables()["noise"]["window"]
    guesses, is_complete = _whole_lines(plain, words, most)
    made: dict[tuple[object, ...], tuple[Reading, float]] = {}
    alike: Counter[str] = Counter()
    for guess in sorted(guesses, key=lambda guess: guess.cost):
        if made and guess.cost > next(iter(made.values()))[1] + tables()["noise"]["window"]:
            break
        lamp = words.written[guess.code].lamp
        alike[lamp] += 1
        reading = _answered(guess.code, known, house) if alike[lamp] <= _MOST_ALIKE else None
        if reading is None or not reading.lamps:
            continue
        key = (reading.lamps, reading.lamp, reading.system)
        if key not in made:
            made[key] = (_as_typed(reading, guess, plain, text), guess.cost)
    return Worn(tuple(with_choices(made.values())), is_complete)


def _whole_lines(plain: str, words: Vocabulary, most: float) -> tuple[list[Guess], bool]:
    """Search each line, and each piece of it between commas, for one whole code."""
    table = tables()["noise"]
    guesses: list[Guess] = []
    is_complete = True
    for match in _pieces(plain):
        line = match[0].strip()
        left_out = _left_out(plain[: match.start()] + plain[match.end() :])
        start = match.start() + len(match[0]) - len(match[0].lstrip())
        if not 2 <= len(line) <= 60:
            continue
        if sum(map(str.isalnum, line)) < _LEAST_READABLE:
            is_complete = False
            continue
        most_cost = min(most - left_out, table["most_cost"] + noise().smudge * line.count(UNREADABLE))
        found = words.codes.search(line, _MOST_CODES, most_cost, table["window"], table["most_nodes"])
        is_complete = is_complete and found.is_complete
        for hit in found.hits:
            cost = hit.cost + words.written[hit.code].cost + left_out
            guesses.append(Guess(hit.code, cost, start, line))
    return guesses, is_complete


def _pieces(plain: str) -> list[re.Match[str]]:
    lines = list(re.finditer(r"[^\n;]+", plain))[:4]
    between = list(re.finditer(r"(?:[^\n,;]|,(?! ))+", plain))[:4]
    places = {match.span() for match in lines}
    return [*lines, *(match for match in between if match.span() not in places)]


def _left_out(rest: str) -> float:
    table = tables()["noise"]
    signs = sum(map(str.isalnum, rest))
    return float(table["unread_word"] + table["background_character"] * signs) if signs else 0.0


def _as_typed(reading: Reading, guess: Guess, plain: str, text: str) -> Reading:
    alignment = align(fold(guess.code), guess.line, noise())
    spans = tuple(_spans(reading.spans, guess, alignment, text))
    assumed = tuple(_assumed(guess, alignment, plain))
    return reading.model_copy(update={"spans": spans, "assumptions": (*assumed, *reading.assumptions)})


def _answered(code: str, known: Known, house: tuple[HouseMaker, ...]) -> Reading | None:
    """Return what a whole code reads as; kept, since from one keystroke to the next mostly the same codes fit."""
    kept = vocabulary(known, house).answered
    if code not in kept:
        if len(kept) >= _MOST_KEPT:
            kept.clear()
        kept[code] = _answer(code, known, house)
    return kept[code]


def _answer(code: str, known: Known, house: tuple[HouseMaker, ...]) -> Reading | None:
    segments = cut(fold(code), known, house)
    if not segments.found or segments.unknown:
        return None
    reading, _, joined = answer(segments.found, code, known, 0.0)
    return None if joined.clashes else reading


def _spans(spans: Iterable[Span], guess: Guess, alignment: Alignment, text: str) -> Iterator[Span]:
    """Move a code's spans to where they stand in the typed text; parts that were not typed have none."""
    code = fold(guess.code)
    for span in spans:
        places = [place for place in alignment.typed_at[span.start : span.end] if place is not None]
        if not places:
            continue
        start, end = guess.start + min(places), guess.start + max(places) + 1
        meant = guess.code[span.start : span.end]
        as_typed = fold(text[start:end]) == code[span.start : span.end]
        yield Span(
            start=start,
            end=end,
            text=text[start:end],
            means=span.means,
            part=span.part,
            assumed=None if as_typed else meant,
        )


def _assumed(guess: Guess, alignment: Alignment, plain: str) -> Iterator[str]:
    code = fold(guess.code)
    under_stretch: dict[int, str] = {}
    for at, place in enumerate(alignment.typed_at):
        typed = plain[guess.start + place] if place is not None else None
        if typed is None:
            if code[at].isalnum():
                yield PUT_IN.format(typed=guess.code[at])
        elif typed == STRETCH and place is not None:
            under_stretch[place] = under_stretch.get(place, "") + guess.code[at]
        elif typed != code[at] and (typed.isalnum() or typed == UNREADABLE):
            yield TAKEN.format(typed=typed, what=guess.code[at])
    for stretch in under_stretch.values():
        yield TAKEN.format(typed=STRETCH, what=stretch)
    for place in alignment.added:
        if plain[guess.start + place].isalnum():
            yield LEFT_OUT.format(typed=plain[guess.start + place])


def with_choices(readings: Iterable[tuple[Reading, float]]) -> Iterator[tuple[Reading, float]]:
    """Give each doubtful span what else it can be: what the other readings took the same part for."""
    rows = list(readings)
    taken: dict[tuple[str, int], list[str]] = {}
    for reading, _ in rows:
        for span in reading.spans:
            options = taken.setdefault((span.part, span.start), [])
            meant = span.assumed or span.text
            if meant not in options and len(options) < _CHOICES:
                options.append(meant)
    for reading, cost in rows:
        spans = tuple(
            span.model_copy(update={"choices": tuple(options)})
            if len(options := taken[span.part, span.start]) > 1 or span.assumed
            else span
            for span in reading.spans
        )
        yield reading.model_copy(update={"spans": spans}), cost
