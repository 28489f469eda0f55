"""Change the program at a sample of places, one at a time, and name the changes that no test noticed.

    packaging/mutate counter/fit --count 60 --seed 1      (or: python -m tests.mutate …)

cosmic-ray makes and runs the changes, in a copy of the tree; which tests should notice stands in pyproject.toml under
[tool.lamp-counter.mutation]. The same seed takes the same sample of the same code. A change that survives is read: it
shows a test that is missing, or a place where both ways are right, which the reader then says in a comment there.
"""

from __future__ import annotations

import argparse
import json
import os
import random
import re
import shutil
import sqlite3
import subprocess
import sys
import tempfile
import tomllib
from contextlib import closing
from pathlib import Path
from typing import Any

ROOT = Path(__file__).parents[1]
PLAN: dict[str, list[str]] = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["tool"][
    "lamp-counter"
]["mutation"]
# Unions in annotations are never evaluated here; no test could notice a change of one.
POINTLESS = re.compile(r"ReplaceBinaryOperator_BitOr_")
TABLES = ("mutation_specs", "work_items", "work_results")


def main() -> int:
    """Run the sample and print what became of it; exit 1 where a change survived."""
    chosen = _arguments()
    with tempfile.TemporaryDirectory() as folder:
        tree = Path(folder)
        for name in ("counter", "resources", "tests"):
            shutil.copytree(ROOT / name, tree / name, ignore=shutil.ignore_patterns("__pycache__"))
        shutil.copytree(ROOT / "packaging", tree / "packaging")
        shutil.copy(ROOT / "pyproject.toml", tree)
        settings, session = tree / "mutation.toml", tree / "mutation.sqlite"
        settings.write_text(_settings(chosen), encoding="utf-8")
        environment = {**os.environ, "PYTHONPATH": str(tree), "QT_QPA_PLATFORM": "offscreen"}
        _cosmic_ray(tree, environment, "baseline", settings)  # tests that fail as things are notice everything
        _cosmic_ray(tree, environment, "init", settings, session)
        total = _sample(session, chosen.count, chosen.seed)
        _cosmic_ray(tree, environment, "exec", settings, session)
        return _report(session, total, as_json=chosen.json)


def _arguments() -> argparse.Namespace:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("folder", choices=PLAN)
    parser.add_argument("--count", type=int, default=50)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--timeout", type=float, default=300, help="seconds for the tests of one change")
    parser.add_argument("--json", action="store_true")
    return parser.parse_args()


def _settings(chosen: argparse.Namespace) -> str:
    tests = " ".join(PLAN[chosen.folder])
    command = f"{sys.executable} -m pytest -x -q -p no:cacheprovider {tests}"
    lines = [
        "[cosmic-ray]",
        f"module-path = {json.dumps(chosen.folder)}",
        f"timeout = {chosen.timeout}",
        "excluded-modules = []",
        f"test-command = {json.dumps(command)}",
        "[cosmic-ray.distributor]",
        'name = "local"',
    ]
    return "\n".join(lines)


def _cosmic_ray(tree: Path, environment: dict[str, str], *words: Any) -> None:
    beside = Path(sys.executable).with_name("cosmic-ray")
    command = str(beside) if beside.exists() else shutil.which("cosmic-ray")
    if command is None:
        raise SystemExit("cosmic-ray is not installed; packaging/mutate installs it")
    done = subprocess.run([command, *map(str, words)], cwd=tree, env=environment, capture_output=True, text=True)
    if done.returncode:
        raise SystemExit(f"cosmic-ray {words[0]} failed:\n{done.stdout[-2000:]}\n{done.stderr[-2000:]}")


def _sample(session: Path, count: int, seed: int) -> int:
    """Keep a sample of the changes in the session and return how many there were to choose from."""
    with closing(sqlite3.connect(session)) as store:
        rows = store.execute(
            "SELECT job_id, operator_name FROM mutation_specs"
            " ORDER BY module_path, start_pos_row, start_pos_col, operator_name, occurrence"
        ).fetchall()
        sensible = [job for job, operator in rows if not POINTLESS.search(operator)]
        kept = set(random.Random(seed).sample(sensible, min(count, len(sensible))))
        for table in TABLES:
            store.executemany(f"DELETE FROM {table} WHERE job_id = ?", [(job,) for job, _ in rows if job not in kept])
        store.commit()
    return len(sensible)


def _report(session: Path, total: int, *, as_json: bool) -> int:
    with closing(sqlite3.connect(session)) as store:
        rows = store.execute(
            "SELECT s.module_path, s.start_pos_row, s.operator_name, r.test_outcome, r.diff"
            " FROM mutation_specs s JOIN work_results r USING (job_id) ORDER BY 1, 2"
        ).fetchall()
    survived = [row for row in rows if row[3].upper() == "SURVIVED"]
    if as_json:
        named = [dict(zip(("file", "line", "operator", "outcome", "diff"), row, strict=True)) for row in survived]
        print(json.dumps({"changes": len(rows), "of": total, "survived": named}))
    else:
        for file, line, operator, _, diff in survived:
            changed = "\n".join(one for one in diff.splitlines() if re.match(r"[-+][^-+]", one))
            print(f"{file}:{line} {operator}\n{changed}\n")
        print(f"{len(rows)} of {total} possible changes, {len(survived)} survived")
    return int(bool(survived))


if __name__ == "__main__":
    sys.exit(main())
