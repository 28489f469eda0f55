"""Cases kept between two starts: the one that is open, and those of the last customers.

Cases hold no names. May import counter.files and counter.desk._case.
"""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, NamedTuple

from pydantic import ValidationError

from counter.desk._case import Case
from counter.files import read_json, write_atomic

if TYPE_CHECKING:
    from pathlib import Path

OPEN_FILE, LAST_FILE = "open-case.json", "last-customers.json"
MOST = 12
MOST_BYTES = 2_000_000  # a file of ours is never as large: another's is left alone


class Kept(NamedTuple):
    """A case and how it was called."""

    title: str
    case: Case


def write_case(path: Path, case: Case) -> None:
    """Write a case so that `read_case` takes it.

    Raises:
        OSError: it could not be written; a file that was there is untouched.
    """
    write_atomic(path, (case.model_dump_json(indent=1) + "\n").encode())


def keep_open(data: Path, kept: Kept | None) -> None:
    """Keep the case that is open, or none; what cannot be written only costs the offer at the next start."""
    try:
        if kept is None:
            (data / OPEN_FILE).unlink(missing_ok=True)
        else:
            write_atomic(data / OPEN_FILE, _plain([kept]))
    except OSError:
        return


def open_case(data: Path) -> Kept | None:
    """Return the case that was open when the program stopped without being asked to, if there is one."""
    return next(iter(_read(data / OPEN_FILE)), None)


def keep_customer(data: Path, kept: Kept) -> None:
    """Keep a customer's case as the first of the last ones; the same case is kept once."""
    others = [one for one in last_customers(data) if one.case != kept.case]
    try:
        write_atomic(data / LAST_FILE, _plain([kept, *others][:MOST]))
    except OSError:
        return


def last_customers(data: Path) -> tuple[Kept, ...]:
    """Return the last customers' cases, the latest first; what is damaged of them is left out."""
    return _read(data / LAST_FILE)


def _plain(cases: list[Kept]) -> bytes:
    plain = [{"title": one.title, "case": one.case.model_dump(mode="json")} for one in cases]
    return json.dumps({"version": 1, "cases": plain}, ensure_ascii=False).encode()


def _read(path: Path) -> tuple[Kept, ...]:
    try:
        plain = read_json(path, MOST_BYTES)
        entries = plain["cases"] if plain.get("version") == 1 else []
    except (OSError, ValueError, KeyError, TypeError, AttributeError):
        return ()
    return tuple(kept for entry in entries if (kept := _one(entry)) is not None) if isinstance(entries, list) else ()


def _one(entry: object) -> Kept | None:
    if not isinstance(entry, dict) or not isinstance(entry.get("title"), str):
        return None
    try:
        return Kept(entry["title"][:120], Case.model_validate_json(json.dumps(entry.get("case"))))
    except (ValidationError, ValueError, RecursionError):
        return None
