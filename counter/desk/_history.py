"""The case and the cases before and after it: what undo and redo walk along. No Qt, no rule."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Mapping

    from counter.desk._case import Case


MOST_STEPS = 200  # some thirty customers back; without an end a day's cases would pile up


class History:
    """Holds the present case; every change is a step; typing one code, or looking through outlines, is one."""

    def __init__(self, case: Case) -> None:
        self.case = case
        self._past: list[Case] = []
        self._future: list[Case] = []

    def change(self, **fields: Any) -> bool:
        """Replace the case by one with these fields changed; say whether anything did change."""
        changed = self.case.model_copy(update=fields)
        if changed == self.case:
            return False
        if not self._goes_on(fields, changed):
            self._keep()
        self._future.clear()
        self.case = changed
        return True

    def _goes_on(self, fields: Mapping[str, Any], changed: Case) -> bool:
        """Whether a change only goes on with the last one: a code being typed, outlines being looked through."""
        if not self._past:
            return False
        if "marks" in fields and fields.keys() <= {"marks", "shown"}:
            return self._past[-1].marks != self.case.marks
        only_shown = changed.model_copy(update={"shown": None}) == self.case.model_copy(update={"shown": None})
        was_shown = self._past[-1].model_copy(update={"shown": None}) == self.case.model_copy(update={"shown": None})
        return only_shown and was_shown

    def _keep(self) -> None:
        self._past.append(self.case)
        del self._past[:-MOST_STEPS]

    def start_over(self, fresh: Case) -> None:
        """Put a fresh case in the place of the present one, which comes back by undo unless it was empty."""
        if self.case != fresh:
            self._keep()
            self._future.clear()
        self.case = fresh

    def everywhere(self, **fields: Any) -> None:
        """Set fields in every case of the history: for settings, which undo leaves alone."""
        self._past = [case.model_copy(update=fields) for case in self._past]
        self._future = [case.model_copy(update=fields) for case in self._future]
        self.case = self.case.model_copy(update=fields)

    def undo(self) -> bool:
        """Go back one step, if there is one."""
        if not self._past:
            return False
        self._future.append(self.case)
        self.case = self._past.pop()
        return True

    def redo(self) -> bool:
        """Go forward again one step, if there is one."""
        if not self._future:
            return False
        self._past.append(self.case)
        self.case = self._future.pop()
        return True
