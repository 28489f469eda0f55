"""The one door: a Case goes in, an Assessment comes out, and every pane, command and slip shows from it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from counter import fit, identify, marks
from counter.desk import notes
from counter.desk._assessment import Assessment, Conflict
from counter.desk._case import CANNOT_TELL, LONGEST_MARKS, Case, CaseProblem
from counter.desk._evidence import evidence_of
from counter.desk._lead import SETTLED_AT, SUSPECT, Leading, advice, headline, subline
from counter.desk._lead import nothing_known as nothing_known_words
from counter.desk._offers import NO_DAY, offers
from counter.fit import Ask, Caution, Fixture, Use, Verdict

if TYPE_CHECKING:
    from counter.catalogue import Catalogue, Lamp
    from counter.desk.notes import LawNotes, LightNotes
    from counter.identify import Candidate, NextLook
    from counter.marks import HouseMaker, MarkEvidence, Reading

NAMED_AT = 0.5  # a lamp type more likely than all others together is named and judged
UV_DOUBT = 0.01  # a germicidal candidate this likely keeps the sale open until somebody has looked
COLOUR_AT = 0.8  # below this share of the readings a colour is a guess among others
ENOUGH_BITS = 0.05  # a look worth less than this is not worth asking for


def assess(catalogue: Catalogue, case: Case, house: tuple[HouseMaker, ...] = ()) -> Assessment:
    """Answer a case: candidates, readings, contradictions, cautions, verdict, questions, replacements.

    Pure: no clock, no file, no Qt. `house` holds the shop's own tables of makers' codes.
    """
    said, candidates, readings, nexts, _, led, _ = evidence_of(catalogue, case.looks, case.marks, house)
    nothing_known = not said.likelihood and all(value == CANNOT_TELL for value in case.looks.values())
    lamp = _named(catalogue, case, candidates, nothing_known)
    conflicts = _conflicts(catalogue, case, readings)
    suspicion = _suspicion(catalogue, case, lamp, said, readings)
    settled = (
        lamp is not None
        and not suspicion
        and not said.is_split  # no sale rests on half of what the marks say
        and _is_settled(case, lamp, candidates, conflicts, readings)
    )
    lead = None if nothing_known else led
    no_day = case.place is not None and case.on is None
    offered = offers(catalogue, case, lamp, _colour(readings), settled)
    law = notes.law_notes(case.place, case.on, lamp, case.broken)
    judged = _judge(catalogue, case, lamp, candidates, readings, settled, nothing_known)
    judged = _with_suspicion(judged, suspicion)
    judged = _with_law(judged, law, case.broken)
    is_open = not settled and (judged.verdict != "do not sell" or bool(conflicts))
    asks = (
        *(_ask_to_look(catalogue, case, nexts, lamp, conflicts, candidates, readings) if is_open else ()),
        *judged.asks,
    )
    return Assessment(
        headline=headline(lamp, lead),
        subline=(
            SUSPECT
            if any(one.rule.startswith(("marks-uv", "look-uvc")) for one in suspicion)
            else subline(lamp, lead, settled, _colour(readings))
        )
        or nothing_known_words(catalogue, case.marks, [one.lamp for one in offered if one.lamp]),
        advice=advice(catalogue, nexts, settled, bool(asks), _first(conflicts).look if conflicts else ""),
        candidates=candidates,
        next=nexts,
        readings=readings,
        conflicts=conflicts,
        problems=(*_with_doubt(said.problems, readings), *((NO_DAY,) if no_day else ())),
        lamp=lamp.id if lamp is not None else None,
        is_settled=settled,
        outlines=lead.order if lead is not None else (),
        nearest=lead.candidate.lamp if lead is not None else None,
        verdict=_verdict(judged.verdict, settled and not no_day)
        if lamp is not None or lead is not None or suspicion
        else None,
        cautions=judged.cautions,
        asks=asks,
        replacements=offered,
        label=notes.label_note(case.fixture.label),
        light=_light(catalogue, case, lamp, lead, candidates, readings, conflicts),
        law=law,
    )


def _with_doubt(problems: tuple[str, ...], readings: tuple[Reading, ...]) -> tuple[str, ...]:
    """Add the doubt between a lighting and a UV lamp that the looks leave open, unless it is said already."""
    doubt = marks.uv_doubt(readings)
    return problems if doubt is None or doubt in problems else (doubt, *problems)


def _named(catalogue: Catalogue, case: Case, candidates: tuple[Candidate, ...], nothing_known: bool) -> Lamp | None:
    if case.chosen is not None:
        return catalogue.lamp_by_id.get(case.chosen)
    if nothing_known or candidates[0].probability < NAMED_AT:
        return None
    return catalogue.lamp_by_id[candidates[0].lamp]


def _suspicion(
    catalogue: Catalogue, case: Case, lamp: Lamp | None, evidence: MarkEvidence, readings: tuple[Reading, ...]
) -> tuple[Caution, ...]:
    """Return why what passes for a lighting lamp may be another: clear glass, or marks of UV, of LED, or not read."""
    if lamp is not None and lamp.kind == "uv-c":  # ozone-making or not: what is left unread may say so
        return (fit.unread_beside_uvc(lamp.base, evidence.unread),) if evidence.unread else ()
    first = readings[0] if readings else None
    read_uv = first.canonical if first is not None and first.lamp.kind == "uv-c" else ""
    words = marks.germicidal_words(case.marks) or read_uv
    said = [fit.said_uv(words)] if words else []
    if lamp is not None and lamp.kind == "fluorescent" and (led := marks.led_words(case.marks)):
        said.append(fit.said_led(led))
    unread = _telling(case, evidence)
    if lamp is not None and unread and _has_uv_twin(catalogue, lamp):
        said.append(fit.unread_beside_uvc(lamp.base, unread))
    clear = fit.seen_clear(catalogue, lamp) if lamp is not None and case.looks.get("glass") == "clear" else ()
    return (*said, *clear)


def _telling(case: Case, evidence: MarkEvidence) -> tuple[str, ...]:
    """Return the unread words that may hide a germicidal lamp: behind white glass a name is none, a number may be."""
    if case.looks.get("glass") != "white":
        return evidence.unread
    return tuple(word for word in evidence.unread if any(map(str.isdigit, word)))


def _with_suspicion(judged: fit.Judgement, suspicion: tuple[Caution, ...]) -> fit.Judgement:
    """Add the suspicion; what says that the lamp gives no UV-C cannot stand beside a doubt about that."""
    if not suspicion:
        return judged
    kept = [one for one in judged.cautions if one.rule != "no-disinfection"]
    cautions = fit.in_order((*kept, *suspicion))
    verdict = judged.verdict
    if len(kept) < len(judged.cautions):
        verdict = max((one.verdict for one in cautions), key=fit.STRICTNESS.__getitem__)
    return judged.model_copy(update={"cautions": cautions, "verdict": verdict})


def _is_settled(
    case: Case,
    lamp: Lamp,
    candidates: tuple[Candidate, ...],
    conflicts: tuple[Conflict, ...],
    readings: tuple[Reading, ...],
) -> bool:
    """Whether enough is known of the lamp itself; no click settles a contradiction or a germicidal doubt.

    White glass that was seen rules the clear twin out. Choosing is the clerk's own word for the lamp; opening its
    outline is not.
    """
    if conflicts:
        return False
    if lamp.kind == "uv-c" and case.chosen is None and not _says_germicidal(case, readings):
        return False  # clear glass only says what to fear, not what to sell
    if _denied(lamp, candidates):
        return False
    white = _is_white(case, conflicts)
    if lamp.kind != "uv-c" and not white and _uv_doubt(lamp, candidates) >= UV_DOUBT:
        return False
    twins = _ruled_out(case, candidates) if white and not lamp.is_ultraviolet else 0.0
    return case.chosen is not None or _chance(lamp, candidates) / (1 - twins) >= SETTLED_AT


def _ruled_out(case: Case, candidates: tuple[Candidate, ...]) -> float:
    """Return the share of lamps that white glass rules out, and, in a fixture to see by, of coated UV lamps.

    A UV lamp that somebody put into a fixture for light is to be replaced by the white one of its base and watts.
    """
    kinds = {"uv-c", "uv-a", "other"} if case.use == "lighting" else {"uv-c"}
    return sum(one.probability for one in candidates if one.kind in kinds)


def _says_germicidal(case: Case, readings: tuple[Reading, ...]) -> bool:
    return bool(marks.germicidal_words(case.marks)) or bool(readings and readings[0].lamp.kind == "uv-c")


def _denied(lamp: Lamp, candidates: tuple[Candidate, ...]) -> tuple[str, ...]:
    """Return the looks, and "marks", that speak against a lamp; choosing it does not silence them."""
    return next((one.disagrees for one in candidates if one.lamp == lamp.id), ())


def _chance(lamp: Lamp, candidates: tuple[Candidate, ...]) -> float:
    return sum(one.probability for one in candidates if one.lamp == lamp.id)


def _is_white(case: Case, conflicts: tuple[Conflict, ...]) -> bool:
    """Whether white glass was seen, and no marks say otherwise."""
    return case.looks.get("glass") == "white" and all(one.look != "glass" for one in conflicts)


def _uv_doubt(lamp: Lamp, candidates: tuple[Candidate, ...]) -> float:
    """Return how likely the germicidal look-alikes are against the lamp itself."""
    twins = sum(one.probability for one in candidates if one.kind == "uv-c" and one.base == lamp.base)
    own = _chance(lamp, candidates)
    return twins / (twins + own) if twins + own > 0 else 0.0


def _judge(
    catalogue: Catalogue,
    case: Case,
    lamp: Lamp | None,
    candidates: tuple[Candidate, ...],
    readings: tuple[Reading, ...],
    settled: bool,
    nothing_known: bool,
) -> fit.Judgement:
    if lamp is None and nothing_known:
        return fit.Judgement(verdict="ask first")
    white = case.looks.get("glass") == "white"
    chances = {one.lamp: one.probability for one in candidates}
    standing = fit.look_alikes(catalogue, chances, lamp, settled=settled, white=white)
    if case.use in ("germicidal", "blacklight"):  # there the shelf is to give no white lamp
        standing = tuple(one for one in standing if not one.rule.startswith("look-uvc-shelf"))
    if lamp is not None:
        judged = fit.judge(catalogue, lamp, case.fixture, case.use, _colour(readings))
    else:
        ranked = [(catalogue.lamp_by_id[one.lamp], one.probability) for one in candidates]
        judged = fit.judge_any(catalogue, ranked, case.fixture, case.use, SETTLED_AT)
    return judged.model_copy(update={"cautions": fit.in_order((*judged.cautions, *standing))})


def _colour(readings: tuple[Reading, ...]) -> int | None:
    """Return the colour that the marks give, where the likely readings agree on it."""
    if not readings or readings[0].lamp.cct_k is None:
        return None
    cct_k = readings[0].lamp.cct_k
    agreed = sum(one.probability for one in readings if one.lamp.cct_k == cct_k)
    return cct_k if agreed >= COLOUR_AT * sum(one.probability for one in readings) else None


def _verdict(judged: Verdict, settled: bool) -> Verdict:
    return "ask first" if judged == "sell" and not settled else judged


def _has_uv_twin(catalogue: Catalogue, lamp: Lamp) -> bool:
    return any(other.kind == "uv-c" for other in catalogue.lamps_on[lamp.base])


def _ask_to_look(
    catalogue: Catalogue,
    case: Case,
    nexts: tuple[NextLook, ...],
    lamp: Lamp | None,
    conflicts: tuple[Conflict, ...],
    candidates: tuple[Candidate, ...],
    readings: tuple[Reading, ...],
) -> tuple[Ask, ...]:
    """Ask what would settle the lamp: which side of a contradiction is right, then the look worth taking."""
    if lamp is None:
        return ()
    if conflicts:
        first = _first(conflicts)
        return (Ask(about=first.look, question="Look again: marks and looks disagree", why=first.text),)
    if denied := _denied(lamp, candidates):
        label = catalogue.look_by_key[denied[0]].label if denied[0] in catalogue.look_by_key else "The marks"
        why = f"{lamp.watts.value:g}\N{THIN SPACE}W on {lamp.base} does not go with what was seen or read here."
        if denied[0] == "glass":
            why = catalogue.look_by_key["glass"].why
        return (Ask(about=denied[0], question=f"{label}: look again", why=why),)
    glass = case.looks.get("glass", CANNOT_TELL)
    if glass == CANNOT_TELL and lamp.kind != "uv-c" and _has_uv_twin(catalogue, lamp):
        why = "Germicidal lamps stand on this base too; their tube is clear."
        return (Ask(about="glass", question="Is the glass white or clear?", why=why),)
    if lamp.kind == "uv-c" and not _says_germicidal(case, readings):
        why = "Clear glass alone does not say which germicidal lamp it is. The unit's own label does."
        return (Ask(about="marks", question="Does its print or the unit's label say germicidal?", why=why),)
    if not nexts or nexts[0].bits < ENOUGH_BITS:
        return ()
    return (Ask(about=nexts[0].look, question="One more look settles the lamp", why=nexts[0].why),)


def _conflicts(catalogue: Catalogue, case: Case, readings: tuple[Reading, ...]) -> tuple[Conflict, ...]:
    if not readings:
        return ()
    found = []
    for key, says in marks.says(readings[0]).items():
        seen = case.looks.get(key)
        if seen is None or seen == CANNOT_TELL or _agree(catalogue, key, says, seen):
            continue
        label = catalogue.look_by_key[key].label.lower()
        said, saw = _in_words(catalogue, key, says), _in_words(catalogue, key, seen)
        text = f"These marks say {said}, you saw {saw} ({label})."
        found.append(Conflict(look=key, says_marks=said, says_look=saw, text=text))
    return tuple(found)


def _first(conflicts: tuple[Conflict, ...]) -> Conflict:
    """Return the contradiction to look at first: that of the glass, which may hide a germicidal lamp."""
    return next((one for one in conflicts if one.look == "glass"), conflicts[0])


def _agree(catalogue: Catalogue, key: str, says: str | float, seen: str | float) -> bool:
    look = catalogue.look_by_key[key]
    if look.is_measured:
        return abs(float(says) - float(seen)) <= 3 * ((look.tool_sd or 0) + (look.default_sd or 0))
    word = identify.parse_look(catalogue, key, seen)  # watts may be given as 9, "9" or "9 W"
    also = next((value.also for value in look.values if value.value == says), ())
    return word == says or word in also


def _in_words(catalogue: Catalogue, key: str, value: str | float) -> str:
    look = catalogue.look_by_key[key]
    if look.is_measured:
        return f"{float(value):g}\N{THIN SPACE}mm"
    word = identify.parse_look(catalogue, key, value)
    return next((one.label for one in look.values if one.value == word), str(word))


def _with_law(judged: fit.Judgement, law: LawNotes, broken: bool) -> fit.Judgement:
    """Add that the sale has ended here, and put the caution for mercury before all others while a lamp is broken."""
    ended = fit.law_caution(law.rows)
    cautions = judged.cautions if ended is None else fit.in_order((*judged.cautions, ended))
    first = (fit.broken_caution(),) if broken else ()
    added = (*first, *([ended] if ended is not None else ()))
    verdict = max((judged.verdict, *(one.verdict for one in added)), key=fit.STRICTNESS.__getitem__)
    return judged.model_copy(update={"verdict": verdict, "cautions": (*first, *cautions)})


def _light(
    catalogue: Catalogue,
    case: Case,
    lamp: Lamp | None,
    lead: Leading | None,
    candidates: tuple[Candidate, ...],
    readings: tuple[Reading, ...],
    conflicts: tuple[Conflict, ...],
) -> LightNotes | None:
    """Return the light of the lamp named, or of the nearest; with the exposure of a germicidal lamp in doubt."""
    shown = lamp or (catalogue.lamp_by_id[lead.candidate.lamp] if lead is not None else None)
    if shown is None:
        return None
    is_doubt = not _is_white(case, conflicts) and _uv_doubt(shown, candidates) >= UV_DOUBT
    suspects = (one.lamp for one in candidates if one.kind == "uv-c" and one.base == shown.base)
    suspect = next(suspects, None) if is_doubt else None
    germicidal = catalogue.lamp_by_id[suspect] if suspect is not None else None
    return notes.light_notes(shown, germicidal, readings[0] if readings else None, case.fixture.room_k)


def fit_code(
    catalogue: Catalogue, code: str, fixture: Fixture, use: Use, house: tuple[HouseMaker, ...] = ()
) -> fit.Judgement:
    """Judge the lamp that a code names; a code that fits several lamp types gets the strictest of their verdicts.

    Raises:
        CaseProblem: the code names no lamp type of the catalogue.
    """
    if code in catalogue.lamp_by_id:
        named: tuple[str, ...] = (code,)
        colour = None
    else:
        if len(code) > LONGEST_MARKS:
            raise CaseProblem(f"“{code[:40]}…” names no lamp: it is {len(code)} characters long. Type one code.")
        found = assess(catalogue, Case(marks=code), house)
        if not found.readings or not found.readings[0].lamps:
            raise CaseProblem(f"“{code[:40]}” names no lamp known here. {' '.join(found.problems[:1])}".strip())
        named = found.readings[0].lamps
        colour = _colour(found.readings)
    return fit.strictest_of([fit.judge(catalogue, catalogue.lamp_by_id[one], fixture, use, colour) for one in named])
