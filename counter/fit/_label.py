"""A pasted ballast label: lamp watts and counts, the kind of ballast, what else it says, and what nobody explains.

Label wording is the trade's own and no standard: what is found here fills in blanks, and never overrules what
somebody entered. Words that nothing explains are kept, since a sale must not rest on words left unread.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Any, get_args

from pydantic import Field

from counter import words
from counter.catalogue import Model, scan_designation
from counter.fit._label_rows import Stretch, pattern, starts, table
from counter.fit._label_scan import Scan, scan
from counter.language import figure, kept_by_language, marked, tr, trn
from counter.words import Topic

if TYPE_CHECKING:
    from collections.abc import Iterator

    from counter.fit._models import Ballast, Fixture
    from counter.words import Folded

# The first kind found wins: what makes a lamp dangerous outranks what makes it fail.
_KINDS: dict[str, Ballast] = {
    "bypassed": "bypassed",
    "led-driver": "led-driver",
    "dimming": "dimming",
    "electronic": "electronic",
    "magnetic": "magnetic",
}
_KIND_MEANS = {
    "bypassed": marked("mains led straight to the lamp holders"),
    "led-driver": marked("feeds LEDs, not a fluorescent lamp"),
    "dimming": marked("dimming electronic ballast"),
    "electronic": marked("electronic ballast"),
    "magnetic": marked("magnetic ballast"),
}
_LISTING = ("watts", "code")
_NUMBER = re.compile(r"\d+|[a-z]+")
_IS_RANGE = re.compile(r"-|\b(?:to|a|bis|hasta)\b")
_REDUCED = re.compile(r"(\d{2}) ?w\b")
_DENIES = re.compile(
    r"\b(?:(?:not?|non|never|without|sin|sans|ohne)\b[\s\w-]{0,8}|not? (?:requiere|necesita|requires?|needs?) )$"
)
_BESIDE: dict[str, str] = {
    "emergency": marked("a battery pack drives the lamp too"),
    "dimmer": marked("a dimmer in the circuit"),
}
THICK = 10  # eighths of an inch: chokes start such tubes instantly too, so these words tell no electronic ballast
LEAST_STEP_W = 0.5  # no two lamps differ by less
SHOWN = 60  # characters that are quoted


class LabelSpan(Model):
    """One part of the label's text, `text == label[start:end]`, what it speaks of, and what it means."""

    start: int
    end: int
    text: str
    about: str
    means: str


class ShutOut(Model):
    """An order not to use some lamps, as it stands there, and its words for those lamps."""

    words: str
    lamps: str


class LabelReading(Model):
    """What a label says: fields of Fixture, where each was found, and what is not understood of it."""

    fields: dict[str, Any] = Field(default_factory=dict)
    spans: tuple[LabelSpan, ...] = ()
    pairs: tuple[tuple[int, float], ...] = Field((), description='(lamps, watts) that stand together: "2 x 18 W"')
    problems: tuple[str, ...] = ()
    dangers: tuple[LabelSpan, ...] = Field((), description="words that speak against a sale; `about` is their topic")
    unread: tuple[LabelSpan, ...] = Field((), description="words that no table explains")
    bases: tuple[str, ...] = ()
    tubes: tuple[int, ...] = Field((), description="tube diameters that it names, in eighths of an inch")
    codes: tuple[str, ...] = Field((), description="lamp codes that it names, folded")
    pins: tuple[int, ...] = Field((), description="pins of the lamps that it names")
    plain_watts: tuple[float, ...] = Field(
        (), description="lamp watts that stand there otherwise than in a tube's code"
    )
    shuts_out: bool = Field(False, description='whether some of its lamps stand beside "only"')
    shut_out: tuple[ShutOut, ...] = Field((), description="lamps that may not be used, though the label names them")
    at_most_w: float | None = Field(None, description="the most watts that a lamp in it may take")
    is_cut: bool = Field(False, description="whether the label is longer than what is read of it")

    @property
    def says_two_kinds(self) -> bool:
        """Whether it names an electronic and a magnetic ballast."""
        return bool(self.problems)

    def speaks_of(self, *topics: Topic) -> str:
        """Return the first words that speak of one of these topics; "" where there are none."""
        return next((quoted(one.text) for one in self.dangers if one.about in topics), "")


