"""The judgement on lamp, fixture and use, with what doubts about the lamp, law and breakage add to it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from counter import fit
from counter.thresholds import SETTLED_AT

if TYPE_CHECKING:
    from counter.desk._doubts import Doubt
    from counter.desk._evidence import Evidence
    from counter.desk.notes import LawNotes
    from counter.fit import Caution, Judgement


def judged(seen: Evidence, of_lamp: tuple[Doubt, ...], law: LawNotes) -> Judgement:
    """Return verdict, cautions and questions of a case, before any doubt has held the sale."""
    found = fit.Judgement(verdict="ask first") if seen.nothing_known else _by_rules(seen, settled=not of_lamp)
    found = _with_doubts(found, of_lamp)
    found = with_cautions(found, printed(seen))
    return _with_law(found, law, seen)


def printed(seen: Evidence) -> tuple[Caution, ...]:
    """Return the cautions for what the print says that the lamp from the shelf must be too."""
    lamp = seen.lamp.id if seen.lamp is not None else ""
    return fit.printed(seen.printed, lamp, seen.case.use, seen.case.fixture.told)


def with_cautions(found: Judgement, more: tuple[Caution, ...]) -> Judgement:
    """Add cautions to a judgement; the strictest verdict stands."""
    verdict = fit.strictest((found.verdict, *(one.verdict for one in more)))
    cautions = fit.in_order((*found.cautions, *more)) if more else found.cautions
    return found.model_copy(update={"verdict": verdict, "cautions": cautions})


def _by_rules(seen: Evidence, *, settled: bool) -> Judgement:
    case, lamp = seen.case, seen.lamp
    if lamp is not None:
        found = fit.judge(seen.catalogue, lamp, case.fixture, case.use, seen.cct_k)
    else:
        shares = seen.shares_in_question
        ranked = [(one, shares[one.id]) for one in seen.in_question]
        found = fit.judge_any(seen.catalogue, ranked, case.fixture, case.use, SETTLED_AT)
    return found.model_copy(update={"cautions": fit.in_order((*found.cautions, *_standing(seen, settled)))})


def _standing(seen: Evidence, settled: bool) -> tuple[Caution, ...]:
    """Return what can be confused with the lamp; where UV is wanted nobody is sent to the white ones."""
    base = seen.shown.base if seen.shown is not None else ""
    shares, white = seen.shares_in_question, seen.glass == "white"
    strongest = None if settled else seen.strongest_uvc(base)
    found = fit.look_alikes(seen.catalogue, shares, seen.lamp, settled=settled, white=white, strongest=strongest)
    wants_uv = seen.case.use in ("germicidal", "blacklight")
    is_told = seen.lamp is not None and seen.lamp.kind == "uv-c" and seen.says_germicidal
    found = tuple(one for one in found if one.rule not in UNTIL_MARKS_TELL) if is_told else found
    return tuple(one for one in found if not (wants_uv and one.topic == "uv-shelf"))


UNTIL_MARKS_TELL = ("look-uvc-leading", "look-uvc-leading-no-figure")


def _with_doubts(found: Judgement, of_lamp: tuple[Doubt, ...]) -> Judgement:
    """Add the cautions of the doubts; beside a doubt about UV-C nothing says that the lamp gives none."""
    said = tuple(one.caution for one in of_lamp if one.caution is not None)
    if not said:
        return found
    is_uv = any(one.kind == "uv" for one in of_lamp)
    kept = [one for one in found.cautions if not (is_uv and one.rule == "no-disinfection")]
    cautions = fit.in_order((*kept, *said))
    verdict = found.verdict
    if len(kept) < len(found.cautions):
        verdict = fit.strictest(one.verdict for one in cautions)
    return found.model_copy(update={"cautions": cautions, "verdict": verdict})


def _with_law(found: Judgement, law: LawNotes, seen: Evidence) -> Judgement:
    """Add that the sale has ended here, and put the caution for mercury before all others while a lamp is broken."""
    ended = fit.law_caution(law.rows, seen.lamp, seen.case.fixture.told)
    first = (fit.broken_caution(),) if seen.case.broken else ()
    cautions = found.cautions if ended is None else fit.in_order((*found.cautions, ended))
    added = (*first, *((ended,) if ended is not None else ()))
    verdict = fit.strictest((found.verdict, *(one.verdict for one in added)))
    return found.model_copy(update={"verdict": verdict, "cautions": (*first, *cautions)})
