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
    from counter.shop._care import (
        back_up,
        check_store,
        describe,
        move,
        restore,
    )
    from counter.shop._confirmed import confirm, layer, withdraw
    from counter.shop._journal import (
        Kept,
        flush,
        keep_return,
        keep_slip,
        keep_wish,
        waiting,
    )
    from counter.shop._load import Remembered, has_store, load_catalogue, remembered_catalogue, remembered_revision
    from counter.shop._log import (
        MIX_UPS,
        REASONS,
        LoggedSlip,
        Month,
        Return,
        Wish,
        add_return,
        add_slip,
        add_wish,
        all_returns,
        all_wishes,
        find_slips,
        forget_name,
        forget_names_before,
        last_of,
        mixed_up,
        month,
        months,
        slip_by,
        sold_lamps,
    )
    from counter.shop._look import Look, look
    from counter.shop._parked import (
        Parked,
        park,
        parked,
        unpark,
    )
    from counter.shop._problem import Cancelled, StoreProblem
    from counter.shop._records import add_record, append_record, record_lines, records, remove_record
    from counter.shop._settings import (
        put_setting,
        setting,
    )
    from counter.shop._stock import (
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
    "Cancelled": "_problem",
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
    "MIX_UPS": "_log",
    "REASONS": "_log",
    "LoggedSlip": "_log",
    "Month": "_log",
    "Return": "_log",
    "Wish": "_log",
    "add_return": "_log",
    "add_slip": "_log",
    "add_wish": "_log",
    "all_returns": "_log",
    "all_wishes": "_log",
    "find_slips": "_log",
    "forget_name": "_log",
    "forget_names_before": "_log",
    "last_of": "_log",
    "mixed_up": "_log",
    "month": "_log",
    "months": "_log",
    "slip_by": "_log",
    "sold_lamps": "_log",
    "put_setting": "_settings",
    "setting": "_settings",
    "Kept": "_journal",
    "flush": "_journal",
    "keep_return": "_journal",
    "keep_slip": "_journal",
    "keep_wish": "_journal",
    "waiting": "_journal",
    "Parked": "_parked",
    "park": "_parked",
    "parked": "_parked",
    "unpark": "_parked",
    "back_up": "_care",
    "check_store": "_care",
    "describe": "_care",
    "move": "_care",
    "restore": "_care",
    "Look": "_look",
    "look": "_look",
    "remembered_revision": "_load",
    "Store": "_store",
    "open_store": "_store",
    "Where": "_where",
    "where_of": "_where",
}

__all__ = [
    "MIX_UPS",
    "REASONS",
    "Cancelled",
    "Kept",
    "LoggedSlip",
    "Look",
    "Month",
    "Parked",
    "Remembered",
    "Return",
    "StockItem",
    "StockList",
    "Store",
    "StoreProblem",
    "Where",
    "Wish",
    "add_record",
    "add_return",
    "add_slip",
    "add_wish",
    "all_items",
    "all_returns",
    "all_wishes",
    "append_record",
    "back_up",
    "bring_back",
    "check_store",
    "confirm",
    "current_list",
    "describe",
    "drop_demo",
    "find_items",
    "find_slips",
    "flush",
    "forget_name",
    "forget_names_before",
    "hands",
    "has_store",
    "items_of",
    "keep_return",
    "keep_slip",
    "keep_wish",
    "last_of",
    "layer",
    "lists",
    "load_catalogue",
    "look",
    "match_by_hand",
    "mixed_up",
    "month",
    "months",
    "move",
    "open_store",
    "park",
    "parked",
    "put_list",
    "put_setting",
    "record_lines",
    "records",
    "remember_columns",
    "remembered_catalogue",
    "remembered_columns",
    "remembered_revision",
    "remove_record",
    "restore",
    "setting",
    "slip_by",
    "sold_lamps",
    "unpark",
    "waiting",
    "where_of",
    "withdraw",
]

if not TYPE_CHECKING:  # a type checker would take any name for one that exists

    def __getattr__(name: str) -> Any:
        if name not in _LATER:
            raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
        from importlib import import_module

        return getattr(import_module(f"{__name__}.{_LATER[name]}"), name)
