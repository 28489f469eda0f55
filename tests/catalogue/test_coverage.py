"""Every base and every nominal wattage that the counter must know is there."""

from __future__ import annotations

import pytest

from counter.catalogue import load

# Nominal watts of each base. From law and textbook where a comment says so, else common practice of the
# trade and memory (no source); the catalogue says the same of each value.
WATTS = {
    "G23": {5, 7, 9, 11},
    "GX23": {13},
    "G23-2": {9},
    "GX23-2": {13},
    "G24d-1": {10, 13},  # French decree 2001-1131 art. 3, category 4: 10, 13, 18, 26
    "G24d-2": {18},
    "G24d-3": {26},
    "GX24d-1": {13},
    "GX24d-2": {18},  # the same, category 5: 18, 26
    "GX24d-3": {26},
    "G24q-1": {10, 13},
    "G24q-2": {18},
    "G24q-3": {26},
    "GX24q-1": {13},
    "GX24q-2": {18},
    "GX24q-3": {26, 32},
    "GX24q-4": {42},
    "GX24q-5": {57},
    "GX24q-6": {70},
    "2G7": {5, 7, 9, 11},
    "2GX7": {13},
    "2G11": {18, 24, 27, 34, 36, 39, 40, 50, 55, 80},  # the decree, category 2: 18, 24, 36
    "2G10": {18, 24, 36},  # the decree, category 3
    "2G8-1": {60, 85, 120},
    "GR8": {16, 28},  # 10 W in GR8 is doubtful and left out
    "GR10q": {10, 16, 21, 28, 38},  # the decree, category 6
    "GRY10q-3": {55},
    "G10q": {20, 22, 32, 40, 60},
    "2GX13": {22, 40, 55, 60},
    "G5": {4, 6, 8, 13, 14, 21, 28, 35, 24, 39, 49, 54, 80},
    "G13": {15, 18, 30, 36, 38, 58, 70, 25, 32},  # the decree, category 1: 15 to 70; F32T8 in the textbook
    "2G13": {31, 32},
    "Fa8": {39, 56, 75},  # 48, 72 and 96 inches
    "R17d": {60, 85, 110, 160, 215},  # 800 and 1500 mA
    "W4.3x8.5d": {6, 8, 11, 13},
    "GX32d-1": {15, 16},
    "GX32d-2": {20, 22},
    "GX32d-3": {26, 28},
    "GU24": set(),  # any wattage, mains
    "GX53": {6, 13},  # from 6 to 13, mains
}
UV_C = {"G23": {5, 7, 9, 11}, "2G7": {5, 7, 9, 11}, "GX23": {13}, "2G11": {18, 24, 36, 55, 60, 95}}
UV_C_LINEAR = {"G5": {4, 6, 8, 11, 16}, "G13": {10, 15, 25, 30, 36, 55, 75}}
UV_C_ALONE = {11, 16, 25, 55, 60, 75, 95}  # sizes that no lamp for light has on that base, or in that length
MAINS = {"GU24", "GX53"}


def _watts(base: str, kind: str) -> set[float]:
    return {lamp.watts.value for lamp in load().lamps if lamp.base == base and lamp.kind == kind}


def test_the_bases_are_these() -> None:
    assert load().base_by_name.keys() == WATTS.keys()


@pytest.mark.parametrize("base", WATTS)
def test_every_nominal_wattage_is_there(base: str) -> None:
    assert WATTS[base] <= _watts(base, "fluorescent")


@pytest.mark.parametrize("base", WATTS)
def test_every_base_carries_a_lamp(base: str) -> None:
    assert _watts(base, "fluorescent")


@pytest.mark.parametrize(("base", "watts"), [*UV_C.items(), *UV_C_LINEAR.items()])
def test_every_germicidal_look_alike_is_there_with_its_twin(base: str, watts: set[float]) -> None:
    assert _watts(base, "uv-c") == watts
    assert watts - UV_C_ALONE <= _watts(base, "fluorescent")


def test_blacklight_tubes_are_there() -> None:
    assert _watts("G5", "uv-a")
    assert _watts("G13", "uv-a")


def test_only_twist_lock_bases_are_on_mains() -> None:
    catalogue = load()
    assert {base.designation for base in catalogue.bases if base.supply == "mains"} == MAINS
    on_mains = {lamp.base for lamp in catalogue.lamps if lamp.ballasts == ("none",)}
    assert on_mains == MAINS


def test_unknown_keys_are_absent() -> None:
    """Where the key sits on these is not known: a drawing of one would be an invention."""
    drawn = {base.designation for base in load().bases if base.face.notches is not None}
    unknown = {name for name in WATTS if name.startswith(("GX24", "GX32", "2G", "GR")) or name == "GX23-2"}
    assert not drawn & unknown
    assert drawn == {"G23", "G23-2", "GX23", *(f"G24{letter}-{n}" for letter in "dq" for n in "123")}


def test_positions_of_keys_are_never_called_published() -> None:
    keyed = [base.face.notches for base in load().bases if base.face.notches is not None]
    assert {notches.confidence for notches in keyed} == {"practice", "memory-low"}
    assert all(notches.is_unsure for notches in keyed)
