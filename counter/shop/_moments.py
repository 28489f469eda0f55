"""Moments as the store keeps them: ISO 8601 text in UTC, which sorts as it is."""

from __future__ import annotations

from datetime import UTC, datetime


def now_text() -> str:
    """Return this moment."""
    return datetime.now(UTC).isoformat(timespec="milliseconds")
