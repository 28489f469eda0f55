"""Every code that the catalogue says can exist: lamp types, systems and colours. Built on the first worn text."""

from __future__ import annotations

from itertools import product
from typing import TYPE_CHECKING, NamedTuple

from counter.marks._format import format_code, format_house, generic_letters
from counter.marks._index import CodeIndex
from counter.marks._known import known_for
from counter.marks._lex import fold
from counter.marks._resolve import resolve, thin_output
from counter.marks._systems import code_of
from counter.marks._tables import tables

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from counter.catalogue import Catalogue, Lamp
    from counter.marks._house import HouseMaker
    from counter.marks._known import Known
    from counter.marks._models import Reading

SYSTEMS = ("nema", "ansi-linear", "ansi-germicidal", "ilcos", "lbs", "partial", "base")
_HERE = "\x01"  # stands where a colour will: each code is written once, not once a colour


class Written(NamedTuple):
    """What a code costs beforehand, as some systems and colours are met less often, and the lamp type it is of."""

    cost: float
    lamp: str


class Vocabulary(NamedTuple):
    """The index to search in, and how its codes came about; `answered` fills with what they read as."""

    codes: CodeIndex
    written: dict[str, Written]
    answered: dict[str, Reading | None]


def colours() -> tuple[str, ...]:
    """Return the colours that codes are written with."""
    table = tables()["colour"]
    return (*table["common"], *(row["letters"] for row in table["letters"]))


def codes_of(catalogue: Catalogue, house: Sequence[HouseMaker] = ()) -> dict[str, Written]:
    """Return every code with its cost beforehand; the cheapest way to mean it counts."""
    made: dict[str, Written] = {}
    for lamp in catalogue.lamps:
        for code, cost in _of_lamp(catalogue, lamp, house):
            one = Written(cost, lamp.id)
            made[code] = min(one, made.get(code, one), key=lambda one: one.cost)
    cost = tables()["noise"]["systems"]["house"]
    return made | {code: Written(cost, code) for maker in house for code in maker.codes}


def _of_lamp(catalogue: Catalogue, lamp: Lamp, house: Sequence[HouseMaker]) -> Iterator[tuple[str, float]]:
    table = tables()["noise"]
    for system in SYSTEMS:
        cost = table["systems"][system]
        if code := format_code(catalogue, lamp.id, system):
            yield code, cost
        yield from _coloured(catalogue, lamp, system, cost)
    yield from ((word.value, 0.0) for word in lamp.codes)
    for code, cost in (*_older(catalogue, lamp), *_base_gone(catalogue, lamp), *_with_key(catalogue, lamp)):
        yield code, cost
        yield from ((f"{code}/{shade}", cost + _colour_cost(shade)) for shade in colours())
    yield from _with_output(catalogue, lamp)
    for maker in house:
        if code := format_house(catalogue, lamp.id, maker):
            yield code, table["systems"]["house"]
            yield from _house_coloured(catalogue, lamp, maker)


def _house_coloured(catalogue: Catalogue, lamp: Lamp, maker: HouseMaker) -> Iterator[tuple[str, float]]:
    first = tables()["colour"]["common"][0]
    written = format_house(catalogue, lamp.id, maker, first) if lamp.kind == "fluorescent" else None
    if written and any(part.colour for part in maker.parts):
        for shade in colours():
            yield written.replace(first, shade), tables()["noise"]["systems"]["house"]


def _coloured(catalogue: Catalogue, lamp: Lamp, system: str, cost: float) -> Iterator[tuple[str, float]]:
    if lamp.kind != "fluorescent" or system == "base":
        return
    by_place = None if system == "ilcos" else format_code(catalogue, lamp.id, system, _HERE)
    for shade in colours():
        if by_place and len(shade) > 1:
            code: str | None = by_place.replace(_HERE, shade)
        else:
            code = format_code(catalogue, lamp.id, system, shade)
        if code:
            yield code, cost + _colour_cost(shade)


def _colour_cost(shade: str) -> float:
    return float(tables()["noise"]["colour"]["digits" if shade.isdigit() else "letters"])


def _older(catalogue: Catalogue, lamp: Lamp) -> Iterator[tuple[str, float]]:
    """Yield generic codes that mean this lamp as older literature writes them: T or M for a triple, no X."""
    code, nema, costs = format_code(catalogue, lamp.id, "nema"), tables()["nema"], tables()["noise"]["older"]
    if code is None:
        return
    head = generic_letters(lamp.shape or "", lamp.kind) or ""
    letters = [row["letters"] for row in nema["shapes"] if lamp.shape in row["older"]]
    family = catalogue.base_by_name[lamp.base].family
    plain = next((old for old, new in tables()["dropped_x"]["pairs"].items() if new == family), None)
    heads = [(head, 0.0), *((f"CF{letter}", costs["letter"]) for letter in letters)]
    bases = [(family, 0.0), *([(plain, costs["dropped_x"])] if plain else [])]
    known = known_for(catalogue)
    for (old_head, head_cost), (old_base, base_cost) in list(product(heads, bases))[1:]:
        old = f"{old_head}{code.removeprefix(head).removesuffix(family)}{old_base}"
        parsed = code_of("nema", fold(old), 0, known)
        if parsed and [found.id for found in resolve(parsed.facts, known).lamps] == [lamp.id]:
            yield old, head_cost + base_cost


def _base_gone(catalogue: Catalogue, lamp: Lamp) -> Iterator[tuple[str, float]]:
    """Yield codes with their base, or what parts a bent tube's ends, worn off or never printed: CFQ26W, FB32T8."""
    code = format_code(catalogue, lamp.id, "ansi-linear" if lamp.shape == "u-bent" else "nema")
    if code is not None:
        yield code.partition("/")[0], tables()["noise"]["base_gone"]


def _with_key(catalogue: Catalogue, lamp: Lamp) -> Iterator[tuple[str, float]]:
    """Yield the generic code with the key of its base, which many print: CFQ26W/G24q-3."""
    code, base = format_code(catalogue, lamp.id, "nema"), catalogue.base_by_name[lamp.base]
    if code is not None and code.endswith(base.family) and base.family != base.designation:
        yield code.removesuffix(base.family) + base.designation, 0.0


def _with_output(catalogue: Catalogue, lamp: Lamp) -> Iterator[tuple[str, float]]:
    """Yield the code of a tube with its class of output behind the colour, or of a thin tube with any: F54T5/HO."""
    code, output = format_code(catalogue, lamp.id, "ansi-linear"), (lamp.output or thin_output(lamp)).upper()
    if code is None or not output or lamp.kind != "fluorescent":
        return
    plain = code.removesuffix(f"/{output}")
    yield f"{plain}/{output}", 0.0
    for shade in colours():
        yield from ((f"{plain}/{part}", _colour_cost(shade)) for part in (f"{output}/{shade}", f"{shade}/{output}"))


_made: list[tuple[Known, tuple[HouseMaker, ...], Vocabulary]] = []


def vocabulary(known: Known, house: tuple[HouseMaker, ...]) -> Vocabulary:
    """Return the vocabulary of a catalogue and house tables; the last two are kept."""
    for for_known, for_house, made in _made:
        if for_known is known and for_house == house:
            return made
    written = codes_of(known.catalogue, house)
    made = Vocabulary(CodeIndex(written), written, {})
    _made.insert(0, (known, house, made))
    del _made[2:]
    return made
