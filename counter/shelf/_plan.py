"""An import before it happens: every line matched, kept or rejected with its reason; and what it changes."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple

from counter import shop
from counter.language import figure as spelled
from counter.language import marked, tr
from counter.shelf._columns import Columns, guess_columns, repeated_headings
from counter.shelf._numbers import cents, decimal_comma, figure
from counter.shelf._reasons import NEITHER, NO_FIGURE, NO_PRICE
from counter.shelf._sheet import ListProblem, read_sheet
from counter.shelf._words import search_words
from counter.shop import Cancelled

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Mapping, Sequence
    from pathlib import Path

    from counter.shelf._match import Matcher
    from counter.shelf._sheet import Row
    from counter.shop import StockItem, Store

TOLD_EVERY = 500  # lines
FORMULA = ("=", "+", "-", "@", "\t", "\r")
SHOWN_CHANGES = 50
LONGEST_SHOWN = 200


class Fault(NamedTuple):
    """A line that is no item, or one that matched nothing."""

    line: int
    text: str
    reason: str


class Plan(NamedTuple):
    """What an import would put in: rows as the store takes them, and lines that are no items."""

    name: str
    columns: Columns
    items: tuple[dict[str, Any], ...]
    rejected: tuple[Fault, ...]

    @property
    def unmatched(self) -> tuple[Fault, ...]:
        """Return the items that are no lamp type here, each with its reason."""
        return tuple(
            Fault(item["line"], f"{item['code']} {item['description']}".strip(), item["reason"])
            for item in self.items
            if item["reason"]
        )

    @property
    def matched(self) -> int:
        """Return how many items are lamps."""
        return sum(not item["reason"] for item in self.items)


class Changes(NamedTuple):
    """What an import changes in the present list: counts, and the first lines of each sort in words."""

    added: int
    gone: int
    changed: int
    same: int
    shown: tuple[str, ...]


def columns_of(rows: Sequence[Row], store: Store | None = None) -> Columns:
    """Return which column holds what: as remembered for these headings, else as guessed."""
    guessed = guess_columns(rows)
    if store is None or not guessed.signature:
        return guessed
    kept = shop.remembered_columns(store, guessed.signature)
    return (
        guessed.model_copy(update={"at": {str(k): int(v) for k, v in kept.items()}}) if kept is not None else guessed
    )


def plan_import(
    name: str,
    rows: Sequence[Row],
    columns: Columns,
    matcher: Matcher,
    progress: Callable[[int, int], bool] | None = None,
) -> Plan:
    """Return what an import of these rows would put in.

    Raises:
        ListProblem: no column holds codes or descriptions.
        Cancelled: `progress`, told of lines done and of all lines, said no.
    """
    if not columns.at.keys() & {"code", "description"}:
        told = tr("{file}: no column holds codes or descriptions. Say which one does.")
        raise ListProblem(told.format(file=name))
    body = rows[(columns.heading_row + 1 if columns.heading_row is not None else 0) :]
    commas = {field: decimal_comma(_cell(row, columns, field) for row in body[:2000]) for field in _FIGURES}
    items: list[dict[str, Any]] = []
    rejected: list[Fault] = []
    for done, row in enumerate(body):
        if progress is not None and done % TOLD_EVERY == 0 and not progress(done, len(body)):
            raise Cancelled
        if repeated_headings(row, columns):
            continue
        made = _item(row, columns, commas, matcher)
        if isinstance(made, Fault):
            rejected.append(made)
        else:
            items.append(made)
    return Plan(name, columns, tuple(items), tuple(rejected))


def read_plan(
    path: Path, matcher: Matcher, store: Store | None, progress: Callable[[int, int], bool] | None = None
) -> Plan:
    """Read a file and return what its import would put in.

    Raises:
        ListProblem: it cannot be read.
        Cancelled: `progress` said no.
    """
    rows = read_sheet(path)
    return plan_import(path.name, rows, columns_of(rows, store), matcher, progress)


_WORDS = ("code", "description", "bin", "barcode", "supplier")
_FIGURES = ("quantity", "price", "pack", "lead_days", "life_h")


def _cell(row: Row, columns: Columns, field: str) -> str:
    at = columns.at.get(field, -1)
    return row.cells[at] if 0 <= at < len(row.cells) else ""


def bare(text: str) -> str:
    """Return text without the apostrophe that exports put before what a spreadsheet would run."""
    return text[1:] if text.startswith("'") and text[1:2] in FORMULA else text


def _item(row: Row, columns: Columns, commas: Mapping[str, bool], matcher: Matcher) -> dict[str, Any] | Fault:
    words = {
        field: bare(_cell(row, columns, field)) for field in ("code", "description", "bin", "barcode", "supplier")
    }
    whole = " ".join(filter(None, row.cells))[:LONGEST_SHOWN]
    if not words["code"] and not words["description"]:
        return Fault(row.line, whole, NEITHER)
    try:
        figures = _figures(row, columns, commas)
    except ValueError as problem:
        return Fault(row.line, whole, str(problem))
    found = matcher.match(words["code"], words["description"], words["barcode"])
    text = search_words(words["code"], words["description"], words["bin"], words["barcode"])
    return {"line": row.line, **words, **figures, **found._asdict(), "words": text}


def _figures(row: Row, columns: Columns, commas: Mapping[str, bool]) -> dict[str, Any]:
    """Return the figures of a line; what is not known is None.

    Raises:
        ValueError: one is no figure; says which.
    """
    found: dict[str, Any] = {"price_cents": None}
    for field in _FIGURES:
        text = _cell(row, columns, field)
        try:
            if field == "price":
                found["price_cents"] = cents(text, commas[field])
            else:
                value = figure(text, commas[field])
                is_count = field in ("pack", "lead_days") and value is not None
                found[field] = int(value) if is_count and value is not None else value
        except ValueError:
            raise ValueError(NO_FIGURE.format(field=field.replace("_", " "), text=text[:30])) from None
    if found["price_cents"] is not None and not 0 <= found["price_cents"] < 100_000_000:
        raise ValueError(NO_PRICE.format(text=_cell(row, columns, "price")[:30]))
    return found


def changes(present: Iterable[StockItem], plan: Plan) -> Changes:
    """Return what a plan changes: items are the same where code (or description) and bin are."""
    old = {_identity(item.code, item.description, item.bin): item for item in present}
    new = {_identity(item["code"], item["description"], item["bin"]): item for item in plan.items}
    added, gone = [key for key in new if key not in old], [key for key in old if key not in new]
    differing = [(key, words) for key in new if key in old and (words := _difference(old[key], new[key]))]
    new_, gone_ = tr("new: {item}"), tr("gone: {item}")
    shown = [new_.format(item=_shown(key)) for key in added[:SHOWN_CHANGES]]
    shown += [gone_.format(item=_shown(key)) for key in gone[:SHOWN_CHANGES]]
    shown += [f"{_shown(key)}: {words}" for key, words in differing[:SHOWN_CHANGES]]
    same = len(new) - len(added) - len(differing)
    return Changes(len(added), len(gone), len(differing), same, tuple(shown))


def _identity(code: str, description: str, bin_: str) -> tuple[str, str]:
    return (code or description, bin_)


def _shown(key: tuple[str, str]) -> str:
    return " · ".join(filter(None, key))[:LONGEST_SHOWN]


def _difference(old: StockItem, new: Mapping[str, Any]) -> str:
    parts = []
    named = (("quantity", marked("quantity")), ("price_cents", marked("price")), ("lamp", marked("lamp type")))
    for field, words in named:
        before, after = getattr(old, field), new[field]
        if before != after:
            parts.append(f"{tr(words)} {_value(field, before)} → {_value(field, after)}")
    return ", ".join(parts)


def _value(field: str, value: Any) -> str:
    if value is None:
        return tr("not known")
    if field == "price_cents":
        return spelled(value / 100, ".2f")
    return spelled(value) if isinstance(value, float) else str(value)


def put(store: Store, plan: Plan, *, is_demo: bool = False, progress: Callable[[int], bool] | None = None) -> int:
    """Make a plan the present list, and remember its columns.

    Raises:
        Cancelled: `progress` said no; nothing was kept.
        StoreProblem: it cannot be kept.
    """
    rejected = [fault._asdict() for fault in plan.rejected]
    number = shop.put_list(store, plan.name, plan.items, rejected, is_demo=is_demo, progress=progress)
    if plan.columns.signature and not is_demo:
        shop.remember_columns(store, plan.columns.signature, plan.columns.at)
    return number


def import_report(plan: Plan) -> dict[str, Any]:
    """Return what `counter stock import --json` prints."""
    return {
        "lines": len(plan.items) + len(plan.rejected),
        "matched": plan.matched,
        "unmatched": [fault._asdict() for fault in plan.unmatched],
        "rejected": [fault._asdict() for fault in plan.rejected],
        "columns": {field: _heading(plan.columns, at) for field, at in plan.columns.at.items()},
    }


def _heading(columns: Columns, at: int) -> str:
    return columns.headings[at] if at < len(columns.headings) else f"column {at + 1}"
