"""Care of a store: what it holds, whether it is sound, back-ups, and the move from one database to the other.

A back-up is an SQLite file whichever the store is, so that it can be brought back into either.
"""

from __future__ import annotations

import os
import shutil
import sqlite3
import tempfile
from contextlib import closing
from datetime import UTC, date, datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any, NamedTuple

from sqlalchemy import func, insert, select, text

from counter.language import tr
from counter.shop._journal import waiting
from counter.shop._look import AREAS
from counter.shop._migrate import HEAD
from counter.shop._moments import now_text
from counter.shop._printed import LeftOut, Noted, given, note, noted, numbers_left_out, skip_to, unseen_after
from counter.shop._problem import StoreProblem
from counter.shop._seen import forget_seen
from counter.shop._store import Store, open_at, open_store
from counter.shop._tables import left_out, metadata, numbers, slips, stock, stock_lists
from counter.shop._where import FILE, VARIABLE, Where, address, set_where, where_of

if TYPE_CHECKING:
    from sqlalchemy import Connection

BATCH = 2000


def describe(data: Path) -> dict[str, Any]:
    """Return where the store is, how big, and what it holds."""
    store = open_store(data)
    with store.reading() as connection:
        counts = {table.name: _count(connection, table) for table in metadata.sorted_tables}
        if store.is_sqlite:
            size = connection.scalar(text("SELECT page_count * page_size FROM pragma_page_count, pragma_page_size"))
        else:
            size = connection.scalar(text("SELECT pg_database_size(current_database())"))
    return {
        "where": store.where.shown,
        "kind": "sqlite" if store.is_sqlite else "postgresql",
        "version": HEAD,
        "bytes": int(size or 0),
        "rows": counts,
        "waiting": waiting(data),
        "left_out": [one._asdict() for one in numbers_left_out(store)],
    }


def check_store(data: Path) -> list[str]:
    """Return what is wrong with the store, in words; nothing: it is sound."""
    store = open_store(data)
    with store.reading() as connection:
        found = _sqlite_faults(connection) if store.is_sqlite else []
        found += _number_faults(connection)
        if (lists := connection.scalar(select(func.count()).where(stock_lists.c.is_current)) or 0) > 1:
            found.append(tr("{count} stock lists are marked as the present one").format(count=lists))
    return found


def _number_faults(connection: Connection) -> list[str]:
    """Return what speaks against numbers without a gap: each is a slip's, or left out with its reason, and once."""
    gaps = connection.execute(select(left_out.c.first, left_out.c.last).order_by(left_out.c.first)).all()
    out = sum(gap.last - gap.first + 1 for gap in gaps)
    last = max(connection.scalar(select(func.max(slips.c.number))) or 0, gaps[-1].last if gaps else 0)
    found = []
    if (count := _count(connection, slips)) + out != last:
        told = tr("{last} slip numbers were given and {count} slips are there")
        if out:
            told = tr("{last} slip numbers were given and {count} slips are there, {out} are left out with a reason")
        found.append(told.format(last=last, count=count, out=out))
    for gap in gaps:
        inside = slips.c.number.between(gap.first, gap.last)
        if connection.scalar(select(func.count()).select_from(slips).where(inside)):
            told = tr("numbers {first} to {last} are left out, and a slip has one of them")
            found.append(told.format(first=gap.first, last=gap.last))
    if (following := given(connection) + 1) != last + 1:
        told = tr("the next slip would be number {number}, after {last}")
        found.append(told.format(number=following, last=last))
    return found


def _sqlite_faults(connection: Connection) -> list[str]:
    said = [str(one) for one in connection.scalars(text("PRAGMA integrity_check"))]
    found = [] if said == ["ok"] else said
    lost = tr("a row of {table} belongs to nothing")
    found += [lost.format(table=row[0]) for row in connection.execute(text("PRAGMA foreign_key_check"))]
    present = select(stock_lists.c.id).where(stock_lists.c.is_current).scalar_subquery()
    lines = connection.scalar(select(func.count()).select_from(stock).where(stock.c.list == present))
    words = connection.scalar(text("SELECT count(*) FROM stock_words_docsize")) if _has_sizes(connection) else lines
    if words != lines:
        found.append(tr("{lines} stock lines and {words} of them searched").format(lines=lines, words=words))
    return found


def _has_sizes(connection: Connection) -> bool:
    named = "SELECT count(*) FROM sqlite_master WHERE name = 'stock_words_docsize'"
    return bool(connection.scalar(text(named)))


