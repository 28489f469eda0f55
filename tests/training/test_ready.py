"""Ready for the counter: bars, windows, and the trainer's sheet."""

from __future__ import annotations

from datetime import timedelta

import pytest

from counter.training import (
    Progress,
    Trainee,
    add_trainee,
    everybody,
    points,
    results_sheet,
    row,
    rule_name,
    settings,
    standings,
    write_record,
)
from counter.training.cards._rule_cards import rules

FAMILY = "GU24"


@pytest.fixture
def known(now):
    """Return a maker of progress from answers."""

    def make(answers):
        return Progress(trainee=Trainee(id="0" * 16, name="Ola", at=now), events=tuple(answers))

    return make


@pytest.fixture
def drilled(catalogue, answer):
    """Return answers to every point of the family: so many plain and critical ones, some wrong, oldest first."""

    def make(plain, critical, wrong_plain=0, wrong_critical=0):
        own = [point for point in points(catalogue) if point.family == FAMILY]
        made = []
        for is_critical, count, wrong in ((False, plain, wrong_plain), (True, critical, wrong_critical)):
            some = [point.id for point in own if point.is_critical == is_critical]
            made += [answer(some[at % len(some)], day=at, worth=float(at >= wrong)) for at in range(count)]
        return made

    return make


def standing(catalogue, progress):
    return next(one for one in standings(catalogue, progress) if one.family == FAMILY)


@pytest.mark.parametrize(
    ("plain", "critical", "wrong_plain", "wrong_critical", "is_ready"),
    [
        (17, 37, 0, 0, True),  # 0.025^(1/17) = 0.805 and 0.025^(1/37) = 0.905 are the first over their bars
        (16, 37, 0, 0, False),  # 0.794
        (17, 35, 0, 0, False),  # 0.89997
        (17, 17, 0, 0, False),  # good enough for plain cards, not for critical ones
        (37, 37, 1, 0, True),
        (37, 37, 0, 1, False),
        (60, 60, 5, 0, True),
        (60, 60, 6, 0, False),
    ],
)
def test_bars(catalogue, known, drilled, plain, critical, wrong_plain, wrong_critical, is_ready):
    found = standing(catalogue, known(drilled(plain, critical, wrong_plain, wrong_critical)))
    assert found.is_ready == is_ready
    assert found.unseen == 0


def test_early_mistakes_are_left_behind(catalogue, known, drilled):
    early = drilled(20, 20, 20, 20)
    assert not standing(catalogue, known(early + drilled(17, 37))).is_ready
    assert standing(catalogue, known(early + drilled(60, 60))).is_ready


def test_repeats_within_a_round_do_not_count(catalogue, known, drilled):
    repeats = [one.model_copy(update={"is_first": False}) for one in drilled(60, 60)]
    assert standing(catalogue, known(repeats)).plain.asked == 0


def test_an_unseen_point_keeps_a_family_back(catalogue, known, drilled):
    some = [one for one in drilled(60, 60) if not one.point.startswith("next-look")]
    found = standing(catalogue, known(some))
    assert (found.plain.passes, found.critical.passes, found.unseen, found.is_ready) == (True, True, 1, False)


def test_critical_bar_is_higher():
    assert settings().bars.critical > settings().bars.plain


def test_board_and_sheet(catalogue, data, now, drilled):
    one, other = add_trainee(data, "Mika", now).id, add_trainee(data, "Ada", now).id
    for event in drilled(18, 40):
        write_record(data, one, event)
    later = now + timedelta(days=400)
    first, second = (row(catalogue, one, later) for one in everybody(data))
    assert (first.name, first.ready, first.answers) == ("Ada", (), 0)
    assert (second.name, second.ready, second.answers) == ("Mika", (FAMILY,), 58)
    assert second.faded == len({event.point for event in drilled(18, 40)})
    assert second.families("fading") == (FAMILY,)
    assert first.trainee == other


def test_sheet_is_plain_and_fits_the_page(catalogue, known, drilled, answer, now):
    mixed = answer("name-base/G24q", worth=0, said="GX24q")
    sheet = results_sheet(catalogue, known([*drilled(18, 40), mixed]), now)
    assert max(map(len, sheet.splitlines())) <= 80
    assert f"{FAMILY}: ready for the counter" in sheet
    assert "18 of 18 right at the first try, sure of 81" in sheet
    assert "40 of 40 right at the first try, sure of 91" in sheet
    assert "G24q taken for GX24q: 1 time\n" in sheet


def test_sheet_names_rules_in_words(catalogue, known, answer, now):
    about = {"axis": "caution", "asked": "led-driver", "said": "key-differs", "worth": 0}
    sheet = results_sheet(catalogue, known([answer("sale/G24q/led-driver", **about)]), now)
    assert "“fluorescent lamp on an LED driver” taken for “another key”: 1 time" in sheet
    assert "led-driver" not in sheet


def test_every_rule_has_a_name(catalogue):
    assert {rule for rule in rules() if rule_name(rule) == "another caution"} == set()


def test_sheet_of_a_beginner(catalogue, known, now):
    sheet = results_sheet(catalogue, known([]), now)
    assert "none yet" in sheet
    assert "Nothing was mixed up." in sheet
