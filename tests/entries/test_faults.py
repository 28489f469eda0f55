"""What is wrong with what a shop types, at the field it stands in; and what a shop may never say."""

from __future__ import annotations

import pytest

from counter import desk, entries
from counter.catalogue import load

SHOP = {"source": "shop", "confidence": "confirmed"}
BASE = {
    "designation": "GZ77",
    "pins": {"value": 2, **SHOP},
    "supply": "ballast",
    "mount": "push",
    "hold": "Pins toward you.",
    "tell": "Two pins.",
}
LAMP = {
    "base": "G23",
    "watts": {"value": 10, **SHOP},
    "kind": "fluorescent",
    "shape": "twin",
    "glass": {"value": "white", **SHOP},
    "ballasts": ["magnetic"],
    "ballasts_from": SHOP,
}


def paths(catalogue, section, entry, layer=None):
    entry = entries.with_derived(section, entry)
    return {one.path: one.what for one in entries.faults(section, entry, catalogue, layer or {})}


def test_sound_entries_have_no_fault(catalogue):
    assert paths(catalogue, "bases", BASE) == {}
    assert paths(catalogue, "lamps", LAMP) == {}
    assert paths(catalogue, "words", {"word": "Nordrau Werk 3"}) == {}


def test_an_empty_base_says_what_is_needed(catalogue):
    found = paths(catalogue, "bases", entries.begin("bases", catalogue))
    assert {("supply",), ("mount",), ("hold",), ("tell",), ("pins", "value")} <= found.keys()


@pytest.mark.parametrize(
    ("change", "path"),
    [
        ({"length_mm": {"value": 9000, **SHOP}}, ("length_mm", "value")),
        ({"watts": {"value": "ten", **SHOP}}, ("watts", "value")),
        ({"watts": {"value": 10, "source": "nowhere", "confidence": "published"}}, ("watts", "source")),
        ({"watts": {"value": 10, "source": "shop", "confidence": "published"}}, ("watts", "confidence")),
        ({"base": "GY99"}, ("base",)),
        ({"kind": "plasma"}, ("kind",)),
        ({"ballasts": ["electronic"]}, ("ballasts",)),
    ],
)
def test_a_fault_stands_at_its_field(catalogue, change, path):
    assert path in paths(catalogue, "lamps", LAMP | change)


def test_a_lamp_for_light_with_clear_glass_where_germicidal_ones_stand_is_refused(catalogue):
    found = paths(catalogue, "lamps", LAMP | {"glass": {"value": "clear", **SHOP}})
    assert "germicidal" in found["glass", "value"]


def test_a_clear_lamp_is_refused_as_a_change_and_as_a_confirmed_value_too(catalogue):
    white = entries.begin("lamps", catalogue, "G23/9/twin")
    found = paths(catalogue, "lamps", white | {"glass": {"value": "clear", **SHOP}})
    assert ("glass", "value") in found
    row = {"kind": "lamp", "of": "G23/9/twin", "part": "glass", "value": "clear", "who": "Kim", "on": "2026-03-02"}
    laid = load({"confirmed": [{**row, "how": "seen"}]})
    assert laid.lamp_by_id["G23/9/twin"].glass.value == "white"


@pytest.mark.parametrize("change", [{"purposes": []}, {"uvc_w": None}, {"kind": "fluorescent"}])
def test_no_change_makes_less_of_a_germicidal_lamp(catalogue, change):
    lamp = next(one for one in catalogue.lamps if one.kind == "uv-c" and one.uvc_w is not None)
    entry = entries.begin("lamps", catalogue, lamp.id)
    changed = {name: value for name, value in (entry | change).items() if value is not None}
    assert paths(catalogue, "lamps", changed)


def test_a_change_keeps_what_a_thing_is(catalogue):
    entry = entries.begin("bases", catalogue, "G23")
    assert ("supply",) in paths(catalogue, "bases", entry | {"supply": "mains"})
    assert paths(catalogue, "bases", entry | {"tell": "Ours."}) == {}


@pytest.mark.parametrize(
    "word", ["UV-C", "germicidal", "LED tube", "bypass the ballast", "entkeimend", "u?v", "mains voltage", "··"]
)
def test_no_word_of_danger_becomes_harmless(catalogue, word):
    assert ("word",) in paths(catalogue, "words", {"word": word})


def test_a_word_of_danger_that_got_into_a_layer_reads_nothing_away(catalogue):
    case = desk.Case(marks="CFT9W/G23/827 germicidal")
    sly = load({"words": [{"word": "germicidal"}]})
    assert desk.assess(sly, case).doubts == desk.assess(catalogue, case).doubts