def back_up(data: Path, file: Path) -> None:
    """Write everything into one SQLite file, while tills go on writing.

    Raises:
        StoreProblem: the store cannot be read, or the file is there already or cannot be written.
    """
    if file.exists():
        raise StoreProblem("refused", tr("{file} is there already").format(file=file), tr("Name a file that is not."))
    store = open_store(data)
    part = file.with_name(f".{file.name}.part")
    try:
        file.parent.mkdir(parents=True, exist_ok=True)
        part.unlink(missing_ok=True)
        _write_copy(store, part)
        part.replace(file)
    except (OSError, sqlite3.Error) as error:
        if isinstance(error, StoreProblem):
            raise
        what = tr("{file} cannot be written: {why}").format(file=file, why=error)
        raise StoreProblem("full", what, tr("Name a place with room.")) from error
    finally:
        part.unlink(missing_ok=True)


def _write_copy(store: Store, file: Path) -> None:
    if store.where.file is not None:
        with closing(sqlite3.connect(store.where.file)) as source, closing(sqlite3.connect(file)) as made:
            source.backup(made)
            made.execute("PRAGMA journal_mode=DELETE")
        return
    target = open_at(Where(f"sqlite:///{file.absolute()}", store.where.data))
    try:
        copy_all(store, target)
    finally:
        target.close()
        forget_seen(target.where)
    with closing(sqlite3.connect(file)) as made:
        made.execute("PRAGMA journal_mode=DELETE")


class Restored(NamedTuple):
    """What a restore did: where the content of before is kept, if any was, and which numbers no slip will have."""

    kept: Path | None
    left_out: tuple[LeftOut, ...]


def restore(data: Path, file: Path) -> Restored:
    """Bring a back-up into the place of the store's content; slip numbers go on after all that may be on paper.

    Raises:
        StoreProblem: the file is no back-up of a store, or the store cannot be written.
    """
    where = where_of(data)
    with tempfile.TemporaryDirectory() as folder:
        copy = Path(folder) / FILE
        source = _opened_copy(file, copy, data)
        try:
            highest = _given_by_now(where, source)
            kept = _keep_present(data, where)
            target = open_at(where)
            try:
                before = {one.first for one in numbers_left_out(source)}
                _replace_content(source, target, highest)
                out = tuple(one for one in numbers_left_out(target) if one.first not in before)
            finally:
                target.close()
        finally:
            source.close()
            forget_seen(source.where)
    note(data, highest)
    return Restored(kept, out)


def _given_by_now(where: Where, source: Store) -> int:
    """Return the highest number that may be on paper: as the store says, or more than anybody can have given."""
    known = noted(where.data)
    try:
        present = open_at(where, may_begin=False)
    except StoreProblem:
        return unseen_after(known, _last_of(source))
    try:
        with present.reading() as connection:
            return max(given(connection), known.number)
    except StoreProblem:
        return unseen_after(known, _last_of(source))
    finally:
        present.close()


def _last_of(source: Store) -> Noted:
    """Return the last number of a back-up and the day of its last slip; without a slip, today."""
    with source.reading() as connection:
        day = connection.scalar(select(func.max(slips.c.day)))
        today = datetime.now(UTC).date()
        return Noted(given(connection), date.fromisoformat(day) if day else today)


def _opened_copy(file: Path, copy: Path, data: Path) -> Store:
    """Open a copy of a back-up: an older one is brought up to date, and the back-up itself stays as it is."""
    try:
        shutil.copyfile(file, copy)
        with closing(sqlite3.connect(copy)) as connection:
            names = {row[0] for row in connection.execute("SELECT name FROM sqlite_master")}
            said = connection.execute("PRAGMA integrity_check").fetchone()[0]
    except (OSError, sqlite3.Error) as error:
        what = tr("{file} cannot be read: {why}").format(file=file, why=error)
        raise StoreProblem("refused", what, tr("Name a back-up of a store.")) from error
    if not {"alembic_version", "slips"} <= names or said != "ok":
        what = tr("{file} is no sound back-up of a store").format(file=file)
        raise StoreProblem("refused", what, tr("Name another back-up."))
    return open_at(Where(f"sqlite:///{copy}", data))


def _keep_present(data: Path, where: Where) -> Path | None:
    stamp = now_text()[:19].replace(":", "").replace("-", "")
    aside = data / f"before-restore-{stamp}.db"
    forget_seen(where)
    if where.file is not None and not where.file.exists():
        return None
    try:
        back_up(data, aside)
    except StoreProblem:
        if where.file is None:
            raise
        return _move_aside(where.file, aside)
    return aside


