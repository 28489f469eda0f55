"""A shop's own entries: forms made from the models, what is wrong with what is typed, a patch for what is shipped.

Lives here: fields of a form (`_fields`, `_labels`), an entry to begin with and what follows from others (`_begin`),
checking (`_faults`), and the way back to the shipped files (`_patch`, `_written`). Nothing here knows a store or a
window.

May import counter.catalogue, counter.fit, counter.words and counter.language.
"""

from counter.entries._begin import Kind, begin, kinds, named, shipped_names, to_layer, with_derived
from counter.entries._faults import Fault, faults, layer_problems
from counter.entries._fields import Field, form_of
from counter.entries._patch import PatchProblem, patch_of

__all__ = [
    "Fault",
    "Field",
    "Kind",
    "PatchProblem",
    "begin",
    "faults",
    "form_of",
    "kinds",
    "layer_problems",
    "named",
    "patch_of",
    "shipped_names",
    "to_layer",
    "with_derived",
]