def test_a_harmless_word_is_never_asked_about_again(catalogue):
    case = desk.Case(looks={"glass": "white"}, marks="CFT9W/G23/827 Nordrau")
    assert "unread" in {one.kind for one in desk.assess(catalogue, case).doubts}
    read = load({"words": [{"word": "nordrau"}]})
    assert "unread" not in {one.kind for one in desk.assess(read, case).doubts}


WORDS = {"rule": "pins-two-in-four", "language": "en", "why": "They fight.", "do": "Sell the four-pin lamp."}


@pytest.mark.parametrize(
    ("says", "fault"),
    [
        ("{base} is no lamp for {holder}.", ""),
        ("{base} is no lamp for it.", "left out"),
        ("{base} is no lamp for {holder}, {who}.", "fills in"),
        ("{base} is no lamp for {holder.", "brace"),
        ("{base!r} is no lamp for {holder}.", "brace"),
    ],
)
def test_own_words_of_a_caution_keep_its_figures(catalogue, says, fault):
    found = paths(catalogue, "cautions", WORDS | {"says": says})
    assert (fault in found[("says",)]) if fault else found == {}


def test_own_words_of_an_ultraviolet_caution_keep_speaking_of_it(catalogue):
    rule = "look-uvc-no-figure"
    entry = entries.begin("cautions", catalogue, rule)
    mild = entry | {"says": "It looks like another lamp."}
    assert any("ultraviolet" in what for what in paths(catalogue, "cautions", mild).values())


def test_own_words_are_said_and_change_nothing_else(catalogue):
    own = load({"cautions": [WORDS | {"says": "NEVER {base} in {holder}."}]})
    case = desk.Case(marks="CFQ26W/G24d/841", fixture=desk.Fixture(holder="G24q-3"))
    theirs, ours = desk.assess(catalogue, case), desk.assess(own, case)
    said = next(one for one in ours.cautions if one.rule == "pins-two-in-four")
    shipped = next(one for one in theirs.cautions if one.rule == "pins-two-in-four")
    assert said.says == "NEVER G24d-3 in G24q-3."
    assert (said.signal, said.verdict, said.key, said.ask) == (
        shipped.signal,
        shipped.verdict,
        shipped.key,
        shipped.ask,
    )
    assert ours.verdict == theirs.verdict


def test_own_words_that_lost_a_figure_are_not_used(catalogue):
    own = load({"cautions": [WORDS | {"says": "No."}]})
    case = desk.Case(marks="CFQ26W/G24d/841", fixture=desk.Fixture(holder="G24q-3"))
    assert desk.assess(own, case).cautions == desk.assess(catalogue, case).cautions


def test_a_base_without_a_face_is_taken_and_drawn_as_not_known():
    from counter.outline import face_doubt, face_view

    base = load({"bases": [entries.with_derived("bases", BASE)]}).base_by_name["GZ77"]
    assert not base.face.is_known
    assert {getattr(shape, "text", "") for shape in face_view(base, full=True).shapes} >= {"?", "not known"}
    assert face_doubt(base) == "how it looks is not known"


@pytest.mark.parametrize("base", ["G23", "2G7", "2G11", "GX23", "G5", "G13"])
def test_lamps_for_light_that_a_shop_adds_never_outweigh_the_germicidal_doubt(catalogue, base):
    """Thirty lamp types met daily beside the germicidal one: it is warned of, and the glass asked for, as before."""
    white = next(one for one in catalogue.lamps_on[base] if one.kind == "fluorescent")
    plain = {"base", "kind", "shape", "glass", "tube_mm", "ballasts", "ballasts_from"}
    entry = {name: value for name, value in entries.begin("lamps", catalogue, white.id).items() if name in plain}
    added = [
        entries.with_derived(
            "lamps", entry | {"watts": {"value": 0.5 + at, **SHOP}, "met": {"value": "daily", **SHOP}}
        )
        for at in range(30)
    ]
    many = load({"lamps": added})
    assert len(many.lamps) == len(catalogue.lamps) + 30
    pins = f"{catalogue.base_by_name[base].pins.value:g}"
    case = desk.Case(looks={"pins": pins}, marks=base)
    before, after = desk.assess(catalogue, case), desk.assess(many, case)
    for found in (before, after):
        assert any("uvc" in one.rule for one in found.cautions)
    assert after.next[0].look == before.next[0].look == "glass"
    named = desk.assess(many, desk.Case(chosen=added[9]["id"], looks={"pins": pins}))
    assert "glass" in {one.about for one in named.doubts}
    assert named.verdict != "sell"
