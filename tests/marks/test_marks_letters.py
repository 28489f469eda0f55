"""Letters of a maker's own: taught, learned from a list, taken back; and never at the cost of a doubt about UV."""

from __future__ import annotations

import random

import pytest

from counter import language, marks
from counter.marks import letters
from counter.marks.letters import LettersMean, Line
from tests.simulate_makers import description, maker

WHO = {"who": "A", "at": "2024-05-01T10:00"}
QUAD = LettersMean(shape="quad", pins=4)


def house(*taught, **means):
    table = letters.LetterTable()
    for word in taught:
        table = letters.teach(table, word, LettersMean(**means), **WHO)
    return (letters.as_house(table),)


def test_taught_letters_count_as_read(shipped):
    evidence = marks.read(shipped, "F26XK/841", house("XK", shape="quad", pins=4))
    assert (evidence.unread, evidence.makers) == ((), ())
    assert evidence.readings[0].lamps == ("G24q-3/26/quad",)
    assert evidence.readings[0].system == "house"
    (span,) = (one for one in evidence.readings[0].spans if one.text == "XK")
    assert span.means == "two bent tubes, 4 legs; 4 pins (in this shop)"


def test_letters_that_decide_nothing(shipped):
    evidence = marks.read(shipped, "F26XK/841/4P", house("XK"))
    assert evidence.unread == ()
    assert evidence.readings[0].lamps == ("G24q-3/26/quad", "GX24q-3/26/triple")


def test_other_codes_of_the_same_letters(shipped):
    shop = house("XK", shape="quad", base="G24q", pins=4)
    assert marks.read(shipped, "F18XK/827", shop).readings[0].lamps == ("G24q-2/18/quad",)
    assert marks.read(shipped, "XK-13W-830", shop).readings[0].lamps == ("G24q-1/13/quad",)


def test_the_base_in_hand_is_not_the_base_of_all_watts(shipped):
    shop = house("XK", shape="twin", base="G23", pins=2)
    assert marks.read(shipped, "F13XK/827", shop).readings[0].lamps == ("GX23/13/twin",)


def test_worn_letters_are_found(shipped):
    best = marks.read(shipped, "F26X?L/841", house("XKL", shape="quad", pins=4)).readings[0]
    assert best.lamps == ("G24q-3/26/quad",)
    assert "? was taken as K." in best.assumptions


def test_a_meaning_that_does_not_go_with_the_code_is_asked(shipped):
    evidence = marks.read(shipped, "F32XK/GX24q-3/835", house("XK", shape="twin", pins=2))
    assert any("another meaning in this shop" in said for said in evidence.problems)
    assert evidence.unread


def test_what_letters_say_is_held_against_a_lamp(shipped):
    quad, triple = (shipped.lamp_by_id[one] for one in ("G24q-3/26/quad", "GX24q-3/26/triple"))
    assert letters.against(QUAD, shipped, quad) == ()
    assert letters.against(QUAD, shipped, triple) == ("shape",)
    assert letters.against(marks.LettersMean(base="G24q", pins=2), shipped, triple) == ("pins", "base")
    assert letters.against(marks.LettersMean(), shipped, triple) == ()


@pytest.mark.parametrize("means", [{"shape": "twin", "pins": 2}, {"kind": "fluorescent"}, {"shape": "quad"}, {}])
@pytest.mark.parametrize("code", ["F9XK", "XK9W/2P", "F9XK/G23", "XK 36W", "G9XK"])
def test_nothing_taught_takes_a_doubt_about_uv_away(shipped, code, means):
    """As much of the ultraviolet lamps stays as an unknown word leaves, up to the weight of another reading."""
    before, after = marks.read(shipped, code), marks.read(shipped, code, house("XK", **means))
    uv = {lamp for lamp, one in before.likelihood.items() if one == 1.0 and shipped.lamp_by_id[lamp].is_ultraviolet}
    assert {shipped.lamp_by_id[lamp].kind for lamp in uv} >= {"uv-c"}
    for lamp in uv:
        assert after.likelihood.get(lamp, after.floor) >= 0.02
    assert any(reading.lamp.kind in (None, "uv-c") for reading in after.readings)


