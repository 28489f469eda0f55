"""Sequences without gaps: a number that is taken in a transaction is given back where that is undone."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sqlalchemy import select

from counter.shop._tables import numbers

if TYPE_CHECKING:
    from sqlalchemy import Connection


def next_number(connection: Connection, name: str) -> int:
    """Take the next number of a sequence; it is given back if the transaction is undone, so there are no gaps."""
    row = numbers.c.name == name
    found = connection.scalar(select(numbers.c.next).where(row).with_for_update())
    connection.execute(numbers.update().where(row).values(next=numbers.c.next + 1))
    assert found is not None, "the sequence is made with the store"
    return int(found)
