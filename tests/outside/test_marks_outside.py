"""Reading of codes against published designations and rules.

Confidence of each source as in resources/marks.json: read in the source itself, in a reproduction, or from memory.
"""

from __future__ import annotations

import pytest

from counter import catalogue, marks

SHIPPED = catalogue.load()


def only(text: str) -> marks.Reading:
    """Return the reading of a code as it stands; what it might be a worn form of stands beside it."""
    plain = [reading for reading in marks.read(SHIPPED, text).readings if not reading.assumptions]
    return plain[0] if plain else marks.read(SHIPPED, text).readings[0]


@pytest.mark.parametrize(
    ("code", "watts", "legs", "pins", "base", "bases", "cct_k", "cri_min"),
    [
        ("CFT9W/G23", 9, 2, 2, "G23", ("G23",), None, None),
        ("CFQ26W/G24d", 26, 4, 2, "G24d", ("G24d-3",), None, None),
        ("CFQ26W/G24q", 26, 4, 4, "G24q", ("G24q-3",), None, None),
        ("CFTR32W/G24q/835", 32, 6, 4, "G24q", ("GX24q-3",), 3500, 80),
    ],
)
def test_nema_worked_examples(code, watts, legs, pins, base, bases, cct_k, cri_min):
    """NEMA generic designation system for pin-based compact fluorescent lamps, its four worked examples, as
    reproduced. That the 32 W triple stands on GX24q-3 though the example prints G24q: later practice, from memory.
    """
    lamp = only(code).lamp
    assert (lamp.watts, lamp.legs, lamp.pins, lamp.base) == (watts, legs, pins, base)
    assert (lamp.bases, lamp.cct_k, lamp.cri_min) == (bases, cct_k, cri_min)


def test_nema_example_without_its_x_is_said():
    """The same example: the correction is never made silently."""
    assert "without its X" in " ".join(marks.read(SHIPPED, "CFTR32W/G24q/835").problems)


@pytest.mark.parametrize("code", ["CFTR26W/GX24q", "CFT26W/GX24q", "CFM26W/GX24q"])
def test_nema_letters_of_a_triple(code):
    """NEMA generic designation system, as reproduced: T is twin, TR triple, TR being the newer letter, and older
    literature writes T or M for triples (this last of medium confidence). That no twin of 26 W stands on GX24q is
    from memory.
    """
    lamp = marks.read(SHIPPED, code).readings[0].lamp
    assert (lamp.shape, lamp.legs, lamp.bases) == ("triple", 6, ("GX24q-3",))


@pytest.mark.parametrize(
    ("designation", "parts"),
    [
        ("BY22d", ["B", "Y", "22", "d"]),
        ("GY16", ["G", "Y", "16"]),
        ("PGJ13", ["P", "G", "J", "13"]),
        ("2G13", ["2", "G", "13"]),
        ("GU24", ["G", "U", "24"]),
        ("E26d", ["E", "26", "d"]),
        ("G10q", ["G", "10", "q"]),
        ("B22d-3", ["B", "22", "d", "-3"]),
        ("PG22-6.35", ["P", "G", "22", "-6.35"]),
        ("B15d/19", ["B", "15", "d", "/19"]),
        ("B22d-3(90°/135°)/25x26", ["B", "22", "d", "-3", "(90°/135°)", "/25", "x26"]),
        ("EP10/14x11", ["E", "P", "10", "/14", "x11"]),
        ("K59d/80x63", ["K", "59", "d", "/80", "x63"]),
        ("R17d/10x35", ["R", "17", "d", "/10", "x35"]),
    ],
)
def test_iec_60061_4_worked_examples(designation, parts):
    """IEC 60061-4, clauses 3.1.2 to 3.6, worked examples, as reproduced (two reproductions agree). R17d: one page
    prints R17d/80x63, while its own words give the height as about 10 and the diameter as about 35.
    """
    for text in (designation, designation.upper(), designation.lower()):
        reading = only(text)
        assert [span.text.upper() for span in reading.spans] == [part.upper() for part in parts]
        assert (reading.system, reading.canonical) == ("base", designation)


@pytest.mark.parametrize(("letter", "count"), [("s", 1), ("d", 2), ("t", 3), ("q", 4), ("p", 5)])
def test_iec_60061_4_number_of_contacts(letter, count):
    """IEC 60061-4, clause 3.3, as reproduced."""
    assert only(f"GX99{letter}").lamp.pins == count


