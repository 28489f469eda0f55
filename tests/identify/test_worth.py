"""What is worth confirming first."""

from __future__ import annotations

import pytest

from counter.identify import worth_confirming


@pytest.fixture(scope="module")
def found(request):
    from counter.catalogue import load

    return worth_confirming(load(), most=1000)


def test_only_what_is_not_sure_is_named(found, catalogue):
    assert found
    for one in found:
        if one.kind == "lamp":
            assert getattr(catalogue.lamp_by_id[one.of], one.part).is_unsure
        elif one.part == "face.notches":
            notches = catalogue.base_by_name[one.of].face.notches
            assert notches is None or notches.is_unsure
        else:
            assert getattr(catalogue.base_by_name[one.of], one.part).is_unsure


def test_the_most_telling_comes_first(found):
    assert [one.bits for one in found] == sorted((one.bits for one in found), reverse=True)
    assert found[0].bits > 0


def test_a_key_is_worth_more_than_the_length_of_one_lamp(found):
    """Keys of the four-pin family tell wattages apart; that is why the clerk is sent to them."""
    keys = [one.bits for one in found if one.part == "face.notches"]
    lengths = [one.bits for one in found if one.part == "length_mm"]
    assert max(keys) > sum(lengths) / len(lengths)


def test_what_was_confirmed_is_no_longer_named(changed, found):
    first = next(one for one in found if one.kind == "base" and one.part == "pin_spacing_mm")

    def confirm(document):
        for base in document["bases"]:
            if base["designation"] == first.of:
                base["pin_spacing_mm"]["confidence"] = "confirmed"

    again = worth_confirming(changed(confirm), most=1000)
    assert first[:3] not in {one[:3] for one in again}
