"""The stock lists: the present one, those before it, what was matched by hand, and the search among the lines."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple

from sqlalchemy import delete, func, insert, select, text, update

from counter.shop._moments import now_text
from counter.shop._problem import Cancelled
from counter.shop._tables import hand_matches, letters, mappings, stock, stock_lists

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Mapping, Sequence

    from sqlalchemy import Connection, Row, Select

    from counter.shop._store import Store

AREA = "stock"
AREAS = (AREA, "letters")  # what was learned from a list counts while it is the present one
LISTS_KEPT = 3  # the present list and those that can be brought back
BATCH = 5000
MOST_FOUND = 200


class StockItem(NamedTuple):
    """One line of a stock list. `reason` says why it is no lamp type here; money is whole hundredths."""

    id: int
    line: int
    code: str
    description: str
    bin: str
    barcode: str
    supplier: str
    pack: int | None
    lead_days: int | None
    quantity: float | None
    price_cents: int | None
    life_h: float | None
    lamp: str | None
    base: str | None
    watts: float | None
    kind: str | None
    cct_k: int | None
    reason: str


class StockList(NamedTuple):
    """One list that was imported."""

    id: int
    at: str
    name: str
    lines: int
    matched: int
    is_demo: bool
    is_current: bool
    rejected: list[dict[str, Any]]


_COLUMNS = tuple(stock.c[name] for name in StockItem._fields)


def put_list(
    store: Store,
    name: str,
    items: Sequence[Mapping[str, Any]],
    rejected: Sequence[Mapping[str, Any]],
    *,
    is_demo: bool = False,
    progress: Callable[[int], bool] | None = None,
) -> int:
    """Make a list the present one; the one before it stays and can be brought back. All of it or nothing.

    Raises:
        Cancelled: `progress` said no.
        StoreProblem: it cannot be kept.
    """
    with store.writing(*AREAS) as connection:
        matched = sum(not item["reason"] for item in items)
        facts = {"lines": len(items) + len(rejected), "matched": matched, "is_demo": is_demo, "is_current": False}
        made = connection.execute(
            insert(stock_lists).values(at=now_text(), name=name[:400], rejected=list(rejected), **facts)
        )
        number = int(made.inserted_primary_key[0])  # type: ignore[index]  # typed as if there were no key
        for start in range(0, len(items), BATCH):
            rows = [{**item, "list": number} for item in items[start : start + BATCH]]
            connection.execute(insert(stock), rows)
            if progress is not None and not progress(start + len(rows)):
                raise Cancelled
        _make_current(connection, number)
        _drop_oldest(connection)
    return number


def bring_back(store: Store) -> StockList | None:
    """Make the list before the present one the present one again; the present one is dropped. None: there is none.

    Raises:
        StoreProblem: the store cannot be written.
    """
    with store.writing(*AREAS) as connection:
        kept = _lists(connection)
        at = next((at for at, one in enumerate(kept) if one.is_current), None)
        if at is None or at + 1 >= len(kept):
            return None
        _make_current(connection, kept[at + 1].id)
        _drop(connection, [kept[at].id])
        return kept[at + 1]._replace(is_current=True)


def drop_demo(store: Store) -> int:
    """Take the demo lists out; whatever real list stood before them is the present one again."""
    with store.writing(*AREAS) as connection:
        kept = _lists(connection)
        demo = [one.id for one in kept if one.is_demo]
        real = next((one for one in kept if not one.is_demo), None)
        if real is not None and not real.is_current:
            _make_current(connection, real.id)
        _drop(connection, demo)
        if real is None:
            _index(connection, None)
    return len(demo)


def lists(store: Store) -> list[StockList]:
    """Return the lists that are kept, newest first."""
    with store.reading() as connection:
        return _lists(connection)


def current_list(store: Store) -> StockList | None:
    """Return the present list."""
    return next((one for one in lists(store) if one.is_current), None)


def all_items(store: Store, *, only_unmatched: bool = False) -> list[StockItem]:
    """Return the lines of the present list, in its order."""
    wanted = _present().order_by(stock.c.line)
    if only_unmatched:
        wanted = wanted.where(stock.c.reason != "")
    return _fetch(store, wanted)


def find_items(store: Store, words: Sequence[str], limit: int = MOST_FOUND) -> list[StockItem]:
    """Return lines of the present list that have a word beginning with each of these."""
    if not words:
        return _fetch(store, _present().order_by(stock.c.line).limit(limit))
    if store.is_sqlite:
        asked = " AND ".join(f'"{word}"*' for word in words)
        hits = text("SELECT rowid FROM stock_words WHERE stock_words MATCH :asked LIMIT :most").columns(stock.c.id)
        found = select(*_COLUMNS).where(stock.c.id.in_(hits))
        return _fetch(store, found, {"asked": asked, "most": limit})
    asked = " & ".join(f"{word}:*" for word in words)
    indexed = func.array_to_tsvector(func.string_to_array(stock.c.words, " "))
    return _fetch(store, _present().where(indexed.op("@@")(func.to_tsquery("simple", asked))).limit(limit))


def items_of(store: Store, lamps: Iterable[str], bases: Iterable[str], limit: int = MOST_FOUND) -> list[StockItem]:
    """Return lines of the present list that are one of these lamp types, or LED lamps on one of these bases."""
    led = stock.c.base.in_(list(bases)) & (stock.c.kind == "led")
    return _fetch(store, _present().where(stock.c.lamp.in_(list(lamps)) | led).order_by(stock.c.line).limit(limit))


def match_by_hand(store: Store, keys: Iterable[str], lamp: str, facts: Mapping[str, Any], who: str) -> int:
    """Let codes and barcodes mean a lamp type from now on, in the present list and in every later one.

    Returns how many lines of the present list that changed. `keys` are codes as the matcher writes them.

    Raises:
        StoreProblem: the store cannot be written.
    """
    from sqlalchemy import or_

    with store.writing(AREA) as connection:
        wanted = [key for key in keys if key]
        connection.execute(delete(hand_matches).where(hand_matches.c.code.in_(wanted)))
        rows = [{"code": key, "lamp": lamp, "who": who, "at": now_text()} for key in wanted]
        connection.execute(insert(hand_matches), rows)
        plain = [func.replace(func.lower(col), "-", "") for col in (stock.c.code, stock.c.barcode)]
        like = or_(*(_bare(col).in_(wanted) for col in plain))
        done = connection.execute(
            update(stock).where(stock.c.list == _present_id(), like).values(lamp=lamp, reason="", **facts)
        )
        _count_matched(connection)
        return int(done.rowcount)


def _bare(column: Any) -> Any:
    """Take the signs out of a code that codes are written with, as the matcher's key does."""
    for sign in (" ", "/", ".", "+", "#", ":", "(", ")", ","):
        column = func.replace(column, sign, "")
    return column


