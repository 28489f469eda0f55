"""The fields of a form, from a model: names, units, ranges, the words allowed, what is needed."""

from __future__ import annotations

from datetime import date
from types import UnionType
from typing import TYPE_CHECKING, Any, Literal, NamedTuple, Union, get_args, get_origin

from counter.catalogue import (
    OwnBase,
    OwnDisposal,
    OwnLamp,
    OwnLaw,
    OwnPlace,
    OwnText,
    OwnWord,
    Sourced,
    allowed_words,
    ranges,
)
from counter.entries._choices import choice_words
from counter.entries._labels import label_of, unit_of
from counter.language import tr

if TYPE_CHECKING:
    from collections.abc import Mapping

    from pydantic import BaseModel
    from pydantic.fields import FieldInfo

    from counter.catalogue import Catalogue, Model

FieldKind = Literal["text", "number", "date", "yes", "choice", "many", "group", "list"]
MODELS: dict[str, type[Model]] = {
    "bases": OwnBase,
    "lamps": OwnLamp,
    "cautions": OwnText,
    "words": OwnWord,
    "places": OwnPlace,
    "law": OwnLaw,
    "disposal": OwnDisposal,
}
# What follows from other fields, or is set when an entry is kept.
HIDDEN = frozenset({"added", "family", "id", "legs", "rule", "language"})


class Field(NamedTuple):
    """One field of a form.

    `low` and `high` are in `unit`. A group has `inner` fields; a list has the one that each of its rows is. A group
    that `is_sourced` is one value with where it comes from. `words` are what its `choices` are called.
    """

    name: str
    label: str
    kind: FieldKind
    about: str = ""
    unit: str = ""
    low: float | None = None
    high: float | None = None
    choices: tuple[str, ...] = ()
    words: tuple[str, ...] = ()
    is_needed: bool = True
    is_sourced: bool = False
    inner: tuple[Field, ...] = ()


def form_of(section: str, catalogue: Catalogue) -> Field:
    """Return the form of one section of a layer, as a group of fields; its choices are those of a catalogue."""
    return _Maker(catalogue).group(section, MODELS[section], is_needed=True)


class _Maker:
    def __init__(self, catalogue: Catalogue) -> None:
        self.catalogue = catalogue
        sources = tuple(dict.fromkeys((*(one.key for one in catalogue.sources), "shop")))
        bases = tuple(base.designation for base in catalogue.bases)
        self.allowed: Mapping[str, tuple[str, ...]] = {**allowed_words(catalogue), "source": sources, "base": bases}
        self.ranges = ranges()

    def group(self, name: str, model: type[BaseModel], *, is_needed: bool, about: str = "") -> Field:
        shown = ((key, info) for key, info in model.model_fields.items() if key not in HIDDEN)
        inner = tuple(self.field(key, info, name) for key, info in shown)
        sourced = issubclass(model, Sourced)
        return Field(name, label_of(name), "group", about, is_needed=is_needed, is_sourced=sourced, inner=inner)

    def field(self, name: str, info: FieldInfo, outer: str) -> Field:
        kind, is_open = _bare(info.annotation)
        made = self.of_type(name, kind, outer, is_needed=info.is_required() and not is_open)
        low, high = _limits(info)
        # One value's limits and words are those of what it is the value of.
        known = self.ranges.get(outer if name == "value" else name)
        if known is not None and made.kind == "number":
            low, high = known
        return made._replace(about=tr(info.description) if info.description else made.about, low=low, high=high)

    def of_type(self, name: str, kind: Any, outer: str, *, is_needed: bool) -> Field:
        label, unit = label_of(name), unit_of(outer if name in ("value", "plus_minus") else name)
        words = self.allowed.get(outer if name == "value" else name, ())
        if get_origin(kind) is Literal:
            return self.choice(name, outer, get_args(kind), is_needed=is_needed)
        if get_origin(kind) is tuple:
            return self.row(name, get_args(kind)[0], words, is_needed=is_needed)
        if isinstance(kind, type) and issubclass(kind, _model()):
            return self.group(name, kind, is_needed=is_needed)
        if words and kind is str:
            return self.choice(name, outer, words, is_needed=is_needed)
        plain: dict[Any, FieldKind] = {str: "text", float: "number", int: "number", bool: "yes", date: "date"}
        return Field(name, label, plain[kind], unit=unit, is_needed=is_needed)

    def choice(self, name: str, outer: str, choices: tuple[str, ...], *, is_needed: bool) -> Field:
        """Return a choice of one of a few words."""
        words = choice_words(outer if name == "value" else name, choices, self.catalogue)
        return Field(name, label_of(name), "choice", choices=choices, words=words, is_needed=is_needed)

    def row(self, name: str, item: Any, words: tuple[str, ...], *, is_needed: bool) -> Field:
        """Return a list: of choices that can be ticked, or of rows that can be added."""
        choices = get_args(item) if get_origin(item) is Literal else words
        if choices:
            return self.choice(name, name, choices, is_needed=is_needed)._replace(kind="many")
        inner = self.of_type(name, item, name, is_needed=True)
        return Field(name, label_of(name), "list", is_needed=is_needed, inner=(inner,))


def _model() -> type[BaseModel]:
    from pydantic import BaseModel

    return BaseModel


def _bare(annotation: Any) -> tuple[Any, bool]:
    """Return a type without None, and whether None was among it."""
    if get_origin(annotation) in (Union, UnionType):
        kinds = [kind for kind in get_args(annotation) if kind is not type(None)]
        return kinds[0], len(kinds) < len(get_args(annotation))
    return annotation, False


def _limits(info: FieldInfo) -> tuple[float | None, float | None]:
    low = next((getattr(one, name) for one in info.metadata for name in ("gt", "ge") if hasattr(one, name)), None)
    high = next((getattr(one, name) for one in info.metadata for name in ("lt", "le") if hasattr(one, name)), None)
    return low, high
