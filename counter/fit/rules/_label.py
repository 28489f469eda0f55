"""Rules on words: what the ballast label says beside its numbers, what nobody explains of it, and of the holder."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from counter import words
from counter.catalogue import words_beside
from counter.fit._codes import EIGHTH_MM, SAME_EIGHTHS, label_watts, named_by, names, tube_codes
from counter.fit._facts import HIGH_FREQUENCY, RUNS_LAMPS, Facts, Finding, number
from counter.fit._families import other_family
from counter.fit._holder import compare
from counter.fit._label import parse_label, quoted
from counter.fit._label_rows import holder_words as ratings
from counter.fit.rules._beyond import suits
from counter.fit.rules._start import starts_said
from counter.fit.rules._supply import code_is_named

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable

    from counter.catalogue import Lamp
    from counter.fit._codes import TubeCode
    from counter.fit._label import LabelReading
    from counter.words import Topic

_WATTS = re.compile(r"(\d{1,4}) ?[wW]\b")  # a holder that stands fewer than the lamp takes
ON_MAINS: tuple[Topic, ...] = ("bypassed", "line-voltage")
CHANGED: tuple[Topic, ...] = (*ON_MAINS, "led", "led-driver")
THICK_EIGHTHS = 8  # no compact lamp has so thick a tube


def contradicts(facts: Facts) -> Finding | None:
    """What was entered against what the pasted label says of ballast and watts."""
    fixture, label = facts.fixture, parse_label(facts.fixture.label)
    if label.says_two_kinds and fixture.ballast in ("electronic", "magnetic"):
        return Finding("label-contradicts", {"label_says": "electronic or magnetic", "form_says": fixture.ballast})
    says = label.fields
    ballast = says.get("ballast", fixture.ballast)
    watts = label_watts(facts.catalogue, fixture.label) or fixture.ballast_watts
    is_slimline = facts.base.pins.value == 1 and (ballast, fixture.ballast) == ("electronic", "magnetic")
    if is_slimline and starts_said(fixture.label) == {"instant"}:
        ballast = fixture.ballast  # a magnetic ballast starts a single-pin tube at once too
    if ballast != fixture.ballast and {ballast, fixture.ballast} != HIGH_FREQUENCY:  # dimming ones are electronic too
        return Finding("label-contradicts", {"label_says": ballast, "form_says": fixture.ballast})
    own = facts.lamp.watts.value
    is_named = code_is_named(facts) and not label.shuts_out  # a saver's code may print the watts of the full lamp
    is_listed_there = own in fixture.ballast_watts and own not in watts and not is_named
    if is_listed_there or (own not in fixture.ballast_watts and not set(fixture.ballast_watts) <= set(watts)):
        return Finding("label-contradicts", {"label_says": _watts(watts), "form_says": _watts(fixture.ballast_watts)})
    return None


def _watts(watts: tuple[float, ...]) -> str:
    return " or ".join(map(number, watts)) + " W"


def names_base(facts: Facts) -> Finding | None:
    """The label names other bases: another number of pins never runs; a letter, key or base apart must be asked.

    Generic codes on labels leave the X out as lamps do, so a missing X refuses nothing by itself.
    """
    named = parse_label(facts.fixture.label).bases if facts.discharge else ()
    says = compare(facts.catalogue, facts.base, " / ".join(named)).says if named else "unknown"
    if says not in ("pins", "modifier", "key", "base"):
        return None
    values = {"base": facts.base.designation, "named": ", ".join(dict.fromkeys(named))}
    return Finding("labelled-pins" if says == "pins" else "labelled-base", values)


def names_pins(facts: Facts) -> Finding | None:
    """The label names lamps with another number of pins."""
    named, own = parse_label(facts.fixture.label).pins, int(facts.base.pins.value)
    if not named or own in named or not facts.discharge or facts.base.mount == "two-ends":
        return None
    return Finding("labelled-pin-count", {"named": " or ".join(map(str, named)), "pins": str(own)}, own, "pins")


def names_tube(facts: Facts) -> Finding | None:
    """The label names tubes of another thickness."""
    named, tube = parse_label(facts.fixture.label).tubes, facts.lamp.tube_mm
    if not named or not facts.discharge:
        return None
    if facts.base.mount != "two-ends" and facts.lamp.shape != "circular":
        # Compact tubes are thin, and those of one base and wattage all alike; many chokes run tubes of both kinds.
        is_other = min(named) >= THICK_EIGHTHS and not _names_own_base(facts)
        return Finding("labelled-tube", {"named": _tubes(named), "tube": "a compact one"}) if is_other else None
    own = tube.value / EIGHTH_MM if tube is not None else 0.0
    if tube is None or min(abs(eighths - own) for eighths in named) < SAME_EIGHTHS:
        return None
    return Finding(
        "labelled-tube", {"named": _tubes(named), "tube": f"T{own:.0f}"}, tube.value, "mm", tube.confidence
    )


def _names_own_base(facts: Facts) -> bool:
    named = parse_label(facts.fixture.label).bases
    return any(compare(facts.catalogue, facts.base, one).says in ("same", "family") for one in named)


def names_other(facts: Facts) -> Finding | None:
    """The lamp's watts, or its inches, stand on the label in the code of another lamp alone."""
    lamp, label = facts.lamp, parse_label(facts.fixture.label)
    codes = tube_codes(facts.fixture.label) if facts.discharge else ()
    if not codes or lamp.watts.value in label.plain_watts or any(names(one, lamp, facts.catalogue) for one in codes):
        return None
    alike = [one.text for one in codes if _may_be_taken_for(facts, one)]
    return Finding("labelled-code", {"named": " or ".join(dict.fromkeys(alike))}) if alike else None


