"""Each fault planted in the shipped catalogue is named once, at its place; nothing else is."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

import pytest

from counter import paths
from counter.catalogue import Problem, check_file, check_shipped

if TYPE_CHECKING:
    from pathlib import Path

SHIPPED = json.loads((paths.resources() / "catalogue.json").read_text("utf-8"))

# place ({NAME} stands for the index of the base, lamp or look of that name), new value, place of the problem, words
FAULTS = [
    ("bases[{G23}].pins.source", "hearsay", "bases[{G23}].pins.source", "no source hearsay"),
    ("bases[{G23}].pins.source", "memory", "bases[{G23}].pins.confidence", "does not go with"),
    ("bases[{G23}].face.outline.source", "TEXT-ILD", "bases[{G23}].face.outline.confidence", "does not go with"),
    ("bases[{G23}].face.notches.source", "memory", "bases[{G23}].face.notches.confidence", "does not go with"),
    ("bases[{G23}].pins.confidence", "confirmed", "bases[{G23}].pins.confidence", "only the shop's own layer"),
    ("bases[{G23}].pins.confidence", "sure", "bases[{G23}].pins.confidence", "not one of the words"),
    ("bases[{G23}].pins.value", 3, "bases[{G23}].pins.value", "3 pins are counted and 2 drawn"),
    ("bases[{G23}].pins.value", "2", "bases[{G23}].pins.value", "must be a number"),
    ("bases[{G23}].face.pins.at[0].x_mm", -14, "bases[{G23}].pin_spacing_mm.value", "drawn 25.5 mm apart"),
    ("bases[{G23}].face.pins.at[0].x_mm", None, "bases[{G23}].face.pins.at[0].x_mm", "must be a number"),
    ("bases[{G10q}].pin_spacing_mm.value", 10.15, "bases[{G10q}].pin_spacing_mm.value", "6.3 and 7.9 mm"),
    ("bases[{G13}].face.pins.at[0].x_mm", -6350, "bases[{G13}].face.pins.at[0]", "more than 60 mm"),
    ("bases[{G23}].arrangement.value", "zigzag", "bases[{G23}].arrangement.value", "not one of the words"),
    ("bases[{G23}].block.value", "maybe", "bases[{G23}].block.value", "not one of the words"),
    ("bases[{G23}].starter.value", "inside", "bases[{G23}].starter.value", "not one of the words"),
    ("bases[{G24q-1}].family", "G24", "bases[{G24q-1}].family", "without its key number"),
    ("bases[{G23}].tell", " ", "bases[{G23}].tell", "empty"),
    ("bases[{G23}].family_notches[1]", "three-large", "bases[{G23}].family_notches[1]", "no answer to the look"),
    ("bases[{G23}].face.notches.at[0].size", "small", "bases[{G23}].face.notches.at", "they look small-centre"),
    ("bases[{GX23}].face.notches.at[0].size", "small", "bases[{GX23}].face.notches.at", "no look names"),
    ("bases[{G23}].face.centre", None, "bases[{G23}].face.notches", "without a centre"),
    ("bases[{G23}].starter.value", "integral", "bases[{G23}].supply", "ballast with starter integral"),
    ("bases[{G23}].mount", "two-ends", "bases[{G23}].mount", "with arrangement two-across"),
    ("bases[{G23}].spacing_means", None, "bases[{G23}].spacing_means", "between which pins"),
    ("bases[{G23}].wieght", 3, "bases[{G23}].wieght", "no field has this name"),
    ("lamps[{G23/9/twin}].base", "G23b", "lamps[{G23/9/twin}].base", "no base G23b"),
    ("lamps[{G23/9/twin}].watts.value", 7, "lamps[{G23/9/twin}].id", "does not begin with base, watts"),
    ("lamps[{G23/9/twin}].id", "G23/11/twin", "lamps[{G23/9/twin}].id", "does not begin"),
    ("lamps[{G23/9/twin}].id", "G23/9/twin/uv-c", "lamps[{G23/9/twin}].id", "the kind is fluorescent"),
    ("lamps[{G23/9/twin}].legs", 4, "lamps[{G23/9/twin}].legs", "4 legs with the shape twin"),
    ("lamps[{G5/14/linear}].legs", 1, "lamps[{G5/14/linear}].legs", "1 legs with the shape linear"),
    ("lamps[{G23/9/twin}].glass.value", "green", "lamps[{G23/9/twin}].glass.value", "no answer to the look glass"),
    ("lamps[{G23/9/twin}].length_mm.value", 16.7, "lamps[{G23/9/twin}].length_mm.value", "outside 40 to 3100"),
    ("lamps[{G23/9/twin}].tube_mm.value", 127, "lamps[{G23/9/twin}].tube_mm.value", "outside 5 to 45"),
    ("lamps[{G23/9/twin}].tube_mm.plus_minus", -1, "lamps[{G23/9/twin}].tube_mm.plus_minus", "at least 0"),
    ("lamps[{G10q/22/circular}].hf.power_w.value", 87, "lamps[{G10q/22/circular}].hf.power_w.value", "87 W in"),
    ("lamps[{G23/9/twin}].mains.current_a.value", 170, "lamps[{G23/9/twin}].mains.power_w.value", "current times"),
    ("lamps[{G23/9/twin}].mains.voltage_v.value", -60, "lamps[{G23/9/twin}].mains.voltage_v.value", "-60"),
    ("lamps[{G23/9/twin}].ballasts", ["magnetic", "electronic"], "lamps[{G23/9/twin}].ballasts", "starter inside"),
    ("lamps[{G5/14/linear}].ballasts", ["magnetic"], "lamps[{G5/14/linear}].hf", "not made for"),
    ("lamps[{GU24/13}].ballasts", ["magnetic"], "lamps[{GU24/13}].ballasts", "on a base for mains"),
    ("lamps[{G23/9/twin/uv-c}].uvc_w.value", 8, "lamps[{G23/9/twin/uv-c}].uvc_w.value", "8 W of UV-C from 9 W"),
    ("lamps[{G23/9/twin/uv-c}].glass.value", "white", "lamps[{G23/9/twin/uv-c}].glass.value", "not clear"),
    ("lamps[{G23/9/twin/uv-c}].arc_mm.value", 900, "lamps[{G23/9/twin/uv-c}].arc_mm.value", "twice the lamp's"),
    ("looks[{notch}].slip", 1.2, "looks[{notch}].slip", "must be below 1"),
    ("looks[{notch}].values[0].instead.nowhere", 1, "looks[{notch}].values[0].instead.nowhere", "no other answer"),
    ("looks[{notch}].values[0].instead.none", 1, "looks[{notch}].values[0].instead.none", "no other answer"),
    ("looks[{notch}].values[0].instead.one-large", 0, 'looks[{notch}].values[0].instead["one-large"]', "weight of 0"),
    ("looks[{legs}].values[4].also[0]", "5", "looks[{legs}].values[4].also[0]", "no other answer"),
    ("looks[{arrangement}].values[1].value", "two-across", "looks[{arrangement}].values", "there 2 times"),
    ("looks[{block}].tool_sd", 1, "looks[{block}]", "either measured"),
    ("looks[{arrangement}].moot.pins[0]", "3", "looks[{arrangement}].moot.pins[0]", "no answer to the look pins"),
    ("looks[{arrangement}].moot.colour", ["3"], "looks[{arrangement}].moot.colour", "no look"),
    ("looks[{glass}].guards", "ir", "looks[{glass}].guards", "not one of the words"),
    ("looks[{tube_mm}].low", 50, "looks[{tube_mm}].low", "50 is not below high"),
    ("legs_by_shape.flat", "4-thick", "legs_by_shape.flat", "no answer to the look legs"),
    ("legs_by_shape.round", "ring", "legs_by_shape.round", "no shape round"),
    ("version", 2, "version", "not one of the words"),
]


# Faults that rightly show at other places too: how many.
ALSO = {
    'lamps[{G23/9/twin}].id "G23/11/twin"': 1,
    'lamps[{G23/9/twin}].id "G23/9/twin/uv-c"': 1,
    "lamps[{G23/9/twin}].base": 1,
    "legs_by_shape.flat": 3,
    "bases[{G13}].face.pins.at[0].x_mm": 1,
}


def _place(words: str) -> tuple[list[str | int], str]:
    """Return the steps to a value, and the place with its names turned into numbers."""
    for section, key in (("bases", "designation"), ("lamps", "id"), ("looks", "key")):
        for index, entry in enumerate(SHIPPED[section]):
            words = words.replace(f"{section}[{{{entry[key]}}}]", f"{section}[{index}]")
    steps = words.replace("[", ".").replace("]", "").split(".")
    return [int(step) if step.isdigit() else step for step in steps], words


def _with(place: str, value: object) -> dict[str, Any]:
    data = json.loads(json.dumps(SHIPPED))
    *way, last = _place(place)[0]
    target = data
    for step in way:
        target = target[step]
    target[last] = value
    return data


def _check(tmp_path: Path, data: object) -> tuple[Problem, ...]:
    path = tmp_path / "catalogue.json"
    path.write_text(json.dumps(data), "utf-8")
    return check_file(path)


def test_shipped_catalogue_is_sound() -> None:
    assert check_shipped() == ()


@pytest.mark.parametrize(("place", "value", "where", "words"), FAULTS)
def test_planted_fault_is_named(tmp_path: Path, place: str, value: object, where: str, words: str) -> None:
    problems = _check(tmp_path, _with(place, value))
    found = [problem for problem in problems if problem.path == _place(where)[1]]
    assert [words in problem.what for problem in found] == [True]
    assert found[0].way_out
    more = ALSO.get(place, ALSO.get(f'{place} "{value}"', 0))
    assert len(problems) == 1 + more


def test_doubles_are_named(tmp_path: Path) -> None:
    data = json.loads(json.dumps(SHIPPED))
    for section in ("sources", "bases", "lamps", "looks"):
        data[section].append(data[section][0])
    paths_found = [problem.path for problem in _check(tmp_path, data)]
    ends = [f"{s}[{len(SHIPPED[s])}]" for s in ("bases", "lamps", "looks", "sources")]
    assert paths_found == [f"{ends[0]}.designation", f"{ends[1]}.id", f"{ends[2]}.key", f"{ends[3]}.key"]


def test_watts_that_no_look_can_find(tmp_path: Path) -> None:
    data = _with("lamps[{G23/9/twin}].watts.value", 9.5)
    data["lamps"][_place("lamps[{G23/9/twin}]")[0][1]]["id"] = "G23/9.5/twin"
    assert [problem.what for problem in _check(tmp_path, data)] == ["9.5 is no answer to the look watts"]


def test_everything_wrong_is_listed_in_one_go(tmp_path: Path) -> None:
    data = _with("bases[{G23}].pins.value", 3)
    data["bases"][1]["face"]["outline"]["width_mm"] = -1
    data["lamps"][0]["legs"] = 3
    del data["lamps"][1]["kind"]
    problems = _check(tmp_path, data)
    assert [(p.path, p.where) for p in problems] == [
        ("bases[0].pins.value", "G23"),
        ("bases[1].face.outline.width_mm", "GX23"),
        ("lamps[0].legs", "G23/5/twin"),
        ("lamps[1].kind", "G23/7/twin"),
    ]


def test_broken_base_is_not_called_missing_by_its_lamps(tmp_path: Path) -> None:
    data = _with("bases[{G23}].hold", None)
    assert [problem.path for problem in _check(tmp_path, data)] == ["bases[0].hold"]
