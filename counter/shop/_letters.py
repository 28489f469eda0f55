"""Makers' codes as this shop knows them, in the store: letters taught or learned, and whole codes of makers.

Letters are changed in one transaction that notes who, when and what; rows that a change takes out stay, so that it
can be undone. Letters learned from a stock list count while that list is the present one, and come back with it.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple

from sqlalchemy import delete, func, insert, or_, select, update

from counter.marks import HouseMaker
from counter.marks.letters import KnownLetters, LetterTable
from counter.shop._house_codes import HouseCodes
from counter.shop._moments import now_text
from counter.shop._numbers import next_number
from counter.shop._tables import house_codes, letter_changes, letters, stock_lists

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable

    from sqlalchemy import Connection

    from counter.shop._store import Store

AREA = "letters"
CHANGES_KEPT = 200  # that can be undone; what an older one took out is gone for good


class LettersChange(NamedTuple):
    """One change of letters: its number, when (UTC), who, and what, in words."""

    number: int
    at: str
    who: str
    what: str


class Changed(NamedTuple):
    """How letters stand after a change, and the change that can be undone; None where nothing changed."""

    codes: HouseCodes
    number: int | None


def house_codes_of(store: Store) -> HouseCodes:
    """Return what this shop says of makers' codes.

    Raises:
        StoreProblem: the store cannot be read.
    """
    with store.reading() as connection:
        return _all(connection)


def change_letters(
    store: Store, change: Callable[[LetterTable], LetterTable], *, who: str, what: str, of_stock: bool = False
) -> Changed:
    """Put the table that `change` makes of the present one in its place; `of_stock` ties new rows to the stock list.

    Raises:
        ValueError: `change` refused.
        StoreProblem: the store cannot be written; nothing was changed.
    """
    with store.writing(AREA) as connection:
        number = next_number(connection, "letters")  # holds other tills back until this change is in
        before = _rows(connection)
        after = change(LetterTable(letters=tuple(row for _, row in before))).letters
        gone = [place for place, row in before if row not in after]
        new = [row for row in after if row not in {one for _, one in before}]
        if gone or new:
            stock_list = _present_list(connection) if of_stock else None
            _note(connection, number, who, what)
            connection.execute(update(letters).where(letters.c.id.in_(gone)).values(went=number))
            _insert(connection, new, number, stock_list)
        return Changed(_all(connection), number if gone or new else None)


def undo_letters(store: Store, number: int | None = None) -> LettersChange | None:
    """Take a change of letters back, or the last one; returns what it was, or None where there is nothing to undo.

    Raises:
        StoreProblem: the store cannot be written.
    """
    with store.writing(AREA) as connection:
        next_number(connection, "letters")
        wanted = select(*letter_changes.c).order_by(letter_changes.c.number.desc()).limit(1)
        if number is not None:
            wanted = wanted.where(letter_changes.c.number == number)
        row = connection.execute(wanted).first()
        if row is None:
            return None
        connection.execute(delete(letters).where(letters.c.came == row.number))
        connection.execute(update(letters).where(letters.c.went == row.number).values(went=None))
        connection.execute(delete(letter_changes).where(letter_changes.c.number == row.number))
        return LettersChange._make(row)


def letters_changes(store: Store) -> list[LettersChange]:
    """Return what was changed of letters, the last first."""
    with store.reading() as connection:
        rows = connection.execute(select(*letter_changes.c).order_by(letter_changes.c.number.desc()))
        return [LettersChange._make(row) for row in rows]


def put_makers(store: Store, makers: Iterable[HouseMaker], who: str = "") -> None:
    """Keep whole codes of makers; a maker's older table is replaced.

    Raises:
        StoreProblem: the store cannot be written.
    """
    with store.writing(AREA) as connection:
        put_makers_in(connection, makers, who)


def put_makers_in(connection: Connection, makers: Iterable[HouseMaker], who: str) -> None:
    """Put makers' tables in within a transaction."""
    for maker in makers:
        connection.execute(delete(house_codes).where(house_codes.c.maker == maker.maker[:200]))
        body = maker.model_dump(mode="json", exclude_defaults=True)
        connection.execute(insert(house_codes).values(maker=maker.maker[:200], body=body, who=who, at=now_text()))


def drop_maker(store: Store, maker: str) -> int:
    """Take a maker's table out; returns how many there were."""
    with store.writing(AREA) as connection:
        return int(connection.execute(delete(house_codes).where(house_codes.c.maker == maker)).rowcount)


def put_letters_in(connection: Connection, table: LetterTable, what: str) -> None:
    """Put the letters of an older program's file in, within a transaction."""
    number = next_number(connection, "letters")
    known = [row for _, row in _rows(connection)]
    _note(connection, number, "", what)
    _insert(connection, [row for row in table.letters if row not in known], number, None)


def _note(connection: Connection, number: int, who: str, what: str) -> None:
    connection.execute(insert(letter_changes).values(number=number, at=now_text(), who=who, what=what))
    old = number - CHANGES_KEPT
    connection.execute(delete(letters).where(letters.c.went <= old))
    connection.execute(delete(letter_changes).where(letter_changes.c.number <= old))


def _insert(connection: Connection, rows: Iterable[KnownLetters], number: int, stock_list: int | None) -> None:
    made: list[dict[str, Any]] = [
        {
            "letters": row.letters[:80],
            "body": row.model_dump(mode="json", exclude_defaults=True),
            "stock_list": stock_list if row.source == "list" else None,
            "came": number,
        }
        for row in rows
    ]
    if made:
        connection.execute(insert(letters), made)


def _present_list(connection: Connection) -> int | None:
    found: int | None = connection.scalar(select(func.max(stock_lists.c.id)).where(stock_lists.c.is_current))
    return found


def _rows(connection: Connection) -> list[tuple[int, KnownLetters]]:
    of_list = or_(letters.c.stock_list.is_(None), letters.c.stock_list == _present_list(connection))
    wanted = select(letters.c.id, letters.c.body).where(letters.c.went.is_(None), of_list).order_by(letters.c.id)
    return [(row.id, KnownLetters.model_validate(row.body)) for row in connection.execute(wanted)]


def _all(connection: Connection) -> HouseCodes:
    bodies = connection.scalars(select(house_codes.c.body).order_by(house_codes.c.maker))
    table = LetterTable(letters=tuple(row for _, row in _rows(connection)))
    return HouseCodes(tuple(HouseMaker.model_validate(body) for body in bodies), table)
