"""The words on paper, in each language that resources/paper.json holds."""

from __future__ import annotations

import json
from functools import cache
from typing import TYPE_CHECKING, NamedTuple

from counter import paths
from counter.catalogue import notch_look

if TYPE_CHECKING:
    from counter.catalogue import Base

LANGUAGES = ("en", "es")


class PaperWords(NamedTuple):
    """The sentences of one language by key; a key that is missing is a fault of the table and raises KeyError."""

    table: dict[str, str]

    def __call__(self, key: str, **figures: object) -> str:
        """Return one sentence, its figures filled in."""
        return self.table[key].format(**figures)

    def notch(self, base: Base) -> tuple[str, str]:
        """Say the key of a base, and its doubt; either may be empty."""
        notches = base.face.notches
        if notches is None:
            return (self("notch-unknown") if base.family_notches else "", "")
        is_doubtful = notches.is_unsure and bool(notches.at)
        return self(f"notch-{notch_look(notches.at)}"), self("unsure-alone") if is_doubtful else ""

    def length(self, mm: float) -> str:
        """Write millimetres with the language's decimal sign."""
        text = f"{mm:g}".replace(".", self("decimal"))
        return f"{text}\N{THIN SPACE}mm"


@cache
def words_in(language: str) -> PaperWords:
    """Return the words of one language.

    Raises:
        KeyError: the table has no such language.
    """
    table = json.loads((paths.resources() / "paper.json").read_text(encoding="utf-8"))
    return PaperWords(table[language])
