"""Makers' codes without a table: the lattice's paths as readings, the letters nobody knows named as such."""

from __future__ import annotations

import re
from math import inf
from typing import TYPE_CHECKING, Any, NamedTuple

from counter import words
from counter.marks._answer import answer, meaning_of, says_lamp
from counter.marks._colour import is_common
from counter.marks._lattice import paths
from counter.marks._lex import UNREADABLE, Parsed, Part
from counter.marks._models import Span
from counter.marks._segments import together
from counter.marks._sentences import CANNOT_BE_READ, PUT_IN, TAKEN, WORN_SLASH
from counter.marks._slots import slots_for
from counter.marks._tables import tables
from counter.marks._worn import with_choices

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from counter.marks._house import HouseMaker
    from counter.marks._known import Known
    from counter.marks._lattice import Edge, Path
    from counter.marks._lex import Facts
    from counter.marks._models import Reading
    from counter.marks._slots import Found, Slots

MAKER = "maker"  # the part name of letters that are a maker's own and not known in this shop
_LETTERS = re.compile(r"[^\W\d_]+")
_GRAVER = ("uv-a", "other", "uv-c")  # kinds of ultraviolet, the gravest last


class MakersRead(NamedTuple):
    """Readings of a maker's code with their costs, and letters whose known meaning does not go with the rest.

    `is_code` says that the best one has the build of a code: watts, and something else that codes print.
    `may_be_worn` says that it leaves something odd, which a worn sign may explain.
    """

    readings: tuple[tuple[Reading, float], ...] = ()
    denied: tuple[str, ...] = ()
    is_code: bool = False
    may_be_worn: bool = True


def read_makers(
    plain: str, text: str, known: Known, house: Sequence[HouseMaker], *, worn: bool = False, most: float = inf
) -> MakersRead:
    """Read a folded text slot by slot, cheapest way first; what is known to cost more than `most` is left out."""
    slots = slots_for(known, house)
    fee = 0.0 if slots.letters else tables()["slots"]["costs"]["own_whole"]  # the least that any way pays
    rows = _rows(paths(plain, slots, house, worn=worn, most=most - fee), plain, text, known)
    if rows and not rows[0][0].lamps:  # what no lamp is costs more than the ways that were left out
        wider = tables()["slots"]["costs"]["impossible_whole"]
        rows = _rows(paths(plain, slots, house, worn=worn, most=most - fee, wider=wider), plain, text, known)
    if not rows:
        return MakersRead()
    may_be_uv = [_uv_instead(way, plain, text, known) for _, _, way in rows[:2] if _has_taught(way)]
    readings = [(reading, cost) for reading, cost, _ in rows] + [row for row in may_be_uv if row is not None]
    first, _, best = rows[0]
    return MakersRead(
        tuple(with_choices(readings)), _denied(best, plain, slots), best.is_code, _may_be_worn(best, first, slots)
    )


def _rows(ways: Sequence[Path], plain: str, text: str, known: Known) -> list[tuple[Reading, float, Path]]:
    """Return readings with what they cost; a way that names no lamp type costs more."""
    window = tables()["slots"]["costs"]["window"]
    costs = sorted(((_cost(way, plain, known), way) for way in ways if _tells(way)), key=lambda row: row[0])
    kept = [(cost, way) for cost, way in costs if cost <= costs[0][0] + window or _has_taught(way)]
    return [(_reading(way, plain, text, known), cost, way) for cost, way in kept]


def _cost(way: Path, plain: str, known: Known) -> float:
    costs, fee = tables()["slots"]["costs"], _fee(way)
    if _is_possible(together(_found(way, plain)).facts, known):
        return way.cost + fee
    own = bool(way.whats & {"maker", "number"})  # what letters mean here does not outweigh the rest of the code
    return float(way.cost + (costs["own_code"] + costs["impossible"] if own else fee + costs["impossible_whole"]))


