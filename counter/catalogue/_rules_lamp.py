"""What must hold of one lamp type."""

from __future__ import annotations

from typing import TYPE_CHECKING

from counter.catalogue._problems import Finding, shown
from counter.language import figure as spoken
from counter.language import tr

if TYPE_CHECKING:
    from collections.abc import Iterator

    from counter.catalogue._models import Base, Circuit, Figure, Lamp
    from counter.catalogue._parts import Parts
    from counter.catalogue._problems import Loc

LEGS = {"twin": 2, "quad": 4, "triple": 6, "four-fold": 8, "long-twin": 2, "flat": 4}
LENGTH_MM = (40, 3100)  # from the smallest plug-in lamps to the longest tubes, ten feet in signs
TUBE_MM = (5, 45)  # T2 is about 7, T12 about 38
LENGTH_SLACK_MM = 20  # a saver fills the place of another lamp: as long as that within what holders take up
DIMS = ("no", "with a dimming ballast")
AIR_C = {"starts_above_c": (-40, 25), "most_light_at_c": (5, 60)}  # what the trade's tables span
POWER_SHARE = (0.7, 1.3)  # lamp power over nominal watts; the law's pairs lie between 0.8 and 1.08
POWER_FACTOR = (0.7, 1.05)  # power over current times voltage: an arc distorts at mains frequency, hardly above
MOST_UVC_SHARE = 0.5  # about 45 % of lamp input is the most that low-pressure mercury gives at 254 nm


def lamp_rules(lamp: Lamp, loc: Loc, parts: Parts) -> Iterator[Finding]:
    """Yield what is wrong with one lamp type."""
    if lamp.base not in parts.base_names:
        yield Finding(
            (*loc, "base"),
            tr("there is no base {name}").format(name=shown(lamp.base)),
            tr("Add it to bases, or correct the name."),
        )
    yield from _id(lamp, loc)
    yield from _answers(lamp, loc, parts)
    yield from _sizes(lamp, loc)
    for field, circuit in (("mains", lamp.mains), ("hf", lamp.hf)):
        if circuit is not None:
            yield from _circuit(circuit, lamp, (*loc, field))
    yield from _ultraviolet(lamp, loc)
    yield from _purpose(lamp, loc)
    yield from _starting(lamp, loc)
    yield from _saver(lamp, loc, parts)
    base = parts.base_by_name.get(lamp.base)
    if base is not None:
        yield from _ballasts(lamp, base, loc)


def _id(lamp: Lamp, loc: Loc) -> Iterator[Finding]:
    start = "/".join([lamp.base, f"{lamp.watts.value:g}", *([lamp.shape] if lamp.shape else [])])
    if lamp.id != start and not lamp.id.startswith(f"{start}/"):
        yield Finding(
            (*loc, "id"),
            tr("does not begin with base, watts and shape"),
            tr("Begin it with {start}.").format(start=shown(start)),
        )
    kinds = {"uv-c", "uv-a", "uv-b", "led"}
    tail, kind = lamp.id.rpartition("/")[2], lamp.band or lamp.kind
    if (kind in kinds or tail in kinds) and tail != kind:
        what = tr("the id ends in {tail}, the kind is {kind}").format(tail=shown(tail), kind=kind)
        yield Finding((*loc, "id"), what, tr("End the id of a lamp for other than lighting with its kind."))


def _answers(lamp: Lamp, loc: Loc, parts: Parts) -> Iterator[Finding]:
    """Yield what no look could ever find out about the lamp."""
    expected = LEGS.get(lamp.shape or "")
    if lamp.legs != expected:
        what = tr("{legs} legs with the shape {shape}").format(legs=lamp.legs or "–", shape=lamp.shape or "–")
        yield Finding(
            (*loc, "legs"),
            what,
            tr("Write {word}.").format(word=expected) if expected else tr("Leave legs out for this shape."),
        )
    legs, answers = parts.legs_by_shape.get(lamp.shape or "none", str(lamp.legs)), parts.answers("legs")
    if lamp.legs == expected and answers is not None and legs not in answers:
        what = tr("{answer} is no answer to the look {key}").format(answer=shown(legs), key="legs")
        yield Finding((*loc, "shape"), what, tr("Add the answer to the look, or the shape to legs_by_shape."))
    watts, answers = f"{lamp.watts.value:g}", parts.answers("watts")
    if answers is not None and watts not in answers and not parts.is_shop:
        yield Finding(
            (*loc, "watts"),
            tr("{answer} is no answer to the look {key}").format(answer=watts, key="watts"),
            tr("Add it there."),
        )
    if lamp.glass is not None and lamp.glass.value not in (glass := parts.answers("glass") or {"white", "clear"}):
        what = tr("{answer} is no answer to the look {key}").format(answer=shown(lamp.glass.value), key="glass")
        yield Finding(
            (*loc, "glass", "value"), what, tr("Write one of {words}.").format(words=", ".join(sorted(glass)))
        )


