"""What a stretch of a maker's code can be: every spelling of every slot, whole, worn by one sign, or short of one."""

from __future__ import annotations

from collections import Counter, defaultdict
from functools import cached_property
from itertools import combinations
from math import log
from typing import TYPE_CHECKING, NamedTuple

from counter.marks._caps import base_code, base_means
from counter.marks._colour import colour_code, number_row, part_of_number, whites
from counter.marks._known import known_for
from counter.marks._letters import LettersMean, letters_facts, letters_say
from counter.marks._lex import UNREADABLE, Parsed, Part, fold
from counter.marks._noise import noise
from counter.marks._parts import cct_allowed
from counter.marks._sentences import COLOUR_NUMBER, PINS, WATTS
from counter.marks._systems import word
from counter.marks._tables import tables

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from counter.marks._house import HouseMaker
    from counter.marks._known import Known
    from counter.marks._letters import KnownLetters
    from counter.marks._lex import Facts

_ANY = "\x00"  # stands in a mask for the sign that is worn
_DEAREST_SIGN = 7.0  # a sign taken for one that looks nothing like it is no slot


class Slot(NamedTuple):
    """One spelling of one slot: its parts counted from its first sign, what it states, and what it costs."""

    kind: str
    parts: tuple[Part, ...]
    facts: Facts
    cost: float
    clean: str
    inside: float  # what it costs where a letter touches it
    notes: tuple[str, ...] = ()
    system: str = "partial"
    grammar: str | None = "letters"


class Found(NamedTuple):
    """A slot that can stand at a place, what the signs that differ cost, and what was meant where they do."""

    slot: Slot
    length: int
    wear: float
    meant: str
    lost: int | None = None  # which sign of the spelling was not typed


class Slots:
    """All spellings, and which of them are one sign away from a text."""

    def __init__(self, known: Known, letters: Sequence[KnownLetters]) -> None:
        self.known = known
        self.letters = {fold(one.letters): one for one in letters}
        self._noise = noise()
        self._whole: dict[str, list[Slot]] = defaultdict(list)
        self._masks: dict[str, list[tuple[str, int]]] | None = None
        self._longest_worn = 0
        self._short: dict[str, list[tuple[str, int]]] = {}
        for spelling, slot in (*_shipped(known), *_taught(known, letters)):
            self._whole[spelling].append(slot)
        self.longest = max(map(len, self._whole))

    @cached_property
    def like_signs(self) -> dict[str, float]:
        """Letters and figures that a worn slash looks like, with the cost of taking them for one."""
        return {typed: cost for typed, cost in self._noise.pairs.get("/", {}).items() if typed.isalnum()}

    @property
    def smudge(self) -> float:
        """What a sign that nobody can read costs."""
        return self._noise.smudge

    def uv_letters(self, text: str) -> Found | None:
        """Return what unknown letters state that may speak of ultraviolet; None where they do not."""
        if "UV" not in text.replace(UNREADABLE, "U"):
            return None
        parts = _one("maker", text, tables()["slots"]["uv_means"])
        return Found(Slot("uv letters", parts, {"kind": "uv-c"}, 0.0, text, 0.0), len(text), 0.0, text)

    def at(self, plain: str, at: int) -> Iterator[Found]:
        """Yield the slots that stand at a place as they are spelled."""
        for length in range(1, min(self.longest, len(plain) - at) + 1):
            text = plain[at : at + length]
            for slot in self._whole.get(text, ()):
                yield Found(slot, length, 0.0, text)

    def worn_at(self, plain: str, at: int) -> Iterator[Found]:
        """Yield the slots that stand at a place with one sign worn or gone."""
        if self._masks is None:
            self._masks = self._make_masks()
        begins = at == 0 or not plain[at - 1].isalnum()
        for length in range(2, min(self._longest_worn, len(plain) - at) + 1):
            text = plain[at : at + length]
            yield from self._worn(text)
            if begins and length > 3 and not text.isdigit() and not plain[at + length : at + length + 1].isalnum():
                yield from self._worn_twice(text)
            for meant, gone in self._short.get(text, ()):
                for slot in self._whole[meant]:
                    yield Found(slot, length, self._noise.lost(meant[gone]), meant, gone)

    def _worn(self, text: str) -> Iterator[Found]:
        assert self._masks is not None
        for place, typed in enumerate(text):
            for meant, _ in self._masks.get(text[:place] + _ANY + text[place + 1 :], ()):
                cost = self._noise.taken(meant[place])[typed]
                if 0 < cost < _DEAREST_SIGN:
                    for slot in self._whole[meant]:
                        yield Found(slot, len(text), cost, meant)

    def _worn_twice(self, text: str) -> Iterator[Found]:
        """Yield the bases that a word can be with two signs worn."""
        for first, second in combinations(range(len(text)), 2):
            for meant in self._masks_of_bases.get(_masked(text, first, second), ()):
                costs = [self._noise.taken(meant[place])[text[place]] for place in (first, second)]
                if min(costs) > 0 and max(costs) < _DEAREST_SIGN:
                    for slot in self._whole[meant]:
                        yield Found(slot, len(text), sum(costs), meant)

    @cached_property
    def _masks_of_bases(self) -> dict[str, list[str]]:
        masks: dict[str, list[str]] = defaultdict(list)
        for text, slots in self._whole.items():
            if len(text) > 3 and any(slot.kind == "base" for slot in slots):
                for first, second in combinations(range(len(text)), 2):
                    masks[_masked(text, first, second)].append(text)
        return dict(masks)

    def _make_masks(self) -> dict[str, list[tuple[str, int]]]:
        masks: dict[str, list[tuple[str, int]]] = defaultdict(list)
        short: dict[str, list[tuple[str, int]]] = defaultdict(list)
        for text in self._whole:
            if len(text) < 2 or not _may_wear(self._whole[text]):
                continue
            for place in range(len(text)):
                masks[text[:place] + _ANY + text[place + 1 :]].append((text, place))
                rest = text[:place] + text[place + 1 :]
                if len(text) > 2 and rest + "W" != text and (place == 0 or text[place] != text[place - 1]):
                    short[rest].append((text, place))
        self._short, self._longest_worn = dict(short), max(map(len, masks), default=0)
        return dict(masks)


