"""What looks and marks together say of the lamp, as answers: which lamp, which colour, how likely a UV one.

What looks and marks say is weighed once and kept, since most of what a clerk changes next is in the fixture.
"""

from __future__ import annotations

import weakref
from functools import cached_property
from typing import TYPE_CHECKING, NamedTuple, TypeAlias

from counter import fit, identify, marks, words
from counter.desk._case import CANNOT_TELL
from counter.desk._lead import Leading, leading, read_lamps
from counter.desk._sold import NOTHING_SOLD, SoldCode, sold_as, weighed_by_sold
from counter.language import current
from counter.marks import MarkEvidence
from counter.thresholds import COLOUR_AT, LEADING, NAMED_AT, OTHER_HOLDER, SETTLED_AT

if TYPE_CHECKING:
    from collections.abc import Collection, Iterable, Mapping, Sequence

    from counter.catalogue import Catalogue, Kind, Lamp
    from counter.desk._case import Case
    from counter.desk._sold import SoldCodes
    from counter.identify import Candidate, NextLook
    from counter.marks import HouseMaker, KnownLetters, Reading

MOST_KEPT = 16  # as far as a clerk goes back and forth with undo
READ_ONE_WAY = 0.9  # probability from which a reading of the marks answers looks
COATED_UV: tuple[Kind, ...] = ("uv-a", "other")  # white glass says nothing against these

House: TypeAlias = "tuple[HouseMaker, ...]"
# Looks, marks, the id of the house tables, the language, since meanings are kept in words, what was sold, the holder.
Key = tuple[tuple[tuple[str, str | float], ...], str, int, str, tuple[SoldCode, ...], str]


class Weighed(NamedTuple):
    """The candidates, the readings of the marks, and the looks still worth taking."""

    marks: MarkEvidence
    candidates: tuple[Candidate, ...]
    readings: tuple[Reading, ...]
    next: tuple[NextLook, ...]
    house: House  # held here, so that its id in the key names no other
    lead: Leading
    by_looks: tuple[Candidate, ...]  # what the looks say alone
    sold: tuple[SoldCode, ...]  # what the code was sold as here, where that leads


