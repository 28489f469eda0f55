"""Each trainee's record: one file of JSON lines, every line on the disk before the next card is shown."""

from __future__ import annotations

import os
import re
import secrets
from functools import cache
from typing import TYPE_CHECKING, Annotated

from pydantic import Field, TypeAdapter, ValidationError

from counter.catalogue import Model
from counter.files import read_bytes
from counter.training.record._events import Answer, Assigned, Event, FromCase, RoundMark, Trainee

if TYPE_CHECKING:
    from datetime import datetime
    from pathlib import Path

LARGEST_RECORD = 100_000_000  # bytes; some 300 000 answers
_ID = re.compile(r"[0-9a-f]{16}")
_BINARY = getattr(os, "O_BINARY", 0)  # Windows translates line ends without it


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
    torn: int = Field(0, description="lines that cannot be read: cut off by a crash, or written by a later version")

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


def folder(data: Path) -> Path:
    """Return the folder of records within the folder of all that users make."""
    return data / "training"


def _file(data: Path, trainee: str) -> Path:
    """Return the record's file; its name is made from the id, never from the person's name."""
    if not _ID.fullmatch(trainee):
        raise UnknownTraineeError(trainee)
    return folder(data) / f"{trainee}.jsonl"


def add_trainee(data: Path, name: str, now: datetime) -> Trainee:
    """Start a record and return who it is of.

    Raises:
        ValueError: the name is empty or too long, or `now` has no time zone.
        OSError: the folder cannot be written.
    """
    trainee = Trainee(id=secrets.token_hex(8), name=" ".join(name.split()), at=now)
    folder(data).mkdir(parents=True, exist_ok=True)
    _append(_file(data, trainee.id), trainee, os.O_CREAT | os.O_EXCL)
    return trainee


def write_record(data: Path, trainee: str, event: Event) -> None:
    """Append one event; when this returns it is on the disk.

    Raises:
        UnknownTraineeError: there is no such record, or it was removed meanwhile.
        OSError: the disk is full or the folder cannot be written; nothing that was there is lost.
    """
    try:
        _append(_file(data, trainee), event, 0)
    except FileNotFoundError as error:
        raise UnknownTraineeError(trainee) from error


def _append(file: Path, line: Model, extra: int) -> None:
    """Write one line in one call. A line cut off earlier is closed first, so that it costs only itself."""
    handle = os.open(file, os.O_RDWR | os.O_APPEND | _BINARY | extra, 0o600)
    try:
        raw = line.model_dump_json().encode() + b"\n"
        if (size := os.lseek(handle, 0, os.SEEK_END)) and _last_byte(handle, size) != b"\n":
            raw = b"\n" + raw
        written = os.write(handle, raw)
        if written != len(raw):  # a full disk: what is there reads as a torn line
            raise OSError(f"only {written} of {len(raw)} bytes written to {file.name}")
        os.fsync(handle)
    finally:
        os.close(handle)


def _last_byte(handle: int, size: int) -> bytes:
    os.lseek(handle, size - 1, os.SEEK_SET)
    return os.read(handle, 1)


def progress(data: Path, trainee: str) -> Progress:
    """Return what the record says; lines that cannot be read are counted, skipped and kept in the file.

    Raises:
        UnknownTraineeError: there is no such record, it cannot be read, or its first line is no trainee.
    """
    try:
        raw = read_bytes(_file(data, trainee), LARGEST_RECORD)
    except OSError as error:
        raise UnknownTraineeError(trainee) from error
    return _progress(raw, trainee)


def _progress(raw: bytes, trainee: str) -> Progress:
    who: Trainee | None = None
    events: list[Event] = []
    torn = 0
    for line in raw.splitlines():
        try:
            read = _line().validate_json(line)
        except ValidationError:
            torn += bool(line.strip())
            continue
        if isinstance(read, Trainee):
            who = who or read
        else:
            events.append(read)
    if who is None:
        raise UnknownTraineeError(trainee)
    return Progress(trainee=who, events=tuple(events), torn=torn)


def trainees(data: Path) -> tuple[Trainee, ...]:
    """Return everyone with a record that can be read, by name."""
    found = []
    for file in folder(data).glob("*.jsonl"):
        if _ID.fullmatch(file.stem):
            try:
                found.append(progress(data, file.stem).trainee)
            except UnknownTraineeError:
                continue  # a crash within the very first line: nothing was learned yet
    return tuple(sorted(found, key=lambda one: (one.name.casefold(), one.id)))


def remove_trainee(data: Path, trainee: str) -> None:
    """Remove the record, which is all that there is of a trainee.

    Raises:
        UnknownTraineeError: there is no such record.
    """
    try:
        _file(data, trainee).unlink()
    except FileNotFoundError as error:
        raise UnknownTraineeError(trainee) from error


def assign(data: Path, trainee: str, family: str, now: datetime, *, is_on: bool = True) -> None:
    """Give a family to learn first, or take it off."""
    write_record(data, trainee, Assigned(at=now, family=family, is_on=is_on))
