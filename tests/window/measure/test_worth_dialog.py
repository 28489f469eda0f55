"""The list of what is worth confirming, and the way from it to the outline."""

from __future__ import annotations


def test_the_list_leads_to_the_outline(window, qtbot):
    dialog = window.counter.measuring.open_worth()
    qtbot.waitUntil(lambda: dialog.rows.count() > 0, timeout=120_000)
    first = dialog.rows.item(0)
    assert "100%" in first.text()
    dialog.rows.itemActivated.emit(first)
    shown = window.catalogue.lamp_by_id[window.case.shown].base
    assert first.text().startswith(shown)
