"""Times of the window and of the one door, side by side with an empty window; printed, never asserted.

    python -m tests.bench [--json] [--runs 11]

Goals: first paint with outlines at most 1.6 times an empty QMainWindow's; look or keystroke to repaint under 16 ms
(median). Run it on a quiet machine: on a busy one every figure grows, the ratio least.
"""

from __future__ import annotations

import argparse
import json
import os
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Any, NamedTuple

from tests.bench_growth import growth

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

ROOT = Path(__file__).parents[1]
CODE = "CFQ26W/G24q/841"


class Row(NamedTuple):
    """One start: wall clock and processor time, milliseconds, and peak memory."""

    ms: float
    cpu_ms: float
    peak_mb: float


# Both children report the moment the event loop comes round after their first paint has been flushed.
# time.perf_counter is the system's monotonic clock, the same in parent and child.
REPORT = """
import resource, sys, time
def report(drawn):
    used = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    print(time.perf_counter(), time.process_time() * 1000, used, drawn, flush=True)
    from PySide6.QtWidgets import QApplication
    QApplication.instance().quit()
"""
EMPTY = (
    REPORT
    + """
from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QApplication, QMainWindow
class Empty(QMainWindow):
    told = False
    def paintEvent(self, event):
        super().paintEvent(event)
        if not self.told:
            self.told = True
            QTimer.singleShot(0, lambda: report(0))
application = QApplication(["empty"])
window = Empty()
window.resize(1280, 800)
window.show()
application.exec()
"""
)
COUNTER = (
    REPORT
    + """
from counter.window.main_window import MainWindow
wake = MainWindow.wake
def on_wake(window, case=None):
    if not window.grid.model.cards:  # a first start: the outlines come with the core
        wake(window, case)
        from PySide6.QtCore import QCoreApplication
        QCoreApplication.processEvents()
    report(len(window.grid.model.cards))
MainWindow.wake = on_wake
from counter.cli import main
sys.exit(main(["--data", sys.argv[1]]))
"""
)


