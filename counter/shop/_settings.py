"""Settings of the shop, the same on every till: what slips say, where it is, how long names stay."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from sqlalchemy import delete, insert, select

from counter.shop._defaults import DEFAULTS
from counter.shop._moments import now_text
from counter.shop._tables import settings

if TYPE_CHECKING:
    from sqlalchemy import Connection

    from counter.shop._store import Store


def setting(store: Store, key: str) -> Any:
    """Return a setting of the shop, or what holds where it was never set.

    Raises:
        KeyError: there is no such setting.
        StoreProblem: the store cannot be read.
    """
    default = DEFAULTS[key]
    with store.reading() as connection:
        found = connection.execute(select(settings.c.value).where(settings.c.key == key)).first()
    return default if found is None else found.value


def settings_in(connection: Connection) -> dict[str, Any]:
    """Return every setting of the shop, in a transaction that is open already."""
    return DEFAULTS | {row.key: row.value for row in connection.execute(select(settings)) if row.key in DEFAULTS}


def put_setting(store: Store, key: str, value: Any) -> None:
    """Set a setting of the shop.

    Raises:
        KeyError: there is no such setting.
        StoreProblem: the store cannot be written.
    """
    _ = DEFAULTS[key]
    with store.writing("settings") as connection:
        connection.execute(delete(settings).where(settings.c.key == key))
        connection.execute(insert(settings).values(key=key, value=value, at=now_text()))
