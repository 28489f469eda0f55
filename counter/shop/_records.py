"""Training records as lines of text: who trains, and everything they did, oldest first."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sqlalchemy import delete, insert, select

from counter.shop._store import open_store
from counter.shop._tables import trainees, training_events
from counter.shop._take_over import kept_record

if TYPE_CHECKING:
    from pathlib import Path

    from sqlalchemy import Connection

AREA = "training"


def add_record(data: Path, trainee: str, line: str) -> None:
    """Begin the record of a trainee.

    Raises:
        StoreProblem: it cannot be kept.
    """
    with open_store(data).writing(AREA) as connection:
        connection.execute(insert(trainees).values(id=trainee, body=line))


def append_record(data: Path, trainee: str, line: str) -> None:
    """Add a line to a record; when this returns it is on the disk.

    Raises:
        LookupError: there is no such record, or it was removed meanwhile.
        StoreProblem: it cannot be kept.
    """
    with open_store(data).writing(AREA) as connection:
        _must_exist(connection, trainee)
        connection.execute(insert(training_events).values(trainee=trainee, body=line))


def record_lines(data: Path, trainee: str) -> tuple[str, tuple[str, ...]]:
    """Return who a record is of, as its line, and all other lines.

    Raises:
        LookupError: there is no such record.
        StoreProblem: the store cannot be read.
    """
    with open_store(data).reading() as connection:
        who = _must_exist(connection, trainee)
        mine = select(training_events.c.body).where(training_events.c.trainee == trainee)
        return who, tuple(connection.scalars(mine.order_by(training_events.c.id)))


def records(data: Path) -> tuple[str, ...]:
    """Return who has a record, as their lines.

    Raises:
        StoreProblem: the store cannot be read.
    """
    with open_store(data).reading() as connection:
        return tuple(connection.scalars(select(trainees.c.body)))


def remove_record(data: Path, trainee: str) -> None:
    """Remove a record so that nothing of it is left, neither in the log of the store nor in an old file kept.

    Raises:
        LookupError: there is no such record.
        StoreProblem: the store cannot be written.
    """
    store = open_store(data)
    with store.writing(AREA) as connection:
        _must_exist(connection, trainee)
        connection.execute(delete(training_events).where(training_events.c.trainee == trainee))
        connection.execute(delete(trainees).where(trainees.c.id == trainee))
    store.wipe("trainees", "training_events")
    kept_record(data, trainee).unlink(missing_ok=True)


def _must_exist(connection: Connection, trainee: str) -> str:
    who: str | None = connection.scalar(select(trainees.c.body).where(trainees.c.id == trainee))
    if who is None:
        raise LookupError(trainee)
    return who
