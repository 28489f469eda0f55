"""The shipped catalogue against published sheets, the designation grammar, a law, a textbook and an encyclopaedia.

Sources, by the keys the catalogue gives them:
- IEC60061-1/GOST: GOST IEC 60061-1-2014, the identical text of IEC 60061-1, sheets of G5, 2GX13, W4.3x8.5d.
- IEC60061-4: designation grammar, clauses 3.1.3, 3.2 and 3.3, as reproduced.
- WIKI-bipin, WIKI-FLF: encyclopaedia articles on bi-pin bases and on fluorescent-lamp formats.
- CA-GLOSS: glossary of a California government code guide, GU-24.
- AU-MEPS: AS/NZS 4783.2:2002, tables as a government page quotes them.
- TEXT-EMH: an energy management handbook, chapter on lighting.
- WIKI-FL: encyclopaedia article on fluorescent lamps.
- FR-2001-1131: French decree 2001-1131, article 3 (transposes Directive 2000/55/EC).
- TEXT-ILD: "Interior Lighting for Designers", chapter 7.
- NEMA-GEN: generic designations of compact fluorescent lamps, worked examples, as reproduced.
- IES-GUV: committee report on germicidal ultraviolet, as republished.
- CA-SOR-2016-311: Canada's Energy Efficiency Regulations, 2016, sections 445 and 450.
- ASAP-DIM: page of a project on appliance standards, on California's standard for dimming ballasts.
- EE-BALLAST: a web page on kinds of fluorescent ballasts. HOBBY-T5: a hobbyists' page on T5 lamps.
"""

from __future__ import annotations

import re
from itertools import combinations
from math import dist

import pytest

from counter.catalogue import Base, Lamp, load

CATALOGUE = load()
BASES = CATALOGUE.base_by_name
INCH_MM = 25.4


def _drawn_mm(base: Base) -> list[float]:
    points = [(pin.x_mm, pin.y_mm) for pin in base.face.pins.at]
    return sorted(dist(a, b) for a, b in combinations(points, 2))


# Pin centre distances, mm, with the source each was read in.
PUBLISHED_MM = {
    "G5": (4.75, "IEC60061-1/GOST"),
    "G13": (12.70, "WIKI-bipin"),
    "G23": (23.0, "WIKI-bipin"),
    "GU24": (24.0, "CA-GLOSS"),
}


@pytest.mark.parametrize(("name", "mm", "source"), [(name, *row) for name, row in PUBLISHED_MM.items()])
def test_published_pin_distances(name: str, mm: float, source: str) -> None:
    spacing = BASES[name].pin_spacing_mm
    assert spacing is not None
    assert (spacing.value, spacing.confidence, spacing.source) == (mm, "published", source)
    assert _drawn_mm(BASES[name]) == pytest.approx([mm])


def test_u_lamp_has_two_caps_of_the_straight_one() -> None:
    """IEC60061-4 cl. 3.1.3, worked example: 2G13 is an assembly of two G13 caps at a fixed distance."""
    assert _drawn_mm(BASES["2G13"]) == _drawn_mm(BASES["G13"])


# IEC60061-4 cl. 3.2: after G with two pins, or with a leading 2 for two like pairs, the number is the distance.
BY_THE_NUMBER = ["G23", "GX23", "GX23-2", "2G7", "2GX7", "2G11", "2G10", "2G8-1", "GR8", "2GX13", "GU24", "GX53"]


@pytest.mark.parametrize("name", BY_THE_NUMBER)
def test_number_of_a_pair_is_the_pin_distance(name: str) -> None:
    number = float(re.fullmatch(r"2?G[A-Z]*(\d+)(?:-\d)?", name)[1])  # type: ignore[index]
    spacing = BASES[name].pin_spacing_mm
    assert spacing is not None
    assert spacing.value == number
    assert min(abs(mm - number) for mm in _drawn_mm(BASES[name])) < 0.01


@pytest.mark.parametrize("name", [n for n in BASES if re.match(r"G[A-Z]*\d+q", n)])
def test_number_of_four_contacts_is_the_circle_through_the_pins(name: str) -> None:
    """The number is "approximate"; the sheet of GX38q has a circle of 38.3 mm, so 0.35 mm either way."""
    number = float(re.match(r"G[A-Z]*(\d+)", name)[1])  # type: ignore[index]
    circles = [2 * dist((pin.x_mm, pin.y_mm), (0, 0)) for pin in BASES[name].face.pins.at]
    assert circles == pytest.approx([number] * 4, abs=0.35)


