"""Where marks and looks contradict each other: one of them must give way."""

from __future__ import annotations

from typing import TYPE_CHECKING

from counter import identify, marks
from counter.catalogue import Model
from counter.desk._case import CANNOT_TELL
from counter.language import figure, tr

if TYPE_CHECKING:
    from counter.catalogue import Catalogue
    from counter.desk._evidence import Evidence


class Conflict(Model):
    """Marks and looks that contradict each other; one of them must give way."""

    look: str
    says_marks: str
    says_look: str
    text: str


def disputes(seen: Evidence) -> tuple[Conflict, ...]:
    """Return every look that the best reading of the marks contradicts; the glass, which may hide UV-C, first."""
    if seen.reading is None:
        return ()
    found = [one for key, says in marks.says(seen.reading).items() if (one := _dispute(seen, key, says)) is not None]
    return tuple(sorted(found, key=lambda one: one.look != "glass"))


def _dispute(seen: Evidence, key: str, says: str | float) -> Conflict | None:
    saw = seen.case.looks.get(key, CANNOT_TELL)
    if saw == CANNOT_TELL or _agree(seen.catalogue, key, says, saw):
        return None
    said, seen_words = in_words(seen.catalogue, key, says), in_words(seen.catalogue, key, saw)
    label = tr(seen.catalogue.look_by_key[key].label).lower()
    text = tr("These marks say {said}, you saw {seen} ({look}).").format(said=said, seen=seen_words, look=label)
    return Conflict(look=key, says_marks=said, says_look=seen_words, text=text)


def _agree(catalogue: Catalogue, key: str, says: str | float, seen: str | float) -> bool:
    look = catalogue.look_by_key[key]
    word = identify.parse_look(catalogue, key, seen)  # watts may be given as 9, "9" or "9 W", a size as "1 in"
    if look.is_measured:
        return abs(float(says) - float(word)) <= 3 * ((look.tool_sd or 0) + (look.default_sd or 0))
    also = next((value.also for value in look.values if value.value == says), ())
    return word == says or word in also


def in_words(catalogue: Catalogue, key: str, value: str | float) -> str:
    """Return an answer to a look as the clerk sees it."""
    look = catalogue.look_by_key[key]
    # A print may say a size that no lamp has (T17), and is shown as it stands.
    word = value if look.is_measured and not isinstance(value, str) else identify.parse_look(catalogue, key, value)
    if look.is_measured:
        return f"{figure(float(word))}\N{THIN SPACE}mm"
    return next((tr(one.label) for one in look.values if one.value == word), str(word))
