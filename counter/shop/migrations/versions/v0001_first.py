"""The first tables: what a shop confirms, teaches, stocks, sells, takes back and trains."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None
branch_labels = None
depends_on = None


def _at() -> sa.Column[str]:
    return sa.Column("at", sa.String(40), nullable=False)


def _text(name: str, nullable: bool = False) -> sa.Column[str]:
    return sa.Column(name, sa.Text, nullable=nullable)


def _body() -> sa.Column[object]:
    return sa.Column("body", sa.JSON, nullable=False)


def _id() -> sa.Column[int]:
    return sa.Column("id", sa.Integer, primary_key=True)


def upgrade() -> None:
    """Make everything."""
    _make_settings()
    _make_stock()
    _make_log()
    _make_training()
    _make_search()
    _only_grow(("slips", "slip_items", "wishes", "returns"))


def _make_settings() -> None:
    op.create_table(
        "settings",
        sa.Column("key", sa.String(60), primary_key=True),
        sa.Column("value", sa.JSON, nullable=False),
        _at(),
    )
    for name, key, number in (("revisions", "area", "number"), ("numbers", "name", "next")):
        op.create_table(
            name, sa.Column(key, sa.String(20), primary_key=True), sa.Column(number, sa.Integer, nullable=False)
        )
    op.create_table("confirmed", _id(), _body(), _at())
    op.create_table("own_entries", _id(), sa.Column("section", sa.String(20), nullable=False), _body())
    op.create_table(
        "letters",
        sa.Column("letters", sa.String(80), primary_key=True),
        _body(),
        sa.Column("origin", sa.String(20), nullable=False),
        _at(),
    )


def _make_stock() -> None:
    op.create_table(
        "stock_lists",
        _id(),
        _at(),
        sa.Column("name", sa.String(400), nullable=False),
        *(sa.Column(name, sa.Integer, nullable=False) for name in ("lines", "matched")),
        *(sa.Column(name, sa.Boolean, nullable=False) for name in ("is_demo", "is_current")),
        sa.Column("rejected", sa.JSON, nullable=False),
    )
    op.create_table(
        "stock",
        _id(),
        sa.Column("list", sa.Integer, sa.ForeignKey("stock_lists.id"), nullable=False),
        sa.Column("line", sa.Integer, nullable=False),
        *(_text(name) for name in ("code", "description", "bin", "barcode", "supplier")),
        *(sa.Column(name, sa.Integer) for name in ("pack", "lead_days")),
        sa.Column("quantity", sa.Float),
        sa.Column("price_cents", sa.Integer),
        sa.Column("life_h", sa.Float),
        *(_text(name, nullable=True) for name in ("lamp", "base")),
        sa.Column("watts", sa.Float),
        _text("kind", nullable=True),
        sa.Column("cct_k", sa.Integer),
        _text("reason"),
        _text("words"),
    )
    for name, column in (("stock_by_list", "line"), ("stock_by_lamp", "lamp"), ("stock_by_base", "base")):
        op.create_index(name, "stock", ["list", column])
    op.create_table("mappings", sa.Column("headers", sa.String(64), primary_key=True), _body(), _at())
    op.create_table(
        "hand_matches", sa.Column("code", sa.String(400), primary_key=True), _text("lamp"), _text("who"), _at()
    )


def _number(primary: bool = True) -> sa.Column[int]:
    key = sa.ForeignKey("slips.number")
    return sa.Column("number", sa.Integer, key, primary_key=primary, autoincrement=False, nullable=not primary)


def _key() -> sa.Column[str]:
    return sa.Column("key", sa.String(40), nullable=False, unique=True)


def _day() -> sa.Column[str]:
    return sa.Column("day", sa.String(10), nullable=False, index=True)


def _make_log() -> None:
    op.create_table(
        "slips",
        sa.Column("number", sa.Integer, primary_key=True, autoincrement=False),
        _key(),
        _at(),
        _day(),
        _text("till"),
        *(_text(name, nullable=True) for name in ("lamp", "base")),
        sa.Column("watts", sa.Float),
        _body(),
        _text("words"),
    )
    op.create_table(
        "slip_names", _number(), _text("customer"), sa.Column("folded", sa.Text, nullable=False, index=True)
    )
    op.create_table(
        "slip_items",
        _number(),
        sa.Column("place", sa.Integer, primary_key=True, autoincrement=False),
        *(_text(name) for name in ("code", "description", "bin")),
        _text("lamp", nullable=True),
        sa.Column("quantity", sa.Integer, nullable=False),
        sa.Column("price_cents", sa.Integer),
    )
    _make_wishes()
    _make_returns()


def _make_wishes() -> None:
    op.create_table(
        "wishes",
        _id(),
        _key(),
        _at(),
        _day(),
        _text("lamp", nullable=True),
        _text("text"),
        sa.Column("quantity", sa.Integer, nullable=False),
    )


def _make_returns() -> None:
    op.create_table(
        "returns",
        _id(),
        _key(),
        _at(),
        _day(),
        _number(primary=False),
        *(_text(name, nullable=True) for name in ("lamp", "right_lamp")),
        sa.Column("reason", sa.String(40), nullable=False),
        _text("note"),
    )


def _make_training() -> None:
    op.create_table("trainees", sa.Column("id", sa.String(16), primary_key=True), _text("body"))
    whose = sa.ForeignKey("trainees.id", ondelete="CASCADE")
    op.create_table(
        "training_events",
        _id(),
        sa.Column("trainee", sa.String(16), whose, nullable=False, index=True),
        _text("body"),
    )


def _make_search() -> None:
    """Let words be found by how they begin: FTS5 on SQLite, an inverted index over the same words on PostgreSQL."""
    if op.get_bind().dialect.name == "sqlite":
        op.execute(
            "CREATE VIRTUAL TABLE stock_words USING fts5(words, content='stock', content_rowid='id',"
            " prefix='1 2 3', detail='none', columnsize=0)"
        )
    else:
        op.execute("CREATE INDEX stock_words ON stock USING gin (array_to_tsvector(string_to_array(words, ' ')))")


def _only_grow(tables: tuple[str, ...]) -> None:
    says = "the log is append-only"
    if op.get_bind().dialect.name == "sqlite":
        for table in tables:
            for what in ("UPDATE", "DELETE"):
                op.execute(
                    f"CREATE TRIGGER {table}_no_{what.lower()} BEFORE {what} ON {table}"
                    f" BEGIN SELECT RAISE(ABORT, '{says}'); END"
                )
        return
    op.execute(
        f"CREATE FUNCTION only_grow() RETURNS trigger LANGUAGE plpgsql AS $$ BEGIN RAISE EXCEPTION '{says}'; END $$"
    )
    for table in tables:
        op.execute(
            f"CREATE TRIGGER {table}_only_grow BEFORE UPDATE OR DELETE ON {table}"
            " FOR EACH ROW EXECUTE FUNCTION only_grow()"
        )
