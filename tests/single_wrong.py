"""One wrong look among right ones: does the true base stay among the three best? Over the whole catalogue."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import product
from operator import mul, truediv
from typing import TYPE_CHECKING

from counter.identify._sizes import SizeTable
from counter.identify._tables import tables_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from counter.catalogue import Catalogue
    from counter.identify._words import WordTable

TOP = 3
Answer = str | float


@dataclass(frozen=True)
class Wrong:
    """All looks right but one. Places count bases, ties against the true one."""

    lamp: str
    look: str
    right: Answer
    wrong: Answer
    place: int  # of the true base with the wrong answer
    place_right: int  # with all looks right
    place_without: int  # with the other looks right and this one not taken

    @property
    def is_told_apart(self) -> bool:
        """Whether right looks put the true base among the three best at all."""
        return self.place_right <= TOP

    @property
    def is_failure(self) -> bool:
        """Whether the wrong look drops a base that right looks tell apart."""
        return self.is_told_apart and self.place > TOP

    def __str__(self) -> str:
        return (
            f"{self.lamp}: {self.look} {self.right} taken for {self.wrong}: place {self.place} "
            f"(all right {self.place_right}, without the look {self.place_without})"
        )


def check(catalogue: Catalogue) -> list[Wrong]:
    """Try every wrong answer to every look at every lamp type; a truth the catalogue does not know is not told.

    Where only the notches of a family are known, each of them is the truth in turn.
    """
    return [wrong for at in range(len(catalogue.lamps)) for wrong in _lamp(catalogue, at)]


def _lamp(catalogue: Catalogue, at: int) -> Iterator[Wrong]:
    tables = tables_of(catalogue)
    truths = {key: _truths(table, table.row_of[at]) for key, table in tables.items()}
    known = {key: answers for key, answers in truths.items() if answers}
    for answers in product(*known.values()):
        right = dict(zip(known, answers, strict=True))
        weights = [catalogue.prevalence[lamp.id] for lamp in catalogue.lamps]
        for key, answer in right.items():
            weights = list(map(mul, weights, tables[key].hear(answer).chances))
        place = _place(catalogue, at, weights)
        for key, answer in right.items():
            without = list(map(truediv, weights, tables[key].hear(answer).chances))
            place_without = _place(catalogue, at, without)
            for other in _wrongs(tables[key], at, answer):
                there = _place(catalogue, at, list(map(mul, without, tables[key].hear(other).chances)))
                yield Wrong(catalogue.lamps[at].id, key, answer, other, there, place, place_without)


def _truths(table: WordTable | SizeTable, row: int) -> tuple[Answer, ...]:
    if isinstance(table, SizeTable):
        size = table.rows[row]
        return () if size is None else (size.mean,)
    return tuple(sorted(table.truths[row].allowed))


def _wrongs(table: WordTable | SizeTable, at: int, right: Answer) -> Iterator[Answer]:
    """Yield every other word, or every size of another lamp and both ends of the ruler, that does not agree."""
    if isinstance(table, SizeTable):
        others = {size.mean for size in table.rows if size is not None} | {table.low, table.high}
        yield from (other for other in sorted(others) if table.hear(other).speaks[at] is False)
        return
    also = {value.value: value.also for value in table.look.values}.get(str(right), ())
    yield from (value for value in table.values if value != right and value not in also)


def _place(catalogue: Catalogue, at: int, weights: list[float]) -> int:
    sums: dict[str, float] = {}
    for lamp, weight in zip(catalogue.lamps, weights, strict=True):
        sums[lamp.base] = sums.get(lamp.base, 0.0) + weight
    own = sums.pop(catalogue.lamps[at].base)
    return 1 + sum(weight >= own * (1 - 1e-9) for weight in sums.values())


def summary(found: list[Wrong]) -> dict[str, float]:
    """Return counts and the share that stays in the top three."""
    first = [one for one in found if one.place_right == 1]
    told = [one for one in found if one.is_told_apart]
    lost = [one for one in told if one.is_failure]
    blind = [one for one in lost if one.place_without > TOP]
    return {
        "wrong answers tried": len(found),
        "of lamps that right looks put in the top three bases": len(told),
        "true base stays in the top three": len(told) - len(lost),
        "share": 1 - len(lost) / len(told),
        "lost": len(lost),
        "lost of lamps that right looks put first": sum(one.place > TOP for one in first),
        "lost though the other looks alone would have kept it": len(lost) - len(blind),
    }
