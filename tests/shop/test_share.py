"""Another shop's layer taken in: conflicts told, whoever is chosen counts, nothing is lost, twice is once."""

from __future__ import annotations

from datetime import date

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from counter.catalogue import layer_of
from counter.shop import (
    confirm,
    keep_own,
    layer,
    load_catalogue,
    meet,
    open_store,
    own_rows,
    shared_layer,
    take_back,
    take_in,
    take_out,
)
from counter.shop._store import close_all

OURS = {"who": "Kim", "on": date(2026, 3, 2)}
LATER = date(2026, 3, 9)
BASE = {"kind": "base", "of": "G23", "part": "pin_spacing_mm"}


def spacing(data):
    return load_catalogue(data).catalogue.base_by_name["G23"].pin_spacing_mm.value


def theirs(tmp_path, mm=23.4, on=LATER, words=("Nordrau",)):
    """Return the layer of another shop."""
    other = tmp_path / "other shop"
    confirm(other, **BASE, value=mm, who="Ada", on=on, how="caliper, five lamps", plus_minus=0.1)
    for word in words:
        keep_own(other, "words", {"word": word}, who="Ada", on=on)
    found = shared_layer(other)
    close_all()
    return found


@pytest.fixture
def both(shop_data, tmp_path, monkeypatch):
    """Return another shop's layer and this shop's folder; the other's store is SQLite whatever this one's is."""
    with monkeypatch.context() as elsewhere:
        elsewhere.delenv("COUNTER_STORE", raising=False)
        there = theirs(tmp_path)
    confirm(shop_data, **BASE, value=22.9, how="ruler", **OURS)
    return there, shop_data


def test_a_meeting_shows_both_sides_with_who_when_tool_and_spread(both):
    there, here = both
    met = meet(here, there)
    (one,) = met.meetings
    assert (one.ours["who"], one.ours["value"], one.theirs["who"], one.theirs["value"]) == ("Kim", 22.9, "Ada", 23.4)
    assert (one.theirs["how"], one.theirs["plus_minus"], one.theirs["on"]) == (
        "caliper, five lamps",
        0.1,
        "2026-03-09",
    )
    assert not one.later_is_ours
    assert spacing(here) == 22.9


@pytest.mark.parametrize(("keep", "counts"), [(False, 23.4), (True, 22.9)])
def test_whoever_is_chosen_counts_and_the_other_stays(both, keep, counts):
    there, here = both
    (one,) = meet(here, there).meetings
    take_in(here, there, [one.key] if keep else [])
    assert spacing(here) == counts
    kept = layer(open_store(here)).content["confirmed"]
    assert sorted(entry["value"] for entry in kept) == [22.9, 23.4]
    assert load_catalogue(here).catalogue.own_words == ("Nordrau",)


@pytest.mark.parametrize("keep", [False, True])
def test_taken_in_twice_is_taken_in_once(both, keep):
    there, here = both
    chosen = [one.key for one in meet(here, there).meetings] if keep else []
    take_in(here, there, chosen)
    before = layer(open_store(here)).content
    again = take_in(here, there, chosen)
    assert (again.new, again.meetings) == ((), ())
    assert layer(open_store(here)).content == before


def test_what_was_withdrawn_here_does_not_come_back(both):
    there, here = both
    take_in(here, there)
    take_out(here, [row.id for row in own_rows(open_store(here))], who="Kim")
    take_in(here, there)
    assert load_catalogue(here).catalogue.own_words == ()


@pytest.mark.parametrize("keep", [False, True])
def test_taking_in_can_be_undone(both, keep):
    there, here = both
    before = layer(open_store(here)).content
    met = meet(here, there)
    taken = take_in(here, there, [one.key for one in met.meetings] if keep else [])
    confirm(here, **BASE, value=22.8, how="caliper", **OURS)
    take_back(here, taken.rows)
    take_back(here, taken.rows)
    after = layer(open_store(here)).content
    assert [one["value"] for one in after["confirmed"]] == [22.9, 22.8]
    assert {**after, "confirmed": []} == {**before, "confirmed": []}
    assert len(meet(here, there).new) == len(met.new)


ENTRY = st.fixed_dictionaries(
    {
        "kind": st.just("lamp"),
        "of": st.sampled_from(["G23/9/twin", "G23/7/twin"]),
        "part": st.just("length_mm"),
        "value": st.sampled_from([160.0, 161.0, 162.0]),
        "who": st.sampled_from(["Ada", "Ben"]),
        "on": st.sampled_from(["2026-01-01", "2026-01-02"]),
        "how": st.just("caliper"),
    }
)
WORD = st.sampled_from([{"word": "Nordrau"}, {"word": "Ostwerk", "added": {"who": "Ada", "on": "2026-01-01"}}])
LAYER = st.fixed_dictionaries({"confirmed": st.lists(ENTRY, max_size=4), "words": st.lists(WORD, max_size=2)})


@settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(LAYER, LAYER, st.booleans())
def test_nothing_is_lost_whatever_meets(tmp_path_factory, one, other, keep):
    """The union of entries, as the laws of merging have it, whoever counts."""
    data = tmp_path_factory.mktemp("shop")
    take_in(data, one)
    chosen = [meeting.key for meeting in meet(data, other).meetings] if keep else []
    take_in(data, other, chosen)
    found = layer(open_store(data)).content["confirmed"]
    wanted = {text for section, text in (layer_of(one).entries | layer_of(other).entries) if section == "confirmed"}
    assert {text for section, text in layer_of({"confirmed": found}).entries} == wanted
    words = {row.body["word"] for row in own_rows(open_store(data))}
    assert words == {entry["word"] for entry in (*one["words"], *other["words"])}
    close_all()
