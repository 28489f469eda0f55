"""How stock widgets are drawn: flat, thin edges, one accent. Colours come from the palette, so a theme is a palette.

A style sheet would be simpler to read, but changing one goes over every widget there is (over a second with the
training room made ahead) and costs each repaint a third. Everything not named here is Fusion's. It is set when the
window wakes: making a style's numbers known to Python takes longer than the first paint may.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, cast

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QBrush, QColor, QPainter, QPalette, QPen, QPolygonF
from PySide6.QtWidgets import (
    QAbstractScrollArea,
    QAbstractSpinBox,
    QApplication,
    QComboBox,
    QFrame,
    QLineEdit,
    QListView,
    QProxyStyle,
    QPushButton,
    QScrollArea,
    QScrollBar,
    QSplitter,
    QStyle,
    QStyleOptionComboBox,
    QTabBar,
    QWidget,
)

from counter.window.parts.theme import SMALL_TARGET, TARGET

if TYPE_CHECKING:
    from collections.abc import Callable

    from PySide6.QtWidgets import QStyleOption, QStyleOptionComplex

ROUND_PX = 3.0
PANEL_ROUND_PX = 4.0
TAB_ROOM_PX = 14  # on both sides of a tab's words together: five tabs beside two columns on 1024 px
COMBO_PAD_PX, COMBO_ARROW_PX = 6, 18
ROLES = QPalette.ColorRole
STATES = QStyle.StateFlag
ELEMENTS = QStyle.PrimitiveElement
TAB_ROOM, TAB_SCROLL = QStyle.PixelMetric.PM_TabBarTabHSpace, QStyle.PixelMetric.PM_TabBarScrollButtonWidth
TAB_SHAPE, SPLITTER = QStyle.ControlElement.CE_TabBarTabShape, QStyle.ControlElement.CE_Splitter
SCROLL_BAR, SPIN_BOX = QStyle.ComplexControl.CC_ScrollBar, QStyle.ComplexControl.CC_SpinBox


class _Edges(QProxyStyle):
    """Fusion with our own edges."""

    def __init__(self) -> None:
        super().__init__("Fusion")

    def drawPrimitive(
        self, element: QStyle.PrimitiveElement, option: QStyleOption, painter: QPainter, widget: QWidget | None = None
    ) -> None:
        draw = _DRAW.get(element)
        if draw is None or not draw(option, painter, widget):
            super().drawPrimitive(element, option, painter, widget)


class CounterStyle(_Edges):
    """What all wear; tabs, scroll bars, number boxes and the gaps between panes have styles of their own.

    What Qt asks of a style in Python it asks some three hundred times at each look, most of it about widgets that
    have nothing to answer. So what only some kinds of widgets need is answered by a style that only they wear.
    """

    def __init__(self) -> None:
        super().__init__()
        self._tabs, self._boxes = _TabStyle(), _BoxStyle()
        for own in (self._tabs, self._boxes):
            own.setParent(self)

    def polish(self, what: Any) -> Any:
        """Give a widget what its properties ask for; called by Qt once a widget, and by us when one changes."""
        made = super().polish(what)
        if isinstance(what, QTabBar):
            what.setStyle(self._tabs)
        elif isinstance(what, (QScrollBar, QAbstractSpinBox, QSplitter)):
            what.setStyle(self._boxes)
        if isinstance(what, QWidget):
            _dress(what)
        return made


class _TabStyle(_Edges):
    """Tabs near each other, with a line under the one in view."""

    def pixelMetric(
        self, metric: QStyle.PixelMetric, option: QStyleOption | None = None, widget: QWidget | None = None
    ) -> int:
        if metric == TAB_ROOM:
            return TAB_ROOM_PX
        if metric == TAB_SCROLL:
            return SMALL_TARGET
        return super().pixelMetric(metric, option, widget)

    def drawControl(
        self, element: QStyle.ControlElement, option: QStyleOption, painter: QPainter, widget: QWidget | None = None
    ) -> None:
        if element == TAB_SHAPE:
            _tab(option, painter)
        else:
            super().drawControl(element, option, painter, widget)


class _BoxStyle(_Edges):
    """Plain scroll bars, number boxes with an edge that shows, and nothing drawn between panes."""

    def drawControl(
        self, element: QStyle.ControlElement, option: QStyleOption, painter: QPainter, widget: QWidget | None = None
    ) -> None:
        if element != SPLITTER:  # the gap between panes is the desk
            super().drawControl(element, option, painter, widget)

    def drawComplexControl(
        self,
        control: QStyle.ComplexControl,
        option: QStyleOptionComplex,
        painter: QPainter,
        widget: QWidget | None = None,
    ) -> None:
        if control == SCROLL_BAR and widget is not None:
            # Fusion's gradients took longer than all else after a look.
            slider = self.subControlRect(control, option, QStyle.SubControl.SC_ScrollBarSlider, widget)
            _scroll_bar(option, painter, QRectF(slider))
            return
        super().drawComplexControl(control, option, painter, widget)
        if control == SPIN_BOX:
            _edge(option, painter)


def _dress(widget: QWidget) -> None:
    if isinstance(widget, QPushButton):
        is_small = widget.isFlat() or widget.property("flat")
        widget.setFlat(False)  # a button looks like one
        least = SMALL_TARGET if is_small else TARGET
        widget.setMinimumHeight(max(widget.minimumHeight(), widget.fontMetrics().height() + 6, least))
    elif isinstance(widget, QLineEdit) and isinstance(widget.parentWidget(), QAbstractSpinBox):
        return  # as high as its box leaves it; a height of its own would push its words out below
    elif isinstance(widget, (QLineEdit, QComboBox, QAbstractSpinBox)):
        widget.setMinimumHeight(max(widget.minimumHeight(), widget.sizeHint().height(), TARGET - 6))
        if isinstance(widget, QLineEdit):
            widget.setTextMargins(3, 0, 3, 0)
    elif isinstance(widget, QListView) and widget.property("on_paper"):
        # Not where the list is made: asking for its viewport names 69 enumerations before the first paint.
        widget.viewport().setBackgroundRole(ROLES.AlternateBase)
    elif isinstance(widget, QScrollArea):
        widget.setFrameShape(QFrame.Shape.NoFrame)
        widget.viewport().setAutoFillBackground(False)
        inside = widget.widget()
        if inside is not None:
            inside.setAutoFillBackground(False)
    elif isinstance(widget, QFrame) and widget.property("panel"):
        widget.setFrameShape(QFrame.Shape.StyledPanel)


# -- one function a primitive: option, painter, widget; whether it was drawn


def _box(
    painter: QPainter,
    rect: QRectF,
    ground: QColor | None,
    edge: QColor,
    width: float,
    radius: float = ROUND_PX,
    line: Qt.PenStyle = Qt.PenStyle.SolidLine,
) -> None:
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setBrush(QBrush(ground) if ground is not None else Qt.BrushStyle.NoBrush)
    painter.setPen(QPen(edge, width, line))
    half = width / 2
    painter.drawRoundedRect(rect.adjusted(half, half, -half, -half), radius, radius)
    painter.restore()


def _line_edit(option: QStyleOption, painter: QPainter, widget: QWidget | None) -> bool:
    if cast("Any", option).lineWidth <= 0:
        return False
    palette, state = _of(option)
    is_bad = widget is not None and widget.property("bad") is True
    edge = palette.color(ROLES.Highlight if state & STATES.State_HasFocus else ROLES.Dark)
    if is_bad:
        edge = palette.color(ROLES.Text)
    wide = 2.0 if is_bad or state & STATES.State_HasFocus else 1.0
    _box(painter, QRectF(_rect(option)), palette.color(ROLES.Base), edge, wide)
    return True


def _edge(option: QStyleOption, painter: QPainter) -> None:
    """Draw the edge of what has a ground already, over Fusion's, which fades on dark."""
    palette, state = _of(option)
    has_focus = bool(state & STATES.State_HasFocus)
    edge = palette.color(ROLES.Highlight if has_focus else ROLES.Dark)
    _box(painter, QRectF(_rect(option)), None, edge, 2.0 if has_focus else 1.0)


