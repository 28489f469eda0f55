"""What the shop confirmed of bases and lamps, and its own entries: kept in the store, laid over the catalogue."""

from __future__ import annotations

import json
from contextlib import suppress
from typing import TYPE_CHECKING, Any, NamedTuple

from sqlalchemy import delete, insert, select

from counter import paths
from counter.catalogue import confirmations, empty_layer, refuse_bad
from counter.files import write_atomic
from counter.shop._load import LAYER_CACHE, has_store
from counter.shop._log import sold_lamps
from counter.shop._moments import now_text
from counter.shop._own import own_in
from counter.shop._settings import setting
from counter.shop._store import open_store
from counter.shop._tables import confirmed

if TYPE_CHECKING:
    from datetime import date
    from pathlib import Path

    from pydantic import JsonValue
    from sqlalchemy import Connection

    from counter.catalogue import Confirmed
    from counter.shop._store import Store

AREA = "confirmed"


def layer_in(connection: Connection) -> dict[str, Any]:
    """Return the shop's layer as its file would hold it."""
    layer: dict[str, Any] = empty_layer()
    layer["confirmed"] = list(connection.scalars(select(confirmed.c.body).order_by(confirmed.c.id)))
    return layer | own_in(connection)


class Layer(NamedTuple):
    """What the shop lays over the catalogue: confirmed values and own entries, and how often each lamp was sold."""

    content: dict[str, Any]
    sold: dict[str, int]
    revisions: dict[str, int]


def layer(store: Store) -> Layer:
    """Return the shop's layer, and keep a copy on this machine for the next start.

    Raises:
        StoreProblem: the store cannot be read.
    """
    sold = sold_lamps(store) if setting(store, "sales weigh") else {}
    with store.reading() as connection:
        revisions = {area: store.revision(connection, area) for area in (AREA, "slips", "settings")}
        found = Layer(layer_in(connection), sold, revisions)
    with suppress(OSError):
        kept = {"layer": found.content, "sold": sold, "revisions": revisions}
        write_atomic(paths.machine(store.where.data) / LAYER_CACHE, json.dumps(kept, ensure_ascii=False).encode())
    return found


def confirm(
    data: Path,
    *,
    kind: str,
    of: str,
    part: str,
    value: JsonValue,
    who: str,
    on: date,
    how: str,
    plus_minus: float | None = None,
) -> None:
    """Keep a value that the shop measured or saw; it counts from the next `load_catalogue`.

    `kind` is "base" or "lamp", `of` its designation or id, `part` the path of the value's fields.

    Raises:
        ConfirmError: no such value, or a value that breaks a rule.
        StoreProblem: it could not be kept.
    """
    entry = {"kind": kind, "of": of, "part": part, "value": value, "who": who, "on": on.isoformat(), "how": how}
    if plus_minus is not None:
        entry["plus_minus"] = plus_minus
    store = open_store(data)
    with store.reading() as connection:
        content = layer_in(connection)
    # Judged outside of the transaction: it takes a while, and other tills need not wait for it.
    refuse_bad({**content, "confirmed": [*content["confirmed"], entry]})
    with store.writing(AREA) as connection:
        connection.execute(insert(confirmed).values(body=entry, at=now_text()))


def confirmed_before(data: Path, *, kind: str, of: str, part: str) -> tuple[Confirmed, ...]:
    """Return what the shop confirmed for one value, the latest last.

    Raises:
        StoreProblem: the store cannot be read.
    """
    if not has_store(data):
        return ()
    with open_store(data).reading() as connection:
        return confirmations(layer_in(connection), kind, of, part)


def withdraw(data: Path, *, kind: str, of: str, part: str) -> int:
    """Take every confirmation of one value out and return how many there were.

    Raises:
        StoreProblem: the store cannot be written.
    """
    with open_store(data).writing(AREA) as connection:
        rows = connection.execute(select(confirmed.c.id, confirmed.c.body)).all()
        gone = [row.id for row in rows if _confirms(row.body, (kind, of, part))]
        connection.execute(delete(confirmed).where(confirmed.c.id.in_(gone)))
    return len(gone)


def _confirms(entry: object, key: tuple[str, str, str]) -> bool:
    return isinstance(entry, dict) and (entry.get("kind"), entry.get("of"), entry.get("part")) == key
