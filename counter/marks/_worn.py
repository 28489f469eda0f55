"""Worn codes: what can be meant, by cost; each as a reading whose spans stand in the typed text."""

from __future__ import annotations

import re
from itertools import product
from math import exp
from typing import TYPE_CHECKING, NamedTuple

from counter.marks._align import Alignment, align
from counter.marks._answer import answer
from counter.marks._lex import fold
from counter.marks._models import Span
from counter.marks._noise import STRETCH, UNREADABLE, Noise
from counter.marks._segments import cut
from counter.marks._tables import tables
from counter.marks._vocabulary import vocabulary

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from counter.marks._house import HouseMaker
    from counter.marks._known import Known
    from counter.marks._models import Reading
    from counter.marks._vocabulary import Vocabulary

_MOST_CODES = 48  # looked at for one text
_MOST_WORDS = 3  # worn words of shorthand that are guessed together
_CHOICES = 5
_LEAST_READABLE = 2  # with one character or none, half of all codes fit
_WORD = re.compile(r"[^\s,;]+")


class Guess(NamedTuple):
    """A code that can be meant, its cost, and where its characters stand in the typed text."""

    code: str
    cost: float
    start: int
    alignment: Alignment


class Worn(NamedTuple):
    """Readings of a worn text with their costs, cheapest first."""

    readings: tuple[tuple[Reading, float], ...]
    is_complete: bool


def is_worn(plain: str) -> bool:
    """Whether a text marks unreadable characters."""
    return UNREADABLE in plain or STRETCH in plain


def read_worn(plain: str, text: str, known: Known, house: tuple[HouseMaker, ...]) -> Worn:
    """Return what a folded text can mean, by what the catalogue says can exist."""
    words = vocabulary(known, house)
    noise = Noise()
    guesses, is_complete = _whole_lines(plain, words, noise)
    guesses += _word_by_word(plain, words, noise, known, house)
    made: dict[tuple[object, ...], tuple[Reading, float]] = {}
    for guess in sorted(guesses, key=lambda guess: guess.cost):
        reading = _reading(guess, plain, text, known, house)
        if reading is not None and reading.lamps:
            made.setdefault((reading.lamps, reading.lamp, reading.system), (reading, guess.cost))
    return Worn(tuple(with_choices(made.values())), is_complete)


def _whole_lines(plain: str, words: Vocabulary, noise: Noise) -> tuple[list[Guess], bool]:
    """Search each line, and each piece between commas, for one whole code."""
    table = tables()["noise"]
    guesses: list[Guess] = []
    is_complete = True
    for match in list(re.finditer(r"(?:[^\n,;]|,(?! ))+", plain))[:4]:
        line = match[0].strip()
        left_out = _left_out(plain[: match.start()] + plain[match.end() :])
        start = match.start() + len(match[0]) - len(match[0].lstrip())
        if not 2 <= len(line) <= 60:
            continue
        if sum(map(str.isalnum, line)) < _LEAST_READABLE:
            is_complete = False
            continue
        most_cost = table["most_cost"] + noise.smudge * line.count(UNREADABLE)
        found = words.codes.search(line, _MOST_CODES, most_cost, table["window"], table["most_nodes"])
        is_complete = is_complete and found.is_complete
        for hit in found.hits:
            cost = hit.cost + words.before[hit.code] + left_out
            guesses.append(Guess(hit.code, cost, start, align(fold(hit.code), line, noise)))
    return guesses, is_complete


def _left_out(rest: str) -> float:
    table = tables()["noise"]
    signs = sum(map(str.isalnum, rest))
    return float(table["unread_word"] + table["background_character"] * signs) if signs else 0.0


def _word_by_word(
    plain: str, words: Vocabulary, noise: Noise, known: Known, house: Sequence[HouseMaker]
) -> list[Guess]:
    """Guess the worn words of shorthand in any order; the whole text stays as one code."""
    line = plain.strip()
    matches = list(_WORD.finditer(line))
    if not 2 <= len(matches) <= 8 or len(line) > 80:
        return []
    worn = [match for match in matches if _is_unclear(match[0], known, house)]
    if not 1 <= len(worn) <= _MOST_WORDS:
        return []
    options = [words.words.search(match[0], 6, 12.0, 5.0, 4000).hits for match in worn]
    guesses = []
    for chosen in product(*options):
        code, at, cost = "", 0, tables()["noise"]["systems"]["partial"]
        for match, hit in zip(worn, chosen, strict=True):
            code += line[at : match.start()] + hit.code
            at, cost = match.end(), cost + hit.cost
        code += line[at:]
        start = len(plain) - len(plain.lstrip())
        guesses.append(Guess(code, cost, start, align(fold(code), line, noise)))
    return sorted(guesses, key=lambda guess: guess.cost)[:16]


def _is_unclear(word: str, known: Known, house: Sequence[HouseMaker]) -> bool:
    return is_worn(word) or bool(cut(word, known, house).unknown)


def _reading(guess: Guess, plain: str, text: str, known: Known, house: Sequence[HouseMaker]) -> Reading | None:
    segments = cut(fold(guess.code), known, house)
    if not segments.found or segments.unknown:
        return None
    reading, _, joined = answer(segments.found, guess.code, known, 0.0)
    if joined.clashes:
        return None
    spans = tuple(_spans(reading.spans, guess, text))
    assumed = tuple(_assumed(guess, plain))
    return reading.model_copy(update={"spans": spans, "assumptions": (*assumed, *reading.assumptions)})


def _spans(spans: Iterable[Span], guess: Guess, text: str) -> Iterator[Span]:
    """Move a code's spans to where they stand in the typed text; parts that were not typed have none."""
    code = fold(guess.code)
    for span in spans:
        places = [place for place in guess.alignment.typed_at[span.start : span.end] if place is not None]
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


def _assumed(guess: Guess, plain: str) -> Iterator[str]:
    code = fold(guess.code)
    under_stretch: dict[int, str] = {}
    for at, place in enumerate(guess.alignment.typed_at):
        typed = plain[guess.start + place] if place is not None else None
        if typed is None:
            if code[at].isalnum():
                yield f"{guess.code[at]} was put in."
        elif typed == STRETCH and place is not None:
            under_stretch[place] = under_stretch.get(place, "") + guess.code[at]
        elif typed != code[at] and (typed.isalnum() or typed == UNREADABLE):
            yield f"{typed} was taken as {guess.code[at]}."
    for stretch in under_stretch.values():
        yield f"* was taken as {stretch}."
    for place in guess.alignment.added:
        if plain[guess.start + place].isalnum():
            yield f"{plain[guess.start + place]} was left out."


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


def background(plain: str) -> float:
    """Return the cost of a text that is none of the codes: each readable character by chance."""
    table = tables()["noise"]
    readable = sum(character.isalnum() for character in plain)
    smudged = table["smudge"] * plain.count(UNREADABLE)
    return float(table["background"] + table["background_character"] * readable + smudged)


def weights(costs: Sequence[float], none_of_these: float) -> list[float]:
    """Return probabilities from costs, one more possibility being none of these."""
    least = min((*costs, none_of_these))
    raw = [exp(least - cost) for cost in costs]
    total = sum(raw) + exp(least - none_of_these)
    return [value / total for value in raw]
