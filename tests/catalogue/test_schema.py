"""The exported schemas are those of the models, and say what the models refuse."""

from __future__ import annotations

import json

import pytest

from counter import paths
from counter.catalogue import Catalogue, load, schemas

FOLDER = paths.resources() / "schema"


@pytest.mark.parametrize("name", ["catalogue.schema.json", "shop.schema.json"])
def test_schema_file_is_current(name: str) -> None:
    assert (FOLDER / name).read_bytes() == schemas()[name], "run .venv/bin/python packaging/schema"


def test_no_schema_file_is_left_over() -> None:
    assert {path.name for path in FOLDER.iterdir()} >= schemas().keys()


def test_catalogue_schema_holds_the_shipped_file() -> None:
    schema = json.loads((FOLDER / "catalogue.schema.json").read_text("utf-8"))
    raw = json.loads((paths.resources() / "catalogue.json").read_text("utf-8"))
    assert schema["properties"].keys() == raw.keys()
    assert set(schema["required"]) <= raw.keys()
    for section, name in (("bases", "Base"), ("lamps", "Lamp"), ("looks", "Look"), ("sources", "Source")):
        definition = schema["$defs"][name]
        assert schema["properties"][section]["items"] == {"$ref": f"#/$defs/{name}"}
        assert definition["additionalProperties"] is False
        used = {key for entry in raw[section] for key in entry}
        assert used <= definition["properties"].keys()
        assert all(set(definition["required"]) <= entry.keys() for entry in raw[section])


def test_written_catalogue_reads_back_alike() -> None:
    catalogue = load()
    assert Catalogue.model_validate_json(catalogue.model_dump_json()) == catalogue