def _is_possible(facts: Facts, known: Known) -> bool:
    """Whether a lamp type of the catalogue is what a way says; a stated diameter wants a lamp that has one."""
    lamps = meaning_of(facts, known).lamps if says_lamp(facts) else ()
    if not lamps:
        return not (facts.get("watts") or facts.get("number"))
    return "tube_mm" not in facts or any(lamp.tube_mm for lamp in lamps)


def _fee(way: Path) -> float:
    """Return what it costs beforehand that a text is a maker's own code, and not a worn one of the standard's."""
    costs = tables()["slots"]["costs"]
    if way.whats & {"maker", "number"}:
        return float(costs["own_beside_whole" if "whole" in way.kinds and not way.is_worn else "own_code"])
    if way.is_taught:
        return 0.0
    return float(costs["own_worn" if "worn" in way.whats or way.is_worn else "own_whole"])


def _tells(way: Path) -> bool:
    """Whether a way through says more than a bare number in other text, and what no other road would find."""
    kinds = {edge.found.slot.kind for _, edge in way.edges if edge.found and edge.what == "slot"}
    if way.is_standard and way.is_worn and kinds & {"head", "whole"}:
        return False  # worn codes of the standards are searched for as a whole
    if any(edge.what == "gap" and edge.cost for _, edge in way.edges) and not way.is_code:
        return False  # a figure is a worn slash only inside what has the build of a code
    telling = kinds - {"bare pins", "key", "older", "letters", "uv number", "pins"}
    if way.whats & {"maker", "uv"}:
        return bool(telling)
    sure = telling - {"two figures", "colour", "kelvin"}
    return bool(sure) and len(kinds) > (2 if sure == {"bare watts"} else 1)  # E27 is a base, not 27 W


def _may_be_worn(way: Path, reading: Reading, slots: Slots) -> bool:
    is_odd = bool(way.whats & {"number", "worn"}) or ("maker" in way.whats and bool(slots.letters))
    is_seldom = reading.lamp.cct_k is not None and not is_common(reading.lamp.cct_k)
    return is_odd or is_seldom or not reading.lamps or bool(way.clashes)


def _has_taught(way: Path) -> bool:
    return any(edge.found and edge.found.slot.kind == "taught" and edge.found.slot.facts for _, edge in way.edges)


def _found(way: Path, plain: str, facts: dict[str, Any] | None = None) -> list[Parsed]:
    found = [one for start, edge in way.edges if (one := _parsed(start, edge, plain, facts))]
    says_kind = any("kind" in one.facts for one in found)  # of F36W/08 the number says it, not the F
    return found if says_kind or not way.is_standard else [_lighting(one) for one in found]


def _reading(way: Path, plain: str, text: str, known: Known, facts: dict[str, Any] | None = None) -> Reading:
    reading, _, _ = answer(_found(way, plain, facts), text, known, 0.0)
    is_words = way.is_standard and way.is_worn
    system = "partial" if reading.system in ("base", "colour") else reading.system
    return reading.model_copy(
        update={
            "system": "house" if way.is_taught else system,
            "grammar": "shorthand" if is_words else "letters",
            "canonical": reading.canonical if is_words else _written(way, plain),
            "assumptions": (*_assumed(way, plain), *reading.assumptions),
        }
    )


def _lighting(parsed: Parsed) -> Parsed:
    """Let a lamp letter say that the lamp gives light, where all else in the code is the standards' own."""
    is_head = bool(parsed.parts) and parsed.parts[0].part == "kind" and "kind" not in parsed.facts
    return parsed._replace(facts={**parsed.facts, "kind": "fluorescent"}) if is_head else parsed


def _parsed(start: int, edge: Edge, plain: str, facts: dict[str, Any] | None) -> Parsed | None:
    if edge.what == "gap":
        return None
    end, table = edge.end, tables()["slots"]
    if edge.found is not None:
        slot = edge.found.slot
        stated = slot.facts if facts is None or slot.kind != "taught" else {}
        parts = tuple(_placed(edge.found, start, plain))
        return Parsed(slot.system, slot.grammar, start, end, slot.clean, parts, stated, slot.notes)
    part, means = (MAKER, table["maker_means"]) if edge.what == "maker" else ("number", table["number_means"])
    if edge.what == "worn":
        part, means = "other", CANNOT_BE_READ
    return Parsed("partial", "letters", start, end, plain[start:end], (Part(start, end, part, means),), {}, ())


