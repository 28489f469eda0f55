"""Hold JSON against a model: what is wrong, in plain words, and the entries of each list that are sound."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any, TypeVar

from pydantic import ValidationError

from counter.catalogue._problems import Finding, shown

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pydantic_core import ErrorDetails

    from counter.catalogue._models import Model

M = TypeVar("M", bound="Model")

_KINDS = {
    "string_type": "text in quotes",
    "int_type": "a whole number",
    "float_type": "a number",
    "list_type": "a list in [ ]",
    "tuple_type": "a list in [ ]",
    "dict_type": "an object in { }",
    "model_type": "an object in { }",
}
_LIMITS = {
    "greater_than": ("above", "gt"),
    "greater_than_equal": ("at least", "ge"),
    "less_than": ("below", "lt"),
    "less_than_equal": ("at most", "le"),
}


def findings_of(model: type[Model], data: Any) -> list[Finding]:
    """Return everything that keeps JSON data from being a `model`; types are taken strictly, "23" is no number."""
    try:
        model.model_validate_json(json.dumps(data), strict=True)
    except ValidationError as error:
        return [_finding(detail) for detail in error.errors(include_url=False)]
    return []


def sound(model: type[M], data: Any, section: str, findings: list[Finding]) -> list[tuple[int, M]]:
    """Return the entries of one list, with their index, that none of the findings lies in."""
    entries = data.get(section)
    if not isinstance(entries, list):
        return []
    broken = {finding.loc[1] for finding in findings if len(finding.loc) > 1 and finding.loc[0] == section}
    return list(_entries(model, entries, broken))


def _entries(model: type[M], entries: list[Any], broken: set[Any]) -> Iterator[tuple[int, M]]:
    for index, entry in enumerate(entries):
        if index in broken:
            continue
        try:
            yield index, model.model_validate_json(json.dumps(entry), strict=True)
        except ValidationError:  # text that cannot be written; reading the file has named it
            continue


def _finding(error: ErrorDetails) -> Finding:
    kind, loc = error["type"], error["loc"]
    what, way_out = _words(kind, error)
    if kind == "json_invalid":
        return Finding((), what, way_out)
    return Finding(loc, what, way_out)


def _words(kind: str, error: ErrorDetails) -> tuple[str, str]:
    context = error.get("ctx", {})
    if kind == "missing":
        return "this field is missing", "Add it."
    if kind == "extra_forbidden":
        return "no field has this name", "Mend its spelling or remove it."
    if kind in _KINDS:
        return f"must be {_KINDS[kind]}, not {_said(error['input'])}", f"Write {_KINDS[kind]}."
    if kind in _LIMITS:
        word, key = _LIMITS[kind]
        return f"{_said(error['input'])} must be {word} {context[key]:g}", "Mend the number."
    if kind == "literal_error":
        return f"{_said(error['input'])} is not one of the words allowed here", f"Write {context['expected']}."
    if kind == "json_invalid":
        return "the text cannot be read as JSON in full", "Mend the problems beside this one."
    return shown(error["msg"]), "Mend the value."


def _said(value: object) -> str:
    if isinstance(value, dict):
        return "an object"
    if isinstance(value, list):
        return "a list"
    return shown(json.dumps(value, ensure_ascii=False, default=str), 40)
