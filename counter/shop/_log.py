"""The log: slips numbered without gaps, what was asked for and not there, what came back. It only grows.

Names stand in a table of their own, so that they can be forgotten while the log stays whole.
"""

from __future__ import annotations

from datetime import timedelta
from typing import TYPE_CHECKING, Any, NamedTuple

from sqlalchemy import delete, func, insert, or_, select, union

from counter.language import marked
from counter.shop._forgotten import note_forgotten
from counter.shop._journal import forget_waiting
from counter.shop._moments import now_text
from counter.shop._numbers import next_number
from counter.shop._printed import note, noted, skip_to
from counter.shop._settings import setting
from counter.shop._sold import MIX_UPS, drop_sold, note_sold
from counter.shop._tables import returns, slip_items, slip_names, slips, wishes

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence
    from datetime import date
    from pathlib import Path

    from sqlalchemy import Connection, Select

    from counter.shop._store import Store

AREA = "slips"
MOST = 200
REASONS = (
    *MIX_UPS,
    marked("does not light"),
    marked("arrived broken"),
    marked("not needed"),
    marked("other"),
)


class LoggedSlip(NamedTuple):
    """A slip in the log; `customer` is empty where no name was given, or it was forgotten."""

    number: int
    key: str
    at: str
    day: str
    till: str
    lamp: str | None
    base: str | None
    watts: float | None
    body: dict[str, Any]
    customer: str


class Wish(NamedTuple):
    """Something asked for and not there."""

    at: str
    day: str
    lamp: str | None
    text: str
    quantity: int


class Return(NamedTuple):
    """Something that came back, and why; `right_lamp` is what it should have been, where that is known."""

    at: str
    day: str
    number: int | None
    lamp: str | None
    right_lamp: str | None
    reason: str
    note: str


class Month(NamedTuple):
    """What one month says: counts by name, most first; mix-ups are pairs of lamp types, sold and right."""

    slips: int
    sold: tuple[tuple[str, int], ...]
    missing: tuple[tuple[str, int], ...]
    came_back: tuple[tuple[str, int], ...]
    mix_ups: tuple[tuple[str, str, int], ...]
    by_day: tuple[tuple[str, int], ...]


def add_slip(
    store: Store, slip: Mapping[str, Any], items: Sequence[Mapping[str, Any]], customer: str = "", folded: str = ""
) -> int:
    """Put a slip into the log and return its number; one that is in it already keeps the number it has.

    `slip` holds key, at, day, till, lamp, base, watts, body and words.

    Raises:
        StoreProblem: it cannot be kept.
    """
    data = store.where.data
    with store.writing(AREA) as connection:
        number = _number_of(connection, slip["key"])
        if number is None:
            number, is_new = _number_for(connection, slip["key"], data)
            if is_new:
                _put_slip(connection, number, slip, items)
                if customer:
                    connection.execute(insert(slip_names).values(number=number, customer=customer, folded=folded))
    note(data, number)
    return number


def _number_for(connection: Connection, key: str, data: Path) -> tuple[int, bool]:
    """Return the number of a slip and whether it is new: another till may have put it in while this one waited."""
    number = next_number(connection, "slip")
    known = _number_of(connection, key)
    if known is not None:
        _give_back(connection)
        return known, False
    highest = noted(data).number
    if number <= highest:  # the store was set back, and this machine has given that number before
        _give_back(connection)
        skip_to(connection, highest)
        number = next_number(connection, "slip")
    return number, True


def _put_slip(
    connection: Connection, number: int, slip: Mapping[str, Any], items: Sequence[Mapping[str, Any]]
) -> None:
    connection.execute(insert(slips).values(number=number, **slip))
    rows = [{"number": number, "place": place, **item} for place, item in enumerate(items)]
    if rows:
        connection.execute(insert(slip_items), rows)
    note_sold(connection, number, slip, items)


def _number_of(connection: Connection, key: str) -> int | None:
    found: int | None = connection.scalar(select(slips.c.number).where(slips.c.key == key))
    return found


def _give_back(connection: Connection) -> None:
    from counter.shop._tables import numbers

    connection.execute(numbers.update().where(numbers.c.name == "slip").values(next=numbers.c.next - 1))


