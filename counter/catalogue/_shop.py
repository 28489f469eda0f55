"""The shop's own layer: what it measured or saw, and bases and lamps of its own, over the shipped catalogue."""

from __future__ import annotations

import json
from datetime import date
from typing import TYPE_CHECKING, Any, Literal, NamedTuple

from pydantic import Field, JsonValue, ValidationError

from counter.catalogue._changed import changed_entries
from counter.catalogue._models import (
    Base,
    Catalogue,
    Centre,
    Circuit,
    Figure,
    Lamp,
    Look,
    LookValue,
    Model,
    Notch,
    Notches,
    Outline,
    Own,
    OwnText,
    OwnWord,
    Pins,
    Source,
    Sourced,
    Word,
    notch_look,
)
from counter.catalogue._own import Changed, OwnBase, OwnLamp, last
from counter.catalogue._own_law import OwnDisposal, OwnLaw, OwnPlace, own_law
from counter.catalogue._parts import shop_parts
from counter.catalogue._problems import Finding, shown
from counter.catalogue._redraw import redrawn
from counter.catalogue._rules import findings_in
from counter.catalogue._rules_shop import hides_ultraviolet, keep_doubt, newly_broken
from counter.catalogue._validate import findings_of, sound
from counter.language import marked, tr

if TYPE_CHECKING:
    from collections.abc import Iterable

    from counter.catalogue._parts import Parts

FORMAT = "lamp-counter/shop"
VERSION = 1
SOURCE = Source(
    key="shop",
    title=marked("Measured, seen or read in this shop"),
    kind="shop",
    seen=marked("who, when and how stand in the note of each value"),
)

# The values a shop may confirm, as the path of fields in a base or lamp. Not the count of pins and not the
# watts: with another count or other watts it is another base or lamp, to be added as such.
PARTS: dict[str, dict[str, type[Sourced]]] = {
    "base": {
        "sheet": Word,
        "arrangement": Word,
        "block": Word,
        "pin_spacing_mm": Figure,
        "starter": Word,
        "face.pins": Pins,
        "face.outline": Outline,
        "face.pin_diameter_mm": Figure,
        "face.centre": Centre,
        "face.notches": Notches,
    },
    "lamp": {
        "glass": Word,
        "tube_mm": Figure,
        "length_mm": Figure,
        "length_also_mm": Figure,
        "starts_above_c": Figure,
        "dims": Word,
        "uvc_w": Figure,
        "uva_w": Figure,
        "uvb_w": Figure,
        "arc_mm": Figure,
        **{f"{on}.{what}": Figure for on in ("mains", "hf") for what in ("power_w", "current_a", "voltage_v")},
    },
}


NOT_THERE = {"base": marked("there is no base {name}"), "lamp": marked("there is no lamp type {name}")}
WITHOUT_NOTCH = marked("Hold the lamp by its base, pins toward you.")  # once the shop has seen that it has none


class Confirmed(Model):
    """One value that somebody in the shop measured or saw; the last one for the same value counts."""

    kind: Literal["base", "lamp"]
    of: str = Field(min_length=1, description="designation of the base, or id of the lamp type")
    part: str = Field(description='the value, as the path of its fields: "length_mm", "face.notches"')
    value: JsonValue = Field(description="number, word, list or object; for face.notches also a notch look")
    plus_minus: float | None = Field(None, ge=0, description="spread of what was measured, in the part's unit")
    who: str = Field(min_length=1, max_length=80)
    on: date
    how: str = Field(min_length=1, max_length=200)

    @property
    def key(self) -> tuple[str, str, str]:
        """What this confirms."""
        return self.kind, self.of, self.part


class Shop(Model):
    """The file shop.json."""

    format: Literal["lamp-counter/shop"]
    version: Literal[1]
    confirmed: tuple[Confirmed, ...] = ()
    bases: tuple[OwnBase, ...] = ()
    lamps: tuple[OwnLamp, ...] = ()
    changed: tuple[Changed, ...] = ()
    cautions: tuple[OwnText, ...] = ()
    words: tuple[OwnWord, ...] = ()
    places: tuple[OwnPlace, ...] = ()
    law: tuple[OwnLaw, ...] = ()
    disposal: tuple[OwnDisposal, ...] = ()


class Laid(NamedTuple):
    """A catalogue with the shop's layer over it, and what of the layer could not be used."""

    catalogue: Catalogue
    findings: tuple[Finding, ...]


