"""Every answer is proved by the core, and a wrong one is not."""

from __future__ import annotations

import pytest

from counter.training import KINDS, draw_cards, dress, points
from tests.training.prove import prove

COUNT = 12


@pytest.fixture(scope="module")
def by_kind(catalogue):
    # A sale may be asked for as a caution: drawn together, so that there are enough of both.
    found = [card for kind in KINDS for card in draw_cards(catalogue, 4, COUNT * (1 + 3 * (kind == "sale")), [kind])]
    return {kind: [card for card in found if card.kind == kind][:COUNT] for kind in KINDS}


@pytest.mark.parametrize("kind", KINDS)
def test_answers_are_proved(catalogue, by_kind, kind):
    assert len(by_kind[kind]) >= 8
    assert [card.id for card in by_kind[kind] if not prove(catalogue, card)] == []


@pytest.mark.parametrize("kind", KINDS)
def test_another_answer_is_not(catalogue, by_kind, kind):
    for card in by_kind[kind]:
        worst = card.worth.index(min(card.worth))
        turned = tuple(1.0 if at == worst else 0.0 for at in range(len(card.worth)))
        assert not prove(catalogue, card.model_copy(update={"answer": worst, "worth": turned})), card.said


@pytest.mark.parametrize(
    "change",
    [{"worth": (1.0,)}, {"worth": (1.0, 1.0, 1.0)}, {"choices": ("a", "a", "b")}, {"answer": 1}],
)
def test_a_card_that_contradicts_itself_is_not(catalogue, by_kind, change):
    card = next(card for card in by_kind["uv-or-light"] if card.answer == 0)
    assert prove(catalogue, card)
    assert not prove(catalogue, card.model_copy(update=change))


@pytest.mark.slow
@pytest.mark.parametrize("kind", [kind for kind in KINDS if kind != "caution"])  # cautions are dresses of sales
def test_the_whole_deck(catalogue, kind):
    """Every point in many clothes: proved, and no question with two answers."""
    answers: dict[str, str] = {}
    for point in points(catalogue, [kind]):
        dresses = [card for variant in range(12) if (card := dress(catalogue, point, variant)) is not None]
        for card in dresses:
            assert prove(catalogue, card), card
            assert answers.setdefault(card.said, card.choices[card.answer]) == card.choices[card.answer]
