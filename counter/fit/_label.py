"""A pasted ballast label: lamp watts and counts, the kind of ballast, and what else it says, each with its place.

Label wording is the trade's own and no standard: what is found here fills in blanks, and never overrules what
somebody entered.
"""

from __future__ import annotations

import re
from functools import lru_cache
from typing import TYPE_CHECKING, Any

from pydantic import Field

from counter.catalogue import Model

if TYPE_CHECKING:
    from collections.abc import Iterator

    from counter.fit._models import Ballast, Fixture

LONGEST = 4000
# Written as text and compiled on first use: a fixture without a label should not pay for them. Every repeat has an
# end, so that no paste takes more than milliseconds.
_NUMBER = r"\d{1,3}(?:\.\d+)?"
_JOIN = r"\s{0,2}(?:,\s?or|,|/|or|and|&|\+)\s{0,2}"
_NOT_LAMP_WATTS = r"\b(?:up to|input|pin|line|total|circuit|system|max(?:imum|\.)?|losses?)\W*(?:\w+\W+){0,2}$"
_INPUT_AFTER = r"\s{0,2}(?:input|line|loss|Eingang)"
_PLAIN_WATTS = rf"(?<![\d.\-–T])({_NUMBER}(?:{_JOIN}{_NUMBER}){{0,7}})\s{{0,2}}-?\s{{0,2}}(?:W\b|watts?\b)"
_CODE_WATTS = rf"\b(?:CF\w{{0,3}}?|FT|FQ|FBO?|G|FSDH?|FSQ|FSMH?|FSSH?)-?({_NUMBER})(?:-|W|T\d|/|DL|DS|L\b)"
_TIMES_WATTS = rf"(?<![\d.])[1-9]\s*[x×*]\s*({_NUMBER})(?=\s*(?:/|,|or)\s*\d+\s*[x×*])"  # 1x26 / 2x18 W
_PAIR = rf"(?<![\d.])([1-9])\s{{0,2}}[x×*]\s{{0,2}}({_NUMBER})"
_LINEAR = r"\bF[RPB]?(\d{1,3})T(\d{1,2})(/\w+)?"
_LENGTHS_IN = frozenset({24, 36, 42, 48, 60, 64, 72, 84, 96})  # these printed before T8 or T12 are inches, not watts
_ONE = r"\(?(?<![A-Za-z\d.])([1-9]|1[0-2]|one|two|three|four)(?!\d|\.\d)\)?"
_LAMP_WORD = (
    r"(?:[x×*]\s*(?=\(?\d|CF[TQSM]|F[TB]?\d|FS[DQMS]|FC\d)|(?=\d(?:[\d\s.,/-]|w(?:atts?)?\b|or\b|and\b){0,40}(?:\w+\s+)?lamps?\b)|-?\s*lamps?\b"
    r"|-?\s*(?=(?:CF[TQSM]|F\d|FT\d|FB\d|FS[DQMS]|FC\d)))"
)
_COUNTS = rf"{_ONE}((?:\s{{0,2}}(?:,|or|and|/|&|to|-|–)\s{{0,2}}{_ONE}){{0,5}})\s{{0,2}}{_LAMP_WORD}"
_WORDS = {"one": 1, "two": 2, "three": 3, "four": 4}

