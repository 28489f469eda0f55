"""What must hold of one lamp type."""

from __future__ import annotations

from typing import TYPE_CHECKING

from counter.catalogue._problems import Finding, shown

if TYPE_CHECKING:
    from collections.abc import Iterator

    from counter.catalogue._models import Base, Circuit, Figure, Lamp
    from counter.catalogue._parts import Parts
    from counter.catalogue._problems import Loc

LEGS = {"twin": 2, "quad": 4, "triple": 6, "four-fold": 8, "long-twin": 2, "flat": 4}
LENGTH_MM = (40, 2600)  # from the smallest plug-in lamps to the longest tubes, eight feet
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
        yield Finding((*loc, "base"), f"there is no base {shown(lamp.base)}", "Add it to bases, or mend the name.")
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
        yield Finding((*loc, "id"), "does not begin with base, watts and shape", f"Begin it with {shown(start)}.")
    kinds = {"uv-c", "uv-a", "uv-b", "led"}
    tail, kind = lamp.id.rpartition("/")[2], lamp.band or lamp.kind
    if (kind in kinds or tail in kinds) and tail != kind:
        what = f"the id ends in {shown(tail)}, the kind is {kind}"
        yield Finding((*loc, "id"), what, "End the id of a lamp for other than lighting with its kind.")


def _answers(lamp: Lamp, loc: Loc, parts: Parts) -> Iterator[Finding]:
    """Yield what no look could ever find out about the lamp."""
    expected = LEGS.get(lamp.shape or "")
    if lamp.legs != expected:
        what = f"{lamp.legs or 'no'} legs with the shape {lamp.shape or 'unknown'}"
        yield Finding((*loc, "legs"), what, f"Write {expected}." if expected else "Leave legs out for this shape.")
    legs, answers = parts.legs_by_shape.get(lamp.shape or "none", str(lamp.legs)), parts.answers("legs")
    if lamp.legs == expected and answers is not None and legs not in answers:
        what = f"{shown(legs)} is no answer to the look legs"
        yield Finding((*loc, "shape"), what, "Add the answer to the look, or the shape to legs_by_shape.")
    watts, answers = f"{lamp.watts.value:g}", parts.answers("watts")
    if answers is not None and watts not in answers and not parts.is_shop:
        yield Finding((*loc, "watts"), f"{watts} is no answer to the look watts", "Add it there.")
    if lamp.glass is not None and lamp.glass.value not in (glass := parts.answers("glass") or {"white", "clear"}):
        what = f"{shown(lamp.glass.value)} is no answer to the look glass"
        yield Finding((*loc, "glass", "value"), what, f"Write {' or '.join(sorted(glass))}.")


def _sizes(lamp: Lamp, loc: Loc) -> Iterator[Finding]:
    if lamp.watts.value <= 0:
        yield Finding((*loc, "watts", "value"), f"{lamp.watts.value:g} W", "Write the watts printed on the lamp.")
    limits = {"length_mm": LENGTH_MM, "length_also_mm": LENGTH_MM, "tube_mm": TUBE_MM}
    for field, (low, high) in limits.items():
        figure: Figure | None = getattr(lamp, field)
        if figure is not None and not low <= figure.value <= high:
            what = f"{figure.value:g} mm is outside {low} to {high} mm"
            yield Finding((*loc, field, "value"), what, "Give millimetres.")

    if lamp.length_also_mm is not None and (
        lamp.length_mm is None or lamp.length_also_mm.value <= lamp.length_mm.value
    ):
        what = "a second length that is not the longer one"
        yield Finding((*loc, "length_also_mm", "value"), what, "Write the shorter as length_mm.")


def _circuit(circuit: Circuit, lamp: Lamp, loc: Loc) -> Iterator[Finding]:
    power, current, voltage = circuit.power_w, circuit.current_a, circuit.voltage_v
    for field, figure in (("power_w", power), ("current_a", current), ("voltage_v", voltage)):
        if figure is not None and figure.value <= 0:
            yield Finding((*loc, field, "value"), f"{figure.value:g}", "Write a number above 0.")
    watts = lamp.watts.value
    if power is not None and watts > 0 and not _within(power.value / watts, POWER_SHARE):
        what = f"{power.value:g} W in a lamp of {watts:g} W"
        yield Finding((*loc, "power_w", "value"), what, "Give the lamp's own power, without the ballast's.")
    if power and current and voltage and min(power.value, current.value, voltage.value) > 0:
        product = current.value * voltage.value
        if not _within(power.value / product, POWER_FACTOR):
            what = f"{power.value:g} W, but current times voltage is {product:.1f}"
            yield Finding((*loc, "power_w", "value"), what, "One of the three is mistaken.")


