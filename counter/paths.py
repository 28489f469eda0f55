"""Where things lie: the shipped resources, and the folder for all that users make."""

from __future__ import annotations

import os
import sys
from pathlib import Path

APP_NAME = "lamp-counter"
BASES = {"data": ("XDG_DATA_HOME", ".local/share"), "state": ("XDG_STATE_HOME", ".local/state")}


def resources() -> Path:
    """Return the folder of shipped resources, in a checkout or in an installed package."""
    here = Path(__file__).resolve().parent
    inside = here / "resources"
    return inside if inside.is_dir() else here.parent / "resources"


def made_ahead() -> Path:
    """Return the folder of what is made with the installation, so that no start has to; it need not exist."""
    return Path(__file__).resolve().parent / "made"


def user_data(chosen: str | None = None) -> Path:
    """Return the folder for the shop's layer, stock, slips and progress; it need not exist yet.

    An explicit choice (`--data`) wins over the variable `COUNTER_DATA`, which wins over the system's own place.
    """
    named = chosen or os.environ.get("COUNTER_DATA")
    if named:
        return Path(named).expanduser()
    return _of_system("data")


def machine(data: Path) -> Path:
    """Return the folder for what belongs to this machine alone: where windows stand, what waits to go into the store.

    `COUNTER_LOCAL` names it. Otherwise the system's own place is used, a folder within it for each data folder that
    was named: that one may be shared with other machines. It need not exist yet.
    """
    named = os.environ.get("COUNTER_LOCAL")
    if named:
        return Path(named).expanduser() / _fingerprint(data)
    return _of_system("state") / _fingerprint(data)


def _of_system(kind: str) -> Path:
    """Return the system's own folder for our `data` or `state`, as platformdirs says.

    Where the XDG base directories say it at once, that is not imported: it takes 5 ms, and the first paint waits.
    """
    variable, beneath_home = BASES[kind]
    named, home = os.environ.get(variable, ""), os.environ.get("HOME", "")
    if sys.platform == "linux" and (named.startswith("/") or home.startswith("/")):
        return Path(named if named.startswith("/") else f"{home}/{beneath_home}", APP_NAME)
    import platformdirs

    whole: Path = getattr(platformdirs, f"user_{kind}_path")(APP_NAME, appauthor=False)
    return whole


def _fingerprint(data: Path) -> str:
    from zlib import crc32  # hashlib costs 3 ms before the first paint; this only tells folders apart

    whole = str(data.absolute())
    return f"{data.name or 'data'}-{crc32(whole.encode('utf-8', 'replace')):08x}"