def _masked(text: str, first: int, second: int) -> str:
    return text[:first] + _ANY + text[first + 1 : second] + _ANY + text[second + 1 :]


def _may_wear(slots: Iterable[Slot]) -> bool:
    return any(slot.kind in ("watts", "bare watts", "colour", "kelvin", "base", "head", "taught") for slot in slots)


def _costs() -> dict[str, float]:
    costs: dict[str, float] = tables()["slots"]["costs"]
    return costs


def _one(part: str, text: str, means: str) -> tuple[Part, ...]:
    return (Part(0, len(text), part, means),)


def _shipped(known: Known) -> Iterator[tuple[str, Slot]]:
    yield from _heads(known)
    yield from _watts(known)
    yield from _colours()
    yield from _bases(known)
    yield from _words(known)
    yield from _figures()
    inside = _costs()["inside_letters"]
    for row in tables()["slots"]["letters"]:
        parts = _one(row["part"], row["letters"], row["means"])
        touching = _costs()["touching_hint"] if row["part"] == "ballast" else inside
        yield row["letters"], Slot("letters", parts, row["facts"], row["cost"], row["letters"], touching)


def _heads(known: Known) -> Iterator[tuple[str, Slot]]:
    cost, touching = _costs()["head"], _costs()["head_before_letters"]
    for row in tables()["slots"]["heads"]:
        parts = _one("kind", row["letters"], row["means"])
        found = word(row["letters"], 0, known)
        kept: Facts = {"shapes": found.facts["shapes"]} if found and "shapes" in found.facts else {}
        yield row["letters"], Slot("head", parts, kept, cost, row["letters"], touching)
    for prefix in tables()["nema"]["prefixes"]:
        for letters in (prefix["letters"] + shape for shape in prefix["shapes"]):
            if found := word(letters, 0, known):
                yield letters, Slot("head", found.parts, found.facts, cost, found.canonical, touching)
    germicidal = next(row for row in tables()["linear"]["heads"] if row["kind"] == "uv-c")
    parts = _one("kind", germicidal["letters"], germicidal["means"])
    yield germicidal["letters"], Slot("head", parts, {"kind": "uv-c"}, cost + 1, germicidal["letters"], 99.0)


