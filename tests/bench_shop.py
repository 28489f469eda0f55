"""Figures of the shop: `python -m tests.bench_shop`. Import against csv and rapidfuzz, search, start and memory."""

from __future__ import annotations

import csv
import io
import os
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from rapidfuzz import fuzz, process, utils

from counter import catalogue, marks, shelf, shop
from counter.shelf._demo import HEADINGS, demo_lines
from counter.shop import open_store

LINES = 100_000
SEARCHES = ("c", "cf", "cfq", "cfq2", "cfq26", "26w", "g24q 8", "a12", "2000", "ballast", "zinc", "48")


def labelled(count, seed=5):
    """Return a list as text, and what each line is."""
    lines = demo_lines(SHIPPED, count, seed)
    out = io.StringIO()
    writer = csv.writer(out)
    writer.writerow(HEADINGS)
    writer.writerows(line.cells for line in lines)
    return out.getvalue(), [line.lamp for line in lines]


def by_fuzz(text, cut):
    """Match by similarity of text: every code that the program can write against the description."""
    codes = {}
    for lamp in SHIPPED.lamps:
        for system in ("nema", "ansi-linear", "ansi-germicidal", "ilcos", "partial"):
            code = marks.format_code(SHIPPED, lamp.id, system, "840")
            if code:
                codes.setdefault(code, lamp.id)
    names = list(codes)
    found, seen = [], {}
    for row in csv.DictReader(io.StringIO(text)):
        words = row["Description"]
        if words not in seen:
            hit = process.extractOne(
                words, names, scorer=fuzz.WRatio, processor=utils.default_process, score_cutoff=cut
            )
            seen[words] = codes[hit[0]] if hit else None
        found.append(seen[words])
    return found


def told(name, seconds, found, true):
    lamps = [at for at, one in enumerate(true) if one is not None]
    right = sum(found[at] == true[at] for at in range(len(true)))
    wrong = sum(found[at] is not None and found[at] != true[at] for at in range(len(true)))
    share = right / len(true)
    print(f"{name:<28} {seconds:7.1f} s   right {share:6.1%}   given a wrong lamp {wrong}   lamps {len(lamps)}")


def importing(data):
    text, true = labelled(LINES)
    path = data / "list.csv"
    path.write_text(text, "utf-8")
    start = time.perf_counter()
    plan = shelf.read_plan(path, shelf.Matcher(SHIPPED), None)
    matching = time.perf_counter() - start
    told("reader of marks", matching, [item["lamp"] for item in plan.items], true)
    for cut in (70, 86):
        start = time.perf_counter()
        found = by_fuzz(text, cut)
        told(f"csv + rapidfuzz, from {cut}", time.perf_counter() - start, found, true)
    start = time.perf_counter()
    shelf.put(open_store(data), plan)
    print(f"into the store               {time.perf_counter() - start:7.1f} s")


def searching(data):
    store = open_store(data)
    took = []
    for text in SEARCHES * 5:
        start = time.perf_counter()
        shelf.find(store, text)
        took.append((time.perf_counter() - start) * 1000)
    print(f"search of {LINES} lines: median {statistics.median(took):.1f} ms, most {max(took):.1f} ms")


START = """
import os, resource, sys, time
began = time.perf_counter()
from pathlib import Path
from counter.app import make_application
from counter.window.main_window import MainWindow
application = make_application(["x"])
window = MainWindow(Path(sys.argv[1]))
window.show()
while not window._is_painted:
    application.processEvents()
painted = time.perf_counter() - began
window.wake()
awake = time.perf_counter() - began
end = time.perf_counter() + 2.5
while time.perf_counter() < end:
    application.processEvents()
print(painted * 1000, awake * 1000, resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024)
window.close()
"""


def starting(name, data):
    env = os.environ | {"QT_QPA_PLATFORM": "offscreen", "PYTHONPATH": str(Path(catalogue.__file__).parents[2])}
    runs = []
    for _ in range(5):
        out = subprocess.run([sys.executable, "-c", START, data], env=env, capture_output=True, text=True, check=True)
        runs.append([float(word) for word in out.stdout.split()])
    painted, awake, memory = (statistics.median(column) for column in zip(*runs, strict=True))
    print(f"start with {name:<12} first paint {painted:5.0f} ms, awake {awake:5.0f} ms, memory {memory:5.0f} MB")


SHIPPED = catalogue.load()

if __name__ == "__main__":
    with tempfile.TemporaryDirectory() as folder:
        os.environ["COUNTER_LOCAL"] = f"{folder}/machine"
        full, empty, none = (Path(folder) / name for name in ("full", "empty", "none"))
        full.mkdir()
        importing(full)
        searching(full)
        open_store(empty)
        shop.has_store(none)
        for name, data in (("no store", none), ("empty store", empty), ("full store", full)):
            starting(name, data)
