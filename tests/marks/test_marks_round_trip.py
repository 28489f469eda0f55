"""What is written for a lamp type reads back as this lamp type, in every system and colour."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from counter import catalogue, marks

SHIPPED = catalogue.load()
SYSTEMS = ("nema", "ilcos", "ansi-linear", "ansi-germicidal", "lbs", "partial", "base", "house")
COLOURS = (*marks.tables()["colour"]["common"], *(row["letters"] for row in marks.tables()["colour"]["letters"]))


def check(lamp: str, system: str, colour: str | None) -> bool:
    code = marks.format_code(SHIPPED, lamp, system, colour)
    if code is None:
        return False
    (reading,) = marks.read(SHIPPED, code).readings
    assert lamp in reading.lamps, code
    assert reading.system == ("partial" if system == "lbs" else system), code
    if colour and system not in ("base", "ilcos") and SHIPPED.lamp_by_id[lamp].kind == "fluorescent":
        assert reading.lamp.cct_k, code
    if system in ("nema", "ansi-linear", "ansi-germicidal", "base", "house"):
        assert reading.canonical == code
    return True


@pytest.mark.parametrize("lamp", [lamp.id for lamp in SHIPPED.lamps])
def test_every_lamp_without_colour(lamp):
    assert sum(check(lamp, system, None) for system in SYSTEMS) >= 2, "base and shorthand at least"


@given(st.sampled_from(SHIPPED.lamps), st.sampled_from(SYSTEMS), st.sampled_from(COLOURS))
@settings(max_examples=400, deadline=None)
def test_every_lamp_in_every_colour(lamp, system, colour):
    check(lamp.id, system, colour)


SHARED = {"F40T12/BL", "G36T6L", "G36T6VH", "G64T5L", "G64T5VH"}  # their codes leave out the length, or the base


@pytest.mark.parametrize("system", ["nema", "ansi-linear", "ansi-germicidal"])
def test_generic_codes_without_key_name_one_lamp(system):
    """The generic codes print no key number, yet watts and shape leave one lamp type."""
    for lamp in SHIPPED.lamps:
        if code := marks.format_code(SHIPPED, lamp.id, system):
            meant = marks.read(SHIPPED, code).readings[0].lamps
            assert lamp.id in meant if code in SHARED else meant == (lamp.id,), code


def test_no_form_is_none():
    assert marks.format_code(SHIPPED, "G13/15/linear/uv-c", "nema") is None
    assert marks.format_code(SHIPPED, "G23/9/twin", "barcode") is None
    with pytest.raises(KeyError):
        marks.format_code(SHIPPED, "no such lamp", "nema")
