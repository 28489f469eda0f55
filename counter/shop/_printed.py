"""Slip numbers that may stand on paper are never given again, also where the store was set back to an older day.

Each machine notes the highest number it has given or seen. The note is the name of an empty file, so that windows
that write at once cannot lower it: whoever is first or last, the highest name stays. A store that would give a number
at or below the note goes on beyond it, and what it leaves out is entered in the log with its reason.
"""

from __future__ import annotations

from contextlib import suppress
from datetime import UTC, date, datetime
from typing import TYPE_CHECKING, NamedTuple

from sqlalchemy import insert, select

from counter import paths
from counter.language import marked
from counter.shop._moments import now_text
from counter.shop._numbers import next_number
from counter.shop._tables import left_out, numbers

if TYPE_CHECKING:
    from pathlib import Path

    from sqlalchemy import Connection

    from counter.shop._store import Store

FOLDER = "numbers"
SET_BACK = marked("may be on paper from before the store was set back")
MOST_A_DAY = 1000  # slips that all tills of a shop write in a day, and more: what may have been given unseen


class LeftOut(NamedTuple):
    """Numbers from `first` to `last` that no slip has, and why."""

    first: int
    last: int
    at: str
    reason: str


class Noted(NamedTuple):
    """The highest number that is known to have been given (0: none), and the day that was known."""

    number: int
    day: date


def noted(data: Path) -> Noted:
    """Return the highest number that this machine knows to have been given."""
    found = Noted(0, date.min)
    with suppress(OSError):
        for file in _folder(data).iterdir():
            if file.name.isdigit() and int(file.name) > found.number:
                found = Noted(int(file.name), datetime.fromtimestamp(file.stat().st_mtime, UTC).date())
    return found


def note(data: Path, number: int) -> None:
    """Note that a number was given; where that cannot be kept, the store still has it."""
    folder = _folder(data)
    with suppress(OSError):
        folder.mkdir(parents=True, exist_ok=True)
        (folder / f"{number:09}").touch()
        for file in folder.iterdir():
            if file.name.isdigit() and int(file.name) < number:
                file.unlink(missing_ok=True)


def given(connection: Connection) -> int:
    """Return the highest number that a store has given or left out; 0: none."""
    return int(connection.scalar(select(numbers.c.next).where(numbers.c.name == "slip")) or 1) - 1


def unseen_after(*known: Noted) -> int:
    """Return the highest number that may have been given, where nobody can look, from what was known last."""
    number, day = max(known, key=lambda one: (one.day, one.number))
    days = max((datetime.now(UTC).date() - day).days, 0)
    return max(number + MOST_A_DAY * (1 + days), *(one.number for one in known))


def skip_to(connection: Connection, highest: int, reason: str = SET_BACK) -> None:
    """Let a store give no number up to `highest` any more; what is left out by that is entered with its reason."""
    first = next_number(connection, "slip")  # holds the sequence until this transaction ends
    following = max(first, highest + 1)
    connection.execute(numbers.update().where(numbers.c.name == "slip").values(next=following))
    if following > first:
        entry = LeftOut(first, following - 1, now_text(), reason)
        connection.execute(insert(left_out).values(**entry._asdict()))


def numbers_left_out(store: Store) -> list[LeftOut]:
    """Return which numbers no slip has, and why; in order.

    Raises:
        StoreProblem: the store cannot be read.
    """
    columns = [left_out.c[name] for name in LeftOut._fields]
    with store.reading() as connection:
        return [LeftOut._make(row) for row in connection.execute(select(*columns).order_by(left_out.c.first))]


def _folder(data: Path) -> Path:
    return paths.machine(data) / FOLDER
