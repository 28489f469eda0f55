"""What the command line gets: the contract's fields first, plain JSON values, and readable lines."""

from __future__ import annotations

import json

import pytest

from counter.light import (
    colour_of,
    colour_report,
    colour_text,
    duration_text,
    exposure,
    uv_report,
    uv_text,
)


def test_uv_fields() -> None:
    report = json.loads(json.dumps(uv_report(exposure(11, 360, 1)), allow_nan=False))
    assert list(report)[:5] == [
        "irradiance_w_m2",
        "effective_w_m2",
        "limit_j_m2",
        "time_to_limit_s",
        "valid",
    ]
    assert (report["limit_j_m2"], report["valid"]) == (30, True)
    assert "ICNIRP" in " ".join(report["sources"])


@pytest.mark.parametrize(("text", "cri_min"), [("840", 80), ("4000 K", None)])
def test_colour_fields(text: str, cri_min: int | None) -> None:
    report = json.loads(json.dumps(colour_report(colour_of(text)), allow_nan=False))
    assert list(report)[:6] == ["cct_k", "cri_min", "mired", "x", "y", "srgb"]
    assert (report["cct_k"], report["cri_min"], report["mired"]) == (4000, cri_min, 250)


def test_uv_text() -> None:
    text = uv_text(exposure(11, 360, 0.5))
    assert text.splitlines()[1].endswith("30 J/m² effective, after 15 s.")
    assert "Nearer than twice the arc (0.72 m)" in text


def test_colour_text() -> None:
    assert colour_text(colour_of("840")).splitlines() == [
        "840: 4000 K (250.0 mired), Ra 80 to 89.",
        "x 0.3800, y 0.3800 (IEC 60081 F4000); on screen #eae7df.",
    ]
    assert "Sold as 4100 to 4200 K." in colour_text(colour_of("CW"))
    assert "colour rendering not said" in colour_text(colour_of("4000 K"))


@pytest.mark.parametrize(
    ("seconds", "text"),
    [
        (0.0123, "0.012 s"),
        (9.99, "10 s"),
        (55.2, "55 s"),
        (59.6, "1 min 0 s"),
        (247, "4 min 7 s"),
        (3599.7, "1 h 0 min"),
        (7500, "2 h 5 min"),
        (86399.9, "1 day 0 h"),
        (277200, "3 days 5 h"),
    ],
)
def test_durations(seconds: float, text: str) -> None:
    assert duration_text(seconds) == text
