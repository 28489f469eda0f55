"""What the shop confirmed wins over the shipped value; what is wrong in its file is named and left out."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from datetime import date
from pathlib import Path
from typing import Any

import pytest

import counter
from counter.catalogue import (
    PARTS,
    Catalogue,
    ConfirmError,
    Problem,
    check_file,
    notch_look,
)
from counter.catalogue import load as load_shipped
from counter.shop import StoreProblem, confirm, layer, load_catalogue, open_store, withdraw
from counter.shop._store import close_all

DAY = date(2026, 3, 2)
BY = {"who": "Kim", "on": DAY, "how": "caliper, three lamps"}
QUAD = "G24q-3/26/quad"


def _write(data: Path, **content: Any) -> Path:
    path = data / "shop.json"
    path.write_text(json.dumps({"format": "lamp-counter/shop", "version": 1, **content}), "utf-8")
    return path


def load(data: Path | None = None) -> Catalogue:
    """Return the shipped catalogue, or the one with a shop's layer over it."""
    return load_shipped() if data is None else load_catalogue(data).catalogue


def _row(**changes: Any) -> dict[str, Any]:
    row = {"kind": "lamp", "of": QUAD, "part": "length_mm", "value": 163, "who": "Kim", "on": "2026-03-02"}
    return {**row, "how": "caliper", **changes}


def test_without_a_layer_the_shipped_catalogue_is_loaded(tmp_path: Path) -> None:
    assert load(tmp_path) == load()
    assert load().source_by_key.keys().isdisjoint({"shop"})


def test_confirmed_value_wins_and_says_who(tmp_path: Path) -> None:
    confirm(tmp_path, kind="lamp", of=QUAD, part="length_mm", value=163.5, plus_minus=1, **BY)
    catalogue = load(tmp_path)
    length = catalogue.lamp_by_id[QUAD].length_mm
    assert length is not None
    assert (length.value, length.plus_minus, length.confidence, length.source) == (163.5, 1, "confirmed", "shop")
    assert length.note == "Kim, 2026-03-02: caliper, three lamps"
    assert not length.is_unsure
    assert catalogue.source_by_key["shop"].kind == "shop"


def test_everything_else_stays_as_shipped(tmp_path: Path) -> None:
    confirm(tmp_path, kind="lamp", of=QUAD, part="length_mm", value=163.5, **BY)
    shipped, mine = load(), load(tmp_path)
    assert mine.bases == shipped.bases
    assert [a.id for a, b in zip(mine.lamps, shipped.lamps, strict=True) if a != b] == [QUAD]
    assert mine.looks == shipped.looks


def test_last_confirmation_of_a_value_counts(tmp_path: Path) -> None:
    for mm in (161, 166):
        confirm(tmp_path, kind="lamp", of=QUAD, part="length_mm", value=mm, **BY)
    length = load(tmp_path).lamp_by_id[QUAD].length_mm
    assert length is not None
    assert length.value == 166
    assert withdraw(tmp_path, kind="lamp", of=QUAD, part="length_mm") == 2
    assert load(tmp_path).lamp_by_id[QUAD] == load().lamp_by_id[QUAD]


@pytest.mark.parametrize("look", ["none", "one-large", "small-left", "small-right", "small-centre", "two-small"])
def test_notches_are_confirmed_by_their_look(tmp_path: Path, look: str) -> None:
    confirm(tmp_path, kind="base", of="GX24q-3", part="face.notches", value=look, **BY)
    base = load(tmp_path).base_by_name["GX24q-3"]
    assert base.face.notches is not None
    assert notch_look(base.face.notches.at) == look
    assert look in base.family_notches
    assert load_catalogue(tmp_path).problems == ()


REDRAWN = [
    ("G24d-1", 24.2, {(-12.1, -4), (12.1, -4)}),
    ("G24q-1", 23.0, {(-11.5, 4), (11.5, 4), (11.5, -4), (-11.5, -4)}),
    ("G24q-1", 7.6, {(-11.3, 3.8), (11.3, 3.8), (11.3, -3.8), (-11.3, -3.8)}),
    ("2G7", 6.8, {(-14.9, 0), (-8.1, 0), (8.1, 0), (14.9, 0)}),
    ("GR10q", 7.2, {(-3.6, 3.6), (3.6, 3.6), (3.6, -3.6), (-3.6, -3.6)}),
]


