"""What must never be sold and what must be, stated from the catalogue's JSON alone: no code of counter.fit.

One row of the table is a lamp type, a holder by its full designation, a ballast, a use, and the watts that the
ballast label lists (none, or the lamp's own).
"""

from __future__ import annotations

import json
from functools import cache
from itertools import product
from pathlib import Path
from typing import NamedTuple

CATALOGUE = Path(__file__).resolve().parents[2] / "resources" / "catalogue.json"
BALLASTS = ("magnetic", "electronic", "dimming", "led-driver", "bypassed", "none", "unknown")
USES = ("lighting", "germicidal", "blacklight", "tanning", "medical", "unknown")
TOLERANCE = 0.15


class Row(NamedTuple):
    """One combination, by names."""

    lamp: str
    holder: str
    ballast: str
    use: str
    listed: tuple[float, ...]


@cache
def raw() -> tuple[dict, dict]:
    """Lamps by id and bases by designation, as the JSON has them."""
    data = json.loads(CATALOGUE.read_text(encoding="utf-8"))
    return {one["id"]: one for one in data["lamps"]}, {one["designation"]: one for one in data["bases"]}


def rows(*, is_listed: bool):
    """Yield the whole table."""
    lamps, bases = raw()
    for lamp, holder, ballast, use in product(lamps, bases, BALLASTS, USES):
        yield Row(lamp, holder, ballast, use, (float(lamps[lamp]["watts"]["value"]),) if is_listed else ())


def currents_a(lamp: dict, other: dict, ballast: str) -> tuple[float, float] | None:
    """The currents of two lamps on the same kind of supply: this ballast's, else at mains frequency."""
    for supply in ("hf", "mains") if ballast in ("electronic", "dimming") else ("mains",):
        figures = [((one.get(supply) or {}).get("current_a") or {}).get("value") for one in (lamp, other)]
        if all(figures):
            return figures[0], figures[1]
    return None


def _pins(row: Row) -> bool:
    lamps, bases = raw()
    return bases[lamps[row.lamp]["base"]]["pins"]["value"] != bases[row.holder]["pins"]["value"]


def _other_base_or_key(row: Row) -> bool:
    return raw()[0][row.lamp]["base"] != row.holder


def _kind(row: Row) -> str:
    return raw()[0][row.lamp]["kind"]


def _purposes(row: Row) -> set[str]:
    return set(raw()[0][row.lamp].get("purposes", ()))


def _is_mains(row: Row) -> bool:
    lamps, bases = raw()
    return bases[lamps[row.lamp]["base"]]["supply"] == "mains"


def _off_current(row: Row) -> bool:
    lamps, _ = raw()
    lamp = lamps[row.lamp]
    if lamp["watts"]["value"] in row.listed or not row.listed:
        return False
    made_for = [one for one in lamps.values() if one["base"] == row.holder and one["watts"]["value"] in row.listed]
    pairs = [pair for one in made_for if (pair := currents_a(lamp, one, row.ballast))]
    return bool(pairs) and all(abs(design / own - 1) > TOLERANCE for own, design in pairs)


def _has_two_ends(row: Row) -> bool:
    lamps, bases = raw()
    return bases[lamps[row.lamp]["base"]]["mount"] == "two-ends"


def _of_other_lengths(row: Row) -> list[dict]:
    """Lamps for two ends that a label's watts may mean as well, and that are another length."""
    lamps, own = raw()[0], raw()[0][row.lamp]
    if not _has_two_ends(row) or not row.listed or "length_mm" not in own:
        return []
    return [
        one
        for one in lamps.values()
        if all(one[key] == own[key] for key in ("base", "kind"))
        and one["watts"]["value"] == own["watts"]["value"]
        and abs(one.get("length_mm", own["length_mm"])["value"] / own["length_mm"]["value"] - 1) > 0.05
    ]


def _two_pin(row: Row) -> bool:
    lamps, bases = raw()
    return bases[lamps[row.lamp]["base"]].get("starter", {}).get("value") == "internal"


