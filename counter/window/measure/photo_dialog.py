"""A picture of a base: opened, dropped or pasted, measured beside the window, put right by hand, taken as looks."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QBuffer, QIODevice, QObject, QRunnable, Qt, QThreadPool, Signal
from PySide6.QtGui import QGuiApplication, QImage, QKeySequence, QShortcut
from PySide6.QtWidgets import QDialog, QFileDialog, QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from counter.language import marked, tr
from counter.window.measure.picture_view import PictureView
from counter.window.measure.result_pane import ResultPane
from counter.window.outlines.facts import NOTCH_WORDS
from counter.window.parts.calm import CalmCombo, CalmFigure
from counter.window.parts.words import Words

if TYPE_CHECKING:
    from PySide6.QtCore import QMimeData
    from PySide6.QtGui import QDragEnterEvent, QDropEvent

    from counter.catalogue import Catalogue
    from counter.measure import Measured
    from counter.window.parts.theme import Theme

KINDS = marked("Pictures (*.jpg *.jpeg *.png *.bmp *.webp)")
HOW = marked(
    "Pins toward the camera, straight from above; a bank card beside the base, level with its face. "
    "Space takes the next point, arrow keys move it; double-click adds a pin, Delete drops it."
)


class Told(QObject):
    """Carries an answer from the worker to the window."""

    done = Signal(int, object, object, str)  # which picture, its pixels, what was measured, or why not


class Work(QRunnable):
    """Measures one picture beside the window."""

    def __init__(self, number: int, catalogue: Catalogue, raw: bytes | Path, told: Told) -> None:
        super().__init__()
        self.number, self.catalogue, self.raw, self.told = number, catalogue, raw, told

    def run(self) -> None:
        from counter import measure

        try:
            pixels = measure.read_picture(self.raw) if isinstance(self.raw, Path) else measure.pixels_of(self.raw)
            found: Measured | None = measure.measure_pixels(self.catalogue, pixels)
            self._say(pixels, found, "")
        except measure.PictureProblem as problem:
            self._say(None, None, str(problem))
        except Exception as problem:  # a fault of ours must not leave the window waiting for ever
            self._say(
                None,
                None,
                tr("The picture could not be measured ({problem}); mark the points by hand.").format(
                    problem=type(problem).__name__
                ),
            )

    def _say(self, pixels: Any, found: Measured | None, problem: str) -> None:
        try:
            self.told.done.emit(self.number, pixels, found, problem)
        except RuntimeError:
            return  # the dialog was closed meanwhile


class PhotoDialog(QDialog):
    """Shows a picture with what was found on it; the points can be moved, the looks taken."""

    taken = Signal(dict)

    def __init__(self, catalogue: Catalogue, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.setAcceptDrops(True)
        self.setWindowTitle(tr("Measure a picture"))
        self.catalogue = catalogue
        self.view, self.found, self.key = PictureView(theme), ResultPane(catalogue), CalmCombo()
        self.length = CalmFigure(minimum=1.0, maximum=500.0, value=23.0, suffix="\N{THIN SPACE}mm")
        self.by_length = QPushButton(tr("No card: by a known length"))
        self.by_length.setCheckable(True)
        self.told: Measured | None = None
        self._number = 0
        self._carrier = Told()
        self._carrier.done.connect(self._show)
        self.key.addItem(tr("key not looked at"), None)
        for look, words in NOTCH_WORDS.items():
            self.key.addItem(tr(words), look)
        self._lay_out()
        self._connect()

    def _lay_out(self) -> None:
        self.open_button, self.paste_button = QPushButton(tr("Open …")), QPushButton(tr("Paste"))
        row = QHBoxLayout()
        for widget in (self.open_button, self.paste_button, self.by_length, self.length, self.key):
            widget.setMinimumHeight(36)
            row.addWidget(widget)
        row.addStretch(1)
        middle = QHBoxLayout()
        middle.addWidget(self.view, 1)
        middle.addWidget(self.found)
        box = QVBoxLayout(self)
        box.addLayout(row)
        box.addLayout(middle, 1)
        box.addWidget(Words(tr(HOW), wraps=True))
        self.length.setEnabled(False)

    def _connect(self) -> None:
        self.open_button.clicked.connect(self.ask_for_file)
        self.paste_button.clicked.connect(self.paste)
        self.view.moved.connect(self.measure_again)
        self.key.activated.connect(self.measure_again)
        self.length.valueChanged.connect(self.measure_again)
        self.by_length.toggled.connect(self._change_scale)
        self.found.taken.connect(self._take)
        QShortcut(QKeySequence(QKeySequence.StandardKey.Paste), self, self.paste)
        QShortcut(QKeySequence(QKeySequence.StandardKey.Open), self, self.ask_for_file)

    def ask_for_file(self) -> None:
        """Ask which picture to measure."""
        name, _ = QFileDialog.getOpenFileName(self, tr("Which picture?"), "", tr(KINDS))
        if name:
            self.measure(Path(name))

    def paste(self) -> None:
        """Measure what lies in the clipboard: a picture, or a picture's file."""
        files = _files_in(QGuiApplication.clipboard().mimeData())
        if files:
            self.measure(files[0])
            return
        image = QGuiApplication.clipboard().image()
        if image.isNull():
            self.found.show_measured(None, tr("There is no picture in the clipboard; copy one first."))
            return
        self.measure(_as_png(image))

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        if event.mimeData().hasUrls() or event.mimeData().hasImage():
            event.acceptProposedAction()

    def dropEvent(self, event: QDropEvent) -> None:
        about = event.mimeData()
        if files := _files_in(about):
            self.measure(files[0])
        elif about.hasImage():
            self.measure(_as_png(QImage(about.imageData())))
        event.acceptProposedAction()

    def measure(self, picture: bytes | Path) -> None:
        """Measure a picture beside the window; a later one overtakes it."""
        self._number += 1
        self.told = None
        self.found.show_measured(None, tr("Measuring …"))
        QThreadPool.globalInstance().start(Work(self._number, self.catalogue, picture, self._carrier))

    def _show(self, number: int, pixels: Any, told: Measured | None, problem: str) -> None:
        if number != self._number:
            return
        self.told = told
        self.found.show_measured(told, problem)
        if pixels is None or told is None:
            return
        self.view.show_picture(_as_image(pixels))
        self.by_length.setChecked(False)
        pins = list(told.pins_px) or _guess(told.size_px, ((0.45, 0.5), (0.55, 0.5)))
        card = list(told.card_px) or _guess(told.size_px, ((0.2, 0.2), (0.6, 0.2), (0.6, 0.45), (0.2, 0.45)))
        self.view.show_points(card, [], pins)
        notch = told.pattern.notch if told.pattern is not None else None
        self.key.setCurrentIndex(max(self.key.findData(notch), 0))
        self._lay_face(told)

    def _change_scale(self, by_length: bool) -> None:
        self.length.setEnabled(by_length)
        if self.told is None:
            return
        size, pins = self.told.size_px, self.view.points("pins")
        if by_length:
            self.view.show_points([], _guess(size, ((0.3, 0.7), (0.7, 0.7))), pins)
        else:
            corners = _guess(size, ((0.2, 0.2), (0.6, 0.2), (0.6, 0.45), (0.2, 0.45)))
            self.view.show_points(list(self.told.card_px) or corners, [], pins)
        self.measure_again()

    def measure_again(self) -> None:
        """Measure by the points as they lie now."""
        if self.told is None:
            return
        from counter import measure

        pins, notch = self.view.points("pins"), self.key.currentData()
        ends = self.view.points("ends")
        if self.by_length.isChecked() and len(ends) == 2:
            told = measure.by_length(self.catalogue, self.told, (ends[0], ends[1]), self.length.value(), pins, notch)
        else:
            told = measure.by_card(self.catalogue, self.told, self.view.points("card"), pins, notch)
        self.found.show_measured(told)
        self._lay_face(told)

    def _lay_face(self, told: Measured) -> None:
        from counter import measure

        best = told.candidates[0] if told.candidates else None
        face = self.catalogue.base_by_name[best.base] if best is not None else None
        self.view.show_lines(measure.overlay(told, face, best) if best is not None and face is not None else ())

    def _take(self, looks: dict[str, str | float]) -> None:
        self.taken.emit(looks)
        self.accept()


def _files_in(about: QMimeData | None) -> list[Path]:
    """Return the files of this machine that were dropped or copied; an empty clipboard has no data at all."""
    urls = about.urls() if about is not None else []
    return [Path(url.toLocalFile()) for url in urls if url.isLocalFile()]


def _as_png(image: QImage) -> bytes:
    buffer = QBuffer()
    buffer.open(QIODevice.OpenModeFlag.WriteOnly)
    image.save(buffer, "PNG")  # type: ignore[call-overload]
    return bytes(buffer.data().data())


def _as_image(pixels: Any) -> QImage:
    """Return pixels (height, width, blue-green-red) as a picture of Qt's own."""
    height, width = pixels.shape[:2]
    return QImage(pixels.tobytes(), width, height, 3 * width, QImage.Format.Format_BGR888).copy()


def _guess(size: tuple[int, int], parts: tuple[tuple[float, float], ...]) -> list[tuple[float, float]]:
    return [(size[0] * x, size[1] * y) for x, y in parts]
