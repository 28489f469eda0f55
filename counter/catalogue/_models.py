"""The catalogue's models: bases, lamp types, looks and sources, every value with where it comes from."""

from __future__ import annotations

from datetime import date  # pydantic needs the class itself
from functools import cached_property
from typing import TYPE_CHECKING, Literal, NamedTuple

from pydantic import BaseModel, ConfigDict, Field, PrivateAttr

from counter.language import marked, tr

if TYPE_CHECKING:
    from collections.abc import Mapping

    from counter.catalogue._law import LawTable

Confidence = Literal[
    "published",  # read in the source itself
    "reproduced",  # read in a secondary reproduction of the source
    "practice",  # common practice at the counter; no written source
    "memory-high",
    "memory-medium",
    "memory-low",
    "confirmed",  # measured or seen by this shop; only its own layer may say so
]
Arrangement = Literal["row", "rectangle", "two-across", "ends"]
Kind = Literal["fluorescent", "uv-c", "uv-a", "led", "other"]
LampShape = Literal[
    "twin", "quad", "triple", "four-fold", "long-twin", "flat", "square", "circular", "u-bent", "linear"
]
# How a ballast starts a lamp. "rapid" heats the cathodes all the time, "programmed" before the lamp strikes and
# then less: what starts by "rapid" also starts by "programmed", not the other way round.
Start = Literal["preheat", "rapid", "programmed", "instant"]
Purpose = Literal["germicidal", "ozone", "blacklight", "insect trap", "gel curing", "tanning", "medical"]
Met = Literal["daily", "weekly", "seldom", "never"]  # at a counter: a judgement, not a count

# How sure a value is, as the chance that it is right: the weight it gets in ranking. Round figures of ours,
# chosen so that memory-low still leans the ranking but one clear look outweighs it.
TRUST: dict[str, float] = {
    "confirmed": 0.995,
    "published": 0.995,
    "reproduced": 0.99,
    "practice": 0.95,
    "memory-high": 0.97,
    "memory-medium": 0.9,
    "memory-low": 0.65,
}
# How often a counter meets a lamp type, as a weight. Round figures of ours for words that are a judgement: they lead,
# but alone never settle a lamp, which takes odds of 19 to 1.
MET: dict[str, float] = {"daily": 1.0, "weekly": 0.5, "seldom": 0.25, "never": 0.1}
NARROWED = 0.4  # of all chances moved; set by judgement: seeing white glass moves a tenth, a count of legs two thirds
UNSURE = frozenset({"practice", "memory-medium", "memory-low"})  # drawn dashed and said in words


class Model(BaseModel):
    """Base of all our models: frozen, no unknown keys, schema built on first use to keep the start short."""

    model_config = ConfigDict(frozen=True, extra="forbid", defer_build=True, ser_json_inf_nan="null")


class Sourced(Model):
    """Anything that carries a source (a key into `sources`) and a confidence."""

    source: str
    confidence: Confidence
    note: str | None = None

    @property
    def is_unsure(self) -> bool:
        """Whether this must be drawn dashed and named as unconfirmed."""
        return self.confidence in UNSURE


class Figure(Sourced):
    """One number; its unit stands in the name of the field that holds it."""

    value: float
    plus_minus: float | None = Field(None, ge=0, description=marked("spread met in the trade, in the same unit"))


class Word(Sourced):
    """One word or short text."""

    value: str


class Prevalence(Sourced):
    """How often a counter meets a lamp type, in one word."""

    value: Met


class Pin(Model):
    """A pin's centre, in millimetres, face view, pins toward the viewer, y up, key side up."""

    x_mm: float
    y_mm: float


class Pins(Sourced):
    """All pins of one face."""

    at: tuple[Pin, ...]


class Outline(Sourced):
    """The outer edge of the base, centred on the pin pattern unless offset."""

    shape: Literal["rectangle", "circle"]
    width_mm: float = Field(gt=0)
    height_mm: float = Field(gt=0)
    corner_mm: float = Field(0, ge=0)
    offset_y_mm: float = 0