@pytest.mark.parametrize(("of", "mm", "drawn"), REDRAWN)
def test_pins_are_drawn_as_far_apart_as_measured(
    tmp_path: Path, of: str, mm: float, drawn: set[tuple[float, float]]
) -> None:
    confirm(tmp_path, kind="base", of=of, part="pin_spacing_mm", value=mm, plus_minus=0.2, **BY)
    base = load(tmp_path).base_by_name[of]
    assert {(round(pin.x_mm, 6), round(pin.y_mm, 6)) for pin in base.face.pins.at} == drawn
    assert base.face.pins.confidence == "memory-low"


def test_confirmed_pins_are_not_moved_by_a_spacing(tmp_path: Path) -> None:
    at = [{"x_mm": -12, "y_mm": 0}, {"x_mm": 12, "y_mm": 0}]
    confirm(tmp_path, kind="base", of="G24d-1", part="face.pins", value=at, **BY)
    confirm(tmp_path, kind="base", of="G24d-1", part="pin_spacing_mm", value=24.2, plus_minus=0.1, **BY)
    assert [pin.x_mm for pin in load(tmp_path).base_by_name["G24d-1"].face.pins.at] == [-12, 12]


def test_value_of_a_circuit_that_was_not_known(tmp_path: Path) -> None:
    confirm(tmp_path, kind="lamp", of="2G11/34/long-twin", part="hf.current_a", value=0.4, **BY)
    hf = load(tmp_path).lamp_by_id["2G11/34/long-twin"].hf
    assert hf is not None
    assert hf.current_a is not None
    assert hf.current_a.value == 0.4
    assert hf.power_w is None


VALUES = {
    "sheet": "7004-78",
    "arrangement": "rectangle",
    "block": "yes",
    "pin_spacing_mm": 22.8,
    "starter": "external",
    "face.pins": [{"x_mm": x, "y_mm": y} for x in (-11.4, 11.4) for y in (-4.1, 4.1)],
    "face.outline": {"shape": "rectangle", "width_mm": 34.5, "height_mm": 28},
    "face.pin_diameter_mm": 2.0,
    "face.centre": {"shape": "rectangle", "width_mm": 15, "height_mm": 11, "what": "post"},
    "face.notches": "small-right",
    "glass": "white",
    "tube_mm": 12.2,
    "length_mm": 163,
    "length_also_mm": 175,
    "starts_above_c": 5,
    "dims": "no",
    "uva_w": 1.8,
    "uvb_w": 1.1,
    "mains.power_w": 26,
    "mains.current_a": 0.32,
    "mains.voltage_v": 104,
    "hf.power_w": 24,
    "hf.current_a": 0.3,
    "hf.voltage_v": 81,
    "uvc_w": 2.3,
    "arc_mm": 128,
}


@pytest.mark.parametrize(("kind", "part"), [(kind, part) for kind, parts in PARTS.items() for part in parts])
def test_every_part_can_be_confirmed(tmp_path: Path, kind: str, part: str) -> None:
    lamps = {"uvc_w": "G23/9/twin/uv-c", "arc_mm": "G23/9/twin/uv-c", "uva_w": "G23/9/twin/uv-a"}
    of = "G24q-3" if kind == "base" else (lamps | {"uvb_w": "G23/9/twin/uv-b"}).get(part, QUAD)
    confirm(tmp_path, kind=kind, of=of, part=part, value=VALUES[part], **BY)
    loaded = load_catalogue(tmp_path)
    entry: Any = (loaded.catalogue.base_by_name if kind == "base" else loaded.catalogue.lamp_by_id)[of]
    for step in part.split("."):
        entry = getattr(entry, step)
    assert (entry.confidence, entry.source, loaded.problems) == ("confirmed", "shop", ())


REFUSED = [
    ({"of": "G24q-9/26/quad"}, "of", "no lamp type G24q-9"),
    ({"kind": "base"}, "of", "no base G24q-3/26/quad"),
    ({"part": "weight_g"}, "part", "cannot be confirmed"),
    ({"part": "watts"}, "part", "cannot be confirmed"),
    ({"value": "long"}, "value", "value: "),
    ({"value": 16}, "value", "outside 40 to 3100"),
    ({"part": "glass", "value": "green"}, "value", "no answer to the look"),
    ({"part": "hf.power_w", "value": 260}, "value", "260 W in a lamp of 26 W"),
    ({"kind": "base", "of": "G24q-3", "part": "face.notches", "value": "three"}, "value", "at: "),
    ({"kind": "base", "of": "G24q-3", "part": "face.pins", "value": []}, "value", "4 pins are counted"),
    ({"kind": "base", "of": "G24q-3", "part": "starter", "value": "integral"}, "value", "supply ballast"),
    ({"who": ""}, "who", ""),
    ({"plus_minus": -1}, "plus_minus", "at least 0"),
]


