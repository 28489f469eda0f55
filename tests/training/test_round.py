"""A round: mistakes come back in other clothes, time ends it, the record carries it over a crash."""

from __future__ import annotations

from datetime import timedelta

import pytest

from counter.training import (
    DO_NOT_KNOW,
    Round,
    UnknownTraineeError,
    assign,
    progress,
    remove_trainee,
    trainees,
    write_record,
)

GAP = 3


def right(card):
    return card.answer


def wrong(card):
    return card.worth.index(min(card.worth))


def test_nothing_is_asked_twice_without_a_mistake(play, trainee):
    asked = [card.point for card, _ in play(trainee, right)]
    assert len(asked) == len(set(asked)) == 67  # 600 s of 9 s each


@pytest.mark.parametrize("minutes", [5, 10, 20])
def test_time_ends_the_round(catalogue, data, trainee, now, minutes):
    lesson = Round(catalogue, data, trainee, minutes, now)
    assert lesson.next_card(now + timedelta(minutes=minutes, seconds=-1)) is not None
    assert lesson.next_card(now + timedelta(minutes=minutes)) is None


def test_a_mistake_comes_back_in_other_clothes(play, trainee):
    missed = {}

    def miss_once(card):
        return right(card) if missed else missed.setdefault(card.id, wrong(card))

    played = play(trainee, miss_once)
    (first, told), again = played[0], [card for card, _ in played[1:] if card.point == played[0][0].point]
    assert told.comes_back
    assert len(again) == 1
    assert again[0].id != first.id
    assert [card.point for card, _ in played].index(first.point, 1) == GAP + 1


def test_a_mistake_comes_back_until_it_is_right(play, trainee, data):
    played = play(trainee, wrong, minutes=5)
    points = [card.point for card, _ in played]
    assert max(map(points.count, points)) >= 3
    answers = progress(data, trainee).answers
    assert [answer.is_first for answer in answers] == [point not in points[:at] for at, point in enumerate(points)]


def test_the_same_card_never_comes_twice_running(play, trainee, data, now):
    assign(data, trainee, "G24d", now)
    last = {}
    for card, _ in play(trainee, wrong, minutes=20):
        assert last.get(card.point) != card.id
        last[card.point] = card.id


def test_what_is_due_comes_first(play, trainee, data, now, catalogue):
    learned = {card.point for card, _ in play(trainee, right, minutes=1)}
    lesson = Round(catalogue, data, trainee, 5, now + timedelta(days=2))
    asked = []
    for second in range(len(learned)):
        at = now + timedelta(days=2, seconds=second)
        card = lesson.next_card(at)
        asked.append(card.point)
        lesson.answer(card, card.answer, 5.0, at)
    assert set(asked) == learned


def test_assigned_families_are_learned_first(play, trainee, data, now):
    assign(data, trainee, "2G11", now)
    first = [card.family for card, _ in play(trainee, right, minutes=2)]
    assert set(first) == {"2G11"}


def test_few_families_at_a_time_without_an_assignment(play, trainee):
    assert len({card.family for card, _ in play(trainee, right, minutes=2)}) <= 3


def test_a_round_goes_on_where_a_crash_left_it(catalogue, data, trainee, now):
    whole = Round(catalogue, data, trainee, 10, now)
    for second in range(9):
        at = now + timedelta(seconds=second)
        card = whole.next_card(at)
        whole.answer(card, None if second == 2 else card.answer, 5.0, at)
    at = now + timedelta(seconds=9)
    resumed = Round(catalogue, data, trainee, 10, now)
    assert resumed.answers == whole.answers
    assert resumed.next_card(at) == whole.next_card(at) == whole.next_card(at)


def test_do_not_know_is_an_answer(catalogue, data, trainee, now):
    lesson = Round(catalogue, data, trainee, 5, now)
    card = lesson.next_card(now)
    told = lesson.answer(card, None, 2.0, now)
    assert (told.is_right, told.rating, told.answer, told.why) == (False, "again", card.answer, card.why)
    (kept,) = progress(data, trainee).answers
    assert (kept.said, kept.asked) == (DO_NOT_KNOW, card.values[card.answer])


def test_a_removed_trainee_cannot_answer(catalogue, data, trainee, now):
    lesson = Round(catalogue, data, trainee, 5, now)
    card = lesson.next_card(now)
    remove_trainee(data, trainee)
    with pytest.raises(UnknownTraineeError):
        lesson.answer(card, card.answer, 2.0, now)
    assert trainees(data) == ()


def test_confused_families_are_asked_as_a_pair(catalogue, data, trainee, now, answer):
    def pairs():
        return [point.id for point in Round(catalogue, data, trainee, 5, now)._points.values()]

    assert "which-of-two/G23/G13" not in pairs()  # no look-alikes
    write_record(data, trainee, answer("name-base/G23", worth=0, said="G13"))
    assert "which-of-two/G23/G13" in pairs()


def test_confused_points_are_drawn_more_often(catalogue, data, trainee, now, answer):
    lesson = Round(catalogue, data, trainee, 5, now)
    pool = [point for point in lesson._points.values() if point.kind == "which-of-two"]
    lesson._answers += [answer("name-base/G24q", worth=0, said="GX24q")] * 30
    firsts = []
    for turn in range(60):
        lesson._own = [answer()] * turn
        firsts.append(lesson._drawn(pool)[0].id)
    pair = {"which-of-two/G24q/GX24q", "which-of-two/GX24q/G24q"}
    assert sum(one in pair for one in firsts) > 20  # without weights 2 of 50 points come up about twice in 60


def test_practice_touches_nothing_but_the_store(play, trainee, data):
    play(trainee, right, minutes=2)
    assert {path.name.partition("-")[0] for path in data.rglob("*")} == {"shop.db"}
