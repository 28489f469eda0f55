"""An answer as plain text, for a message or a note: what the window shows at a glance, in the same order."""

from __future__ import annotations

from typing import TYPE_CHECKING

from counter.language import figure, marked, tr

if TYPE_CHECKING:
    from collections.abc import Iterator

    from counter.catalogue import Catalogue
    from counter.desk._assessment import Assessment
    from counter.desk._case import Case

DEFERS = marked("Labels on lamp and ballast, local codes and a licensed electrician come first.")


def told(catalogue: Catalogue, case: Case, found: Assessment) -> str:
    """Return an answer as lines of text."""
    return "\n".join(_lines(catalogue, case, found))


def _lines(catalogue: Catalogue, case: Case, found: Assessment) -> Iterator[str]:
    yield f"{found.headline} {found.subline}".strip()
    yield tr("Verdict: {verdict}").format(verdict=tr(found.verdict or NO_VERDICT))
    if case.marks.strip():
        yield tr("Marks: {marks}").format(marks=" ".join(case.marks.split()))
    seen = [f"{tr(catalogue.look_by_key[key].label)} {_answer(catalogue, case, key)}" for key in case.looks]
    if seen:
        yield tr("Seen: {looks}").format(looks=", ".join(seen))
    for one in found.cautions:
        yield f"{tr(one.signal)}: {one.says} {one.do}"
    for ask in found.asks:
        yield tr("Still to ask: {question}").format(question=ask.question)
    for other in found.replacements:
        if other.verdict != "do not sell":
            yield tr("Instead ({verdict}): {lamp}").format(verdict=tr(other.verdict), lamp=other.title)
    yield tr(DEFERS)


NO_VERDICT = marked("none yet")


def _answer(catalogue: Catalogue, case: Case, key: str) -> str:
    value = case.looks[key]
    if isinstance(value, float):
        return f"{figure(value)} mm"
    labels = {one.value: one.label for one in catalogue.look_by_key[key].values}
    return tr(labels[value]) if value in labels else str(value)
