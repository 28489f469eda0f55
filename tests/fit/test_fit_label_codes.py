"""What a label's codes, letters and words name: the lamp itself, or another of the same watts, ballast or kind.

Cases of our own, judged by the trade's rules beforehand: common practice, no source.
"""

import pytest

from counter.desk import Case, Fixture, assess

HELD = [
    ("CFQ26W/G24q/841", {"legs": "4", "pins": "4"}, "G24q-3", "electronic", (26.0,), "Pour tubes DEL"),
    ("CFQ26W/G24q/841", {"legs": "4", "pins": "4"}, "G24q-3", "electronic", (26.0,), "DEL"),
    ("CFQ26W/G24q/841", {"legs": "4", "pins": "4"}, "G24q-3", "electronic", (26.0,), "Luminaire DEL"),
    ("CFQ26W/G24q/841", {"legs": "4", "pins": "4"}, "G24q-3", "electronic", (26.0,), "Tube DEL 26W"),
    ("CFQ26W/G24q/841", {"legs": "4", "pins": "4"}, "G24q-3", "electronic", (26.0,), "lampe DEL"),
    ("CFQ26W/G24q/841", {"legs": "4", "pins": "4"}, "G24q-3", "electronic", (26.0,), "ballast DEL"),
    ("CFQ26W/G24q/841", {"legs": "4", "pins": "4"}, "G24q-3", "electronic", (26.0,), "class 2 output"),
    ("CFQ26W/G24q/841", {"legs": "4", "pins": "4"}, "G24q-3", "electronic", (26.0,), "SELV output"),
    ("CFQ26W/G24q/841", {"legs": "4", "pins": "4"}, "G24q-3", "electronic", (26.0,), "line pin 1"),
    ("CFQ26W/G24q/841", {"legs": "4", "pins": "4"}, "G24q-3", "electronic", (26.0,), "input this end"),
    ("CFQ26W/G24q/841", {"legs": "4", "pins": "4"}, "G24q-3", "electronic", (26.0,), "Lamp input 100-277V 50/60Hz"),
    ("CFQ26W/G24q/841", {"legs": "4", "pins": "4"}, "G24q-3", "electronic", (26.0,), "connected to line"),
    ("CFQ26W/GU24/827", {"pins": "2"}, "GU24", "none", (26.0,), "LED only"),
    ("CFQ26W/GU24/827", {"pins": "2"}, "GU24", "none", (26.0,), "no CFL"),
    ("CFQ26W/GU24/827", {"pins": "2"}, "GU24", "none", (26.0,), "Do not use CFL"),
    ("CFQ26W/GU24/827", {"pins": "2"}, "GU24", "none", (26.0,), "no fluorescent"),
    ("CFQ26W/GU24/827", {"pins": "2"}, "GU24", "none", (26.0,), "incandescent only"),
    ("CFQ26W/GU24/827", {"pins": "2"}, "GU24", "none", (26.0,), "max 60W halogen"),
    ("CFQ26W/GU24/827", {"pins": "2"}, "GU24", "none", (26.0,), "solo LED"),
    ("CFQ26W/GU24/827", {"pins": "2"}, "GU24", "none", (26.0,), "uniquement LED"),
    ("CFQ26W/GU24/827", {"pins": "2"}, "GU24", "none", (26.0,), "out of service"),
    ("CFQ26W/G24q/DEL", {"legs": "4", "pins": "4"}, "G24q-3", "electronic", (26.0,), ""),
    ("F32T8/841 tube DEL", {"legs": "1", "pins": "2"}, "G13", "electronic", (32.0,), ""),
    ("F32T8/841/25W", {"legs": "1", "pins": "2"}, "G13", "electronic", (), "(2) F32T8, F25T8, F17T8"),
    ("F32T8/841/25W", {"legs": "1", "pins": "2", "length_mm": "1200"}, "G13", "electronic", (25.0,), "F25T8 3 ft"),
    ("F25T8/841", {"legs": "1", "pins": "2", "length_mm": "900"}, "G13", "electronic", (25.0,), "F32T8/25W"),
    ("F30T8/CW", {"legs": "1", "pins": "2"}, "G13", "electronic", (), "F32T8/30W"),
    ("F15T8/CW", {"legs": "1", "pins": "2"}, "G13", "electronic", (), "F17T8/15W"),
    ("F49T5/841", {"legs": "1", "pins": "2", "length_mm": "1449"}, "G5", "electronic", (49.0,), "F54T5/HO/49W"),
    ("F54T5/HO/841/49W", {"legs": "1", "pins": "2"}, "G5", "electronic", (), "F54T5HO or F49T5"),
    ("FB32T8/841/25W", {"legs": "u-bent", "pins": "2"}, "2G13", "electronic", (), "FB32T8 F25T8"),
    ("F32T8/841/30W", {"legs": "1", "pins": "2"}, "G13", "electronic", (), "(2) F32T8, F30T8"),
    ("F25T12/CW/RS/ES", {"legs": "1", "pins": "2"}, "G13", "magnetic", (), "F30T12/RS F25T12"),
    ("F40T12/CW/RS", {"legs": "1", "pins": "2"}, "G13", "magnetic", (), "F40T12/IS"),
    ("CFQ26W/G24d/841", {"legs": "4", "pins": "2"}, "G24d-3", "magnetic", (26.0,), "26W TC-DEL"),
    ("CFQ26W/G24d/841", {"legs": "4", "pins": "2"}, "G24d-3", "magnetic", (26.0,), "EEI=A2"),
    ("CFQ26W/G24d/841", {"legs": "4", "pins": "2"}, "G24d-3", "magnetic", (26.0,), "class A2 ballast 26W"),
    ("CFQ26W/G24d/841", {"legs": "4", "pins": "2"}, "G24d-3", "magnetic", (26.0,), "26W A2 BAT"),
    ("CFQ26W/G24d/841", {"legs": "4", "pins": "2"}, "G24d-3", "magnetic", (26.0,), "Warmstart 26W"),
    ("CFT9W/G23/841", {"legs": "2", "pins": "2"}, "G23", "magnetic", (9.0,), "9W TC-SEL"),
    ("F96T12/CW", {"legs": "1", "pins": "1"}, "Fa8", "magnetic", (75.0,), "F96T12/HO"),
    ("FT24W/2G11/835", {"legs": "2", "pins": "4"}, "2G11", "electronic", (), "F24T5/HO"),
    ("FC8T9/CW", {"legs": "ring", "pins": "4"}, "G10q", "magnetic", (22.0,), "FC9T5 22W"),
    ("CFQ26W/G24q/841", {"legs": "4", "pins": "4"}, "G24q-3", "electronic", (), "below 26W"),
    ("CFQ26W/G24q/841", {"legs": "4", "pins": "4"}, "G24q-3", "electronic", (), "<26W"),
    ("FT36W/2G11/841", {"legs": "2", "pins": "4"}, "2G11", "electronic", (), "18W+18W=36W"),
    ("FT36W/2G11/841", {"legs": "2", "pins": "4"}, "2G11", "electronic", (), "36W 120V input"),
    ("F17T8/841", {"legs": "1", "pins": "2"}, "G13", "electronic", (17.0,), "F17T8/ES 15W only"),
]
SOLD = [
    ("F40T12/CW/IS", {"legs": "1", "pins": "2"}, "G13", "magnetic", (), "F40T12/IS"),
    ("FC8T9/CW", {"legs": "ring", "pins": "4"}, "G10q", "magnetic", (22.0,), "FC8T9 22W"),
    ("FC8T9/CW", {"legs": "ring", "pins": "4"}, "G10q", "magnetic", (22.0,), "FC8T9"),
    ("F64T6/CW", {"legs": "1", "pins": "1"}, "Fa8", "magnetic", (38.0,), "F64T6"),
    ("FSDH-80/40/1B-L/P-2G11", {"legs": "2", "pins": "4"}, "2G11", "electronic", (80.0,), ""),
    ("F32T8/841", {"legs": "1", "pins": "2"}, "G13", "electronic", (), "(2) F32T8, F25T8, F17T8"),
    ("F54T5/HO/841", {"legs": "1", "pins": "2"}, "G5", "electronic", (), "F54T5/HO"),
    ("F96T12/CW", {"legs": "1", "pins": "1"}, "Fa8", "magnetic", (75.0,), "F96T12"),
    ("F34T12/CW", {"legs": "1", "pins": "2"}, "G13", "magnetic", (), "F34T12"),
    ("F40T12/CW", {"legs": "1", "pins": "2"}, "G13", "magnetic", (40.0,), "F40T12 F34T12"),
    ("CFQ26W/GU24/827", {"pins": "2"}, "GU24", "none", (26.0,), "120V 60Hz"),
    ("CFQ26W/G24d/841", {"legs": "4", "pins": "2"}, "G24d-3", "magnetic", (26.0,), "26W TC-D EEI=B2"),
    ("CFQ26W/G24q/841", {"legs": "4", "pins": "4"}, "G24q-3", "electronic", (26.0,), "26W TC-DEL EEI=A2"),
    ("F28T5/841", {"legs": "1", "pins": "2"}, "G5", "electronic", (), "F28T5"),
    ("FB32T8/841", {"legs": "u-bent", "pins": "2"}, "2G13", "electronic", (), "FB32T8"),
]


def verdict(catalogue, marks, looks, holder, ballast, watts, label):
    fixture = Fixture(holder=holder, ballast=ballast, ballast_watts=watts, label=label)
    case = Case(looks={"glass": "white", **looks}, marks=marks, fixture=fixture, use="lighting")
    return assess(catalogue, case).verdict


@pytest.mark.parametrize("case", HELD, ids=lambda case: f"{case[0]} on {case[-1]}")
def test_what_the_label_does_not_name_is_not_sold(catalogue, case):
    assert verdict(catalogue, *case) != "sell"


@pytest.mark.parametrize("case", SOLD, ids=lambda case: f"{case[0]} on {case[-1]}")
def test_what_the_label_names_is_sold(catalogue, case):
    assert verdict(catalogue, *case) == "sell"
