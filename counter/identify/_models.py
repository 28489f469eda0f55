"""What identification answers with."""

from __future__ import annotations

from dataclasses import dataclass

from counter.catalogue import Kind, LampShape, Model


@dataclass(frozen=True, slots=True)
class Candidate:
    """One lamp type with its probability and how each look spoke of it.

    No model: every look makes one for each lamp type, and a model weighs three objects and a check.
    """

    lamp: str
    base: str
    watts: float
    shape: LampShape | None
    kind: Kind
    probability: float
    agrees: tuple[str, ...]
    disagrees: tuple[str, ...]


class NextLook(Model):
    """A look not taken yet: expected gain in bits, effort in seconds, and why it is worth taking."""

    look: str
    bits: float
    seconds: float
    why: str
