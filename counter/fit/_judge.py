"""The verdict: every rule asked, the strictest answer kept, and the questions that could change it."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from counter.fit._asks import asks
from counter.fit._codes import with_label
from counter.fit._facts import Facts, Finding, facts
from counter.fit._models import VERDICTS, Judgement, strictest
from counter.fit._texts import answered, caution, kin_of, verdict_of
from counter.fit.rules import RULES

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from counter.catalogue import Catalogue, Lamp
    from counter.fit._models import Caution, Fixture, Signal, Use, Verdict

MOST_AT_ONCE = 60  # lamp types judged together while none is named; past these they have too little in common
GRAVITY: dict[Signal, int] = {"DANGER": 0, "WARNING": 1, "CAUTION": 2, "NOTICE": 3}


def judge(
    catalogue: Catalogue, lamp: Lamp, fixture: Fixture, use: Use = "unknown", cct_k: int | None = None
) -> Judgement:
    """Judge one lamp for one fixture and use.

    `cct_k` is the lamp's colour where its marks give one. What the pasted label says fills in the fields of the
    fixture that are not known. An unknown use counts as lighting for a white lamp, and never for any other.
    """
    known = facts(catalogue, lamp, with_label(catalogue, fixture), use, cct_k)
    findings = find(known)
    verdict = strictest(map(verdict_of, findings))
    cautions = in_words(findings, lamp.id)
    if verdict == "do not sell":
        return Judgement(verdict=verdict, cautions=cautions)
    questions = asks(known, verdict_on)
    verdict = "ask first" if any(ask.blocks for ask in questions) else verdict
    return Judgement(verdict=verdict, cautions=cautions, asks=questions)


def judge_any(
    catalogue: Catalogue, chances: Sequence[tuple[Lamp, float]], fixture: Fixture, use: Use, sure: float
) -> Judgement:
    """Judge lamps of which it is not known which one it is: refused where `sure` of their share is, by one rule.

    Clear glass and a lighting fixture, or two pins and an electronic ballast, need no watts to be refused. `chances`
    are lamps and their probabilities, likeliest first; the verdict is otherwise "ask first".
    """
    labelled = with_label(catalogue, fixture)
    refused: dict[str, list[_Refused]] = {}
    spared = 0.0
    for lamp, chance in chances[:MOST_AT_ONCE]:
        refusing = [one for one in find(facts(catalogue, lamp, labelled, use)) if verdict_of(one) == "do not sell"]
        spared += 0.0 if refusing else chance
        for one in refusing:
            refused.setdefault(kin_of(one.rule), []).append(_Refused(one, lamp, chance))
        if spared > 1 - sure:
            break
    certain = [rows for rows in refused.values() if sum(row.chance for row in rows) >= sure]
    if not certain:
        return Judgement(verdict="ask first")
    return Judgement(verdict="do not sell", cautions=in_words([_gravest(rows) for rows in certain]))


class _Refused(NamedTuple):
    """What refuses a lamp that it can be, and how likely that is."""

    finding: Finding
    lamp: Lamp
    chance: float


def _gravest(rows: Sequence[_Refused]) -> Finding:
    """Return the finding to show for all: the shortest time until harm on the likeliest base, else the likeliest's.

    Lamps a tenth as likely as the likeliest are left out, so that one time stands wherever one is told.
    """
    first = rows[0]
    likely = [row for row in rows if row.lamp.base == first.lamp.base and row.chance >= first.chance / 10]
    timed = [row.finding for row in likely if row.finding.unit == "s" and row.finding.figure is not None]
    return min(timed, key=lambda one: one.figure or 0.0, default=first.finding)


def strictest_of(judgements: Sequence[Judgement]) -> Judgement:
    """Return the strictest of some judgements: what may be said of a code that fits several lamp types."""
    return max(judgements, key=lambda one: VERDICTS.index(one.verdict))


def find(known: Facts) -> list[Finding]:
    """Return what every rule that applies found, as the answers given leave it."""
    found = (finding for rule in RULES if (finding := rule(known)) is not None)
    return [answered(finding, known.lamp.id, known.fixture.told) for finding in found]


def verdict_on(known: Facts) -> Verdict:
    """Return the strictest verdict of all rules, asking no further once it cannot get stricter."""
    worst: Verdict = "sell"
    for rule in RULES:
        finding = rule(known)
        if finding is not None:
            worst = strictest((worst, verdict_of(answered(finding, known.lamp.id, known.fixture.told))))
            if worst == "do not sell":
                break
    return worst


def in_words(findings: list[Finding], lamp: str = "") -> tuple[Caution, ...]:
    """Return the cautions, the strictest first and the gravest first among equals; `lamp` is the lamp type's id."""
    return in_order(caution(one, lamp) for one in findings)


def in_order(cautions: Iterable[Caution]) -> tuple[Caution, ...]:
    """Return cautions, each rule's first one only, the strictest first and the gravest first among equals."""
    once: dict[str, Caution] = {}
    for one in cautions:
        once.setdefault(one.rule, one)
    return tuple(sorted(once.values(), key=lambda one: (-VERDICTS.index(one.verdict), GRAVITY[one.signal])))


def first_words(cautions: Sequence[Caution]) -> tuple[Caution, ...]:
    """Return what must be said before all else: DANGERs, what refuses the lamp, WARNINGs; or else the first caution.

    What refuses it stands before a warning that refuses nothing: else that would read as the reason.
    """
    by_gravity = sorted(cautions, key=lambda one: (GRAVITY[one.signal], -VERDICTS.index(one.verdict)))
    dangers = tuple(one for one in by_gravity if one.signal == "DANGER")
    refusing = tuple(one for one in cautions[:1] if one.verdict == "do not sell" and one not in dangers)
    warnings = tuple(one for one in by_gravity if one.signal == "WARNING" and one not in refusing)
    return (*dangers, *refusing, *warnings) or tuple(cautions[:1])