class Centre(Outline):
    """The block or post between the pins; in two-pin lamps it holds the starter."""

    what: Literal["block", "post"]


class Notch(Model):
    """A key cut into the centre block or post; `offset_mm` from the middle of the key edge, right positive."""

    size: Literal["large", "small"]
    offset_mm: float
    width_mm: float = Field(gt=0)
    depth_mm: float = Field(gt=0)


class Notches(Sourced):
    """The notches of one face; an empty tuple says there are none."""

    at: tuple[Notch, ...]


class Face(Model):
    """Geometry of the base as seen when the pins point at you."""

    pins: Pins
    outline: Outline
    pin_diameter_mm: Figure | None = None
    centre: Centre | None = None
    notches: Notches | None = Field(None, description=marked("left out: where the key sits is not known"))

    @property
    def is_known(self) -> bool:
        """Whether anybody said where the pins stand; without that only a question mark is drawn."""
        return bool(self.pins.at)


def face_not_known() -> Face:
    """Return the face of a base of which nobody has said how it looks: no pins, and an edge that means nothing."""
    said = {"source": "inferred", "confidence": "memory-low"}
    edge = {"shape": "rectangle", "width_mm": 30, "height_mm": 30}
    return Face.model_validate({"pins": {"at": (), **said}, "outline": {**edge, **said}})


class Base(Model):
    """A cap by its IEC 60061 designation."""

    designation: str
    family: str = Field(description="designation without key number, as generic lamp codes print it")
    sheet: Word | None = None
    pins: Figure = Field(description=marked("pins on one base; on a tube, of one end"))
    arrangement: Word | None = None
    block: Word | None = Field(None, description=marked("is there a block or post between the pins"))
    pin_spacing_mm: Figure | None = Field(
        None, description=marked("what a ruler measures; the line below says between what")
    )
    spacing_means: str | None = None
    family_notches: tuple[str, ...] = Field((), description=marked("keys met in this family, by common practice"))
    starter: Word | None = Field(None, description=marked("where the starter sits"))
    supply: Literal["ballast", "mains"]
    mount: Literal["push", "twist-lock", "two-ends"]
    hold: str = Field(description=marked("how to hold the lamp, so that left and right mean the same to everybody"))
    hold_key: str = Field(
        "", description=marked("what is not known of its key; it goes once the shop has seen the key")
    )
    tell: str = Field(description=marked("one sentence: how to know this base"))
    tell_key: str = Field(
        "", description=marked("what is commonly said of its key; it goes once the shop has seen the key")
    )
    seldom: Word | None = Field(None, description=marked("yes: among bases that look alike it is not named first"))
    face: Face = Field(default_factory=face_not_known, description=marked("left out: how it looks is not known"))

    @property
    def tells(self) -> str:
        """How to know this base, in the language spoken."""
        return " ".join(tr(one) for one in (self.tell, self.tell_key) if one)

    @property
    def holds(self) -> str:
        """How to hold the lamp, in the language spoken."""
        return " ".join(tr(one) for one in (self.hold, self.hold_key) if one)

    @property
    def is_seldom(self) -> bool:
        """Whether a counter meets it so seldom that among much the same it is not named first."""
        return self.seldom is not None and self.seldom.value == "yes"

    def joins_pins(self, lamp: Lamp) -> bool:
        """Whether the pins of each end are joined inside a lamp on this base, so that nothing can heat its cathodes.

        So they are in tubes for instant start alone (common practice, no source); one pin has no other to join.
        """
        return self.mount == "two-ends" and self.pins.value > 1 and lamp.starts == ("instant",)


class Circuit(Model):
    """Lamp values on one kind of supply: lamp power, current and voltage."""

    power_w: Figure | None = None
    current_a: Figure | None = None
    voltage_v: Figure | None = None