def _sizes(lamp: Lamp, loc: Loc) -> Iterator[Finding]:
    if lamp.watts.value <= 0:
        yield Finding(
            (*loc, "watts", "value"), f"{spoken(lamp.watts.value)} W", tr("Write the watts printed on the lamp.")
        )
    limits = {"length_mm": LENGTH_MM, "length_also_mm": LENGTH_MM, "tube_mm": TUBE_MM}
    for field, (low, high) in limits.items():
        figure: Figure | None = getattr(lamp, field)
        if figure is not None and not low <= figure.value <= high:
            what = tr("{length} mm is outside {low} to {high} mm").format(
                length=spoken(figure.value), low=low, high=high
            )
            yield Finding((*loc, field, "value"), what, tr("Give millimetres."))

    if lamp.length_also_mm is not None and (
        lamp.length_mm is None or lamp.length_also_mm.value <= lamp.length_mm.value
    ):
        what = tr("a second length that is not the longer one")
        yield Finding((*loc, "length_also_mm", "value"), what, tr("Write the shorter as length_mm."))


def _circuit(circuit: Circuit, lamp: Lamp, loc: Loc) -> Iterator[Finding]:
    power, current, voltage = circuit.power_w, circuit.current_a, circuit.voltage_v
    for field, figure in (("power_w", power), ("current_a", current), ("voltage_v", voltage)):
        if figure is not None and figure.value <= 0:
            yield Finding((*loc, field, "value"), spoken(figure.value), tr("Write a number above 0."))
    watts = lamp.watts.value
    if power is not None and watts > 0 and not _within(power.value / watts, POWER_SHARE):
        what = tr("{power} W in a lamp of {watts} W").format(power=spoken(power.value), watts=spoken(watts))
        yield Finding((*loc, "power_w", "value"), what, tr("Give the lamp's own power, without the ballast's."))
    if power and current and voltage and min(power.value, current.value, voltage.value) > 0:
        product = current.value * voltage.value
        if not _within(power.value / product, POWER_FACTOR):
            what = tr("{power} W, but current times voltage is {product}").format(
                power=spoken(power.value), product=spoken(product, ".1f")
            )
            yield Finding((*loc, "power_w", "value"), what, tr("One of the three is mistaken."))


def _ultraviolet(lamp: Lamp, loc: Loc) -> Iterator[Finding]:
    if lamp.uvc_w is not None and lamp.kind != "uv-c":
        yield Finding(
            (*loc, "uvc_w"),
            tr("a {kind} lamp with a UV-C output").format(kind=lamp.kind),
            tr("Correct kind, or remove it."),
        )
    if lamp.uvc_w is not None and not 0 < lamp.uvc_w.value <= lamp.watts.value * MOST_UVC_SHARE:
        what = tr("{uvc_w} W of UV-C from {watts} W").format(
            uvc_w=spoken(lamp.uvc_w.value), watts=spoken(lamp.watts.value)
        )
        yield Finding((*loc, "uvc_w", "value"), what, tr("At most about 45 % is possible."))
    if lamp.kind == "uv-c" and lamp.glass is not None and lamp.glass.value != "clear":
        yield Finding(
            (*loc, "glass", "value"), tr("a UV-C lamp whose glass is not clear"), tr("Correct kind or glass.")
        )
    if lamp.arc_mm is not None and lamp.length_mm is not None and lamp.arc_mm.value > 2 * lamp.length_mm.value:
        yield Finding(
            (*loc, "arc_mm", "value"), tr("an arc more than twice the lamp's length"), tr("Correct one of the two.")
        )


