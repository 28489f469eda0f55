"""A text cut into the codes and words that stand in it, and what they state together."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Any, NamedTuple

from counter.marks._caps import base_code
from counter.marks._colour import colour_code
from counter.marks._house import house_code
from counter.marks._lex import is_one_tube
from counter.marks._systems import WHOLE, code_of, word

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from counter.marks._house import HouseMaker
    from counter.marks._known import Known
    from counter.marks._lex import Facts, Parsed

_BETWEEN = re.compile(r"[^A-Z0-9?*'\"]+|['\"]+(?![A-Z0-9])", re.ASCII)
_WORD = re.compile(r"[^\s,;]+")


class Segments(NamedTuple):
    """Codes and words in their order, and the stretches that mean nothing here."""

    found: tuple[Parsed, ...]
    unknown: tuple[tuple[int, int], ...]


def cut(plain: str, known: Known, house: Sequence[HouseMaker] = ()) -> Segments:
    """Cut a folded text into what each stretch means, longest codes first."""
    found: list[Parsed] = []
    unknown: list[tuple[int, int]] = []
    at = 0
    while at < len(plain):
        if gap := _BETWEEN.match(plain, at):
            at = gap.end()
            continue
        parsed = best_at(plain, at, known, house)
        if parsed is None:
            end = _word_end(plain, at)
            unknown.append((at, end))
            at = end
        else:
            found.append(parsed)
            at = max(parsed.end, at + 1)
    return Segments(tuple(found), tuple(unknown))


def _word_end(plain: str, at: int) -> int:
    match = _WORD.match(plain, at)
    return match.end() if match else at + 1


def best_at(plain: str, at: int, known: Known, house: Sequence[HouseMaker] = ()) -> Parsed | None:
    """Return the longest code at a place, else what a single word says."""
    whole = whole_at(plain, at, known, house)
    if whole:
        return max(whole, key=lambda parsed: parsed.end)
    if plain[at] == "T":  # T8 is a tube before it is a telephone slide
        return word(plain, at, known) or base_code(plain, at, known)
    return base_code(plain, at, known) or word(plain, at, known)


def whole_at(plain: str, at: int, known: Known, house: Sequence[HouseMaker] = ()) -> list[Parsed]:
    """Return the whole codes that stand at a place, by the standards' grammars and the shop's tables."""
    whole = [parsed for system in WHOLE if (parsed := code_of(system, plain, at, known))]
    return whole + [parsed for maker in house if (parsed := house_code(plain, at, known, maker))]


def whole_colour(plain: str) -> Parsed | None:
    """Read a text that is a colour and nothing else, single letters included."""
    start = len(plain) - len(plain.lstrip(" \n/-"))
    parsed = colour_code(plain, start) if start < len(plain) else None
    return parsed if parsed and not plain[parsed.end :].strip() else None


_WORDS = ("partial", "base", "colour")


class Together(NamedTuple):
    """What all segments state together; a fact stated twice with two values is a clash."""

    system: str
    grammar: str | None
    canonical: str
    facts: Facts
    clashes: tuple[tuple[str, Any, Any], ...]


_NAMED_TWICE = ("base", "watts", "number", "tube_mm", "kind", "pins", "cct_k")


def together(found: Sequence[Parsed]) -> Together:
    """Combine segments; the first one's value of a fact stands."""
    facts: dict[str, Any] = {}
    clashes: list[tuple[str, Any, Any]] = []
    for parsed in found:
        stated: dict[str, Any] = dict(parsed.facts)
        both = [key for key in _NAMED_TWICE if key in facts and key in stated]
        clashes += [(key, facts[key], stated[key]) for key in both if not same(key, facts[key], stated[key])]
        facts = merged(facts, stated)
    system, grammar = _system(found)
    return Together(system, grammar, " ".join(_written(found)), facts, tuple(clashes))  # type: ignore[arg-type]


def apart(found: Sequence[Parsed]) -> tuple[tuple[Parsed, ...], ...]:
    """Where codes or bases contradict each other, return one set of segments for each; else all as one set."""
    leading = [parsed for parsed in found if "base" in parsed.facts or parsed.system not in _WORDS]
    fits: list[list[Parsed]] = []
    for lead in leading:
        home = next((group for group in fits if not together((*group, lead)).clashes), None)
        if home is None:
            fits.append([lead])
        else:
            home.append(lead)
    if len(fits) < 2:
        return (tuple(found),)
    others = [parsed for parsed in found if parsed not in leading]
    return tuple((*group, *(other for other in others if not together((*group, other)).clashes)) for group in fits)


def merged(facts: dict[str, Any], stated: dict[str, Any]) -> dict[str, Any]:
    """Return what both state; where they differ the first stands."""
    merged = stated | facts
    if facts.get("shapes") and stated.get("shapes"):
        both = tuple(shape for shape in facts["shapes"] if shape in stated["shapes"])
        merged["shapes"] = both or facts["shapes"]
    if "base" in facts and "base" in stated and facts["base"].key is None and stated["base"].key:
        merged["base"] = stated["base"]  # the second only adds the key number
    if stated.get("output") and not facts.get("output"):
        merged["output"] = stated["output"]  # a code that says nothing of it does not deny it
    return merged


def same(key: str, first: Any, second: Any) -> bool:
    """Whether two values of a fact say the same."""
    if first == second:
        return True
    if key == "tube_mm":
        return is_one_tube(first, second)
    stem = getattr(first, "stem", None)
    return stem is not None and first.family == second.family and (first.key is None or second.key is None)


def _system(found: Sequence[Parsed]) -> tuple[str, str | None]:
    for parsed in found:
        if parsed.system not in _WORDS:
            return parsed.system, parsed.grammar
    if len(found) == 1:
        return found[0].system, found[0].grammar
    industry = any(parsed.grammar == "lbs" for parsed in found)
    return "partial", "lbs" if industry else "shorthand"


def _written(found: Sequence[Parsed]) -> Iterator[str]:
    for parsed in found:
        if parsed.canonical:
            yield parsed.canonical
