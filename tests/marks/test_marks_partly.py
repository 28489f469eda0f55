"""Codes with stray letters and blanks: what can be read is shown with its meaning, the rest named."""

from __future__ import annotations

import pytest

from counter import marks
from counter.marks._resolve import LOOK_INSTEAD

# text: canonical writing, lamp types
GAPS = [
    ("C F Q 26W, G24q, 841", "CFQ26W/G24q/841", ("G24q-3/26/quad",)),
    ("cf tr 32 w, gx24q , 8 35", "CFTR32W/GX24q/835", ("GX24q-3/32/triple",)),
    ("C.F.Q. 26W G 24 q", "CFQ 26W G24q", ("G24q-3/26/quad",)),
    ("2 G 11 18 W 840", "2G11 18W 840", ("2G11/18/long-twin",)),
    ("F 3 2 T 8 / 8 41", "F32T8/841", ("G13/32/linear",)),
    ("C F Q 26W G24q-3 841", "CFQ26W/G24q-3/841", ("G24q-3/26/quad",)),
    ("F15 T8 B L", "F15T8/BL", ("G13/15/linear/uv-a",)),
    ("G 15 T 8", "G15T8", ("G13/15/linear/uv-c",)),
]


@pytest.mark.parametrize(("text", "canonical", "lamps"), GAPS, ids=[row[0] for row in GAPS])
def test_blanks_inside_a_code(shipped, text, canonical, lamps):
    best = marks.read(shipped, text).readings[0]
    assert (best.canonical, best.lamps) == (canonical, lamps)
    said = "".join(span.text for span in best.spans)
    assert [sign for sign in said if sign.isalnum()] == [sign for sign in text if sign.isalnum()]
    assert all(text[span.start : span.end] == span.text and span.means for span in best.spans)


@pytest.mark.parametrize("system", ["nema", "ansi-linear", "ansi-germicidal", "ilcos", "base"])
def test_every_code_with_a_blank_behind_each_character(shipped, system):
    codes = [
        marks.format_code(shipped, lamp.id, system, colour) for lamp in shipped.lamps for colour in (None, "835")
    ]
    for code in filter(None, codes):
        whole, spread = (marks.read(shipped, text).readings[0] for text in (code, " ".join(code)))
        assert (spread.lamps, spread.lamp) == (whole.lamps, whole.lamp), code


@pytest.mark.parametrize(
    ("text", "base"), [("G13 T8", "G13"), ("G 13 T8", "G13"), ("G 5 T5", "G5"), ("G 5 T 5", "G5")]
)
def test_blank_behind_a_base_stays(shipped, text, base):
    """G13 T8 is a base and a tube; without its blank it would be a germicidal lamp."""
    best = marks.read(shipped, text).readings[0]
    assert (best.lamp.base, best.lamp.kind) == (base, None)


def test_figures_that_are_no_common_colour_stay_apart(shipped):
    """8 90 beside a worn wattage is a worn T8 940, not 9000 K."""
    assert marks.read(shipped, "15M G13 8 90").readings[0].lamps == ("G13/15/linear", "G13/15/linear/saver")


def test_worn_code_with_blanks_and_commas(shipped):
    assert marks.read(shipped, "C F ? 26W, G24q, 841").readings[0].canonical == "CFQ26W/G24q/841"


def test_watts_and_base_that_do_not_belong_together(shipped):
    evidence = marks.read(shipped, "CFQ26W/G24d-2/841")
    best = evidence.readings[0]
    assert [span.text for span in best.spans] == ["CF", "Q", "26W", "G24d-2", "8", "41"]
    assert (best.lamp.shape, best.lamp.watts, best.lamp.base, best.lamp.cct_k) == ("quad", 26, "G24d-2", 4100)
    assert best.lamps == ()
    assert "26 W and G24d-2 do not belong together: G24d-2 has 18 W, and 26 W is on G24d-3." in evidence.problems[0]


def test_shape_that_the_base_does_not_carry(shipped):
    assert "42 W on GX24q is known as triple only" in marks.read(shipped, "CFQ42W/GX24q").problems[0]


@pytest.mark.parametrize(
    ("text", "read", "rest"),
    [
        ("XY 26W zz", ["26W"], "'XY', 'zz'"),
        ("hello world 26W", ["26W"], "'hello', 'world'"),
        ("cf zz 32 w, gx24q , 8 35", ["cf", "32 w", "gx24q", "8", "35"], "'zz'"),
        ("abcCFQ26W", ["CF", "Q", "26W"], "'abc'"),
        ("CFQ26WXYZ", ["CF", "Q", "26W"], "'XYZ'"),
        ("CFQ26W/G24q/8x1zz", ["CF", "Q", "26W", "G24q"], "'8x1zz'"),
    ],
)
def test_rest_is_named(shipped, text, read, rest):
    evidence = marks.read(shipped, text)
    spans = evidence.readings[0].spans
    assert [span.text for span in spans if span.part != "maker"] == read
    assert all(f"{word!r}" in rest for word in (span.text for span in spans if span.part == "maker"))
    assert all(word.strip("'") in evidence.problems[0] for word in rest.split(", "))


def test_what_to_look_at_where_lamp_types_are_left_open(shipped):
    (said,) = marks.read(shipped, "XY 26W zz").problems
    assert said == f"Understood: 26W. Not understood: 'XY', 'zz'. {LOOK_INSTEAD}"
    assert marks.read(shipped, "CFQ26W 841 zz").problems[0].startswith("Understood: CFQ26W 841. Not")
    assert LOOK_INSTEAD not in marks.read(shipped, "CFQ26W/G24q/841 zzxy").problems[0]


@pytest.mark.parametrize("text", ["qqqq", "hello world", "blorb 77zz"])
def test_no_code_says_what_to_look_at(shipped, text):
    evidence = marks.read(shipped, text)
    assert evidence.readings == ()
    assert evidence.problems[0].startswith("Nothing understood in '")
    assert evidence.problems[0].endswith("Count the legs and the pins, and look at the notch.")


@pytest.mark.parametrize(
    ("text", "kind", "shape"),
    [
        ("CFQ", "fluorescent", "quad"),
        ("cftr", "fluorescent", "triple"),
        ("GFT", "uv-c", None),
        ("CF", "fluorescent", None),
    ],
)
def test_head_of_a_code_alone(shipped, text, kind, shape):
    (reading,) = marks.read(shipped, text).readings
    assert (reading.lamp.kind, reading.lamp.shape, reading.lamp.watts) == (kind, shape, None)


def test_feet_are_no_head(shipped):
    assert marks.read(shipped, "4 ft T8").readings[0].lamp.length_mm == 1219.2


def test_unknown_key_before_a_colour_is_a_key(shipped):
    evidence = marks.read(shipped, "CFTR32W/GX24q-9/835")
    assert "GX24q-9 is not in the catalogue" in evidence.problems[0]
    assert not any("9 was taken as watts" in said for said in evidence.problems)