def _purpose(lamp: Lamp, loc: Loc) -> Iterator[Finding]:
    if (lamp.band is not None) != (lamp.kind == "other"):
        yield Finding(
            (*loc, "band"),
            tr("band {band} with the kind {kind}").format(band=lamp.band, kind=lamp.kind),
            tr("They go together."),
        )
    if lamp.is_ultraviolet != bool(lamp.purposes) or bool(lamp.purposes) != (lamp.purposes_from is not None):
        what = tr("an ultraviolet lamp says what for, and from where that is known; no other does")
        yield Finding((*loc, "purposes"), what, tr("Add purposes and purposes_from, or remove both."))
    for field, kind in (("uva_w", "uv-a"), ("uvb_w", "uv-b")):
        output: Figure | None = getattr(lamp, field)
        if output is not None and ((lamp.band or lamp.kind) != kind or not 0 < output.value < lamp.watts.value):
            what = tr("{output} W of {kind} from {watts} W, kind {band}").format(
                output=spoken(output.value), kind=kind, watts=spoken(lamp.watts.value), band=lamp.band or lamp.kind
            )
            yield Finding((*loc, field, "value"), what, tr("Correct the number, or the kind."))


def _starting(lamp: Lamp, loc: Loc) -> Iterator[Finding]:
    if bool(lamp.starts) != (lamp.starts_from is not None) or len(set(lamp.starts)) < len(lamp.starts):
        what = tr("ways of starting go with where they are known from, each once")
        yield Finding((*loc, "starts"), what, tr("Add starts_from, or remove both."))
    if lamp.dims is not None and lamp.dims.value not in DIMS:
        what = tr("{word} is not one of the words allowed here").format(word=shown(lamp.dims.value))
        yield Finding((*loc, "dims", "value"), what, tr("Write one of {words}.").format(words=", ".join(DIMS)))
    for field, (low, high) in AIR_C.items():
        air: Figure | None = getattr(lamp, field)
        if air is not None and not low <= air.value <= high:
            what = tr("{air} degrees is outside {low} to {high}").format(air=spoken(air.value), low=low, high=high)
            yield Finding((*loc, field, "value"), what, tr("Give degrees Celsius."))
    if lamp.magnetic_if_listed is not None and "magnetic" in lamp.ballasts:
        what = tr("made for magnetic ballasts anyway")
        yield Finding((*loc, "magnetic_if_listed"), what, tr("Remove it, or magnetic from ballasts."))


def _saver(lamp: Lamp, loc: Loc, parts: Parts) -> Iterator[Finding]:
    if bool(lamp.stands_in_for) != (lamp.stands_in_from is not None):
        what = tr("a saver says what it stands in for, and from where that is known")
        yield Finding((*loc, "stands_in_for"), what, tr("Add stands_in_from, or remove both."))
    by_id = {one.id: one for _, one in parts.lamps}
    for place, name in enumerate(lamp.stands_in_for):
        other = by_id.get(name)
        if other is None:
            if not parts.is_shop:
                what = tr("there is no lamp type {name}").format(name=shown(name))
                yield Finding((*loc, "stands_in_for", place), what, tr("Write the id of a lamp that is there."))
        elif other.base != lamp.base or other.watts.value <= lamp.watts.value or not _is_as_long(lamp, other):
            what = tr("{name} has another base or length, or no more watts").format(name=shown(name))
            yield Finding(
                (*loc, "stands_in_for", place), what, tr("Name lamps whose place it fills with fewer watts.")
            )


def _is_as_long(one: Lamp, other: Lamp) -> bool:
    if one.length_mm is None or other.length_mm is None:
        return True
    return abs(one.length_mm.value - other.length_mm.value) <= LENGTH_SLACK_MM


def _ballasts(lamp: Lamp, base: Base, loc: Loc) -> Iterator[Finding]:
    ballasts = set(lamp.ballasts)
    if (base.supply == "mains") != (ballasts == {"none"}) or not ballasts or len(ballasts) < len(lamp.ballasts):
        what = tr("ballasts {ballasts} on a base for {supply}").format(
            ballasts=", ".join(lamp.ballasts) or "–", supply=base.supply
        )
        yield Finding((*loc, "ballasts"), what, tr('Write "none" alone for mains bases, the kinds made for it else.'))
    if base.starter is not None and base.starter.value == "internal" and "electronic" in ballasts:
        what = tr("an electronic ballast for a lamp with the starter inside")
        yield Finding((*loc, "ballasts"), what, tr("Such a lamp runs on a magnetic ballast only."))
    for field, circuit, kind in (("mains", lamp.mains, "magnetic"), ("hf", lamp.hf, "electronic")):
        if circuit is not None and kind not in ballasts and not (kind == "magnetic" and lamp.magnetic_if_listed):
            yield Finding(
                (*loc, field),
                tr("figures for a {kind} ballast it is not made for").format(kind=kind),
                tr("Correct one of the two."),
            )


def _within(value: float, limits: tuple[float, float]) -> bool:
    return limits[0] <= value <= limits[1]
