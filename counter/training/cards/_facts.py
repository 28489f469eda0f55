"""What can be seen of a lamp, as far as the catalogue is sure of it, and how close families look."""

from __future__ import annotations

from functools import cached_property
from math import prod, sqrt
from operator import mul
from typing import TYPE_CHECKING, Any, NamedTuple, TypeAlias, TypeVar

from counter.catalogue import TRUST, Catalogue, Circuit, Lamp, Sourced, notch_look
from counter.desk import assess
from counter.identify import word_chances
from counter.language import SpokenNumber, current, marked, tr

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from counter.catalogue import Figure
    from counter.desk import Assessment, Case
    from counter.marks import HouseMaker
    from counter.training._models import Card, CardKind, Point

House: TypeAlias = "tuple[HouseMaker, ...]"
SURE = TRUST["memory-medium"]  # what is trusted less never decides a card by itself
REMEMBERED = 1000  # entries of a memory; a card or an assessment takes some kilobytes
MAKERS: CardKind = "makers-code"
PRINT = "watts"  # not seen in a drawing: said beside it where the drawing alone cannot decide


class Fact(NamedTuple):
    """One thing seen on a lamp; for a size `value` says between what, and `low` and `high` are millimetres."""

    look: str
    value: str
    words: str
    low: float = 0.0
    high: float = 0.0

    def differs(self, other: Fact) -> bool:
        """Whether one lamp could not show both; sizes of different things are not compared."""
        if self.high:
            return self.value == other.value and (self.high < other.low or other.high < self.low)
        return self.value != other.value


class Setting(NamedTuple):
    """One lamp (its id) and one fixture, told as a case; `instead` is the LED type asked for in the lamp's place."""

    scenario: str
    lamp: str
    case: Case
    instead: str | None = None


class Lore:
    """What the makers of cards ask of one catalogue again and again, worked out once."""

    def __init__(self, catalogue: Catalogue, house: House = ()) -> None:
        """Take the catalogue, and what this shop knows of makers' codes; nothing is worked out yet."""
        self.catalogue = catalogue
        self.house = house
        self.points: dict[str, tuple[Point, ...]] = {}  # by kind, as they are first asked for
        self.dressed: dict[tuple[str, int], Card | None] = {}  # by point and variant
        # by rule of caution and the family to begin with: the cards made so far, and what makes more
        self.lessons: dict[tuple[str, str], tuple[list[Card], Iterator[Card]]] = {}
        self.settings: dict[str, tuple[Setting, ...]] = {}  # by base family: the cases asked about it
        self._assessed: dict[tuple[bool, str], Assessment] = {}  # by whether only sure figures count, and the case
        self._facts: dict[str, Mapping[str, Fact]] = {}
        self._alike: dict[str, tuple[str, ...]] = {}

    @cached_property
    def lamps_of(self) -> Mapping[str, tuple[Lamp, ...]]:
        """Lamp types by base family, in catalogue order."""
        found: dict[str, list[Lamp]] = {base.family: [] for base in self.catalogue.bases}
        for lamp in self.catalogue.lamps:
            found[self.catalogue.base_of(lamp).family].append(lamp)
        return {family: tuple(lamps) for family, lamps in found.items() if lamps}

    def assessed(self, case: Case) -> Assessment:
        """Return what the counter answers to a case, remembered: the makers come back to the same cases."""
        return self._remembered(case, is_sure=False)

    def assured(self, case: Case) -> Assessment:
        """Return what the counter would answer if it knew nothing that it is unsure of."""
        return self._remembered(case, is_sure=True)

    def known_here(self, case: Case, *, is_sure: bool = False) -> Assessment:
        """Return what the counter answers with all that this shop knows of makers' codes."""
        return assess(self.sure if is_sure else self.catalogue, case, self.house)

    def tell(self, house: House) -> None:
        """Take what this shop knows of makers' codes now: cards on them are made anew."""
        self.house = house
        self.points.pop(MAKERS, None)
        for key in [one for one in self.dressed if one[0].startswith(f"{MAKERS}/")]:
            del self.dressed[key]

    def _remembered(self, case: Case, *, is_sure: bool) -> Assessment:
        key = (is_sure, case.model_dump_json())
        if key not in self._assessed:
            make_room(self._assessed)
            self._assessed[key] = assess(self.sure if is_sure else self.catalogue, case)
        return self._assessed[key]

    @cached_property
    def chances(self) -> Mapping[str, Mapping[str, Mapping[str, float]]]:
        """By word look and lamp id: the chance of each answer."""
        looks = [look.key for look in self.catalogue.looks if not look.is_measured]
        return {key: word_chances(self.catalogue, key) for key in looks}

    @cached_property
    def sure(self) -> Catalogue:
        """The catalogue without the figures of its lamp types that it is unsure of; what cannot be absent stays."""
        fields = {name: getattr(self.catalogue, name) for name in Catalogue.model_fields}
        fields["lamps"] = tuple(_without_unsure(lamp) for lamp in self.catalogue.lamps)
        return Catalogue.model_construct(**fields)  # a copy would carry cached look-ups of unsure lamps along

    def facts(self, lamp: Lamp) -> Mapping[str, Fact]:
        """Return what can be seen of the lamp and the catalogue is sure of, by look."""
        if lamp.id not in self._facts:
            self._facts[lamp.id] = {fact.look: fact for fact in _facts_of(self.catalogue, lamp)}
        return self._facts[lamp.id]

    def differences(self, one: Lamp, other: Lamp, leave_out: str = "") -> Iterator[Fact]:
        """Yield the sure facts of `one` that `other` surely does not have."""
        theirs = self.facts(other)
        yield from (
            fact
            for look, fact in self.facts(one).items()
            if look != leave_out and look in theirs and fact.differs(theirs[look])
        )

    def is_told_from(self, lamp: Lamp, family: str, leave_out: str = "") -> bool:
        """Whether sure facts tell the lamp from every lamp type of a family."""
        return all(any(self.differences(lamp, other, leave_out)) for other in self.lamps_of[family])

    @cached_property
    def _roots(self) -> dict[str, list[tuple[float, ...]]]:
        """By family, for each look: the roots of the mean chances of its answers over the family's lamp types."""
        return {
            family: [_mean_roots([by_lamp[lamp.id] for lamp in lamps]) for by_lamp in self.chances.values()]
            for family, lamps in self.lamps_of.items()
        }

    def closeness(self, one: str, other: str) -> float:
        """Return how alike two families look, 0 to 1, in the identify model.

        The coefficient of A. Bhattacharyya (Bulletin of the Calcutta Mathematical Society 35, 1943), the sum over
        all answers of the root of both chances, multiplied over the looks answered by a word.
        """
        pairs = zip(self._roots[one], self._roots[other], strict=True)
        return prod(_sumprod(ours, theirs) for ours, theirs in pairs)

    def alike(self, family: str) -> tuple[str, ...]:
        """Return all other families, the closest first."""
        if family not in self._alike:
            others = [other for other in self.lamps_of if other != family]
            self._alike[family] = tuple(sorted(others, key=lambda other: (-self.closeness(family, other), other)))
        return self._alike[family]


