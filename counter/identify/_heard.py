"""What one answer to one look says of every lamp type."""

from __future__ import annotations

from typing import NamedTuple


class Heard(NamedTuple):
    """By lamp, in catalogue order."""

    chances: list[float]  # of the answer; a density in 1/mm for a measured look
    speaks: list[bool | None]  # agrees (True), disagrees (False), or the truth is not known (None)
