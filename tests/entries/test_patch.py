"""What was added goes back into the shipped files by a patch that other programs apply."""

from __future__ import annotations

import json
import shutil
import subprocess
from itertools import pairwise

import pytest

from counter import entries, paths
from counter.catalogue import Catalogue, check_text, load, merge_patch, merge_patched

SHOP = {"source": "shop", "confidence": "confirmed"}
LAYER = {
    "bases": [
        {
            "designation": "GZ77",
            "family": "GZ77",
            "pins": {"value": 2, **SHOP},
            "supply": "ballast",
            "mount": "push",
            "hold": "Pins toward you.",
            "tell": "Two pins.",
            "added": {"who": "Kim", "on": "2026-03-02"},
        }
    ],
    "lamps": [
        {
            "id": "GZ77/7.7/twin",
            "base": "GZ77",
            "watts": {"value": 7.7, **SHOP},
            "kind": "fluorescent",
            "shape": "twin",
            "legs": 2,
            "ballasts": ["magnetic"],
            "ballasts_from": SHOP,
        }
    ],
    "changed": [{"kind": "lamp", "of": "G23/9/twin", "to": {"length_mm": {"value": 160, "note": None, **SHOP}}}],
    "confirmed": [
        {
            "kind": "base",
            "of": "GX24q-3",
            "part": "face.notches",
            "value": "small-left",
            "who": "Kim",
            "on": "2026-03-02",
            "how": "seen on four lamps",
        }
    ],
    "cautions": [
        {"rule": "pins-two-in-four", "says": "NEVER {base} in {holder}.", "why": "They fight.", "do": "Stop."}
    ],
    "words": [{"word": "Nordrau"}, {"word": "germicidal"}],
}


def applied(tmp_path, patch):
    tree = tmp_path / "tree"
    shutil.copytree(paths.resources(), tree / "resources", ignore=shutil.ignore_patterns("*.mo", "*.po"))
    file = tmp_path / "shop.patch"
    file.write_text(patch, encoding="utf-8")
    subprocess.run(["git", "apply", str(file)], cwd=tree, check=True)
    return tree / "resources"


def test_the_patch_applies_and_the_files_are_sound_with_it(tmp_path):
    folder = applied(tmp_path, entries.patch_of(LAYER))
    text = (folder / "catalogue.json").read_text(encoding="utf-8")
    assert check_text(text) == ()
    made = Catalogue.model_validate_json(text)
    assert made.lamp_by_id["G23/9/twin"].length_mm.value == 160
    assert made.lamp_by_id["GZ77/7.7/twin"].base == "GZ77"
    assert len(made.base_by_name["GX24q-3"].face.notches.at) == 1
    cautions = json.loads((folder / "cautions.json").read_text(encoding="utf-8"))
    assert cautions["rules"]["pins-two-in-four"]["says"] == "NEVER {base} in {holder}."
    words = json.loads((folder / "words.json").read_text(encoding="utf-8"))["topics"]["harmless"]["words"]["en"]
    assert "Nordrau" in words
    assert "germicidal" not in words


def test_everything_that_was_not_changed_stays_as_it_is_written():
    lines = entries.patch_of({"changed": LAYER["changed"]}).splitlines()
    gone = [line for line in lines if line.startswith("-") and not line.startswith("---")]
    assert len(gone) <= 6
    assert all("plus_minus" not in line for line in gone)


def test_no_name_of_a_person_leaves_the_shop():
    patch = entries.patch_of(LAYER)
    assert "Kim" not in patch
    assert "2026-03-02: seen on four lamps" in patch


def test_a_layer_that_adds_nothing_has_no_patch():
    assert entries.patch_of({}) == ""


def test_the_patch_names_no_source_that_only_a_shop_has():
    assert '"shop"' not in entries.patch_of(LAYER)
    assert '"confirmed"' not in entries.patch_of(LAYER)


@pytest.mark.parametrize(
    ("target", "patch", "result"),
    [
        ({"a": "b"}, {"a": "c"}, {"a": "c"}),
        ({"a": "b"}, {"b": "c"}, {"a": "b", "b": "c"}),
        ({"a": "b"}, {"a": None}, {}),
        ({"a": "b", "b": "c"}, {"a": None}, {"b": "c"}),
        ({"a": ["b"]}, {"a": "c"}, {"a": "c"}),
        ({"a": "c"}, {"a": ["b"]}, {"a": ["b"]}),
        ({"a": {"b": "c"}}, {"a": {"b": "d", "c": None}}, {"a": {"b": "d"}}),
        ({"a": [{"b": "c"}]}, {"a": [1]}, {"a": [1]}),
        (["a", "b"], ["c", "d"], ["c", "d"]),
        ({"a": "b"}, ["c"], ["c"]),
        ({"a": "foo"}, "bar", "bar"),
        ({"e": None}, {"a": 1}, {"e": None, "a": 1}),
        ([1, 2], {"a": "b", "c": None}, {"a": "b"}),
        ({}, {"a": {"bb": {"ccc": None}}}, {"a": {"bb": {}}}),
    ],
)
def test_merge_patches_as_the_standard_shows_them(target, patch, result):
    """RFC 7386, appendix A: all its cases but those whose target or patch is null alone."""
    assert merge_patched(target, patch) == result


def test_a_patch_of_two_entries_makes_one_of_the_other():
    bases = [entries.begin("bases", load(), name) for name in load().base_by_name]
    for old, new in pairwise(bases):
        assert merge_patched(old, merge_patch(old, new)) == new


def test_places_and_law_become_rows_with_their_text_as_a_source(tmp_path):
    law = {
        "place": "xx-no",
        "classes": ["pin-base"],
        "what": "sale of new lamps",
        "ends": "2027-01-01",
        "law": "Lamp Act, section 9",
        "read": "2026-03-02",
        "read_as": "summary",
        "added": {"who": "Kim", "on": "2026-03-02"},
    }
    layer = {"places": [{"code": "xx-no", "name": "Nordmark"}], "law": [law]}
    patch = entries.patch_of(layer)
    assert "Kim" not in patch
    table = json.loads((applied(tmp_path, patch) / "law.json").read_text(encoding="utf-8"))
    assert table["places"][-1] == {"id": "xx-no", "name": "Nordmark"}
    row = table["rows"][-1]
    assert (row["place"], row["ends"], row["confidence"]) == ("xx-no", "2027-01-01", "reproduced")
    source = next(one for one in table["sources"] if one["key"] == row["source"])
    assert source["title"] == "Lamp Act, section 9"
