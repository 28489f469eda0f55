"""What must hold of one base."""

from __future__ import annotations

from itertools import combinations
from math import dist
from typing import TYPE_CHECKING, get_args

from counter.catalogue._models import Arrangement, notch_look
from counter.catalogue._problems import Finding, shown
from counter.language import figure, tr

if TYPE_CHECKING:
    from collections.abc import Iterator

    from counter.catalogue._models import Base, Pins
    from counter.catalogue._parts import Parts
    from counter.catalogue._problems import Loc

WORDS = {
    "arrangement": get_args(Arrangement),
    "block": ("yes", "no"),
    "starter": ("internal", "external", "none", "integral"),
}
SLACK_MM = 0.5  # drawn pins may stray from the measured spacing by its own spread and this
FARTHEST_MM = 60  # from the middle of the pattern; GX53 has 26.5


def base_rules(base: Base, loc: Loc, parts: Parts) -> Iterator[Finding]:
    """Yield what is wrong with one base."""
    yield from _words(base, loc)
    yield from _pins(base, loc)
    yield from _spacing(base, loc)
    yield from _notches(base, loc, parts)
    yield from _supply(base, loc)


def _words(base: Base, loc: Loc) -> Iterator[Finding]:
    for field, allowed in WORDS.items():
        word = getattr(base, field)
        if word is not None and word.value not in allowed:
            what = tr("{word} is not one of the words allowed here").format(word=shown(word.value))
            yield Finding((*loc, field, "value"), what, tr("Write one of {words}.").format(words=", ".join(allowed)))
    if base.designation.partition("-")[0] != base.family:
        what = tr("{family} is not {designation} without its key number").format(
            family=shown(base.family), designation=shown(base.designation)
        )
        yield Finding(
            (*loc, "family"), what, tr("Write {word}.").format(word=shown(base.designation.partition("-")[0]))
        )
    for field in ("designation", "hold", "tell"):
        if not getattr(base, field).strip():
            yield Finding((*loc, field), tr("this text is empty"), tr("Write it."))


def _pins(base: Base, loc: Loc) -> Iterator[Finding]:
    drawn = base.face.pins.at
    if "face" in base.model_fields_set and base.pins.value != len(drawn):  # without a face nobody said where they are
        what = tr("{pins} pins are counted and {drawn} drawn in face.pins").format(
            pins=figure(base.pins.value), drawn=len(drawn)
        )
        yield Finding((*loc, "pins", "value"), what, tr("Count the pins of one base, or of one end."))
    for index, pin in enumerate(drawn):
        if max(abs(pin.x_mm), abs(pin.y_mm)) > FARTHEST_MM:
            what = tr("a pin more than {most} mm from the middle").format(most=FARTHEST_MM)
            yield Finding((*loc, "face", "pins", "at", index), what, tr("Give millimetres from the middle."))


def _spacing(base: Base, loc: Loc) -> Iterator[Finding]:
    spacing = base.pin_spacing_mm
    if spacing is None:
        return
    if not base.spacing_means:
        what = tr("the spacing does not say between which pins")
        yield Finding((*loc, "spacing_means"), what, tr('Add it, as "between the two pins".'))
    if (spacing.confidence == "confirmed") != (base.face.pins.confidence == "confirmed"):
        return  # what the shop measured stands, whatever was drawn from memory
    drawn = _distances(base.face.pins)
    if drawn and min(abs(mm - spacing.value) for mm in drawn) > (spacing.plus_minus or 0) + SLACK_MM:
        what = tr("{spacing} mm, but the pins are drawn {drawn} mm apart").format(
            spacing=figure(spacing.value), drawn=tr(" and ").join(figure(mm, ".1f") for mm in drawn)
        )
        yield Finding((*loc, "pin_spacing_mm", "value"), what, tr("Correct the number, or face.pins."))


def _distances(pins: Pins) -> list[float]:
    """Return what a ruler meets between drawn pins, mm: nearest neighbours, and the sides of a rectangle."""
    points = [(pin.x_mm, pin.y_mm) for pin in pins.at]
    every = sorted({round(dist(a, b), 2) for a, b in combinations(points, 2)})
    is_rectangle = len(points) == 4 and len({y for _, y in points}) > 1
    return every[:2] if is_rectangle and len(every) > 2 else every[:1]


def _notches(base: Base, loc: Loc, parts: Parts) -> Iterator[Finding]:
    answers = parts.answers("notch")
    for index, name in enumerate(base.family_notches):
        if answers is not None and name not in answers:
            what = tr("{answer} is no answer to the look {key}").format(answer=shown(name), key="notch")
            yield Finding(
                (*loc, "family_notches", index),
                what,
                tr("Write one of {words}.").format(words=", ".join(sorted(answers))),
            )
    notches = base.face.notches
    if notches is None:
        return
    here, look = (*loc, "face", "notches"), notch_look(notches.at)
    if len(notches.at) > 2 or len({notch.size for notch in notches.at}) > 1:
        yield Finding((*here, "at"), tr("no look names these notches"), tr("Draw none, one, or two of one size."))
    elif (answers is not None and look not in answers) or look not in (base.family_notches or (look,)):
        yield Finding(
            (*here, "at"),
            tr("they look {look}, which family_notches does not have").format(look=look),
            tr("Correct one of the two."),
        )
    if notches.at and base.face.centre is None:
        yield Finding(here, tr("notches without a centre block or post to cut them in"), tr("Add face.centre."))


def _supply(base: Base, loc: Loc) -> Iterator[Finding]:
    is_integral = base.starter is not None and base.starter.value == "integral"
    if (base.supply == "mains") != is_integral:
        what = tr("supply {supply} with starter {starter}").format(
            supply=base.supply, starter=shown(base.starter.value) if base.starter else "?"
        )
        yield Finding((*loc, "supply"), what, tr("Mains and an integral starter go together, one needs the other."))
    is_ends = base.arrangement is not None and base.arrangement.value == "ends"
    if base.arrangement is not None and is_ends != (base.mount == "two-ends"):
        what = tr("mount {mount} with arrangement {arrangement}").format(
            mount=base.mount, arrangement=shown(base.arrangement.value)
        )
        yield Finding((*loc, "mount"), what, tr("Two ends and the arrangement ends go together."))
