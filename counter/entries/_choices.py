"""What the words of a field are called, and the things that entries speak of: nothing in the words of programs.

Where the counter asks for the same thing, its answers are called as there.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, get_args

from counter.catalogue import LampShape, shape_words
from counter.entries._labels import label_of
from counter.fit import texts
from counter.language import figure, languages, marked, tr

if TYPE_CHECKING:
    from collections.abc import Sequence

    from counter.catalogue import Catalogue, Lamp

LOOKS = {"arrangement": "arrangement", "block": "block", "glass": "glass", "family_notches": "notch"}
WORDS = {
    "yes": marked("yes"),
    "no": marked("no"),
    "confirmed": marked("seen in this shop"),
    "published": marked("read in the source"),
    "reproduced": marked("read in a copy"),
    "practice": marked("common practice"),
    "memory-high": marked("from memory, sure"),
    "memory-medium": marked("from memory, fairly sure"),
    "memory-low": marked("from memory, not sure"),
    "external": marked("not in the lamp"),
    "internal": marked("built into the base"),
    "integral": marked("ballast built in too"),
    "none": marked("none needed"),
    "ballast": marked("a ballast"),
    "mains": marked("mains"),
    "push": marked("pushed in"),
    "twist-lock": marked("pushed in and turned"),
    "two-ends": marked("between two holders"),
    "rectangle": marked("a rectangle"),
    "circle": marked("a circle"),
    "post": marked("post"),
    "large": marked("large"),
    "small": marked("small"),
    "fluorescent": marked("for lighting"),
    "uv-c": marked("germicidal (UV-C)"),
    "uv-a": marked("blacklight (UV-A)"),
    "uv-b": "UV-B",
    "led": "LED",
    "other": marked("another kind"),
    "daily": marked("daily"),
    "weekly": marked("weekly"),
    "seldom": marked("seldom"),
    "never": marked("hardly ever"),
    "with a dimming ballast": marked("with a dimming ballast"),
    "text": marked("the text itself"),
    "summary": marked("a summary of it"),
}
OF_FIELD = {  # where the same word is called otherwise
    ("ballasts", "none"): marked("none: mains on the pins"),
    ("what", "block"): marked("block"),
    ("classes", "pin-base"): marked("compact, ballast outside"),
    ("classes", "integrated"): marked("compact, ballast inside"),
    ("classes", "circular-thin"): marked("rings, thin tube"),
    ("classes", "circular-thick"): marked("rings, thick tube"),
    **{("classes", f"linear-{tube}"): marked("straight, {tube}") for tube in ("t2", "t5", "t8", "t12")},
}
KINDS = {"uv-c": "UV-C", "uv-a": "UV-A", "led": "LED", "fluorescent": ""}
TAILS = {"saver": marked("saver"), "ozone": marked("ozone"), "short": marked("short")}


def choice_words(field: str, choices: Sequence[str], catalogue: Catalogue) -> tuple[str, ...]:
    """Return what the choices of a field are called, in the language now spoken."""
    if field == "source":
        titles = {key: source.title for key, source in catalogue.source_by_key.items()}
        return tuple(tr(titles.get(one, one)) if one != "shop" else tr("this shop") for one in choices)
    look = catalogue.look_by_key.get(LOOKS.get(field, ""))
    if look is not None:
        labels = {value.value: value.label for value in look.values}
        return tuple(tr(labels.get(one, one)) for one in choices)
    return tuple(_words(field, one) for one in choices)


def _words(field: str, choice: str) -> str:
    if (field, choice) in OF_FIELD:
        return tr(OF_FIELD[field, choice]).format(tube=choice.rpartition("-")[2].upper())
    if choice in get_args(LampShape):
        return shape_words(choice)  # type: ignore[arg-type] # it is one of them
    return tr(WORDS.get(choice, choice))


def lamp_name(lamp: Lamp) -> str:
    """Return a name for a lamp type that no other has: what its id says, in words."""
    told = (lamp.base, f"{lamp.watts.value:g}", lamp.shape or "", lamp.band or lamp.kind)
    tails = [part for step in lamp.id.split("/") if step not in told for part in step.split("-")]
    return " · ".join(
        (
            lamp.base,
            f"{figure(lamp.watts.value)}\N{THIN SPACE}W",
            *filter(None, (shape_words(lamp.shape) if lamp.shape else "", _kind(lamp))),
            *(tr(TAILS[tail]) if tail in TAILS else tail.upper() for tail in tails),
        )
    )


def _kind(lamp: Lamp) -> str:
    return KINDS.get(lamp.kind, (lamp.band or "").upper())


def thing_words(section: str, key: Sequence[str], catalogue: Catalogue) -> str:
    """Say what an entry of a layer is about, by its key: a lamp type by its name, a caution by its words."""
    if section == "cautions":
        rule, language = key[0], key[1]
        says = tr(texts()[rule].says) if rule in texts() else rule
        return f"{says} ({languages().get(language, language)})"
    if section in ("confirmed", "changed"):
        part = label_of(key[2].rpartition(".")[2]) if section == "confirmed" else ""
        return ": ".join(filter(None, (_named(key[1], catalogue), part)))
    return _named(key[0], catalogue) if section == "lamps" else " · ".join(key)


def _named(name: str, catalogue: Catalogue) -> str:
    lamp = catalogue.lamp_by_id.get(name)
    return lamp_name(lamp) if lamp is not None else name
