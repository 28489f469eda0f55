"""When the shop's own entries were added, and when they were taken out: they stay, so that it can be undone."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0003"
down_revision = "0002"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Add three columns; entries of before do not know their moment."""
    op.add_column("own_entries", sa.Column("at", sa.String(40), nullable=True))
    op.add_column("own_entries", sa.Column("gone", sa.String(40), nullable=True))
    op.add_column("own_entries", sa.Column("gone_by", sa.Text, nullable=True))