def _ultraviolet(lamp: Lamp, loc: Loc) -> Iterator[Finding]:
    if lamp.uvc_w is not None and lamp.kind != "uv-c":
        yield Finding((*loc, "uvc_w"), f"a {lamp.kind} lamp with a UV-C output", "Mend kind, or remove it.")
    if lamp.uvc_w is not None and not 0 < lamp.uvc_w.value <= lamp.watts.value * MOST_UVC_SHARE:
        what = f"{lamp.uvc_w.value:g} W of UV-C from {lamp.watts.value:g} W"
        yield Finding((*loc, "uvc_w", "value"), what, "At most about 45 % is possible.")
    if lamp.kind == "uv-c" and lamp.glass is not None and lamp.glass.value != "clear":
        yield Finding((*loc, "glass", "value"), "a UV-C lamp whose glass is not clear", "Mend kind or glass.")
    if lamp.arc_mm is not None and lamp.length_mm is not None and lamp.arc_mm.value > 2 * lamp.length_mm.value:
        yield Finding((*loc, "arc_mm", "value"), "an arc more than twice the lamp's length", "Mend one of the two.")


def _purpose(lamp: Lamp, loc: Loc) -> Iterator[Finding]:
    if (lamp.band is not None) != (lamp.kind == "other"):
        yield Finding((*loc, "band"), f"band {lamp.band} with the kind {lamp.kind}", "They go together.")
    if lamp.is_ultraviolet != bool(lamp.purposes) or bool(lamp.purposes) != (lamp.purposes_from is not None):
        what = "an ultraviolet lamp says what for, and from where that is known; no other does"
        yield Finding((*loc, "purposes"), what, "Add purposes and purposes_from, or remove both.")
    for field, kind in (("uva_w", "uv-a"), ("uvb_w", "uv-b")):
        output: Figure | None = getattr(lamp, field)
        if output is not None and ((lamp.band or lamp.kind) != kind or not 0 < output.value < lamp.watts.value):
            what = f"{output.value:g} W of {kind} from {lamp.watts.value:g} W, kind {lamp.band or lamp.kind}"
            yield Finding((*loc, field, "value"), what, "Mend the number, or the kind.")


def _starting(lamp: Lamp, loc: Loc) -> Iterator[Finding]:
    if bool(lamp.starts) != (lamp.starts_from is not None) or len(set(lamp.starts)) < len(lamp.starts):
        what = "ways of starting go with where they are known from, each once"
        yield Finding((*loc, "starts"), what, "Add starts_from, or remove both.")
    if lamp.dims is not None and lamp.dims.value not in DIMS:
        what = f"{shown(lamp.dims.value)} is not one of the words allowed here"
        yield Finding((*loc, "dims", "value"), what, f"Write {' or '.join(DIMS)}.")
    for field, (low, high) in AIR_C.items():
        air: Figure | None = getattr(lamp, field)
        if air is not None and not low <= air.value <= high:
            what = f"{air.value:g} degrees is outside {low} to {high}"
            yield Finding((*loc, field, "value"), what, "Give degrees Celsius.")
    if lamp.magnetic_if_listed is not None and "magnetic" in lamp.ballasts:
        what = "made for magnetic ballasts anyway"
        yield Finding((*loc, "magnetic_if_listed"), what, "Remove it, or magnetic from ballasts.")


def _saver(lamp: Lamp, loc: Loc, parts: Parts) -> Iterator[Finding]:
    if bool(lamp.stands_in_for) != (lamp.stands_in_from is not None):
        what = "a saver says what it stands in for, and from where that is known"
        yield Finding((*loc, "stands_in_for"), what, "Add stands_in_from, or remove both.")
    by_id = {one.id: one for _, one in parts.lamps}
    for place, name in enumerate(lamp.stands_in_for):
        other = by_id.get(name)
        if other is None:
            if not parts.is_shop:
                what = f"there is no lamp {shown(name)}"
                yield Finding((*loc, "stands_in_for", place), what, "Write the id of a lamp that is there.")
        elif other.base != lamp.base or other.watts.value <= lamp.watts.value or not _is_as_long(lamp, other):
            what = f"{shown(name)} has another base or length, or no more watts"
            yield Finding((*loc, "stands_in_for", place), what, "Name lamps whose place it fills with fewer watts.")


def _is_as_long(one: Lamp, other: Lamp) -> bool:
    if one.length_mm is None or other.length_mm is None:
        return True
    return abs(one.length_mm.value - other.length_mm.value) <= LENGTH_SLACK_MM


def _ballasts(lamp: Lamp, base: Base, loc: Loc) -> Iterator[Finding]:
    ballasts = set(lamp.ballasts)
    if (base.supply == "mains") != (ballasts == {"none"}) or not ballasts or len(ballasts) < len(lamp.ballasts):
        what = f"ballasts {', '.join(lamp.ballasts) or 'none named'} on a base for {base.supply}"
        yield Finding((*loc, "ballasts"), what, 'Write "none" alone for mains bases, the kinds made for it else.')
    if base.starter is not None and base.starter.value == "internal" and "electronic" in ballasts:
        what = "an electronic ballast for a lamp with the starter inside"
        yield Finding((*loc, "ballasts"), what, "Such a lamp runs on a magnetic ballast only.")
    for field, circuit, kind in (("mains", lamp.mains, "magnetic"), ("hf", lamp.hf, "electronic")):
        if circuit is not None and kind not in ballasts and not (kind == "magnetic" and lamp.magnetic_if_listed):
            yield Finding((*loc, field), f"figures for a {kind} ballast it is not made for", "Mend one of the two.")


def _within(value: float, limits: tuple[float, float]) -> bool:
    return limits[0] <= value <= limits[1]
