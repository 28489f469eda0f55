"""What a print says beside watts and base holds the sale until it is answered; it is never pressed away as nothing.

Common practice, no source, but where resources/marks.json names one beside the row.
"""

import pytest

from counter import marks
from counter.desk import Case, Fixture, assess


def asked(catalogue, text, lamp, **more):
    """Assess a print on a lamp that was seen white and is wanted for light, in a fixture made for `lamp`."""
    own = catalogue.lamp_by_id[lamp]
    ballast = "electronic" if own.ballasts == ("electronic",) else "magnetic"
    fixture = Fixture(holder=own.base, ballast=ballast, ballast_watts=(own.watts.value,), **more)
    looks = {"glass": "white", "pins": f"{catalogue.base_of(own).pins.value:g}", "watts": f"{own.watts.value:g}"}
    sizes = {key: size.value for key in ("length_mm", "tube_mm") if (size := getattr(own, key)) is not None}
    return assess(catalogue, Case(marks=text, looks={**looks, **sizes}, use="lighting", fixture=fixture))


T12, T8, T8_36, T12_20 = "G13/40/linear/t12", "G13/32/linear", "G13/36/linear", "G13/20/linear/t12"
ASKED = [  # print, lamp, rule that asks
    *((f"F40T12/CW{one}", T12, "print-special") for one in ("/APERTURE", " REFLECTOR", "/R", " PLANT", " Reflektor")),
    *((f"F32T8/841 {one}", T8, "print-coated") for one in ("SAFETY", "SHATTERPROOF", "FEP", "SLEEVED", "COATED")),
    *((f"F32T8/841 {one}", T8, "print-coated") for one in ("inastillable", "gainé", "Splitterschutz", "recubierta")),
    *((f"F20T12/{one}", T12_20, "print-coloured") for one in ("BLUE", "GOLD", "rojo", "jaune", "grün", "B", "PK")),
    *((f"T8 36W/{one}", T8_36, "print-coloured") for one in ("15", "16", "17", "18", "60", "62", "66", "67")),
    *((f"T8 36W/{one}", T8_36, "print-colour-number") for one in ("79", "99", "07", "44")),
    *((f"T8 36W/{one}", T8_36, "print-special") for one in ("76", "77")),
]  # fmt: skip


@pytest.mark.parametrize(("text", "lamp", "rule"), ASKED, ids=[row[0] for row in ASKED])
def test_what_the_print_says_is_asked_and_the_answer_decides(catalogue, text, lamp, rule):
    found = asked(catalogue, text, lamp)
    said = next(one for one in found.cautions if one.rule == rule)
    assert found.verdict == "ask first"
    assert not any(doubt.words for doubt in found.doubts)
    assert all(one.verdict != "sell" for one in found.replacements)
    assert asked(catalogue, text, lamp, told={said.key: True}).verdict == "sell"
    assert asked(catalogue, text, lamp, told={said.key: False}).verdict == "do not sell"


def test_another_colour_is_no_sale_where_the_print_names_one(catalogue):
    (said,) = (one for one in asked(catalogue, "F20T12/GOLD", T12_20).cautions if one.rule == "print-coloured")
    offers = asked(catalogue, "F20T12/GOLD", T12_20, told={said.key: True}).replacements
    found = {one.title.partition(":")[0]: one.verdict for one in offers if one.lamp == T12_20}
    assert found == {"The same lamp": "sell", "The same lamp in another colour": "ask first"}


WHITE = {"20": 4000, "25": None, "29": 3000, "31": 3000, "33": 4000, "35": 3500, "41": None, "54": 6200, "84": 4000}


@pytest.mark.parametrize(("number", "cct_k"), WHITE.items())
def test_a_white_of_the_older_lists_sells(catalogue, number, cct_k):
    found = asked(catalogue, f"T8 36W/{number}", T8_36)
    assert (found.verdict, found.readings[0].lamp.cct_k) == ("sell", cct_k)


REFUSED = [  # print, what refuses it for light to see by
    *((f"T8 36W/{one}", "uva-in-lighting") for one in ("03", "05", "08", "09", "73", "78", "BL368")),
    *((f"F15T8/{one}", "uva-in-lighting") for one in ("BL350", "BL365", "BL368", "BL369")),
    *((f"F20T12{one}", "print-newborn") for one in ("/BB", " BILI BLUE", " SPECIAL BLUE", " bleu spécial")),
    ("T8 36W/52", "print-newborn"),
]


@pytest.mark.parametrize(("text", "rule"), REFUSED, ids=[row[0] for row in REFUSED])
def test_no_light_to_see_by(catalogue, text, rule):
    found = assess(catalogue, Case(marks=text, looks={"glass": "white"}, use="lighting"))
    assert (found.verdict, found.cautions[0].rule) == ("do not sell", rule)