def test_a_colour_says_white_whatever_is_taught(shipped):
    evidence = marks.read(shipped, "F9XK/827", house("XK", shape="twin", pins=2))
    assert evidence.readings[0].lamp.kind == "fluorescent"
    assert evidence.likelihood.get("G23/9/twin/uv-c", evidence.floor) < 0.01


def test_letters_taught_as_uv(shipped):
    best = marks.read(shipped, "F9XK/2P", house("XK", shape="twin", kind="uv-c")).readings[0]
    assert (best.lamp.kind, best.lamps) == ("uv-c", ("G23/9/twin/uv-c",))


# -- the table


def test_what_is_taught_stands_before_what_was_learned():
    learned = letters.KnownLetters(letters="XK", means=LettersMean(shape="twin"), source="list", list_name="l")
    table = letters.accept(letters.LetterTable(), [learned])
    table = letters.teach(table, "xk", QUAD, **WHO)
    assert [one.means for one in table.counting] == [QUAD]
    assert letters.accept(table, [learned]).counting[0].means == QUAD
    assert letters.withdraw(table, "l").letters == table.counting
    assert letters.forget(table, "XK").letters == ()


def test_a_list_learned_again_replaces_itself():
    rows = [letters.KnownLetters(letters=word, source="list", list_name="l") for word in ("AB", "CD")]
    table = letters.accept(letters.accept(letters.LetterTable(), rows), rows[:1])
    assert [one.letters for one in table.letters] == ["AB"]


@pytest.mark.parametrize("word", ["", "X4", "X/K", "  "])
def test_only_letters_can_be_taught(word):
    with pytest.raises(ValueError, match="no letters"):
        letters.teach(letters.LetterTable(), word, QUAD, **WHO)


def test_file_of_an_older_program_is_read(tmp_path):
    table = letters.teach(letters.LetterTable(), "XK", QUAD, **WHO)
    (tmp_path / letters.LETTERS_FILE).write_text(table.model_dump_json(exclude_defaults=True))
    assert letters.read_letters(tmp_path / letters.LETTERS_FILE) == table


def test_a_file_that_is_no_table_is_left_alone(tmp_path):
    (tmp_path / letters.LETTERS_FILE).write_text('{"letters": 7}')
    with pytest.raises(letters.LettersUnreadableError, match="letters"):
        letters.read_letters(tmp_path / letters.LETTERS_FILE)
    assert (tmp_path / letters.LETTERS_FILE).read_text() == '{"letters": 7}'


# -- learning


def lines(seed: int, count: int = 60) -> tuple[list[Line], object]:
    rng = random.Random(seed)
    made = maker(rng, seed)
    codes = [made.code(rng) for _ in range(count)]
    return [Line(one.text, description(one.lamp, one.colour, rng)) for one in codes], made


def test_letters_are_learned_with_what_speaks_for_and_against(shipped):
    listed = [
        *[Line(f"F{watts}XK/841", f"{watts}W quad 4-pin G24q") for watts in (13, 18, 26)] * 3,
        *[Line(f"F{watts}ZN/841", f"{watts}W triple 4-pin GX24q") for watts in (18, 26, 32, 42)] * 2,
        *[Line(f"F{watts}ST/827", f"{watts}W twin 2-pin") for watts in (5, 7, 9, 11)] * 2,
        Line("F26XK/827", "26W triple GX24q-3"),
    ]
    found = {one.letters: one for one in letters.learn(shipped, listed, name="l").letters}
    assert set(found) == {"XK", "ZN", "ST"}
    assert (found["XK"].means.shape, found["XK"].means.base, found["XK"].means.legs) == ("quad", "G24q", 4)
    assert (found["XK"].support, found["XK"].against, found["XK"].examples) == (
        9,
        1,
        ("F26XK/827 26W triple GX24q-3",),
    )
    assert found["ST"].means.stated() == {"shape": "twin", "legs": 2, "base": "G23", "pins": 2}


