"""Sales that once were offered and must not be: each a case that somebody found at the counter."""

import pytest

from counter.desk import Case, Fixture, assess

F9 = Fixture(holder="G23", ballast="magnetic", ballast_watts=(9,))
F26 = Fixture(holder="G24q-3", ballast="electronic", ballast_watts=(26,))
F32 = Fixture(holder="G13", ballast="electronic", ballast_watts=(32,))
WHITE = {"legs": "2", "pins": "2", "glass": "white"}
QUAD = "CFQ26W/G24q/841"


def said(catalogue, **case):
    return assess(catalogue, Case(use="lighting", **case))


def test_the_same_without_the_doubt_is_sold(catalogue):
    assert said(catalogue, marks="9W/840", looks=WHITE, fixture=F9).verdict == "sell"
    assert said(catalogue, marks="CFT9W/G23/840", looks=WHITE, fixture=F9).verdict == "sell"
    assert said(catalogue, marks=QUAD, looks={"legs": "4", "pins": "4"}, fixture=F26).verdict == "sell"
    assert said(catalogue, marks="F32T8/841", fixture=F32).verdict == "sell"


@pytest.mark.parametrize(
    "words",
    [
        *("U.V.C", "U V C", "U-VC", "uv c", "black light"),
        *("u?c", "?VC", "germicid?l", "ger?icidal", "2?4nm", "254?", "2?3.7", "o?one", "g?rm", "u??"),
        *("disinfection lamp", "bactericidal", "VUV", "222nm", "365nm", "reptile UVB", "quartz", "ultraviolet"),
    ],
)
@pytest.mark.parametrize("code", ["9W/840 ", "CFT9W/G23/840 "])
def test_a_word_of_uv_in_any_dress_holds_the_sale(catalogue, code, words):
    assert said(catalogue, marks=code + words, looks=WHITE, fixture=F9).verdict == "ask first"


def test_a_colour_number_nobody_knows_holds_the_sale_where_germicidal_lamps_stand(catalogue):
    assert said(catalogue, marks="CFT9W/G23/97", looks=WHITE, fixture=F9).verdict == "ask first"


@pytest.mark.parametrize("colour", ["01", "12", "05", "08", "09", "10"])
def test_a_colour_number_of_uv_is_refused_for_light(catalogue, colour):
    found = said(catalogue, marks=f"CFT9W/G23/{colour}", looks=WHITE, fixture=F9)
    assert found.verdict == "do not sell" or (found.verdict == "ask first" and colour == "12")


@pytest.mark.parametrize("marks", ["ultraviolet", "9W 2?4nm"])
def test_choosing_silences_no_word_of_uv(catalogue, marks):
    case = {"marks": marks, "looks": {"glass": "white"}, "chosen": "G23/9/twin", "fixture": F9}
    assert said(catalogue, **case).verdict == "ask first"


@pytest.mark.parametrize(
    "label",
    [
        "This luminaire has been modified to operate LED lamps. Do not attempt to operate fluorescent lamps",
        *("Retrofitted for LED only", "no ballast", "LED only", "LED lamps only", "converted to LED", "rewired"),
        *("Do not install fluorescent lamps", "Type B LED", "suitable for LED tubes only, no fluorescent"),
        *("120V at sockets", "230V~ on lampholder contacts", "direct to mains"),
        *("Do not use F32T8", "no F32T8", "never F32T8", "Danger UV radiation. Germicidal lamp inside. 32 W"),
        "x" * 5000 + " ballast bypassed, LED lamps only",
    ],
)
def test_a_label_that_warns_in_its_own_words_holds_the_sale(catalogue, label):
    fixture = F32.model_copy(update={"label": label})
    assert said(catalogue, marks="F32T8/841", fixture=fixture).verdict != "sell"
    assert all(one.verdict != "sell" for one in said(catalogue, fixture=fixture).replacements)


@pytest.mark.parametrize("ballast", ["unknown", "electronic"])
@pytest.mark.parametrize(
    "label",
    [
        *("26W lamps must never be used", "do not use 26-watt lamp", "Kein 26W; nur 18W", "was 26W, now 18W"),
        "Electronic ballast, max 18 W",
    ],
)
def test_a_label_that_shuts_the_watts_out_holds_the_sale(catalogue, ballast, label):
    fixture = Fixture(holder="G24q-3", ballast=ballast, label=label)
    assert said(catalogue, marks="CFQ26W/G24q-3/841", fixture=fixture).verdict != "sell"


@pytest.mark.parametrize(
    ("fixture", "marks"),
    [
        (Fixture(holder="R17d", ballast="magnetic", label="magnetic for (2) F96T12/HO 110W"), "F48T12/VHO"),
        (Fixture(holder="R17d", ballast="magnetic", ballast_watts=(110,)), "F96T12/HO"),
    ],
)
def test_watts_that_two_lengths_share_are_asked_about(catalogue, fixture, marks):
    found = said(catalogue, marks=marks, fixture=fixture)
    assert found.verdict != "sell"
    assert not [one.title for one in found.replacements if one.verdict == "sell"]