HELD = [
    "1200 MA",
    "PUVA",
    "BLACKLITE",
    "UVX",
    "UVR8",
    "REPTI 5.0",
    "TERRARIUM D3",
    "vivarium",
    "SINGLE-END LIVE",
    "vitamina D",
]


@pytest.mark.parametrize("words", HELD)
def test_words_of_ultraviolet_and_of_led_are_not_pressed_away(catalogue, words):
    found = asked(catalogue, f"F15T8/CW {words}", "G13/15/linear")
    left = tuple(word for doubt in found.doubts for word in doubt.words)
    case = Case(marks=f"F15T8/CW {words}", looks={"glass": "white"}, use="lighting", explained=left)
    assert found.verdict == "ask first"
    assert {one.kind for one in assess(catalogue, case).doubts} & {"uv", "led", "unread"}


UNLISTED = [  # print, and a lamp that it must not be sold as
    *((f"F{watts}T5/HO/841", f"G5/{watts}/linear") for watts in (14, 21, 28, 35)),
    ("F54T5/HE", "G5/54/linear"),
    *((f"F{inches}T12/CW/RS", f"Fa8/{watts}/linear") for inches, watts in ((48, 39), (72, 56), (96, 75))),
    ("F14T8/CW", "G13/14/linear/t12"),
    ("F20T8/CW", "G13/70/linear"),
    ("F40T12/HO", "R17d/60/linear/ho"),
    ("F40T17/CW/IS", "G13/40/linear/t12-is"),
    ("F110T12/CW/HO", "R17d/110/linear/ho"),
    ("T-R 42W/840/4P", "GX24q-4/42/triple"),
]


@pytest.mark.parametrize(("text", "lamp"), UNLISTED, ids=[row[0] for row in UNLISTED])
def test_a_print_that_no_lamp_has_holds_whatever_was_seen(catalogue, text, lamp):
    for found in (asked(catalogue, text, lamp), assess(catalogue, Case(marks=text))):
        assert found.verdict in ("ask first", "do not sell")
        assert any(doubt.about == "marks" and f"“{text}”" in doubt.says and not doubt.words for doubt in found.doubts)


READ = [  # print, kind, shape, watts, lamp types
    *((text, "fluorescent", "u-bent", 32, "2G13/32/u-bent") for text in ("FU32T8/841/6", "FU32T8/841", "F32T8/U6")),
    ("FU40T12/CW/6", "fluorescent", "u-bent", 40, "2G13/40/u-bent/t12"),
    ("FB31T8/841/U3", "fluorescent", "u-bent", 31, "2G13/31/u-bent"),
    ("F96T12/CW/800MA", "fluorescent", "linear", 110, "R17d/110/linear/ho"),
    ("F96T12/CW/1500", "fluorescent", "linear", 215, "R17d/215/linear/vho"),
    ("F72T12/CW/425 MA", "fluorescent", "linear", 56, "Fa8/56/linear"),
    *((f"T8 36W{one}33", "fluorescent", "linear", 36, "G13/36/linear") for one in (" / ", "-", " ", "/")),
    ("40W/640 T12 1200 mm", "fluorescent", "linear", 40, "G13/40/linear/t12"),
    ("LED 12W GX24q", "led", None, 12, None),
    ("LED 2G11 16W", "led", None, 16, None),
    ("18W LED TUBE 4FT", "led", None, 18, None),
]  # fmt: skip


@pytest.mark.parametrize(("text", "kind", "shape", "watts", "lamp"), READ, ids=[row[0] for row in READ])
def test_read_as_it_stands(catalogue, text, kind, shape, watts, lamp):
    (best,) = marks.read(catalogue, text).readings
    assert (best.lamp.kind, best.lamp.shape, best.lamp.watts) == (kind, shape, watts)
    assert best.lamps == (() if lamp is None else (lamp,))
    assert not best.assumptions


@pytest.mark.parametrize(
    ("text", "headline"), [("LED 9W G24q", "G24q"), ("18W LED TUBE 4FT", "LED lamp"), ("LED 2G11 16W", "2G11")]
)
def test_the_base_of_an_led_lamp_is_the_printed_one(catalogue, text, headline):
    assert assess(catalogue, Case(marks=text)).headline == headline


@pytest.mark.parametrize("text", ["58W/840", "T8 36W/840 G13", "T5 HE 28W/840", "40W T12 4FT COOL WHITE"])
def test_a_print_in_words_is_as_good_as_a_code(catalogue, text):
    found = assess(catalogue, Case(marks=text, looks={"glass": "white"}, use="lighting"))
    assert found.is_settled


@pytest.mark.parametrize("text", ["F13TBX/827", "T8 36W/840 RESISTANT", "F32T8/841 DIMMABLE", "F32T8/841 FLY KILLER"])
def test_what_is_left_over_are_whole_words_of_the_print(catalogue, text):
    left = marks.read(catalogue, text).unread
    assert all(word in text.replace("/", " ").split() or text.startswith("F13T") for word in left)
    assert not any(" was " in word for word in left)
