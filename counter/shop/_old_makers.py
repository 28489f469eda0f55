"""Makers' codes in the files of older programs: taken over once, and read where no store can be used."""

from __future__ import annotations

from typing import TYPE_CHECKING, TypeAlias

from pydantic import ValidationError

from counter.catalogue import findings_from, json_path
from counter.files import is_there, reason
from counter.language import tr
from counter.marks import HOUSE_FILE, read_house
from counter.marks.letters import LETTERS_FILE, LettersUnreadableError, read_letters
from counter.shop._house_codes import HouseCodes

if TYPE_CHECKING:
    from pathlib import Path

OldFiles: TypeAlias = "dict[str, HouseCodes | str]"


def old_makers(data: Path) -> OldFiles:
    """Return what old files say of makers' codes, by file; of one that cannot be read, why not."""
    return {name: _read(data, name) for name in (HOUSE_FILE, LETTERS_FILE) if is_there(data / name)}


def _read(data: Path, name: str) -> HouseCodes | str:
    path = data / name
    try:
        if name == HOUSE_FILE:
            return HouseCodes(read_house(path))
        return HouseCodes(letters=read_letters(path))
    except OSError as problem:
        return tr("{file}: {why}; mend it or take it away").format(file=name, why=reason(problem))
    except ValidationError as problem:
        first = findings_from(problem)[0]
        place = json_path(first.loc) or tr("file")
        told = tr("{file}, {place}: {problem}; mend it or take it away")
        return told.format(file=name, place=place, problem=first.what)
    except LettersUnreadableError as problem:
        return str(problem)
