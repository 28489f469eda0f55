"""An answer as plain text, for a message or a note: what the window shows at a glance, in the same order."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator

    from counter.catalogue import Catalogue
    from counter.desk._assessment import Assessment
    from counter.desk._case import Case

DEFERS = "Labels on lamp and ballast, local codes and a licensed electrician come first."


def told(catalogue: Catalogue, case: Case, found: Assessment) -> str:
    """Return an answer as lines of text."""
    return "\n".join(_lines(catalogue, case, found))


def _lines(catalogue: Catalogue, case: Case, found: Assessment) -> Iterator[str]:
    yield f"{found.headline} {found.subline}".strip()
    yield f"Verdict: {found.verdict or 'none yet'}"
    if case.marks.strip():
        yield f"Marks: {' '.join(case.marks.split())}"
    seen = [f"{catalogue.look_by_key[key].label} {_answer(case, key)}" for key in case.looks]
    if seen:
        yield f"Seen: {', '.join(seen)}"
    for one in found.cautions:
        yield f"{one.signal}: {one.says} {one.do}"
    for ask in found.asks:
        yield f"Still to ask: {ask.question}"
    for other in found.replacements:
        if other.verdict != "do not sell":
            yield f"Instead ({other.verdict}): {other.title}"
    yield DEFERS


def _answer(case: Case, key: str) -> str:
    value = case.looks[key]
    return f"{value:g} mm" if isinstance(value, float) else str(value)
