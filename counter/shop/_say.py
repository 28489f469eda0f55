"""What a database says, put into the words of a StoreProblem."""

from __future__ import annotations

from contextlib import contextmanager
from typing import TYPE_CHECKING

from sqlalchemy import exc

from counter.language import marked, tr
from counter.shop._problem import StoreProblem

if TYPE_CHECKING:
    from collections.abc import Iterator

    from counter.shop._problem import Kind
    from counter.shop._where import Where

# What SQLite (its result codes' texts) and PostgreSQL (the classes of Appendix A of its manual) say, by kind.
SAID: tuple[tuple[Kind, tuple[str, ...]], ...] = (
    ("full", ("disk is full", "no space left", "53100", "could not extend")),
    ("read-only", ("readonly database", "read-only", "25006", "permission denied")),
    ("busy", ("database is locked", "database table is locked", "55p03", "lock timeout", "40p01", "57014")),
    ("damaged", ("malformed", "not a database", "disk i/o error", "xx001", "xx002")),
    ("refused", ("append-only",)),
)
WAYS_OUT: dict[Kind, tuple[str, str]] = {
    "gone": (
        marked("The shop's store cannot be reached ({where})"),
        marked(
            "Slips wait on this machine and go in by themselves. See that the server runs or the folder is there."
        ),
    ),
    "full": (
        marked("The disk that holds the shop's store is full"),
        marked("Make room there. Slips wait on this machine meanwhile, if it has room."),
    ),
    "read-only": (
        marked("The shop's store may only be read ({where})"),
        marked("Let this account write in that folder, or grant it on the server. Slips wait on this machine."),
    ),
    "newer": (
        marked("The shop's store was made by a newer version of this program"),
        marked("Bring this machine up to date. Slips wait on it meanwhile."),
    ),
    "busy": (
        marked("Another till holds the shop's store for longer than usual"),
        marked("Try again in a moment; a large import may be going in."),
    ),
    "damaged": (
        marked("The shop's store cannot be read: the file is damaged ({where})"),
        marked("Bring a back-up into its place: counter store restore FILE. The damaged file is kept."),
    ),
    "refused": (
        marked("The log only grows: nothing in it is changed or taken out"),
        marked("Names can be forgotten; what was sold stays."),
    ),
}


def problem(kind: Kind, where: Where) -> StoreProblem:
    """Return the problem of one kind, with its way out."""
    what, way_out = WAYS_OUT[kind]
    return StoreProblem(kind, tr(what).format(where=where.shown), tr(way_out))


@contextmanager
def in_words(where: Where) -> Iterator[None]:
    """Turn what the database raises into a StoreProblem; a fault of ours (bad SQL, a broken constraint) stays one.

    Raises:
        StoreProblem: the database could not do what was asked.
    """
    try:
        yield
    except exc.DBAPIError as error:
        kind = kind_of(error)
        if kind is None:
            raise
        raise problem(kind, where) from error
    except exc.TimeoutError as error:
        raise problem("busy", where) from error
    except UnicodeDecodeError as error:  # SQLite quotes the damaged text in its own complaint
        raise problem("damaged", where) from error


def kind_of(error: exc.DBAPIError) -> Kind | None:
    """Return what kind of problem the database named; None where it is none of the shop's but the program's."""
    words = f"{getattr(error.orig, 'sqlstate', '') or ''} {error.orig}".lower()
    for kind, signs in SAID:
        if any(sign in words for sign in signs):
            return kind
    if isinstance(error, exc.OperationalError | exc.InterfaceError) or error.connection_invalidated:
        is_ours = any(sign in words for sign in ("no such table", "no such column", "syntax error", "has no column"))
        return "damaged" if is_ours else "gone"
    return None