# Regulation (EC) 245/2009, lamp power table: codes from memory, not read in the source.
ILCOS = [
    ("FD-18-E-G13-26/600", 18, ("G13",)),
    ("FD-58-E-G13-26/1500", 58, ("G13",)),
    ("FD-8-E-G5-16/300", 8, ("G5",)),
    ("FDH-54-G5-L/P-16/1150", 54, ("G5",)),
    ("FDH-13-L/P-W4,3x8,5d-7/520", 13, ("W4.3x8.5d",)),
    ("FSC-32-E-G10q-29/300", 32, ("G10q",)),
    ("FSCH-55-L/P-2GX13-16/300", 55, ("2GX13",)),
    ("FSD-36-E-2G11", 36, ("2G11",)),
    ("FSDH-55-L/P-2G11", 55, ("2G11",)),
    ("FSD-9-I-G23", 9, ("G23",)),
    ("FSD-9-E-2G7", 9, ("2G7",)),
    ("FSS-24-E-2G10", 24, ("2G10",)),
    ("FSS-28-I-GR8", 28, ("GR8",)),
    ("FSSH-55-L/P-GRY10q=3", 55, ("GRY10q-3",)),
    ("FSQ-26-E-G24q=3", 26, ("G24q-3",)),
    ("FSQ-26-I-G24d=3", 26, ("G24d-3",)),
    ("FSM-18-I-GX24d=2", 18, ("GX24d-2",)),
    ("FSMH-42-L/P-2GX24q=4", 42, ("GX24q-4",)),
    ("FSM6H-57-L/P-2GX24q=5", 57, ("GX24q-5",)),
    ("FSM8H-70-L/P-2GX24q=6", 70, ("GX24q-6",)),
    ("FSM6H-120-L/P-2G8=1", 120, ("2G8-1",)),
]


@pytest.mark.parametrize(("code", "watts", "bases"), ILCOS, ids=[row[0] for row in ILCOS])
def test_ilcos_codes_from_memory(code, watts, bases):
    """ILCOS codes as remembered from the tables of Regulation (EC) 245/2009: from memory, medium confidence."""
    reading = only(code)
    assert (reading.system, reading.lamp.watts, reading.lamp.bases) == ("ilcos", watts, bases)
    assert len(reading.lamps) == 1


def test_rare_earth_example():
    """Interior Lighting for Designers, ch. 7: F32T8/RE830 is 32 W, 1 inch, rare-earth phosphors, 3000 K."""
    lamp = only("F32T8/RE830").lamp
    assert (lamp.watts, lamp.tube_mm, lamp.cct_k, lamp.cri_min) == (32, 25.4, 3000, 80)


@pytest.mark.parametrize(
    ("code", "watts", "length_mm"),
    [
        ("F32T8", 32, None),
        ("F54T5/HO", 54, None),
        ("F96T12", 75, 2438),
        ("F96T12/HO", 110, 2438),
        ("F48T12", 39, 1219),
    ],
)
def test_number_is_watts_or_inches(code, watts, length_mm):
    """Encyclopaedia article 'Fluorescent-lamp formats': watts for bi-pin lamps, inches for single-pin and
    high-output lamps (nominal, 1 in = 25.4 mm). The watts of the slimline and high-output tubes: from memory.
    """
    lamp = only(code).lamp
    assert (lamp.watts, lamp.length_mm) == (watts, length_mm)


@pytest.mark.parametrize(
    ("eighths", "tube_mm"),
    [(4, 12.7), (5, 15.9), (6, 19.05), (8, 25.4), (9, 28.6), (10, 31.75), (12, 38.1)],
)
def test_tube_diameters(eighths, tube_mm):
    """The same article: T is followed by the diameter in eighths of an inch."""
    assert only(f"F99T{eighths}").lamp.tube_mm == pytest.approx(tube_mm, abs=0.05)
    assert tube_mm == pytest.approx(eighths * 25.4 / 8, abs=0.05)


@pytest.mark.parametrize(("code", "inches", "watts"), [("FC8T9", 8, 22), ("FC12T9", 12, 32), ("FC16T9", 16, 40)])
def test_circular_number_is_inches(code, inches, watts):
    """The same article: FC gives the outside diameter of the circle in inches. The watts: from memory."""
    lamp = only(code).lamp
    assert (lamp.shape, lamp.length_mm, lamp.watts) == ("circular", round(inches * 25.4), watts)


def test_germicidal_form():
    """The same article names G4T5; the other germicidal tubes are from memory."""
    for code in ("G4T5", "G15T8", "G25T8", "G30T8"):
        reading = only(code)
        assert (reading.system, reading.lamp.kind) == ("ansi-germicidal", "uv-c")
        assert all(lamp.endswith("/uv-c") for lamp in reading.lamps)


def test_blacklight_is_not_germicidal():
    """F15T8/BL and /BLB: UV-A, from memory, high confidence."""
    assert {only(code).lamp.kind for code in ("F15T8/BL", "F15T8/BLB")} == {"uv-a"}


@pytest.mark.parametrize(
    ("code", "cct_k", "cri_min"),
    [("827", 2700, 80), ("735", 3500, 70), ("965", 6500, 90), ("CW", 4100, 60), ("WW", 3000, 52)],
)
def test_colour_codes(code, cct_k, cri_min):
    """Interior Lighting for Designers, ch. 5: CW and WW; the three-digit rule stands in several reproductions."""
    lamp = only(code).lamp
    assert (lamp.cct_k, lamp.cri_min) == (cct_k, cri_min)


def test_gs1_check_digit_example():
    """GS1's worked example of a check digit: 629104150021 and then 3. From memory; the figure was not looked up."""
    assert only("6291041500213").canonical == "6291041500213"
    assert marks.read(SHIPPED, "6291041500214").problems
