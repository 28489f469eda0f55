"""Charts, gauges, look-alike sheets and bin labels as vector sheets in millimetres: pure, no painting.

May import counter.catalogue, counter.outline and counter.marks (for the code that a label prints). The window's pen
paints what is laid out here onto paper.
"""

from counter.paper._chart import wall_chart
from counter.paper._gauge import body_view, pin_gauge
from counter.paper._labels import GRIDS, BinLabel, LabelGrid, bin_labels, labels_for
from counter.paper._look_alikes import each_once, likely_pairs, look_alike_sheets, pairs_of
from counter.paper._sheet import CARD_MM, PAGES, Placed, Sheet, Text

__all__ = [
    "CARD_MM",
    "GRIDS",
    "PAGES",
    "BinLabel",
    "LabelGrid",
    "Placed",
    "Sheet",
    "Text",
    "bin_labels",
    "body_view",
    "each_once",
    "labels_for",
    "likely_pairs",
    "look_alike_sheets",
    "pairs_of",
    "pin_gauge",
    "wall_chart",
]