# The first kind found wins: what makes a lamp dangerous outranks what makes it fail.
_KINDS: tuple[tuple[Ballast, str, str], ...] = (
    (
        "bypassed",
        (
            r"by-?\s?pass(?:ed)?|ballast (?:has been |was )?(?:removed|disconnected)|direct[ -](?:wired?|mains|line)"
            r"|(?:line|mains) voltage (?:at|on|present)|retrofit kit|no longer (?:accept|operate)s?"
        ),
        "mains led straight to the lamp holders",
    ),
    (
        "led-driver",
        (
            r"\bLED\b[^\n]{0,30}(?:driver|power supply|module)|\bdriver\b|constant current"
            r"|\bV ?DC\b|\d ?V ?DC\b|\bmA ?DC\b"
        ),
        "feeds LEDs, not a fluorescent lamp",
    ),
    (
        "dimming",
        r"\bdimm(?:ing|able)|(?<!\d)[01] ?[-–] ?10 ?V(?:DC)?\b",
        "dimming electronic ballast",
    ),
    (
        "electronic",
        (
            r"\belectronic|\bele[kt]+troni|électroni|\bE[VC]G\b|\bDALI\b|solid[- ]state|\bEEI ?= ?A"
            r"|high[- ]frequency|\bHF\b|\bk ?Hz\b|\d ?kHz\b|instant[- ]start"
            r"|program(?:m?ed)?[- ](?:rapid[- ])?start"
        ),
        "electronic ballast",
    ),
    (
        "magnetic",
        r"\bmagnetic|electro-?magnetic|\bchoke\b|\breactor\b|auto-?transformer|\bpre-?heat ballast|inductive",
        "magnetic ballast",
    ),
)
_NOTES: tuple[tuple[str, str, str], ...] = (
    ("volts", r"\b\d{2,3}(?:\s?[-–/]\s?\d{3})*\s?V(?:AC|olts?|~)?\b", "supply voltage"),
    ("protection", r"\bclass\s?P\b", "switches itself off when too hot, by a protector inside"),
    ("end of life", r"\bend[- ]of[- ]life\b|\bEOL\b", "shuts down on a worn-out lamp"),
    (
        "starting",
        r"min(?:imum|\.)?\s*start\w*\s*temp\w*[^\n]{0,16}",
        "coldest place it starts a lamp in",
    ),
    ("base", r"\b2?G[XYR]?\d{1,2}[dqt](?:-\d)?\b|\b2G(?:X?7|11|10)\b|\bGX?23\b", "base of the lamps it runs"),
)
_DENIED = r"\b(?:not?|non|never|without)\b[\s\w-]{0,8}$"
# "Not for CFQ26W", "do not use with 26 W quad": which lamps it shuts out is not read, only that it shuts some out.
_NAMED = r"(?:\d{1,3}\s?-?\s?W(?:atts?)?\b|\bCF[TQSM]|\bF[TB]?\d|\bFS[DQMS]|\b2?G[XYR]?\d)"
_RESTRICTS = (
    r"\b(?:not|don't|no(?!\.|\s?PCB)|never|except|other than|instead of|was|formerly|old"
    r"|exclud\w+|incompatible|avoid|außer|replaced|kein\w{0,2}|nicht|nur)\b"
    rf"[^.\n]{{0,40}}?{_NAMED}"
    rf"|{_NAMED}[^.\n;,]{{0,25}}?\b(?:must (?:never|not)|never be|not be used|not allowed|prohibited"
    r"|excluded|unsuitable|not suitable|not recommended|verboten)\b"
    rf"|{_NAMED}\s{{0,2}}(?:->|→|:\s?(?:not|un)\w*)"
)
# Said of fixtures whose lamps were changed for LED lamps, in the many ways that stickers say it.
_CHANGED = (
    r"\bLEDs?\b|\bno (?:fluorescent|ballast)|\b(?:not|never)\b[^.\n]{0,60}\bfluorescent|\bwithout (?:a )?ballast"
    r"|\bre-?wired?\b|\bretrofit\w{0,4}|\bconver(?:ted|sion)\b|\bmodified\b"
    r"|\bdirect(?:ly)?[ -](?:to|wired?|mains|line)|\d{3}\s?V[^.\n]{0,20}(?:socket|holder|contact)"
    r"|\btype[ -][ABC]\b(?! sound)"
    r"|\bline voltage\b|\bballast (?:cut|gone|out)\b|\bremoved ballast|\brewir\w+|\bTLED|\bL\.E\.D|\bmains fed"
    r"|\bAC (?:line|direct)|V(?:AC)? direct|\bentfernt|\bohne Vorschalt|\ban (?:Netz|Fassung)|\bumverdraht"
)
_UV = r"\bgermicid\w*|\bUV(?:-?\s?C)?\b|\bultra-?violet|\bdisinfect\w*|\bsteril\w*|\b25[34](?:[.,]7)?\s?nm"
_AT_MOST = r"\b(?:max(?:imum|\.)?|up to)\s{0,2}:?\s{0,2}\d{1,3}\s?W(?:atts?)?\b"
_SHOWN = 60  # characters of a label that are quoted
_EMERGENCY = r"\bemergency\b|\bbattery\b|\bself-contained\b|\bNotlicht|\bEM pack"


