"""Words that name a family of lamps by shape, ends or output; harmless on the labels of that family alone."""

from __future__ import annotations

from functools import cache, lru_cache
from typing import TYPE_CHECKING, Literal, NamedTuple, get_args

from counter.words._topics import letters, phrases, table

if TYPE_CHECKING:
    from collections.abc import Iterable

Trait = Literal["shape", "ends", "output"]
TRAITS: tuple[Trait, ...] = get_args(Trait)


class Family(NamedTuple):
    """A stretch of folded text that names lamps by one trait, and the values of it that are meant."""

    start: int
    end: int
    of: Trait
    values: tuple[str, ...]


@cache
def _rows() -> dict[str, tuple[Trait, tuple[str, ...]]]:
    rows = table()["families"]["rows"]
    return {letters(word): (row["of"], tuple(row["values"])) for row in rows for word in row["words"]}


@lru_cache(maxsize=256)
def families(plain: str) -> tuple[Family, ...]:
    """Return what names a family in folded text; of words within longer ones the longer speak alone."""
    found = [Family(start, end, *_rows()[word]) for start, end, word in phrases(plain, _rows())]
    return tuple(one for one in found if not any(_is_within(one, other) for other in found))


def _is_within(one: Family, other: Family) -> bool:
    return other.start <= one.start and one.end <= other.end and (one.start, one.end) != (other.start, other.end)


def other_family(found: Iterable[Family], traits: dict[Trait, tuple[str, ...]]) -> Family | None:
    """Return the first words that name lamps of another family, where no words of that trait name this lamp's.

    `traits` holds what a lamp is by each trait; a trait that is left out is not judged.
    """
    named = tuple(found)
    for of in TRAITS:
        said = [one for one in named if one.of == of and of in traits]
        if said and not any(set(one.values) & set(traits[of]) for one in said):
            return said[0]
    return None
