"""Letters with a meaning in this shop that a case contradicts: asked about again, with both sides, never changed.

What speaks against a meaning is the lamp as it was chosen, the looks, what this very code was sold as before, or the
rest of the code. The looks do where each lamp type that the letters allow disagrees with one, and another with none.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from counter.catalogue import Model
from counter.desk._disputes import in_words
from counter.language import figure, tr
from counter.marks import spoken
from counter.marks.letters import against, letters_say
from counter.words import fold

if TYPE_CHECKING:
    from collections.abc import Iterator

    from counter.catalogue import Lamp
    from counter.desk._evidence import Evidence
    from counter.marks import KnownLetters, Span


MAKER = "maker"  # the part name of letters that a reading could not use
OWN = (MAKER, "letters")


class LettersAsked(Model):
    """Both sides: what the shop says of letters and since when, and what this case says.

    `may_except` is false for a meaning of ultraviolet: that is taught anew or forgotten, never passed over.
    """

    letters: str
    means: str
    origin: str
    other: str
    may_except: bool

    @property
    def says(self) -> str:
        """Both sides in one sentence."""
        said = tr("In this shop {letters} means {means} ({origin}). {other}")
        return said.format(letters=self.letters, means=self.means, origin=self.origin, other=self.other)


def letters_asked(seen: Evidence) -> tuple[LettersAsked, ...]:
    """Return the letters of the marks whose meaning here something speaks against."""
    known = {fold(one.letters).plain: one for maker in seen.house for one in maker.letters}
    if not known or seen.reading is None:
        return ()
    spans = {fold(one.text).plain: one for one in seen.reading.spans if one.part in OWN}
    rows = ((known[plain], span) for plain, span in spans.items() if plain in known)
    return tuple(found for row, span in rows if (found := _asked(seen, row, span)) is not None)


def _asked(seen: Evidence, row: KnownLetters, span: Span) -> LettersAsked | None:
    other = next(_others(seen, row, span), None) if row.means.stated() else None
    if other is None:
        return None
    return LettersAsked(
        letters=row.letters,
        means=spoken(letters_say(row.means)),
        origin=_origin(row),
        other=other,
        may_except=row.means.kind in (None, "fluorescent", "led"),
    )


def _origin(row: KnownLetters) -> str:
    if row.source == "list":
        said = tr("learned from {list}: {support} lines for it, {against} against")
        return said.format(list=row.list_name, support=row.support, against=row.against)
    if not row.who:
        return tr("taught on {day}").format(day=row.at[:10])
    return tr("taught by {who} on {day}").format(who=row.who, day=row.at[:10])


def _others(seen: Evidence, row: KnownLetters, span: Span) -> Iterator[str]:
    """Yield what speaks against a meaning, in words, the surest first."""
    if seen.chosen is not None and against(row.means, seen.catalogue, seen.chosen):
        yield tr("You said that it is {lamp}.").format(lamp=_name(seen.chosen))
    yield from _by_looks(seen, row)
    for one in seen.before:
        lamp = seen.catalogue.lamp_by_id[one.lamp]
        if against(row.means, seen.catalogue, lamp):
            yield tr("This code was sold here as {lamp} on {day}.").format(lamp=_name(lamp), day=one.day)
    if span.part == MAKER:
        yield tr("The rest of this code does not go with that.")


def _by_looks(seen: Evidence, row: KnownLetters) -> Iterator[str]:
    """Yield the looks that no lamp type goes with that the letters allow, where another does."""
    lamps = seen.catalogue.lamp_by_id
    allowed = [one for one in seen.by_looks if not against(row.means, seen.catalogue, lamps[one.lamp])]
    names = {one.lamp for one in allowed}
    another = any(not one.disagrees for one in seen.by_looks if one.lamp not in names)
    if another and allowed and all(one.disagrees for one in allowed):
        looks = ", ".join(_saw(seen, key) for key in allowed[0].disagrees)
        yield tr("You saw {looks}.").format(looks=looks)


def _saw(seen: Evidence, key: str) -> str:
    label = tr(seen.catalogue.look_by_key[key].label).lower()
    return f"{in_words(seen.catalogue, key, seen.case.looks[key])} ({label})"


def _name(lamp: Lamp) -> str:
    return f"{figure(lamp.watts.value)}\N{THIN SPACE}W {lamp.base}"