class LabelSpan(Model):
    """One part of the label's text, `text == label[start:end]`, the field it speaks of, and what it means."""

    start: int
    end: int
    text: str
    about: str
    means: str


class LabelReading(Model):
    """What a label says: fields of Fixture, where each was found, and what contradicts itself."""

    fields: dict[str, Any] = Field(default_factory=dict)
    spans: tuple[LabelSpan, ...] = ()
    pairs: tuple[tuple[int, float], ...] = Field((), description='(lamps, watts) that stand together: "2 x 18 W"')
    problems: tuple[str, ...] = ()


def restriction(text: str) -> str:
    """Return the words of a label that shut some lamps out; "" where there are none."""
    return _quoted(_RESTRICTS, text)


def speaks_of_change(text: str) -> str:
    """Return the words of a label that speak of LED lamps or of a changed fixture; "" where there are none."""
    return _quoted(_CHANGED, text)


def speaks_of_uv(text: str) -> str:
    """Return the words of a label that speak of germicidal light; "" where there are none."""
    return _quoted(_UV, text)


def left_unread(text: str) -> str:
    """Return what of a label counts for nothing here: its end if it is too long, a highest wattage, or all of it."""
    if len(text) > LONGEST:
        return f"… {' '.join(text[LONGEST:].split())[:_SHOWN]}"
    if at_most := _quoted(_AT_MOST, text):
        return at_most
    reading = parse_label(text)
    return "" if reading.spans or reading.fields else " ".join(text.split())[:_SHOWN]


@lru_cache(maxsize=256)
def _quoted(pattern: str, text: str) -> str:
    """Return the first words that a pattern finds; kept, since every lamp offered asks the same label again."""
    found = re.search(pattern, text[: 4 * LONGEST], re.I)
    return " ".join(found.group().split())[:_SHOWN] if found else ""


@lru_cache(maxsize=64)
def parse_label(text: str) -> LabelReading:
    """Return what the label says. Never raises; a label that says nothing gives an empty reading."""
    label = text[:LONGEST]
    spans = [*_watts(label), *_counts(label), *_kinds(label), *_emergency(label), *_notes(label)]
    fields: dict[str, Any] = {}
    watts = _numbers(spans, "ballast_watts")
    if watts:
        fields["ballast_watts"] = watts
    counts = tuple(int(count) for count in _numbers(spans, "ballast_counts"))
    if counts:
        fields["ballast_counts"] = counts
    kinds = list(dict.fromkeys(span.means for span in spans if span.about == "ballast"))
    ballast, problems = _one_kind(kinds)
    if ballast:
        fields["ballast"] = ballast
    if any(span.about == "emergency" for span in spans):
        fields["emergency"] = True
    shown = (span.model_copy(update={"means": _in_words(span)}) for span in spans)
    in_place = tuple(sorted(shown, key=lambda span: (span.start, span.end)))
    return LabelReading(fields=fields, spans=in_place, pairs=_pairs(label, watts), problems=problems)


def counts_for(fixture: Fixture, watts: float) -> tuple[int, ...]:
    """Return how many lamps of these watts the ballast runs: "1 x 26 W, 2 x 18 W" runs one of 26 W, not two."""
    pairs = parse_label(fixture.label).pairs if fixture.label else ()
    own = tuple(sorted({count for count, of_watts in pairs if of_watts == watts}))
    return own or fixture.ballast_counts


