"""The words of every caution, by rule: resources/cautions.json, read once, on first use."""

from __future__ import annotations

import json
import re
from functools import cache
from typing import TYPE_CHECKING, Any, NamedTuple, cast

from counter import paths
from counter.fit._facts import ABOUT, NOT_REACHED, OWN_AT, REACHED, weakest
from counter.fit._models import Caution
from counter.language import OWN, current, decimals, marked, range_of, tr

if TYPE_CHECKING:
    from collections.abc import Mapping

    from counter.catalogue import Confidence
    from counter.fit._facts import Finding
    from counter.fit._models import Signal, Verdict


class Text(NamedTuple):
    """One rule's words; braces name what the rule fills in."""

    signal: Signal
    verdict: Verdict
    says: str
    why: str
    do: str
    source: str
    confidence: Confidence
    ask: str = ""
    topic: str | None = None
    figureless: str | None = None
    alike: str | None = None


class Question(NamedTuple):
    """What to ask when a field is not known, and why."""

    question: str
    why: str


class SharedChoke(NamedTuple):
    """Lamps of one base that one choke serves, so that a label naming one of them may mean all; by which rule."""

    rule: str
    bases: tuple[str, ...]
    watts: tuple[float, ...]
    confidence: Confidence


@cache
def _file() -> dict[str, Any]:
    return cast("dict[str, Any]", json.loads((paths.resources() / "cautions.json").read_text(encoding="utf-8")))


@cache
def texts() -> dict[str, Text]:
    """Return the words of every rule, by rule id."""
    return {rule: Text(**words) for rule, words in _file()["rules"].items()}


@cache
def questions() -> dict[str, Question]:
    """Return the question for every field that may be unknown."""
    return {about: Question(**words) for about, words in _file()["questions"].items()}


@cache
def shared_chokes() -> tuple[SharedChoke, ...]:
    """Return the groups of lamps that one choke serves."""
    return tuple(
        SharedChoke(row["rule"], tuple(row["bases"]), tuple(row["watts"]), row["confidence"])
        for row in _file()["shared_chokes"]
    )


@cache
def counterparts() -> tuple[tuple[str, str], ...]:
    """Return the pairs of bases, two pins and four, that differ by more than the letter d or q."""
    return tuple((two, four) for two, four in _file()["counterparts"])


class LedType(NamedTuple):
    """An LED type: what must be true first, and the rule that speaks for each kind of ballast."""

    title: str
    needs: str
    on: dict[str, str]
    source: str
    confidence: Confidence


class LedCap(NamedTuple):
    """The LED types met for some families of bases."""

    families: tuple[str, ...]
    types: tuple[str, ...]
    confidence: Confidence


@cache
def _replacements() -> dict[str, Any]:
    return cast("dict[str, Any]", json.loads((paths.resources() / "replacements.json").read_text(encoding="utf-8")))


@cache
def led_type(name: str) -> LedType:
    """Return one LED type by its letters."""
    return LedType(**_replacements()["led_types"][name])


@cache
def led_caps() -> tuple[LedCap, ...]:
    """Return which LED types are met for which families of bases."""
    rows = _replacements()["led_caps"]
    return tuple(LedCap(tuple(row["families"]), tuple(row["types"]), row["confidence"]) for row in rows)


@cache
def white_codes() -> tuple[str, ...]:
    """Return the colour codes that shops commonly keep."""
    return tuple(_replacements()["colours"])


def verdict_of(finding: Finding) -> Verdict:
    """Return the most that a finding allows."""
    return finding.verdict or texts()[finding.rule].verdict


def answer_key(finding: Finding, lamp: str = "") -> str:
    """Return under which key the answer to a caution's question is kept: of this lamp, and of just these numbers."""
    return " | ".join((finding.rule, lamp, *(f"{name} {value}" for name, value in sorted(finding.values.items()))))


def answered(finding: Finding, lamp: str, told: Mapping[str, bool]) -> Finding:
    """Return a finding as somebody's answer to its question leaves it: yes allows the sale, no refuses it."""
    if not told or verdict_of(finding) != "ask first" or not texts()[finding.rule].ask:
        return finding
    says = told.get(answer_key(finding, lamp))
    return finding if says is None else finding._replace(verdict="sell" if says else "do not sell")


