"""The guided first case: an invented lamp on the counter, and what to press for it, step by step.

Each step is done when the case says so, whoever pressed it; what the program then answers is what `assess` answers.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple

from counter.language import marked

if TYPE_CHECKING:
    from counter.desk import Case


class Step(NamedTuple):
    """What to do next, and how the case then differs: looks, or fields of the case; without either, read only."""

    words: str
    looks: dict[str, str] = {}  # noqa: RUF012 - never changed
    fields: dict[str, Any] = {}  # noqa: RUF012

    def is_done(self, case: Case) -> bool:
        """Whether the case says what this step asks for."""
        seen = all(case.looks.get(key) == value for key, value in self.looks.items())
        return seen and all(getattr(case, key) == value for key, value in self.fields.items())

    def done(self, case: Case) -> dict[str, Any]:
        """Return the fields of the case with this step done."""
        return {"looks": {**case.looks, **self.looks}, **self.fields}

    @property
    def is_read_only(self) -> bool:
        """Whether there is nothing to press."""
        return not self.looks and not self.fields


STEPS = (
    Step(
        marked(
            "A customer brings this lamp from an invented reading light: one bent tube, two pins, the print worn to "
            "“9W”. Press what you see first: Legs, 1 bent tube (Alt+G, 1)."
        ),
        looks={"legs": "2"},
    ),
    Step(marked("Now the pins on the base: 2 pins (Alt+P, 2). Only a few outlines are left."), looks={"pins": "2"}),
    Step(
        marked(
            "The program now asks for the glass first. This tube is clear, you can see into it: "
            "press clear. A clear tube on such a base gives germicidal UV-C."
        ),
        looks={"glass": "clear"},
    ),
    Step(marked("Type what can be read of the print into Marks: 9W (Ctrl+M)."), fields={"marks": "9W"}),
    Step(
        marked(
            "The customer wants light to read by. In the fixture, choose what it is used for: light to see by. Watch "
            "the stamp."
        ),
        fields={"use": "lighting"},
    ),
    Step(
        marked(
            "The stamp refuses the sale, the first caution says why and what to do, and Instead lists what may be "
            "sold. Beside each figure you can ask where it is from. F2 starts the next customer."
        )
    ),
)


def step_of(case: Case) -> int:
    """Return the place of the first step that the case does not say yet."""
    return next(at for at, step in enumerate(STEPS) if step.is_read_only or not step.is_done(case))
