"""Customers' names that were forgotten, as digests: a slip that waits on another machine brings none of them back.

What is kept tells nobody the name; it only tells whether a name is one of them (scrypt, RFC 7914).
"""

from __future__ import annotations

import hashlib
import secrets
from datetime import datetime
from typing import TYPE_CHECKING, Any

from sqlalchemy import delete, insert, select

from counter.shop._moments import now_text
from counter.shop._tables import settings

if TYPE_CHECKING:
    from sqlalchemy import Connection

KEY = "names_forgotten"
COST, BLOCK, AT_ONCE = 2**13, 8, 1  # scrypt's N, r and p: some ten milliseconds a name


def note_forgotten(connection: Connection, folded: str) -> None:
    """Note that a name is forgotten from this moment on."""
    kept = _kept(connection) or {"salt": secrets.token_hex(16), "names": {}}
    names = kept["names"] | {_digest(folded, kept["salt"]): now_text()}
    connection.execute(delete(settings).where(settings.c.key == KEY))
    connection.execute(insert(settings).values(key=KEY, value=kept | {"names": names}, at=now_text()))


def is_forgotten(connection: Connection, folded: str, at: str) -> bool:
    """Whether a name on a slip of the moment `at` (ISO 8601) was forgotten since."""
    kept = _kept(connection) if folded else None
    if kept is None:
        return False
    since = kept["names"].get(_digest(folded, kept["salt"]))
    return since is not None and datetime.fromisoformat(at) <= datetime.fromisoformat(since)


def _kept(connection: Connection) -> dict[str, Any] | None:
    found = connection.scalar(select(settings.c.value).where(settings.c.key == KEY))
    return dict(found) if found else None


def _digest(folded: str, salt: str) -> str:
    made = hashlib.scrypt(folded.encode(), salt=bytes.fromhex(salt), n=COST, r=BLOCK, p=AT_ONCE, dklen=24)
    return made.hex()
