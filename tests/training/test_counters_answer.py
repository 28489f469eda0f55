"""The one property of all cards: the right answer is what the counter answers to the card's own case.

Everything is read from the report, as somebody outside would read it, and the case is put to `assess` anew.
"""

from __future__ import annotations

import json

import pytest

from counter.desk import Case, assess
from counter.training import cards_about, cards_report, draw_cards, settings
from counter.training.cards._look_cards import told_kind
from counter.training.cards._maker_cards import asked_by
from counter.training.cards._rule_cards import places, rules, without_figure

SEEDS = (11, 23, *(pytest.param(seed, marks=pytest.mark.slow) for seed in (47, 101, 997)))
EACH = 200


def family_of(catalogue, lamp):
    return catalogue.base_of(catalogue.lamp_by_id[lamp]).family


def answers(catalogue, row):
    """Return what the counter says: the texts of a choice that would be right."""
    found = assess(catalogue, Case.model_validate(row["case"]))
    words = settings().words
    match row["kind"]:
        case "sale":
            return {words[found.verdict]}
        case "caution":
            first = found.cautions[0]
            return {{"says": first.says, "why": first.why, "do": first.do}[row["aspect"]]}
        case "next-look":
            asked = [ask.about for ask in found.asks[:1] if ask.about in catalogue.look_by_key]
            return {catalogue.look_by_key[one].label for one in (*asked, found.next[0].look)}
        case "name-base" | "which-of-two":
            return {family_of(catalogue, found.nearest)}
        case "notch-side":
            return {words[row["case"]["looks"]["notch"]]}
        case "uv-or-light":
            return {words[f"choice {told_kind(found)}"]}
        case "read-code":
            return {span.means for reading in found.readings for span in reading.spans}
        case "makers-code":
            spans = found.readings[0].spans
            asked = ((one, words[asked_by(one)].format(one.means)) for one in spans if asked_by(one))
            return {one.text for one, what in asked if f"says {what}?" in row["question"]}
        case "worn-code":
            return {reading.canonical for reading in found.readings if reading.lamps}
    raise AssertionError(row["kind"])


@pytest.mark.parametrize("seed", SEEDS)
def test_every_answer_is_the_counters(catalogue, seed):
    rows = json.loads(json.dumps(cards_report(draw_cards(catalogue, seed, EACH))))["cards"]
    assert len(rows) == EACH
    wrong = [row for row in rows if row["choices"][row["answer"]] not in answers(catalogue, row)]
    assert wrong == []


@pytest.mark.parametrize("seed", SEEDS)
def test_no_other_choice_is_the_counters(catalogue, seed):
    rows = [
        row for row in cards_report(draw_cards(catalogue, seed, EACH // 4))["cards"] if row["kind"] != "read-code"
    ]
    for row in rows:  # a part of a code may say elsewhere in it what another part says here
        others = {text for text, worth in zip(row["choices"], row["worth"], strict=True) if worth < 1}
        assert not others & answers(catalogue, row), row


def test_a_card_of_another_case_would_be_found_out(catalogue):
    rows = cards_report(draw_cards(catalogue, 5, 40, ["sale"]))["cards"]
    turned = [row | {"answer": (row["answer"] + 1) % len(row["choices"])} for row in rows]
    assert all(row["choices"][row["answer"]] not in answers(catalogue, row) for row in turned)


def test_a_guarding_look_is_the_only_right_one(catalogue):
    found = draw_cards(catalogue, 8, 60, ["next-look"])
    guarded = [card for card in found if card.values[card.answer] == "glass"]
    assert guarded
    for card in guarded:
        assert sum(worth > 0 for worth in card.worth) == 1
        assert settings().words["why guard"] in card.why


def test_every_rule_that_comes_up_has_a_lesson(catalogue):
    """Three cards of one rule at the least, each decided by that rule; for the rest it is known that none is."""
    for rule in rules():
        found = cards_about(catalogue, rule, 4)
        if places().get(without_figure(rule)) == ():
            assert found == (), rule
            continue
        assert len({card.question for card in found}) >= 3, rule
        for row in cards_report(card for card in found if card.instead is None)["cards"]:
            first = assess(catalogue, Case.model_validate(row["case"])).cautions[0]
            assert without_figure(first.rule) == without_figure(rule)
            assert row["choices"][row["answer"]] in answers(catalogue, row)


@pytest.mark.slow
def test_where_rules_come_up_is_kept_up_to_date(catalogue):
    """Else a lesson is shorter than it could be: run `python -m tests.lessons --write`."""
    from counter.training.cards._facts import Lore
    from tests.lessons import found_places

    found = found_places(Lore(catalogue))
    assert {rule: tuple(one) for rule, one in found.items()} == places()
