"""Catalogue geometry to shapes in millimetres: pure, no painting.

May import counter.catalogue's models for their types only, so that a window can paint a kept drawing without them.
"""

from counter.outline._face import Units, face_doubt, face_view, turned
from counter.outline._hold import hold_view
from counter.outline._icons import look_icon
from counter.outline._shapes import Disc, Drawing, Label, Measure, Path, Point, Shape, box_of
from counter.outline._side import side_view
from counter.outline._words import MM_PER_INCH, length_words

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
