"""What can be wrong with a store, in words: what, and the way out. No database is imported here."""

from __future__ import annotations

from typing import Literal

Kind = Literal["gone", "full", "read-only", "newer", "busy", "damaged", "refused"]


class StoreProblem(OSError):  # noqa: N818 - expected and said to the clerk as it stands, never a fault of the program
    """The store cannot do what was asked; the counter goes on without it.

    An OSError, because to whoever keeps something it is one: it could not be written.
    """

    def __init__(self, kind: Kind, what: str, way_out: str) -> None:
        super().__init__(f"{what}. {way_out}")
        self.kind = kind
        self.what = what
        self.way_out = way_out

    @property
    def may_pass(self) -> bool:
        """Whether what was to be written may wait in the journal and go in later."""
        return self.kind != "refused"


class Cancelled(Exception):  # noqa: N818 - somebody's wish, no fault
    """Whoever asked for an import stopped it; nothing of it was kept."""
