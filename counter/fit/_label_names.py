"""A maker's name on a label, where something else there bears it out: the firm, its model number or its address.

A word in no table holds the sale, and a name stands in none. Three things that nobody writes beside a remark explain
it: the same name in "made by" or before "Inc.", an address of the maker that holds it, and, for what the label begins
with, a model number that begins with letters of the name ("HALDVORN ... CAT. NO. HV-226").
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from counter import words
from counter.fit._label_rows import Stretch, pattern
from counter.language import marked

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

MOST_WORDS = 3
FIRST_LINE = 60  # characters, about
_SHORT = re.compile(r"(?<![a-z0-9-])([a-z]{2,4})-?\d")
NAME_OF_A_FIRM = marked("the name of a firm")
_MODEL = re.compile(
    r"(?:^|(?<=[\s:#]))(?!(?:led|uv|dc|bl|ho|byp|dim|hid|mh|no|nr|cat|typ|type|mod|ref|art|item|code|part|lot|ser)(?![a-z]))"
    r"(?P<letters>[a-z]{2,4})(?:[-./ ]|(?=\d))[a-z0-9/.-]*\d[a-z0-9/.-]*$"
)
_HOLDS_NAMES = (NAME_OF_A_FIRM, marked("where it was made"), marked("where to reach the maker"))
_WORDS = re.compile(r"[a-z]{3,}")
_NAME = re.compile(r"[^\W\d_]{3,}")


def named_models(plain: str) -> Iterator[Stretch]:
    """Yield a maker's name with the model number right behind it, where the number begins as the name does.

    What a label begins with needs the first letter alone; elsewhere two letters or more must be of the name.
    """
    for found in pattern("named_model").finditer(plain):
        names = re.split(r"[ -]", found["name"])
        names = names[1:] if words.matches(names[0]) else names  # "choke Haldvorn HV-18"
        if not names or any(map(words.matches, names)) or not _may_be_name(names):
            continue
        letters, start = found["letters"], found.end("name") - len(" ".join(names))
        is_first = not any(map(str.isalnum, plain[:start])) and letters[0] == names[0][0]
        if is_first or (len(letters) > 1 and _is_short_for(letters, names)):
            yield Stretch(start, found.end(), "part", NAME_OF_A_FIRM, {})


def makers_names(plain: str, found: Sequence[Stretch], unread: Sequence[tuple[int, int]]) -> Iterator[Stretch]:
    """Yield the unread words that are a maker's name."""
    told = [(one.means, plain[one.start : one.end]) for one in found if one.about == "part"]
    models = [letters for _, text in told for letters in _letters(text)]
    held = {word for means, text in told if means in _HOLDS_NAMES for word in _WORDS.findall(text)}
    for start, end in unread:
        *names, last = re.split(r"[ -](?!\d)", plain[start:end])
        own = list(_letters(last)) if names else []  # the model may stand right behind the name
        names += [] if own else [last]
        is_first = not any(map(str.isalnum, plain[:start]))
        is_short = is_first and (
            _begins_as(plain, end, names) or any(_is_short_for(one, names) for one in own or models)
        )
        is_held = not own and (held.issuperset(names) or "".join(names) in held)
        if _may_be_name(names) and (is_short or is_held):
            yield Stretch(start, end, "part", NAME_OF_A_FIRM, {})


def _begins_as(plain: str, end: int, names: Sequence[str]) -> bool:
    """Whether the first line's model number is put together of first letters: QUILLMARK sign ballast QS-672."""
    for model in _SHORT.finditer(plain, end, end + FIRST_LINE):
        initials = iter(names[0][0] + "".join(word[0] for word in _WORDS.findall(plain, end, model.start())))
        if len(model[1]) > 1 and model[1][0] == names[0][0] and all(one in initials for one in model[1]):
            return True
    return False


def _may_be_name(names: Sequence[str]) -> bool:
    """Whether words may be a name, and do not tell of a use: BUGZAP."""
    tells = any(pattern("telling_name").search(name) for name in names)
    return not tells and len(names) <= MOST_WORDS and all(map(_NAME.fullmatch, names))


def _letters(text: str) -> Iterator[str]:
    """Yield the letters that a model number begins with."""
    if found := _MODEL.search(text):
        yield found["letters"]


def _is_short_for(letters: str, names: Sequence[str]) -> bool:
    """Whether letters are a name's first and some of its others in their order, or the first ones of its words."""
    name = iter("".join(names))
    is_in_order = letters[0] == names[0][0] and all(one in name for one in letters)
    return is_in_order or letters == "".join(one[0] for one in names)