@pytest.mark.parametrize(("changes", "field", "words"), REFUSED)
def test_bad_confirmation_is_named_and_left_out(
    tmp_path: Path, changes: dict[str, Any], field: str, words: str
) -> None:
    good = _row(of="G23/9/twin")
    path = _write(tmp_path, confirmed=[_row(**changes), good])
    as_file = check_file(path)
    catalogue, problems = load_catalogue(tmp_path)
    assert [(problem.path, words in problem.what) for problem in problems] == [(f"confirmed[0].{field}", True)]
    assert catalogue.lamp_by_id[QUAD] == load().lamp_by_id[QUAD]
    length = catalogue.lamp_by_id["G23/9/twin"].length_mm
    assert length is not None
    assert length.confidence == "confirmed"
    assert [(one.path, one.what) for one in as_file] == [(one.path, one.what) for one in problems]


@pytest.mark.parametrize(("changes", "field", "words"), REFUSED)
def test_bad_confirmation_is_never_written(tmp_path: Path, changes: dict[str, Any], field: str, words: str) -> None:
    row = {**_row(**changes), "on": DAY}
    with pytest.raises(ConfirmError) as caught:
        confirm(tmp_path, **row)
    assert words in caught.value.problem.what
    assert caught.value.problem.path.endswith(field)
    assert not (tmp_path / "shop.json").exists()


def _own_lamp(catalogue: Catalogue, **changes: Any) -> dict[str, Any]:
    lamp = catalogue.lamp_by_id[QUAD].model_dump(mode="json", exclude_none=True)
    seen = {"source": "shop", "confidence": "confirmed"}
    return {**lamp, "id": "G24q-3/27/quad", "watts": {"value": 27, **seen}, **changes}


def test_own_lamp_stands_beside_the_shipped_ones(tmp_path: Path) -> None:
    _write(tmp_path, lamps=[_own_lamp(load())], confirmed=[_row(of="G24q-3/27/quad", value=164)])
    catalogue, problems = load_catalogue(tmp_path)
    assert problems == ()
    length = catalogue.lamp_by_id["G24q-3/27/quad"].length_mm
    assert length is not None
    assert length.value == 164
    watts = [value.value for value in catalogue.look_by_key["watts"].values]
    assert watts[watts.index("26") + 1] == "27"


def test_own_base_can_carry_own_lamps(tmp_path: Path) -> None:
    base = load().base_by_name["G24q-3"].model_dump(mode="json", exclude_none=True)
    lamp = _own_lamp(load(), id="G24q-8/27/quad", base="G24q-8")
    _write(tmp_path, bases=[{**base, "designation": "G24q-8"}], lamps=[lamp])
    catalogue, problems = load_catalogue(tmp_path)
    assert problems == ()
    assert catalogue.base_of(catalogue.lamp_by_id["G24q-8/27/quad"]).designation == "G24q-8"


def test_own_entries_with_faults_are_left_out(tmp_path: Path) -> None:
    lamps = [
        _own_lamp(load(), legs=2),
        _own_lamp(load(), base="G77", id="G77/27/quad"),
        _own_lamp(load(), id=QUAD, watts={}),
    ]
    _write(tmp_path, lamps=lamps)
    catalogue, problems = load_catalogue(tmp_path)
    assert {problem.path.partition(".")[0] for problem in problems} == {"lamps[0]", "lamps[1]", "lamps[2]"}
    assert catalogue.lamps == load().lamps


def test_shipped_lamp_is_not_replaced_by_an_own_one(tmp_path: Path) -> None:
    _write(tmp_path, lamps=[load().lamp_by_id[QUAD].model_dump(mode="json", exclude_none=True)])
    catalogue, (problem,) = load_catalogue(tmp_path)
    assert (problem.path, problem.what) == ("lamps[0].id", f"{QUAD} is shipped already")
    assert catalogue.lamps == load().lamps


BROKEN_FILES = {
    "cut off": b'{"format": "lamp-counter/shop", "version": 1, "conf',
    "not text": b"\xff\xfe",
    "another format": b'{"format": "lamp-counter/catalogue", "version": 1}',
    "list": b"[]",
}


@pytest.mark.parametrize("name", BROKEN_FILES)
def test_broken_file_keeps_nobody_from_work(tmp_path: Path, name: str) -> None:
    (tmp_path / "shop.json").write_bytes(BROKEN_FILES[name])
    catalogue, problems = load_catalogue(tmp_path)
    assert catalogue == load()
    assert len(problems) == 1
    assert isinstance(problems[0], Problem)


