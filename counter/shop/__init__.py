"""The one store of what a shop makes: confirmed values, taught letters, stock, slips, returns, training, settings.

Lives here: where the store is (`_where`, `_seen`), what can be wrong with it, in words (`_problem`, `_say`), its
tables and how they came to be (`_tables`, `_migrate`, `migrations`), transactions (`_engine`, `_store`), what was
taken over from older files (`_take_over`), and one file a thing that is kept. SQLite or PostgreSQL, through
SQLAlchemy Core; nobody else in the program speaks SQL.

May import counter.catalogue, counter.files and counter.paths. Names are imported when first asked for: the database
layer costs 150 ms and 20 MB, and the first paint waits for neither.
"""

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from counter.shop._confirmed import confirm, layer, withdraw
    from counter.shop._load import Remembered, has_store, load_catalogue, remembered_catalogue
    from counter.shop._problem import StoreProblem
    from counter.shop._records import add_record, append_record, record_lines, records, remove_record
    from counter.shop._stock import (
        Cancelled,
        StockItem,
        StockList,
        all_items,
        bring_back,
        current_list,
        drop_demo,
        find_items,
        hands,
        items_of,
        lists,
        match_by_hand,
        put_list,
        remember_columns,
        remembered_columns,
    )
    from counter.shop._store import Store, open_store
    from counter.shop._where import Where, where_of

_LATER = {
    "confirm": "_confirmed",
    "has_store": "_load",
    "layer": "_confirmed",
    "load_catalogue": "_load",
    "withdraw": "_confirmed",
    "Remembered": "_load",
    "remembered_catalogue": "_load",
    "StoreProblem": "_problem",
    "add_record": "_records",
    "append_record": "_records",
    "record_lines": "_records",
    "records": "_records",
    "remove_record": "_records",
    "Cancelled": "_stock",
    "StockItem": "_stock",
    "StockList": "_stock",
    "all_items": "_stock",
    "bring_back": "_stock",
    "current_list": "_stock",
    "drop_demo": "_stock",
    "find_items": "_stock",
    "hands": "_stock",
    "items_of": "_stock",
    "lists": "_stock",
    "match_by_hand": "_stock",
    "put_list": "_stock",
    "remember_columns": "_stock",
    "remembered_columns": "_stock",
    "Store": "_store",
    "open_store": "_store",
    "Where": "_where",
    "where_of": "_where",
}

__all__ = [
    "Cancelled",
    "Remembered",
    "StockItem",
    "StockList",
    "Store",
    "StoreProblem",
    "Where",
    "add_record",
    "all_items",
    "append_record",
    "bring_back",
    "confirm",
    "current_list",
    "drop_demo",
    "find_items",
    "hands",
    "has_store",
    "items_of",
    "layer",
    "lists",
    "load_catalogue",
    "match_by_hand",
    "open_store",
    "put_list",
    "record_lines",
    "records",
    "remember_columns",
    "remembered_catalogue",
    "remembered_columns",
    "remove_record",
    "where_of",
    "withdraw",
]

if not TYPE_CHECKING:  # a type checker would take any name for one that exists

    def __getattr__(name: str) -> Any:
        if name not in _LATER:
            raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
        from importlib import import_module

        return getattr(import_module(f"{__name__}.{_LATER[name]}"), name)
