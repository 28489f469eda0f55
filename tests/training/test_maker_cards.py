"""Cards on makers' own codes, of invented makers and of letters told in a shop; and what a shop mixes up."""

from __future__ import annotations

from collections import Counter

import pytest

from counter import shop
from counter.cli import main
from counter.desk import Case, assess
from counter.marks.letters import LettersMean, LetterTable, as_house, teach
from counter.shop import Return, open_store
from counter.training import Round, card_of, draw_cards, know_makers, points
from counter.training._round import MOST_OF_A_PAIR, shop_mix_ups, shop_weights
from counter.training.cards._maker_cards import ASKED, OWN
from tests.shop.test_log import SOLD, slip

KIND = "makers-code"
QUAD = LettersMean(shape="quad", legs=4)


@pytest.fixture
def told():
    """Let this shop know what XK means, and forget it again."""
    house = (as_house(teach(LetterTable(), "XK", QUAD, who="Ada", at="2026-11-02T10:00")),)
    know_makers(house)
    yield house
    know_makers(())


def parts(found):
    return {one.text: one.part for one in found.readings[0].spans}


def test_the_right_part_is_the_one_that_the_counter_reads_so(catalogue):
    cards = draw_cards(catalogue, 5, 60, [KIND])
    assert len(cards) == 60
    for card in cards:
        read = parts(assess(catalogue, card.case))
        assert tuple(read) == card.choices
        assert read[card.choices[card.answer]].split()[0] in ASKED
        assert sum(card.worth) == 1
    asked = Counter(parts(assess(catalogue, card.case))[card.choices[card.answer]] for card in cards)
    assert {"maker", "colour", "rendering"} < set(asked)
    assert max(asked.values()) < 30  # no one question hides the others


def test_letters_of_invented_makers_are_known_to_nobody(catalogue):
    for own in OWN:
        assert parts(assess(catalogue, Case(marks=f"F26{own}/841")))[own] == "maker"


def test_letters_told_in_this_shop_are_asked_about(catalogue, told):
    (point,) = [one for one in points(catalogue, [KIND]) if one.subject == "XK"]
    card = card_of(catalogue, point)
    assert card.question.endswith("Which part of it says two bent tubes, 4 legs (in this shop)?")
    assert card.choices[card.answer] == "XK"
    assert "unread" not in {one.kind for one in assess(catalogue, card.case, told).doubts}


def test_letters_forgotten_are_asked_about_no_more(catalogue, told):
    (point,) = [one for one in points(catalogue, [KIND]) if one.subject == "XK"]
    assert card_of(catalogue, point) is not None
    know_makers(())
    assert not [one for one in points(catalogue, [KIND]) if one.subject]
    assert card_of(catalogue, point) is None


def test_the_command_deals_cards_on_what_this_shop_told(tmp_path, capsys):
    assert main(["--data", str(tmp_path), "letters", "teach", "QXJ", "shape=quad", "legs=4"]) == 0
    capsys.readouterr()
    assert main(["--data", str(tmp_path), "cards", "--seed", "4", "--count", "60"]) == 0
    said = capsys.readouterr().out
    know_makers(())
    assert "is a maker's own code. Which part of it says two bent tubes, 4 legs (in this shop)?" in said


# -- what a shop mixes up


def sell_wrong(data, sold, right, times, why="wrong base"):
    store = open_store(data)
    for n in range(times):
        number = shop.add_slip(store, slip(f"{sold}{right}{n}"[-40:], lamp=sold), [SOLD])
        came = Return("2026-11-27T10:00:00", "2026-11-27", number, sold, right, why, "")
        shop.add_return(store, f"r{sold}{right}{n}"[-40:], came)


def test_pairs_that_the_shop_mixes_up_weigh_in_what_is_asked(catalogue, shop_data):
    assert shop_mix_ups(catalogue, shop_data) == Counter()
    sell_wrong(shop_data, "G24q-3/26/quad", "GX24q-3/26/triple", 3)
    sell_wrong(shop_data, "G24q-2/18/quad", "G24q-3/26/quad", 12, "wrong watts")
    sell_wrong(shop_data, "G23/9/twin", "G23/7/twin", 2, "arrived broken")  # no mix-up
    mixed = shop_mix_ups(catalogue, shop_data)
    assert mixed == {("G24q", "GX24q"): 3, ("G24q", "G24q"): MOST_OF_A_PAIR}
    found = list(points(catalogue))
    weights = shop_weights(mixed, found)
    assert weights["which-of-two/G24q/GX24q"] == weights["which-of-two/GX24q/G24q"] == 3
    assert weights["read-code/G24q"] == MOST_OF_A_PAIR
    assert weights["name-base/G24q"] == weights["read-code/G23"] == 0


def test_a_mixed_up_pair_is_asked_sooner(catalogue, data, trainee, now):
    """Of many rounds more ask the pair among their first cards once it came back wrong."""

    def early():
        found = 0
        for n in range(40):
            lesson = Round(catalogue, data, trainee, 10, now.replace(minute=n))
            drawn = lesson._drawn(list(points(catalogue)))
            found += [one.id for one in drawn].index("which-of-two/G24q/GX24q") < len(drawn) // 4
        return found

    before = early()
    sell_wrong(data, "GX24q-3/26/triple", "G24q-3/26/quad", 8)
    assert early() >= before + 15


def test_a_pair_that_looks_little_alike_is_asked_once_the_shop_mixed_it_up(catalogue, data, trainee, now):
    pair = "which-of-two/2G11/G24q"
    assert pair not in {one.id for one in points(catalogue)}
    sell_wrong(data, "G24q-3/26/quad", "2G11/36/long-twin", 1)
    assert pair in Round(catalogue, data, trainee, 10, now)._points
