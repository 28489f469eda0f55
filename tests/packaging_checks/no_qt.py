"""A pytest plugin that puts Qt out of reach, to prove that the core does without it.

Used by `packaging/test` as `-p tests.packaging_checks.no_qt`; the folders that test the window are left out there.
"""

from __future__ import annotations

import sys
from importlib.abc import MetaPathFinder
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import pytest

_QT = {"PySide6", "shiboken6"}


class _OutOfReach(MetaPathFinder):
    def find_spec(self, fullname: str, path: object = None, target: object = None) -> None:
        if fullname.partition(".")[0] in _QT:
            raise ModuleNotFoundError(f"{fullname} is out of reach in this run: the core has no Qt", name=fullname)
        return


def pytest_addoption(parser: pytest.Parser, pluginmanager: pytest.PytestPluginManager) -> None:
    pluginmanager.set_blocked("pytest-qt")
    for name in ("qt_api", "qt_log_level_fail", "qt_log_ignore"):
        parser.addini(name, "read by pytest-qt, which is off in this run")
    sys.meta_path.insert(0, _OutOfReach())
