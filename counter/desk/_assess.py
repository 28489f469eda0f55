"""`assess`: evidence of the lamp, the doubts that are left, the judgement on the fixture, and the answer from all."""

from __future__ import annotations

from typing import TYPE_CHECKING

from counter import fit, marks
from counter.desk import notes
from counter.desk._assessment import Assessment
from counter.desk._case import LONGEST_MARKS, Case, CaseProblem
from counter.desk._disputes import disputes
from counter.desk._doubts import ABOUT_LAMP, advice, fixture_doubts, in_order, lamp_doubts, other_doubts
from counter.desk._evidence import evidence_of, led
from counter.desk._judged import judged, printed, with_cautions
from counter.desk._lead import (
    FOREIGN_BASE,
    LED_BASE_OPEN,
    LED_LAMP,
    LED_REPLACEMENT,
    NOT_LISTED,
    SUSPECT,
    WATTS_NOT_SEEN,
    headline,
    subline,
)
from counter.desk._lead import nothing_known as nothing_known_words
from counter.desk._letters_asked import letters_asked
from counter.desk._offers import offers
from counter.desk._own_words import as_shop_reads, doubts_in_own_words, offers_in_own_words
from counter.desk._sold import NOTHING_SOLD, may_lead, sold_before
from counter.fit import Ask, Fixture, Use, Verdict
from counter.language import tr
from counter.thresholds import UV_DOUBT

if TYPE_CHECKING:
    from collections.abc import Sequence

    from counter.catalogue import Catalogue, Lamp
    from counter.desk._doubts import Doubt
    from counter.desk._evidence import Evidence
    from counter.desk._sold import SoldBefore, SoldCodes
    from counter.desk.notes import LawNotes, LightNotes
    from counter.fit import Judgement, Replacement
    from counter.marks import HouseMaker

NOT_AGAINST = (
    "uv",
    "led",
    "glass",
    "dispute",
    "split",
    "letters",
)  # doubts that a code sold before never leads against


def assess(
    catalogue: Catalogue, case: Case, house: tuple[HouseMaker, ...] = (), sold: SoldCodes = NOTHING_SOLD
) -> Assessment:
    """Answer a case: candidates, readings, doubts, cautions, verdict, questions, replacements.

    Pure: no clock, no file, no Qt. `house` holds the shop's own tables of makers' codes, `sold` what codes were sold
    as in this shop.
    """
    case = as_shop_reads(catalogue, case)
    seen, before = _seen(catalogue, case, house, sold)
    of_lamp = doubts_in_own_words(catalogue, lamp_doubts(seen))
    law = notes.law_notes(catalogue, case.place, case.on, seen.lamp, case.broken)
    said = fit.judged_in_own_words(catalogue, judged(seen, of_lamp, law))
    open_ = _open(seen, of_lamp, said)
    offered = offers_in_own_words(catalogue, offers(seen, printed(seen), of_lamp))
    return _answer(seen, open_, said, offered, law).model_copy(update={"sold": before})


def _seen(
    catalogue: Catalogue, case: Case, house: tuple[HouseMaker, ...], sold: SoldCodes
) -> tuple[Evidence, tuple[SoldBefore, ...]]:
    """Return the evidence, led by what the code was sold as before where no doubt and no look is against it."""
    seen = evidence_of(catalogue, case, house, sold)
    if not seen.before:
        return seen, ()
    is_free = not any(one.kind in NOT_AGAINST for one in lamp_doubts(seen)) and marks.uv_doubt(seen.readings) is None
    leads = is_free and case.chosen is None and may_lead(seen.before, seen.by_looks)
    return led(seen) if leads else seen, sold_before(catalogue, seen.before, leads=leads)


def _open(seen: Evidence, of_lamp: tuple[Doubt, ...], said: Judgement) -> tuple[Doubt, ...]:
    """Return every doubt that keeps the case open; where the sale is refused, only those that could mend that."""
    if said.verdict == "do not sell":
        return in_order(one for one in of_lamp if one.kind in ("dispute", "uv"))
    return in_order((*of_lamp, *fixture_doubts(said, of_lamp), *other_doubts(seen)))


def _answer(
    seen: Evidence,
    open_: tuple[Doubt, ...],
    said: Judgement,
    offered: tuple[Replacement, ...],
    law: LawNotes,
) -> Assessment:
    lead, lamp, case = seen.lead, seen.lamp, seen.case
    settled = lamp is not None and not any(one.kind in ABOUT_LAMP for one in open_) and not disputes(seen)
    asks = (*map(_ask, open_), *(one for one in said.asks if not one.blocks))
    return Assessment(
        headline=_headline(seen),
        subline=_subline(seen, open_, settled)
        or nothing_known_words(seen.catalogue, case.marks, [one.lamp for one in offered if one.lamp]),
        advice=advice(seen, open_),
        candidates=seen.candidates,
        next=seen.next,
        readings=seen.readings,
        conflicts=disputes(seen),
        problems=_problems(seen, open_),
        letters=letters_asked(seen),
        lamp=lamp.id if lamp is not None else None,
        is_settled=settled,
        outlines=lead.order if lead is not None else (),
        nearest=lead.candidate.lamp if lead is not None else None,
        verdict=_verdict(seen, open_, said),
        doubts=open_,
        first_words=fit.first_words(said.cautions),
        cautions=said.cautions,
        asks=asks,
        replacements=offered,
        label=notes.label_note(case.fixture.label),
        light=_light(seen),
        law=law,
    )


