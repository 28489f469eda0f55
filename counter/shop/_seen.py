"""Which stores this machine has used: one that was there and is not must not be made anew behind anybody's back."""

from __future__ import annotations

import contextlib
import hashlib
from typing import TYPE_CHECKING

from counter import paths

if TYPE_CHECKING:
    from pathlib import Path

    from counter.shop._where import Where


def was_seen(where: Where) -> bool:
    """Whether a store was open at this place on this machine before."""
    return _mark(where).exists()


def note_seen(where: Where) -> None:
    """Remember that there is a store at this place; where that cannot be kept, nothing is lost but the warning."""
    mark = _mark(where)
    if not mark.exists():
        with contextlib.suppress(OSError):
            mark.parent.mkdir(parents=True, exist_ok=True)
            mark.write_text(where.shown + "\n", "utf-8")


def forget_seen(where: Where) -> None:
    """Let a store be begun anew at this place."""
    _mark(where).unlink(missing_ok=True)


def _mark(where: Where) -> Path:
    return paths.machine(where.data) / "stores" / hashlib.sha256(where.shown.encode()).hexdigest()[:16]