class Evidence:
    """What is known of the lamp of one case; every answer is worked out once, when it is first asked for."""

    def __init__(self, catalogue: Catalogue, case: Case, weighed: Weighed, before: tuple[SoldCode, ...] = ()) -> None:
        self.catalogue = catalogue
        self.case = case
        self.before = before
        self.marks = weighed.marks
        self.candidates = weighed.candidates
        self.readings = weighed.readings
        self.next = weighed.next
        self.by_looks = weighed.by_looks
        self.house = weighed.house
        self.sold = weighed.sold
        self._lead = weighed.lead

    @cached_property
    def nothing_known(self) -> bool:
        """Whether no look and no mark says anything of the lamp."""
        no_looks = all(value == CANNOT_TELL for value in self.case.looks.values())
        return no_looks and not self.marks.likelihood and self.chosen is None and not self.sold

    @property
    def lead(self) -> Leading | None:
        """What leads among the candidates, once anything is known."""
        return None if self.nothing_known else self._lead

    @property
    def reading(self) -> Reading | None:
        """The best reading of the marks."""
        return self.readings[0] if self.readings else None

    @property
    def printed_mm(self) -> float | None:
        """The lamp's length in mm where its marks print one."""
        return self.reading.lamp.length_mm if self.reading is not None else None

    @cached_property
    def foreign_base(self) -> str:
        """Return the base that the marks spell out and the catalogue does not have, else ""."""
        bases = self.catalogue.bases
        known = {name for base in bases for name in (base.designation, base.family)}
        named = next((one for one in self.readings if one.lamp.base and not one.assumptions), None)
        return named.lamp.base or "" if named is not None and named.lamp.base not in known else ""

    @cached_property
    def led(self) -> Reading | None:
        """The reading of the marks that says LED, while nobody has said which lamp it is."""
        is_led = self.reading is not None and self.reading.lamp.kind == "led" and not self.reading.lamps
        return self.reading if is_led and self.chosen is None else None

    @cached_property
    def lamp(self) -> Lamp | None:
        """The lamp type that is named: the one chosen, as far as its watts are known, else the likeliest by far."""
        if self.chosen is not None:
            return self._chosen(self.chosen)
        if self.nothing_known or self.candidates[0].probability < NAMED_AT:
            return None
        return self.catalogue.lamp_by_id[self.candidates[0].lamp]

    @property
    def chosen(self) -> Lamp | None:
        """The lamp type whose outline the clerk says it is; None too for an id that no lamp has."""
        return self.catalogue.lamp_by_id.get(self.case.chosen or "")

    def _chosen(self, chosen: Lamp) -> Lamp | None:
        """Return the lamp type that a choice names: to say which base it is does not say how many watts."""
        alike = [one for one in self.in_question if (one.base, one.kind) == (chosen.base, chosen.kind)]
        watts = {one.watts.value for one in alike}
        if len(watts) < 2 or self._watts_known or self.against(chosen):
            return chosen
        shares = {one.id: self.chance(one) for one in alike}
        likely = max(alike, key=lambda one: shares[one.id])
        return likely if shares[likely.id] >= SETTLED_AT * sum(shares.values()) else None

    @property
    def _watts_known(self) -> bool:
        is_seen = self.case.looks.get("watts", CANNOT_TELL) != CANNOT_TELL
        return is_seen or (self.reading is not None and self.reading.lamp.watts is not None)

    @cached_property
    def in_question(self) -> tuple[Lamp, ...]:
        """The lamp types that it can be, likeliest first; of a chosen outline those of its base and kind."""
        lamps = [self.catalogue.lamp_by_id[one.lamp] for one in self.candidates]
        if (chosen := self.chosen) is None:
            return tuple(lamps)
        same = (one for one in lamps if (one.base, one.kind) == (chosen.base, chosen.kind))
        return tuple(one for one in same if not one.is_saver or one.id == chosen.id)  # a saver says so in print

    @cached_property
    def shares_in_question(self) -> dict[str, float]:
        """How likely each lamp type in question is, by id; they sum to 1."""
        found = {one.id: self.chances.get(one.id, 0.0) for one in self.in_question}
        total = sum(found.values()) or 1.0
        return {one: share / total for one, share in found.items()}

    @cached_property
    def shown(self) -> Lamp | None:
        """The lamp named, or the nearest to it once anything is known."""
        if self.presumed is not None or self.lead is None:
            return self.presumed
        return self.catalogue.lamp_by_id[self.lead.candidate.lamp]

    @property
    def presumed(self) -> Lamp | None:
        """The lamp named, or while the watts of a chosen base are open the likeliest of that base."""
        return self.lamp or (self.in_question[0] if self.chosen is not None else None)

    @cached_property
    def cct_k(self) -> int | None:
        """The colour that the marks give, in kelvins, where the likely readings agree on it."""
        cct_k = self.reading.read_cct_k if self.reading is not None else None
        if cct_k is None:
            return None
        agreed = sum(one.probability for one in self.readings if one.lamp.cct_k == cct_k)
        return cct_k if agreed >= COLOUR_AT * sum(one.probability for one in self.readings) else None

    @property
    def glass(self) -> str:
        """What was seen of the glass: white, clear, dark, or cannot-tell."""
        return str(self.case.looks.get("glass", CANNOT_TELL))

    @cached_property
    def is_white(self) -> bool:
        """Whether white glass was seen and no marks say otherwise: that rules UV-C out, and no other UV."""
        said = marks.says(self.reading).get("glass") if self.reading is not None else None
        return self.glass == "white" and said in (None, "white")

    @cached_property
    def says_germicidal(self) -> bool:
        """Whether the marks themselves speak of UV-C."""
        return bool(self.words_of_uvc) or (self.reading is not None and self.reading.lamp.kind == "uv-c")

    @cached_property
    def words_of_uvc(self) -> str:
        """The first words of the marks that speak of UV-C."""
        return words.speaks_of("uv-c", self.case.marks, of_lamp=True)

    @cached_property
    def printed(self) -> Mapping[str, str]:
        """What the print says that the lamp from the shelf must be too: the words, by what they speak of."""
        said: dict[str, str] = {
            topic: told for topic in words.PRINTED if (told := words.speaks_of(topic, self.case.marks, of_lamp=True))
        }
        spans = (span for one in self.readings if one.probability >= LEADING for span in one.spans)
        for span in spans:
            if span.part in marks.PRINTED:
                said.setdefault(span.part, span.text)
        if "newborn" in said:
            said.pop("coloured", None)
        return said

    @cached_property
    def _by_id(self) -> Mapping[str, Candidate]:
        return {one.lamp: one for one in self.candidates}

    @cached_property
    def chances(self) -> Mapping[str, float]:
        """How likely each lamp type is, by id."""
        return {one.lamp: one.probability for one in self.candidates}

    def chance(self, lamp: Lamp) -> float:
        """Return how likely a lamp type is."""
        return self.chances.get(lamp.id, 0.0)

    def names_base(self, base: str) -> bool:
        """Whether a base can be named without a question mark: it is printed, or likely enough."""
        if self.reading is not None and self.reading.lamp.bases == (base,):
            return True
        return sum([one.probability for one in self.candidates if one.base == base]) >= SETTLED_AT

    def against(self, lamp: Lamp) -> tuple[str, ...]:
        """Return the looks, and "marks", that speak against a lamp; choosing it does not silence them."""
        found = self._by_id.get(lamp.id)
        return found.disagrees if found is not None else ()

    def uv_share(self, lamp: Lamp) -> float:
        """Return how likely the germicidal look-alikes are against the lamp itself."""
        return self._share(lamp, ("uv-c",))

    def coated_uv_share(self, lamp: Lamp) -> float:
        """Return how likely the UV lamps that look white are against the lamp itself."""
        return self._share(lamp, COATED_UV)

    def told_share(self, lamp: Lamp) -> float:
        """Return how likely a lamp type of its kind is by looks and marks alone, however often each is met."""
        before = self.catalogue.prevalence
        alike = [one for one in self.candidates if one.kind == lamp.kind]
        told = {one.lamp: one.probability / before.get(one.lamp, 1.0) for one in alike}
        total = sum(told.values())
        return told.get(lamp.id, 0.0) / total if total > 0 else 0.0

    def _share(self, lamp: Lamp, kinds: Iterable[Kind]) -> float:
        twins = sum([one.probability for one in self.candidates if one.kind in kinds and one.base == lamp.base])
        own = self.chance(lamp)
        return twins / (twins + own) if twins + own > 0 else 0.0

    def strongest_uvc(self, base: str) -> Lamp | None:
        """Return the germicidal lamp of a base that harms first, of those that it can well be."""
        found = [one for one in self.candidates if one.kind == "uv-c" and one.base == base]
        likely = [one for one in found if one.probability >= found[0].probability / 10]
        return fit.soonest_to_harm([self.catalogue.lamp_by_id[one.lamp] for one in likely])


