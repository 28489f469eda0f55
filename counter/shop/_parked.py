"""Cases that wait while another customer is served: one file each on this machine, so that they survive anything."""

from __future__ import annotations

import json
from contextlib import suppress
from typing import TYPE_CHECKING, Any, NamedTuple

from counter import paths
from counter.files import read_json, write_atomic

if TYPE_CHECKING:
    from pathlib import Path

FOLDER = "parked"
MOST_PARKED = 9  # each comes back by one figure


class Parked(NamedTuple):
    """A case that waits: when it was put aside, its headline, the case and what was chosen for its slip, as JSON."""

    key: str
    at: str
    headline: str
    case: dict[str, Any]
    items: tuple[dict[str, Any], ...] = ()


def park(data: Path, one: Parked) -> None:
    """Put a case aside.

    Raises:
        OSError: it cannot be written; the case stays where it is.
    """
    content = one._asdict()
    write_atomic(_folder(data) / f"{content.pop('key')}.json", json.dumps(content, ensure_ascii=False).encode())


def parked(data: Path) -> list[Parked]:
    """Return the cases that wait, the longest first; a file that cannot be read is passed over and stays."""
    found = []
    with suppress(OSError):
        for file in sorted(_folder(data).glob("*.json")):
            with suppress(OSError, ValueError, KeyError, TypeError):
                one = read_json(file)
                items = tuple(map(dict, one.get("items", ())))
                found.append(Parked(file.stem, str(one["at"]), str(one["headline"]), dict(one["case"]), items))
    return sorted(found, key=lambda one: one.at)[:MOST_PARKED]


def unpark(data: Path, key: str) -> None:
    """Take a case out of those that wait."""
    with suppress(OSError):
        (_folder(data) / f"{key}.json").unlink(missing_ok=True)


def _folder(data: Path) -> Path:
    return paths.machine(data) / FOLDER