def lay_over(below: Catalogue, data: dict[str, Any]) -> Laid:
    """Lay the content of shop.json over a catalogue; entries with faults are left out and named."""
    findings = findings_of(Shop, data)
    parts = shop_parts(data, findings, below)
    findings += findings_in(parts)
    findings += _clashes(parts, below)
    findings += _hidden(parts, below)
    broken = {finding.loc[:2] for finding in findings}
    bases = {**below.base_by_name, **_own(parts.bases, "bases", "designation", broken)}
    lamps = {**below.lamp_by_id, **_own(parts.lamps, "lamps", "id", broken)}
    entries: dict[str, dict[str, Any]] = {"base": bases, "lamp": lamps}
    for index, changed in last("changed", sound(Changed, data, "changed", findings)):
        findings += changed_entries(changed, entries[changed.kind], parts, below, ("changed", index))
    for index, confirmed in last("confirmed", sound(Confirmed, data, "confirmed", findings)):
        findings += _apply(confirmed, entries[confirmed.kind], parts, below, ("confirmed", index))
    top = _assembled(below, tuple(bases.values()), tuple(lamps.values()))
    texts = tuple(one for _, one in last("cautions", sound(OwnText, data, "cautions", findings)))
    words = tuple(one for _, one in last("words", sound(OwnWord, data, "words", findings)))
    keep_doubt(top, below)
    table, found = own_law(data, findings)
    return Laid(top.with_own(Own(texts, words, table)), (*findings, *found))


def confirmations(layer: dict[str, Any], kind: str, of: str, part: str) -> tuple[Confirmed, ...]:
    """Return what a layer holds for one value, the latest last; entries with faults are left out."""
    found = (_confirmed(entry) for entry in layer.get("confirmed", []))
    return tuple(one for one in found if one is not None and one.key == (kind, of, part))


def _confirmed(entry: object) -> Confirmed | None:
    try:
        return Confirmed.model_validate_json(json.dumps(entry))
    except (ValidationError, ValueError):
        return None


def _own(entries: Iterable[tuple[int, Any]], section: str, key: str, broken: set[Any]) -> dict[str, Any]:
    return {getattr(entry, key): entry for index, entry in entries if (section, index) not in broken}


def _clashes(parts: Parts, below: Catalogue) -> Iterable[Finding]:
    way_out = tr("Confirm its values instead of adding it anew.")
    for index, base in parts.bases:
        if base.designation in below.base_by_name:
            yield Finding(
                ("bases", index, "designation"),
                tr("{name} is shipped already").format(name=shown(base.designation)),
                way_out,
            )
    for index, lamp in parts.lamps:
        if lamp.id in below.lamp_by_id:
            yield Finding(
                ("lamps", index, "id"), tr("{name} is shipped already").format(name=shown(lamp.id)), way_out
            )


def _hidden(parts: Parts, below: Catalogue) -> Iterable[Finding]:
    """Yield lamp types of the shop's own that would take a doubt about ultraviolet away."""
    for index, lamp in parts.lamps:
        for what, way_out in hides_ultraviolet(lamp, below):
            yield Finding(("lamps", index, "glass", "value"), what, way_out)


def _apply(
    confirmed: Confirmed, entries: dict[str, Any], parts: Parts, below: Catalogue, loc: tuple[str | int, ...]
) -> list[Finding]:
    """Put a confirmed value into its entry, unless that breaks a rule; return why not."""
    entry, model = entries.get(confirmed.of), PARTS[confirmed.kind].get(confirmed.part)
    if entry is None:
        return [
            Finding(
                (*loc, "of"), tr(NOT_THERE[confirmed.kind]).format(name=shown(confirmed.of)), tr("Correct the name.")
            )
        ]
    if model is None:
        known = ", ".join(PARTS[confirmed.kind])
        return [
            Finding(
                (*loc, "part"),
                tr("{part} cannot be confirmed").format(part=shown(confirmed.part)),
                tr("Write one of {words}.").format(words=known),
            )
        ]
    try:
        value = model.model_validate(_fields(confirmed, model, parts, entry), strict=False)
    except ValidationError as error:
        return [
            Finding(
                (*loc, "value"),
                _reason(error),
                tr("Write the value of {part} as it is there.").format(part=confirmed.part),
            )
        ]
    changed = _with_part(entry, confirmed.part, value)
    hidden = [Finding((), *said) for said in hides_ultraviolet(changed, below)] if isinstance(changed, Lamp) else []
    broken = [*newly_broken(entry, _widened_if_base(changed), parts), *hidden]
    if broken:
        return [Finding((*loc, "value"), broken[0].what, broken[0].way_out)]
    entries[confirmed.of] = changed
    return []


