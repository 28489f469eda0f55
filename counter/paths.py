"""Where things lie: the shipped resources, and the folder for all that users make."""

from __future__ import annotations

import os
from pathlib import Path

APP_NAME = "lamp-counter"


def resources() -> Path:
    """Return the folder of shipped resources, in a checkout or in an installed package."""
    here = Path(__file__).resolve().parent
    inside = here / "resources"
    return inside if inside.is_dir() else here.parent / "resources"


def user_data(chosen: str | None = None) -> Path:
    """Return the folder for the shop's layer, stock, slips and progress; it need not exist yet.

    An explicit choice (`--data`) wins over the variable `COUNTER_DATA`, which wins over the system's own place.
    """
    named = chosen or os.environ.get("COUNTER_DATA")
    if named:
        return Path(named).expanduser()
    from platformdirs import user_data_path  # 5 ms that most commands need not pay

    return user_data_path(APP_NAME, appauthor=False)


def machine(data: Path) -> Path:
    """Return the folder for what belongs to this machine alone: where windows stand, what waits to go into the store.

    `COUNTER_LOCAL` names it. Otherwise the system's own place is used, a folder within it for each data folder that
    was named: that one may be shared with other machines. It need not exist yet.
    """
    named = os.environ.get("COUNTER_LOCAL")
    if named:
        return Path(named).expanduser() / _fingerprint(data)
    from platformdirs import user_state_path

    return user_state_path(APP_NAME, appauthor=False) / _fingerprint(data)


def _fingerprint(data: Path) -> str:
    from zlib import crc32  # hashlib costs 3 ms before the first paint; this only tells folders apart

    whole = str(data.absolute())
    return f"{data.name or 'data'}-{crc32(whole.encode('utf-8', 'replace')):08x}"