def _may_be_taken_for(facts: Facts, code: TubeCode) -> bool:
    """Whether a code of another lamp has the number, the watts or the inches that stand for this one."""
    lamp = facts.lamp
    if lamp.watts.value in (code.number, code.reduced_w) or lamp.inches == code.number:
        return True
    return any(one.watts.value == lamp.watts.value for one in named_by(code, facts.catalogue))


def names_family(facts: Facts) -> Finding | None:
    """The label names lamps of another shape, other ends or another output, in words: circline, slimline, VHO."""
    said = other_family(facts.fixture.label, facts.lamp, facts.catalogue) if facts.discharge else ""
    return Finding("labelled-family", {"words": quoted(said)}) if said else None


def shuts_out(facts: Facts) -> Finding | None:
    """The label orders that some lamps are not used, and this may be one: by any word that it has for them."""
    for order in parse_label(facts.fixture.label).shut_out:
        if not facts.discharge or _is_among(facts, parse_label(order.lamps)):
            return Finding("label-restricts", {"words": quoted(order.words)})
    return None


def _is_among(facts: Facts, named: LabelReading) -> bool:
    lamp, tube = facts.lamp, facts.lamp.tube_mm
    if "fluorescent" in (span.about for span in named.spans) or int(facts.base.pins.value) in named.pins:
        return True
    is_of_watts = lamp.watts.value in named.fields.get("ballast_watts", ()) or bool(named.codes)
    is_as_thick = tube is not None and any(abs(one - tube.value / EIGHTH_MM) < SAME_EIGHTHS for one in named.tubes)
    bases = (compare(facts.catalogue, facts.base, one).says for one in named.bases)
    return is_of_watts or is_as_thick or any(says not in ("pins", "key", "base") for says in bases)


def _tubes(named: Iterable[int]) -> str:
    return " or ".join(f"T{one}" for one in named)


def _speaking(rule: str, *topics: Topic) -> Callable[[Facts], Finding | None]:
    """Return the rule that a label must not speak of these topics; a lamp on mains may well have mains there."""

    def speaks(facts: Facts) -> Finding | None:
        told = [one for one in topics if one not in ON_MAINS] if facts.on_mains else topics
        said = parse_label(facts.fixture.label).speaks_of(*told) if facts.discharge or facts.on_mains else ""
        return Finding(rule, {"words": said}) if said else None

    return speaks


def changed(facts: Facts) -> Finding | None:
    """The label speaks of LED lamps or of a change, and the form says that a ballast is there or says nothing."""
    if facts.fixture.ballast not in (*RUNS_LAMPS, "unknown") and not facts.on_mains:
        return None
    return _speaking("label-led", *CHANGED)(facts)


