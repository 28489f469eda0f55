"""What the catalogue says of each look: values, trust in them, and slips."""

from __future__ import annotations

import pytest

from counter.identify import word_chances
from counter.identify._tables import tables_of
from counter.identify._words import WordTable, slips

# Worked out by hand from trust in the value and the look's slips.
# pins of G24q, published (0.995), slip 0.02 spread 2 pins only; 2 pins slips to 4 by 3 of 4, 1 pin (0.01) by half:
PINS_4 = 0.995 * 0.98 + 0.0025 * 0.02 * 0.75 + 0.0025 * 0.01 * 0.5
# glass of UV-C, memory-high (0.97), clear slips by 0.03, white by 0.005 evenly to both others, dark by 0.01 to clear
# twice as often as to white:
CLEAR = 0.97 * 0.97 + 0.015 * 0.005 / 2 + 0.015 * 0.01 * 2 / 3
# watts of a published type: 66 values, 0.05 slips evenly to the 65 others:
WATTS = 0.995 * 0.95 + 0.005 / 65 * 0.05 / 65 * 65
# key of G24d-1, memory-low (0.65): of the doubt nine tenths on the family's other two, one tenth on six others;
# one large is read right with 0.94, and in its place from two large 0.06 * 3/5, small centre 0.12 * 1/7:
DOUBT, STRAY = 0.35 * 0.9 / 2, 0.35 * 0.1 / 6
KEY = 0.65 * 0.94 + STRAY * 0.06 * 3 / 5 + STRAY * 0.12 / 7


@pytest.mark.parametrize(
    ("look", "lamp", "answer", "chance"),
    [
        ("pins", "G24q-2/18/quad", "4", PINS_4),
        ("glass", "G23/9/twin/uv-c", "clear", CLEAR),
        ("watts", "G24q-2/18/quad", "18", WATTS),
        ("notch", "G24d-1/13/quad", "one-large", KEY),
        ("arrangement", "2G10/18/flat", "ends", (0.99 + 3 * 0.04 / 3) / 4),  # not known: all four alike
    ],
)
def test_chance_of_an_answer(catalogue, look, lamp, answer, chance):
    assert word_chances(catalogue, look)[lamp][answer] == pytest.approx(chance, rel=1e-12)


@pytest.mark.parametrize(
    ("look", "lamp", "allowed"),
    [
        ("legs", "G23/9/twin", {"2"}),
        ("legs", "G24q-2/18/quad", {"4"}),
        ("legs", "2G10/18/flat", {"4-flat"}),
        ("legs", "GX24q-5/57/four-fold", {"8"}),
        ("legs", "G10q/22/circular", {"ring"}),
        ("legs", "2G13/31/u-bent", {"u-bent"}),
        ("legs", "GU24/13", {"covered"}),
        ("notch", "G24d-2/18/quad", {"small-left"}),
        ("notch", "GX24d-1/13/triple", {"two-small", "small-centre", "small-left", "small-right"}),
        ("notch", "2G11/36/long-twin", {"none"}),  # no block to cut a key into
        ("notch", "2G7/9/twin", set()),
        ("block", "2G10/18/flat", set()),
        ("legs", "GX53/9", {"disc"}),
        ("glass", "G5/8/linear/uv-a", {"dark", "white"}),  # filter glass, or a coating without a filter
        ("body", "G23/9/twin", {"slim"}),
        ("body", "G24q-2/18/quad", {"square"}),
        ("body", "G13/58/linear", set()),
        ("watts", "G13/58/linear", {"58"}),
    ],
)
def test_values_of_a_lamp(catalogue, look, lamp, allowed):
    table = tables_of(catalogue)[look]
    row = table.row_of[[lamp.id for lamp in catalogue.lamps].index(lamp)]
    assert table.truths[row].allowed == allowed


def test_every_row_of_every_look_is_a_distribution_without_zero(catalogue):
    for table in tables_of(catalogue).values():
        for row in table.cells:
            assert sum(row) == pytest.approx(1, rel=1e-9)
            assert min(row) > 0 or not isinstance(table, WordTable)


def test_slips_follow_the_weights(catalogue):
    table = slips(catalogue.look_by_key["pins"], ("1", "2", "4"))
    assert table["2"] == pytest.approx((0.02 / 4, 0.98, 0.02 * 3 / 4))
    assert table["4"] == pytest.approx((0, 0.02, 0.98))


def test_watts_that_the_look_forgot_are_an_answer(changed):
    odd = changed(lambda document: document["lamps"][0]["watts"].update(value=12.5))
    assert word_chances(odd, "watts")[odd.lamps[0].id]["12.5"] > 0.9


def test_tables_are_made_once_and_forgotten_with_the_catalogue(catalogue):
    from counter.identify import _tables

    copy = catalogue.model_copy()
    assert tables_of(copy) is tables_of(copy)
    key = id(copy)
    assert key in _tables._made
    del copy
    assert key not in _tables._made


def test_size_has_no_word_chances(catalogue):
    with pytest.raises(KeyError):
        word_chances(catalogue, "length_mm")