class Lamp(Model):
    """A lamp type: what a clerk would call one lamp, whatever its maker and colour."""

    id: str
    base: str
    watts: Figure
    kind: Kind
    band: Literal["uv-b"] | None = Field(
        None, description=marked("what a lamp of another kind gives instead of light")
    )
    shape: LampShape | None = None
    legs: int | None = Field(None, description="straight glass legs: 2 is one bent tube, 4 two, 6 three, 8 four")
    glass: Word | None = None
    tube_mm: Figure | None = None
    length_mm: Figure | None = Field(
        None, description=marked("over all, without the pins; if with them, say so in the note")
    )
    length_also_mm: Figure | None = Field(None, description=marked("the longer one, where two markets differ"))
    mains: Circuit | None = Field(None, description=marked("on a magnetic ballast, at mains frequency"))
    hf: Circuit | None = Field(None, description=marked("on an electronic ballast"))
    ballasts: tuple[Literal["magnetic", "electronic", "none"], ...] = Field(
        description=marked("kinds of ballast made for it")
    )
    ballasts_from: Sourced
    magnetic_if_listed: Sourced | None = Field(
        None, description=marked("mostly on electronic ballasts, but magnetic ones exist whose label lists it")
    )
    starts: tuple[Start, ...] = Field(
        (), description=marked("ways of starting it is made for; none ticked: not known")
    )
    starts_from: Sourced | None = None
    starts_above_c: Figure | None = Field(None, description=marked("coldest air in which it still starts, °C"))
    most_light_at_c: Figure | None = Field(None, description=marked("air in which it gives most light, °C"))
    dims: Word | None = Field(None, description=marked("may it be dimmed"))
    stands_in_for: tuple[str, ...] = Field((), description=marked("savers: the lamp types whose place it fills"))
    stands_in_from: Sourced | None = None
    uvc_w: Figure | None = None
    uva_w: Figure | None = None
    uvb_w: Figure | None = None
    arc_mm: Figure | None = None
    purposes: tuple[Purpose, ...] = Field((), description=marked("what a lamp is made for that is not for lighting"))
    purposes_from: Sourced | None = None
    met: Prevalence | None = Field(None, description=marked("how often a counter meets it"))
    inches: float | None = Field(
        None, description=marked("length in inches, as the code of a straight tube may print it")
    )
    codes: tuple[Word, ...] = Field((), description=marked("codes printed for it in a standard or law"))
    note: str | None = None

    @property
    def lengths_mm(self) -> tuple[float, float] | None:
        """The shortest and the longest this lamp type comes in, mm; None where no length is known."""
        if self.length_mm is None:
            return None
        other = self.length_also_mm or self.length_mm
        return min(self.length_mm.value, other.value), max(self.length_mm.value, other.value)

    @property
    def is_ultraviolet(self) -> bool:
        """Whether it is made to give ultraviolet radiation, not light."""
        return self.kind in ("uv-c", "uv-a") or self.band is not None

    @property
    def weight_met(self) -> float:
        """How often a counter meets it, as a weight; a lamp type of which nothing is said is met seldom."""
        return MET[self.met.value if self.met else "seldom"]

    @property
    def is_saver(self) -> bool:
        """Whether it is a lamp of fewer watts for another one's place."""
        return bool(self.stands_in_for)

    @property
    def output(self) -> str:
        """The class of a tube by inches, "ho", "vho" or "", as the words of its id have it."""
        words = self.id.replace("-", "/").split("/")
        return "vho" if "vho" in words else "ho" if "ho" in words else ""


class LookValue(Model):
    """One answer to a look."""

    value: str
    label: str
    instead: dict[str, float] = Field(
        default_factory=dict, description="what people say instead, as weights; absent: all others alike"
    )
    slip: float | None = Field(None, ge=0, lt=1, description="overrides the look's slip rate for this value")
    also: tuple[str, ...] = Field((), description="other answers that count as right for this value")