def with_label(fixture: Fixture) -> Fixture:
    """Return the fixture with what its label says filled in where nothing was entered."""
    if not fixture.label.strip():
        return fixture
    said = parse_label(fixture.label).fields
    blanks = {name: value for name, value in said.items() if getattr(fixture, name) in (None, (), "unknown")}
    return fixture.model_copy(update=blanks) if blanks else fixture


def _span(match: re.Match[str], about: str, means: str) -> LabelSpan:
    return LabelSpan(start=match.start(), end=match.end(), text=match.group(), about=about, means=means)


def _watts(label: str) -> Iterator[LabelSpan]:
    for match in re.finditer(_PLAIN_WATTS, label, re.I):
        before, after = label[max(0, match.start() - 30) : match.start()], label[match.end() : match.end() + 16]
        if not re.search(_NOT_LAMP_WATTS, before, re.I) and not re.match(_INPUT_AFTER, after, re.I):
            yield _span(match, "ballast_watts", " ".join(re.findall(_NUMBER, match[1])))
    for match in re.finditer(_CODE_WATTS, label, re.I):
        yield _span(match, "ballast_watts", match[1])
    for match in re.finditer(_TIMES_WATTS, label, re.I):
        yield _span(match, "ballast_watts", match[1])
    for match in re.finditer(_LINEAR, label, re.I):
        if int(match[2]) < 8 or int(match[1]) not in _LENGTHS_IN:
            yield _span(match, "ballast_watts", match[1])


def _counts(label: str) -> Iterator[LabelSpan]:
    for match in re.finditer(_COUNTS, label, re.I):
        written = re.findall(r"\d+|one|two|three|four", match[1] + match[2], re.I)
        numbers = [_WORDS.get(word.lower()) or int(word) for word in written]
        if re.search(r"to|-|–", match[2]) and len(numbers) == 2:
            numbers = list(range(min(numbers), max(numbers) + 1))
        yield _span(match, "ballast_counts", " ".join(map(str, numbers)))


def _kinds(label: str) -> Iterator[LabelSpan]:
    for kind, pattern, _ in _KINDS:
        for match in re.finditer(pattern, label, re.I):
            if not re.search(_DENIED, label[max(0, match.start() - 16) : match.start()], re.I):
                yield _span(match, "ballast", kind)


def _emergency(label: str) -> Iterator[LabelSpan]:
    return (
        _span(match, "emergency", "a battery pack drives the lamp too")
        for match in re.finditer(_EMERGENCY, label, re.I)
    )


def _notes(label: str) -> Iterator[LabelSpan]:
    for about, pattern, means in _NOTES:
        for match in re.finditer(pattern, label, re.I):
            yield _span(match, about, means)


def _pairs(label: str, watts: tuple[float, ...]) -> tuple[tuple[int, float], ...]:
    found = ((int(match[1]), float(match[2])) for match in re.finditer(_PAIR, label, re.I))
    return tuple(dict.fromkeys(pair for pair in found if pair[1] in watts))


def _numbers(spans: list[LabelSpan], about: str) -> tuple[float, ...]:
    found = {float(word) for span in spans if span.about == about for word in span.means.split()}
    return tuple(sorted(number for number in found if number > 0))


def _one_kind(kinds: list[str]) -> tuple[str | None, tuple[str, ...]]:
    if "electronic" in kinds and "magnetic" in kinds:
        return None, ("The label says both electronic and magnetic: look at the ballast itself.",)
    return (kinds[0] if kinds else None), ()


def _in_words(span: LabelSpan) -> str:
    numbers = " or ".join(span.means.split())
    if span.about == "ballast_watts":
        return f"lamps of {numbers} W"
    if span.about == "ballast_counts":
        return "one lamp" if numbers == "1" else f"{numbers} lamps"
    return next((words for kind, _, words in _KINDS if span.means == kind), span.means)
