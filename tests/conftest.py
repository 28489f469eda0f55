"""What all tests share: a screen that needs none, the shipped catalogue once, a data folder of one's own.

Nothing here imports Qt before a test asks for a window, so that the core's tests run where there is no Qt.
"""

from __future__ import annotations

import gc
import json
import os
import sys
from typing import TYPE_CHECKING, Any

import pytest

from counter import paths
from counter.catalogue import Catalogue, load

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from pathlib import Path

    from counter.window.main_window import MainWindow

if "PySide6" in sys.modules:  # pytest-qt's doing
    import counter.window  # noqa: F401 - keeps PySide6 from reading the source of what comes after
os.environ["COUNTER_LANGUAGE"] = "en"  # whatever the machine speaks
os.environ["QT_QPA_PLATFORM"] = "offscreen"  # read by Qt when the application is made, not when it is imported


def pytest_collection_finish() -> None:
    """Let the collector of garbage pass over what stands before the first test: that took up to a sixth of all."""
    gc.freeze()


@pytest.fixture(scope="session")
def catalogue() -> Catalogue:
    """Return the shipped catalogue; it is frozen, so one is enough."""
    shipped = load()
    gc.freeze()
    return shipped


@pytest.fixture(scope="session")
def shipped_json() -> str:
    return (paths.resources() / "catalogue.json").read_text(encoding="utf-8")


@pytest.fixture
def changed(shipped_json: str) -> Callable[[Callable[[dict[str, Any]], None]], Catalogue]:
    """Return a maker of catalogues: it hands the shipped JSON to a function that changes it, and loads the result."""

    def make(change: Callable[[dict[str, Any]], None]) -> Catalogue:
        document = json.loads(shipped_json)
        change(document)
        return Catalogue.model_validate_json(json.dumps(document))

    return make


@pytest.fixture(autouse=True, scope="session")
def _own_data(tmp_path_factory: pytest.TempPathFactory) -> Iterator[None]:
    """Keep every test out of the folders of whoever runs it."""
    own = {"COUNTER_DATA": "data", "COUNTER_LOCAL": "machine"}
    before = {name: os.environ.get(name) for name in (*own, "COUNTER_STORE")}
    os.environ.update({name: str(tmp_path_factory.mktemp(folder)) for name, folder in own.items()})
    os.environ.pop("COUNTER_STORE", None)
    yield
    for name, value in before.items():
        if value is None:
            os.environ.pop(name, None)
        else:
            os.environ[name] = value


@pytest.fixture(autouse=True)
def _stores_closed() -> Iterator[None]:
    """Let go of every store that a test opened, if the database layer was loaded at all."""
    yield
    opened = sys.modules.get("counter.shop._store")
    if opened is not None:
        opened.close_all()


@pytest.fixture(scope="session")
def server() -> Iterator[Any]:
    """Return a PostgreSQL server of the tests' own."""
    from tests.shop_servers import Server

    made = Server()
    yield made
    made.close()


@pytest.fixture(params=["sqlite", "postgresql"])
def shop_data(request: pytest.FixtureRequest, data: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Return a data folder whose store is SQLite, and again one whose store is PostgreSQL."""
    if request.param == "postgresql":
        monkeypatch.setenv("COUNTER_STORE", request.getfixturevalue("server").fresh())
    return data


@pytest.fixture
def data(tmp_path: Path) -> Path:
    """Return a data folder that does not exist yet, as on the first day."""
    return tmp_path / "a data folder"


@pytest.fixture
def windows(qapp: Any, data: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Callable[..., MainWindow]]:
    """Return a maker of the real window, shown and awake, on a data folder of its own; nobody is asked at its end."""
    import shiboken6
    from PySide6.QtTest import QTest

    from counter.window.main_window import MainWindow

    monkeypatch.setattr("counter.window.parts.unsaved.ask", lambda *_: True)
    qapp.setStyle("Fusion")  # as counter.app does
    made: list[MainWindow] = []

    def make(theme: str = "", case: Any = None, *, awake: bool = True) -> MainWindow:
        window = MainWindow(data, theme)
        made.append(window)
        window.show()
        window.activateWindow()
        if awake:
            window.wake(case)
        settle(qapp)
        assert QTest.qWaitForWindowActive(window, 5000), "no shortcut works in a window that is not active"
        return window

    yield make
    for window in made:
        window.close()
        # Not by deleteLater: without an event loop windows would pile up.
        shiboken6.delete(window)


@pytest.fixture
def window(windows: Callable[..., MainWindow]) -> MainWindow:
    return windows()


def settle(qapp: Any) -> None:
    """Let layouts and paints come to rest: one asked for while others are done waits for the next round."""
    for _ in range(4):
        qapp.processEvents()