def _placed(found: Found, start: int, plain: str) -> Iterator[Part]:
    """Yield a slot's parts where they stand in the text; a sign that was not typed takes no place."""
    for part in found.slot.parts:
        first, last = start + part.start, start + part.end
        if found.lost is not None:
            first, last = first - (found.lost < part.start), last - (found.lost < part.end)
        if first < last:
            meant = found.meant[part.start : part.end]
            yield Part(first, last, part.part, part.means, None if meant == plain[first:last] else meant)


def _written(way: Path, plain: str) -> str:
    """Write the code as it was taken, signs between its parts as they stand."""
    written = ""
    for start, edge in way.edges:
        written += edge.found.meant if edge.found and edge.found.wear else plain[start : edge.end]
    return " ".join(written.split())


def _assumed(way: Path, plain: str) -> Iterator[str]:
    for start, edge in way.edges:
        found = edge.found
        if edge.what == "gap" and edge.cost:
            yield WORN_SLASH.format(typed=plain[start])
        if found is None:
            continue
        if found.lost is not None:
            yield PUT_IN.format(typed=found.meant[found.lost])
        elif found.wear:
            for typed, meant in zip(plain[start : edge.end], found.meant, strict=True):
                if typed != meant:
                    yield TAKEN.format(typed=typed, what=meant)


def _uv_instead(way: Path, plain: str, text: str, known: Known) -> tuple[Reading, float] | None:
    """Read the same way with the shop's letters as unknown, among ultraviolet lamps only.

    Letters that were given a meaning may narrow the lamp types down, but they take no doubt about ultraviolet away:
    that the code says white, by a colour, or the base carries no such lamp, does.
    """
    reading = _reading(way, plain, text, known, {})
    lamps = (known.catalogue.lamp_by_id[lamp_id] for lamp_id in reading.lamps)
    dangerous = {lamp.id: lamp.kind for lamp in lamps if lamp.is_ultraviolet}
    if not dangerous:
        return None
    gravest = max(dangerous.values(), key=_GRAVER.index)
    lamp = reading.lamp.model_copy(update={"kind": gravest})
    cost = way.cost + tables()["slots"]["costs"]["taught_may_be_uv"]
    return reading.model_copy(update={"lamps": tuple(dangerous), "lamp": lamp, "looks": {}}), cost


def _denied(way: Path, plain: str, slots: Slots) -> tuple[str, ...]:
    """Return letters that have a meaning here which the cheapest way could not use, or only against the rest."""
    unused = [plain[start : edge.end] for start, edge in way.edges if edge.what == "maker"]
    return tuple(dict.fromkeys((*(one for one in unused if one in slots.letters), *way.clashes)))


def is_makers(word: str) -> bool:
    """Whether a word can be letters of a maker's own: short, of letters alone, no word that speaks of anything."""
    most = tables()["slots"]["longest_letters"]
    letters = word.replace(UNREADABLE, "")
    is_short = 0 < len(word) <= most and letters.isalpha()
    return is_short and "UV" not in letters.upper() and not words.sayings(word) and not words.is_harmless(word)


def with_makers(reading: Reading, unknown: Sequence[tuple[int, int]], text: str) -> Reading:
    """Return a reading with the letters that it leaves over marked as a maker's own."""
    means = tables()["slots"]["maker_means"]
    places = [
        (start + match.start(), start + match.end())
        for start, end in unknown
        for match in _LETTERS.finditer(text[start:end])
        if is_makers(match[0]) and not any(map(str.isdigit, text[start:end]))
    ]
    spans = [
        Span(start=start, end=end, text=text[start:end], means=means, part=MAKER)
        for start, end in places
        if not any(span.start < end and start < span.end for span in reading.spans)
    ]
    if not spans:
        return reading
    return reading.model_copy(update={"spans": tuple(sorted((*reading.spans, *spans), key=lambda one: one.start))})
