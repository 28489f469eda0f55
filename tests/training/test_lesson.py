"""A lesson about one thing: only its cards, and a record only where somebody learns."""

import pytest

from counter.training import KINDS, Lesson, add_trainee, make_ahead, progress, trainees
from counter.training._lesson import CARDS
from counter.training.cards._facts import Lore


def cards_of(lesson, now):
    while (card := lesson.next_card(now)) is not None:
        yield card
        lesson.answer(card, card.answer, 5, now)


def test_a_lesson_asks_different_cards_of_one_family(catalogue, data, now):
    found = list(cards_of(Lesson(catalogue, data, None, "G24q", now), now))
    assert len({card.id for card in found}) == CARDS
    assert {card.family for card in found} == {"G24q"}


def test_the_first_card_waits_for_no_other_kind_of_point(catalogue, data, now, monkeypatch):
    known = Lore(catalogue)
    monkeypatch.setattr("counter.training.cards._points.lore", lambda _: known)
    who = add_trainee(data, "A", now).id
    assert Lesson(catalogue, data, who, "G24q", now).next_card(now).kind == "name-base"
    assert set(known.points) == {"name-base"}


def test_without_a_trainee_nothing_is_written(catalogue, data, now):
    list(cards_of(Lesson(catalogue, data, None, "G23", now), now))
    assert not data.exists()


def test_with_a_trainee_every_answer_is_kept(catalogue, data, now):
    who = add_trainee(data, "A", now).id
    found = list(cards_of(Lesson(catalogue, data, who, "G23", now), now))
    assert [answer.card for answer in progress(data, who).answers] == [card.id for card in found]


def test_a_wrong_answer_without_a_trainee_is_still_told(catalogue, data, now):
    lesson = Lesson(catalogue, data, None, "G24q", now)
    card = lesson.next_card(now)
    wrong = next(at for at, worth in enumerate(card.worth) if worth == 0)
    feedback = lesson.answer(card, wrong, 5, now)
    assert (feedback.is_right, feedback.rating, feedback.why) == (False, "again", card.why)


def test_nothing_known_asks_nothing(catalogue, data, now):
    assert Lesson(catalogue, data, None, "no such thing", now).next_card(now) is None


def test_a_lesson_of_somebody_removed_goes_on_without_a_record_and_says_so_once(catalogue, data, now):
    lesson = Lesson(catalogue, data, "0" * 16, "G23", now)
    card = lesson.next_card(now)
    first, second = (lesson.answer(card, card.answer, 5, now) for _ in range(2))
    assert (first.is_right, second.is_right, second.unkept) == (True, True, "")
    assert "not kept" in first.unkept
    assert trainees(data) == ()


def test_a_lesson_goes_on_where_the_store_cannot_be_read(catalogue, data, now, monkeypatch):
    who = add_trainee(data, "A", now).id
    monkeypatch.setenv("COUNTER_STORE", "postgresql://clerk@127.0.0.1:1/shop")
    lesson = Lesson(catalogue, data, who, "G23", now)
    card = lesson.next_card(now)
    assert "cannot be reached" in lesson.answer(card, card.answer, 5, now).unkept
    assert lesson.answer(card, card.answer, 5, now).unkept == ""


def test_an_answer_that_cannot_be_written_is_the_same_card_again(catalogue, data, now, monkeypatch):
    lesson = Lesson(catalogue, data, add_trainee(data, "A", now).id, "G23", now)
    card = lesson.next_card(now)
    monkeypatch.setattr("counter.training._round.write_record", no_room)
    with pytest.raises(OSError, match="full"):
        lesson.answer(card, card.answer, 5, now)
    assert lesson.next_card(now) == card


def no_room(*_):
    raise OSError(28, "the disk is full")


def test_what_is_made_ahead_is_not_made_again(catalogue, monkeypatch):
    known = Lore(catalogue)
    monkeypatch.setattr("counter.training.cards._points.lore", lambda _: known)
    for _ in make_ahead(catalogue):
        pass
    assert set(known.points) == set(KINDS) - {"caution"}
    asked = dict(known._assessed)
    for _ in make_ahead(catalogue):
        pass
    assert known._assessed == asked
