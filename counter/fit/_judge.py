"""The verdict: every rule asked, the strictest answer kept, and the questions that could change it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from counter.fit._asks import asks
from counter.fit._facts import Facts, Finding, facts
from counter.fit._label import with_label
from counter.fit._models import Judgement
from counter.fit._texts import caution, verdict_of
from counter.fit.rules import _beyond as _beyond_rules
from counter.fit.rules import _holder as _holder_rules
from counter.fit.rules import _start as _start_rules
from counter.fit.rules import _supply as _supply_rules
from counter.fit.rules import _use as _use_rules

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from counter.catalogue import Catalogue, Lamp
    from counter.fit._models import Caution, Fixture, Signal, Use, Verdict

RULES = (
    *_use_rules.RULES,
    *_beyond_rules.RULES,
    *_holder_rules.RULES,
    *_supply_rules.RULES,
    *_start_rules.RULES,
)
STRICTNESS: dict[Verdict, int] = {"sell": 0, "ask first": 1, "do not sell": 2}
MOST_AT_ONCE = 60  # lamp types judged together while none is named; past these they have too little in common
GRAVITY: dict[Signal, int] = {"DANGER": 0, "WARNING": 1, "CAUTION": 2, "NOTICE": 3}


def judge(
    catalogue: Catalogue, lamp: Lamp, fixture: Fixture, use: Use = "unknown", cct_k: int | None = None
) -> Judgement:
    """Judge one lamp for one fixture and use.

    `cct_k` is the lamp's colour where its marks give one. What the pasted label says fills in the fields of the
    fixture that are not known. An unknown use counts as lighting for a white lamp, and never for any other.
    """
    known = facts(catalogue, lamp, with_label(fixture), use, cct_k)
    findings = find(known)
    verdict = strictest(findings)
    if verdict == "do not sell":
        return Judgement(verdict=verdict, cautions=in_words(findings))
    questions = asks(known, verdict_on)
    if any(ask.blocks for ask in questions):
        verdict = "ask first"
    return Judgement(verdict=verdict, cautions=in_words(findings), asks=questions)


def judge_any(
    catalogue: Catalogue, chances: Sequence[tuple[Lamp, float]], fixture: Fixture, use: Use, sure: float
) -> Judgement:
    """Judge lamps of which it is not known which one it is: refused where `sure` of their share is, by one rule.

    Clear glass and a lighting fixture, or two pins and an electronic ballast, need no watts to be refused. `chances`
    are lamps and their probabilities, likeliest first; the verdict is otherwise "ask first".
    """
    labelled = with_label(fixture)
    refused: dict[str, list[Finding]] = {}
    shares: dict[str, float] = {}
    spared = 0.0
    for lamp, chance in chances[:MOST_AT_ONCE]:
        refusing = [one for one in find(facts(catalogue, lamp, labelled, use)) if verdict_of(one) == "do not sell"]
        spared += 0.0 if refusing else chance
        for one in refusing:
            refused.setdefault(_plain(one.rule), []).append(one)
            shares[_plain(one.rule)] = shares.get(_plain(one.rule), 0.0) + chance
        certain = [rule for rule, share in shares.items() if share >= sure]
        if certain:
            return Judgement(verdict="do not sell", cautions=in_words([_gravest(refused[rule]) for rule in certain]))
        if spared > 1 - sure:
            break
    return Judgement(verdict="ask first")


def _plain(rule: str) -> str:
    """Return what a rule is about: with or without a figure, and whichever ultraviolet it speaks of."""
    plain = rule.removesuffix("-no-figure")
    return f"uv-{plain[4:]}" if plain.startswith(("uva-", "uvb-", "uvc-")) else plain


def _gravest(findings: Sequence[Finding]) -> Finding:
    """Return the finding to show for all: the shortest time until harm, else the likeliest lamp's."""
    timed = [one for one in findings if one.unit == "s" and one.figure is not None]
    return min(timed, key=lambda one: one.figure or 0.0, default=findings[0])


def strictest_of(judgements: Sequence[Judgement]) -> Judgement:
    """Return the strictest of some judgements: what may be said of a code that fits several lamp types."""
    return max(judgements, key=lambda one: STRICTNESS[one.verdict])


def find(known: Facts) -> list[Finding]:
    """Return what every rule that applies found."""
    return [finding for rule in RULES if (finding := rule(known)) is not None]


def verdict_on(known: Facts) -> Verdict:
    """Return the strictest verdict of all rules, asking no further once it cannot get stricter."""
    worst: Verdict = "sell"
    for rule in RULES:
        finding = rule(known)
        if finding is not None:
            worst = max(worst, verdict_of(finding), key=STRICTNESS.__getitem__)
            if worst == "do not sell":
                break
    return worst


def strictest(findings: list[Finding]) -> Verdict:
    """Return the strictest verdict of some findings; with none, nothing objects."""
    return max(map(verdict_of, findings), key=STRICTNESS.__getitem__, default="sell")


def in_words(findings: list[Finding]) -> tuple[Caution, ...]:
    """Return the cautions, the strictest first and the gravest first among equals."""
    return in_order(map(caution, findings))


def in_order(cautions: Iterable[Caution]) -> tuple[Caution, ...]:
    """Return cautions, each rule's first one only, the strictest first and the gravest first among equals."""
    once: dict[str, Caution] = {}
    for one in cautions:
        once.setdefault(one.rule, one)
    return tuple(sorted(once.values(), key=lambda one: (-STRICTNESS[one.verdict], GRAVITY[one.signal])))