def _watts(known: Known) -> Iterator[tuple[str, Slot]]:
    costs = _costs()
    types = Counter(lamp.watts.value for lamp in known.catalogue.lamps)
    most = max(types.values(), default=1)
    for watts in known.catalogue.watts:
        text = f"{watts:g}"
        seldom = costs["seldom_watts"] * log(most / types[watts])
        sure: Facts = {"watts": watts}
        bare: Facts = {"number": watts}
        parts = _one("watts", f"{text}W", WATTS.format(n=text))
        slot = Slot("watts", parts, sure, costs["watts"] + seldom, f"{text}W", 1.5)
        yield f"{text}W", slot
        yield f"{text} W", slot._replace(parts=_one("watts", f"{text} W", WATTS.format(n=text)))
        means = tables()["slots"]["watts_means"].format(n=text)
        cost = costs["bare_watts"] + seldom
        yield text, Slot("bare watts", _one("watts or inches", text, means), bare, cost, text, 0.0)
    by_inches = {lamp.inches for lamp in known.catalogue.lamps if lamp.inches}
    for inches in sorted(by_inches.difference(known.catalogue.watts)):
        text = f"{inches:g}"
        means = tables()["slots"]["watts_means"].format(n=text)
        yield text, Slot("bare watts", _one("watts or inches", text, means), {"number": inches}, 1.5, text, 0.0)


def _colours() -> Iterator[tuple[str, Slot]]:
    costs, table = _costs(), tables()["slots"]
    common = tables()["colour"]["common"]
    digits = dict.fromkeys((*common, *table["rare"]))
    digits |= {f"{cri}{cct:02}": None for cri in "56789" for cct in range(18, 96) if cct_allowed(cct * 100)}
    for text in digits:
        yield from _read_colour(text, "colour", costs["colour"] + _seldom(text), 0.8)
        if text in common:
            yield from _read_colour(f"RE{text}", "colour", costs["colour"] + _seldom(text), costs["inside_letters"])
    for cct_k in table["kelvins"]:
        facts: Facts = {"cct_k": cct_k, "kind": "fluorescent"}
        seldom = _seldom(f"8{cct_k // 100}")
        yield from _read_colour(f"{cct_k}K", "kelvin", costs["kelvin"] + seldom, costs["inside_letters"])
        parts = _read(f"{cct_k}K").parts
        for text, cost in ((f"{cct_k // 100}K", costs["kelvin"]), (str(cct_k), costs["colour_two_figures"])):
            means = _one("colour", text, parts[0].means)
            yield text, Slot("kelvin", means, facts, cost + seldom, text, costs["inside_letters"])
    for row in tables()["colour"]["letters"]:
        cost = costs["older_letters" if len(row["letters"]) > 1 else "older_letter"]
        yield from _read_colour(row["letters"], "older", cost, 99.0)


def _seldom(digits: str) -> float:
    """Return what it costs that a colour is seldom printed: 827 to 865 are on nearly every lamp, 846 on none."""
    costs, common = _costs(), tables()["colour"]["common"]
    if digits in common:
        return 0.0 if digits[0] == "8" else costs["seldom_colour"]
    return costs["rare_colour" if int(digits[1:]) * 100 in whites() else "unheard_colour"]


def _read(text: str) -> Parsed:
    found = colour_code(text, 0)
    assert found is not None, text
    return found


def _read_colour(text: str, kind: str, cost: float, inside: float) -> Iterator[tuple[str, Slot]]:
    found = _read(text)
    yield text, Slot(kind, found.parts, found.facts, cost, text, inside)


def _bases(known: Known) -> Iterator[tuple[str, Slot]]:
    cost = _costs()["base"]
    screws = dict.fromkeys(tables()["slots"]["screws"], "screw")
    for spelling, kind in (dict.fromkeys(known.spellings, "base") | screws).items():
        found = base_code(spelling, 0, known)
        if found is not None and found.end == len(spelling):
            parts = _one("base", spelling, base_means(found.facts["base"], found.parts))
            yield spelling, Slot(kind, parts, found.facts, cost, found.canonical, 99.0, found.notes)


