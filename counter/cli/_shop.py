"""What the shop makes: its stock list, its slips, and the store that keeps them."""

from __future__ import annotations

from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Any

from counter.cli._core import catalogue_of, house_of
from counter.cli._line import DONE, NOTHING, Answer, BadInput
from counter.language import figure, tr, trn

if TYPE_CHECKING:
    import argparse
    from collections.abc import Iterator

    from counter.cli._line import Commands
    from counter.shop import LeftOut

MOST_SHOWN = 20  # lines of text; --json gives all


def add(commands: Commands) -> None:
    """Name the commands of this file."""
    stock = commands.group("stock", tr("the stock list: import one, find in it"), "import | find")
    about = tr("read a shop system's list (CSV, TSV, XLSX, XLS, ODS) and match its lines")
    bring_in = stock.add("import", _import, about)
    bring_in.add_argument("file", metavar=tr("FILE"), type=Path)
    find = stock.add("find", _find, tr("find by code, description, bin or barcode"))
    find.add_argument("text", metavar=tr("TEXT"))
    slips = commands.add("slips", _slips, tr("the log of slips, newest first"))
    about = tr("a number as #12, a name, a day as 2026-11-25, a base, a bin, a code; none: the newest")
    slips.add_argument("text", metavar=tr("TEXT"), nargs="?", default="", help=about)
    forget = slips.add_mutually_exclusive_group()
    about = tr("take a customer's name off all slips; the slips stay")
    forget.add_argument("--forget", metavar=tr("NAME"), help=about)
    about = tr("take all names off slips before a day, 2026-11-25")
    forget.add_argument("--forget-before", metavar=tr("DAY"), help=about)
    about = tr("where everything is kept, how big; check, back up, restore, move it")
    store = commands.add("store", _store, about)
    about = tr(
        "check; back-up FILE; restore FILE; move URL (postgresql://… or a file); begin anew where one was lost"
    )
    store.add_argument("what", nargs="?", choices=("check", "back-up", "restore", "move", "begin"), help=about)
    store.add_argument("place", metavar="FILE_OR_URL", nargs="?")


@contextmanager
def in_one_line() -> Iterator[None]:
    """Say what is wrong with list or store as bad input: what, and the way out."""
    from counter.shelf import ListProblem
    from counter.shop import StoreProblem

    try:
        yield
    except (StoreProblem, ListProblem) as problem:
        raise BadInput(str(problem)) from None


def _import(chosen: argparse.Namespace, data: Path) -> Answer:
    from counter import shelf, shop

    catalogue, house = catalogue_of(data), house_of(data)
    with in_one_line():
        store = shop.open_store(data)
        plan = shelf.read_plan(chosen.file, shelf.Matcher(catalogue, house, shop.hands(store)), store)
        shelf.put(store, plan)
    found = shelf.import_report(plan)
    open_ = [*plan.rejected, *plan.unmatched]
    counted = {"lines": found["lines"], "matched": found["matched"], "rejected": len(plan.rejected)}
    lines = [tr("{lines} lines, {matched} matched, {rejected} rejected").format(**counted)]
    line = tr("line {line}: {text} ({why})")
    shown = ((one.line, one.text, shelf.reason_words(one.reason)) for one in open_[:MOST_SHOWN])
    lines += [line.format(line=at, text=text, why=why) for at, text, why in shown]
    left = len(open_) - MOST_SHOWN
    lines += [tr("and {count} more; --json lists all").format(count=left)] if left > 0 else []
    return Answer(found, "\n".join(lines), DONE if plan.items else NOTHING)


def _find(chosen: argparse.Namespace, data: Path) -> Answer:
    from counter import shelf, shop

    with in_one_line():
        items = shelf.find(shop.open_store(data), chosen.text) if shop.has_store(data) else []
    lines = [
        "   ".join(
            filter(None, (one.code, one.description, shelf.stock_words(one), one.bin, shelf.money(one.price_cents)))
        )
        for one in items
    ]
    found = {"items": [shelf.item_report(one) for one in items]}
    return Answer(found, "\n".join(lines) or tr("nothing found"), DONE if items else NOTHING)


def _slips(chosen: argparse.Namespace, data: Path) -> Answer:
    from counter import shop, slip

    if chosen.forget is not None or chosen.forget_before is not None:
        return _forget(chosen, data)
    with in_one_line():
        found = shop.find_slips(shop.open_store(data), slip.log_words(chosen.text)) if shop.has_store(data) else []
    reports = [slip.slip_report(one) for one in found]
    lines = [
        f"{one['number']:>6}  {one['at']}  {one['headline']}  {_items(one['items'])}".rstrip() for one in reports
    ]
    return Answer({"slips": reports}, "\n".join(lines) or tr("no slips"), DONE if reports else NOTHING)


