"""The training room: a window of its own beside the counter, so that a case left open there stays as it is.

Lives here: the room and its pages (practice, where you stand, trainer's view, a card, the summary), the pictures
on them, and the one line by which the counter offers a case to whoever learns at it. May import PySide6, the
other widgets of the window, and the core; pydantic and counter.training only inside functions, after the first
paint. Nothing here touches the counter's case, the slips or the stock.
"""

from counter.window.training.at_counter import AtCounterLine
from counter.window.training.room import TrainingRoom

__all__ = ["AtCounterLine", "TrainingRoom"]
