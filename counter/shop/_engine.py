"""Engines: one a store and process, SQLite with a write-ahead log, PostgreSQL through psycopg."""

from __future__ import annotations

import contextlib
import sqlite3
import stat
from typing import TYPE_CHECKING, Any

from sqlalchemy import create_engine, event

from counter.shop._where import is_network_folder

if TYPE_CHECKING:
    from pathlib import Path

    from sqlalchemy import Connection, Engine

    from counter.shop._where import Where

WAIT_S = 15  # as long as a large import of another till takes to go in, and then some
CONNECT_S = 3


def engine_for(where: Where, *, wait_s: float = WAIT_S) -> Engine:
    """Return an engine for a store; nothing is opened yet."""
    if where.file is None:
        options = f"-c lock_timeout={int(wait_s * 1000)} -c application_name=lamp-counter"
        connect = {"connect_timeout": CONNECT_S, "options": options}
        return create_engine(where.url, pool_pre_ping=True, connect_args=connect)
    return _sqlite(where.file, where.url, wait_s)


def _sqlite(file: Path, url: str, wait_s: float) -> Engine:
    engine = create_engine(url, connect_args={"timeout": wait_s, "check_same_thread": False})
    journal = "DELETE" if is_network_folder(file.parent) else "WAL"

    @event.listens_for(engine, "connect")
    def _connected(connection: sqlite3.Connection, _: object) -> None:
        connection.isolation_level = None  # the driver's own BEGIN would come too late for "IMMEDIATE"
        with contextlib.suppress(sqlite3.OperationalError):  # a store that may only be read keeps its journal
            connection.execute(f"PRAGMA journal_mode={journal}")
        # FULL: a slip that has its number is on the disk, also after the plug was pulled.
        for pragma in ("synchronous=FULL", "foreign_keys=ON", "secure_delete=ON", "cache_size=-16000"):
            connection.execute(f"PRAGMA {pragma}")

    @event.listens_for(engine, "begin")
    def _begin(connection: Connection) -> None:
        writes = connection.get_execution_options().get("writes", False)
        connection.exec_driver_sql("BEGIN IMMEDIATE" if writes else "BEGIN")

    return engine


def share_like_folder(file: Path) -> None:
    """Let whoever may write in the folder write in the store too: accounts that share a till share its store."""
    with contextlib.suppress(OSError):
        file.chmod(stat.S_IMODE(file.parent.stat().st_mode) & 0o666 | 0o600)


def plain(row: Any) -> dict[str, Any]:
    """Return a row as a dictionary by column name."""
    return dict(row._mapping)
