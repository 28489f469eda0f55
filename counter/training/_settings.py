"""Question texts, bars and target times, from resources/training.json."""

from __future__ import annotations

from functools import cache
from typing import Literal

from pydantic import Field

from counter import paths
from counter.catalogue import Model
from counter.language import tr
from counter.training._models import Aspect, CardKind

Rating = Literal["again", "hard", "good", "easy"]


class KindTexts(Model):
    """What one kind of card asks, and the time that a practised clerk takes for it."""

    title: str
    question: str
    why: str
    seconds: float = Field(gt=0)


class AspectTexts(Model):
    """What a card asks of a caution beyond its words."""

    question: str
    why: str


class Bars(Model):
    """When a family counts as known: the interval's lower bound over the last first-try answers."""

    interval: Literal["Clopper-Pearson"]
    confidence: float = Field(gt=0, lt=1, description="two-sided")
    plain: float = Field(gt=0, lt=1)
    critical: float = Field(gt=0, lt=1)
    last: int = Field(ge=10, description="older answers no longer count, so that early mistakes can be left behind")


class Settings(Model):
    """All figures of training. Every one is ours, set by judgement; none comes from a standard."""

    format: Literal["lamp-counter/training"]
    version: Literal[1]
    rounds_min: tuple[int, ...]
    retention: float = Field(gt=0, lt=1, description="recall below which a point counts as fading, and comes back")
    gone_below: float = Field(gt=0, lt=1, description="recall below which what was known counts as gone")
    first_steps_min: tuple[float, ...]
    again_steps_min: tuple[float, ...]
    easy_below: float = Field(gt=0, description="share of the target time")
    hard_above: float = Field(gt=0, description="share of the target time")
    first_sight_at_most: Rating = Field(description="one right answer to a new point may be a guess")
    full_share: float = Field(gt=0, le=1, description="of the best bits per second: counts as right")
    half_share: float = Field(gt=0, le=1, description="of the best bits per second: no mistake, but hard")
    mistake_gap: int = Field(ge=1, description="cards between a mistake and its return")
    new_per_minute: float = Field(gt=0)
    open_families: int = Field(ge=1, description="families learned at a time when none is assigned")
    bars: Bars
    kinds: dict[CardKind, KindTexts]
    aspects: dict[Aspect, AspectTexts] = Field(description="of a caution, beside what it says")
    words: dict[str, str]
    rule_names: dict[str, str] = Field(description="a few words for each rule of caution")
    labels: dict[str, str] = Field(description="by the scenario's name: what stands on a ballast label")
    marks: dict[str, str] = Field(description="by the scenario's name: what stands beside a lamp's code")


def words() -> dict[str, str]:
    """Return the words of questions and answers in the language now spoken."""
    return {key: tr(text) for key, text in settings().words.items()}


@cache
def settings() -> Settings:
    """Return the shipped settings.

    Raises:
        OSError: the resources are not installed.
        pydantic.ValidationError: they are not settings of training.
    """
    return Settings.model_validate_json((paths.resources() / "training.json").read_bytes())