@pytest.mark.parametrize(
    "case",
    [
        {"marks": QUAD, "looks": {"pins": "4"}, "chosen": "G24d-3/26/quad"},
        {"looks": {"watts": "18"}, "chosen": "G24q-3/26/quad"},
        {"looks": {"length_mm": 105.0}, "chosen": "G24q-3/26/quad"},
        {"marks": "CFQ1?W", "chosen": "G24q-3/26/quad"},
        {"marks": QUAD, "looks": {"length_mm": 105.0}},
        {"marks": QUAD, "looks": {"pin_spacing_mm": 60.0}},
        {"marks": f"{QUAD} 18W", "looks": {"legs": "4", "pins": "4"}},
    ],
)
def test_what_speaks_against_the_lamp_is_not_silenced(catalogue, case):
    holder = "G24d-3" if "d-3" in case.get("chosen", "") else "G24q-3"
    fixture = Fixture(holder=holder, ballast="magnetic" if "d" in holder else "electronic", ballast_watts=(26,))
    found = said(catalogue, **case, fixture=fixture)
    assert found.verdict == "ask first"
    assert found.asks


def test_a_measured_tube_is_not_silenced_by_choosing(catalogue):
    looks = {"legs": "1", "glass": "white", "tube_mm": 38.1, "length_mm": 1219.0}
    assert said(catalogue, looks=looks, chosen="G13/32/linear", fixture=F32).verdict == "ask first"


@pytest.mark.parametrize(
    "marks",
    ["LED G24q-3 26W/841", "LED CFQ26W/G24q replacement", f"{QUAD} ballast bypass", f"{QUAD} LED 8W"],
)
def test_an_led_lamp_in_hand_is_not_sold_as_a_fluorescent_one(catalogue, marks):
    found = said(catalogue, marks=marks, looks={"legs": "4", "pins": "4"}, fixture=F26)
    assert found.verdict == "ask first"
    assert "marks-led" in {one.rule for one in found.cautions}


@pytest.mark.parametrize("label", ["germicidal UV-C device", "DANGER UV radiation. Germicidal lamp inside. 9W"])
def test_a_label_of_a_germicidal_device_is_asked_about(catalogue, label):
    fixture = F9.model_copy(update={"label": label})
    found = said(catalogue, marks="CFT9W/G23/840", looks=WHITE, fixture=fixture)
    assert found.verdict == "ask first"
    assert "label-uv" in {one.rule for one in found.cautions}


def test_what_may_be_germicidal_is_never_said_to_give_no_uv(catalogue):
    looks = {"legs": "2", "pins": "2", "glass": "clear"}
    found = assess(catalogue, Case(marks="TC-S 9W UV-C", looks=looks, fixture=F9, use="germicidal"))
    assert found.verdict == "ask first"
    assert "no-disinfection" not in {one.rule for one in found.cautions}


@pytest.mark.parametrize("marks", ["GFT9W/G23", "9W UV-C"])
def test_a_germicidal_code_says_germicidal(catalogue, marks):
    looks = {"legs": "2", "pins": "2", "glass": "clear"}
    found = assess(catalogue, Case(marks=marks, looks=looks, fixture=F9, use="germicidal"))
    assert (found.verdict, found.lamp) == ("sell", "G23/9/twin/uv-c")


def test_the_shelf_of_white_lamps_is_not_named_for_a_germicidal_unit(catalogue):
    found = assess(catalogue, Case(marks="9W/840", looks=WHITE, fixture=F9, use="germicidal"))
    assert found.verdict == "do not sell"
    assert not [one.rule for one in found.cautions if one.rule.startswith("look-uvc-shelf")]


def test_a_germicidal_code_on_white_glass_keeps_its_warning(catalogue):
    fixture = Fixture(holder="G5", ballast="magnetic", ballast_watts=(8,))
    found = said(catalogue, marks="G8T5", looks={"glass": "white"}, chosen="G5/8/linear", fixture=fixture)
    assert found.verdict == "ask first"
    assert "marks-uv" in {one.rule for one in found.cautions}


def test_a_u_bent_lamp_in_plain_holders_is_asked_about(catalogue):
    fixture = Fixture(holder="G13", ballast="electronic", ballast_watts=(32,))
    found = said(catalogue, marks="FB32T8/U6/841", fixture=fixture)
    assert found.verdict == "ask first"
    assert not [one.title for one in found.replacements if one.verdict == "sell" and "linear" in one.title]


def test_a_name_beside_the_code_is_asked_about_until_somebody_has_read_it(catalogue):
    case = Case(marks="EXAMPLAR F32T8/841 MADE ABROAD", looks={"glass": "white"}, fixture=F32, use="lighting")
    found = assess(catalogue, case)
    assert (found.verdict, [one.kind for one in found.doubts]) == ("ask first", ["unread"])
    read = case.model_copy(update={"explained": found.doubts[0].words})
    assert assess(catalogue, read).verdict == "sell"
    unseen = read.model_copy(update={"looks": {}})
    assert assess(catalogue, unseen).verdict == "sell"  # the code itself names the lamp


