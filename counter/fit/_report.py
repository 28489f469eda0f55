"""What `counter fit --json` prints."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from counter.fit._models import Judgement


def fit_report(judgement: Judgement) -> dict[str, Any]:
    """Return the verdict, cautions and questions as plain values; an absent figure is None."""
    return {
        "verdict": judgement.verdict,
        "cautions": [caution.model_dump(mode="json") for caution in judgement.cautions],
        "asks": [ask.model_dump(mode="json") for ask in judgement.asks],
    }