def add_wish(store: Store, key: str, wish: Wish) -> None:
    """Note that something was asked for and not there; once a key.

    Raises:
        StoreProblem: it cannot be kept.
    """
    with store.writing(AREA) as connection:
        _add_once(connection, wishes, key, wish._asdict())


def add_return(store: Store, key: str, returned: Return) -> None:
    """Note that something came back and why; once a key.

    Raises:
        StoreProblem: it cannot be kept.
    """
    with store.writing(AREA) as connection:
        _add_once(connection, returns, key, returned._asdict())
        drop_sold(connection, returned.number, returned.reason)


def _add_once(connection: Connection, table: Any, key: str, row: Mapping[str, Any]) -> None:
    if connection.scalar(select(table.c.id).where(table.c.key == key)) is None:
        connection.execute(insert(table).values(key=key, **row))


_COLUMNS = [slips.c[name] for name in LoggedSlip._fields if name != "customer"]


def _logged() -> Select[Any]:
    named = func.coalesce(slip_names.c.customer, "").label("customer")
    return select(*_COLUMNS, named).outerjoin(slip_names, slip_names.c.number == slips.c.number)


def find_slips(store: Store, words: Sequence[str] = (), limit: int = MOST) -> list[LoggedSlip]:
    """Return slips, newest first, in which each word is the number, begins the day or a word, or is in a name.

    "#12" is slip number 12 alone.

    Raises:
        StoreProblem: the store cannot be read.
    """
    wanted = _logged().order_by(slips.c.number.desc()).limit(limit)
    for word in words:
        bare = word.replace("%", "").replace("_", "")
        if bare.startswith("#") and bare[1:].isdigit():
            wanted = wanted.where(slips.c.number == int(bare[1:10]))
            continue
        is_number = [slips.c.number == int(bare)] if bare.isdigit() and len(bare) < 9 else []
        named = slip_names.c.folded.like(f"%{bare}%")
        wanted = wanted.where(or_(slips.c.words.like(f"% {bare}%"), slips.c.day.like(f"{bare}%"), named, *is_number))
    with store.reading() as connection:
        return [LoggedSlip._make(row) for row in connection.execute(wanted)]


def slip_by(store: Store, *, number: int | None = None, key: str | None = None) -> LoggedSlip | None:
    """Return one slip by its number or its key."""
    column, value = (slips.c.number, number) if number is not None else (slips.c.key, key)
    with store.reading() as connection:
        row = connection.execute(_logged().where(column == value)).first()
    return LoggedSlip._make(row) if row is not None else None


def came_back(store: Store, limit: int = MOST) -> list[Return]:
    """Return what came back, newest first."""
    columns = [returns.c[name] for name in Return._fields]
    wanted = select(*columns).order_by(returns.c.id.desc()).limit(limit)
    with store.reading() as connection:
        return [Return._make(row) for row in connection.execute(wanted)]


def asked_for(store: Store, limit: int = MOST) -> list[Wish]:
    """Return what was asked for and not there, newest first."""
    columns = [wishes.c[name] for name in Wish._fields]
    wanted = select(*columns).order_by(wishes.c.id.desc()).limit(limit)
    with store.reading() as connection:
        return [Wish._make(row) for row in connection.execute(wanted)]


