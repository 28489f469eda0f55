"""Loading: the public names, what a start imports, and nonsense in any place of a file."""

from __future__ import annotations

import json
import random
import subprocess
import sys
from typing import TYPE_CHECKING, Any

import pytest

import counter.catalogue
from counter import paths
from counter.catalogue import check_file, load_with_problems, read_layer

if TYPE_CHECKING:
    from pathlib import Path

NONSENSE = (None, True, -1, 0, 1e300, "", "none", "\u202e", [], {}, [[]], {"a": {}}, [None], "9" * 300)


@pytest.mark.parametrize("name", counter.catalogue.__all__)
def test_public_name_is_there(name: str) -> None:
    assert getattr(counter.catalogue, name) is not None


def test_other_names_are_not() -> None:
    with pytest.raises(AttributeError, match="no attribute 'nothing'"):
        _ = counter.catalogue.nothing  # type: ignore[attr-defined]


def test_a_start_imports_neither_checking_nor_the_shops_layer() -> None:
    code = "import sys, counter.catalogue as c; c.load(); print(*(m for m in sys.modules if m.startswith('counter')))"
    root = paths.resources().parent
    done = subprocess.run([sys.executable, "-c", code], cwd=root, capture_output=True, text=True, check=True)
    loaded = {name.removeprefix("counter.catalogue.") for name in done.stdout.split()}
    assert {"_load", "_models"} <= loaded
    assert loaded.isdisjoint({"_check", "_rules", "_shop", "_shop_file", "_document", "_schema"})


def _places(value: Any, way: tuple[Any, ...] = ()) -> list[tuple[Any, ...]]:
    inner = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    return [place for key, one in inner for place in [(*way, key), *_places(one, (*way, key))]]


def _spoiled(data: Any, place: tuple[Any, ...], value: object) -> Any:
    copy = json.loads(json.dumps(data))
    target = copy
    for step in place[:-1]:
        target = target[step]
    target[place[-1]] = value
    return copy


@pytest.mark.slow
def test_nonsense_anywhere_in_a_catalogue_is_never_a_traceback(tmp_path: Path) -> None:
    data = json.loads((paths.resources() / "catalogue.json").read_text("utf-8"))
    dice, places, path = random.Random(7), _places(data), tmp_path / "catalogue.json"
    for _ in range(200):
        path.write_text(json.dumps(_spoiled(data, dice.choice(places), dice.choice(NONSENSE))), "utf-8")
        assert all(problem.way_out for problem in check_file(path))


def test_nonsense_anywhere_in_a_shop_file_is_never_a_traceback(tmp_path: Path) -> None:
    rows = [("G24q-3", "face.notches", "small-left"), ("G24q-3", "face.outline", {"shape": "circle", "width_mm": 3})]
    by = {"who": "Kim", "on": "2026-03-02", "how": "seen"}
    confirmed = [{"kind": "base", "of": of, "part": part, "value": value, **by} for of, part, value in rows]
    lamp = counter.catalogue.load().lamps[0].model_dump(mode="json")
    data = {"format": "lamp-counter/shop", "version": 1, "confirmed": confirmed, "bases": [], "lamps": [lamp]}
    dice, places, path = random.Random(7), _places(data), tmp_path / "shop.json"
    for _ in range(60):
        path.write_text(json.dumps(_spoiled(data, dice.choice(places), dice.choice(NONSENSE))), "utf-8")
        assert all(problem.way_out for problem in load_with_problems(read_layer(path)).problems)