def quoted(text: str) -> str:
    """Return words of a label or of marks as they are shown: on one line, and not too long."""
    line = " ".join(text.split())
    return line if len(line) <= SHOWN else f"{line[: SHOWN - 1]}…"


@kept_by_language(128)
def parse_label(text: str) -> LabelReading:
    """Return what the label says. Never raises; a label that says nothing gives an empty reading."""
    longest = table()["longest"]
    folded = words.fold(text[:longest])
    found = scan(folded.plain)
    kinds = _kinds(folded, found)
    ballast, problems = _one_kind([kind for kind, _ in kinds])
    watts, counts = _watts(found), _counts(found)
    fields: dict[str, Any] = {"ballast_watts": watts, "ballast_counts": counts, "ballast": ballast}
    topics = {one.topic for one in found.topics}
    fields["emergency"] = "emergency" in topics or None
    # A dimming ballast's label may name the dimmer that goes with it; on another a dimmer is one too many.
    fields["dimmer"] = ("dimmer" in topics and "dimming" not in (kind for kind, _ in kinds)) or None
    return LabelReading(
        fields={name: value for name, value in fields.items() if value},
        spans=tuple(sorted(_spans(folded, found, kinds), key=lambda span: (span.start, span.end))),
        pairs=_pairs(folded.plain, found, watts),
        problems=problems,
        dangers=tuple(_dangers(folded, found)),
        unread=tuple(_span(folded, start, end, "unread", "") for start, end in found.unread),
        bases=tuple(dict.fromkeys(_bases(folded, found))),
        tubes=_tubes(found),
        codes=tuple(dict.fromkeys(folded.plain[one.start : one.end] for one in _named(found, "code"))),
        pins=tuple(sorted(_pins(folded.plain, found))),
        plain_watts=tuple(w for one in _named(found, *_LISTING) if "tube" not in one.groups for w in _watts_of(one)),
        shuts_out=any(one.is_exclusive for one in _named(found, *_LISTING)),
        shut_out=tuple(_shut_out(folded, found)),
        at_most_w=min((_most_of(one) for one in _named(found, "at most")), default=None),
        is_cut=len(text) > longest,
    )


def counts_for(fixture: Fixture, watts: float) -> tuple[int, ...]:
    """Return how many lamps of these watts the ballast runs: "1 x 26 W, 2 x 18 W" runs one of 26 W, not two."""
    pairs = parse_label(fixture.label).pairs if fixture.label else ()
    own = tuple(sorted({count for count, of_watts in pairs if of_watts == watts}))
    return own or fixture.ballast_counts


# -- numbers


def _named(found: Scan, *about: str) -> list[Stretch]:
    return [one for one in found.stretches if one.about in about]


def _number(text: str) -> int:
    return table()["numbers"].get(text) or int(text)


def _watts(found: Scan) -> tuple[float, ...]:
    """Return the lamp watts that the label names; where some stand beside "only", those and no others."""
    listing = _named(found, *_LISTING)
    only = [one for one in listing if one.is_exclusive]
    return tuple(sorted({watts for one in only or listing for watts in _watts_of(one)}))


def _watts_of(one: Stretch) -> tuple[float, ...]:
    if "watts" in one.groups:
        found = (
            float(text.replace(",", ".")) for text in re.findall(r"\d+(?:[.,]\d{1,2}(?!\d))?", one.groups["watts"])
        )
        return tuple(watts for watts in found if watts > 0)
    if "least" in one.groups:
        least, most = int(one.groups["least"]), int(one.groups["most"])
        return tuple(float(watts) for watts in table()["wattages"] if least <= watts <= most)
    if reduced := _REDUCED.search(one.groups.get("tail", "")):  # F32T8/25W takes 25 W
        return (float(reduced[1]),)
    number = int(one.groups["number"])
    is_length = str(number) in table()["inches"].get(one.groups.get("tube", ""), ()) or "circle" in one.groups
    return () if is_length or not number else (float(number),)


