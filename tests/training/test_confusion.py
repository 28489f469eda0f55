"""The confusion matrix and what it names."""

from __future__ import annotations

from counter.training import DO_NOT_KNOW, Confusion, confusion, mixes


def test_matrix_counts_asked_against_said(answer):
    answers = [answer(), answer(), answer(worth=0, said="G24d"), answer("name-base/G24d", worth=0, said="GX23")]
    found = confusion(answers, "family")
    assert found == Confusion(
        axis="family", labels=("G24d", "G24q", "GX23"), counts=((0, 0, 1), (1, 2, 0), (0, 0, 0))
    )
    assert [(mix.asked, mix.said, mix.times) for mix in found.mixes()] == [("G24d", "GX23", 1), ("G24q", "G24d", 1)]
    assert found.mixes()[1].share == 1 / 3


def test_axes_are_kept_apart_and_repeats_count(answer):
    again = answer(worth=0, is_first=False)
    side = answer("notch-side/G24q", worth=0, axis="notch", asked="small-left", said="small-right")
    assert confusion([side], "family").counts == ()
    found = mixes([side, again, side, answer()])
    assert [mix[:4] for mix in found] == [("notch", "small-left", "small-right", 2), ("family", "G24q", "G24d", 1)]


def test_what_was_not_known_is_no_confusion(answer):
    assert mixes([answer(worth=0, said=DO_NOT_KNOW), answer(worth=0, said="G24d")])[0].said == "G24d"
    assert mixes([answer(worth=0, said=DO_NOT_KNOW)]) == ()


def test_another_right_answer_is_no_confusion(answer):
    also_right = answer(axis="look", asked="pins", said="legs", worth=1.0)
    assert confusion([also_right], "look").mixes() == ()
