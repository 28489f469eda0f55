"""The window as it stands before the core is awake: settings, colours, places. `wake` brings the counter.

It opens in two steps. Before the first paint there are the answer bar, the outlines as they were kept, and empty
frames; `wake` then makes a Counter with all the rest. So nothing imported here may import pydantic or name `Qt`.
"""

from __future__ import annotations

import pathlib
from typing import TYPE_CHECKING, cast

from PySide6.QtCore import QRect, QSettings, Signal
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QApplication, QMainWindow

from counter import language
from counter.files import machine_file, read_bytes
from counter.language import tr
from counter.window.answer_bar import AnswerBar
from counter.window.arrangement import Arrangement, numbers
from counter.window.outlines.opening import remembered
from counter.window.outlines.outline_grid import OutlineGrid
from counter.window.parts import theme as themes

if TYPE_CHECKING:
    from pathlib import Path

    from PySide6.QtGui import (
        QCloseEvent,
        QContextMenuEvent,
        QDragEnterEvent,
        QDropEvent,
        QMouseEvent,
        QPaintEvent,
    )

    from counter.catalogue import Catalogue
    from counter.desk import Assessment, Case
    from counter.outline import Units
    from counter.window.counter_room import Counter
    from counter.window.fixture.fixture_pane import FixturePane
    from counter.window.looks.looks_pane import LooksPane
    from counter.window.marks.marks_pane import MarksPane
    from counter.window.outlines.detail_pane import DetailPane
    from counter.window.side.cautions_pane import CautionsPane
    from counter.window.side.side_tabs import SideTabs

SETTINGS_FILE = "window.ini"
FIRST_SIZE = (1280, 800)
ROOMY_SIZE = (1600, 1000)  # what a first window takes of a larger screen
FRAME_PX = 40  # the system's own title bar
LARGEST_SETTINGS = 1_000_000  # bytes; ours has two thousand


