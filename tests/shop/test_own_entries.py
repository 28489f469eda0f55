"""A shop's own entries in the store, on both databases: the last about a thing counts, nothing is ever lost."""

from __future__ import annotations

import json
from datetime import date

import pytest
from sqlalchemy import text

from counter.shop import bring_back_own, keep_own, layer, load_catalogue, open_store, own_rows, take_out

DAY = date(2026, 3, 2)
BY = {"who": "Kim", "on": DAY}


def words_in(data):
    return load_catalogue(data).catalogue.own_words


def change(mm):
    to = {"length_mm": {"value": mm, "source": "shop", "confidence": "confirmed"}}
    return {"kind": "lamp", "of": "G23/9/twin", "to": to}


def length(data):
    return load_catalogue(data).catalogue.lamp_by_id["G23/9/twin"].length_mm.value


def test_an_entry_counts_and_says_who_and_when(shop_data):
    keep_own(shop_data, "words", {"word": "Nordrau"}, **BY)
    assert words_in(shop_data) == ("Nordrau",)
    (entry,) = layer(open_store(shop_data)).content["words"]
    assert entry == {"word": "Nordrau", "added": {"who": "Kim", "on": "2026-03-02"}}


def test_the_last_about_a_thing_counts_and_what_was_before_comes_back(shop_data):
    shipped = length(shop_data)
    keep_own(shop_data, "changed", change(160), **BY)
    last = keep_own(shop_data, "changed", change(161), **BY)
    assert length(shop_data) == 161
    take_out(shop_data, [last], who="Ben")
    assert length(shop_data) == 160
    take_out(shop_data, [row.id for row in own_rows(open_store(shop_data)) if row.gone is None], who="Ben")
    assert length(shop_data) == shipped
    bring_back_own(shop_data, [last])
    assert length(shop_data) == 161


def test_what_is_taken_out_stays_in_the_store_with_who_and_when(shop_data):
    number = keep_own(shop_data, "words", {"word": "Nordrau"}, **BY)
    take_out(shop_data, [number], who="Ben")
    (row,) = own_rows(open_store(shop_data))
    assert (row.key, row.gone_by) == (("words", "Nordrau"), "Ben")
    assert row.gone is not None
    assert row.gone >= row.at


def test_other_windows_see_that_something_changed(shop_data):
    store = open_store(shop_data)
    number = keep_own(shop_data, "words", {"word": "Nordrau"}, **BY)
    take_out(shop_data, [number], who="Kim")
    with store.reading() as connection:
        assert store.revision(connection, "confirmed") == 2


def test_entries_of_a_store_made_before_know_no_moment_and_count(shop_data):
    store = open_store(shop_data)
    with store.writing("confirmed") as connection:
        words = json.dumps({"word": "Altwort"})
        connection.execute(text("INSERT INTO own_entries (section, body) VALUES ('words', :body)"), {"body": words})
    assert words_in(shop_data) == ("Altwort",)
    assert own_rows(store)[0].at is None


@pytest.mark.parametrize("known", [{"on": "2026-01-05", "who": "Ada"}, {}])
def test_a_file_of_harmless_words_is_taken_over_once(data, known):
    data.mkdir()
    file = data / "harmless-words.json"
    content = {"format": "lamp-counter/harmless-words", "version": 1, "words": [{"word": "Nordrau", **known}]}
    file.write_text(json.dumps(content), encoding="utf-8")
    assert words_in(data) == ("Nordrau",)
    assert not file.exists()
    (row,) = own_rows(open_store(data))
    assert row.body.get("added") == (known or None)