def _button(option: QStyleOption, painter: QPainter, widget: QWidget | None) -> bool:
    palette, state = _of(option)
    is_on, has_focus = bool(state & (STATES.State_On | STATES.State_Sunken)), bool(state & STATES.State_HasFocus)
    is_over = bool(state & STATES.State_MouseOver and state & STATES.State_Enabled)
    edge = palette.color(ROLES.Highlight if is_on or has_focus or is_over else ROLES.Dark)
    if not state & STATES.State_Enabled:
        edge = palette.color(ROLES.Mid)
    is_main = isinstance(widget, QPushButton) and widget.isDefault() and widget.isEnabled()
    if is_main and not has_focus:
        edge = palette.color(ROLES.Text)
    ground = palette.color(ROLES.Midlight if is_on else ROLES.Button)
    is_shut = not state & STATES.State_Enabled and palette.color(ROLES.Mid) == palette.color(ROLES.Dark)
    line = Qt.PenStyle.DotLine if is_shut else Qt.PenStyle.SolidLine  # where no edge is paler than another
    wide = 2.0 if is_on or has_focus or is_main else 1.0
    _box(painter, QRectF(_rect(option)), ground, edge, wide, line=line)
    return True


def _focus(option: QStyleOption, painter: QPainter, widget: QWidget | None) -> bool:
    if isinstance(widget, (QPushButton, QComboBox)):
        return True  # their edge shows it
    palette, _ = _of(option)
    _box(painter, QRectF(_rect(option)), None, palette.color(ROLES.Highlight), 2.0)
    return True


