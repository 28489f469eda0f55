"""What stands beside a verdict: the lamp's light in numbers, the law of selling it, and where it goes when dead.

Lives here: the figures of one lamp's light as the window and `counter assess` show them (`_light`,
UV-A and UV-B in `_bands`), law and
disposal for the shop's place (`_law`), and a ballast label in a few words (`_label`). No rule of the trade: those
are in counter.fit and counter.light.

May import counter.catalogue, counter.fit, counter.light and counter.marks.
"""

from counter.desk.notes._bands import BandNote, LimitNote
from counter.desk.notes._label import LabelNote, label_note
from counter.desk.notes._law import LawNotes, law_notes
from counter.desk.notes._light import ColourMatch, ColourNote, LightNotes, UvcNote, light_notes
from counter.desk.notes._uv_row import UvRow

__all__ = [
    "BandNote",
    "ColourMatch",
    "ColourNote",
    "LabelNote",
    "LawNotes",
    "LightNotes",
    "LimitNote",
    "UvRow",
    "UvcNote",
    "label_note",
    "law_notes",
    "light_notes",
]
