"""Cases saved when something went wrong; they are opened again like any other."""

from __future__ import annotations

import contextlib
import time
from typing import TYPE_CHECKING

from counter.files import read_bytes, write_atomic

if TYPE_CHECKING:
    from pathlib import Path

    from counter.desk import Case

MOST_KEPT = 50


def folder(data: Path) -> Path:
    """Return where rescued cases lie."""
    return data / "rescued"


def save_rescued(data: Path, case: Case) -> Path:
    """Write a case whole or not at all under a name of its own; one saved just before is not written again.

    Raises:
        OSError: it could not be written.
    """
    content = case.model_dump_json(indent=1).encode()
    kept = sorted(folder(data).glob("case-*.json"))
    with contextlib.suppress(OSError, IndexError):
        if read_bytes(kept[-1]) == content:
            return kept[-1]
    path = folder(data) / f"case-{time.strftime('%Y%m%d-%H%M%S')}-{time.time_ns() % 1_000_000_000:09d}.json"
    write_atomic(path, content)
    with contextlib.suppress(OSError):
        for old in kept[: 1 - MOST_KEPT]:
            old.unlink()
    return path
