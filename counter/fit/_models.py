"""The fixture as far as it is known, and what fitting a lamp to it answers with."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated, Literal, get_args

from pydantic import BeforeValidator, Field

from counter.catalogue import Confidence, Model
from counter.text import readable

if TYPE_CHECKING:
    from collections.abc import Iterable

Signal = Literal["DANGER", "WARNING", "CAUTION", "NOTICE"]
Verdict = Literal["sell", "ask first", "do not sell"]
VERDICTS: tuple[Verdict, ...] = get_args(Verdict)  # in order, the strictest last
# "bypassed": made for a ballast, which was taken out and the mains led to the holder. "none": made without one,
# as fixtures for mains twist-lock lamps are.
Ballast = Literal["magnetic", "electronic", "dimming", "led-driver", "bypassed", "none", "unknown"]
Text = Annotated[str, BeforeValidator(readable)]
Use = Literal["lighting", "germicidal", "blacklight", "insect trap", "gel curing", "tanning", "medical", "unknown"]


def strictest(verdicts: Iterable[Verdict]) -> Verdict:
    """Return the strictest of some verdicts; with none, nothing objects."""
    return max(verdicts, key=VERDICTS.index, default="sell")


class Fixture(Model):
    """What the customer or the labels say of the fixture; None and "unknown" are normal."""

    holder: Text | None = None
    ballast: Ballast = "unknown"
    ballast_watts: tuple[Annotated[float, Field(gt=0, le=2000, allow_inf_nan=False)], ...] = Field(
        (), description="lamp watts that the ballast label lists"
    )
    ballast_counts: tuple[Annotated[int, Field(ge=1, le=12)], ...] = Field(
        (), description="how many lamps the ballast label says it runs"
    )
    lamp_count: int | None = Field(None, ge=1, le=12, description="lamps on that ballast in this fixture")
    label: Text = Field("", max_length=4000, description="pasted or typed text of the ballast label")
    enclosed: bool | None = None
    damp: bool | None = None
    cold: bool | None = None
    base_up: bool | None = None
    emergency: bool | None = None
    dimmer: bool | None = None
    shunted: bool | None = None
    space_mm: float | None = Field(None, gt=0, le=3000, description="room for the lamp's length")
    tube_room_mm: float | None = Field(None, gt=0, le=300, description="room for the tube's diameter, clips included")
    room_k: int | None = Field(None, ge=1000, le=20000, description="colour of the other lamps in the room")
    came_out: bool | None = Field(
        None, description="whether this very lamp came out of the fixture and had burned there until it died"
    )
    explained: tuple[Annotated[str, Field(max_length=200)], ...] = Field(
        (), description="words of label or holder that somebody read: they say nothing of the lamp"
    )
    told: dict[str, bool] = Field(
        default_factory=dict, description="answers to what a caution asks, by the caution's `key`"
    )


class Caution(Model):
    """One thing to say: what, why, what to do, and the number it rests on."""

    signal: Signal
    rule: str
    says: str
    why: str
    do: str
    figure: float | None = None
    unit: str | None = None
    source: str
    confidence: Confidence
    verdict: Verdict = Field(description="the most this caution allows")
    topic: str | None = Field(None, description="what it is about, where that matters elsewhere")
    ask: str = Field(
        "", description="the question whose yes allows the sale and whose no refuses it; empty: none does"
    )
    key: str = Field("", description="under which the answer is kept in `Fixture.told`")
    words: tuple[str, ...] = Field((), description="words that can be pressed as read, where they say nothing")
    values: dict[str, str] = Field(default_factory=dict, description="what the rule filled into its words, as spoken")


class Ask(Model):
    """A question about the fixture whose answer could change the verdict; `about` is a field of Fixture or Case."""

    about: str
    question: str
    why: str
    outcomes: tuple[str, ...] = Field((), description='answer and what follows: "electronic: do not sell"')
    blocks: bool = Field(True, description="whether the lamp may not be sold before this is answered")
    key: str = Field("", description="under which a yes or no is kept in `Fixture.told`; empty: no such answer")
    words: tuple[str, ...] = Field((), description="words that can be pressed as read, where they say nothing")


class Replacement(Model):
    """Something that may, or may not, go in instead."""

    title: str
    lamp: str | None = None
    led_type: str | None = None
    verdict: Verdict
    reason: str
    cautions: tuple[Caution, ...] = ()


class Judgement(Model):
    """The verdict on one lamp for one fixture and use."""

    verdict: Verdict
    cautions: tuple[Caution, ...] = ()
    asks: tuple[Ask, ...] = ()
