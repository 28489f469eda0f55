"""What a shop says of makers' codes, as reading takes it. No database here: most machines read before they keep."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from counter.marks.letters import LetterTable, as_house

if TYPE_CHECKING:
    from counter.marks import HouseMaker


class HouseCodes(NamedTuple):
    """What this shop says of makers' codes: whole tables of makers, and letters; both as reading takes them."""

    makers: tuple[HouseMaker, ...] = ()
    letters: LetterTable = LetterTable()

    @property
    def house(self) -> tuple[HouseMaker, ...]:
        """The tables as `assess` and `read` take them."""
        return (*self.makers, as_house(self.letters)) if self.letters.letters else self.makers