def hands(store: Store) -> dict[str, str]:
    """Return what was matched by hand: lamp type by code."""
    with store.reading() as connection:
        rows = connection.execute(select(hand_matches.c.code, hand_matches.c.lamp))
        return {row.code: row.lamp for row in rows}


def remember_columns(store: Store, headings: str, columns: Mapping[str, Any]) -> None:
    """Remember which column holds what in lists with these headings."""
    key = _headings_key(headings)
    with store.writing() as connection:
        connection.execute(delete(mappings).where(mappings.c.headers == key))
        connection.execute(insert(mappings).values(headers=key, body=dict(columns), at=now_text()))


def remembered_columns(store: Store, headings: str) -> dict[str, Any] | None:
    """Return which column holds what in lists with these headings, if one was imported before."""
    with store.reading() as connection:
        found: dict[str, Any] | None = connection.scalar(
            select(mappings.c.body).where(mappings.c.headers == _headings_key(headings))
        )
        return found


def _headings_key(headings: str) -> str:
    import hashlib

    return hashlib.sha256(headings.encode()).hexdigest()


def _present_id() -> Any:
    return select(stock_lists.c.id).where(stock_lists.c.is_current).scalar_subquery()


def _present() -> Select[Any]:
    return select(*_COLUMNS).where(stock.c.list == _present_id())


def _fetch(store: Store, wanted: Select[Any], values: Mapping[str, Any] | None = None) -> list[StockItem]:
    with store.reading() as connection:
        return [StockItem(*row) for row in connection.execute(wanted, dict(values or {}))]


def _lists(connection: Connection) -> list[StockList]:
    columns = [stock_lists.c[name] for name in StockList._fields]
    rows: Iterable[Row[Any]] = connection.execute(select(*columns).order_by(stock_lists.c.id.desc()))
    return [StockList._make(row) for row in rows]


def _make_current(connection: Connection, number: int) -> None:
    connection.execute(update(stock_lists).values(is_current=stock_lists.c.id == number))
    _index(connection, number)


def _index(connection: Connection, number: int | None) -> None:
    """On SQLite the words of the present list alone are searched; on PostgreSQL the index follows by itself."""
    if connection.dialect.name != "sqlite":
        return
    connection.execute(text("INSERT INTO stock_words(stock_words) VALUES ('delete-all')"))
    if number is not None:
        connection.execute(
            text("INSERT INTO stock_words(rowid, words) SELECT id, words FROM stock WHERE list = :n"), {"n": number}
        )


def _drop_oldest(connection: Connection) -> None:
    old = [one.id for one in _lists(connection) if not one.is_current]
    _drop(connection, old[LISTS_KEPT - 1 :])


def _drop(connection: Connection, gone: list[int]) -> None:
    if gone:
        connection.execute(delete(letters).where(letters.c.stock_list.in_(gone)))
        connection.execute(delete(stock).where(stock.c.list.in_(gone)))
        connection.execute(delete(stock_lists).where(stock_lists.c.id.in_(gone)))


def _count_matched(connection: Connection) -> None:
    matched = select(func.count()).where(stock.c.list == _present_id(), stock.c.reason == "").scalar_subquery()
    connection.execute(update(stock_lists).where(stock_lists.c.is_current).values(matched=matched))
