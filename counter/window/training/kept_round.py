"""Notes in the record that a round runs, stands still or is over, so that one cut off can be gone on with."""

from __future__ import annotations

from contextlib import suppress
from typing import TYPE_CHECKING, Literal

from counter.language import tr

if TYPE_CHECKING:
    from datetime import datetime
    from pathlib import Path

    from counter.training import Unfinished
    from counter.window.parts.asking import Asking
    from counter.window.training.session import Session


class KeptRound:
    """The round that the session plays; nothing is noted of a lesson."""

    def __init__(self, data: Path, session: Session, asking: Asking) -> None:
        self.data, self.session, self.asking = data, session, asking
        self._round: tuple[str, datetime, float | None] | None = None

    def begin(self, who: str, started: datetime, minutes: float | None) -> None:
        """Take the round up; `begin` of the session comes after, and then `note`."""
        self._round = (who, started, minutes)

    def note(self, state: Literal["runs", "waits", "over"]) -> None:
        """Write down how the round stands, after the answers that are still on their way."""
        if self._round is None:
            return
        from counter.training import RoundMark, UnknownTraineeError, write_record

        who, started, minutes = self._round
        left = self.session.left()
        mark = RoundMark(
            at=self.session.clock(),
            round=started,
            minutes=minutes,
            left_s=left.total_seconds() if left is not None else None,
            state=state,
        )
        if state == "over":
            self._round = None

        def job() -> None:
            with suppress(OSError, UnknownTraineeError):  # said beside the next answer, which cannot be kept either
                write_record(self.data, who, mark)

        self.asking.ask(job, lambda _: None, lambda _: None, keeps=True)


def offer(found: Unfinished | None) -> str:
    """Return the words to go on with a round by, "" for none."""
    if found is None:
        return ""
    whole = (
        tr("the {minutes:g} minutes").format(minutes=found.minutes) if found.minutes is not None else tr("the round")
    )
    words = tr("go on with {round} cut off before: {left}{right} of {asked} right so far")
    return words.format(round=whole, left=_left(found), right=found.right, asked=found.asked)


def _left(found: Unfinished) -> str:
    if found.left is None:
        return ""
    minutes = round(found.left.total_seconds() / 60)
    return tr("{minutes} min left, ").format(minutes=minutes) if minutes else tr("under a minute left, ")
