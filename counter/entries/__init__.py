"""A shop's own entries: forms made from the models, what is wrong with what is typed, a patch for what is shipped.

Lives here: fields of a form and their words (`_fields`, `_labels`, `_choices`), an entry to begin with and what
follows from others (`_begin`), what can be drawn of it (`_drawn`), checking (`_faults`), and the way back to the
shipped files (`_patch`, `_written`). Nothing here knows a store or a window.

May import counter.catalogue, counter.fit, counter.words and counter.language.
"""

from counter.entries._begin import Kind, begin, can_begin_anew, kinds, named, shipped_names, to_layer, with_derived
from counter.entries._choices import thing_words
from counter.entries._drawn import base_under, drawn_base, drawn_lamp
from counter.entries._faults import Fault, faults, layer_problems
from counter.entries._fields import Field, form_of
from counter.entries._labels import label_of
from counter.entries._patch import PatchProblem, patch_of

__all__ = [
    "Fault",
    "Field",
    "Kind",
    "PatchProblem",
    "base_under",
    "begin",
    "can_begin_anew",
    "drawn_base",
    "drawn_lamp",
    "faults",
    "form_of",
    "kinds",
    "label_of",
    "layer_problems",
    "named",
    "patch_of",
    "shipped_names",
    "thing_words",
    "to_layer",
    "with_derived",
]
