"""Letters and whole codes of makers, what changed of them, and the codes that were sold here.

The table of letters that was there before held nothing that any program wrote; it is made anew.
"""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"
branch_labels = None
depends_on = None


def _at() -> sa.Column[str]:
    return sa.Column("at", sa.String(40), nullable=False)


def upgrade() -> None:
    """Make the tables, and work out from the log what was sold here under which code."""
    op.drop_table("letters")
    op.create_table(
        "letters",
        sa.Column("id", sa.Integer, primary_key=True),
        sa.Column("letters", sa.String(80), nullable=False),
        sa.Column("body", sa.JSON, nullable=False),
        sa.Column("stock_list", sa.Integer),
        sa.Column("came", sa.Integer, nullable=False),
        sa.Column("went", sa.Integer),
    )
    op.create_table(
        "letter_changes",
        sa.Column("number", sa.Integer, primary_key=True, autoincrement=False),
        _at(),
        sa.Column("who", sa.Text, nullable=False),
        sa.Column("what", sa.Text, nullable=False),
    )
    op.create_table(
        "house_codes",
        sa.Column("maker", sa.String(200), primary_key=True),
        sa.Column("body", sa.JSON, nullable=False),
        sa.Column("who", sa.Text, nullable=False),
        _at(),
    )
    _make_sold()


def _make_sold() -> None:
    op.create_table(
        "sold_codes",
        sa.Column("code", sa.String(80), primary_key=True),
        sa.Column("lamp", sa.String(400), primary_key=True),
        sa.Column("times", sa.Integer, nullable=False),
        sa.Column("day", sa.String(10), nullable=False),
        sa.Column("number", sa.Integer, nullable=False),
        sa.Column("item", sa.Text, nullable=False),
    )
    from counter.shop._sold import fill_sold

    fill_sold(op.get_bind())
