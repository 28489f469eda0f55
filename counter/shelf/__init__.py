"""Stock: lists read and matched to lamp types, search, what answers a case, and what it costs over the years.

Lives here: files as rows (`_sheet`), which column holds what (`_columns`, `_numbers`), which lamp type a line is
(`_match`), an import before it happens (`_plan`), search and lists that leave (`_find`, `_words`), what on the shelf
answers a case and what must not (`_answers`), what a list teaches of makers' letters (`_teaches`), cost over the
years (`_cost`), and the demo shop (`_demo`). Words of stock lists are in resources/stock.json.

May import counter.shop, counter.desk and the core behind it, and python-calamine.
"""

from counter.shelf._answers import RANKS, Rank, ShelfAnswer, answers, judge_items
from counter.shelf._columns import FIELDS, Columns, guess_columns
from counter.shelf._cost import FORMULA, LEFT_OUT, CostOf, PayBack, Usage, YearlyCost, pay_back, yearly
from counter.shelf._demo import put_demo
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
from counter.shelf._reasons import reason_words
from counter.shelf._sheet import ListProblem, Row, read_sheet, text_rows
from counter.shelf._teaches import Taught, teaches, unknown_letters
from counter.shelf._words import asked_words, folded, search_words

__all__ = [
    "FIELDS",
    "FORMULA",
    "LEFT_OUT",
    "RANKS",
    "Changes",
    "Columns",
    "CostOf",
    "Fault",
    "ListProblem",
    "Match",
    "Matcher",
    "PayBack",
    "Plan",
    "Rank",
    "Row",
    "ShelfAnswer",
    "Taught",
    "Usage",
    "YearlyCost",
    "answers",
    "asked_words",
    "changes",
    "columns_of",
    "find",
    "folded",
    "guess_columns",
    "import_report",
    "is_there",
    "item_report",
    "judge_items",
    "key_of",
    "money",
    "pay_back",
    "plan_import",
    "put",
    "put_demo",
    "read_plan",
    "read_sheet",
    "reason_words",
    "safe_csv",
    "search_words",
    "stock_words",
    "teaches",
    "text_rows",
    "unknown_letters",
    "yearly",
]
