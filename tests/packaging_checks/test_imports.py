"""The program imports nothing that its users are not given: the tests' own packages are in the same .venv."""

from __future__ import annotations

import ast
import re
import sys
from importlib.metadata import packages_distributions
from pathlib import Path
from typing import TYPE_CHECKING

from packaging.utils import canonicalize_name

if TYPE_CHECKING:
    from collections.abc import Iterator

ROOT = Path(__file__).parents[2]


def imported() -> Iterator[tuple[str, str]]:
    """Yield each file of the program with the first word of each module that it imports."""
    for path in sorted((ROOT / "counter").rglob("*.py")):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Import):
                yield from ((path.name, alias.name.partition(".")[0]) for alias in node.names)
            elif isinstance(node, ast.ImportFrom) and not node.level and node.module:
                yield path.name, node.module.partition(".")[0]


def test_the_program_imports_only_what_its_lock_brings() -> None:
    lock = (ROOT / "packaging" / "requirements.lock").read_text(encoding="utf-8")
    given = {canonicalize_name(name) for name in re.findall(r"^([\w.-]+)==", lock, flags=re.MULTILINE)}
    owners = packages_distributions()
    outside = {
        (file, module)
        for file, module in imported()
        if module not in sys.stdlib_module_names
        and module != "counter"
        and not given & {canonicalize_name(owner) for owner in owners.get(module, [])}
    }
    assert not outside
