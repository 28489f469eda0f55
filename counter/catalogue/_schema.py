"""The JSON Schemas of our files, made from the models."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

from counter.catalogue._models import Catalogue
from counter.catalogue._shop import Shop

if TYPE_CHECKING:
    from counter.catalogue._models import Model

MODELS: dict[str, tuple[type[Model], str]] = {
    "catalogue": (Catalogue, "Lamp counter: catalogue"),
    "shop": (Shop, "Lamp counter: the shop's own layer"),
}


def schemas() -> dict[str, bytes]:
    """Return the schema files by name, as they lie in resources/schema/."""
    return {f"{name}.schema.json": _written(model, title) for name, (model, title) in MODELS.items()}


def _written(model: type[Model], title: str) -> bytes:
    dialect = {"$schema": "https://json-schema.org/draft/2020-12/schema"}
    schema = {**dialect, **model.model_json_schema(), "title": title}
    return (json.dumps(schema, indent=1, ensure_ascii=False) + "\n").encode()