CONTACTS = {"s": 1, "d": 2, "t": 3, "q": 4, "p": 5}  # IEC60061-4 cl. 3.3


@pytest.mark.parametrize("name", [n for n in BASES if re.search(r"\d[stdqp](-\d)?$", n)])
def test_letter_after_the_number_counts_the_contacts(name: str) -> None:
    letter = re.search(r"\d([stdqp])(?:-\d)?$", name)[1]  # type: ignore[index]
    assert BASES[name].pins.value == CONTACTS[letter]


@pytest.mark.parametrize("name", ["G5", "2GX13"])
def test_pin_diameter_lies_in_the_sheets_limits(name: str) -> None:
    diameter = BASES[name].face.pin_diameter_mm
    assert diameter is not None
    assert diameter.plus_minus is not None
    limits = (diameter.value - diameter.plus_minus, diameter.value + diameter.plus_minus)
    assert limits == pytest.approx((2.29, 2.67), abs=0.005)


def test_outlines_that_a_sheet_gives() -> None:
    """IEC60061-1/GOST: G5 cap at most 15.75; 2GX13 C 19.0, C1 22.5; W4.3x8.5d N 4.3, A 8.2 to 8.5."""
    g5, ring, wedge = (BASES[name].face.outline for name in ("G5", "2GX13", "W4.3x8.5d"))
    assert (g5.shape, g5.width_mm, g5.height_mm) == ("circle", 15.75, 15.75)
    assert sorted((ring.width_mm, ring.height_mm)) == [19.0, 22.5]
    assert wedge.height_mm == 4.3
    assert 8.2 <= wedge.width_mm <= 8.5


# FR-2001-1131 art. 3: nominal watts at 50 Hz, lamp power on an electronic ballast. The law names categories
# ("compact, four tubes"); which base that is, is the trade's knowledge, from memory.
LAW = {
    "linear": (("G13",), [(15, 13.5), (18, 16), (30, 24), (36, 32), (38, 32), (58, 50), (70, 60)]),
    "long-twin": (("2G11",), [(18, 16), (24, 22), (36, 32)]),
    "flat": (("2G10",), [(18, 16), (24, 22), (36, 32)]),
    "quad": (("G24q-1", "G24q-2", "G24q-3"), [(10, 9.5), (13, 12.5), (18, 16.5), (26, 24)]),
    "triple": (("GX24q-2", "GX24q-3"), [(18, 16), (26, 24)]),
    "square": (("GR10q",), [(10, 9), (16, 14), (21, 19), (28, 25), (38, 34)]),
}
LAW_ROWS = [(shape, bases, *pair) for shape, (bases, pairs) in LAW.items() for pair in pairs]


@pytest.mark.parametrize(("shape", "bases", "watts", "hf_w"), LAW_ROWS)
def test_wattage_classes_of_the_law(shape: str, bases: tuple[str, ...], watts: float, hf_w: float) -> None:
    (lamp,) = (
        lamp
        for lamp in CATALOGUE.lamps
        if lamp.base in bases
        and (lamp.kind, lamp.shape, lamp.watts.value) == ("fluorescent", shape, watts)
        and lamp.tube_mm
        and lamp.tube_mm.value < 30  # the law speaks of 26 mm tubes
        and not lamp.is_saver
    )
    assert lamp.mains is not None
    assert lamp.hf is not None
    powers = [lamp.mains.power_w, lamp.hf.power_w]
    assert [power and (power.value, power.source) for power in powers] == [
        (watts, "FR-2001-1131"),
        (hf_w, "FR-2001-1131"),
    ]


def test_the_law_is_named_for_nothing_it_does_not_list() -> None:
    listed = {(shape, watts) for shape, _, watts, _ in LAW_ROWS}
    cited = {
        (lamp.shape, lamp.watts.value)
        for lamp in CATALOGUE.lamps
        for circuit in (lamp.mains, lamp.hf)
        if circuit and circuit.power_w and circuit.power_w.source == "FR-2001-1131"
    }
    assert cited <= listed
    assert {lamp.kind for lamp in CATALOGUE.lamps if lamp.watts.source == "FR-2001-1131"} == {"fluorescent"}


TUBES_MM = {2: 7.0, 4: 12.7, 5: 15.9, 6: 19.05, 8: 25.4, 9: 28.6, 10: 31.75, 12: 38.1}  # WIKI-FLF