def _most_of(one: Stretch) -> float:
    if below := one.groups.get("less_w"):
        return float(below.replace(",", ".")) - LEAST_STEP_W
    return float((one.groups.get("most_w") or one.groups["most_behind"]).replace(",", "."))


def _pins(plain: str, found: Scan) -> set[int]:
    """Return the pins of the lamps named, of "2 pins only" these; letters in EL mean four, plain ones two."""
    named = _named(found, "pins")
    if only := {_number(one.groups["pins"]) for one in named if one.is_exclusive}:
        return only
    letters = (plain[one.start : one.end] for one in _named(found, "shape", "code"))
    told = (re.match(r"tc-?(?P<shape>[dst])(?P<four>el)?(?![a-z])", one) for one in letters)
    return {_number(one.groups["pins"]) for one in named} | {4 if one["four"] else 2 for one in told if one}


def _eighths(one: Stretch) -> int | None:
    """Return the tube's diameter in eighths of an inch: T8 as it stands, T26 by its millimetres."""
    if "tube_mm" in one.groups:
        return int(table()["tube_eighths"][one.groups["tube_mm"]])
    return int(one.groups["tube"]) if "tube" in one.groups else None


def _tubes(found: Scan) -> tuple[int, ...]:
    """Return the tubes' diameters in eighths; where "T5 only" stands there, that one."""
    only = [one for one in _named(found, "tube") if one.is_exclusive]
    return tuple(sorted({tube for one in only or _named(found, "tube", "code") if (tube := _eighths(one))}))


def _counts(found: Scan) -> tuple[int, ...]:
    return tuple(sorted({count for one in found.stretches for count in _counts_of(one)}))


def _counts_of(one: Stretch) -> tuple[int, ...]:
    """Return how many lamps a stretch counts: "1 or 2" as it stands, "1-4" as one to four."""
    text = " ".join(one.groups[name] for name in ("counts", "behind", "short") if name in one.groups)
    words_too = (number for number in _NUMBER.findall(text) if number[0].isdigit() or number in table()["numbers"])
    numbers = [_number(number) for number in words_too]
    if len(numbers) == 2 and _IS_RANGE.search(text):
        return tuple(range(min(numbers), max(numbers) + 1))
    return tuple(numbers)


def _pairs(plain: str, found: Scan, watts: tuple[float, ...]) -> tuple[tuple[int, float], ...]:
    """Tie counts to the lamps that stand right behind them: "one CFTR42W or two CFQ26W" are two pairs."""
    order = [one for one in found.stretches if one.about in (*_LISTING, "count")]
    stands_behind = len(order) > 1 and order[0].about != "count" and "counts" not in order[0].groups
    tied = _tied(plain, order[::-1] if stands_behind else order)
    return tuple(dict.fromkeys(pair for pair in tied if pair[1] in watts))


def _tied(plain: str, order: list[Stretch]) -> Iterator[tuple[int, float]]:
    """Yield counts with the watts next to them, walking from count to lamps; a sentence's end parts them.

    Counts side by side, "(1)(2) F32T8", count together.
    """
    counts: tuple[int, ...] = ()
    last: Stretch | None = None
    for one in order:
        if own := _counts_of(one):
            is_more = last is not None and last.about == "count" and not _between(plain, last, one).strip(" ,/-")
            counts, last = ((*counts, *own) if is_more else own), one
        if one.about not in _LISTING:
            continue
        if "counts" in one.groups or (last is not None and pattern("gap").match(_between(plain, last, one))):
            yield from ((count, of) for count in counts for of in _watts_of(one))
            last = one
        else:
            counts, last = (), None


def _between(plain: str, one: Stretch, other: Stretch) -> str:
    first, second = sorted((one, other))
    return plain[first.end : second.start]


# -- words


