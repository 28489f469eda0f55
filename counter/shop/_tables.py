"""The tables of a shop's store, the same on SQLite and on PostgreSQL.

Moments are text, ISO 8601 in UTC; days are the shop's own, ISO 8601; money is whole hundredths of the shop's
currency; `body` columns hold one JSON object. The migrations make these tables; a test holds them equal.
"""

from __future__ import annotations

from sqlalchemy import JSON, Boolean, Column, Float, ForeignKey, Index, Integer, MetaData, String, Table, Text

metadata = MetaData()

settings = Table(
    "settings",
    metadata,
    Column("key", String(60), primary_key=True),
    Column("value", JSON, nullable=False),
    Column("at", String(40), nullable=False),
)
# One row an area; every writer adds one in its own transaction, so that other windows see what is new.
revisions = Table(
    "revisions",
    metadata,
    Column("area", String(20), primary_key=True),
    Column("number", Integer, nullable=False),
)
# A row a sequence. Not the database's own: those leave gaps when a transaction is undone.
numbers = Table(
    "numbers",
    metadata,
    Column("name", String(20), primary_key=True),
    Column("next", Integer, nullable=False),
)
# Numbers that no slip has, each with its reason: with the slips they make the numbers without a gap.
left_out = Table(
    "left_out",
    metadata,
    Column("first", Integer, primary_key=True, autoincrement=False),
    Column("last", Integer, nullable=False),
    Column("at", String(40), nullable=False),
    Column("reason", Text, nullable=False),
)
confirmed = Table(
    "confirmed",
    metadata,
    Column("id", Integer, primary_key=True),
    Column("body", JSON, nullable=False),
    Column("at", String(40), nullable=False),
)
# Of the rows about one thing the last that is not gone counts; who added it stands in its body.
own_entries = Table(
    "own_entries",
    metadata,
    Column("id", Integer, primary_key=True),
    Column("section", String(20), nullable=False),
    Column("body", JSON, nullable=False),
    Column("at", String(40)),
    Column("gone", String(40)),
    Column("gone_by", Text),
)
# A row stays when its letters are forgotten: `came` and `went` are changes, and a change can be undone.
letters = Table(
    "letters",
    metadata,
    Column("id", Integer, primary_key=True),
    Column("letters", String(80), nullable=False),
    Column("body", JSON, nullable=False),
    Column("stock_list", Integer),  # the list they were learned from: they count while it is the present one
    Column("came", Integer, nullable=False),
    Column("went", Integer),
)
letter_changes = Table(
    "letter_changes",
    metadata,
    Column("number", Integer, primary_key=True, autoincrement=False),
    Column("at", String(40), nullable=False),
    Column("who", Text, nullable=False),
    Column("what", Text, nullable=False),
)
house_codes = Table(
    "house_codes",
    metadata,
    Column("maker", String(200), primary_key=True),
    Column("body", JSON, nullable=False),
    Column("who", Text, nullable=False),
    Column("at", String(40), nullable=False),
)
# What the log says of makers' codes, worked out as slips go in: a code, the lamp it was sold as, and the last time.
sold_codes = Table(
    "sold_codes",
    metadata,
    Column("code", String(80), primary_key=True),
    Column("lamp", String(400), primary_key=True),
    Column("times", Integer, nullable=False),
    Column("day", String(10), nullable=False),
    Column("number", Integer, nullable=False),
    Column("item", Text, nullable=False),
)
stock_lists = Table(
    "stock_lists",
    metadata,
    Column("id", Integer, primary_key=True),
    Column("at", String(40), nullable=False),
    Column("name", String(400), nullable=False),
    Column("lines", Integer, nullable=False),
    Column("matched", Integer, nullable=False),
    Column("is_demo", Boolean, nullable=False),
    Column("is_current", Boolean, nullable=False),
    Column("rejected", JSON, nullable=False),
)
stock = Table(
    "stock",
    metadata,
    Column("id", Integer, primary_key=True),
    Column("list", Integer, ForeignKey("stock_lists.id"), nullable=False),
    Column("line", Integer, nullable=False),
    Column("code", Text, nullable=False),
    Column("description", Text, nullable=False),
    Column("bin", Text, nullable=False),
    Column("barcode", Text, nullable=False),
    Column("supplier", Text, nullable=False),
    Column("pack", Integer),
    Column("lead_days", Integer),
    Column("quantity", Float),
    Column("price_cents", Integer),
    Column("life_h", Float),
    Column("lamp", Text),
    Column("base", Text),
    Column("watts", Float),
    Column("kind", Text),
    Column("cct_k", Integer),
    Column("reason", Text, nullable=False),
    Column("words", Text, nullable=False),
    Index("stock_by_list", "list", "line"),
    Index("stock_by_lamp", "list", "lamp"),
    Index("stock_by_base", "list", "base"),
)
mappings = Table(
    "mappings",
    metadata,
    Column("headers", String(64), primary_key=True),
    Column("body", JSON, nullable=False),
    Column("at", String(40), nullable=False),
)
hand_matches = Table(
    "hand_matches",
    metadata,
    Column("code", String(400), primary_key=True),
    Column("lamp", Text, nullable=False),
    Column("who", Text, nullable=False),
    Column("at", String(40), nullable=False),
)
slips = Table(
    "slips",
    metadata,
    Column("number", Integer, primary_key=True, autoincrement=False),
    Column("key", String(40), nullable=False, unique=True),
    Column("at", String(40), nullable=False),
    Column("day", String(10), nullable=False, index=True),
    Column("till", Text, nullable=False),
    Column("lamp", Text),
    Column("base", Text),
    Column("watts", Float),
    Column("body", JSON, nullable=False),
    Column("words", Text, nullable=False),
)
# Names stand apart from the log, which only grows, so that they can be forgotten.
slip_names = Table(
    "slip_names",
    metadata,
    Column("number", Integer, ForeignKey("slips.number"), primary_key=True, autoincrement=False),
    Column("customer", Text, nullable=False),
    Column("folded", Text, nullable=False, index=True),
)
slip_items = Table(
    "slip_items",
    metadata,
    Column("number", Integer, ForeignKey("slips.number"), primary_key=True, autoincrement=False),
    Column("place", Integer, primary_key=True, autoincrement=False),
    Column("code", Text, nullable=False),
    Column("description", Text, nullable=False),
    Column("bin", Text, nullable=False),
    Column("lamp", Text),
    Column("quantity", Integer, nullable=False),
    Column("price_cents", Integer),
)
# Wanted, out of stock; came back and why: each only grows too.
wishes = Table(
    "wishes",
    metadata,
    Column("id", Integer, primary_key=True),
    Column("key", String(40), nullable=False, unique=True),
    Column("at", String(40), nullable=False),
    Column("day", String(10), nullable=False, index=True),
    Column("lamp", Text),
    Column("text", Text, nullable=False),
    Column("quantity", Integer, nullable=False),
)
returns = Table(
    "returns",
    metadata,
    Column("id", Integer, primary_key=True),
    Column("key", String(40), nullable=False, unique=True),
    Column("at", String(40), nullable=False),
    Column("day", String(10), nullable=False, index=True),
    Column("number", Integer, ForeignKey("slips.number")),
    Column("lamp", Text),
    Column("right_lamp", Text),
    Column("reason", String(40), nullable=False),
    Column("note", Text, nullable=False),
)
trainees = Table(
    "trainees",
    metadata,
    Column("id", String(16), primary_key=True),
    Column("body", Text, nullable=False),
)
training_events = Table(
    "training_events",
    metadata,
    Column("id", Integer, primary_key=True),
    Column("trainee", String(16), ForeignKey("trainees.id", ondelete="CASCADE"), nullable=False, index=True),
    Column("body", Text, nullable=False),
)
