"""What was typed over the window and not kept yet is asked about before it goes; settings are kept as they stand."""

import pytest
from PySide6.QtTest import QTest

from counter.window.dialogs.settings import Settings
from counter.window.outlines.facts import facts_of
from counter.window.parts import unsaved
from tests.window.hands import store_answered


@pytest.fixture
def stays(monkeypatch):
    """Answer that nothing may be lost, and return what was asked."""
    asked = []
    monkeypatch.setattr(unsaved, "ask", lambda _, words: asked.append(words))
    return asked


def test_a_value_that_was_typed_and_not_confirmed_holds_the_window(window, stays):
    fact = next(one for one in facts_of(window.catalogue, window.catalogue.lamps[0]) if one.what == "Length")
    window.counter.open_source(fact)
    store_answered(window)
    dialog = window.findChild(unsaved.UnsavedDialog)
    dialog.seen.setText("147")
    assert not window.close()
    assert stays == ["What you found is not confirmed yet."]
    dialog.seen.clear()
    assert window.close()


def test_an_entry_that_is_not_kept_is_asked_about(window, stays):
    window.counter.open_entries()
    store_answered(window)
    dialog = window.findChild(unsaved.UnsavedDialog)
    dialog.begin(window.catalogue.bases[0].designation)
    dialog.reject()
    assert (stays, dialog.isVisible()) == ([], False)
    dialog.show()
    dialog._begun = {}  # as after a key in any field
    dialog.reject()
    assert (stays, dialog.isVisible()) == (["What you typed is not kept yet."], True)


def test_a_setting_still_under_the_hand_is_kept(window):
    settings = Settings(window)
    settings.open()
    QTest.keyClicks(settings.who, "Ada")
    window.close()
    assert window.settings.value("who") == "Ada"