def test_the_mercury_sign_is_no_part_of_a_code(catalogue):
    found = said(catalogue, marks="F32T8/841 Hg", looks={"glass": "white"}, fixture=F32)
    assert (found.verdict, found.readings[0].canonical) == ("sell", "F32T8/841")


@pytest.mark.parametrize(
    "label",
    [
        "Electronic ballast (2) F32T8 120-277V 50/60Hz Class P Type 1 Outdoor Sound Rated A No PCBs",
        "NO PCB'S. FOR 1 OR 2 F32T8 LAMPS, INSTANT START, MIN STARTING TEMP 0F/-18C, MAX CASE TEMP 90C",
        "HF ballast 1 x 32 W or 2 x 32 W, input 230V 0.30A, EOL protection",
        "Programmed start. Use with F32T8, F25T8 and F17T8. Ground the case.",
        "32W 4-pin electronic ballast, 120V, class P, type A sound rated, T8 lamps",
    ],
)
def test_an_ordinary_label_asks_nothing(catalogue, label):
    fixture = Fixture(holder="G13", label=label, lamp_count=2)
    found = said(catalogue, marks="F32T8/841", fixture=fixture)
    assert found.verdict == "sell", [one.says for one in found.cautions]


@pytest.mark.parametrize(
    "label",
    [
        "electronic (1) F32T8 (2) F17T8",
        "electronic for (1) F32T8 or (2) F17T8 lamps",
        *("F32T8 line voltage sockets", "F32T8 ballast cut out, 120VAC direct", "F32T8 TLED tubes", "F32T8 rewiring"),
        *("electronic. Excludes F32T8", "electronic. F32T8: unsuitable", "electronic. F32T8 not recommended"),
        *("electronic F32T8 battery backup", "F32T8 24VDC", "electronic 32W input, lamp 1 x 17W"),
    ],
)
def test_more_labels_that_hold_the_sale(catalogue, label):
    fixture = Fixture(holder="G13", ballast="electronic", label=label, lamp_count=2)
    found = said(catalogue, marks="F32T8/841", looks={"glass": "white"}, fixture=fixture)
    assert found.verdict != "sell"


@pytest.mark.parametrize("label", ["26W 40kHz", "EVG 26W", "ballast électronique 26W", "26W DALI", "24VDC 26W"])
def test_a_label_of_an_electronic_ballast_contradicts_magnetic(catalogue, label):
    fixture = Fixture(holder="G24d-3", ballast="magnetic", label=label)
    assert said(catalogue, marks="CFQ26W/G24d/841", fixture=fixture).verdict != "sell"


@pytest.mark.parametrize("words", ["UVGI", "ＵＶＣ", "Entkeimungslampe", "stérilisation", "air purifier", "clear"])
def test_more_words_of_uv_hold_the_sale(catalogue, words):
    assert said(catalogue, marks=f"CFT9W/G23/840 {words}", looks=WHITE, fixture=F9).verdict == "ask first"


@pytest.mark.parametrize("words", ["L.E.D.", "TLED", "L E D", "self-ballasted"])
def test_more_words_of_led_hold_the_sale(catalogue, words):
    marks = f"{words} F32T8/841"
    assert said(catalogue, marks=marks, looks={"glass": "white"}, fixture=F32).verdict == "ask first"


def test_an_ozone_making_lamp_is_asked_about(catalogue):
    unit = Fixture(holder="2G11", ballast="electronic", ballast_watts=(36,))
    case = Case(marks="GFT36W/2G11 UV-C ozone", looks={"glass": "clear"}, fixture=unit, use="germicidal")
    assert assess(catalogue, case).verdict == "ask first"


OWN = {
    "CFQ26W": ("G24q-3", "electronic", 26),
    "CFT9W": ("G23", "magnetic", 9),
    "FT36W": ("2G11", "electronic", 36),
    "F32T8": ("G13", "electronic", 32),
    "F15T8": ("G13", "magnetic", 15),
}


@pytest.mark.parametrize("code", ["CFQ26W/G24q/841", "CFT9W/G23/827", "FT36W/2G11/835", "F32T8/841", "F15T8/CW"])
@pytest.mark.parametrize("words", ["HO", "VHO", "high output", "very high output", "instant start"])
def test_a_code_with_another_output_or_start_is_not_the_plain_lamp(catalogue, code, words):
    holder, ballast, watts = OWN[code.partition("/")[0]]
    fixture = Fixture(holder=holder, ballast=ballast, ballast_watts=(watts,))
    looks = {"glass": "white"}
    assert said(catalogue, marks=code, looks=looks, fixture=fixture).verdict == "sell"
    assert said(catalogue, marks=f"{code} {words}", looks=looks, fixture=fixture).verdict != "sell"
