"""A built package holds all that the program reads at run time, and the licence."""

from __future__ import annotations

import shutil
import subprocess
import sys
import zipfile
from pathlib import Path

ROOT = Path(__file__).parents[2]


def test_the_wheel_holds_the_resources_and_the_licence(tmp_path: Path) -> None:
    # A copy: the build looks at the whole folder, and a checkout may hold anything.
    source = tmp_path / "source"
    for folder in ("counter", "resources"):
        shutil.copytree(ROOT / folder, source / folder, ignore=shutil.ignore_patterns("__pycache__"))
    (source / "packaging").mkdir()
    shutil.copy(ROOT / "packaging" / "LICENSE", source / "packaging")
    shutil.copy(ROOT / "pyproject.toml", source)
    (source / "README.md").write_text("# In place of the real one\n")
    build = [sys.executable, "-m", "hatchling", "build", "--target", "wheel", "--directory", tmp_path]
    subprocess.run(build, cwd=source, check=True, capture_output=True, timeout=120)
    names = set(zipfile.ZipFile(next(tmp_path.glob("*.whl"))).namelist())
    code = {path.relative_to(source).as_posix() for path in source.glob("counter/**/*.py")}
    resources = {f"counter/{path.relative_to(source).as_posix()}" for path in source.glob("resources/**/*.*")}
    assert len(resources) > 1
    assert code | resources <= names
    assert any(name.endswith("/licenses/packaging/LICENSE") for name in names)
