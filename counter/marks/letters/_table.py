"""The table of letters: what is taught stands before what was learned, and each can be taken back."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Literal

from counter.catalogue import Model
from counter.marks._house import HouseMaker
from counter.marks._letters import KnownLetters, LettersMean
from counter.marks._lex import fold

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from counter.catalogue import Catalogue

SHOP = "this shop"


class LetterTable(Model):
    """All letters that this shop gave a meaning to; one row for letters taught, one for letters learned."""

    format: Literal["lamp-counter/letters"] = "lamp-counter/letters"
    version: Literal[1] = 1
    letters: tuple[KnownLetters, ...] = ()

    @property
    def counting(self) -> tuple[KnownLetters, ...]:
        """The rows that reading goes by: what was taught by hand hides what was learned of the same letters."""
        rows: dict[str, KnownLetters] = {}
        for one in sorted(self.letters, key=lambda one: one.source == "taught"):
            rows[fold(one.letters)] = one
        return tuple(rows.values())


def knows(table: LetterTable, letters: str) -> bool:
    """Whether these letters have a meaning here."""
    return any(fold(one.letters) == fold(letters) for one in table.letters)


def teach(table: LetterTable, letters: str, means: LettersMean, *, who: str, at: str) -> LetterTable:
    """Return the table with these letters taught; an older teaching of them is replaced.

    Raises:
        ValueError: these are no letters.
    """
    text = fold(letters.strip())
    if not text.isalpha():
        raise ValueError(f"“{letters[:20]}” are no letters: a maker's own letters stand without figures and signs")
    taught = KnownLetters(letters=text, means=means, source="taught", who=who, at=at)
    kept = (one for one in table.letters if not (one.source == "taught" and fold(one.letters) == text))
    return table.model_copy(update={"letters": (*kept, taught)})


def ordinary(table: LetterTable, letters: Iterable[str], *, who: str, at: str) -> LetterTable:
    """Return the table with letters taught as an ordinary lamp's of this maker: they decide nothing."""
    for one in letters:
        table = teach(table, one, LettersMean(), who=who, at=at)
    return table


def forget(table: LetterTable, letters: str) -> LetterTable:
    """Return the table without these letters, taught or learned."""
    kept = tuple(one for one in table.letters if fold(one.letters) != fold(letters.strip()))
    return table.model_copy(update={"letters": kept})


def accept(table: LetterTable, learned: Sequence[KnownLetters]) -> LetterTable:
    """Return the table with letters learned from a list; an earlier lesson from a list of that name is replaced."""
    again = {fold(one.letters) for one in learned}
    names = {one.list_name for one in learned}
    kept = (
        one
        for one in table.letters
        if one.source == "taught" or not (one.list_name in names or fold(one.letters) in again)
    )
    return table.model_copy(update={"letters": (*kept, *learned)})


def withdraw(table: LetterTable, list_name: str) -> LetterTable:
    """Return the table without what was learned from a list."""
    kept = tuple(one for one in table.letters if one.source == "taught" or one.list_name != list_name)
    return table.model_copy(update={"letters": kept})


def as_house(table: LetterTable) -> HouseMaker:
    """Return the letters in the form that reading takes."""
    return HouseMaker(maker=SHOP, letters=table.counting)


def contradicted(
    table: LetterTable, catalogue: Catalogue, words: Iterable[str], lamp_id: str
) -> tuple[KnownLetters, ...]:
    """Return the rows for these letters that say something else than a settled lamp: they are to be asked again."""
    lamp = catalogue.lamp_by_id[lamp_id]
    base = catalogue.base_by_name[lamp.base]
    true: dict[str, Any] = {"shape": lamp.shape, "legs": lamp.legs, "pins": base.pins.value, "kind": lamp.kind}
    rows = {fold(one.letters): one for one in table.counting}
    found = []
    for word in words:
        row = rows.get(fold(word))
        said = row.means.stated() if row else {}
        wrong = any(key in said and value is not None and said[key] != value for key, value in true.items())
        if row and (wrong or said.get("base") not in (None, lamp.base, base.family)):
            found.append(row)
    return tuple(found)


def letters_report(letters: Iterable[KnownLetters]) -> dict[str, Any]:
    """Return letters in the words of the command line contract."""
    rows = [
        {
            "letters": one.letters,
            "means": one.means.stated(),
            "support": one.support,
            "against": one.against,
            "from": one.source,
            "who": one.who or None,
            "at": one.at or None,
            "list": one.list_name or None,
            "examples": list(one.examples),
        }
        for one in letters
    ]
    return {"letters": rows}
