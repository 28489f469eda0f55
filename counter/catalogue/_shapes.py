"""What the shapes of lamps are called beside other words: "26 W quad, G24q-3"."""

from __future__ import annotations

from typing import TYPE_CHECKING

from counter.language import marked, tr

if TYPE_CHECKING:
    from counter.catalogue._models import LampShape

SHAPES: dict[LampShape, str] = {
    "twin": marked("twin"),
    "quad": marked("quad"),
    "triple": marked("triple"),
    "four-fold": marked("four-fold"),
    "long-twin": marked("long-twin"),
    "flat": marked("flat lamp"),  # "flat" alone is a form of base
    "square": marked("square lamp"),
    "circular": marked("circular"),
    "u-bent": marked("u-bent"),
    "linear": marked("linear"),
}


def shape_words(shape: LampShape) -> str:
    """Return what a shape is called, in the language now spoken."""
    return tr(SHAPES[shape])
