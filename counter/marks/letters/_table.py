"""The table of letters: what is taught stands before what was learned, and each can be taken back."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Literal

from pydantic import ValidationError

from counter.catalogue import Model, findings_from, json_path
from counter.files import read_bytes
from counter.language import tr
from counter.marks._house import HouseMaker
from counter.marks._letters import KnownLetters, LettersMean
from counter.marks._lex import fold

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence
    from pathlib import Path

    from counter.catalogue import Catalogue, Lamp

SHOP = "this shop"
LETTERS_FILE = "letters.json"  # in which older programs kept them


class LettersUnreadableError(ValueError):
    """The file of letters is no such file; it is left as it is."""


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


def read_letters(path: Path) -> LetterTable:
    """Return the letters in the file of an older program, which the shop's store takes over once.

    Raises:
        OSError: the file cannot be read.
        LettersUnreadableError: it holds something else.
    """
    try:
        return LetterTable.model_validate_json(read_bytes(path))
    except ValidationError as problem:
        first = findings_from(problem)[0]
        place = json_path(first.loc) or tr("file")
        told = tr("{file}, {place}: {problem}; mend it or take it away")
        told = told.format(file=LETTERS_FILE, place=place, problem=first.what)
        raise LettersUnreadableError(told) from None


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
        told = tr("“{letters}” are no letters: a maker's own letters stand without figures and signs")
        raise ValueError(told.format(letters=letters[:20]))
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


def accept(table: LetterTable, learned: Sequence[KnownLetters], *, is_whole: bool = True) -> LetterTable:
    """Return the table with letters learned from a list; what is learned anew replaces what was.

    A whole lesson also replaces all else of an earlier one from a list of that name; else more is only added.
    """
    again = {fold(one.letters) for one in learned}
    names = {one.list_name for one in learned} if is_whole else set()
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


def against(means: LettersMean, catalogue: Catalogue, lamp: Lamp) -> tuple[str, ...]:
    """Return the fields in which letters say something else than a lamp type is."""
    base = catalogue.base_of(lamp)
    true: dict[str, Any] = {"shape": lamp.shape, "legs": lamp.legs, "pins": base.pins.value, "kind": lamp.kind}
    said = means.stated()
    found = [key for key, value in true.items() if value is not None and said.get(key, value) != value]
    of_base = (None, lamp.base, base.family, base.designation)
    return (*found, *(() if said.get("base") in of_base else ("base",)))


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
