"""The catalogue with the shop's layer over it: from the store, or as this machine saw it last. No database here."""

from __future__ import annotations

import os
from typing import TYPE_CHECKING, Any, NamedTuple

from counter import paths
from counter.catalogue import SHOP_FILE, Loaded, Problem, load_with_problems, read_layer
from counter.files import is_there, read_json
from counter.shop._problem import StoreProblem
from counter.shop._seen import was_seen
from counter.shop._where import FILE, SETTING, VARIABLE, where_of
from counter.shop_words import FILE_NAME as WORDS_FILE

if TYPE_CHECKING:
    from pathlib import Path

    from counter.catalogue import Catalogue
    from counter.desk import SoldCode

LAYER_CACHE = "layer.json"
HOUSE_CACHE = "makers.json"
OLD_MAKERS = ("house-codes.json", "letters.json")  # makers' codes in the files of older programs


class Remembered(NamedTuple):
    """A catalogue to start with, and how often each area had been changed by then; nothing where none was kept."""

    loaded: Loaded
    revisions: dict[str, int]


def has_store(data: Path) -> bool:
    """Whether there is, or was, anything of a shop's here: a plain question makes no store."""
    if os.environ.get(VARIABLE):
        return True
    try:
        there = any((data / name).exists() for name in (FILE, SETTING, SHOP_FILE, WORDS_FILE))
        there = there or any(is_there(data / name) for name in OLD_MAKERS)
        return there or was_seen(where_of(data))
    except OSError:  # a folder that may not be entered, a setting that cannot be read: opening says so in words
        return True


def load_catalogue(data: Path) -> Loaded:
    """Return the shipped catalogue with the shop's layer over it; what could not be used is named.

    A store that cannot be used keeps nobody from work: the shipped catalogue is used, and the problem is named.
    """
    if not has_store(data):
        return load_with_problems()
    from counter.shop._confirmed import layer
    from counter.shop._store import open_store

    try:
        found = layer(open_store(data))
    except StoreProblem as error:
        return load_with_problems(Problem("", error.what, error.way_out))
    loaded = load_with_problems(found.content)
    return Loaded(_weighed(loaded.catalogue, found.sold), (*loaded.problems, *_left_behind(data)))


def load_sold(data: Path) -> dict[str, tuple[SoldCode, ...]]:
    """Return what codes were sold as here; nothing where own sales are not to weigh, or no store can be used."""
    if not has_store(data):
        return {}
    from counter.shop._settings import setting
    from counter.shop._sold import sold_here
    from counter.shop._store import open_store

    try:
        store = open_store(data)
        return sold_here(store) if setting(store, "sales weigh") else {}
    except StoreProblem:
        return {}


def remembered_catalogue(data: Path) -> Remembered:
    """Return the catalogue with the layer as this machine saw it last; where it never did, with the old file's.

    For the window, which does not wait for the store.

    Raises:
        OSError: the shipped catalogue cannot be read.
    """
    kept = _kept(paths.machine(data) / LAYER_CACHE)
    if kept is not None:
        loaded = load_with_problems(kept["layer"])
        return Remembered(loaded._replace(catalogue=_weighed(loaded.catalogue, kept["sold"])), kept["revisions"])
    old = read_layer(data / SHOP_FILE) if (data / SHOP_FILE).is_file() else None
    return Remembered(load_with_problems(old), {})


def _weighed(catalogue: Catalogue, sold: dict[str, int]) -> Catalogue:
    if not sold:
        return catalogue
    from counter.shop._sales import weighed_by_sales

    return weighed_by_sales(catalogue, sold)


def remembered_revisions(data: Path) -> dict[str, int]:
    """Return how often each area had been changed when this machine saw the store last."""
    kept = _kept(paths.machine(data) / LAYER_CACHE)
    return kept["revisions"] if kept is not None else {}


def _left_behind(data: Path) -> tuple[Problem, ...]:
    """Return what is wrong with an old file that could not be taken over, if there is one."""
    if not (data / SHOP_FILE).is_file():
        return ()
    found = read_layer(data / SHOP_FILE)
    return () if isinstance(found, dict) else (found,)


def _kept(path: Path) -> dict[str, Any] | None:
    try:
        kept = read_json(path)
        is_sound = all(isinstance(kept[part], dict) for part in ("layer", "sold", "revisions"))
    except (OSError, ValueError, KeyError, TypeError):
        return None
    return kept if is_sound else None