@pytest.mark.parametrize(("eighths", "mm"), TUBES_MM.items())
def test_tube_classes_are_eighths_of_an_inch(eighths: int, mm: float) -> None:
    assert mm == pytest.approx(eighths * INCH_MM / 8, abs=0.7 if eighths == 2 else 0.05)  # T2 is "about 7"


def test_the_encyclopaedia_is_named_for_no_tube_but_those_its_text_names() -> None:
    """Its table gives the classes; which lamp has which is the trade's knowledge. Its text names the T4 lamps on G5,
    the T2 lamps on W4.3, the first T5 of 4 to 13 W, and the first T12 of 15 and 20 W; G4T5 is an example there.
    """
    named = {
        "G5/4/linear/uv-c",
        "G13/15/linear/t12",
        "G13/20/linear/t12",
        *(f"G5/{watts}/linear" for watts in (4, 6, 8, 13)),
    }
    thin = {lamp.id for lamp in CATALOGUE.lamps if lamp.base == "W4.3x8.5d" or lamp.id.endswith("/t4")}
    assert len(thin) > 10
    assert {lamp.id for lamp in CATALOGUE.lamps if lamp.tube_mm and lamp.tube_mm.source == "WIKI-FLF"} == named | thin


def test_definitions_of_the_law() -> None:
    """Rhode Island General Laws 42-60.1-2 (F40T12, F96T12) and 42 U.S.C. 6291(30) (8 ft lamps)."""
    lamps = CATALOGUE.lamp_by_id
    four_foot, slimline, high = (lamps[name] for name in ("G13/40/linear/t12", "Fa8/75/linear", "R17d/110/linear/ho"))
    assert (four_foot.watts.value, four_foot.tube_mm.value) == (40, 38.1)  # one and one half inches
    assert abs(four_foot.length_mm.value - 48 * INCH_MM) < 25  # nominal: from holder to holder
    assert (slimline.watts.value, slimline.tube_mm.value, slimline.inches) == (75, 38.1, 96)
    assert (slimline.starts, BASES["Fa8"].pins.value) == (("instant",), 1)
    assert (high.starts, high.mains.current_a.value, high.inches) == (("rapid",), 0.8, 96)


def test_lengths_of_long_twins_in_the_bulletin() -> None:
    """A US university's bulletin of April 1996: the shortest twin tube lamp is 10.5 in, the longest 22.5 in."""
    long_twins = [
        one for one in CATALOGUE.lamps if one.base == "2G11" and one.kind == "fluorescent" and one.lengths_mm
    ]
    of_them = {one.watts.value: one.lengths_mm for one in long_twins}
    assert of_them[18][1] == round(10.5 * INCH_MM)
    assert max(longest for _, longest in of_them.values()) == pytest.approx(22.5 * INCH_MM, abs=1)


def test_current_of_the_265_ma_series() -> None:
    """A US national laboratory's design guide: straight T-8 lamps run on 265 mA, F40T12 ballasts give 430 mA."""
    lamps = CATALOGUE.lamp_by_id
    for name in ("G13/17/linear", "G13/25/linear", "G13/32/linear", "G13/40/linear/t8"):
        assert lamps[name].hf.current_a.value == 0.265
        assert lamps[name].magnetic_if_listed.source == "LBL-T8"
    assert lamps["G13/40/linear/t12"].mains.current_a.value == 0.43


# WIKI-FLF for the classes; which base has which is the trade's
BASE_TUBES = {"G5": {4, 5}, "G13": {8, 10, 12}, "W4.3x8.5d": {2}, "2GX13": {5}}


@pytest.mark.parametrize(("base", "eighths"), BASE_TUBES.items())
def test_tubes_of_a_base(base: str, eighths: set[int]) -> None:
    tubes = {lamp.tube_mm.value for lamp in CATALOGUE.lamps if lamp.base == base and lamp.tube_mm}
    assert tubes == {TUBES_MM[n] for n in eighths}


# TEXT-ILD ch. 7: family, bases as the trade has them, tube in eighths, pins, starter, least and most watts.
FAMILIES = [
    ("twin", ("G23", "GX23"), {4}, 2, "internal", 5, 13),
    ("quad", ("G24d-1", "G24d-2", "G24d-3"), {4, 5}, 2, "internal", 13, 26),
    ("quad", ("G24q-1", "G24q-2", "G24q-3"), {4}, 4, "external", 13, 26),
    ("triple", ("GX24q-2", "GX24q-3", "GX24q-4", "GX24q-5", "GX24q-6"), {4}, 4, "external", 18, 70),
    ("long-twin", ("2G11",), {5}, 4, "external", 18, 80),
]