def test_folder_that_cannot_be_entered_keeps_nobody_from_work(tmp_path: Path) -> None:
    catalogue, (problem,) = load_catalogue(tmp_path / ("a" * 300))  # no name may be that long
    assert catalogue == load()
    assert "cannot be read" in problem.what


@pytest.mark.parametrize("content", [*BROKEN_FILES.values(), b'{"format": "lamp-counter/shop", "confirmed": 3}'])
def test_broken_file_is_left_where_it_is_and_named_beside_what_is_confirmed(tmp_path: Path, content: bytes) -> None:
    (tmp_path / "shop.json").write_bytes(content)
    confirm(tmp_path, kind="lamp", of=QUAD, part="length_mm", value=163, **BY)
    catalogue, problems = load_catalogue(tmp_path)
    assert (tmp_path / "shop.json").read_bytes() == content
    assert len(problems) == 1
    length = catalogue.lamp_by_id[QUAD].length_mm
    assert length is not None
    assert length.value == 163


def test_file_is_taken_over_once_and_a_copy_kept(tmp_path: Path) -> None:
    bad = _row(of="nothing", value=[1])
    path = _write(tmp_path, confirmed=[bad, _row()], lamps=[{"id": "half written"}])
    before = path.read_bytes()
    for _ in range(2):
        confirm(tmp_path, kind="lamp", of="G23/9/twin", part="length_mm", value=163, **BY)
        close_all()
        path.write_bytes(before)  # as an older program on another till would
    content = layer(open_store(tmp_path)).content
    assert [one["of"] for one in content["confirmed"]] == ["nothing", QUAD, "G23/9/twin", "G23/9/twin"]
    assert content["lamps"] == [{"id": "half written"}]
    assert {kept.read_bytes() for kept in (tmp_path / "taken-over").glob("shop*.json")} == {before}


def test_file_of_a_newer_program_is_left_alone(tmp_path: Path) -> None:
    path = _write(tmp_path, version=2)
    before = path.read_bytes()
    catalogue, (problem,) = load_catalogue(tmp_path)
    assert catalogue == load()
    assert problem.what == "version 2 is newer than this program"
    assert path.read_bytes() == before


def test_store_that_cannot_be_used_keeps_nobody_from_work(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("COUNTER_STORE", "postgresql://clerk@127.0.0.1:9/shop")
    catalogue, (problem,) = load_catalogue(tmp_path)
    assert catalogue == load()
    assert "cannot be reached" in problem.what
    with pytest.raises(StoreProblem):
        confirm(tmp_path, kind="lamp", of=QUAD, part="length_mm", value=163, **BY)


def test_plain_question_makes_no_store(tmp_path: Path) -> None:
    load_catalogue(tmp_path)
    assert not list(tmp_path.iterdir())


_CONFIRMING = """
import sys
from datetime import date
from pathlib import Path
from counter.shop import confirm
for mm in range(int(sys.argv[2])):
    confirm(Path(sys.argv[1]), kind="lamp", of="G24q-3/26/quad", part="length_mm", value=160 + mm / 10, who="Kim",
            on=date(2026, 3, 2), how="caliper")
"""


def test_two_tills_confirm_at_once_and_every_one_is_kept(shop_data: Path) -> None:
    """Of two processes with 40 confirmations each, 44 of 80 were kept while they lay in one file."""
    env = os.environ | {"PYTHONPATH": str(Path(counter.__file__).parents[1])}
    tills = [subprocess.Popen([sys.executable, "-c", _CONFIRMING, shop_data, "40"], env=env) for _ in range(2)]
    assert [till.wait() for till in tills] == [0, 0]
    assert len(layer(open_store(shop_data)).content["confirmed"]) == 80


def test_a_file_with_half_a_character_is_taken_over_with_a_sign_in_its_place(tmp_path):
    entry = {"kind": "lamp", "of": QUAD, "part": "length_mm", "value": 163.5, "who": "A\ud800a", "on": "2026-01-05"}
    document = {"format": "lamp-counter/shop", "version": 1, "confirmed": [{**entry, "how": "with a caliper"}]}
    (tmp_path / "shop.json").write_text(json.dumps(document), "ascii")
    load_catalogue(tmp_path)
    (kept,) = layer(open_store(tmp_path)).content["confirmed"]
    assert kept["who"] == "A?a"
