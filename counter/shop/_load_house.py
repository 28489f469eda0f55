"""Makers' codes as this shop knows them: from the store, or as this machine saw them last."""

from __future__ import annotations

import json
from contextlib import suppress
from typing import TYPE_CHECKING, NamedTuple

from pydantic import ValidationError

from counter import paths
from counter.catalogue import Model
from counter.files import read_bytes, write_atomic
from counter.marks import HouseMaker
from counter.marks.letters import LetterTable
from counter.shop._house_codes import HouseCodes
from counter.shop._load import HOUSE_CACHE, OLD_MAKERS, has_store
from counter.shop._old_makers import old_makers
from counter.shop._problem import StoreProblem

if TYPE_CHECKING:
    from pathlib import Path

    from counter.shop._old_makers import OldFiles


class LoadedHouse(NamedTuple):
    """What is known of makers' codes, and what of it could not be used, in words."""

    codes: HouseCodes
    problems: tuple[str, ...] = ()


class _Kept(Model):
    """The copy that a machine keeps for the next start."""

    makers: tuple[HouseMaker, ...]
    letters: LetterTable


def load_house(data: Path) -> LoadedHouse:
    """Return what this shop says of makers' codes; a store that cannot be used keeps nobody from work."""
    if not has_store(data):
        return LoadedHouse(HouseCodes())
    from counter.shop._letters import house_codes_of
    from counter.shop._store import open_store

    try:
        codes = house_codes_of(open_store(data))
    except StoreProblem:
        return remembered_house(data)
    keep_house(data, codes)
    return LoadedHouse(codes, _words(old_makers(data)))


def keep_house(data: Path, codes: HouseCodes) -> None:
    """Keep a copy on this machine for the next start; where that cannot be, the next start waits for the store."""
    kept = _Kept(makers=codes.makers, letters=codes.letters).model_dump(mode="json", exclude_defaults=True)
    content = {"makers": kept.get("makers", []), "letters": kept.get("letters", {})}
    with suppress(OSError):
        write_atomic(paths.machine(data) / HOUSE_CACHE, json.dumps(content, ensure_ascii=False).encode())


def remembered_house(data: Path) -> LoadedHouse:
    """Return makers' codes as this machine saw them last; where it never did, those of old files.

    For the window, which does not wait for the store.
    """
    try:
        kept = _Kept.model_validate_json(read_bytes(paths.machine(data) / HOUSE_CACHE))
    except (OSError, ValidationError):
        old = old_makers(data)
        return LoadedHouse(_joined(old), _words(old))
    return LoadedHouse(HouseCodes(kept.makers, kept.letters))


def _joined(old: OldFiles) -> HouseCodes:
    found = [old.get(name) for name in OLD_MAKERS]
    codes = [one for one in found if isinstance(one, HouseCodes)]
    letters = next((one.letters for one in codes if one.letters.letters), LetterTable())
    return HouseCodes(tuple(maker for one in codes for maker in one.makers), letters)


def _words(old: OldFiles) -> tuple[str, ...]:
    return tuple(one for one in old.values() if isinstance(one, str))
