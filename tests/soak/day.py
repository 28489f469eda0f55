"""A day at the counter, sped up: python -m tests.soak.day [--customers 320] [--seed 1] [--json].

Customers come with looks, marks, fixtures, opened outlines, sources looked up, colours changed, the training room
entered and left. Prints memory over the day as a slope, references to None, and what is left of windows, timers and
threads when the last customer has gone: all of it should be as after the first few.
"""

from __future__ import annotations

import argparse
import gc
import json
import os
import random
import statistics
import sys
import tempfile
import threading
from pathlib import Path
from typing import Any, NamedTuple

WARM_UP = 20  # customers in which everything is met once and kept on purpose
LOOK_EVERY = 5
CODES = ("CFQ26W/G24q/841", "FT18W/2G11", "GFT9W/G23", "F32T8/841", "CF?13W/GX23", "no code at all", "")


class Left(NamedTuple):
    """What there is at a moment; memory in MB."""

    memory_mb: float
    none: int
    windows: int
    timers: int
    threads: int


def memory_mb() -> float:
    """Return the memory in use, from Linux."""
    pages = int(Path("/proc/self/statm").read_text().split()[1])
    return pages * os.sysconf("SC_PAGE_SIZE") / 2**20


def left(application: Any, window: Any) -> Left:
    """Return what there is now, after Python and Qt have cleared away what they may."""
    from PySide6.QtCore import QEvent, QTimer

    application.sendPostedEvents(None, QEvent.Type.DeferredDelete)
    application.processEvents()
    gc.collect()
    timers = [timer for timer in window.findChildren(QTimer) if timer.isActive()]
    tops = [widget for widget in application.topLevelWidgets() if widget.parent() is None or widget.isVisible()]
    return Left(memory_mb(), sys.getrefcount(None), len(tops), len(timers), threading.active_count())


def customer(application: Any, window: Any, rng: random.Random) -> None:
    """Serve one: a handful of acts in any order, then the next."""
    acts = rng.choices((_look, _look, _marks, _marks, _fixture, _outline, _source, _theme, _undo, _training), k=9)
    for act in acts:
        act(window, rng)
        application.processEvents()
    window.counter.next_customer()
    application.processEvents()


def _look(window: Any, rng: random.Random) -> None:
    key = rng.choice([look.key for look in window.catalogue.looks if not look.is_measured and look.values])
    values = window.catalogue.look_by_key[key].values
    window.counter.answer_look(key, rng.choice(values).value)


def _marks(window: Any, rng: random.Random) -> None:
    window.counter.change(marks=rng.choice(CODES))


def _fixture(window: Any, rng: random.Random) -> None:
    holder = rng.choice(window.catalogue.bases).designation
    window.counter.change_fixture({"holder": holder, "ballast": rng.choice(("magnetic", "electronic"))})


def _outline(window: Any, rng: random.Random) -> None:
    window.counter.open_outline(rng.choice(window.catalogue.lamps).id)


def _source(window: Any, rng: random.Random) -> None:
    from counter.window.parts.source_dialog import SourceDialog

    if window.detail._facts:
        window.counter.open_source(rng.choice(window.detail._facts))
    for dialog in window.findChildren(SourceDialog):
        dialog.close()


def _theme(window: Any, rng: random.Random) -> None:
    window.set_theme(rng.choice(("light", "dark")))


def _undo(window: Any, rng: random.Random) -> None:
    for _ in range(rng.randrange(4)):
        window.counter.undo()


def _training(window: Any, rng: random.Random) -> None:
    if rng.randrange(8) == 0:
        window.counter.training.enter()
        room = window.counter.training.room
        if room is not None:
            room.close()


def day(customers: int, seed: int) -> dict[str, Any]:
    """Serve so many and return what was measured."""
    os.environ["QT_QPA_PLATFORM"] = "offscreen"
    from counter.app import make_application
    from counter.window.main_window import MainWindow

    with tempfile.TemporaryDirectory() as folder:
        application = make_application(["day"])
        window = MainWindow(Path(folder), "light")
        window.show()
        window.wake()
        rng = random.Random(seed)
        rows = []
        for number in range(WARM_UP + customers):
            customer(application, window, rng)
            if number >= WARM_UP and number % LOOK_EVERY == 0:
                rows.append(left(application, window))
        window.close()
    slope = statistics.linear_regression(range(len(rows)), [row.memory_mb for row in rows]).slope / LOOK_EVERY
    return {
        "customers": customers,
        "kb_a_customer": slope * 1024,
        "memory_mb": [rows[0].memory_mb, rows[-1].memory_mb],
        "none": [rows[0].none, rows[-1].none],
        **{name: [getattr(rows[0], name), getattr(rows[-1], name)] for name in ("windows", "timers", "threads")},
    }


def main() -> None:
    """Print the day."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--customers", type=int, default=320)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--json", action="store_true")
    chosen = parser.parse_args()
    found = day(chosen.customers, chosen.seed)
    print(json.dumps(found) if chosen.json else "\n".join(f"{name:<16} {value}" for name, value in found.items()))


if __name__ == "__main__":
    main()
