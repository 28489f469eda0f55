"""Questions: only those that matter, the most telling first, and what each answer leads to."""

from collections import Counter
from itertools import pairwise

import pytest
from scipy.stats import entropy


def _asked(said):
    return [ask.about for ask in said.asks]


def test_nothing_is_asked_once_it_is_refused(judged):
    assert judged("G24q-3/26/quad", holder="G24d-3").asks == ()


def test_use_leads_for_a_germicidal_lamp(judged):
    assert _asked(judged("2G11/36/long-twin/uv-c", "unknown"))[0] == "use"


def test_what_blocks_stands_before_what_does_not(judged):
    blocks = [ask.blocks for ask in judged("G13/36/linear", "unknown").asks]
    assert blocks == sorted(blocks, reverse=True)
    assert {True, False} == set(blocks)


def test_watts_are_not_asked_where_the_key_settles_them(judged):
    assert "ballast_watts" not in _asked(judged("G24q-2/18/quad", holder="G24q-2", ballast="magnetic"))
    assert "ballast_watts" in _asked(judged("G24q-1/13/quad", holder="G24q-1", ballast="magnetic"))
    assert "ballast_watts" in _asked(judged("2G11/55/long-twin", holder="2G11", ballast="electronic"))


def test_the_more_verdicts_an_answer_can_bring_the_sooner_it_is_asked(judged):
    for lamp in ("G23/9/twin", "2G11/36/long-twin", "G24d-1/13/quad", "GR10q/28/square"):
        asks = [ask for ask in judged(lamp, "unknown").asks if ask.blocks and ask.about != "came_out"]
        spread = [len({line.rpartition(": ")[2] for line in ask.outcomes}) for ask in asks]
        assert spread == sorted(spread, reverse=True), (lamp, asks)


def test_of_as_many_verdicts_the_more_even_are_asked_first(judged):
    seen = 0
    for lamp in ("G23/9/twin", "2G11/36/long-twin", "G24d-1/13/quad", "GR10q/28/square", "G13/36/linear"):
        found = [ask for ask in judged(lamp, "unknown").asks if ask.blocks and ask.about != "came_out"]
        told = [[line.rpartition(": ")[2] for line in ask.outcomes] for ask in found]
        for one, other in pairwise(told):
            if len(set(one)) == len(set(other)):
                seen += _bits(one) != _bits(other)
                assert _bits(one) >= _bits(other) - 1e-6, (lamp, one, other)
    assert seen


def _bits(told):
    return entropy(list(Counter(told).values()), base=2)


def test_yes_and_no_are_both_tried(judged):
    asks = judged("G24q-3/26/quad", holder="G24q-3", ballast="electronic", ballast_watts=(26,)).asks
    found = {ask.about: ask.outcomes for ask in asks}
    assert found["dimmer"] == found["emergency"] == ("yes: ask first", "no: sell")


@pytest.mark.parametrize("lamp", ["G24q-3/26/quad", "G23/9/twin/uv-c", "2G11/36/long-twin", "GU24/13"])
@pytest.mark.parametrize("use", ["lighting", "germicidal", "unknown"])
def test_no_answer_makes_a_verdict_milder_than_its_outcome_said(judged, lamp, use):
    strict = ("sell", "ask first", "do not sell")
    for ask in judged(lamp, use).asks:
        if ask.about not in ("ballast", "use"):
            continue
        for line in ask.outcomes:
            answer, _, outcome = line.replace("no ballast", "none").rpartition(": ")
            fixture = {"ballast": answer} if ask.about == "ballast" else {}
            then = judged(lamp, answer if ask.about == "use" else use, **fixture).verdict
            assert strict.index(then) >= strict.index(outcome)


def test_lamp_count_is_asked_when_the_label_limits_it(judged):
    said = judged("G24q-3/26/quad", holder="G24q-3", label="electronic ballast for 1 or 2 CFQ26W lamps")
    assert said.verdict == "sell"
    count = next(ask for ask in said.asks if ask.about == "lamp_count")
    assert count.outcomes == ("1: sell", "2: sell", "3: do not sell")
