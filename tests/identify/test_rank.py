"""Ranking: Bayes over lamp types, and what each candidate says of each look."""

from __future__ import annotations

import math

import pytest

from counter.identify import CANNOT_TELL, LookProblem, rank

QUAD = {"legs": "4", "pins": "4", "arrangement": "rectangle", "block": "yes", "watts": "26"}


def chances(candidates):
    return {one.lamp: one.probability for one in candidates}


def test_no_looks_rank_by_how_often_a_lamp_is_met_then_in_catalogue_order(catalogue):
    found = rank(catalogue, {})
    daily = [lamp.id for lamp in catalogue.lamps if lamp.met.value == "daily"]
    assert [one.lamp for one in found if one.lamp in daily] == daily
    assert {"G23/9/twin", "G23/9/twin/uv-c"} <= {one.lamp for one in found if one.probability == found[0].probability}
    assert {one.lamp: one.probability for one in found} == pytest.approx(dict(catalogue.prevalence))
    assert all(one.agrees == one.disagrees == () for one in found)


def test_looks_bring_up_the_lamp(catalogue):
    best, *_ = rank(catalogue, QUAD)
    assert (best.lamp, best.base, best.watts, best.shape, best.kind) == (
        "G24q-3/26/quad",
        "G24q-3",
        26,
        "quad",
        "fluorescent",
    )
    assert best.agrees == tuple(QUAD)
    assert best.disagrees == ()


@pytest.mark.parametrize("looks", [{}, QUAD, {"length_mm": 2500.0}, {"notch": "none"} | QUAD, {"tube_mm": 5.0}])
def test_probabilities_sum_to_one_best_first_and_none_is_zero(catalogue, looks):
    found = [one.probability for one in rank(catalogue, looks)]
    assert math.isclose(sum(found), 1, rel_tol=1e-12)
    assert found == sorted(found, reverse=True)
    assert min(found) > 0


def test_no_answer_strikes_any_lamp_out(catalogue):
    for look in catalogue.looks:
        answers = [value.value for value in look.values] or [look.low, look.high]
        for answer in answers:
            assert rank(catalogue, {look.key: answer})[-1].probability > 0, (look.key, answer)


def test_cannot_tell_says_nothing(catalogue):
    neutral = {look.key: CANNOT_TELL for look in catalogue.looks}
    assert rank(catalogue, neutral | QUAD) == rank(catalogue, QUAD)


def test_order_of_looks_does_not_matter(catalogue):
    ahead, back = rank(catalogue, QUAD), rank(catalogue, dict(reversed(QUAD.items())))
    assert chances(ahead) == pytest.approx(chances(back), rel=1e-12)


def test_doubtful_value_weighs_less_than_a_published_one(catalogue):
    """2G11 and 2G10 both have four pins; that the first stands in a row is published, of the second nothing is."""
    row = chances(rank(catalogue, {"arrangement": "row"}))
    rectangle = chances(rank(catalogue, {"arrangement": "rectangle"}))
    swing = {lamp: row[lamp] / rectangle[lamp] for lamp in row}
    assert swing["2G11/18/long-twin"] > swing["2G7/9/twin"] > swing["2G10/18/flat"] > swing["GR10q/16/square"]


@pytest.mark.parametrize(
    ("looks", "lamp", "agrees", "disagrees"),
    [
        ({"legs": "4"}, "2G10/18/flat", ("legs",), ()),  # a flat lamp called four legs is right too
        ({"legs": "4-flat"}, "G24q-1/13/quad", (), ("legs",)),
        ({"arrangement": "row"}, "2G10/18/flat", (), ()),  # not known
        ({"notch": "two-small"}, "GX24q-3/32/triple", (), ()),  # of its family, but not known which
        ({"notch": "one-large"}, "GX24q-3/32/triple", (), ("notch",)),  # not met in its family
        ({"notch": "none"}, "G13/18/linear", ("notch",), ()),
        ({"length_mm": 1210.0}, "G13/36/linear", ("length_mm",), ()),
        ({"length_mm": 1225.0}, "G13/36/linear", (), ("length_mm",)),
        ({"length_mm": 150.0}, "2GX7/13/twin", (), ()),  # not known
        ({"watts": CANNOT_TELL}, "G13/36/linear", (), ()),
    ],
)
def test_candidate_says_which_looks_agree(catalogue, looks, lamp, agrees, disagrees):
    (one,) = (one for one in rank(catalogue, looks) if one.lamp == lamp)
    assert (one.agrees, one.disagrees) == (agrees, disagrees)


def test_marks_multiply_and_speak(catalogue):
    found = {
        one.lamp: one
        for one in rank(
            catalogue,
            QUAD,
            likelihood={"G24q-3/26/quad": 0.1, "GX24q-3/26/triple": 1.0, "G24d-3/26/quad": 0.6},
            floor=0.01,
        )
    }
    bare = chances(rank(catalogue, QUAD))
    odds = found["GX24q-3/26/triple"].probability / found["G24q-3/26/quad"].probability
    assert odds == pytest.approx(10 * bare["GX24q-3/26/triple"] / bare["G24q-3/26/quad"])
    assert "marks" in found["G24d-3/26/quad"].agrees
    assert "marks" in found["G24q-3/26/quad"].disagrees
    assert "marks" in found["G5/8/linear"].disagrees


def test_no_marks_are_no_evidence_whatever_the_floor(catalogue):
    assert rank(catalogue, QUAD, likelihood={}, floor=0.0) == rank(catalogue, QUAD)


def test_marks_of_zero_strike_nothing_out(catalogue):
    found = rank(catalogue, QUAD, likelihood={"G24q-3/26/quad": 1.0}, floor=0.0)
    assert min(one.probability for one in found) > 0
    nothing = rank(catalogue, QUAD, likelihood={"no such lamp": 1.0}, floor=0.0)
    assert chances(nothing) == pytest.approx(chances(rank(catalogue, QUAD)))


def test_prior_weighs_lamps(catalogue):
    prior = {"G13/36/linear": 3.0}
    found = chances(rank(catalogue, {}, prior=prior))
    assert found["G13/36/linear"] == pytest.approx(3 * found["G5/8/linear"])


@pytest.mark.parametrize(
    ("looks", "says"),
    [
        ({"colour": "white"}, "no look"),
        ({"legs": "5"}, "no answer"),
        ({"length_mm": -1.0}, "outside"),
        ({"length_mm": math.nan}, "outside"),
        ({"watts": "29"}, "no lamp"),
    ],
)
def test_answer_that_is_none_is_refused(catalogue, looks, says):
    with pytest.raises(LookProblem, match=says):
        rank(catalogue, looks)


def test_sizes_may_come_as_text_and_watts_as_numbers(catalogue):
    typed = rank(catalogue, {"length_mm": "16.5 cm", "watts": 26.0})
    assert typed == rank(catalogue, {"length_mm": 165.0, "watts": "26"})


def test_changed_number_in_the_catalogue_changes_the_ranking(catalogue):
    old = catalogue.lamp_by_id["G13/58/linear"]
    new = old.model_copy(update={"length_mm": old.length_mm.model_copy(update={"value": 1600.0})})
    lamps = tuple(new if lamp is old else lamp for lamp in catalogue.lamps)
    changed = catalogue.model_copy(update={"lamps": lamps})
    assert rank(catalogue, {"length_mm": 1600.0})[0].lamp != "G13/58/linear"
    assert rank(changed, {"length_mm": 1600.0})[0].lamp == "G13/58/linear"