class Look(Model):
    """One thing to look at or measure, what it costs and how often it goes wrong."""

    key: str
    label: str
    ask: str
    why: str
    seconds: float = Field(gt=0)
    slip: float = Field(ge=0, lt=1)
    slip_from: Sourced
    values: tuple[LookValue, ...] = ()
    tool_sd: float | None = Field(None, gt=0, description="measured looks: reading error, standard deviation, mm")
    default_sd: float | None = Field(None, gt=0, description="catalogue spread where a lamp gives none, mm")
    low: float | None = None
    high: float | None = None
    moot: dict[str, tuple[str, ...]] = Field(
        default_factory=dict, description="answers to other looks, by look key, after which this one is not asked for"
    )
    guards: Kind | None = Field(None, description="asked for first while lamps of this kind are in the running")

    @property
    def is_measured(self) -> bool:
        """Whether the answer is a number of millimetres."""
        return self.tool_sd is not None


class Source(Model):
    """A published work, or 'memory' and 'practice', which are none."""

    key: str
    title: str
    kind: str
    seen: str


class Added(Model):
    """Who put an entry into a shop's layer, and when."""

    who: str = Field(max_length=80)
    on: date


class OwnText(Model):
    """A caution in the shop's own words, in one language; signal word and verdict stay those of the shipped rule."""

    rule: str = Field(description="the rule id of the shipped caution")
    language: str = Field("en", pattern=r"^[a-z]{2,3}$", description="the language it is written in: it counts there")
    says: str = Field(min_length=1, max_length=600, description=marked("what is wrong, in one line"))
    why: str = Field(min_length=1, max_length=600, description=marked("why, in one line"))
    do: str = Field(min_length=1, max_length=600, description=marked("what to do, in one line"))
    added: Added | None = None


class OwnWord(Model):
    """A word or a few that say nothing of a lamp: the shop has read them once and for all."""

    word: str = Field(min_length=1, max_length=200)
    added: Added | None = None


class Own(NamedTuple):
    """What a shop says beside bases and lamps: cautions in its words, words that say nothing of a lamp, and law."""

    texts: tuple[OwnText, ...] = ()
    words: tuple[OwnWord, ...] = ()
    law: LawTable | None = None


class Edition(Model):
    """Which state of the data this is; counted by its own, as data and program change at different times."""

    number: str = Field(pattern=r"^[0-9]+(\.[0-9]+)*$")
    on: date = Field(description="the day of the last change to a value")

    def __str__(self) -> str:
        return f"{self.number} of {self.on.isoformat()}"


