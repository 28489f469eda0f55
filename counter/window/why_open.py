"""Why a lamp that the clerk chose is not settled by that, and what would settle it: plain words, no Qt, no rule."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Container, Iterator

    from counter.desk import Assessment

START = "Not settled by this button. "
WAY_OUT = "Look again, or say at the marks which of the two is wrong."
NOT_ENOUGH = "Too little has been seen of it yet."
UV_ASKS = ("glass", "marks")


def why_open(found: Assessment, looks: Container[str]) -> str:
    """Return what keeps the lamp of an assessment open, with the way out; nothing where it is settled.

    `looks` are the keys of the looks: a question about one of them, or about the marks, is about the lamp itself.
    """
    if found.is_settled or found.lamp is None:
        return ""
    return START + next(_reasons(found, looks), NOT_ENOUGH)


def _reasons(found: Assessment, looks: Container[str]) -> Iterator[str]:
    """Yield the reasons, the gravest first."""
    yield from (f"{one.text} {WAY_OUT}" for one in found.conflicts)
    yield from _cautioned(found, "marks-uv")
    asks = [ask for ask in found.asks if ask.about == "marks" or ask.about in looks]
    yield from (f"{ask.question} {ask.why}" for ask in asks if ask.about in UV_ASKS)
    yield from _cautioned(found, "look-uvc-leading")
    yield from (f"{ask.question}. {ask.why}" for ask in asks if ask.about not in UV_ASKS)


def _cautioned(found: Assessment, rule: str) -> Iterator[str]:
    yield from (f"{one.says} {one.do}" for one in found.cautions if one.rule == rule)
