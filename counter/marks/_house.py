"""House codes: what a maker's own prefix means, written down by the shop as a table."""

from __future__ import annotations

import re
from functools import cache, cached_property
from typing import TYPE_CHECKING, Literal, TypeAlias

from pydantic import Field

from counter.catalogue import Kind, LampShape, Model
from counter.files import read_bytes
from counter.marks._caps import take_cap
from counter.marks._colour import take_colour
from counter.marks._letters import KnownLetters
from counter.marks._lex import Draft, Parsed, fold
from counter.marks._tables import tables

if TYPE_CHECKING:
    from pathlib import Path

    from counter.marks._known import Known


HOUSE_FILE = "house-codes.json"


class HouseFacts(Model):
    """What a part of a house code says of the lamp; absent: nothing."""

    kind: Kind | None = None
    shapes: tuple[LampShape, ...] | None = None
    base: str | None = None
    watts: float | None = None
    pins: int | None = None
    cct_k: int | None = None
    cri_min: int | None = None


class HouseChoice(Model):
    """What one spelling of a part means."""

    means: str
    facts: HouseFacts = Field(default_factory=lambda: HouseFacts())  # made when needed: at import it costs 40 ms


Spelled: TypeAlias = "tuple[tuple[str, str, HouseChoice], ...]"  # as it is folded, as it is written, what it means


def _spelled(choices: dict[str, HouseChoice]) -> Spelled:
    rows = ((fold(text), text, choice) for text, choice in choices.items())
    return tuple(sorted(rows, key=lambda row: -len(row[0])))


class HousePart(Model):
    """One part of a house code: a fixed text, one of some choices, a number, or a colour code."""

    part: str
    means: str = ""
    before: str = Field("", description="sign that stands before it; it may be missing")
    text: str | None = None
    choices: dict[str, HouseChoice] = Field(default_factory=dict)
    number: Literal["watts", "pins"] | None = None
    colour: bool = False
    optional: bool = False

    @cached_property
    def spelled(self) -> Spelled:
        """What can stand here, the longest first."""
        return _spelled(self.choices if self.text is None else {self.text: HouseChoice(means=self.means)})


class HouseMaker(Model):
    """The house codes of one maker: parts in their order, and whole codes that follow no pattern."""

    maker: str
    parts: tuple[HousePart, ...] = ()
    codes: dict[str, HouseChoice] = Field(default_factory=dict)
    letters: tuple[KnownLetters, ...] = Field((), description="letters that this shop gave a meaning to")
    example: str | None = None

    @cached_property
    def whole(self) -> Spelled:
        """The whole codes, the longest first."""
        return _spelled(self.codes)


class HouseTable(Model):
    """The shop's own file of house codes."""

    format: Literal["lamp-counter/house-codes"] = "lamp-counter/house-codes"
    version: Literal[1] = 1
    makers: tuple[HouseMaker, ...] = ()


def read_house(path: Path) -> tuple[HouseMaker, ...]:
    """Return the makers in a file of house codes.

    Raises:
        OSError: the file cannot be read.
        ValueError: it is not a table of house codes.
    """
    return HouseTable.model_validate_json(read_bytes(path)).makers


@cache
def shipped_house() -> tuple[HouseMaker, ...]:
    """Return the shipped example of an invented maker."""
    return tuple(HouseMaker.model_validate(row) for row in tables()["house"])


def house_code(plain: str, at: int, known: Known, maker: HouseMaker) -> Parsed | None:
    """Read a code of this maker at a place: a whole one that follows no pattern, else its parts."""
    draft = Draft(plain, at)
    is_whole = _one_of(draft, "code", maker.whole, known)
    if not is_whole and not (maker.parts and all(_part(draft, part, known) for part in maker.parts)):
        return None
    return draft.parsed("house", maker.maker) if draft.ends() else None


def _part(draft: Draft, part: HousePart, known: Known) -> bool:
    before, clean = draft.at, draft.clean
    draft.skip(f"[ {re.escape(part.before)}]*" if part.before else " *")
    draft.clean += part.before
    if _one_of(draft, part.part, part.spelled, known) or _number(draft, part) or _colour(draft, part):
        return True
    draft.at, draft.clean = before, clean
    return part.optional


def _one_of(draft: Draft, part: str, spelled: Spelled, known: Known) -> bool:
    """Take the longest of some spellings that stands here."""
    found = next((row for row in spelled if draft.letters(row[0])), None)
    if found is None:
        return False
    _, text, choice = found
    draft.add(len(text), part, choice.means, text)
    stated = choice.facts.model_dump(exclude_none=True)
    printed = stated.pop("base", None)
    draft.state(**stated)
    if printed and (base := take_cap(fold(printed), 0, known)):
        draft.state(base=base.cap)
    return True


def _number(draft: Draft, part: HousePart) -> bool:
    match = draft.find(r"\d{1,3}") if part.number else None
    if match is None or part.number is None:
        return False
    draft.add(len(match[0]), part.part, f"{int(match[0])} {part.means}", str(int(match[0])))
    draft.state(**{part.number: int(match[0])})
    return True


def _colour(draft: Draft, part: HousePart) -> bool:
    if part.colour and take_colour(draft):
        draft.state(kind="fluorescent")
        return True
    return False
