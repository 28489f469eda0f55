"""What the single kinds of card ask, checked by hand where the core could agree with itself."""

from __future__ import annotations

import pytest

from counter.catalogue import TRUST
from counter.desk import assess
from counter.marks import format_code
from counter.training import cards_about, draw_cards, dress, points
from counter.training.cards._case_words import lamp_words
from counter.training.cards._code_cards import SYSTEMS
from counter.training.cards._facts import SURE, lore
from counter.training.cards._look_cards import worths_of
from counter.training.cards._sale_cards import strange_words

# By hand: the drawing turned anticlockwise by so much, the end of the key edge that the notch is nearer to on the
# page, and the side it is on once the key edge is up again.
SIDES = [
    (0, "left", "left"),
    (0, "right", "right"),
    (90, "bottom", "left"),
    (90, "top", "right"),
    (180, "right", "left"),
    (180, "left", "right"),
    (270, "top", "left"),
    (270, "bottom", "right"),
]


def of_kind(catalogue, kind, count=400):
    return draw_cards(catalogue, 9, count, [kind])


def test_left_and_right_by_hand(catalogue):
    found = {
        (card.draw.turned_deg, card.shown.rsplit("nearer the ", 1)[-1].rstrip("."), card.choices[card.answer])
        for card in of_kind(catalogue, "notch-side")
        if "nearer the" in card.shown
    }
    assert found == set(SIDES)


def test_left_and_right_ask_of_the_drawing_only(catalogue):
    for card in of_kind(catalogue, "notch-side"):
        assert "as drawn here" in card.question
        assert not any(base.designation in card.said for base in catalogue.bases if base.designation != card.family)
        assert "not confirmed" in card.why


def test_pairs_are_the_closest_look_alikes_that_can_be_told(catalogue):
    pairs = {(point.family, point.subject) for point in points(catalogue, ["which-of-two"])}
    assert {("G23", "GX23"), ("G24q", "GX24q"), ("G10q", "2GX13"), ("GU24", "GX53"), ("2G7", "2GX7")} <= pairs
    known = lore(catalogue)
    for family, other in pairs:
        told = [
            one for one in known.alike(family) if any(known.is_told_from(la, one) for la in known.lamps_of[family])
        ]
        assert other in told[:2]


def test_closeness_is_a_share_and_the_same_both_ways(catalogue):
    known = lore(catalogue)
    families = list(known.lamps_of)
    for one in families:
        assert known.closeness(one, one) == pytest.approx(1.0)
        for other in families:
            assert 0 <= known.closeness(one, other) <= 1 + 1e-9
            assert known.closeness(one, other) == pytest.approx(known.closeness(other, one))
    assert known.closeness("G24d", "GX24d") > known.closeness("G24d", "G13")


def test_unsure_facts_never_decide_a_base(changed):
    def forget(document):
        for base in document["bases"]:
            for key in ("pins", "arrangement", "block", "pin_spacing_mm"):
                if base.get(key):
                    base[key]["confidence"] = "memory-low"
            if base["face"].get("notches"):
                base["face"]["notches"]["confidence"] = "memory-low"

    vague = changed(forget)
    named = {point.family for point in points(vague, ["name-base"])}
    assert "2G7" not in named  # only pins tell it from G23
    assert ("G24d", "G24q") not in {(point.family, point.subject) for point in points(vague, ["which-of-two"])}
    assert all(TRUST["memory-low"] < SURE <= TRUST[one] for one in ("practice", "memory-medium", "memory-high"))


def test_print_is_quoted_only_where_the_drawing_cannot_tell(catalogue):
    found = {card.family: card.said for card in of_kind(catalogue, "name-base")}
    assert "print says" not in found["2G11"]
    assert "the print says 55 W" in found["GRY10q"]


@pytest.mark.parametrize(
    ("family", "scenario", "verdict"),
    [
        ("G24d", "other-ballast", "do not sell"),  # two pins carry a starter: never on an electronic ballast
        ("G23", "bypassed", "do not sell"),
        ("G24q", "led-driver", "do not sell"),
        ("2G11", "for-lighting", "do not sell"),  # germicidal in a lighting fixture
        ("G5", "for-lighting", "do not sell"),
        ("2G11", "unknown-ballast", "ask first"),
        ("GU24", "on-ballast", "do not sell"),  # mains lamps never on a ballast
        ("G24q", "right", "sell"),
    ],
)
def test_verdicts_by_hand(catalogue, family, scenario, verdict):
    point = next(point for point in points(catalogue, ["sale"]) if point.id == f"sale/{family}/{scenario}")
    found = [card for variant in range(12) if (card := dress(catalogue, point, variant)) and card.kind == "sale"]
    assert found
    assert {card.values[card.answer] for card in found} == {verdict}


def test_lamps_of_the_same_base_watts_and_kind_are_told_by_size(catalogue):
    words = [f"{lamp.kind} {lamp_words(catalogue, lamp)}" for lamp in catalogue.lamps]
    assert len(set(words)) == len(words)
    assert "mm long" in lamp_words(catalogue, catalogue.lamp_by_id["R17d/110/linear/vho"])
    assert "mm long" not in lamp_words(catalogue, catalogue.lamp_by_id["G23/9/twin"])