_kept: dict[int, dict[Key, Weighed]] = {}  # by id: a catalogue is frozen and cannot be hashed


def evidence_of(catalogue: Catalogue, case: Case, house: House = (), sold: SoldCodes = NOTHING_SOLD) -> Evidence:
    """Return what looks and marks of a case say.

    `house` holds the shop's own tables of makers' codes, `sold` what codes were sold as here; that leads nothing yet.
    """
    weighed = weighed_of(catalogue, case.looks, case.marks, _without(house, case.explained), (), _burned_in(case))
    return Evidence(catalogue, case, weighed, sold_as(catalogue, weighed.marks, sold))


def led(seen: Evidence) -> Evidence:
    """Return the evidence with the lamp first that this very code was sold as here."""
    case = seen.case
    weighed = weighed_of(seen.catalogue, case.looks, case.marks, seen.house, seen.before, _burned_in(case))
    return Evidence(seen.catalogue, seen.case, weighed, seen.before)


def _without(house: House, explained: tuple[str, ...]) -> House:
    """Leave letters out that somebody said mean nothing on this lamp; without such the tables stay as they are.

    Letters that mean ultraviolet here are not passed over.
    """
    read = words.plains(explained)
    if not any(_is_passed_over(one, read) for maker in house for one in maker.letters):
        return house
    return tuple(
        maker.model_copy(update={"letters": tuple(one for one in maker.letters if not _is_passed_over(one, read))})
        for maker in house
    )