def main() -> None:
    """Print the table, or one JSON object."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--json", action="store_true")
    parser.add_argument("--runs", type=int, default=11)
    chosen = parser.parse_args()
    found = {
        "load_1min": os.getloadavg()[0],
        "start": {name: start(chosen.runs, environment) for name, environment in screens()},
        "assess_ms": assess_times(),
        "first_card_ms": first_card_times(),
        "repaint_ms": repaint_times(),
        "theme_ms": theme_times(),
        "first_key_ms": {name: first_key(name) for name in ("at once", "after idling")},
        "growth": growth(),
    }
    print(json.dumps(found) if chosen.json else table(found))


# -- process start to first paint


def screens() -> Iterator[tuple[str, dict[str, str]]]:
    """Yield the screens there are: none at all, and an X server where one runs or can be run."""
    yield "offscreen", {"QT_QPA_PLATFORM": "offscreen"}
    with x_server() as display:
        if display:
            yield f"X {display}", {"QT_QPA_PLATFORM": "xcb", "DISPLAY": display}


@contextmanager
def x_server() -> Iterator[str]:
    """Lend a display: the one there is, or a virtual one of our own for as long as it is needed."""
    if os.environ.get("DISPLAY") or shutil.which("Xvfb") is None:
        yield os.environ.get("DISPLAY", "")
        return
    command = ["Xvfb", "-displayfd", "1", "-screen", "0", "1920x1080x24", "-nolisten", "tcp"]
    with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True) as server:
        assert server.stdout is not None
        try:
            yield f":{server.stdout.readline().strip()}"
        finally:
            server.terminate()


def start(runs: int, environment: dict[str, str]) -> dict[str, Any]:
    """Alternate an empty window, a start with kept outlines and a first start; return medians."""
    # As packaging/run leaves it: without bytecode every start compiles us anew, which nearly doubles it, and a first
    # start would make the outlines that it begins with.
    for made in (["compileall", "-q", str(ROOT / "counter")], ["counter.window.outlines.ahead"]):
        subprocess.run([sys.executable, "-m", *made], check=False, cwd=ROOT)
    with tempfile.TemporaryDirectory() as folder:
        warm = Path(folder) / "warm"
        fill_opening(warm)
        times: dict[str, list[Row]] = {"empty": [], "warm": [], "first": []}
        for i in range(runs):
            times["empty"].append(one_start(EMPTY, environment, None)[0])
            times["warm"].append(checked(one_start(COUNTER, environment, warm)))
            if i % 3 == 0:
                times["first"].append(checked(one_start(COUNTER, environment, Path(folder) / f"new {i}")))
    found: dict[str, Any] = {
        name: {field: statistics.median(getattr(row, field) for row in rows) for field in Row._fields}
        for name, rows in times.items()
    }
    pairs = list(zip(times["warm"], times["empty"], strict=True))
    found["ratio"] = statistics.median(ours.ms / theirs.ms for ours, theirs in pairs)
    found["cpu_ratio"] = statistics.median(ours.cpu_ms / theirs.cpu_ms for ours, theirs in pairs)
    return found


def fill_opening(data: Path) -> None:
    """Keep the opening cards as a first start does."""
    script = (
        "import sys; from pathlib import Path; from counter.app import make_application;"
        "from counter.window.main_window import MainWindow; a = make_application(['x']);"
        "MainWindow(Path(sys.argv[1])).wake()"
    )
    child(script, {"QT_QPA_PLATFORM": "offscreen"}, data)


def checked(row: tuple[Row, int]) -> Row:
    assert row[1] > 0, "the first paint showed no outlines"
    return row[0]


def one_start(script: str, environment: dict[str, str], data: Path | None) -> tuple[Row, int]:
    """Return what it took from before the process was made to its first paint, and how many outlines that showed."""
    begun = time.perf_counter()
    at, cpu_ms, peak_mb, drawn = child(script, environment, data).split()
    return Row((float(at) - begun) * 1000, float(cpu_ms), float(peak_mb)), int(drawn)


def child(script: str, environment: dict[str, str], data: Path | None) -> str:
    command = [sys.executable, "-c", script, *([str(data)] if data else [])]
    whole = {**os.environ, **environment}
    done = subprocess.run(command, capture_output=True, text=True, env=whole, cwd=ROOT, timeout=120)
    if done.returncode:
        raise SystemExit(f"a measured process failed:\n{done.stderr}")
    return done.stdout


# -- change to repaint


def repaint_times(rounds: int = 12) -> dict[str, Any]:
    """Press looks and type a code into the real window; return times to the finished repaint."""
    os.environ["QT_QPA_PLATFORM"] = "offscreen"
    from counter.app import make_application
    from counter.window.idle import slices
    from counter.window.main_window import MainWindow

    with tempfile.TemporaryDirectory() as folder:
        application = make_application(["bench"])
        window = MainWindow(Path(folder))
        window.show()
        window.wake()
        painted_after(application, window, lambda: None)
        for _ in slices(window):  # what the counter makes ready while it idles after its start
            application.processEvents()
        times: dict[str, list[float]] = {"look": [], "keystroke": []}
        for i in range(rounds + 1):
            for kind, act in presses(window):
                took = painted_after(application, window, act)
                if i:  # the first round paints every picture once
                    times[kind].append(took)
        window.close()
    return {kind: spread(rows) for kind, rows in times.items()}


def theme_times(rounds: int = 12) -> dict[str, float]:
    """Change the theme to and fro over a whole answer, the training room made ahead; return times to the repaint."""
    os.environ["QT_QPA_PLATFORM"] = "offscreen"
    from PySide6.QtWidgets import QApplication

    from counter.app import make_application
    from counter.desk import Case
    from counter.window.main_window import MainWindow

    with tempfile.TemporaryDirectory() as folder:
        application = QApplication.instance() or make_application(["bench"])
        window = MainWindow(Path(folder), "light")
        window.show()
        window.wake(Case(marks=CODE))
        window.counter.training._room()
        painted_after(application, window, lambda: None)
        turns = [lambda name=name: window.set_theme(name) for name in ("dark", "light")]
        rows = [painted_after(application, window, turn) for _ in range(rounds // 2) for turn in turns]
        window.close()
    return spread(rows)


def presses(window: Any) -> Iterator[tuple[str, Callable[[], None]]]:
    """Yield what a clerk does: looks by the mouse, a code by the keys, the next customer."""
    from PySide6.QtCore import Qt
    from PySide6.QtTest import QTest

    def press(key: str, value: str) -> Callable[[], None]:
        button = next(one for one in window.looks.rows[key].buttons if one.value == value)
        return lambda: QTest.mouseClick(button, Qt.MouseButton.LeftButton)

    looks = (("glass", "white"), ("legs", "4"), ("pins", "4"), ("notch", "small-left"), ("block", "yes"))
    for key, value in (*looks, ("notch", "small-right"), ("legs", "2"), ("glass", "clear"), ("pins", "2")):
        yield "look", press(key, value)
    window.counter.next_customer()
    for character in CODE:
        yield "keystroke", lambda key=character: QTest.keyClick(window.marks.field, key)
    for key, value in looks:
        yield "look", press(key, value)
    window.counter.next_customer()


def painted_after(application: Any, window: Any, act: Callable[[], None]) -> float:
    """Return milliseconds from an act until the window has answered it and all is painted."""
    begun = time.perf_counter()
    act()
    application.processEvents()
    while pending(window):
        application.processEvents()
    for _ in range(3):  # a layout asked for while layouts are done waits for the next round
        application.processEvents()
    return (time.perf_counter() - begun) * 1000


def pending(window: Any) -> bool:
    """Whether typed text still waits for its pause to end."""
    return bool(window.marks._pause.isActive())


def spread(rows: list[float]) -> dict[str, float]:
    rows = sorted(rows)
    return {"median": statistics.median(rows), "p99": rows[int(len(rows) * 0.99)], "most": rows[-1], "n": len(rows)}


FIRST_KEY = """
import sys, tempfile, time
from pathlib import Path
from PySide6.QtTest import QTest
from counter.app import make_application
from counter.window.idle import slices
from counter.window.main_window import MainWindow
from tests.bench import painted_after
application = make_application(["first key"])
window = MainWindow(Path(sys.argv[1]))
window.show()
window.wake()
painted_after(application, window, lambda: None)
for _ in slices(window) if sys.argv[2] == "after idling" else ():
    application.processEvents()