def test_first_caution_of_germicidal_lamps_is_the_danger(catalogue):
    found = [card for card in cards_about(catalogue, "uvc-in-lighting", 6) if card.kind == "caution"]
    assert found
    for card in found:
        assert card.why.startswith("DANGER")
        assert card.case.use == "lighting"


def test_wrong_sayings_are_not_said_in_the_case(catalogue):
    for card in (card for card in of_kind(catalogue, "sale", 60) if card.kind == "caution"):
        said = {caution.says for caution in assess(catalogue, card.case).cautions}
        assert said & set(card.choices) == {card.choices[card.answer]}


def test_only_glass_settles_ultraviolet(catalogue):
    expected = {"clear": "uv-c", "white": "lighting", None: "unknown"}
    found = of_kind(catalogue, "uv-or-light", 80)
    assert {card.case.looks.get("glass") for card in found} == set(expected)
    for card in found:
        assert card.values[card.answer] == expected[card.case.looks.get("glass")]


def test_next_look_is_graded_by_bits_per_second(catalogue):
    for card in of_kind(catalogue, "next-look", 30):
        found = assess(catalogue, card.case).next
        rates = {one.look: one.bits / one.seconds for one in found}
        assert card.values[card.answer] == found[0].look
        if catalogue.look_by_key[found[0].look].guards is not None:
            continue
        for value, worth in zip(card.values, card.worth, strict=True):
            share = rates[value] / rates[found[0].look]
            assert worth <= (1.0 if share >= 0.9 else share + 1e-4)


def test_several_looks_may_be_right(catalogue):
    found = assess(catalogue, of_kind(catalogue, "next-look", 1)[0].case).next
    one = found[0].model_copy(update={"look": "legs"})
    near = one.model_copy(update={"look": "near", "bits": one.bits * 0.91})
    half = one.model_copy(update={"look": "half", "bits": one.bits * 0.5})
    assert worths_of(catalogue, [one, near, half]) == {"legs": 1.0, "near": 1.0, "half": 0.5}
    late = one.model_copy(update={"look": "late", "bits": one.bits * 2})  # the counter has a reason to put it last
    assert worths_of(catalogue, [one, half, late])["late"] == 0.5
    glass = one.model_copy(update={"look": "glass", "bits": 0.01})
    assert worths_of(catalogue, [glass, one]) == {"glass": 1.0, "legs": 0.0}


def test_parts_of_codes_do_not_give_themselves_away(catalogue):
    for card in of_kind(catalogue, "read-code", 60):
        assert card.code.count(card.part) == 1
        assert card.part not in card.choices[card.answer].split()


def test_worn_codes_lack_one_character_of_the_answer(catalogue):
    for card in of_kind(catalogue, "worn-code", 40):
        at = card.code.index("?")
        assert {choice[:at] + "?" + choice[at + 1 :] for choice in card.choices} == {card.code}


@pytest.mark.parametrize(
    ("says", "strange"),
    [
        ("G23 and GX23 are different bases: the X, Y, Z or U stands for another key.", 1),
        ("A fluorescent lamp for a fixture with an LED driver.", 1),
        ("The ballast label lists 7 W, not 9 W.", 1),
        ("2G7 is not the base that the holder 2G11 takes.", 2),
        ("A worn two-pin lamp keeps blinking: its starter keeps trying.", 0),
        ("A two-pin lamp (G23) on a magnetic ballast.", 0),
    ],
)
def test_what_gives_a_wrong_saying_away(says, strange):
    case = "A lighting lamp: 9 W, base G23. The fixture: holder G23, magnetic ballast, its label lists 9 W."
    assert strange_words(says, case) == strange


def test_worn_codes_are_made_up_of_letters_that_codes_have(catalogue):
    cards = of_kind(catalogue, "worn-code", 60)
    assert all(not card.code.startswith("?") for card in cards)
    offered = {text[card.code.index("?")] for card in cards for text in card.choices}
    codes = [format_code(catalogue, lamp.id, system, "827") or "" for lamp in catalogue.lamps for system in SYSTEMS]
    assert {one for one in offered if one.isalpha()} <= set("".join(codes))
    assert {"J", "Z"}.isdisjoint(offered)
    for card in cards:
        at = card.code.index("?")
        assert len({(text[at].isdigit(), text[at].isupper()) for text in card.choices}) == 1


def test_no_card_speaks_of_bits(catalogue):
    assert not any("bits" in card.why for card in of_kind(catalogue, "next-look", 60))
    assert all("of the lamps it could still be" in card.why for card in of_kind(catalogue, "next-look", 60))


def test_a_sale_says_what_the_counter_says_first_of_a_twin_that_is_germicidal(catalogue):
    (card,) = (one for one in cards_about(catalogue, "look-uvc-shelf", 1))
    assert "take a white one from the shelf" in card.why