def _frame(option: QStyleOption, painter: QPainter, widget: QWidget | None) -> bool:
    if isinstance(widget, QAbstractScrollArea):  # lists, tables, fields of many lines
        _edge(option, painter)
        return True
    if widget is None or not widget.property("panel"):
        return False
    palette, _ = _of(option)
    ground, edge = palette.color(ROLES.AlternateBase), palette.color(ROLES.Mid)
    _box(painter, QRectF(_rect(option)), ground, edge, 1.0, PANEL_ROUND_PX)
    return True


def _mark_box(option: QStyleOption, painter: QPainter, *, is_round: bool) -> bool:
    """Draw what can be ticked or chosen, with an edge that shows on both grounds; Fusion's is lost on dark."""
    palette, state = _of(option)
    rect = QRectF(_rect(option))
    side = min(rect.width(), rect.height())
    box = QRectF(0, 0, side, side)
    box.moveCenter(rect.center())
    is_on, is_marked = bool(state & STATES.State_On), bool(state & (STATES.State_On | STATES.State_NoChange))
    is_lit = bool(state & STATES.State_Enabled) and (is_marked or bool(state & STATES.State_HasFocus))
    edge = palette.color(ROLES.Highlight if is_lit else ROLES.Dark)
    radius, thin = (side / 2, 1.6) if is_round else (ROUND_PX, 1.0)  # a thin circle is all half-covered pixels
    _box(painter, box, palette.color(ROLES.Base), edge, 2.0 if is_marked else thin, radius)
    if is_marked:
        _mark(painter, box, edge, "dot" if is_round else "tick" if is_on else "bar")
    return True


def _mark(painter: QPainter, box: QRectF, colour: QColor, form: str) -> None:
    """Draw a tick, the dot of a choice, or the bar of what is neither on nor off."""
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.translate(box.topLeft())
    painter.scale(box.width(), box.width())
    painter.setPen(QPen(colour, 0.16))
    painter.setBrush(QBrush(colour))
    if form == "dot":
        painter.drawEllipse(QPointF(0.5, 0.5), 0.15, 0.15)
    else:
        points = ((0.25, 0.52), (0.43, 0.7), (0.76, 0.3)) if form == "tick" else ((0.28, 0.5), (0.72, 0.5))
        painter.drawPolyline(QPolygonF([QPointF(*point) for point in points]))
    painter.restore()


