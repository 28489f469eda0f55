"""One shop's layer for another: read, held against one's own, and taken in with nothing lost.

Where both speak of one thing and differ, whoever merges says whose counts; the other stays in the store, and stands
there before it. The laws of merging are those of `counter.catalogue`: a layer is a set of entries.
"""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any, NamedTuple

from sqlalchemy import delete, insert, select

from counter.catalogue import KEYS, SECTIONS, day_of, empty_layer, key_of, without_added
from counter.shop._confirmed import layer_in
from counter.shop._moments import now_text
from counter.shop._own import AREA
from counter.shop._store import open_store
from counter.shop._tables import confirmed, own_entries

if TYPE_CHECKING:
    from collections.abc import Collection, Iterator
    from pathlib import Path

    from sqlalchemy import Connection, Table

    Key = tuple[str, ...]


class Meeting(NamedTuple):
    """Two layers that speak of one thing and differ: what counts here, and what counts there."""

    section: str
    about: tuple[str, ...]
    ours: dict[str, Any]
    theirs: dict[str, Any]

    @property
    def key(self) -> Key:
        """What it is about, with its section."""
        return (self.section, *self.about)

    @property
    def later_is_ours(self) -> bool:
        """Whether ours is of a later day: then it counts where nobody chooses otherwise."""
        return day_of(self.ours) > day_of(self.theirs)


class Row(NamedTuple):
    """An entry that was taken in, by its row in the store."""

    section: str
    id: int
    entry: dict[str, Any]


class Met(NamedTuple):
    """What taking in another layer would bring: entries that are new here, and those that meet others.

    `rows` are those that were put in, for `take_back`.
    """

    new: tuple[tuple[str, dict[str, Any]], ...]
    meetings: tuple[Meeting, ...]
    known: int
    rows: tuple[Row, ...] = ()


def meet(data: Path, theirs: dict[str, Any]) -> Met:
    """Hold another shop's layer against this one's; nothing is changed.

    Raises:
        StoreProblem: the store cannot be read.
    """
    with open_store(data).reading() as connection:
        return _met(connection, theirs)


def _met(connection: Connection, theirs: dict[str, Any]) -> Met:
    here = _texts(connection)
    ours, other = _last_of(layer_in(connection)), _last_of(theirs)
    fresh = {_text(*one): one for one in _entries(theirs) if _text(*one) not in here}
    new = fresh.values()
    meetings = [
        Meeting(key[0], key[1:], ours[key], entry)
        for key, entry in other.items()
        if key in ours and _text(key[0], entry) in fresh and _said(key[0], ours[key]) != _said(key[0], entry)
    ]
    return Met(tuple(new), tuple(meetings), sum(1 for _ in _entries(theirs)) - len(new))


def take_in(data: Path, theirs: dict[str, Any], ours_count: Collection[Key] = ()) -> Met:
    """Take another shop's layer in, all of it; `ours_count` names the meetings where this shop's entry goes on to
    count. Taken in a second time it changes nothing.

    Raises:
        StoreProblem: it could not be kept; nothing was.
    """
    with open_store(data).writing(AREA) as connection:
        met = _met(connection, theirs)
        rows = tuple(_put(connection, *one) for one in met.new)
        for meeting in met.meetings:
            if meeting.key in ours_count:
                _put_last(connection, meeting)
    return met._replace(rows=rows)


def _put(connection: Connection, section: str, entry: dict[str, Any]) -> Row:
    values = {"body": entry, "at": now_text()} | ({} if section == "confirmed" else {"section": section})
    made = connection.execute(insert(_table(section)).values(**values)).inserted_primary_key
    assert made is not None
    return Row(section, int(made[0]), entry)


def _table(section: str) -> Table:
    return confirmed if section == "confirmed" else own_entries


def take_back(data: Path, rows: Collection[Row]) -> None:
    """Undo taking in: what came goes, and can come again; what was here before or was added since stays.

    Raises:
        StoreProblem: it could not be written; nothing was.
    """
    with open_store(data).writing(AREA) as connection:
        for row in rows:
            table = _table(row.section)
            here = connection.scalar(select(table.c.body).where(table.c.id == row.id))
            if here == row.entry:  # numbers of rows that went are given again
                connection.execute(delete(table).where(table.c.id == row.id))


def _put_last(connection: Connection, meeting: Meeting) -> None:
    """Let our entry stand after theirs: the last about a thing counts."""
    table = _table(meeting.section)
    found = connection.execute(select(table).order_by(table.c.id.desc())).mappings()
    row = next(one for one in found if one["body"] == meeting.ours and one.get("gone") is None)
    connection.execute(delete(table).where(table.c.id == row["id"]))
    connection.execute(insert(table).values(**{name: value for name, value in row.items() if name != "id"}))


def shared_layer(data: Path) -> dict[str, Any]:
    """Return this shop's layer as the file that another shop takes in.

    Raises:
        StoreProblem: the store cannot be read.
    """
    with open_store(data).reading() as connection:
        found = layer_in(connection)
    return {**empty_layer(), **found}


def _texts(connection: Connection) -> set[str]:
    """Return every entry there is or was here, as text: what was withdrawn here is known here too."""
    own = connection.execute(select(own_entries.c.section, own_entries.c.body))
    told = {_text(section, body) for section, body in own if isinstance(body, dict)}
    return told | {_text("confirmed", body) for body in connection.scalars(select(confirmed.c.body))}


def _last_of(layer: dict[str, Any]) -> dict[Key, dict[str, Any]]:
    return {(section, *key_of(section, entry)): entry for section, entry in _entries(layer)}


def _entries(layer: dict[str, Any]) -> Iterator[tuple[str, dict[str, Any]]]:
    for section in SECTIONS:
        found = layer.get(section)
        for entry in found if isinstance(found, list) else ():
            if isinstance(entry, dict):
                yield section, entry


def _text(section: str, entry: dict[str, Any]) -> str:
    return f"{section} {json.dumps(entry, sort_keys=True, ensure_ascii=False)}"


def _said(section: str, entry: dict[str, Any]) -> Any:
    return without_added(entry) if section in KEYS else entry.get("value")