class MainWindow(QMainWindow):
    """Asleep: a picture of the counter. Awake: `counter` holds the case, and these panes belong to it."""

    painted = Signal()

    counter: Counter
    looks: LooksPane
    detail: DetailPane
    marks: MarksPane
    fixture: FixturePane
    side: SideTabs
    cautions: CautionsPane

    def __init__(self, data: Path, theme_name: str = "", spoken: str = "") -> None:
        super().__init__()
        self.data = data
        self.settings = QSettings(str(_settings_file(data)), QSettings.Format.IniFormat)
        language.use(language.wished(spoken, str(self.settings.value("language", ""))))
        self.theme_name = theme_name or str(self.settings.value("theme", "system"))
        self.units: Units = "in" if self.settings.value("units") == "in" else "mm"
        self.is_awake = False
        self._is_to_fill = False
        self.theme = themes.kept_theme(self.theme_name, str(self.settings.value("seen_theme", "")))
        self._dress()  # before there are widgets: dressing each again is what costs
        self._is_painted = False
        self.furnish()
        self.setAcceptDrops(True)
        self.resize(*FIRST_SIZE)
        self._restore()
        self.grid.show_cards(remembered(data))

    def furnish(self) -> None:
        """Make what stands here before the core is awake, in the language now spoken; what stood here goes."""
        self.setWindowTitle(tr("Lamp counter"))
        QGuiApplication.setApplicationDisplayName(self.windowTitle())
        self.answer = AnswerBar(self.theme)
        self.grid = OutlineGrid(self.theme)
        self.places = Arrangement(self.answer, self.grid)
        self.setCentralWidget(self.places)

    # -- what the counter knows, or nothing before it is awake

    @property
    def case(self) -> Case | None:
        """The present case; None before the window is awake."""
        return self.counter.case if self.is_awake else None

    @property
    def assessment(self) -> Assessment | None:
        """What the desk answers the present case with."""
        return self.counter.assessment if self.is_awake else None

    @property
    def catalogue(self) -> Catalogue | None:
        """The catalogue in use."""
        return self.counter.catalogue if self.is_awake else None

    # -- how it looks

    def _dress(self) -> None:
        application = QApplication.instance()
        if isinstance(application, QApplication):
            application.setPalette(themes.palette(self.theme))

    def set_theme(self, name: str) -> None:
        """Change to light, dark or the system's palette, and keep the choice."""
        self.theme_name = name
        self.keep("theme", name)
        self.follow_system()

    def follow_system(self, *_: object) -> None:
        """Take the palette of the choice and of what the system asks for now."""
        theme = themes.theme_of(self.theme_name)
        if theme == self.theme:
            return
        self.theme = theme
        self.settings.setValue("seen_theme", theme.name)
        self._dress()
        for pane in (self.answer, self.grid):
            pane.set_theme(theme)
        if self.is_awake:
            self.counter.set_theme(theme)

    def keep(self, name: str, value: str) -> None:
        """Keep a choice of this machine, and say so where it cannot be: it counts until the program ends."""
        self.settings.setValue(name, value)
        self.settings.sync()
        if self.settings.status() != QSettings.Status.NoError and self.is_awake:
            self.counter.say_not_kept(self.settings.fileName())

    def set_units(self, units: str) -> None:
        """Show lengths in millimetres or inches, and keep the choice."""
        self.units = cast("Units", units)
        self.keep("units", units)
        if self.is_awake:
            self.counter.show()

    def set_language(self, code: str) -> None:
        """Speak another language from now on, and keep the choice; the case stays under the hand."""
        from counter.window.anew import speak_anew

        self.keep("language", code)
        speak_anew(self, code)

    # -- where it stands

    def fit_screen(self) -> None:
        """Take a size that the screen has room for, where none is kept from before."""
        if numbers(self.settings.value("window")):
            return
        screen = QGuiApplication.primaryScreen()
        if screen is None:
            return
        room = screen.availableGeometry()
        if room.width() <= ROOMY_SIZE[0] or room.height() <= ROOMY_SIZE[1]:
            self.setGeometry(room.adjusted(0, min(FRAME_PX, room.height() // 10), 0, 0))
            self._is_to_fill = True
        else:
            self.setGeometry(QRect(room.center().x() - 800, room.center().y() - 500, *ROOMY_SIZE))

    def _restore(self) -> None:
        kept = numbers(self.settings.value("window"))
        frame = _on_a_screen(QRect(*kept[:4])) if len(kept) == 5 else None
        if frame is not None:
            self.setGeometry(frame)
            self._is_to_fill = kept[4] == 1
        self.places.restore(self.settings)

    def fill_screen(self) -> None:
        """Fill the screen where it did so before, or where it is small; the first paint does not wait for that."""
        if self._is_to_fill:
            self.showMaximized()

    def _save(self) -> None:
        frame = self.normalGeometry() if self.isMaximized() else self.geometry()
        kept = (frame.x(), frame.y(), frame.width(), frame.height(), int(self.isMaximized()))
        self.settings.setValue("window", " ".join(map(str, kept)))
        self.places.save(self.settings)
        self.settings.sync()

    def closeEvent(self, event: QCloseEvent) -> None:
        from counter.window.parts.unsaved import close_dialogs  # not needed for the first paint

        if not close_dialogs(self):
            event.ignore()
            return
        self._save()
        if self.is_awake:
            self.counter.close()
        super().closeEvent(event)

    def paintEvent(self, event: QPaintEvent) -> None:
        super().paintEvent(event)
        if not self._is_painted:
            self._is_painted = True
            self.painted.emit()

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """A click that missed everything: the keys go to the marks, where most customers begin."""
        if self.is_awake:
            self.marks.field.setFocus()
        super().mousePressEvent(event)

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        if self.is_awake and any(url.isLocalFile() for url in event.mimeData().urls()):
            event.acceptProposedAction()

    def dropEvent(self, event: QDropEvent) -> None:
        """Open a case file that is dropped on the window."""
        files = [url.toLocalFile() for url in event.mimeData().urls() if url.isLocalFile()]
        if self.is_awake and files:
            event.acceptProposedAction()
            self.counter.desk_cases.open_file(pathlib.Path(files[0]))

    def contextMenuEvent(self, event: QContextMenuEvent) -> None:
        """What can be done with the case, wherever no pane has a menu of its own."""
        menu = self.answer.menu.menu()
        if self.is_awake and menu is not None:
            menu.popup(event.globalPos())

    def come_forward(self) -> None:
        """Show this window before others, as when the program was started again."""
        if self.isMinimized():
            self.showNormal()
        self.raise_()
        self.activateWindow()

    # -- waking: what the first paint need not wait for

    def wake(self, case: Case | None = None) -> None:
        """Load the catalogue and the core, fill the panes, take a case; what fails is said in the window."""
        from counter.window.counter_room import wake

        wake(self, case)

    def open_case(self, case: Case) -> None:
        """Show a case that was kept in a file; the present one comes back by undo."""
        if self.is_awake:
            self.counter.open_case(case)


def _settings_file(data: Path) -> Path:
    """Return the file of settings; another where Qt would wait at it or swallow it whole: a pipe, a giant."""
    path = machine_file(data, SETTINGS_FILE)
    try:
        read_bytes(path, LARGEST_SETTINGS)
    except FileNotFoundError:
        return path
    except OSError:
        return path.with_stem(f"{path.stem}-new")
    return path


def _on_a_screen(frame: QRect) -> QRect | None:
    """Return a frame no larger than the screen on which most of it lies, and within that.

    None where nobody could see it: a damaged file may say anything.
    """
    for screen in QGuiApplication.screens():
        room = screen.availableGeometry()
        seen = room.intersected(frame)
        if seen.width() * 2 >= frame.width() > 0 and seen.height() * 2 >= frame.height() > 0:
            if room.contains(frame):
                return frame
            inside = QRect(frame.topLeft(), frame.size().boundedTo(room.size()))
            left = max(room.left(), min(inside.left(), room.right() + 1 - inside.width()))
            top = max(room.top(), min(inside.top(), room.bottom() + 1 - inside.height()))
            inside.moveTo(left, top)
            return inside
    return None