def _verdict(seen: Evidence, open_: tuple[Doubt, ...], said: Judgement) -> Verdict | None:
    """Return the stamp: nothing where nothing is known, and no sale while any doubt is left.

    Words that somebody read leave a stamp: a case does not fall back to none by an answer.
    """
    is_blank = not any(one.kind != "look" for one in open_) and not said.cautions and not seen.case.explained
    if seen.nothing_known and is_blank:
        return None
    return "ask first" if open_ and said.verdict == "sell" else said.verdict


def _ask(one: Doubt) -> Ask:
    return Ask(about=one.about, question=one.ask, why=one.says, outcomes=one.outcomes, key=one.key, words=one.words)


def _headline(seen: Evidence) -> str:
    if seen.lamp is None and seen.chosen is not None:
        return seen.in_question[0].base
    if seen.lamp is None and seen.foreign_base:
        return seen.foreign_base
    if seen.led is not None:
        return seen.led.lamp.base or tr(LED_LAMP)
    lamp = seen.lamp
    is_sure = lamp is None or seen.chosen is not None or seen.names_base(lamp.base)
    return headline(lamp if is_sure else None, seen.lead)


def _subline(seen: Evidence, open_: tuple[Doubt, ...], settled: bool) -> str:
    if any(one.kind == "uv" and seen.shown is not None and seen.shown.kind != "uv-c" for one in open_):
        return tr(SUSPECT)
    if seen.lamp is None and seen.chosen is not None:
        return tr(WATTS_NOT_SEEN)
    if seen.led is not None:
        return tr(LED_REPLACEMENT) if seen.led.lamp.base else tr(LED_BASE_OPEN)
    if seen.lamp is None and seen.marks.unlisted and not seen.foreign_base:
        return tr(NOT_LISTED)
    if seen.lamp is None and seen.foreign_base:
        return tr(FOREIGN_BASE)
    return subline(seen.lamp, seen.lead, settled, seen.cct_k)


def _problems(seen: Evidence, open_: tuple[Doubt, ...]) -> tuple[str, ...]:
    """Add the doubt between a lighting and a UV lamp that the looks leave open, and a law that cannot be judged."""
    doubt = marks.uv_doubt(seen.readings)
    problems, doubt = seen.marks.problems, marks.spoken(doubt) if doubt is not None else None
    no_day = tuple(one.says for one in open_ if one.kind == "day")
    return (*((doubt,) if doubt is not None and doubt not in problems else ()), *problems, *no_day)


def _light(seen: Evidence) -> LightNotes | None:
    """Return the light of the lamp named, or of the nearest; of UV-C in doubt the exposure of the strongest."""
    shown = seen.shown
    if shown is None:
        return None
    is_doubt = shown.kind != "uv-c" and not seen.is_white and seen.uv_share(shown) >= UV_DOUBT
    is_open = shown.kind == "uv-c" and seen.lamp is None
    strongest = seen.strongest_uvc(shown.base) if is_doubt or is_open else None
    return notes.light_notes(shown, strongest, seen.reading, seen.case.fixture.room_k)


def fit_code(
    catalogue: Catalogue, code: str, fixture: Fixture, use: Use, house: tuple[HouseMaker, ...] = ()
) -> fit.Judgement:
    """Judge the lamp that a code names; a code that fits several lamp types gets the strictest of their verdicts.

    Where they stand on several bases, and one of them may go in, the code is too short to refuse it: it is asked.

    What the code says beside the lamp, of UV or of nothing that is known, holds the sale here too.

    Raises:
        CaseProblem: the code names no lamp type of the catalogue.
    """
    if code in catalogue.lamp_by_id:
        return fit.judged_in_own_words(catalogue, fit.judge(catalogue, catalogue.lamp_by_id[code], fixture, use))
    if len(code) > LONGEST_MARKS:
        told = tr("“{code}…” names no lamp: it is {count} characters long. Type one code.")
        raise CaseProblem(told.format(code=code[:40], count=len(code)))
    case = as_shop_reads(catalogue, Case(marks=code, use=use, fixture=fixture))
    seen, fixture = evidence_of(catalogue, case, house), case.fixture
    if seen.reading is None or not seen.reading.lamps:
        told = tr("“{code}” names no lamp known here.").format(code=code[:40])
        raise CaseProblem(" ".join((told, *seen.marks.problems[:1])))
    lamps = [catalogue.lamp_by_id[one] for one in seen.reading.lamps]
    found = _of_all(lamps, [fit.judge(catalogue, lamp, fixture, use, seen.cct_k) for lamp in lamps])
    found = with_cautions(found, printed(seen))
    said = tuple(one for one in lamp_doubts(seen) if one.caution is not None or one.kind == "split")
    cautions = fit.in_order((*found.cautions, *(one.caution for one in said if one.caution is not None)))
    verdict = "ask first" if said and found.verdict == "sell" else found.verdict
    cautions = fit.in_own_words(catalogue, cautions)
    return found.model_copy(
        update={"verdict": verdict, "cautions": cautions, "asks": (*map(_ask, said), *found.asks)}
    )


def _of_all(lamps: Sequence[Lamp], judged: Sequence[fit.Judgement]) -> fit.Judgement:
    found = fit.strictest_of(judged)
    bases = tuple(dict.fromkeys(lamp.base for lamp in lamps))
    milder = next((one for one in judged if one.verdict != "do not sell"), None)
    if found.verdict != "do not sell" or milder is None or len(bases) < 2:
        return found
    question = tr("The code alone names lamps on several bases: {bases}. Which base has it?")
    why = tr("They differ in pins or key: one goes in, another does not, or ruins the ballast.")
    ask = Ask(about="marks", question=question.format(bases=", ".join(bases)), why=why)
    return milder.model_copy(update={"verdict": "ask first", "asks": (ask, *milder.asks)})
