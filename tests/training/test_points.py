"""The deck: made from the catalogue alone, the same from the same seed, no question with two answers."""

from __future__ import annotations

from collections import defaultdict
from itertools import islice

import pytest

from counter.training import KINDS, card_of, card_stream, cards_about, cards_report, draw_cards, dress, points

CRITICAL = {"sale", "caution", "uv-or-light"}


@pytest.fixture(scope="module")
def deck(catalogue):
    return draw_cards(catalogue, 1, 240)


def test_same_seed_same_cards(catalogue, deck):
    assert draw_cards(catalogue, 1, 40) == deck[:40]
    assert draw_cards(catalogue, 2, 40) != deck[:40]


def test_every_kind_comes_up_and_ids_are_unique(deck):
    assert {card.kind for card in deck} == set(KINDS)
    assert len({card.id for card in deck}) == len(deck) == 240


def test_only_ultraviolet_and_mismatch_are_critical(deck):
    assert all(card.is_critical == (card.kind in CRITICAL) for card in deck)


def test_same_question_and_drawing_never_has_two_answers(catalogue, deck):
    answers = defaultdict(set)
    for card in (*deck, *draw_cards(catalogue, 77, 120)):
        answers[card.said].add(card.choices[card.answer])
    assert {question: found for question, found in answers.items() if len(found) > 1} == {}


def test_one_id_is_one_card_whatever_the_seed(catalogue, deck):
    known = {card.id: card for card in deck}
    shared = [card for card in draw_cards(catalogue, 5, 120) if card.id in known]
    assert shared
    assert all(card == known[card.id] for card in shared)


def test_report_is_what_the_contract_says(catalogue, deck):
    report = cards_report(deck[:20])
    for row, card in zip(report["cards"], deck, strict=False):
        assert {"kind", "question", "choices", "answer", "why"} <= row.keys()
        assert row["choices"][row["answer"]] == card.choices[card.answer]
        assert row["why"]
        assert row["question"].startswith(card.question)
        assert card.draw is None or "Drawn: " in row["question"]  # answerable without a screen


def test_no_template_is_left_open(deck):
    texts = [text for card in deck for text in (card.said, card.why, *card.choices)]
    assert not [text for text in texts if "{" in text or "}" in text or "None" in text or "  " in text]


def test_answers_stand_at_every_place(deck):
    names = [card.answer for card in deck if card.kind == "name-base"]
    assert set(names) == {0, 1, 2, 3}


def test_kinds_can_be_chosen(catalogue):
    assert {card.kind for card in draw_cards(catalogue, 1, 10, ["notch-side"])} == {"notch-side"}


def test_a_small_kind_ends(catalogue):
    found = draw_cards(catalogue, 1, 1000, ["notch-side"])
    assert 10 < len(found) < 100


@pytest.mark.parametrize("about", ["G24q", "G24q-2"])
def test_teach_me_a_base(catalogue, about):
    found = cards_about(catalogue, about, 8)
    assert len(found) == 8
    assert {card.family for card in found} == {"G24q"}


@pytest.mark.parametrize("rule", ["uvc-in-lighting", "two-pin-on-electronic", "led-driver"])
def test_teach_me_a_caution(catalogue, rule):
    found = cards_about(catalogue, rule, 4)
    assert len(found) >= 2
    assert any(card.values[card.answer] == rule for card in found)
    assert all(card.values[card.answer] == rule for card in found if card.kind == "caution")


def test_teach_me_nothing_known(catalogue):
    assert cards_about(catalogue, "ZZ99") == ()


def test_a_new_lamp_type_brings_new_cards(changed):
    def grow(document):
        (base,) = [base for base in document["bases"] if base["designation"] == "G23"]
        (lamp,) = [lamp for lamp in document["lamps"] if lamp["id"] == "G23/5/twin"]
        document["bases"].append(base | {"designation": "G99", "family": "G99", "pins": base["pins"] | {"value": 3}})
        document["looks"][1]["values"].append({"value": "3", "label": "3 pins"})
        document["lamps"].append(lamp | {"id": "G99/5/twin", "base": "G99"})

    grown = changed(grow)
    new = [point for point in points(grown) if point.family == "G99"]
    assert {"name-base", "which-of-two", "next-look", "sale"} <= {point.kind for point in new}
    name = next(card_of(grown, point) for point in new if point.kind == "name-base")
    assert name.choices[name.answer] == "G99"
    assert "3 pins" in name.said


def test_cards_are_made_one_at_a_time(catalogue, monkeypatch):
    made = []

    def counted(*given):
        made.append(given)
        return dress(*given)

    monkeypatch.setattr("counter.training.cards._points.dress", counted)
    found = list(islice(card_stream(catalogue, 1), 3))
    assert len(found) == 3
    assert len(made) <= 3 * 8  # no more than the tries of the cards taken


def test_other_clothes_avoid_the_cards_just_seen(catalogue):
    for point in points(catalogue, ["notch-side", "which-of-two", "name-base"]):
        if (seen := card_of(catalogue, point)) is not None:  # the counter takes some pairs for a third base
            assert card_of(catalogue, point, avoid=[seen.id]).id != seen.id