NEVER = {
    "different pin count": _pins,
    "other base or key": _other_base_or_key,
    "UV-C into lighting": lambda row: _kind(row) == "uv-c" and row.use not in ("germicidal", "unknown"),
    "no UV-C into germicidal": lambda row: _kind(row) != "uv-c" and row.use == "germicidal",
    "UV-A into lighting": lambda row: _kind(row) == "uv-a" and row.use == "lighting",
    "UV-B into lighting": lambda row: _kind(row) == "other" and row.use == "lighting",
    "UV-B into blacklight": lambda row: _kind(row) == "other" and row.use == "blacklight",
    "tanning lamp into blacklight": lambda row: row.use == "blacklight" and _purposes(row) == {"tanning"},
    "white into a UV unit": lambda row: (
        _kind(row) == "fluorescent" and row.use in ("blacklight", "tanning", "medical")
    ),
    "ultraviolet, use not known": lambda row: _kind(row) in ("uv-c", "uv-a", "other") and row.use == "unknown",
    "UV unit whose label does not name the lamp": lambda row: (
        _kind(row) in ("uv-a", "other") and row.use in ("tanning", "medical")
    ),
    "ozone, the label silent": lambda row: "ozone" in _purposes(row),
    "pins joined inside, the label silent": lambda row: (
        raw()[0][row.lamp].get("starts") == ["instant"] and raw()[0][row.lamp]["base"] == "G13"
    ),
    "no ballast": lambda row: not _is_mains(row) and row.ballast in ("bypassed", "none", "led-driver"),
    "mains lamp onto a ballast": lambda row: _is_mains(row) and row.ballast not in ("none", "unknown"),
    "two-pin on electronic": lambda row: _two_pin(row) and row.ballast in ("electronic", "dimming"),
    "electronic-only on magnetic": lambda row: (
        row.ballast == "magnetic" and raw()[0][row.lamp]["ballasts"] == ["electronic"]
    ),
    "magnetic-only on electronic": lambda row: (
        row.ballast in ("electronic", "dimming") and raw()[0][row.lamp]["ballasts"] == ["magnetic"]
    ),
    "lamp that is not dimmed on a dimming ballast": lambda row: (
        row.ballast == "dimming" and raw()[0][row.lamp].get("dims", {}).get("value") == "no"
    ),
    "current off": _off_current,
    "ballast not known": lambda row: row.ballast == "unknown",
    "two ends, no length known": lambda row: _has_two_ends(row) and "length_mm" not in raw()[0][row.lamp],
    "another length on that ballast": lambda row: any(
        row.ballast.replace("dimming", "electronic") in one["ballasts"] for one in _of_other_lengths(row)
    ),
}


def _watts_open(row: Row) -> bool:
    """Whether lamps of other watts share the holder, or none can say, while the label says nothing."""
    lamps, bases = raw()
    if row.listed or _is_mains(row):
        return False
    base = bases[row.holder]["designation"]
    watts = {one["watts"]["value"] for one in lamps.values() if one["base"] == base}
    return len(watts) > 1 or not ("-" in base or base.lstrip("2")[1] in "XY" or base.startswith("GRY"))


def _thick_and_thin(row: Row) -> bool:
    """Whether the same watts, base and length come with a thick and a thin tube, so that watts alone do not tell."""
    lamps, _ = raw()
    own = lamps[row.lamp]
    alike = [
        one
        for one in lamps.values()
        if one["base"] == own["base"]
        and one["watts"]["value"] == own["watts"]["value"]
        and abs(one.get("length_mm", {}).get("value", 0) - own.get("length_mm", {}).get("value", 0)) < 50
    ]
    tubes = {one["tube_mm"]["value"] for one in alike if "tube_mm" in one}
    return bool(row.listed) and len(tubes) > 1 and max(tubes) - min(tubes) > 6


def _long_and_short(row: Row) -> bool:
    """Whether the same watts and base come in two lengths for two ends, so that watts alone do not tell."""
    lamps, own = raw()[0], raw()[0][row.lamp]
    alike = [one for one in lamps.values() if all(one[key] == own[key] for key in ("base", "kind"))]
    unknown = any(one["watts"]["value"] == own["watts"]["value"] and "length_mm" not in one for one in alike)
    return bool(_of_other_lengths(row)) or (_has_two_ends(row) and bool(row.listed) and unknown)


ASK = {"watts open": _watts_open, "thick and thin tube": _thick_and_thin, "long and short": _long_and_short}


def objections(row: Row) -> list[str]:
    """Why this row must never be sold."""
    return [name for name, applies in NEVER.items() if applies(row)]


def must_sell(row: Row) -> bool:
    """Whether everything that must be known is known, and nothing objects."""
    return not objections(row) and not any(applies(row) for applies in ASK.values())