def _kinds(folded: Folded, found: Scan) -> list[tuple[str, LabelSpan]]:
    """Return the kinds of ballast that are named and not denied, with their words, the gravest first."""
    named = [(one.about, one.start, one.end) for one in found.stretches if one.about in _KINDS]
    named += [(one.topic, one.start, one.end) for one in found.topics if one.topic in _KINDS]
    if any(eighths >= THICK for eighths in _tubes(found)):
        instant = dict(starts())["instant"]
        named = [row for row in named if not instant.match(folded.plain, row[1])]
    told = [row for row in named if not _DENIES.search(folded.plain[max(0, row[1] - 16) : row[1]])]
    told.sort(key=lambda row: (list(_KINDS).index(row[0]), row[1]))
    return [(kind, _span(folded, start, end, "ballast", tr(_KIND_MEANS[kind]))) for kind, start, end in told]


def _one_kind(kinds: list[str]) -> tuple[Ballast | None, tuple[str, ...]]:
    if kinds and kinds[0] in ("electronic", "magnetic") and {"electronic", "magnetic"} <= set(kinds):
        return None, (tr("The label says both electronic and magnetic: look at the ballast itself."),)
    return (_KINDS[kinds[0]] if kinds else None), ()


def _dangers(folded: Folded, found: Scan) -> Iterator[LabelSpan]:
    told = [(one.start, one.end, one.topic) for one in found.topics if words.is_danger(one.topic)]
    known = get_args(Topic)
    told += [(one.start, one.end, one.about) for one in found.stretches if one.about in known]  # type: ignore[misc]
    told += [(one.start, one.end, "uv-c") for one in found.stretches if one.means.startswith("a germicidal")]
    for start, end, topic in sorted(told, key=lambda row: (list(known).index(row[2]), row[0])):
        if words.is_danger(topic):
            yield _span(folded, start, end, topic, tr("speaks against a sale"))


def _shut_out(folded: Folded, found: Scan) -> Iterator[ShutOut]:
    """Yield the orders that shut lamps out; "fluorescent lamps only" shuts out every other kind."""
    for one in found.denied:
        yield ShutOut(words=folded.as_typed(one.start, one.end), lamps=folded.as_typed(one.named, one.end))
    for stretch in _named(found, "fluorescent"):
        if stretch.is_exclusive:
            yield ShutOut(words=folded.as_typed(stretch.start, stretch.end), lamps="")


def _bases(folded: Folded, found: Scan) -> Iterator[str]:
    for one in _named(found, "base"):
        yield folded.as_typed(one.start, one.end)
    for one in _named(found, "code"):
        text = folded.as_typed(one.start, one.end)
        named = ((part, scan_designation(part.upper())) for part in text.split("/")[1:])
        yield from (part for part, found in named if found is not None and found.designation.letter == "G")


def _spans(folded: Folded, found: Scan, kinds: list[tuple[str, LabelSpan]]) -> Iterator[LabelSpan]:
    yield from (span for _, span in kinds)
    for word in found.topics:
        if word.topic in _BESIDE:
            yield _span(folded, word.start, word.end, word.topic, tr(_BESIDE[word.topic]))
    for order in found.denied:
        yield _span(folded, order.start, order.end, "restricts", tr("shuts these lamps out"))
    for one in found.stretches:
        if one.about not in _KINDS and not one.is_unread:
            yield from _of_stretch(folded, one)


def _of_stretch(folded: Folded, one: Stretch) -> Iterator[LabelSpan]:
    if counts := _counts_of(one):
        told = tr(" or ").join(map(str, counts))
        lamps = trn("{count} lamp", "{count} lamps", max(counts)).format(count=told)
        yield _span(folded, one.start, one.end, "ballast_counts", lamps)
    if one.about in _LISTING and (watts := _watts_of(one)):
        numbers = tr(" or ").join(map(figure, watts))
        yield _span(folded, one.start, one.end, "ballast_watts", tr("lamps of {watts} W").format(watts=numbers))
    elif one.about != "count":
        yield _span(folded, one.start, one.end, one.about, tr(one.means))


def _span(folded: Folded, start: int, end: int, about: str, means: str) -> LabelSpan:
    first, last = folded.span(start, end)
    return LabelSpan(start=first, end=last, text=folded.typed[first:last], about=about, means=means)