def _move_aside(file: Path, aside: Path) -> Path:
    """Keep a store that cannot be read any more, with its log."""
    for tail in ("", "-wal", "-shm"):
        part = file.with_name(file.name + tail)
        if part.exists():
            part.replace(aside.with_name(aside.name + tail))
    return aside


def _replace_content(source: Store, target: Store, highest: int) -> None:
    """Replace all rows in one transaction; numbers go on after the highest given, not after the back-up's."""
    with target.writing(*AREAS, "training") as connection:
        _empty(connection)
        _copy_rows(source, connection)
        skip_to(connection, highest)


def move(data: Path, url: str) -> dict[str, int]:
    """Copy everything to another, empty store, compare, and use that from now on. Returns the rows by table.

    Raises:
        StoreProblem: either cannot be used, or the other one is not empty; this one goes on being used.
    """
    source = open_store(data)
    own = f"sqlite:///{data.absolute() / FILE}"
    target = open_at(Where(address(url), data))
    if target.where.url == source.where.url:
        raise StoreProblem("refused", tr("The store is there already"), tr("Name another place."))
    try:
        copied = copy_all(source, target)
    finally:
        target.close()
    source.close()
    if not os.environ.get(VARIABLE):
        set_where(data, None if target.where.url == own else target.where.url)
    return copied


def copy_all(source: Store, target: Store) -> dict[str, int]:
    """Copy every row into an empty store in one transaction and count them.

    Raises:
        StoreProblem: the target holds something already.
    """
    with target.writing() as connection:
        held = [table.name for table in metadata.sorted_tables if table is not numbers and _count(connection, table)]
        if held:
            what = tr("{place} already holds {tables}").format(place=target.where.shown, tables=", ".join(held))
            raise StoreProblem("refused", what, tr("Name an empty database, or a file that is not there."))
        connection.execute(numbers.delete())
        return _copy_rows(source, connection)


def _copy_rows(source: Store, into: Connection) -> dict[str, int]:
    copied: dict[str, int] = {}
    with source.reading() as connection:
        for table in metadata.sorted_tables:
            rows = connection.execution_options(yield_per=BATCH).execute(select(table))
            copied[table.name] = 0
            for part in rows.mappings().partitions(BATCH):
                into.execute(insert(table), [dict(row) for row in part])
                copied[table.name] += len(part)
    _after_copy(into)
    return copied


def _after_copy(connection: Connection) -> None:
    """Search the present list again on SQLite; let PostgreSQL's own keys go on after the copied ones."""
    if connection.dialect.name == "sqlite":
        from counter.shop._stock import _index

        _index(connection, connection.scalar(select(stock_lists.c.id).where(stock_lists.c.is_current)))
        return
    for table in metadata.sorted_tables:
        if "id" in table.c and table.c.id.type.python_type is int:
            last = f"(SELECT coalesce(max(id), 0) + 1 FROM {table.name})"
            connection.execute(text(f"SELECT setval(pg_get_serial_sequence('{table.name}', 'id'), {last}, false)"))


def _empty(connection: Connection) -> None:
    """Take every row out; only a restore does, and the guards of the log are set aside for it alone."""
    if connection.dialect.name != "sqlite":
        names = ", ".join(table.name for table in metadata.sorted_tables)
        connection.execute(text(f"TRUNCATE {names}"))
        return
    triggers = "SELECT name, sql FROM sqlite_master WHERE type = 'trigger' AND name LIKE '%!_no!_%' ESCAPE '!'"
    guards = connection.execute(text(triggers)).all()
    for guard in guards:
        connection.execute(text(f"DROP TRIGGER {guard.name}"))
    for table in reversed(metadata.sorted_tables):
        connection.execute(table.delete())
    for guard in guards:
        connection.exec_driver_sql(guard.sql)


def _count(connection: Connection, table: Any) -> int:
    return connection.scalar(select(func.count()).select_from(table)) or 0


def begin_anew(data: Path) -> Where:
    """Make an empty store where one was and is lost; one that is there is left alone.

    Raises:
        StoreProblem: there is one, or none can be made.
    """
    where = where_of(data)
    if where.file is not None and where.file.exists():
        what = tr("There is a store at {place}").format(place=where.shown)
        raise StoreProblem("refused", what, tr("Move it away first."))
    forget_seen(where)
    open_store(data)
    return where