def _is_passed_over(row: KnownLetters, read: Collection[str]) -> bool:
    return words.fold(row.letters).plain in read and row.means.kind not in ("uv-a", "uv-c")


def weighed_of(
    catalogue: Catalogue,
    looks: Mapping[str, str | float],
    text: str,
    house: House = (),
    sold: tuple[SoldCode, ...] = (),
    holder: str = "",
) -> Weighed:
    """Return what looks and marks say, kept; `holder` is the mark of the one that the lamp burned in.

    The looks weigh the readings of the marks and the marks weigh the candidates; both come from the one posterior
    over lamp types.
    """
    kept = _kept_of(catalogue)
    key = (tuple(looks.items()), text, id(house), current(), sold, holder)
    if key not in kept:
        while len(kept) >= MOST_KEPT:
            kept.pop(next(iter(kept)))
        same = next((one for old, one in kept.items() if old[:4] == key[:4]), None)
        alone = next((one.by_looks for old, one in kept.items() if old[0] == key[0]), None)
        said = same.marks if same else _read(catalogue, text, house)
        by_looks = alone or identify.rank(catalogue, looks)
        kept[key] = _weigh(catalogue, looks, said, house, by_looks, sold, _prior(catalogue, holder))
    return kept[key]


def _burned_in(case: Case) -> str:
    """Return the mark of the holder that the lamp came out of, where it burned there until it wore out, else ""."""
    return case.fixture.holder or "" if case.fixture.came_out else ""


def _prior(catalogue: Catalogue, holder: str) -> Mapping[str, float] | None:
    """Return how often each lamp type is met that burned in a holder; None where that tells nothing."""
    going = fit.bases_that_go_in(catalogue, holder) if holder else frozenset()
    if not going:
        return None
    met = catalogue.prevalence
    return {one.id: met.get(one.id, 1.0) * (1 if one.base in going else OTHER_HOLDER) for one in catalogue.lamps}


def _read(catalogue: Catalogue, text: str, house: House) -> MarkEvidence:
    return marks.in_words(marks.read(catalogue, text, house)) if text.strip() else MarkEvidence(text=text)


def _kept_of(catalogue: Catalogue) -> dict[Key, Weighed]:
    if id(catalogue) not in _kept:
        _kept[id(catalogue)] = {}
        weakref.finalize(catalogue, _kept.pop, id(catalogue), None)
    return _kept[id(catalogue)]


def _told(readings: Sequence[Reading]) -> frozenset[str]:
    """Return the looks that the marks answer, where they read one way: nobody is sent to count what is printed."""
    if not readings or readings[0].probability < READ_ONE_WAY:
        return frozenset()
    return frozenset(readings[0].looks)


def _weigh(
    catalogue: Catalogue,
    looks: Mapping[str, str | float],
    said: MarkEvidence,
    house: House,
    by_looks: tuple[Candidate, ...],
    sold: tuple[SoldCode, ...],
    prior: Mapping[str, float] | None,
) -> Weighed:
    likelihood = weighed_by_sold(catalogue, said, sold) if sold else said.likelihood
    is_more = bool(likelihood) or prior is not None
    candidates = identify.rank(catalogue, looks, likelihood, said.floor, prior) if is_more else by_looks
    readings = marks.sharpen(said, {one.lamp: one.probability for one in by_looks})
    nexts = identify.next_looks(catalogue, looks, candidates, _told(readings))
    lead = leading(catalogue, candidates, read_lamps(catalogue, candidates, readings))
    return Weighed(said, candidates, readings, nexts, house, lead, by_looks, sold)