@cache
def plain_rule(rule: str) -> str:
    """Return the rule that a rule without a figure stands for."""
    return next((name for name, text in texts().items() if text.figureless == rule), rule)


# What rules fill in that is words and no figure. Findings keep it as it stands here: an answer's key is made of it.
FILLED_IN = (
    *(marked("more"), marked("less"), marked("a compact one"), marked(" or ")),
    *(marked("just noticeable"), marked("different"), marked("clearly different")),
    *(marked("bypassed"), marked("led-driver"), marked("dimming"), marked("electronic"), marked("magnetic")),
    *(marked("ozone"), marked("germicidal"), marked("insect trap"), marked("medical"), marked("blacklight")),
    *(marked("tanning"), marked("gel curing"), marked("lighting")),
    *(marked("instant"), marked("rapid"), marked("preheat"), marked("programmed")),
    *(marked("DANGER"), marked("WARNING"), marked("CAUTION"), marked("NOTICE")),
    *(marked("sell"), marked("ask first"), marked("do not sell")),
    *(marked("yes"), marked("no"), marked("any other"), marked("none"), marked("same")),
    *(marked("high frequency"), marked("mains frequency"), marked("another number of")),
)
WITH_FIGURES = (NOT_REACHED, REACHED, OWN_AT, ABOUT)


QUOTED = frozenset({"words", "holder"})  # what stands on label, lamp or holder is never put into other words
_NUMBERS = re.compile(r"[\d.]+(?: (?:W|mm|A|h|min|s))?")
_RANGE = re.compile(r"([\d.]+) to ([\d.]+)")


@cache
def _shapes() -> tuple[tuple[str, re.Pattern[str]], ...]:
    return tuple((one, re.compile(re.sub(r"\\\{(\w+)\\\}", r"(?P<\1>.+)", re.escape(one)))) for one in WITH_FIGURES)


def spoken(value: str) -> str:
    """Return what a rule filled in, in the language now spoken: words, words with figures, or several with "or"."""
    if current() == OWN:
        return value
    for words, shape in _shapes():
        if (found := shape.fullmatch(value)) is not None:
            return tr(words).format_map({name: spoken(part) for name, part in found.groupdict().items()})
    return tr(" or ").join(map(_spoken_alone, value.split(" or ")))


def _spoken_alone(value: str) -> str:
    if (found := _RANGE.fullmatch(value)) is not None:
        return range_of(*map(decimals, found.groups()))
    return decimals(value) if _NUMBERS.fullmatch(value) else tr(value)


def _spoken(finding: Finding) -> Mapping[str, str]:
    """Return what a rule filled in, in the language now spoken, but for what it quotes."""
    if current() == OWN:
        return finding.values
    quoted = QUOTED if finding.rule != "label-counts" else frozenset()  # that one only counts
    return {name: value if name in quoted else spoken(value) for name, value in finding.values.items()}


def kin_of(rule: str) -> str:
    """Return what a rule is about: with or without a figure, and whichever ultraviolet it speaks of."""
    return texts()[rule].alike or plain_rule(rule)


def caution(finding: Finding, lamp: str = "", told: Mapping[str, str] | None = None) -> Caution:
    """Put a finding into words; `told` is what it filled in, where that is in the language now spoken already.

    Raises:
        KeyError: no words for this rule, or the words name a value that the rule does not fill in.
    """
    text = texts()[finding.rule]
    values = told or _spoken(finding)
    return Caution(
        signal=text.signal,
        rule=finding.rule,
        says=tr(text.says).format_map(values),
        why=tr(text.why).format_map(values),
        do=tr(text.do).format_map(values),
        figure=finding.figure,
        unit=finding.unit,
        source=text.source,
        confidence=weakest((text.confidence, finding.confidence)),
        verdict=verdict_of(finding),
        topic=text.topic,
        ask=tr(text.ask).format_map(values),
        key=answer_key(finding, lamp) if text.ask else "",
        words=finding.words,
        values=values,
    )
