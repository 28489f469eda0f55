"""One store, opened: transactions that read and transactions that write, in words where they fail."""

from __future__ import annotations

import threading
from contextlib import contextmanager
from typing import TYPE_CHECKING

from sqlalchemy import exc, select, text

from counter.language import tr
from counter.shop._engine import engine_for, share_like_folder
from counter.shop._migrate import bring_up_to_date
from counter.shop._problem import StoreProblem
from counter.shop._say import in_words, problem
from counter.shop._seen import note_seen, was_seen
from counter.shop._tables import revisions
from counter.shop._take_over import take_over
from counter.shop._where import Where, where_of

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from sqlalchemy import Connection, Engine

_open: dict[str, Store] = {}
_lock, _opening = threading.Lock(), threading.Lock()


class Store:
    """A shop's store. Safe to use from several threads; each transaction has a connection of its own."""

    def __init__(self, where: Where, engine: Engine) -> None:
        self.where = where
        self.engine = engine
        self.is_sqlite = where.file is not None
        self._inode = _inode(where)

    @contextmanager
    def reading(self) -> Iterator[Connection]:
        """Read in one transaction, which sees one state of the store.

        Raises:
            StoreProblem: it cannot be reached or read.
        """
        self._still_there()
        with in_words(self.where), self.engine.connect() as plain:
            level = {} if self.is_sqlite else {"isolation_level": "REPEATABLE READ"}
            connection = plain.execution_options(**level)
            with connection.begin():
                yield connection

    @contextmanager
    def writing(self, *areas: str) -> Iterator[Connection]:
        """Write in one transaction, all of it or nothing, and note that these areas have changed.

        Raises:
            StoreProblem: it cannot be written; nothing was.
        """
        self._still_there()
        with in_words(self.where), self.engine.connect() as plain:
            connection = plain.execution_options(writes=True)
            with connection.begin():
                yield connection
                for area in areas:
                    _bump(connection, area)

    def revision(self, connection: Connection, area: str) -> int:
        """Return how often an area was changed; whoever kept what it read compares."""
        found = connection.scalar(select(revisions.c.number).where(revisions.c.area == area))
        return int(found or 0)

    def wipe(self, *tables: str) -> None:
        """Take what was deleted out of the write-ahead log, or off PostgreSQL's pages; in no transaction."""
        with in_words(self.where):
            raw = self.engine.raw_connection()
            try:
                raw.rollback()
                if self.is_sqlite:
                    raw.cursor().execute("PRAGMA wal_checkpoint(TRUNCATE)").close()
                else:
                    raw.driver_connection.autocommit = True  # type: ignore[union-attr]
                    raw.cursor().execute(f"VACUUM {', '.join(tables)}")
                    raw.driver_connection.autocommit = False  # type: ignore[union-attr]
            finally:
                raw.close()

    def close(self) -> None:
        """Let go of every connection."""
        self.engine.dispose()
        with _lock:
            if _open.get(self.where.url) is self:
                del _open[self.where.url]

    def _still_there(self) -> None:
        """An open file that was moved or deleted takes writes that nobody will ever read."""
        if self.is_sqlite and _inode(self.where) != self._inode:
            self.close()
            raise problem("gone", self.where)


def close_all() -> None:
    """Let go of every store: before a folder is moved, and when a program ends."""
    for store in list(_open.values()):
        store.close()


# In one statement: of two tills that write in an area for the first time at once, one would break the key.
_BUMP = text(
    "INSERT INTO revisions (area, number) VALUES (:area, 1)"
    " ON CONFLICT (area) DO UPDATE SET number = revisions.number + 1"
)


def _bump(connection: Connection, area: str) -> None:
    connection.execute(_BUMP, {"area": area})


def _inode(where: Where) -> int:
    if where.file is None:
        return 0
    try:
        return where.file.stat().st_ino
    except OSError:
        return -1


def open_store(data: Path) -> Store:
    """Return the store of a data folder, made or brought up to date as needed, and what lay in old files taken over.

    Raises:
        StoreProblem: it cannot be used; the words say why and the way out.
    """
    where = where_of(data)
    with _opening:  # of two threads that ask at once the second takes what the first has opened
        found = _open.get(where.url)
        if found is None:
            found = open_at(where)
            take_over(found, data)
            with _lock:
                _open[where.url] = found
        return found


def open_at(where: Where, *, may_begin: bool = True) -> Store:
    """Return the store at an address, made if there is none yet.

    Raises:
        StoreProblem: there was a store at this place on an earlier day and now there is none, or it cannot be used.
    """
    if where.file is not None:
        _make_file(where, may_begin)
    engine = engine_for(where)
    try:
        with in_words(where):
            bring_up_to_date(engine, where)
    except (StoreProblem, exc.SQLAlchemyError):
        engine.dispose()
        raise
    note_seen(where)
    return Store(where, engine)


def _make_file(where: Where, may_begin: bool) -> None:
    assert where.file is not None
    if where.file.exists():
        return
    if not may_begin or was_seen(where):
        raise StoreProblem(
            "gone",
            tr("The shop's store was at {place} before and is not there now").format(place=where.shown),
            tr(
                "Bring its folder back, or a back-up: counter store restore FILE. To begin anew: counter store begin."
            ),
        )
    try:
        where.file.parent.mkdir(parents=True, exist_ok=True)
        where.file.touch()
    except OSError as error:
        raise problem("full" if error.errno == 28 else "read-only", where) from error
    share_like_folder(where.file)