def _words(known: Known) -> Iterator[tuple[str, Slot]]:
    """Yield words of shorthand that are no number: counts of pins, tubes, shapes, industry letters."""
    costs = _costs()
    texts = [fold(text) for row in tables()["words"] for text in row["words"]]
    texts += [row["letters"] for row in tables()["lbs"]["rows"]]
    texts += [f"T{eighths}" for eighths in tables()["linear"]["eighths_mm"]]
    letters = {row["letters"] for row in tables()["slots"]["letters"]}
    for text in (text for text in texts if text not in letters):
        found = word(text, 0, known)
        if found is not None and found.end == len(text):
            is_tube = set(found.facts) == {"tube_mm"}  # KT5 may be T5 behind a maker's K
            touching = costs["inside_letters"] if is_tube else 99.0
            yield text, Slot("word", found.parts, found.facts, costs["word"], found.canonical, touching, found.notes)
    for count in "24":
        for text in (f"{count}P", f"{count}PIN", f"{count}-PIN", f"{count} PIN", f"{count}PINS"):
            facts: Facts = {"pins": int(count)}
            yield text, Slot("pins", _one("pins", text, PINS.format(n=count)), facts, costs["pins"], text, 99.0)


def _figures() -> Iterator[tuple[str, Slot]]:
    """Yield what figures alone can be: a colour, pins, a key, a number of ultraviolet lamps."""
    costs, table = _costs(), tables()["slots"]
    for shade in table["two_figures"]:
        text, facts = str(shade), {"cct_k": shade * 100, "kind": "fluorescent"}
        parts = _one("colour", text, _read(f"{shade * 100}K").parts[0].means)
        cost = costs["colour_two_figures"] + _seldom(f"8{text}")
        yield text, Slot("two figures", parts, facts, cost, text, 0.0)  # type: ignore[arg-type]
    yield from _list_numbers()
    for count in "24":
        parts = _one("pins", count, PINS.format(n=count))
        yield count, Slot("bare pins", parts, {"pins": int(count)}, costs["bare_pins"], count, 99.0)
    for key in "123456":
        parts = _one("key", key, table["key_means"].format(n=key))
        yield key, Slot("key", parts, {"key": key}, costs["key"], key, 99.0)


def _list_numbers() -> Iterator[tuple[str, Slot]]:
    """Yield the numbers of the older lists, behind the watts; those surely of ultraviolet may stand anywhere."""
    costs = _costs()
    for text in (f"{number:02}" for number in range(100)):
        row = number_row(text)
        parts = _one(part_of_number(row), text, COLOUR_NUMBER.format(n=text, what=row["means"]))
        facts: Facts = {key: row[key] for key in ("kind", "band", "cct_k") if key in row}  # type: ignore[assignment]
        is_uv = row.get("kind") in ("uv-a", "other") and row["confidence"] == "memory-high"
        cost = costs["uv_number" if text[0] == "0" else "uv_ten"] if is_uv else costs["colour_two_figures"]
        yield text, Slot("uv number" if is_uv else "list number", parts, facts, cost, text, 99.0)


def _taught(known: Known, letters: Sequence[KnownLetters]) -> Iterator[tuple[str, Slot]]:
    costs, table = _costs(), tables()["slots"]
    for one in letters:
        text, said = fold(one.letters), letters_say(one.means)
        means = table["taught_means"].format(means=said) if said else table["nothing_means"]
        facts = letters_facts(one.means, known)
        slot = Slot("taught", _one("letters", text, means), facts, costs["taught"], text, costs["taught_inside"])
        yield text, slot
        if "base" in facts and len(facts) > 1:  # the base of the lamp in hand; other watts of the form have another
            rest = LettersMean.model_validate(one.means.model_dump(exclude={"base"}))
            means = table["taught_means"].format(means=letters_say(rest))
            other = slot._replace(parts=_one("letters", text, means), facts=letters_facts(rest, known))
            yield text, other._replace(cost=costs["taught_other_base"])


_made: list[tuple[Known, tuple[KnownLetters, ...], Slots]] = []


def slots_for(known: Known, house: Sequence[HouseMaker]) -> Slots:
    """Return the slots of a catalogue and a shop's letters; the last two are kept."""
    letters = tuple(one for maker in house for one in maker.letters)
    for for_known, for_letters, made in _made:
        if for_known is known and for_letters == letters:
            return made
    made = Slots(known_for(known.catalogue), letters)
    _made.insert(0, (known, letters, made))
    del _made[2:]
    return made