_DRAW: dict[QStyle.PrimitiveElement, Callable[[QStyleOption, QPainter, QWidget | None], bool]] = {
    ELEMENTS.PE_PanelLineEdit: _line_edit,
    ELEMENTS.PE_PanelButtonCommand: _button,
    ELEMENTS.PE_PanelButtonTool: _button,
    ELEMENTS.PE_FrameFocusRect: _focus,
    ELEMENTS.PE_Frame: _frame,
    ELEMENTS.PE_IndicatorCheckBox: lambda option, painter, _: _mark_box(option, painter, is_round=False),
    ELEMENTS.PE_IndicatorItemViewItemCheck: lambda option, painter, _: _mark_box(option, painter, is_round=False),
    ELEMENTS.PE_IndicatorRadioButton: lambda option, painter, _: _mark_box(option, painter, is_round=True),
}


def _of(option: QStyleOption) -> tuple[QPalette, QStyle.StateFlag]:
    one = cast("Any", option)
    return one.palette, one.state


def _rect(option: QStyleOption) -> Any:
    return cast("Any", option).rect


def _tab(option: QStyleOption, painter: QPainter) -> None:
    palette, state = _of(option)
    rect = QRectF(_rect(option))
    if state & STATES.State_HasFocus:
        painter.fillRect(rect, palette.color(ROLES.Midlight))
    if state & STATES.State_Selected:
        painter.fillRect(QRectF(rect.left(), rect.bottom() - 2, rect.width(), 3), palette.color(ROLES.Highlight))


def paint_combo(combo: QComboBox) -> None:
    """Draw a list of choices that is shut; a choice too long for its box ends in a mark that says so."""
    option = QStyleOptionComboBox()
    combo.initStyleOption(option)
    painter = QPainter(combo)
    palette, state = _of(option)
    has_focus = bool(state & STATES.State_HasFocus)
    is_over = bool(state & STATES.State_MouseOver and state & STATES.State_Enabled)
    edge = palette.color(ROLES.Highlight if has_focus or is_over else ROLES.Dark)
    rect = combo.rect()
    _box(painter, QRectF(rect), palette.color(ROLES.Base), edge, 2.0 if has_focus else 1.0)
    _arrow(painter, QRectF(rect), palette.color(ROLES.Text))
    room = rect.adjusted(COMBO_PAD_PX, 0, -COMBO_ARROW_PX, 0)
    words = painter.fontMetrics().elidedText(combo.currentText(), Qt.TextElideMode.ElideRight, room.width())
    painter.setPen(palette.color(ROLES.Text))
    painter.drawText(room, int(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter), words)
    painter.end()


def _arrow(painter: QPainter, rect: QRectF, colour: QColor) -> None:
    tip = QPointF(rect.right() - 11, rect.center().y() + 2.5)
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(colour)
    side = max(4.5, rect.height() / 8)
    painter.drawPolygon(QPolygonF([tip, tip + QPointF(-side, -side * 1.1), tip + QPointF(side, -side * 1.1)]))
    painter.restore()


def _scroll_bar(option: QStyleOption, painter: QPainter, slider: QRectF) -> None:
    """Draw the groove, and in it the part that is in view; what lies at its ends still pages."""
    palette, state = _of(option)
    painter.fillRect(_rect(option), palette.color(ROLES.Window))
    is_over = bool(state & STATES.State_MouseOver)
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(palette.color(ROLES.Highlight if is_over else ROLES.Dark))
    painter.drawRoundedRect(slider.adjusted(3, 3, -3, -3), 4, 4)
    painter.restore()


def wear() -> None:
    """Let the application wear this style, once."""
    application = QApplication.instance()
    if isinstance(application, QApplication) and not isinstance(application.style(), CounterStyle):
        application.setStyle(CounterStyle())
