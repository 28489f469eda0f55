"""Confirming a value from a lamp on the shop's shelf: begun from the last, withdrawn with all that was said."""

from __future__ import annotations

import pytest
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from counter.window.parts.source_dialog import SourceDialog
from tests.conftest import settle
from tests.window.hands import press, said, store_answered


def open_at(window, what):
    fact = next(one for one in window.detail._facts if one.what == what)
    window.counter.open_source(fact)
    store_answered(window)
    return window.findChildren(SourceDialog)[-1]


def confirm(window, what, value, how):
    dialog = open_at(window, what)
    if hasattr(dialog.seen, "setText"):
        dialog.seen.setText(value)
    else:
        dialog.seen.setCurrentIndex(dialog.seen.findData(value))
    dialog.who.setText("Ada")
    dialog.how.setText(how)
    press(dialog.save)
    wait_closed(window)


def wait_closed(window):
    """Wait until the store has taken it, which it does beside the window, and the dialog is gone."""
    shown = lambda: any(one.isVisible() for one in window.findChildren(SourceDialog))  # noqa: E731
    for _ in range(200):
        if not shown():
            break
        QTest.qWait(25)
    assert not shown()
    settle(QApplication.instance())


def fact(window, what):
    return next(one for one in window.detail._facts if one.what == what)


@pytest.fixture
def shown(window):
    window.counter.open_outline("G24q-2/18/quad")
    return window


def test_the_next_confirmation_begins_from_the_last(shown):
    confirm(shown, "Length", "147", "caliper on three lamps")
    assert fact(shown, "Length").confidence == "seen here"
    dialog = open_at(shown, "Length")
    assert (dialog.seen.text(), dialog.who.text(), dialog.how.text()) == ("147", "Ada", "caliper on three lamps")
    assert "147" in dialog.history.text()
    dialog.close()


def test_it_is_withdrawn_with_all_that_was_said(shown):
    before = fact(shown, "Length")
    for value in ("147", "148"):
        confirm(shown, "Length", value, "caliper")
    dialog = open_at(shown, "Length")
    assert len(dialog.history.text().splitlines()) == 2
    press(dialog.withdraw)
    wait_closed(shown)
    assert fact(shown, "Length") == before


@pytest.mark.parametrize(
    ("lamp", "found", "denied"),
    [("GX24q-3/32/triple", "small-left", "not drawn"), ("G23/9/twin", "none", "one large notch")],
)
def test_words_follow_a_key_that_was_seen(window, lamp, found, denied):
    def words():
        return f"{window.detail.tell.text()} {window.detail.hold.text()}"

    window.counter.open_outline(lamp)
    assert denied in words()
    confirm(window, "Key", found, "three lamps from the shelf")
    assert denied not in words()
    assert ("notch" in words()) is (found != "none")
    dialog = open_at(window, "Key")
    assert dialog.seen.currentData() == found
    press(dialog.withdraw)
    wait_closed(window)
    assert denied in words()


def test_a_value_nobody_stands_behind_is_not_taken(shown):
    dialog = open_at(shown, "Length")
    dialog.seen.setText("147")
    dialog.who.setText("")
    press(dialog.save)
    assert "who looked" in said(dialog)
    dialog.close()


def test_a_closed_dialog_is_gone(shown, qapp):
    for _ in range(3):
        open_at(shown, "Length").close()
    qapp.sendPostedEvents(None, 52)  # QEvent.DeferredDelete: no event loop runs here that would do it
    settle(qapp)
    assert shown.findChildren(SourceDialog) == []


def test_a_key_that_nobody_chose_is_not_confirmed(shown):
    dialog = open_at(shown, "Key")
    dialog.who.setText("Ada")
    dialog.how.setText("looked at one")
    press(dialog.save)
    assert "what you found" in dialog.problem.text()
    assert fact(shown, "Key").confidence != "seen here"
    dialog.close()
