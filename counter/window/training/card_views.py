"""What to draw beside a question, and what to mark once it is answered: plain data, no Qt."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from counter.language import tr
from counter.outline import face_view, look_icon, side_view
from counter.window.outlines.facts import differences

if TYPE_CHECKING:
    from counter.catalogue import Base, Catalogue, Lamp
    from counter.marks import Reading, Span
    from counter.outline import Drawing
    from counter.training import Card

HOLDER_PARTS = frozenset({"pins", "pin_spacing", "notch", "block", "outline"})  # of a holder nothing else is seen
DECIDES = {"uv-or-light": ("glass",)}  # looks that alone may settle such a card


@dataclass(frozen=True, slots=True)
class Figure:
    """A face and, where it has glass, the lamp from the side; `marked` names the parts that decide."""

    face: Drawing
    side: Drawing | None = None
    caption: str = ""
    marked: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class Seen:
    """One look of a case: what was looked at, what was seen, and its picture."""

    key: str
    title: str
    value: str
    icon: Drawing | None
    decides: bool = False


@dataclass(frozen=True, slots=True)
class Shown:
    """All that stands beside a question: drawings, or a code with its parts, or looks."""

    first: Figure | None = None
    second: Figure | None = None
    words: str = ""
    code: str = ""
    spans: tuple[Span, ...] = ()
    bracket: str = ""  # the part asked about
    waits: str = ""  # what will stand in the free place once the card is answered
    looks: tuple[Seen, ...] = ()


def before(catalogue: Catalogue, card: Card) -> Shown:
    """Return what is drawn with the question."""
    case = card.case
    if card.draw is not None:
        waits = (
            tr("Here it will stand with its notched side up.")
            if card.axis == "notch"
            else tr("Here its look-alike will stand.")
        )
        return Shown(first=_drawn(catalogue, card, card.draw.turned_deg), words=card.shown, waits=waits)
    if card.code:
        return Shown(code=card.code, bracket=card.part or "")
    if case.chosen is not None:
        lamp = catalogue.lamp_by_id[case.chosen]
        first = _figure(lamp, catalogue.base_of(lamp), tr("the lamp: {base}").format(base=lamp.base))
        return Shown(first=first, second=_holder(catalogue, lamp, case.fixture.holder))
    return Shown(looks=tuple(_seen(catalogue, key, value) for key, value in case.looks.items()))


def after(catalogue: Catalogue, card: Card, choice: int | None) -> Shown:
    """Return the same with what decides marked, and a look-alike beside it where there is one."""
    shown = before(catalogue, card)
    if shown.code:
        return _read(catalogue, card, shown)
    if shown.looks:
        keys = DECIDES.get(card.kind, ())
        return replace(shown, looks=tuple(replace(one, decides=one.key in keys) for one in shown.looks))
    if shown.first is None:
        return shown
    if card.axis == "notch":
        upright = replace(_drawn(catalogue, card, 0), caption=tr("notched side up"), marked=frozenset({"notch"}))
        return replace(shown, first=replace(shown.first, marked=upright.marked), second=upright)
    if card.draw is not None:
        return _against(catalogue, card, shown, shown.first, choice)
    return _against_holder(catalogue, card, shown, shown.first)


def _figure(lamp: Lamp, base: Base, caption: str = "") -> Figure:
    return Figure(face_view(base), side_view(lamp, base), caption)


def _drawn(catalogue: Catalogue, card: Card, turned_deg: int) -> Figure:
    assert card.draw is not None
    base = catalogue.base_by_name[card.draw.base]
    face = face_view(base, turned_deg=turned_deg)
    if card.draw.lamp is None:
        return Figure(face)
    return Figure(face, side_view(catalogue.lamp_by_id[card.draw.lamp], base))


def _holder(catalogue: Catalogue, lamp: Lamp, holder: str | None) -> Figure | None:
    base = catalogue.base_by_name.get(holder or "")
    if base is None or base.designation == lamp.base:
        return None
    return Figure(face_view(base), caption=tr("the holder takes: {base}").format(base=holder))


def _seen(catalogue: Catalogue, key: str, value: str | float) -> Seen:
    look = catalogue.look_by_key[key]
    label = next((one.label for one in look.values if one.value == value), "")
    words = tr(label) or f"{value}\N{THIN SPACE}{'W' if key == 'watts' else 'mm'}"
    return Seen(key, tr(look.label), words, look_icon(key, str(value)))


def _other_lamp(catalogue: Catalogue, card: Card, choice: int | None) -> Lamp | None:
    """Return a lamp of the family it was taken for, or of the next wrong one."""
    wrong = [at for at, worth in enumerate(card.worth) if worth < 1]
    family = card.values[choice] if choice in wrong and choice is not None else card.values[wrong[0]]
    return next((lamp for lamp in catalogue.lamps if catalogue.base_of(lamp).family == family), None)


def _parts(catalogue: Catalogue, here: Lamp, there: Lamp) -> frozenset[str]:
    found = {one.part for one in differences(catalogue, here, there) if one.part}
    return frozenset(found | ({"pins"} if "pin_spacing" in found else set()))


def _against(catalogue: Catalogue, card: Card, shown: Shown, first: Figure, choice: int | None) -> Shown:
    there = _other_lamp(catalogue, card, choice)
    if card.draw is None or card.draw.lamp is None or there is None:
        return shown
    here = catalogue.lamp_by_id[card.draw.lamp]
    base, parts = catalogue.base_of(there), _parts(catalogue, here, there)
    caption = tr("for comparison: {base}").format(base=base.designation)
    second = Figure(face_view(base, turned_deg=card.draw.turned_deg), side_view(there, base), caption, parts)
    return replace(
        shown, first=replace(first, caption=tr("asked: {base}").format(base=here.base), marked=parts), second=second
    )


def _against_holder(catalogue: Catalogue, card: Card, shown: Shown, first: Figure) -> Shown:
    if shown.second is None or card.case.chosen is None:
        return shown
    holder = next((lamp for lamp in catalogue.lamps if lamp.base == card.case.fixture.holder), None)
    if holder is None:
        return shown
    parts = _parts(catalogue, catalogue.lamp_by_id[card.case.chosen], holder) & HOLDER_PARTS
    return replace(shown, first=replace(first, marked=parts), second=replace(shown.second, marked=parts))


def _read(catalogue: Catalogue, card: Card, shown: Shown) -> Shown:
    """Return the code that was right with all its parts, and the lamp it names."""
    from counter.desk import Case
    from counter.training import known_here

    code = card.choices[card.answer] if card.kind == "worn-code" else shown.code
    found: tuple[Reading, ...] = known_here(catalogue, Case(marks=code)).readings
    if not found:
        return shown
    lamps = found[0].lamps
    names_one = len(lamps) == 1 or (lamps and card.kind != "makers-code")  # a maker's code may leave several open
    lamp = catalogue.lamp_by_id[lamps[0]] if names_one else None
    figure = _figure(lamp, catalogue.base_of(lamp), lamp.base) if lamp is not None else None
    return replace(shown, code=code, spans=found[0].spans, second=figure)