_last: list[Lore] = []
_here: list[House] = [()]  # what this shop knows of makers' codes
_spoken: list[str] = []  # cards are kept in words, and so in one language


def lore(catalogue: Catalogue) -> Lore:
    """Return what is known of a catalogue, remembered until another catalogue or language is asked for."""
    if not _last or _last[0].catalogue is not catalogue or _spoken != [current()]:
        _last[:], _spoken[:] = [Lore(catalogue, _here[0])], [current()]
    if _last[0].house is not _here[0]:
        _last[0].tell(_here[0])
    return _last[0]


def know_makers(house: House) -> None:
    """Let cards on makers' codes ask about what this shop knows of them, from now on."""
    _here[0] = house


def known_here(catalogue: Catalogue, case: Case) -> Assessment:
    """Return what the counter answers with all that this shop knows of makers' codes."""
    return lore(catalogue).known_here(case)


def make_room(memory: dict[Any, Any]) -> None:
    """Forget everything when too much is remembered, which few runs ever reach."""
    if len(memory) >= REMEMBERED:
        memory.clear()


def _sumprod(ones: tuple[float, ...], others: tuple[float, ...]) -> float:
    """Return the sum of products; math has it from Python 3.12 on."""
    return sum(map(mul, ones, others), 0.0)


def _mean_roots(rows: list[Mapping[str, float]]) -> tuple[float, ...]:
    columns = zip(*(row.values() for row in rows), strict=True)
    return tuple(sqrt(sum(column) / len(rows)) for column in columns)


def _is_sure(told: Sourced) -> bool:
    return TRUST[told.confidence] >= SURE


_Held = TypeVar("_Held", Lamp, Circuit)


def _without_unsure(held: _Held) -> _Held:
    """Return a lamp type or circuit with every unsure figure that may be absent taken out."""
    change: dict[str, object] = {}
    for name, field in type(held).model_fields.items():
        value = getattr(held, name)
        if isinstance(value, Sourced) and not field.is_required() and not _is_sure(value):
            change[name] = None
        elif isinstance(value, Circuit):
            change[name] = _without_unsure(value)
    return held.model_copy(update=change)


def _facts_of(catalogue: Catalogue, lamp: Lamp) -> Iterator[Fact]:
    base = catalogue.base_of(lamp)
    legs = catalogue.legs_by_shape.get(lamp.shape or "none") or str(lamp.legs)
    yield _word(catalogue, "legs", legs)  # the shape makes the lamp type that type: it carries no confidence
    if _is_sure(base.pins):
        yield _word(catalogue, "pins", f"{base.pins.value:g}")
    for look, word in (("arrangement", base.arrangement), ("block", base.block)):
        if word is not None and _is_sure(word):
            yield _word(catalogue, look, word.value)
    if base.face.notches is not None and _is_sure(base.face.notches):
        notch = _word(catalogue, "notch", notch_look(base.face.notches.at))
        yield notch._replace(words=tr("notches: {notches}").format(notches=notch.words))
    yield from _spacing(base.pin_spacing_mm, base.spacing_means or marked("between the pins"))
    if _is_sure(lamp.watts):
        yield Fact(
            PRINT,
            f"{lamp.watts.value:g}",
            tr("the print says {watts:g} W").format(watts=SpokenNumber(lamp.watts.value)),
        )


def _spacing(figure: Figure | None, means: str) -> Iterator[Fact]:
    if figure is not None and _is_sure(figure):
        reach = figure.plus_minus or 1.0
        words = f"{SpokenNumber(figure.value):g} mm {tr(means)}"
        yield Fact("pin_spacing_mm", means, words, figure.value - reach, figure.value + reach)


def _word(catalogue: Catalogue, look: str, value: str) -> Fact:
    labels = {one.value: one.label for one in catalogue.look_by_key[look].values}
    return Fact(look, value, tr(labels.get(value, value)))
