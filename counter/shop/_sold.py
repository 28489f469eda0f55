"""What the log says of codes: which lamp a code was sold as here, kept up as slips go in and things come back."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from sqlalchemy import delete, select, text

from counter.desk import SoldCode, code_key
from counter.language import marked
from counter.shop._tables import returns, slip_items, slips, sold_codes

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from sqlalchemy import Connection

    from counter.shop._store import Store

MOST_CODES = 20_000  # the latest; a window holds them all
# What a better answer would have spared.
MIX_UPS = (marked("wrong base"), marked("wrong watts"), marked("wrong colour"), marked("wrong length"))

_NOTE = text(
    "INSERT INTO sold_codes (code, lamp, times, day, number, item) VALUES (:code, :lamp, 1, :day, :number, :item)"
    " ON CONFLICT (code, lamp) DO UPDATE SET times = sold_codes.times + 1, day = excluded.day,"
    " number = excluded.number, item = excluded.item"
)


def note_sold(
    connection: Connection, number: int, slip: Mapping[str, Any], items: Sequence[Mapping[str, Any]]
) -> None:
    """Note what a slip says of its code; only one that was free to sell settled it."""
    code = _code_of(slip)
    if code and slip["lamp"]:
        row = {"code": code, "lamp": slip["lamp"], "day": slip["day"], "number": number, "item": _item(items)}
        connection.execute(_NOTE, row)


def _code_of(slip: Mapping[str, Any]) -> str:
    body = slip["body"]
    if not isinstance(body, dict) or body.get("verdict") != "sell" or not isinstance(body.get("case"), dict):
        return ""
    return code_key(str(body["case"].get("marks", "")))


def _item(items: Sequence[Mapping[str, Any]]) -> str:
    return str(items[0].get("code", ""))[:200] if items else ""


def drop_sold(connection: Connection, number: int | None, reason: str) -> None:
    """Forget what a slip says of its code: what it sold came back as the wrong lamp."""
    if number is None or reason not in MIX_UPS:
        return
    columns = (slips.c.lamp, slips.c.day, slips.c.body)
    slip = connection.execute(select(*columns).where(slips.c.number == number)).first()
    if slip is not None:
        same = (sold_codes.c.code == _code_of(slip._asdict())) & (sold_codes.c.lamp == slip.lamp)
        connection.execute(delete(sold_codes).where(same))


def sold_here(store: Store) -> dict[str, tuple[SoldCode, ...]]:
    """Return what each code was sold as, the commonest first; of very many codes the latest.

    Raises:
        StoreProblem: the store cannot be read.
    """
    columns = (sold_codes.c.code, *(sold_codes.c[name] for name in SoldCode._fields))
    with store.reading() as connection:
        latest = select(*columns).order_by(sold_codes.c.number.desc()).limit(MOST_CODES)
        rows = sorted(connection.execute(latest), key=lambda row: (-row.times, -row.number))
    found: dict[str, tuple[SoldCode, ...]] = {}
    for code, *rest in rows:
        found[code] = (*found.get(code, ()), SoldCode(*rest))
    return found


def fill_sold(connection: Connection) -> None:
    """Work out from a log what older programs did not note."""
    items: dict[int, list[dict[str, str]]] = {}
    for number, code in connection.execute(
        select(slip_items.c.number, slip_items.c.code).order_by(slip_items.c.place)
    ):
        items.setdefault(number, []).append({"code": code})
    columns = (slips.c.number, slips.c.lamp, slips.c.day, slips.c.body)
    for slip in connection.execute(select(*columns).order_by(slips.c.number)).all():
        note_sold(connection, slip.number, slip._asdict(), items.get(slip.number, ()))
    for number, reason in connection.execute(select(returns.c.number, returns.c.reason)).all():
        drop_sold(connection, number, reason)