@pytest.mark.parametrize(("shape", "bases", "eighths", "pins", "starter", "least", "most"), FAMILIES)
def test_families_of_the_textbook(
    shape: str, bases: tuple[str, ...], eighths: set[int], pins: int, starter: str, least: float, most: float
) -> None:
    lamps = [one for one in CATALOGUE.lamps if one.base in bases and one.shape == shape]
    on = [BASES[name] for name in bases]
    assert {(base.pins.value, base.starter.value if base.starter else None) for base in on} == {(pins, starter)}
    lamps = [one for one in lamps if one.kind == "fluorescent"]
    watts = {one.watts.value for one in lamps}
    assert {least, most} <= watts
    assert max(watts) == most  # the law adds quads of 10 W below the book's least
    assert {round((one.tube_mm.value if one.tube_mm else 0) * 8 / INCH_MM) for one in lamps} <= eighths


WORKED_EXAMPLES = {  # NEMA-GEN
    "CFT9W/G23": ("G23", 9, "twin"),
    "CFQ26W/G24d": ("G24d-3", 26, "quad"),
    "CFQ26W/G24q": ("G24q-3", 26, "quad"),
    "CFTR32W/G24q": ("GX24q-3", 32, "triple"),  # printed without the X
}


@pytest.mark.parametrize(("code", "lamp"), WORKED_EXAMPLES.items())
def test_worked_examples_stand_at_their_lamp(code: str, lamp: tuple[str, float, str]) -> None:
    found = [one for one in CATALOGUE.lamps if code in (word.value for word in one.codes)]
    assert [(one.base, one.watts.value, one.shape) for one in found] == [lamp]


SHORTER = {"G13/10/linear/uv-c"}  # of the Japanese range; the lamp for light of these watts is longer
GERMICIDAL = [lamp for lamp in CATALOGUE.lamps if lamp.kind == "uv-c"]


@pytest.mark.parametrize("lamp", GERMICIDAL, ids=lambda lamp: lamp.id)
def test_germicidal_lamp_is_its_twin_in_clear_glass(lamp: Lamp) -> None:
    """IES-GUV: the same shape, connection and operating power. Clear, for want of phosphor: common knowledge."""
    assert lamp.glass is not None
    assert lamp.glass.value == "clear"
    twin = CATALOGUE.lamp_by_id.get(lamp.id.removesuffix("/uv-c"))
    if twin is not None and lamp.length_mm is not None and twin.length_mm is not None and lamp.id not in SHORTER:
        assert (lamp.length_mm.value, lamp.legs) == (twin.length_mm and twin.length_mm.value, twin.legs)
        assert lamp.ballasts == twin.ballasts


@pytest.mark.parametrize("lamp", GERMICIDAL, ids=lambda lamp: lamp.id)
def test_germicidal_output_is_possible(lamp: Lamp) -> None:
    """IES-GUV: about 45 % of lamp input at most; 15 % as the least met in small lamps is from memory."""
    if lamp.uvc_w is None:
        return  # not known, and said so
    assert 0.15 <= lamp.uvc_w.value / lamp.watts.value <= 0.45


def test_the_textbook_is_named_for_nothing_it_does_not_cover() -> None:
    """TEXT-ILD ch. 7 speaks of lamps for light: twins to 13 W, quads from 13 W, triples and long twins from 18 W."""
    least = {"twin": 5, "quad": 13, "triple": 18, "long-twin": 18, "linear": 32}
    for lamp in CATALOGUE.lamps:
        values = (lamp.ballasts_from, lamp.starts_from, lamp.dims, lamp.magnetic_if_listed, lamp.tube_mm)
        if any(one is not None and one.source == "TEXT-ILD" for one in values):
            assert lamp.kind == "fluorescent", lamp.id
            assert lamp.watts.value >= least[lamp.shape or ""], lamp.id


@pytest.mark.parametrize(
    ("names", "current_a"),
    [
        (("G13/17/linear", "G13/25/linear", "G13/32/linear", "G13/40/linear/t8"), 0.265),
        (("G5/14/linear", "G5/21/linear", "G5/28/linear", "G5/35/linear"), 0.17),
    ],
)
def test_currents_of_a_handbook(names: tuple[str, ...], current_a: float) -> None:
    """TEXT-EMH: T8 of 2 to 5 ft on ballasts that supply 265 mA; all standard T5 at 170 mA."""
    circuits = [CATALOGUE.lamp_by_id[name].hf for name in names]
    assert [one.current_a.value for one in circuits if one and one.current_a] == [current_a] * len(names)