def test_letters_on_every_line_mean_nothing(shipped):
    """Brand letters carry nothing, however many quads the maker sells."""
    listed = [
        *[Line(f"KX D{watts}/841", f"{watts}W quad 4-pin") for watts in (13, 18, 26)] * 8,
        *[Line(f"KX N{watts}/841", f"{watts}W triple 4-pin") for watts in (18, 26, 32)] * 2,
    ]
    found = {one.letters: one.means for one in letters.learn(shipped, listed, name="l").letters}
    assert (found["D"].shape, found["N"].shape) == ("quad", "triple")
    assert "KX" not in found or found["KX"] == LettersMean()


def test_letters_that_always_stand_together_share_no_meaning(shipped):
    listed = [
        *[Line(f"D{watts}/841/PQ", f"{watts}W quad 4-pin") for watts in (13, 18, 26)] * 3,
        *[Line(f"N{watts}/841/RV", f"{watts}W triple 4-pin") for watts in (18, 26, 32)] * 3,
    ]
    assert all(not one.means.stated() for one in letters.learn(shipped, listed, name="l").letters)


def test_a_suffix_beside_quads_by_chance_learns_nothing(shipped):
    listed = [
        *[Line(f"D{watts}/841", f"{watts}W quad 4-pin") for watts in (13, 18, 26)] * 4,
        *[Line("D26/841/PQ", "26W quad 4-pin")] * 4,
        *[Line(f"N{watts}/841", f"{watts}W triple 4-pin") for watts in (18, 26, 32)] * 4,
    ]
    found = {one.letters: one.means for one in letters.learn(shipped, listed, name="l").letters}
    assert found["D"].shape == "quad"
    assert "PQ" not in found or not found["PQ"].stated()


def test_uv_letters_are_learned_as_such(shipped):
    listed = [
        *[Line(f"{watts}ST/2P", f"{watts}W G23 germicidal UV-C") for watts in (5, 7, 9, 11)] * 2,
        *[Line(f"{watts}KD/841/2P", f"{watts}W quad 2-pin") for watts in (13, 18, 26)] * 3,
    ]
    found = {one.letters: one.means for one in letters.learn(shipped, listed, name="l").letters}
    assert found["ST"].kind == "uv-c"
    assert found["KD"].kind is None


def test_too_few_lines_teach_nothing(shipped):
    assert letters.learn(shipped, [Line("F26XK/841", "26W quad 4-pin")] * 2, name="l").letters == ()
    assert letters.learn(shipped, [], name="l").letters == ()


def test_invented_makers_are_read_after_learning(shipped):
    """Codes that the list does not hold: the right form where a meaning was learned, never a wrong one."""
    right = wrong = 0
    for seed in (3, 5, 8):
        listed, made = lines(seed)
        found = letters.learn(shipped, listed, name="l")
        shop = (letters.as_house(letters.LetterTable(letters=found.letters)),)
        rng = random.Random(seed + 100)
        for code in (made.code(rng) for _ in range(40)):
            shape = marks.read(shipped, code.text, shop).readings[0].lamp.shape
            right += shape == code.lamp.shape
            wrong += shape not in (None, code.lamp.shape)
    assert right >= 0.9 * 120
    assert wrong <= 2


def test_what_letters_mean_is_said_whole_in_spanish():
    language.use("es")
    try:
        said = marks.spoken(letters.letters_say(LettersMean(shape="twin", base="G23", pins=2)))
    finally:
        language.use("en")
    assert said == "un tubo doblado, 2 brazos; casquillo G23; 2 pines"
