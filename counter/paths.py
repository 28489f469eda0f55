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