def _forget(chosen: argparse.Namespace, data: Path) -> Answer:
    """Take names off slips: one customer's, or all before a day."""
    from counter import shop
    from counter.shelf import folded

    if chosen.text:
        words = tr("slips: “{text}” is too much; nothing else is asked where names are forgotten")
        raise BadInput(words.format(text=chosen.text[:40]))
    day = _day(chosen.forget_before) if chosen.forget_before is not None else ""
    with in_one_line():
        if not shop.has_store(data):
            count = 0
        elif day:
            count = shop.forget_names_before(shop.open_store(data), day)
        else:
            count = shop.forget_name(shop.open_store(data), folded(" ".join(chosen.forget.split())))
    told = trn("The name is off {count} slip.", "The names are off {count} slips.", count)
    return Answer({"forgotten": count}, told.format(count=count), DONE if count else NOTHING)


def _day(text: str) -> str:
    from datetime import date

    try:
        return date.fromisoformat(text).isoformat()
    except ValueError:
        words = tr("slips: “{text}” is no day; write it as 2026-11-25")
        raise BadInput(words.format(text=text[:40])) from None


def _items(items: list[dict[str, Any]]) -> str:
    return ", ".join(f"{one['quantity']} x {one['code']}" for one in items)


def _store(chosen: argparse.Namespace, data: Path) -> Answer:
    if chosen.what in ("back-up", "restore", "move") and not chosen.place:
        needs = "URL" if chosen.what == "move" else tr("FILE")
        told = tr("store {what}: a {needs} is missing; write «counter store {what} {needs}»")
        raise BadInput(told.format(what=chosen.what, needs=needs))
    if chosen.what not in ("back-up", "restore", "move") and chosen.place:
        told = tr("store {what}: “{text}” is too much; nothing follows")
        raise BadInput(told.format(what=chosen.what, text=chosen.place[:40]))
    with in_one_line():
        return _CARE[chosen.what](data, chosen.place)


def _about(data: Path, _: Any) -> Answer:
    from counter import shop

    found = shop.describe(data)
    held = ", ".join(f"{count} {name.replace('_', ' ')}" for name, count in found["rows"].items() if count)
    size, nothing = figure(found["bytes"] / 1e6, ".1f"), tr("nothing yet")
    lines = [f"{found['where']} ({found['kind']})", f"{size} MB: {held or nothing}"]
    lines += [_left_out(shop.LeftOut(**one)) for one in found["left_out"]]
    waiting = found["waiting"]
    told = trn("{count} entry waits on this machine", "{count} entries wait on this machine", waiting)
    lines += [told.format(count=waiting)] if waiting else []
    return Answer(found, "\n".join(lines), DONE)


def _check(data: Path, _: Any) -> Answer:
    from counter import shop

    problems = shop.check_store(data)
    return Answer({"problems": problems}, "\n".join(problems) or tr("No problems."), NOTHING if problems else DONE)


def _back_up(data: Path, place: str) -> Answer:
    from counter import shop

    shop.back_up(data, Path(place))
    told = tr("Written: {file}").format(file=place)
    return Answer({"file": place, "bytes": Path(place).stat().st_size}, told, DONE)


def _restore(data: Path, place: str) -> Answer:
    from counter import shop

    kept, out = shop.restore(data, Path(place))
    told = [tr("Brought back: {file}.").format(file=place)]
    told += [tr("What was there before is kept as {kept}.").format(kept=kept)] if kept is not None else []
    told += [_left_out(one) for one in out]
    report = {"file": place, "kept": str(kept) if kept else None, "left_out": [one._asdict() for one in out]}
    return Answer(report, " ".join(told), DONE)


def _left_out(one: LeftOut) -> str:
    numbers = f"{one.first}" if one.last == one.first else f"{one.first}\N{EN DASH}{one.last}"
    return tr("No slip has number {numbers}: {reason}.").format(numbers=numbers, reason=tr(one.reason))


def _move(data: Path, place: str) -> Answer:
    from counter import shop

    copied = shop.move(data, place)
    where = shop.where_of(data).shown
    words = tr("{count} rows copied. This folder now uses {place}.").format(count=sum(copied.values()), place=where)
    return Answer({"where": where, "rows": copied}, words, DONE)


def _begin(data: Path, _: Any) -> Answer:
    from counter import shop

    where = shop.begin_anew(data)
    return Answer({"where": where.shown}, tr("An empty store is at {place}.").format(place=where.shown), DONE)


_CARE = {
    None: _about,
    "check": _check,
    "back-up": _back_up,
    "restore": _restore,
    "move": _move,
    "begin": _begin,
}
