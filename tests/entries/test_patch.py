"""What was added goes back into the shipped files by a patch that other programs apply."""

from __future__ import annotations

import json
import shutil
import subprocess
from itertools import pairwise

import pytest

from counter import entries, paths
from counter.catalogue import Catalogue, check_file, check_text, load, merge_patch, merge_patched
from counter.entries._patch_law import disposal_with, law_with

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


APPLY = next((one for one in (("git", "apply"), ("patch", "-p1", "-i")) if shutil.which(one[0])), None)


def applied(tmp_path, patch):
    if APPLY is None:
        pytest.skip("neither git nor patch is here")
    tree = tmp_path / "tree"
    shutil.copytree(paths.resources(), tree / "resources", ignore=shutil.ignore_patterns("*.mo", "*.po"))
    file = tmp_path / "shop.patch"
    file.write_text(patch, encoding="utf-8")
    subprocess.run([*APPLY, str(file)], cwd=tree, check=True, stdout=subprocess.DEVNULL)
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


READ = {"law": "Lamp Act, section 9", "read": "2026-03-02", "read_as": "summary"}
BY_KIM = {"added": {"who": "Kim", "on": "2026-03-02"}}
PLACE = {"places": [{"code": "xx-no", "name": "Nordmark", **BY_KIM}]}
ENDS = {
    "place": "xx-no",
    "classes": ["pin-base"],
    "what": "sale of new lamps",
    "ends": "2027-01-01",
    **READ,
    **BY_KIM,
}
USED = {"place": "xx-no", "title": "Where to", "text": "To the yard.", **READ, **BY_KIM}
# What each kind of entry, on what it needs, puts into which shipped table: the list, and what its row says.
KINDS = {
    "bases": ({}, "catalogue.json", ("bases",), {"designation": "GZ77"}),
    "lamps": ({"bases": LAYER["bases"]}, "catalogue.json", ("lamps",), {"id": "GZ77/7.7/twin"}),
    "cautions": ({}, "cautions.json", ("rules", "pins-two-in-four"), {"why": "They fight."}),
    "words": ({}, "words.json", ("topics", "harmless", "words", "en"), "Nordrau"),
    "places": (PLACE, "law.json", ("places",), {"id": "xx-no", "name": "Nordmark"}),
    "law": (
        PLACE | {"law": [ENDS]},
        "law.json",
        ("rows",),
        {"place": "xx-no", "ends": "2027-01-01", "confidence": "reproduced", "source": "own-rows-1"},
    ),
    "disposal": (
        PLACE | {"disposal": [USED]},
        "disposal.json",
        ("notes",),
        {"places": ["xx-no"], "confidence": "reproduced", "read": "2026-03-02", "source": "own-notes-1"},
    ),
}


@pytest.mark.parametrize("kind", entries.kinds(), ids=lambda one: one.section)
def test_every_kind_goes_into_the_shipped_files_and_they_check(tmp_path, kind):
    under, name, where, said = KINDS[kind.section]
    layer = {kind.section: LAYER.get(kind.section, []), **under}
    patch = entries.patch_of(layer)
    assert "Kim" not in patch
    folder = applied(tmp_path, patch)
    assert [one for file in folder.glob("*.json") for one in check_file(file) if "format" not in one.path] == []
    found = json.loads((folder / name).read_text(encoding="utf-8"))
    for step in where:
        found = found[step]
    rows = found if isinstance(found, list) else [found]
    assert any(row == said or (isinstance(said, dict) and said.items() <= row.items()) for row in rows)


def test_a_row_names_the_text_it_rests_on_and_comes_once(tmp_path):
    layer = PLACE | {"law": [ENDS], "disposal": [USED]}
    folder = applied(tmp_path, entries.patch_of(layer))
    for name, with_it in (("law", law_with), ("disposal", disposal_with)):
        text = (folder / f"{name}.json").read_text(encoding="utf-8")
        assert [one["title"] for one in json.loads(text)["sources"]] == [READ["law"]]
        assert with_it(text, layer) == text


def test_law_of_a_place_that_is_not_there_is_not_handed_back():
    assert entries.patch_of({"law": [ENDS], "disposal": [USED]}) == ""
