"""What a card is, and what is worth learning."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from counter.catalogue import Model
from counter.desk import Case

CardKind = Literal[
    "name-base",
    "which-of-two",
    "read-code",
    "worn-code",
    "makers-code",
    "sale",
    "caution",
    "next-look",
    "notch-side",
    "uv-or-light",
]
Aspect = Literal["says", "why", "do"]  # of a caution: what is said, its reason, what to do
Axis = Literal["family", "notch", "kind", "verdict", "caution", "look", "code"]  # what a confusion matrix is over


class Point(Model):
    """One thing worth knowing; it is scheduled, and asked in ever other clothes (cards).

    `id` is kind/family or kind/family/subject and stays the same as long as the catalogue has the family.
    """

    id: str
    kind: CardKind
    family: str
    subject: str = ""
    is_critical: bool = False


class Draw(Model):
    """What to draw: a base face on, its lamp's glass with it, the whole turned clockwise."""

    base: str
    lamp: str | None = None
    turned_deg: Literal[0, 90, 180, 270] = 0


class Card(Model):
    """One question with its right answer, made from the catalogue.

    `values` are the canonical names of the choices for the confusion matrix. `worth` says how good each choice
    is, 1 being right; several may be right, `answer` is the best. `shown` says in words what the drawing
    shows. `case` is the case that `assess` is asked about; what it answers is the right answer. `instead` is the
    LED type asked for in place of its lamp, `aspect` which part of the first caution is asked for, `code` the text
    that is read.
    """

    id: str
    point: str
    kind: CardKind
    family: str
    axis: Axis
    question: str
    shown: str = ""
    choices: tuple[str, ...] = Field(min_length=2, max_length=9, description="answered by number key, 1 to 9")
    values: tuple[str, ...]
    worth: tuple[float, ...]
    answer: int
    why: str
    draw: Draw | None = None
    code: str | None = None
    part: str | None = None
    case: Case
    instead: str | None = None
    aspect: Aspect = "says"
    is_critical: bool = False

    @property
    def said(self) -> str:
        """Return the question with the drawing in words: what a command line or a screen reader gives."""
        return f"{self.question} {self.shown}".strip()
