"""Bring a store's tables up to what this program knows; Alembic is only imported where there is something to do."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from sqlalchemy import exc, text

from counter.shop._say import problem

if TYPE_CHECKING:
    from sqlalchemy import Connection, Engine

    from counter.shop._where import Where

FOLDER = Path(__file__).parent / "migrations"
HEAD = "0003"  # the newest of migrations/versions; a test holds it so
KNOWN = frozenset({"0001", "0002", HEAD})
_LOCK = 7_266_021  # any number of our own, for PostgreSQL's advisory lock


def bring_up_to_date(engine: Engine, where: Where) -> None:
    """Make or change the tables; two programs that start at once do it one after the other.

    Raises:
        StoreProblem: the tables were made by a newer program.
    """
    if _version_of(engine) == HEAD:
        return
    with engine.connect() as plain:
        connection = plain.execution_options(writes=True)
        with connection.begin():
            if where.file is None:
                connection.execute(text("SELECT pg_advisory_xact_lock(:n)"), {"n": _LOCK})
            version = _version(connection)
            if version is not None and version not in KNOWN:
                raise problem("newer", where)
            if version != HEAD:
                _upgrade(connection)
                _begin_numbers(connection)


def _version_of(engine: Engine) -> str | None:
    try:
        with engine.connect() as connection:
            found: str | None = connection.scalar(text("SELECT version_num FROM alembic_version"))
            return found
    except (exc.OperationalError, exc.ProgrammingError) as error:
        if "alembic_version" in str(error.orig):
            return None
        raise


def _version(connection: Connection) -> str | None:
    names = connection.dialect.get_table_names(connection)
    if "alembic_version" not in names:
        return None
    found: str | None = connection.scalar(text("SELECT version_num FROM alembic_version"))
    return found


def _upgrade(connection: Connection) -> None:
    from alembic import command
    from alembic.config import Config

    config = Config(attributes={"connection": connection})
    config.set_main_option("script_location", str(FOLDER).replace("%", "%%"))
    config.set_main_option("path_separator", "os")
    command.upgrade(config, "head")


def _begin_numbers(connection: Connection) -> None:
    from counter.shop._tables import numbers

    for name in ("slip", "letters"):
        if connection.scalar(numbers.select().where(numbers.c.name == name)) is None:
            connection.execute(numbers.insert().values(name=name, next=1))
