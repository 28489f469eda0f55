"""The walk along a case's steps ends somewhere, and keeps the newest."""

from counter.desk import Case, History
from counter.desk._history import MOST_STEPS


def test_the_oldest_steps_go_when_there_are_too_many():
    history = History(Case())
    for watts in range(MOST_STEPS + 50):
        history.change(looks={"watts": str(watts)})
    steps = 0
    while history.undo():
        steps += 1
    assert steps == MOST_STEPS
    assert history.case.looks["watts"] == "49"