print(painted_after(application, window, lambda: QTest.keyClick(window.marks.field, "C")))
"""


def first_key(when: str, runs: int = 5) -> float:
    """Return the median of the first key of the day to its paint, milliseconds, in processes of their own."""
    with tempfile.TemporaryDirectory() as folder:
        environment = {**os.environ, "QT_QPA_PLATFORM": "offscreen"}
        command = [sys.executable, "-c", FIRST_KEY, folder, when]
        rows = [
            float(
                subprocess.run(command, capture_output=True, text=True, check=True, cwd=ROOT, env=environment).stdout
            )
            for _ in range(runs)
        ]
    return statistics.median(rows)


# -- the door


def assess_times(repeats: int = 60) -> dict[str, dict[str, float]]:
    """Return times of assess for an empty, a middling and a full case."""
    from counter import catalogue
    from counter.desk import Case, assess
    from counter.fit import Fixture

    shipped = catalogue.load()
    fixture = Fixture(holder="G24q-3", ballast="electronic", ballast_watts=(26, 32), lamp_count=2, enclosed=True)
    looks: dict[str, str | float] = {"legs": "4", "pins": "4", "notch": "small-right", "glass": "white"}
    cases = {
        "empty": Case(),
        "mid": Case(looks={"legs": "4", "pins": "4"}),
        "full": Case(looks={**looks, "length_mm": 165.0}, marks=CODE, fixture=fixture, use="lighting"),
    }
    # What a case like the last one finds remembered: the same reading, the same questions.
    found = {}
    for name, case in cases.items():
        assess(shipped, case)
        rows = []
        for _ in range(repeats):
            begun = time.perf_counter()
            assess(shipped, case)
            rows.append((time.perf_counter() - begun) * 1000)
        found[name] = spread(rows)
    rows = []
    for watts in (5, 7, 9, 10, 13, 18, 26, 32, 42, 57, 70):  # codes not met before
        for colour in ("827", "830", "835", "840", "850"):
            case = cases["full"].model_copy(update={"marks": f"CFQ{watts}W/{colour}"})
            begun = time.perf_counter()
            assess(shipped, case)
            rows.append((time.perf_counter() - begun) * 1000)
    found["full, a new code each time"] = spread(rows)
    return found


def first_card_times(rounds: int = 15) -> dict[str, float]:
    """Return times until the first card of a round, nothing worked out about the catalogue yet."""
    from counter import catalogue
    from counter.training import card_stream

    shipped, rows = catalogue.load(), []
    for seed in range(rounds):
        begun = time.perf_counter()
        next(card_stream(shipped.model_copy(), seed))
        rows.append((time.perf_counter() - begun) * 1000)
    return spread(rows)


# -- in words


def table(found: dict[str, Any]) -> str:
    head = "process start to first paint            ms  cpu ms   peak MB"
    lines = [f"load {found['load_1min']:.1f} on {os.cpu_count()} processors", "", head]
    for screen, rows in found["start"].items():
        for name, words in (("empty", "empty QMainWindow"), ("warm", "counter"), ("first", "counter, first start")):
            row = rows[name]
            lines.append(f"  {screen:<10} {words:<21} {row['ms']:7.0f} {row['cpu_ms']:7.0f} {row['peak_mb']:9.0f}")
        lines.append(
            f"  {screen:<10} counter to empty      {rows['ratio']:7.2f} {rows['cpu_ratio']:7.2f}    goal 1.6"
        )
    lines += ["", "to repaint, whole window         median     p99    most   ms, goal 16"]
    lines += [_spread_line(name, row) for name, row in found["repaint_ms"].items()]
    lines += [_spread_line("theme, goal 100", found["theme_ms"])]
    lines += ["", "assess                           median     p99    most   ms"]
    lines += [_spread_line(name, row) for name, row in found["assess_ms"].items()]
    lines += [_spread_line("first training card, goal 200", found["first_card_ms"])]
    lines += ["", "first key of the day to repaint                     ms, goal 33"]
    lines += [f"  {name:<28} {ms:8.1f}" for name, ms in found["first_key_ms"].items()]
    lines += ["", "growth                                      times       ms    floor   ratio"]
    for name, rows in found["growth"].items():
        lines += [
            f"  {name:<40} {times:>6} {row['ms']:8.1f} {row['floor_ms']:8.1f} {row['ratio']:7.1f}"
            for times, row in rows.items()
        ]
    return "\n".join(lines)


def _spread_line(name: str, row: dict[str, float]) -> str:
    return f"  {name:<28} {row['median']:8.1f} {row['p99']:8.1f} {row['most']:8.1f}"


if __name__ == "__main__":
    main()
