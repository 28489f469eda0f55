"""What leads at a glance: the likeliest family, named only as far as it is known."""

import pytest

from counter.desk import Case, Fixture, assess
from counter.desk._lead import Leading


@pytest.mark.parametrize(
    ("looks", "marks", "headline"),
    [
        ({"legs": "6", "pins": "4"}, "", "GX24q?"),  # six bases of one family before one that stands alone
        ({"legs": "4", "pins": "2"}, "", "G24d?"),  # a seldom met family is not named first
        ({"legs": "4", "pins": "4"}, "", "G24q?"),
        ({}, "G24q", "G24q"),
        ({}, "G24q-2", "G24q-2"),
        ({"legs": "2", "pins": "4", "glass": "white", "block": "no"}, "", "2G11?"),
    ],
)
def test_headline_names_as_much_as_is_known(catalogue, looks, marks, headline):
    found = assess(catalogue, Case(looks=looks, marks=marks))
    assert found.headline == headline
    assert catalogue.lamp_by_id[found.nearest].base.startswith(headline.rstrip("?"))


def test_seldom_met_leads_where_it_is_thrice_as_likely(catalogue):
    looks = {"legs": "4", "pins": "2", "watts": "20"}
    assert assess(catalogue, Case(looks=looks)).headline.startswith("GX32d")


@pytest.mark.parametrize(
    ("case", "subline"),
    [
        (Case(), "Nothing looked at yet"),
        (Case(marks="zzz"), "Nothing known in these marks: look at the lamp"),
        (Case(marks="GX24q"), "key number not known yet"),
    ],
)
def test_subline_says_what_is_open(catalogue, case, subline):
    assert assess(catalogue, case).subline == subline


def test_advice_ends_when_all_is_answered(catalogue):
    fixture = Fixture(holder="G24q-3", ballast="electronic", ballast_watts=(26,), emergency=False, dimmer=False)
    case = Case(marks="CFQ26W/G24q/841", fixture=fixture, use="lighting")
    assert assess(catalogue, case).advice == "Nothing more to look at."
    asked = case.model_copy(update={"fixture": Fixture()})
    assert assess(catalogue, asked).advice == "Lamp known. Now ask about the fixture."


def test_advice_sends_back_to_what_the_marks_contradict(catalogue):
    found = assess(catalogue, Case(marks="CFQ26W/G24q/841", looks={"pins": "2"}))
    assert found.advice == "Look again: Pins. The marks say otherwise."


def test_outlines_stand_by_family_and_name_every_base_and_kind_once(catalogue):
    found = assess(catalogue, Case(looks={"legs": "6", "pins": "4"}))
    groups = [(catalogue.lamp_by_id[one].base, catalogue.lamp_by_id[one].kind) for one in found.outlines]
    assert found.outlines[0] == found.nearest
    assert {base for base, _ in groups[:6]} == {f"GX24q-{number}" for number in range(1, 7)}
    assert len(groups) == len(set(groups)) == len({(lamp.base, lamp.kind) for lamp in catalogue.lamps})
    assert assess(catalogue, Case()).outlines == ()


@pytest.mark.parametrize(
    ("tied", "name"),
    [
        ((), "G23"),
        (("GX23",), "G23 or GX23"),
        (("GX23", "2G7"), "G23 or 2 others"),
        (("GX23", "2G7", "GU24"), "G23 or 3 others"),
    ],
)
def test_names_that_tie_are_named_or_counted(catalogue, tied, name):
    first = assess(catalogue, Case(marks="CFT9W/G23")).candidates[0]
    assert Leading(first, 0.3, "G23", 0.3, (), tied).name == name