def month(store: Store, of: str) -> Month:
    """Return what a month says; `of` is as in 2026-11."""
    like = f"{of}-%"
    named = func.coalesce(slip_items.c.lamp, slip_items.c.code)
    sold = select(named, func.sum(slip_items.c.quantity)).join(slips, slips.c.number == slip_items.c.number)
    wished = func.coalesce(wishes.c.lamp, wishes.c.text)
    mixed = select(returns.c.lamp, returns.c.right_lamp, func.count()).where(
        returns.c.day.like(like), returns.c.reason.in_(MIX_UPS), returns.c.right_lamp.is_not(None)
    )
    days = select(slips.c.day, func.count()).where(slips.c.day.like(like)).group_by(slips.c.day).order_by(slips.c.day)
    missed = select(wished, func.sum(wishes.c.quantity)).where(wishes.c.day.like(like)).group_by(wished)
    reasons = select(returns.c.reason, func.count()).where(returns.c.day.like(like)).group_by(returns.c.reason)
    with store.reading() as connection:
        by_day = tuple((str(day), int(count)) for day, count in connection.execute(days))
        pairs = connection.execute(mixed.group_by(returns.c.lamp, returns.c.right_lamp)).all()
        return Month(
            slips=sum(count for _, count in by_day),
            sold=_counts(connection, sold.where(slips.c.day.like(like)).group_by(named)),
            missing=_counts(connection, missed),
            came_back=_counts(connection, reasons),
            mix_ups=tuple(sorted(((str(a), str(b), int(n)) for a, b, n in pairs), key=lambda one: (-one[2], one))),
            by_day=by_day,
        )


def _counts(connection: Connection, wanted: Select[Any]) -> tuple[tuple[str, int], ...]:
    rows = [(str(name), int(count)) for name, count in connection.execute(wanted)]
    return tuple(sorted(rows, key=lambda one: (-one[1], one[0])))


def months(store: Store) -> list[str]:
    """Return the months in which anything was sold, asked for or brought back, newest first, as in 2026-11."""
    every = union(*(select(func.substr(one.c.day, 1, 7)) for one in (slips, wishes, returns)))
    with store.reading() as connection:
        return sorted(map(str, connection.scalars(every)), reverse=True)


def sold_lamps(store: Store) -> dict[str, int]:
    """Return how many slips each lamp type is on: what the shop's sales say of what comes over the counter."""
    with store.reading() as connection:
        rows = connection.execute(
            select(slips.c.lamp, func.count()).where(slips.c.lamp.is_not(None)).group_by(slips.c.lamp)
        )
        return {str(lamp): int(count) for lamp, count in rows}


def mixed_up(store: Store) -> list[tuple[str, str, int]]:
    """Return the pairs of lamp types that came back as one sold for the other, most first."""
    wanted = select(returns.c.lamp, returns.c.right_lamp, func.count()).where(
        returns.c.reason.in_(MIX_UPS), returns.c.lamp.is_not(None), returns.c.right_lamp.is_not(None)
    )
    with store.reading() as connection:
        rows = connection.execute(wanted.group_by(returns.c.lamp, returns.c.right_lamp)).all()
    return sorted(((str(a), str(b), int(n)) for a, b, n in rows), key=lambda one: (-one[2], one))


def forget_name(store: Store, folded: str) -> int:
    """Forget a customer: the name goes off every slip, the slips stay. Returns how many slips had it.

    Slips that wait on this machine count too; those that wait on another one go in without it.

    Raises:
        StoreProblem: the store cannot be written.
        OSError: a slip that waits here cannot be written.
    """
    waited = forget_waiting(store.where.data, lambda entry: entry["folded"] == folded)
    with store.writing(AREA) as connection:
        done = connection.execute(delete(slip_names).where(slip_names.c.folded == folded))
        note_forgotten(connection, folded)
    store.wipe("slip_names")
    return int(done.rowcount) + waited


def forget_names_before(store: Store, day: str) -> int:
    """Forget all names on slips before a day (ISO 8601), also on those that wait here; returns how many it were."""
    waited = forget_waiting(store.where.data, lambda entry: entry["slip"]["day"] < day)
    old = select(slips.c.number).where(slips.c.day < day)
    with store.reading() as connection:
        count = connection.scalar(select(func.count()).select_from(slip_names).where(slip_names.c.number.in_(old)))
    if not count:
        return waited
    with store.writing(AREA) as connection:
        done = connection.execute(delete(slip_names).where(slip_names.c.number.in_(old)))
    store.wipe("slip_names")
    return int(done.rowcount) + waited


def forget_old_names(store: Store, today: date) -> int:
    """Forget the names that the shop's settings keep no longer; returns how many there were."""
    days = setting(store, "names_kept_days")
    return forget_names_before(store, (today - timedelta(days=days)).isoformat()) if days > 0 else 0


def moment() -> str:
    """Return this moment, as the log keeps it."""
    return now_text()
