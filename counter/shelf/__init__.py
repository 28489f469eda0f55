"""Stock: lists read and matched to lamp types, search, what answers a case, and what it costs over the years.

Lives here: files as rows (`_sheet`), which column holds what (`_columns`, `_numbers`), which lamp type a line is
(`_match`), an import before it happens (`_plan`), search and lists that leave (`_find`, `_words`), what on the shelf
answers a case and what must not (`_answers`), cost over the years (`_cost`), and the demo shop (`_demo`). Words of
stock lists are in resources/stock.json.

May import counter.shop, counter.desk and the core behind it, and python-calamine.
"""

from counter.shelf._columns import FIELDS, Columns
from counter.shelf._find import find, is_there, item_report, money, safe_csv, stock_words
from counter.shelf._match import Match, Matcher, key_of
from counter.shelf._plan import (
    Changes,
    Fault,
    Plan,
    changes,
    columns_of,
    import_report,
    plan_import,
    put,
    read_plan,
)
from counter.shelf._sheet import ListProblem, Row, read_sheet

__all__ = [
    "FIELDS",
    "Changes",
    "Columns",
    "Fault",
    "ListProblem",
    "Match",
    "Matcher",
    "Plan",
    "Row",
    "changes",
    "columns_of",
    "find",
    "import_report",
    "is_there",
    "item_report",
    "key_of",
    "money",
    "plan_import",
    "put",
    "read_plan",
    "read_sheet",
    "safe_csv",
    "stock_words",
]