class Catalogue(Model):
    """Everything known about bases and lamps, the shop's own layer already laid over the shipped one."""

    format: Literal["lamp-counter/catalogue"]
    version: Literal[1]
    edition: Edition | None = Field(None, description="None in a table made before editions were counted")
    sources: tuple[Source, ...]
    bases: tuple[Base, ...]
    lamps: tuple[Lamp, ...]
    looks: tuple[Look, ...]
    legs_by_shape: dict[str, str] = Field(description="the legs look of shapes whose legs are not just counted")
    _own: Own = PrivateAttr(default_factory=lambda: Own())  # no part of a catalogue's file: a layer alone has any

    @property
    def own_texts(self) -> tuple[OwnText, ...]:
        """Cautions in the shop's own words."""
        return self._own.texts

    @property
    def own_words(self) -> tuple[str, ...]:
        """Words that the shop knows to say nothing of a lamp."""
        return tuple(one.word for one in self._own.words)

    @property
    def own_law(self) -> LawTable | None:
        """Places, law and disposal that the shop added; None where it added none."""
        return self._own.law

    def with_own(self, own: Own) -> Catalogue:
        """Give a catalogue that was just made what the shop says of cautions and words, and return it."""
        self._own = own
        return self

    @cached_property
    def base_by_name(self) -> dict[str, Base]:
        """Bases by designation."""
        return {base.designation: base for base in self.bases}

    @cached_property
    def lamp_by_id(self) -> dict[str, Lamp]:
        """Lamp types by id."""
        return {lamp.id: lamp for lamp in self.lamps}

    @cached_property
    def lamps_on(self) -> dict[str, tuple[Lamp, ...]]:
        """Lamp types by the base they stand on, every base named, in catalogue order."""
        return {
            base.designation: tuple(lamp for lamp in self.lamps if lamp.base == base.designation)
            for base in self.bases
        }

    @cached_property
    def lamps_of_family(self) -> dict[str, tuple[Lamp, ...]]:
        """Lamp types by the family of their base, in catalogue order."""
        families = dict.fromkeys(base.family for base in self.bases)
        return {name: tuple(lamp for lamp in self.lamps if self.base_of(lamp).family == name) for name in families}

    @cached_property
    def watts(self) -> tuple[float, ...]:
        """All nominal watts, each once, the least first."""
        return tuple(sorted({lamp.watts.value for lamp in self.lamps}))

    @cached_property
    def tubes_by_number(self) -> dict[float, tuple[Lamp, ...]]:
        """Tubes by the number that their codes print, watts or inches; savers by that of the full lamp as well."""
        found: dict[float, list[Lamp]] = {}
        for lamp in (one for one in self.lamps if one.tube_mm is not None):
            printed = {lamp.inches or lamp.watts.value}
            full = (self.lamp_by_id[name] for name in lamp.stands_in_for if name in self.lamp_by_id)
            for number in printed | {one.inches or one.watts.value for one in full}:
                found.setdefault(number, []).append(lamp)
        return {number: tuple(lamps) for number, lamps in found.items()}

    @cached_property
    def look_by_key(self) -> dict[str, Look]:
        """Looks by key."""
        return {look.key: look for look in self.looks}

    @cached_property
    def source_by_key(self) -> dict[str, Source]:
        """Sources by key."""
        return {source.key: source for source in self.sources}

    @cached_property
    def prevalence(self) -> dict[str, float]:
        """The chance of every lamp type by id before anything is looked at, summing to 1."""
        white: dict[tuple[str, float], float] = {}
        for lamp in self.lamps:
            if not lamp.is_ultraviolet:
                key = lamp.base, lamp.watts.value
                white[key] = max(white.get(key, 0.0), lamp.weight_met)
        weights = {lamp.id: _weight(lamp, white.get((lamp.base, lamp.watts.value), 0.0)) for lamp in self.lamps}
        total = sum(weights.values())
        return {name: weight / total for name, weight in weights.items()}

    def is_narrowed(self, chances: Mapping[str, float]) -> bool:
        """Whether chances by lamp id are of somebody who has looked: a good part of them moved since."""
        moved = sum([abs(chances.get(name, 0.0) - share) for name, share in self.prevalence.items()]) / 2
        return moved >= NARROWED

    def base_of(self, lamp: Lamp) -> Base:
        """Return the base a lamp type stands on."""
        return self.base_by_name[lamp.base]


def _weight(lamp: Lamp, white: float) -> float:
    """Return how a lamp type weighs before anything is seen; `white` is the weight of its look-alike for light.

    A germicidal lamp is never thought rarer than the lamp it is taken for.
    """
    return max(lamp.weight_met, white) if lamp.kind == "uv-c" else lamp.weight_met


def notch_look(notches: tuple[Notch, ...]) -> str:
    """Name the look of a key: none, one-large, two-large, small-left, small-centre, small-right or two-small."""
    if not notches:
        return "none"
    if len(notches) > 1:
        return f"two-{notches[0].size}"
    only = notches[0]
    if only.size == "large":
        return "one-large"
    if abs(only.offset_mm) < 1:  # under a millimetre off the middle reads as centre by eye
        return "small-centre"
    return "small-left" if only.offset_mm < 0 else "small-right"
