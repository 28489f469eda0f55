"""A germicidal code with one sign worn stays one that may be germicidal, also where what is left is a whole code."""

from __future__ import annotations

import random

import pytest

from counter import marks
from counter.desk import Case, assess
from tests.bench_marks import LOOKS_LIKE, wear

SYSTEMS = ("nema", "ansi-linear", "ansi-germicidal", "ilcos", "lbs", "partial")  # a base alone says no kind


def worn_by_one(code: str) -> set[str]:
    """Return a code with each of its signs gone, unreadable, or looking like another (the noise of the bench)."""
    text = code.upper()
    places = [place for place, sign in enumerate(text) if sign != " "]
    return {
        f"{text[:place]}{worn}{text[place + 1 :]}"
        for place in places
        for worn in ("", "?", *LOOKS_LIKE.get(text[place], ""))
    }


def codes(shipped, kind: str) -> set[str]:
    """Return the codes of all lamp types of a kind, in every system, without a colour."""
    lamps = [lamp.id for lamp in shipped.lamps if lamp.kind == kind]
    return {code for lamp in lamps for one in SYSTEMS if (code := marks.format_code(shipped, lamp, one))}


def is_open(shipped, text: str, kind: str = "uv-c") -> bool:
    """Whether nothing is settled for light: a lamp of the kind is likely enough, or something is left unread."""
    found = marks.read(shipped, text)
    of_uv = [one for lamp, one in found.likelihood.items() if shipped.lamp_by_id[lamp].kind == kind]
    named = [shipped.lamp_by_id[lamp] for lamp in found.likelihood]
    is_uv = kind != "uv-c" and bool(named) and all(lamp.is_ultraviolet for lamp in named)
    holds = is_uv or bool(found.unread or found.unlisted) or not found.readings
    return holds or max(of_uv, default=found.floor) >= 0.01


def test_one_worn_sign_loses_no_germicidal_lamp(shipped):
    texts = sorted({text for code in codes(shipped, "uv-c") for text in worn_by_one(code)})
    assert len(texts) > 2500
    heads = [text for text in texts if text.startswith(("FT", "CFT", "F", "G5"))]  # what may pass for light
    assert [text for text in (*heads, *texts[::29]) if not is_open(shipped, text)] == []


@pytest.mark.slow
def test_one_worn_sign_loses_no_germicidal_lamp_at_length(shipped):
    texts = {text for code in codes(shipped, "uv-c") for text in worn_by_one(code)}
    assert [text for text in sorted(texts) if not is_open(shipped, text)] == []


def of_makers(shipped) -> set[str]:
    """Return codes of invented makers who print UV in letters of their own."""
    lamps = [lamp for lamp in shipped.lamps if lamp.kind == "uv-c"]
    rows = [(f"{lamp.watts.value:g}", shipped.base_of(lamp).family) for lamp in lamps]
    forms = ("JUV{w}W/{b}", "KP{w}W/{b}/UVC", "UVZ {w} {b}", "F{w}WUV/{b}", "HN{w}/{b} UV-C")
    return {form.format(w=watts, b=base) for watts, base in rows for form in forms}


def worn_by_two(codes: set[str], count: int) -> list[str]:
    rng = random.Random(5)
    return [text for _ in range(count) if (text := wear(rng.choice(sorted(codes)), 2, rng))]


def test_worn_ultraviolet_codes_lose_no_doubt(shipped):
    """Of traps, sun lamps and makers with UV letters one sign; of two worn signs at most one text in two hundred."""
    traps, sun = codes(shipped, "uv-a"), codes(shipped, "other")
    assert len(traps) > 40
    for kind, found, every in (("uv-a", traps, 53), ("other", sun, 1), ("uv-c", of_makers(shipped), 83)):
        texts = sorted({text for code in found for text in worn_by_one(code)})[::every]
        assert [text for text in texts if not is_open(shipped, text, kind)] == [], kind
    for kind in ("uv-a", "uv-c"):
        lost = [text for text in worn_by_two(codes(shipped, kind), 200) if not is_open(shipped, text, kind)]
        assert len(lost) <= 1, lost


def says_near(shipped, code: str) -> bool:
    return any("It may also be germicidal" in one for one in marks.read(shipped, code).problems)


@pytest.mark.parametrize(
    ("text", "asks"),
    [
        ("CFT9W/G23", True),  # GFT9W/G23 with its G worn to a C
        ("FT36W/2G11", True),  # GFT36W/2G11 without its G
        ("CFT9W", True),
        ("CFT9W/G23/827", False),  # a colour: it gives light
        ("FT40W/2G11", False),  # no germicidal lamp has these watts
        ("CFQ26W/G24q", False),
        ("F32T8", False),
        ("F15T8", True),  # no colour, and a germicidal lamp has these watts on this base
    ],
)
def test_the_glass_is_asked_for_where_a_germicidal_code_is_near(shipped, text, asks):
    told = assess(shipped, Case(marks=text))
    assert any(one.kind == "glass" and one.about == "glass" for one in told.doubts) is asks
    seen = assess(shipped, Case(marks=text, looks={"glass": "white"}))
    assert not any(one.kind == "glass" and one.about == "glass" for one in seen.doubts)


def test_codes_ask_where_a_germicidal_lamp_has_their_watts_and_base(shipped):
    """Those without a colour and those alone; 40 W on 2G11, and a saver, are asked for nothing new."""
    twins = {(lamp.base, lamp.watts.value) for lamp in shipped.lamps if lamp.kind == "uv-c"}
    for code in codes(shipped, "fluorescent"):
        lamps = [shipped.lamp_by_id[one] for one in marks.read(shipped, code).readings[0].lamps]
        has_twin = any((one.base, one.watts.value) in twins and not one.is_saver for one in lamps)
        assert has_twin or not says_near(shipped, code)
        assert not says_near(shipped, f"{code}/841")


@pytest.mark.parametrize("code", ["GFT5W", "G15T8", "F15T8/BL", "F20T12/BLB"])
@pytest.mark.parametrize("colour", ["20", "33", "84", "08", "840", "CW", "4000K"])
def test_no_colour_behind_it_takes_ultraviolet_away(shipped, code, colour):
    kind = "uv-a" if "BL" in code else "uv-c"
    assert marks.read(shipped, f"{code}/{colour}").readings[0].lamp.kind == kind


@pytest.mark.parametrize("text", ["F36W/08", "F36W/10", "F18W/05", "F15T8/08", "CF9W/08"])
def test_a_number_of_ultraviolet_outweighs_a_lamp_letter(shipped, text):
    assert marks.read(shipped, text).readings[0].lamp.kind == "uv-a"