@pytest.mark.parametrize(
    ("watts", "length_mm"), [(15, 450), (18, 600), (30, 895), (36, 1200), (38, 1047), (58, 1500)]
)
def test_tubes_of_the_australian_standard(watts: int, length_mm: int) -> None:
    """AU-MEPS: AS/NZS 4783.2:2002 prints FD-15-E-G13-26/450 and so on; for 15 and 18 W the length is rounded up."""
    lamp = CATALOGUE.lamp_by_id[f"G13/{watts}/linear"]
    assert lamp.length_mm is not None
    assert lamp.tube_mm is not None
    assert abs(lamp.length_mm.value - length_mm) <= (13 if watts < 30 else 1)
    assert abs(lamp.tube_mm.value - 26) <= 1


@pytest.mark.parametrize("inches", [24, 36, 48, 60, 72, 84, 96])
def test_high_output_lamps_run_at_800_ma(inches: int) -> None:
    """WIKI-FL: high-output lamps at 800 mA. The lengths they come in: from memory."""
    lamps = [one for one in CATALOGUE.lamps_on["R17d"] if one.inches == inches and one.id.endswith("/ho")]
    assert (
        [one.mains.current_a.value for one in lamps if one.mains and one.mains.current_a] == [0.8] * len(lamps) != []
    )


# Nominal lengths as printed: in feet or inches, the holders counted, or in whole inches with the pins.
PRINTED_IN = {
    **dict.fromkeys(("G13/17/linear", "G5/24/linear"), ("TEXT-EMH, HOBBY-T5", 22, 24)),
    **dict.fromkeys(("G13/25/linear", "G5/39/linear"), ("TEXT-EMH, HOBBY-T5", 34, 36)),
    **dict.fromkeys(("G13/32/linear", "G13/34/linear/t12"), ("TEXT-EMH, USC-6291", 47, 48)),
    **dict.fromkeys(("G13/40/linear/t8", "G5/80/linear"), ("TEXT-EMH, HOBBY-T5", 58, 60)),
    **dict.fromkeys(("G5/28/linear", "G5/54/linear"), ("CA-SOR-2016-311: 1125 to 1200 mm, HOBBY-T5", 45, 48)),
    "G13/15/linear/uv-a": ("WIKI-BLACK", 17, 18),
    "G5/8/linear/uv-a": ("WIKI-BLACK", 11, 12),
}


@pytest.mark.parametrize("name", PRINTED_IN)
def test_lengths_are_those_printed_less_what_holders_or_pins_take(name: str) -> None:
    """The works named in the row. That holders take an inch at most, and pins are 7 mm long: from memory."""
    _, least, most = PRINTED_IN[name]
    length = CATALOGUE.lamp_by_id[name].length_mm
    assert length is not None
    assert least * INCH_MM - 25.4 <= length.value <= most * INCH_MM


def test_no_preheat_and_no_instant_start_lamp_is_dimmed() -> None:
    """EE-BALLAST: preheat and instant start are not for dimming, rapid start is. ASAP-DIM: T5 and T8 of 4 ft are."""
    for lamp in CATALOGUE.lamps:
        if lamp.dims is not None and lamp.dims.source in ("EE-BALLAST", "ASAP-DIM"):
            is_dimmed = bool({"rapid", "programmed"} & set(lamp.starts))
            assert (lamp.dims.value != "no") == is_dimmed, lamp.id


@pytest.mark.parametrize(
    ("name", "full"),
    [
        ("G13/34/linear/t12", "G13/40/linear/t12"),
        ("Fa8/60/linear/saver", "Fa8/75/linear"),
        ("R17d/95/linear/ho-saver", "R17d/110/linear/ho"),
    ],
)
def test_energy_savers_of_the_code(name: str, full: str) -> None:
    """USC-6291(29)(D) and (M) to (O): F34T12, F96T12/ES and F96T12HO/ES beside F40T12, F96T12 and F96T12HO."""
    lamp = CATALOGUE.lamp_by_id[name]
    assert lamp.stands_in_for == (full,)
    assert lamp.tube_mm is not None
    assert lamp.tube_mm.value == pytest.approx(1.5 * INCH_MM)
