"""A shop's own entries and its changes to shipped ones: each kept for good, the last about a thing counts."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple

from sqlalchemy import insert, select, update

from counter.catalogue import ADDED, key_of
from counter.shop._moments import now_text
from counter.shop._store import open_store
from counter.shop._tables import own_entries

if TYPE_CHECKING:
    from collections.abc import Iterable
    from datetime import date
    from pathlib import Path

    from sqlalchemy import Connection

    from counter.shop._store import Store

AREA = "confirmed"  # what changes the catalogue has one area, so that other windows look once


class OwnRow(NamedTuple):
    """One entry as it was added; `gone` is the moment it was taken out, None while it is there."""

    id: int
    section: str
    body: dict[str, Any]
    at: str | None
    gone: str | None
    gone_by: str | None

    @property
    def key(self) -> tuple[str, ...]:
        """What the entry is about, with its section."""
        return (self.section, *key_of(self.section, self.body))


def own_in(connection: Connection) -> dict[str, list[dict[str, Any]]]:
    """Return by section the entries that count, in the order of their things' first mention."""
    found: dict[str, dict[tuple[str, ...], dict[str, Any]]] = {}
    for row in _rows(connection):
        if row.gone is None:
            found.setdefault(row.section, {})[row.key] = row.body
    return {section: list(entries.values()) for section, entries in found.items()}


def _rows(connection: Connection) -> list[OwnRow]:
    columns = [own_entries.c[name] for name in OwnRow._fields]
    found = (OwnRow(*row) for row in connection.execute(select(*columns).order_by(own_entries.c.id)))
    return [row for row in found if isinstance(row.body, dict)]


def own_rows(store: Store) -> list[OwnRow]:
    """Return everything that was ever added, the latest last, what was taken out too.

    Raises:
        StoreProblem: the store cannot be read.
    """
    with store.reading() as connection:
        return _rows(connection)


def keep_own(data: Path, section: str, entry: dict[str, Any], *, who: str, on: date) -> int:
    """Add an entry to the shop's layer and return its number; it counts from the next `load_catalogue`.

    What it says is not judged here: `counter.entries.faults` is asked before.

    Raises:
        StoreProblem: it could not be kept.
    """
    body = {**entry, ADDED: {"who": who, "on": on.isoformat()}}
    with open_store(data).writing(AREA) as connection:
        made = connection.execute(insert(own_entries).values(section=section, body=body, at=now_text()))
        assert made.inserted_primary_key is not None
        return int(made.inserted_primary_key[0])


def take_out(data: Path, ids: Iterable[int], *, who: str) -> None:
    """Let entries no longer count; what counted before them for the same thing counts again.

    Raises:
        StoreProblem: it could not be written.
    """
    _set_gone(data, ids, gone=now_text(), gone_by=who)


def bring_back_own(data: Path, ids: Iterable[int]) -> None:
    """Let entries that were taken out count again.

    Raises:
        StoreProblem: it could not be written.
    """
    _set_gone(data, ids, gone=None, gone_by=None)


def _set_gone(data: Path, ids: Iterable[int], **values: str | None) -> None:
    with open_store(data).writing(AREA) as connection:
        connection.execute(update(own_entries).where(own_entries.c.id.in_(list(ids))).values(**values))
