"""Codes of tubes on a ballast label, F32T8/25W, and which lamp types they name: bare watts may mean several."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, NamedTuple

from counter.fit._label import parse_label

if TYPE_CHECKING:
    from counter.catalogue import Catalogue, Lamp
    from counter.fit._models import Fixture

EIGHTH_MM = 25.4 / 8
SAME_EIGHTHS = 0.75  # 26 mm tubes are T8 as 25.4 mm ones are
THIN_EIGHTHS = 5  # tubes so thin are called by their watts, high output or not
THICK_EIGHTHS = 12  # tubes so thick with joined pins are another lamp type; thinner ones start at once as well
_CODE = re.compile(r"(?P<head>f[rpbcuo]{0,2})(?P<number>\d{1,3})t(?P<eighths>\d{1,2})(?P<tail>.*)")
_REDUCED = re.compile(r"(\d{2}) ?w\b")
_SAVES = re.compile(r"(?:^|[/-])(?:es|ss|wm)\b")
_INSTANT = re.compile(r"(?:^|[/-])is\b")
_HEADS = {"circular": ("fc",), "u-bent": ("fb", "fu"), "linear": ("f", "fr", "fp", "fo")}


class TubeCode(NamedTuple):
    """What a tube's code says: its number (watts or inches), the tube in eighths of an inch, what follows."""

    text: str
    head: str
    number: float
    eighths: int
    reduced_w: float | None
    is_saver: bool
    is_instant: bool
    output: str


def tube_codes(label: str) -> tuple[TubeCode, ...]:
    """Return the tubes' codes of a label, in their order."""
    return tuple(_parsed(found) for one in parse_label(label).codes if (found := _CODE.fullmatch(one)))


def _parsed(found: re.Match[str]) -> TubeCode:
    tail = found["tail"]
    reduced = _REDUCED.search(tail)
    return TubeCode(
        text=found[0].upper(),
        head="fb" if re.match(r"[/-]?u\b", tail) else found["head"],
        number=float(found["number"]),
        eighths=int(found["eighths"]),
        reduced_w=float(reduced[1]) if reduced else None,
        is_saver=bool(reduced or _SAVES.search(tail)),
        is_instant=bool(_INSTANT.search(tail)),
        output=_output(tail),
    )


def _output(tail: str) -> str:
    return "vho" if "vho" in tail else "ho" if "ho" in tail else ""


def names(code: TubeCode, lamp: Lamp, catalogue: Catalogue) -> bool:
    """Whether a tube's code on a label names this lamp type, and not one of the same watts."""
    if not _is_same_tube(code, lamp) or not _is_same_start(code, lamp, catalogue):
        return False
    if not lamp.is_saver:
        return not code.is_saver and code.number == _number(lamp)
    full = [_number(catalogue.lamp_by_id[one]) for one in lamp.stands_in_for]
    if code.is_saver:
        is_by_full = code.number in full and code.reduced_w in (None, lamp.watts.value)
        return is_by_full or (code.number == lamp.watts.value and code.reduced_w is None)
    return code.number == lamp.watts.value and not _has_full_lamp(lamp, catalogue)


def named_by(code: TubeCode, catalogue: Catalogue) -> tuple[Lamp, ...]:
    """Return the lamp types that a tube's code names; lamps for light alone, where it names such."""
    printed = catalogue.tubes_by_number.get(code.number, ())
    found = tuple(lamp for lamp in printed if names(code, lamp, catalogue))
    return tuple(lamp for lamp in found if not lamp.is_ultraviolet) or found


def label_watts(catalogue: Catalogue, label: str) -> tuple[float, ...]:
    """Return the lamp watts that a label names; a code by inches says those of the one lamp type that it names."""
    said: set[float] = set(parse_label(label).fields.get("ballast_watts", ()))
    for code in tube_codes(label):
        watts = {lamp.watts.value for lamp in named_by(code, catalogue) if lamp.inches == code.number}
        said |= watts if len(watts) == 1 else set()
    return tuple(sorted(said))


def with_label(catalogue: Catalogue, fixture: Fixture) -> Fixture:
    """Return the fixture with what its label says filled in where nothing was entered."""
    if not fixture.label.strip():
        return fixture
    said = parse_label(fixture.label).fields
    if not fixture.ballast_watts:
        said = said | {"ballast_watts": label_watts(catalogue, fixture.label)}
    blanks = {name: value for name, value in said.items() if getattr(fixture, name) in (None, (), "unknown")}
    return fixture.model_copy(update=blanks) if blanks else fixture


def _number(lamp: Lamp) -> float:
    return lamp.inches or lamp.watts.value


def _is_same_tube(code: TubeCode, lamp: Lamp) -> bool:
    if lamp.tube_mm is None or code.head not in _HEADS.get(lamp.shape or "", ()):
        return False
    is_thick_alike = abs(code.eighths - lamp.tube_mm.value / EIGHTH_MM) < SAME_EIGHTHS
    return is_thick_alike and (code.eighths <= THIN_EIGHTHS or code.output == lamp.output)


def _is_same_start(code: TubeCode, lamp: Lamp, catalogue: Catalogue) -> bool:
    is_joined = catalogue.base_of(lamp).joins_pins(lamp)
    return code.eighths < THICK_EIGHTHS or lamp.base != "G13" or code.is_instant == is_joined


def _has_full_lamp(lamp: Lamp, catalogue: Catalogue) -> bool:
    return any(
        one.watts.value == lamp.watts.value and not one.is_saver and one.shape == lamp.shape
        for one in catalogue.lamps_on[lamp.base]
    )
