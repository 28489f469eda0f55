"""Merging shops' layers: the laws, and that conflicts are told."""

from __future__ import annotations

from datetime import date

from hypothesis import given
from hypothesis import strategies as st

from counter.catalogue import conflicts, content_of, layer_of, merged

VALUES = st.one_of(
    st.floats(1, 100, allow_nan=False), st.sampled_from(["none", "one-large"]), st.lists(st.integers())
)
CONFIRMED = st.fixed_dictionaries(
    {
        "kind": st.sampled_from(["base", "lamp"]),
        "of": st.sampled_from(["G23", "G24q-1"]),
        "part": st.sampled_from(["pin_spacing_mm", "face.notches"]),
        "value": VALUES,
        "who": st.sampled_from(["Ada", "Ben"]),
        "on": st.dates(date(2026, 1, 1), date(2026, 1, 4)).map(date.isoformat),
        "how": st.just("caliper"),
    }
)
BASES = st.fixed_dictionaries({"designation": st.sampled_from(["GZ1", "GZ2"]), "tell": st.sampled_from(["a", "b"])})
LAYERS = st.fixed_dictionaries(
    {"confirmed": st.lists(CONFIRMED, max_size=6), "bases": st.lists(BASES, max_size=3)}
).map(layer_of)


@given(LAYERS, LAYERS, LAYERS)
def test_merging_is_associative(a, b, c):
    assert merged(merged(a, b), c) == merged(a, merged(b, c))


@given(LAYERS, LAYERS)
def test_merging_is_commutative_down_to_the_file(a, b):
    assert content_of(merged(a, b)) == content_of(merged(b, a))
    assert conflicts(merged(a, b)) == conflicts(merged(b, a))


@given(LAYERS)
def test_merging_is_idempotent(a):
    assert merged(a, a) == a
    assert merged(a, layer_of({})) == a


@given(LAYERS, LAYERS)
def test_nothing_is_lost(a, b):
    both = merged(a, b)
    assert a.entries | b.entries == both.entries
    kept = layer_of(content_of(both)).entries
    told = {about: others for about, _, others in conflicts(both)}
    for section, text in both.entries - kept:
        assert section != "confirmed"
        assert any(text in map(_text, others) for others in told.values())


@given(LAYERS)
def test_a_file_written_and_read_again_says_the_same(a):
    again = layer_of(content_of(a))
    assert content_of(again) == content_of(a)


@given(LAYERS, LAYERS)
def test_the_last_confirmation_of_a_value_counts_and_others_are_told(a, b):
    both = merged(a, b)
    last = {}
    for entry in content_of(both)["confirmed"]:
        last[entry["kind"], entry["of"], entry["part"]] = entry
    told = {conflict.about: conflict for conflict in conflicts(both)}
    for (kind, of, part), counts in last.items():
        others = [
            entry
            for entry in content_of(both)["confirmed"]
            if (entry["kind"], entry["of"], entry["part"]) == (kind, of, part) and entry["value"] != counts["value"]
        ]
        about = f"{kind} {of} {part}"
        assert (about in told) == bool(others)
        if others:
            assert told[about].counts == counts
            assert all(entry["on"] <= counts["on"] for entry in others)


def test_two_shops_that_measured_the_same_do_not_disagree():
    one = {"kind": "base", "of": "G23", "part": "pin_spacing_mm", "value": 23.0, "who": "Ada", "on": "2026-01-01"}
    both = merged(layer_of({"confirmed": [one]}), layer_of({"confirmed": [{**one, "who": "Ben"}]}))
    assert conflicts(both) == ()
    assert len(content_of(both)["confirmed"]) == 2


def _text(entry):
    import json

    return json.dumps(entry, sort_keys=True, ensure_ascii=False)