def of_uv(facts: Facts) -> Finding | None:
    """The label speaks of UV, and the lamp or the use does not go with it."""
    own = _own_topics(facts.lamp) if facts.use in facts.lamp.purposes or suits(facts.lamp, facts.use) else ()
    topics = [topic for topic in words.UV_TOPICS if topic not in own]
    said = parse_label(facts.fixture.label).speaks_of(*topics) or _code_of_uv(facts)
    return Finding("label-uv", {"words": said}) if said else None


def _code_of_uv(facts: Facts) -> str:
    """Return the first code on the label that names ultraviolet lamps alone, and not this one."""
    for code in tube_codes(facts.fixture.label):
        named = named_by(code, facts.catalogue)
        if named and named[0].is_ultraviolet and facts.lamp not in named:
            return code.text
    return ""


def _own_topics(lamp: Lamp) -> tuple[Topic, ...]:
    """Return the words that the label of a UV lamp's own unit may well hold."""
    if lamp.kind == "uv-c":
        return ("uv-c",)
    return ("uv-b", "uv-a") if lamp.band == "uv-b" else ("uv-a",)


def unread(facts: Facts) -> Finding | None:
    """Words on the label that no table explains, and nobody has said that they say nothing of the lamp."""
    left = unexplained((one.text for one in parse_label(facts.fixture.label).unread), facts.fixture.explained)
    return Finding("label-unread", {"words": ", ".join(map(quoted, left))}, words=left) if left else None


def unexplained(found: Iterable[str], explained: tuple[str, ...]) -> tuple[str, ...]:
    """Return the words that nobody has read yet, each once, however they are spaced or written in capitals."""
    read = words.plains(explained)
    return tuple(dict.fromkeys(one for one in found if words.fold(one).plain not in read))


def cut(facts: Facts) -> Finding | None:
    """A label longer than what is read of it."""
    label = facts.fixture.label
    is_cut = parse_label(label).is_cut
    return Finding("label-cut", {"words": quoted(label[-200:])}) if is_cut else None


def counts(facts: Facts) -> Finding | None:
    """Counts of a label of several lamp types, where they do not say which count goes with these watts."""
    reading, lamps = parse_label(facts.fixture.label), facts.fixture.lamp_count
    counted, watts = reading.fields.get("ballast_counts", ()), reading.fields.get("ballast_watts", ())
    is_tied = any(of_watts == facts.lamp.watts.value for _, of_watts in reading.pairs)
    if not facts.discharge or lamps is None or lamps < 2 or is_tied or len(watts) < 2:
        return None
    if min(counted, default=lamps) >= lamps:
        return None
    said = f"{' or '.join(map(str, counted))} x {' or '.join(map(number, watts))} W"
    return Finding("label-counts", {"words": said})


def at_most(facts: Facts) -> Finding | None:
    """The label allows fewer watts than the lamp takes."""
    most, own = parse_label(facts.fixture.label).at_most_w, facts.lamp.watts.value
    if most is None or own <= most:
        return None
    return Finding("label-at-most", {"most": number(most), "watts": number(own)}, most, "W")


def holder_words(facts: Facts) -> Finding | None:
    """What stands beside the holder's mark, and is neither a base nor known to say nothing."""
    text = facts.fixture.holder or ""
    beside = (word for word in words_beside(text) if not _is_rating(word))
    low = tuple(one[0] for one in _WATTS.finditer(text) if 0 < float(one[1]) < facts.lamp.watts.value)
    left = unexplained((*low, *beside), facts.fixture.explained) if text else ()
    if not left or facts.match.says == "unreadable":  # then the whole of it is asked for again
        return None
    speaking = any(words.is_danger(one.topic) for part in left for one in words.sayings(part))
    return Finding("holder-words", {"words": ", ".join(left)}, words=() if speaking else left)


def _is_rating(word: str) -> bool:
    """Whether a word beside a holder's mark is one that holders bear: what it stands, and how it is called."""
    return ratings().fullmatch(words.fold(word).plain.strip("()[].,;:")) is not None


RULES = (
    contradicts,
    names_base,
    names_pins,
    names_tube,
    names_other,
    names_family,
    changed,
    of_uv,
    _speaking("label-hazardous-place", "hazardous-place"),
    _speaking("label-fault", "fault"),
    _speaking("label-other-lamp", "other-source"),
    _speaking("label-restricts", "restricts"),
    shuts_out,
    cut,
    counts,
    at_most,
    unread,
    holder_words,
)
