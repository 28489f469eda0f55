"""Read the shipped catalogue, lay the shop's own layer over it."""

from __future__ import annotations

import gc
from functools import lru_cache
from typing import TYPE_CHECKING, NamedTuple

from counter import paths
from counter.catalogue._models import Catalogue
from counter.files import read_bytes

if TYPE_CHECKING:
    from pathlib import Path
    from typing import Any, TypeAlias

    from counter.catalogue._problems import Problem

    Layer: TypeAlias = "dict[str, Any] | Problem | None"

SHOP_FILE = "shop.json"


class Loaded(NamedTuple):
    """A catalogue, and what of the shop's layer could not be used."""

    catalogue: Catalogue
    problems: tuple[Problem, ...] = ()


def load_file(path: Path) -> Catalogue:
    """Return the catalogue in one file.

    Raises:
        OSError: the file cannot be read.
        pydantic.ValidationError: it is not a catalogue; `counter check` says the same with places.
    """
    return _made_of(read_bytes(path))


@lru_cache(maxsize=1)  # a window loads the same file anew with each entry of the shop's, and what rests on it is kept
def _made_of(raw: bytes) -> Catalogue:
    was_on = gc.isenabled()
    gc.disable()  # thousands of new objects and none to free: the collector doubles the time
    try:
        return Catalogue.model_validate_json(raw)
    finally:
        if was_on:
            gc.enable()


def load(layer: Layer = None) -> Catalogue:
    """Return the shipped catalogue with a shop's layer, if one is handed in, laid over it."""
    return load_with_problems(layer).catalogue


def load_with_problems(layer: Layer = None) -> Loaded:
    """Return the same, and every problem of the shop's layer: what is sound of it is used, the rest is not.

    `layer` is what a shop's file would hold, or the problem that kept it from being read.
    """
    shipped = load_file(paths.resources() / "catalogue.json")
    if layer is None:
        return Loaded(shipped)
    if not isinstance(layer, dict):
        return Loaded(shipped, (layer,))
    if not any(isinstance(entries, list) and entries for entries in layer.values()):
        return Loaded(shipped)
    from counter.catalogue._shop_file import over  # its rules are not needed by a shop without a layer

    return over(shipped, layer)
