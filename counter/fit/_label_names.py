"""A maker's name on a label, where something else there bears it out: the firm, its model number or its address.

A word in no table holds the sale, and a name stands in none. Three things that nobody writes beside a remark explain
it: the same name in "made by" or before "Inc.", an address of the maker that holds it, and, for what the label begins
with, a model number that begins with letters of the name ("HALDVORN ... CAT. NO. HV-226").
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from counter.fit._label_rows import Stretch, pattern
from counter.language import marked

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

MOST_WORDS = 3
NAME_OF_A_FIRM = marked("the name of a firm")
_MODEL = re.compile(
    r"(?!(?:led|uv|dc|bl|ho|byp|dim|hid|mh)(?![a-z]))(?P<letters>[a-z]{2,4})(?:[-./]|(?=\d))[a-z0-9/.-]*\d[a-z0-9/.-]*"
)
_NAMES = (NAME_OF_A_FIRM, "where it was made")  # stretches that hold names
_NAME = re.compile(r"[^\W\d_]{3,}")


def makers_names(plain: str, found: Sequence[Stretch], unread: Sequence[tuple[int, int]]) -> Iterator[Stretch]:
    """Yield the unread words that are a maker's name."""
    parts = [plain[one.start : one.end] for one in found if one.about == "part"]
    addresses = [re.sub(r"[^a-z.@]", "", one) for one in parts if "." in one]
    models = tuple(letters for one in parts for letters in _letters(one))
    firms = {word for one in found if one.means in _NAMES for word in plain[one.start : one.end].split()}
    for start, end in unread:
        *names, last = plain[start:end].split()
        own = tuple(_letters(last)) if names else ()  # the model may stand right behind the name
        names += [] if own else [last]
        tells = any(pattern("telling_name").search(name) for name in names)  # of what it is for: BUGZAP
        if tells or len(names) > MOST_WORDS or not all(map(_NAME.fullmatch, names)):
            continue
        is_first = not any(map(str.isalnum, plain[:start]))
        is_borne_out = any(_is_short_for(model, names) for model in own or models)
        is_in_address = not own and any("".join(names) in one for one in addresses)
        if is_in_address or firms.issuperset(names) or (is_first and is_borne_out):
            yield Stretch(start, end, "part", NAME_OF_A_FIRM, {})


def _letters(text: str) -> Iterator[str]:
    """Yield the letters that a model number begins with."""
    if found := _MODEL.fullmatch(text.split()[-1]):
        yield found["letters"]


def _is_short_for(letters: str, names: Sequence[str]) -> bool:
    """Whether letters are a name's first and some of its others in their order, or the first ones of its words."""
    name = iter("".join(names))
    is_in_order = letters[0] == names[0][0] and all(one in name for one in letters)
    return is_in_order or letters == "".join(one[0] for one in names)
