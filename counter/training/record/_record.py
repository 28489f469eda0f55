"""Each trainee's record in the shop's store: JSON lines, each on the disk before the next card is shown."""

from __future__ import annotations

import re
import secrets
from contextlib import contextmanager, suppress
from functools import cache
from typing import TYPE_CHECKING, Annotated

from pydantic import Field, TypeAdapter, ValidationError

from counter import shop
from counter.catalogue import Model
from counter.training.record._events import Answer, Assigned, Event, FromCase, RoundMark, Trainee

if TYPE_CHECKING:
    from collections.abc import Iterator
    from datetime import datetime
    from pathlib import Path

_ID = re.compile(r"[0-9a-f]{16}")


class UnknownTraineeError(LookupError):
    """No record of that trainee: never added, or removed meanwhile."""


@cache
def _line() -> TypeAdapter[Trainee | Event]:
    """Return what reads one line; made on first use, to keep the start short."""
    return TypeAdapter(Annotated[Trainee | Answer | Assigned | FromCase | RoundMark, Field(discriminator="what")])


class Progress(Model):
    """Everything that one record says, in the order it was written."""

    trainee: Trainee
    events: tuple[Event, ...] = ()
    torn: int = Field(0, description="lines that cannot be read: damaged, or written by a later version")

    @property
    def answers(self) -> tuple[Answer, ...]:
        """Return the answers, oldest first."""
        return tuple(event for event in self.events if isinstance(event, Answer))

    @property
    def assigned(self) -> tuple[str, ...]:
        """Return the families assigned now, in the order of assigning."""
        on: dict[str, None] = {}
        for event in self.events:
            if isinstance(event, Assigned):
                on.pop(event.family, None)
                if event.is_on:
                    on[event.family] = None
        return tuple(on)

    @property
    def marks(self) -> tuple[RoundMark, ...]:
        """Return when rounds began, stood still and ended, oldest first."""
        return tuple(event for event in self.events if isinstance(event, RoundMark))

    @property
    def from_cases(self) -> tuple[str, ...]:
        """Return the points put in from cases, newest last."""
        points = (point for event in self.events if isinstance(event, FromCase) for point in event.points)
        return tuple(dict.fromkeys(points))


def _checked(trainee: str) -> str:
    if not _ID.fullmatch(trainee):
        raise UnknownTraineeError(trainee)
    return trainee


def add_trainee(data: Path, name: str, now: datetime) -> Trainee:
    """Start a record and return who it is of.

    Raises:
        ValueError: the name is empty or too long, or `now` has no time zone.
        StoreProblem: it cannot be kept.
    """
    trainee = Trainee(id=secrets.token_hex(8), name=" ".join(name.split()), at=now)
    shop.add_record(data, trainee.id, trainee.model_dump_json())
    return trainee


def write_record(data: Path, trainee: str, event: Event) -> None:
    """Append one event; when this returns it is on the disk.

    Raises:
        UnknownTraineeError: there is no such record, or it was removed meanwhile.
        StoreProblem: it cannot be kept; nothing that was there is lost.
    """
    with _known(trainee):
        shop.append_record(data, _checked(trainee), event.model_dump_json())


def progress(data: Path, trainee: str) -> Progress:
    """Return what the record says; lines that cannot be read are counted, skipped and kept in the store.

    Raises:
        UnknownTraineeError: there is no such record, or its first line is no trainee.
        StoreProblem: the store cannot be read.
    """
    with _known(trainee):
        who, lines = shop.record_lines(data, _checked(trainee))
    found = _read(who)
    if not isinstance(found, Trainee):
        raise UnknownTraineeError(trainee)
    read = [_read(line) for line in lines]
    events = tuple(one for one in read if one is not None and not isinstance(one, Trainee))
    return Progress(trainee=found, events=events, torn=sum(one is None for one in read))


def _read(line: str) -> Trainee | Event | None:
    try:
        return _line().validate_json(line)
    except ValidationError:
        return None


@contextmanager
def _known(trainee: str) -> Iterator[None]:
    try:
        yield
    except LookupError as error:
        raise UnknownTraineeError(trainee) from error


def trainees(data: Path) -> tuple[Trainee, ...]:
    """Return everyone with a record that can be read, by name.

    Raises:
        StoreProblem: the store cannot be read.
    """
    found = [one for line in shop.records(data) if isinstance(one := _read(line), Trainee)]
    return tuple(sorted(found, key=lambda one: (one.name.casefold(), one.id)))


def everybody(data: Path) -> tuple[Progress, ...]:
    """Return all records that can be read, by name; one that is removed meanwhile is left out.

    Raises:
        StoreProblem: the store cannot be read.
    """
    found = []
    for one in trainees(data):
        with suppress(UnknownTraineeError):
            found.append(progress(data, one.id))
    return tuple(found)


def remove_trainee(data: Path, trainee: str) -> None:
    """Remove the record, which is all that there is of a trainee.

    Raises:
        UnknownTraineeError: there is no such record.
        StoreProblem: the store cannot be written.
    """
    with _known(trainee):
        shop.remove_record(data, _checked(trainee))


def assign(data: Path, trainee: str, family: str, now: datetime, *, is_on: bool = True) -> None:
    """Give a family to learn first, or take it off."""
    write_record(data, trainee, Assigned(at=now, family=family, is_on=is_on))
