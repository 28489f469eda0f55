"""Entries as forms hold them: an empty one, a shipped one to change, what follows from other fields, what is kept."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple

from counter.catalogue import KEYS, key_of, legs_of, merge_patch, without_added, written
from counter.entries._choices import lamp_name
from counter.fit import texts
from counter.language import current, marked, tr

if TYPE_CHECKING:
    from collections.abc import Mapping

    from counter.catalogue import Catalogue

    Entry = dict[str, Any]

MEASURED = {"source": "shop", "confidence": "confirmed"}
NAMES = {
    "bases": marked("Base"),
    "lamps": marked("Lamp type"),
    "cautions": marked("Words of a caution"),
    "words": marked("Harmless word"),
    "places": marked("Place"),
    "law": marked("Law of selling lamps"),
    "disposal": marked("Used lamps in a place"),
}
KIND_OF = {"bases": "base", "lamps": "lamp"}


class Kind(NamedTuple):
    """A kind of entry: its section in a layer, and what it is called."""

    section: str
    name: str


def kinds() -> tuple[Kind, ...]:
    """Return the kinds of entries that a shop can add or change."""
    return tuple(Kind(section, tr(name)) for section, name in NAMES.items())


def shipped_names(section: str, shipped: Catalogue) -> dict[str, str]:
    """Return what is shipped of a kind and can be changed: the name that `begin` takes, and the one to show."""
    if section == "bases":
        return {name: name for name in shipped.base_by_name}
    if section == "lamps":
        return {lamp.id: lamp_name(lamp) for lamp in shipped.lamps}
    return {rule: tr(text.says) for rule, text in texts().items()} if section == "cautions" else {}


def can_begin_anew(section: str) -> bool:
    """Whether a shop can add one of a kind that is not shipped: a caution's rule is program, its words are not."""
    return section != "cautions"


def begin(section: str, catalogue: Catalogue, of: str = "") -> Entry:
    """Return an entry to begin with: of a thing that is in the catalogue, or an empty one.

    Raises:
        KeyError: there is no such thing.
    """
    if section == "bases":
        return without_added(written(catalogue.base_by_name[of])) if of else {"designation": "", "pins": MEASURED}
    if section == "lamps":
        return without_added(written(catalogue.lamp_by_id[of])) if of else {"watts": MEASURED, "ballasts": []}
    if section == "cautions":
        return _wording(catalogue, of) if of else {"language": current()}
    if section == "words":
        return {"word": of}
    return {"place": of} if section in ("law", "disposal") and of else {}


def _wording(catalogue: Catalogue, rule: str) -> Entry:
    spoken = current()
    own = next((one for one in catalogue.own_texts if (one.rule, one.language) == (rule, spoken)), None)
    said = own or texts()[rule]
    words = {"says": said.says, "why": said.why, "do": said.do}
    shipped = {part: tr(text) for part, text in words.items()}
    return {"rule": rule, "language": spoken, **(words if own else shipped)}


def with_derived(section: str, entry: Entry) -> Entry:
    """Return an entry with what follows from its other fields: a base's family, a lamp type's id and legs."""
    if section == "bases":
        return {**entry, "family": str(entry.get("designation", "")).partition("-")[0]}
    if section != "lamps":
        return entry
    made = {"id": _id(entry), **{name: value for name, value in entry.items() if name != "legs"}}
    legs = legs_of(entry.get("shape"))
    return {**made, "legs": legs} if legs else made


def _id(entry: Mapping[str, Any]) -> str:
    watts = entry.get("watts")
    value = watts.get("value") if isinstance(watts, dict) else None
    number = f"{value:g}" if isinstance(value, (int, float)) else ""
    kind = entry.get("band") or entry.get("kind")
    tail = kind if kind in ("uv-c", "uv-a", "uv-b", "led") else ""
    return "/".join(str(part) for part in (entry.get("base") or "", number, entry.get("shape") or "", tail) if part)


def named(section: str, entry: Mapping[str, Any]) -> str:
    """Return the name of an entry, for lists."""
    return " ".join(key_of(section, entry)) if section in (*KEYS, "confirmed") else ""


def to_layer(section: str, entry: Entry, shipped: Catalogue) -> tuple[str, Entry]:
    """Return the section and the entry to keep: of a shipped thing only what was written anew."""
    kind, of = KIND_OF.get(section, ""), named(section, entry)
    known = shipped.base_by_name.get(of) if kind == "base" else shipped.lamp_by_id.get(of) if kind else None
    if known is None:
        return section, entry
    return "changed", {"kind": kind, "of": of, "to": merge_patch(written(known), entry)}
