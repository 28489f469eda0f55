"""One look at the store: what others changed since, and what of this machine waited."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple

from counter.shop._journal import flush, waiting
from counter.shop._printed import given, note, noted, skip_to
from counter.shop._settings import settings_in
from counter.shop._stock import StockList, current_list
from counter.shop._store import open_store

if TYPE_CHECKING:
    from pathlib import Path

AREAS = ("confirmed", "stock", "slips", "settings", "letters")


class Look(NamedTuple):
    """How often each area was changed, the present stock list, how many entries wait, and the shop's settings."""

    revisions: dict[str, int]
    stock: StockList | None
    waiting: int
    settings: dict[str, Any]


def look(data: Path) -> Look:
    """Put in what waits and return how the store stands.

    Raises:
        StoreProblem: it cannot be used.
    """
    store = open_store(data)
    flush(store)
    with store.reading() as connection:
        revisions = {area: store.revision(connection, area) for area in AREAS}
        last, settings = given(connection), settings_in(connection)
    if last < noted(data).number:
        with store.writing() as connection:
            skip_to(connection, noted(data).number)
    elif last:
        note(data, last)
    return Look(revisions, current_list(store), waiting(data), settings)
