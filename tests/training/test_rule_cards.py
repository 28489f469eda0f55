"""Cards on one rule of caution: a case found in the catalogue, for every rule that a case can bring about."""

import random

import pytest

from counter.training import Lesson, Round, add_case, add_trainee, cards_about, progress
from counter.training.cards._facts import Lore, Setting
from counter.training.cards._rule_cards import point_of_rule, rule_card, rules, without_figure
from counter.training.cards._sale_cards import told_of
from tests.training.prove import prove


def first_rule(catalogue, card):
    told = told_of(Lore(catalogue), Setting("", card.case.chosen or "", card.case, card.instead))
    return without_figure(told.cautions[0].rule)


@pytest.mark.slow
def test_every_card_on_a_rule_is_proved_and_decided_by_it(catalogue):
    for rule in rules():
        for card in cards_about(catalogue, rule, 8):
            assert prove(catalogue, card), card
            assert first_rule(catalogue, card) == without_figure(rule)


@pytest.mark.parametrize(
    "rule",
    [
        *("two-pin-dimmed", "damp", "too-many-lamps", "mains-holder", "labelled-pins", "colour-differs"),
        *("led-b-bypassed", "law-ended", "marks-uv", "broken", "look-uvc-twin", "no-disinfection", "too-thick"),
    ],
)
def test_a_rule_has_proved_cards_in_different_clothes(catalogue, rule):
    made = cards_about(catalogue, rule, 3)
    assert len({card.id for card in made}) == len(made) >= 2
    assert all(prove(catalogue, card) for card in made)
    answers = {without_figure(card.values[card.answer]) for card in made if card.kind == "caution"}
    assert answers <= {rule}


def test_the_same_rule_finds_the_same_case_again(catalogue):
    one, other = (point_of_rule(Lore(catalogue), "two-pin-dimmed") for _ in range(2))
    assert one == other
    assert rule_card(Lore(catalogue), one, random.Random(3)) == rule_card(Lore(catalogue), one, random.Random(3))


def test_the_lamp_at_hand_is_asked_about_where_it_can_be(catalogue, data, now):
    lesson = Lesson(catalogue, data, None, "two-pin-dimmed", now, near="G24d")
    assert lesson.next_card(now).family == "G24d"
    lesson = Lesson(catalogue, data, None, "two-pin-dimmed", now, near="G24q")
    assert lesson.next_card(now).family not in ("", "G24q")


@pytest.mark.parametrize("rule", ["too-long", "no such rule"])
def test_what_is_unsure_or_unknown_is_not_asked(catalogue, rule):
    assert cards_about(catalogue, rule) == ()


def test_nobody_is_asked_to_sell_what_may_be_germicidal(catalogue):
    sales = [card for card in cards_about(catalogue, "look-uvc-twin", 8) if card.kind == "sale"]
    assert all(card.case.looks["glass"] == "white" for card in sales)  # and nobody else: the glass was not looked at


def test_a_caution_once_taught_comes_back_in_rounds(catalogue, data, now):
    who = add_trainee(data, "A", now).id
    lesson = Lesson(catalogue, data, who, "damp", now)
    card = lesson.next_card(now)
    lesson.answer(card, None, 5, now)
    later = progress(data, who).answers[0].at.replace(day=now.day + 1)
    again = Round(catalogue, data, who, 5, later).next_card(later)
    assert again.point == card.point


def test_a_case_that_only_such_a_rule_decides_goes_into_the_deck(catalogue, data, now):
    card = next(card for card in cards_about(catalogue, "two-pin-dimmed", 3, near="G24d"))
    who = add_trainee(data, "A", now).id
    assert f"caution/{card.family}/two-pin-dimmed" in add_case(data, who, catalogue, card.case, now)
