"""The training room: a window of its own beside the counter, so that a case left open there stays as it is.

Lives here: the room and its pages (practice, where you stand, trainer's view, a card, the summary), the pictures
on them, the one line by which the counter offers a case to whoever learns at it, and the door between the two
(`door`), the only part that the counter's window knows. May import PySide6, the other widgets of the window, and the
core; counter.training only inside functions: it is not needed before somebody trains. Nothing here changes the
counter's case, the slips or the stock.
"""
