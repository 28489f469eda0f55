"""Law and disposal for the place of the shop."""

from __future__ import annotations

from datetime import date  # pydantic needs the class itself
from typing import TYPE_CHECKING

from counter import fit
from counter.catalogue import EVERYWHERE, DisposalNote, Model
from counter.fit import BrokenStep, LawNote
from counter.language import marked, tr

if TYPE_CHECKING:
    from counter.catalogue import Catalogue, Lamp

PLACE_NOT_SET = marked("No place is chosen, so no law can be named. Choose the shop's place above.")
NO_LAMP = marked("No lamp is named yet. First say which lamp.")
NO_ROW = marked("No rule was found for this lamp type in this place. That does not mean it is allowed.")
NO_END = marked("Nothing listed here ends the sale itself in this place. That does not mean it is allowed.")
UNKNOWN_PLACE = marked("The table does not know this place. That does not mean it is allowed.")


class LawNotes(Model):
    """What ends when, what to do with dead lamps, and the steps for a broken one."""

    place: str | None
    place_name: str | None
    on: date | None
    says: str = ""
    check: str = ""
    rows: tuple[LawNote, ...] = ()
    disposal: tuple[DisposalNote, ...] = ()
    disposal_check: str = ""
    broken: tuple[BrokenStep, ...] = ()


def law_notes(catalogue: Catalogue, place: str | None, on: date | None, lamp: Lamp | None, broken: bool) -> LawNotes:
    """Return law and disposal for one lamp; the steps only while a lamp lies broken."""
    rows = fit.law(catalogue, place, on, lamp) if lamp is not None else ()
    names = {one.id: one.name for one in fit.places(catalogue)}
    return LawNotes(
        place=place,
        place_name=names.get(place or ""),
        on=on,
        says=tr(_says(place, place in names, lamp, rows)),
        check=fit.law_check(),
        rows=rows,
        disposal=fit.disposal(catalogue, place),
        disposal_check=fit.disposal_check(),
        broken=fit.broken_steps() if broken else (),
    )


def _says(place: str | None, is_known: bool, lamp: Lamp | None, rows: tuple[LawNote, ...]) -> str:
    if place is None:
        return PLACE_NOT_SET
    if not is_known:
        return UNKNOWN_PLACE
    if lamp is None:
        return NO_LAMP
    if not rows:
        return NO_ROW
    return NO_END if all(one.place == EVERYWHERE for one in rows) else ""
