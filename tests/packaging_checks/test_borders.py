"""A wrong import breaks the contracts: each is planted in a copy of the tree, and import-linter must name it."""

from __future__ import annotations

import shutil
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
PLANTED = {
    "fit/_near.py": "from counter.desk import Case",
    "fit/_texts.py": "from counter.marks import read",
    "identify/_rank.py": "from counter.marks import read",
    "identify/_next.py": "from counter.training import Lesson",
    "catalogue/_load.py": "from counter.fit import judge",
    "catalogue/_shop_file.py": "from counter.shop import open_store",
    "desk/_case.py": "from counter.desk._assess import assess",
    "desk/_lead.py": "import PySide6.QtCore",
    "training/_lesson.py": "from counter.window.parts import pen",
}


@pytest.fixture(scope="module")
def broken(tmp_path_factory):
    """Return what import-linter says of a tree with all of them planted."""
    root = tmp_path_factory.mktemp("planted")
    shutil.copytree(ROOT / "counter", root / "counter", ignore=shutil.ignore_patterns("__pycache__"))
    shutil.copy(ROOT / "pyproject.toml", root)
    for file, line in PLANTED.items():
        path = root / "counter" / file
        path.write_text(path.read_text(encoding="utf-8") + f"\n{line}\n", encoding="utf-8")
    command = Path(sys.executable).with_name("lint-imports")
    return subprocess.run([command, "--no-cache"], cwd=root, capture_output=True, text=True, check=False)


def test_planted_imports_break_the_contracts(broken):
    assert broken.returncode == 1


@pytest.mark.parametrize("file", PLANTED)
def test_each_planted_import_is_named(broken, file):
    importer = "counter." + file.removesuffix(".py").replace("/", ".")
    imported = PLANTED[file].split()[1].partition(".Qt")[0]
    lines = [line for line in broken.stdout.splitlines() if f"{importer} ->" in line]
    assert any(imported in line for line in lines), broken.stdout
