"""Outlines kept between starts: shown before the core is awake, and never more than a head start."""

from __future__ import annotations

import json

import pytest

from counter import language, paths
from counter.paths import machine
from counter.window.outlines import ahead
from counter.window.outlines.opening import FILE_NAME, _plain, fingerprint, remembered


@pytest.fixture(scope="module")
def made(tmp_path_factory):
    """Return what is made with an installation."""
    folder = tmp_path_factory.mktemp("made")
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(paths, "made_ahead", lambda: folder)
        ahead.make()
    language.use(language.OWN)
    return folder


@pytest.fixture(autouse=True)
def _nothing_made(monkeypatch, tmp_path):
    monkeypatch.setattr(paths, "made_ahead", lambda: tmp_path / "made")


def test_outlines_show_before_the_core_is_awake(windows):
    windows()
    second = windows(awake=False)
    assert len(second.grid.model.cards) > 30
    assert second.catalogue is None
    assert not second.grab().isNull()


def test_opening_cards_are_the_cards_of_an_empty_case(windows):
    first = windows()
    second = windows(awake=False)

    def plain(window):
        return json.dumps([_plain(card) for card in window.grid.model.cards])

    assert plain(second) == plain(first)


@pytest.mark.parametrize("code", ["en", "es_MX", "de_CH", "de"])
def test_the_very_first_start_begins_with_the_same_outlines(windows, made, monkeypatch, code):
    monkeypatch.setenv("COUNTER_LANGUAGE", code)
    monkeypatch.setattr(paths, "made_ahead", lambda: made)
    try:
        first = windows(awake=False)
        shown = [(card.lamp, card.watts, card.words, card.share) for card in first.grid.model.cards]
        assert len(shown) > 30
        first.wake()
        assert shown == [(card.lamp, card.watts, card.words, card.share) for card in first.grid.model.cards]
    finally:
        language.use(language.OWN)


@pytest.mark.parametrize("changed", ["the catalogue", "the shop's own"])
def test_outlines_made_with_the_installation_are_of_its_catalogue_alone(data, made, monkeypatch, changed):
    monkeypatch.setattr(paths, "made_ahead", lambda: made)
    assert remembered(data)
    if changed == "the catalogue":
        monkeypatch.setattr(paths, "resources", lambda: data)
        data.mkdir()
        (data / "catalogue.json").write_text("{}")
    else:
        machine(data).mkdir(parents=True)
        (machine(data) / "layer.json").write_text("{}")
    assert not remembered(data)


def damaged(kept, how):
    if how == "half":
        return json.dumps(kept)[:5000]
    if how == "no cards":
        return json.dumps({"of": kept["of"]})
    if how == "cards are numbers":
        return json.dumps({"of": kept["of"], "cards": [1, 2]})
    if how == "unknown shape":
        kept["cards"][0]["face"] = kept["cards"][0]["face"].replace("Path", "Blob")
    elif how == "field missing":
        del kept["cards"][0]["share"]
    elif how == "older":
        kept["of"] = "0.0.1 1.1 -"
    return json.dumps(kept)


@pytest.mark.parametrize(
    "how", ["half", "no cards", "cards are numbers", "unknown shape", "field missing", "older", "as it was"]
)
def test_damaged_opening_cards_only_cost_time(windows, data, how):
    windows()
    file = machine(data) / FILE_NAME
    file.write_text(damaged(json.loads(file.read_text()), how))
    second = windows(awake=False)
    assert bool(second.grid.model.cards) == (how == "as it was")
    assert not second.grab().isNull()
    second.wake()
    assert len(second.grid.model.cards) > 30
    assert json.loads(file.read_text())["of"] == fingerprint(data)


def test_a_folder_that_cannot_be_made_does_not_stop_the_window(windows, data):
    data.write_text("a file where the folder should be")
    window = windows()
    window.counter.change(chosen="G24q-2/18/quad")
    assert window.answer.base.text() == "G24q-2"
