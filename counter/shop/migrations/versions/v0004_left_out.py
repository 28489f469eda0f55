"""Slip numbers that no slip has, each with its reason: after a store was set back, the log goes on beyond them."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0004"
down_revision = "0003"

SAYS = "the log is append-only"


def upgrade() -> None:
    """Make the table."""
    op.create_table(
        "left_out",
        sa.Column("first", sa.Integer, primary_key=True, autoincrement=False),
        sa.Column("last", sa.Integer, nullable=False),
        sa.Column("at", sa.String(40), nullable=False),
        sa.Column("reason", sa.Text, nullable=False),
    )
    if op.get_bind().dialect.name == "sqlite":
        for what in ("UPDATE", "DELETE"):
            op.execute(
                f"CREATE TRIGGER left_out_no_{what.lower()} BEFORE {what} ON left_out"
                f" BEGIN SELECT RAISE(ABORT, '{SAYS}'); END"
            )
        return
    op.execute(
        "CREATE TRIGGER left_out_only_grow BEFORE UPDATE OR DELETE ON left_out"
        " FOR EACH ROW EXECUTE FUNCTION only_grow()"
    )