def _fields(confirmed: Confirmed, model: type[Sourced], parts: Parts, entry: Base | Lamp) -> dict[str, Any]:
    """Return the fields of the value with its new source; what the shop did not state of a shape stays."""
    value: Any = confirmed.value
    said = {"source": SOURCE.key, "confidence": "confirmed"}
    said["note"] = f"{confirmed.who}, {confirmed.on.isoformat()}: {confirmed.how}"
    if model is Notches and isinstance(value, str):
        value = _notches_that_look(value, parts, entry)
    if model is Pins or model is Notches:
        return {"at": value, **said}
    if issubclass(model, Outline):
        return {**(value if isinstance(value, dict) else {"shape": value}), **said}
    return {"value": value, **said, **({"plus_minus": confirmed.plus_minus} if model is Figure else {})}


def _notches_that_look(look: str, parts: Parts, entry: Base | Lamp) -> tuple[Notch, ...] | str:
    """Return notches drawn elsewhere in the catalogue that look so, the entry's own family first."""
    if look == "none":
        return ()
    family = entry.family if isinstance(entry, Base) else ""
    bases = sorted(parts.base_by_name.values(), key=lambda base: base.family != family)
    drawn = {notch_look(b.face.notches.at): b.face.notches.at for b in reversed(bases) if b.face.notches is not None}
    if look == "two-small" and look not in drawn and {"small-left", "small-right"} <= drawn.keys():
        return drawn["small-left"] + drawn["small-right"]
    return drawn.get(look, look)  # the word itself is refused by the model, with its place


def _with_part(entry: Any, part: str, value: Sourced) -> Any:
    head, _, rest = part.partition(".")
    if rest:
        inner = getattr(entry, head)
        if part == "face.notches":  # the words may deny nothing of what was seen
            none = {"hold": WITHOUT_NOTCH} if isinstance(value, Notches) and not value.at else {}
            entry = entry.model_copy(update={"hold_key": "", "tell_key": "", **none})
        return entry.model_copy(update={head: _with_part(Circuit() if inner is None else inner, rest, value)})
    changed = entry.model_copy(update={head: value})
    if isinstance(entry, Base) and isinstance(value, Figure) and head == "pin_spacing_mm":
        return redrawn(changed, value.value)
    return changed


def _widened_if_base(entry: Base | Lamp) -> Base | Lamp:
    return _widened(entry) if isinstance(entry, Base) else entry


def _widened(base: Base) -> Base:
    """Let the family have the notches that the shop saw on one of it."""
    notches = base.face.notches
    look = None if notches is None else notch_look(notches.at)
    if look is None or look in base.family_notches:
        return base
    return base.model_copy(update={"family_notches": (*base.family_notches, look)})


def _reason(error: ValidationError) -> str:
    detail = error.errors(include_url=False)[0]
    where = ".".join(str(step) for step in detail["loc"])
    return shown(f"{where}: {detail['msg']}", 100)


def _assembled(below: Catalogue, bases: tuple[Base, ...], lamps: tuple[Lamp, ...]) -> Catalogue:
    """Return a new catalogue; not a copy, which would carry the old one's cached tables along."""
    return Catalogue.model_construct(
        format=below.format,
        version=below.version,
        edition=below.edition,
        sources=(*below.sources, SOURCE),
        bases=tuple(_widened(base) if _is_confirmed(base) else base for base in bases),
        lamps=lamps,
        looks=tuple(_with_watts(look, lamps) if look.key == "watts" else look for look in below.looks),
        legs_by_shape=below.legs_by_shape,
    )


def _is_confirmed(base: Base) -> bool:
    return base.face.notches is not None and base.face.notches.confidence == "confirmed"


def _with_watts(look: Look, lamps: tuple[Lamp, ...]) -> Look:
    """Let the watts of the shop's own lamps be answers too."""
    known = {value.value for value in look.values}
    new = sorted({lamp.watts.value for lamp in lamps if f"{lamp.watts.value:g}" not in known})
    if not new:
        return look
    values = [*look.values, *(LookValue(value=f"{watts:g}", label=f"{watts:g} W") for watts in new)]
    return look.model_copy(update={"values": tuple(sorted(values, key=lambda value: float(value.value)))})
