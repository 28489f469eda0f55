"""Catalogue geometry to shapes in millimetres: pure, no painting.

May import counter.catalogue's models for their types only, so that a window can paint a kept drawing without them.
"""

from typing import TYPE_CHECKING, Any

from counter.outline._shapes import Disc, Drawing, Label, Measure, Path, Point, Shape, box_of

if TYPE_CHECKING:
    from counter.outline._face import Units, face_doubt, face_view, turned
    from counter.outline._hold import hold_view
    from counter.outline._icons import look_icon
    from counter.outline._side import side_view
    from counter.outline._words import MM_PER_INCH, length_words

# What makes drawings is imported on first use: the first paint only repaints drawings that were kept.
_LATER = {
    "Units": "_face",
    "face_doubt": "_face",
    "face_view": "_face",
    "turned": "_face",
    "hold_view": "_hold",
    "look_icon": "_icons",
    "side_view": "_side",
    "MM_PER_INCH": "_words",
    "length_words": "_words",
}

__all__ = [
    "MM_PER_INCH",
    "Disc",
    "Drawing",
    "Label",
    "Measure",
    "Path",
    "Point",
    "Shape",
    "Units",
    "box_of",
    "face_doubt",
    "face_view",
    "hold_view",
    "length_words",
    "look_icon",
    "side_view",
    "turned",
]

if not TYPE_CHECKING:  # a type checker would take any name for one that exists

    def __getattr__(name: str) -> Any:
        if name not in _LATER:
            raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
        from importlib import import_module

        value = getattr(import_module(f"{__name__}.{_LATER[name]}"), name)
        globals()[name] = value
        return value
