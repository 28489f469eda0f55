"""What the desk answers a case with: everything that any pane shows of it."""

from __future__ import annotations

from pydantic import Field

from counter.catalogue import Model
from counter.desk._disputes import Conflict
from counter.desk._doubts import Doubt
from counter.desk._letters_asked import LettersAsked
from counter.desk._sold import SoldBefore
from counter.desk.notes import LabelNote, LawNotes, LightNotes
from counter.fit import Ask, Caution, Replacement, Verdict
from counter.identify import Candidate, NextLook
from counter.marks import Reading


class Assessment(Model):
    """Everything that any pane shows of one case."""

    headline: str
    subline: str
    advice: str
    candidates: tuple[Candidate, ...]
    next: tuple[NextLook, ...]
    readings: tuple[Reading, ...] = ()
    sold: tuple[SoldBefore, ...] = Field((), description="what this very code was sold as in this shop before")
    letters: tuple[LettersAsked, ...] = Field(
        (), description="letters whose meaning in this shop the case speaks against: to be asked about again"
    )
    conflicts: tuple[Conflict, ...] = ()
    problems: tuple[str, ...] = ()
    lamp: str | None = Field(None, description="the chosen lamp type, or the leading one when it is likely enough")
    nearest: str | None = Field(None, description="the best of the likeliest base and kind, once anything is known")
    outlines: tuple[str, ...] = Field(
        (),
        description="the best lamp type of every base and kind, in the order to show them; empty: nothing is known",
    )
    is_settled: bool = False
    verdict: Verdict | None = None
    doubts: tuple[Doubt, ...] = Field((), description="what keeps the case open, the gravest first; none: it is free")
    first_words: tuple[Caution, ...] = Field((), description="what must be said before all else, the gravest first")
    cautions: tuple[Caution, ...] = ()
    asks: tuple[Ask, ...] = ()
    replacements: tuple[Replacement, ...] = ()
    label: LabelNote | None = Field(None, description="what was understood from the pasted ballast label")
    light: LightNotes | None = Field(
        None, description="exposure, UV-A limit or colour of the lamp, or of the nearest"
    )
    law: LawNotes | None = None
