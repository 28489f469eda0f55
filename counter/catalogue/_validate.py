"""Hold JSON against a model: what is wrong, in plain words, and the entries of each list that are sound."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any, TypeVar

from pydantic import ValidationError

from counter.catalogue._problems import Finding, shown
from counter.language import figure, marked, tr

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pydantic_core import ErrorDetails

    from counter.catalogue._models import Model

M = TypeVar("M", bound="Model")

_OBJECT = (marked("must be an object in curly brackets, not {input}"), marked("Write an object in curly brackets."))
_LIST = (marked("must be a list in [ ], not {input}"), marked("Write a list in [ ]."))
_WHOLE = (marked("must be a whole number, not {input}"), marked("Write a whole number."))
_DAY = (marked("{input} is no day"), marked("Write it as 2026-11-29."))
# What is wrong and the way out, by pydantic's name for it.
_WORDS = {
    "missing": (marked("this field is missing"), marked("Add it.")),
    "extra_forbidden": (marked("no field has this name"), marked("Correct its spelling or remove it.")),
    "literal_error": (marked("{input} is not one of the words allowed here"), marked("Write one of {words}.")),
    "json_invalid": (
        marked("the text cannot be read as JSON in full"),
        marked("Correct the problems beside this one."),
    ),
    "string_type": (marked("must be text in quotes, not {input}"), marked("Write text in quotes.")),
    "int_type": _WHOLE,
    "int_from_float": _WHOLE,
    "float_type": (marked("must be a number, not {input}"), marked("Write a number.")),
    "bool_type": (marked("must be true or false, not {input}"), marked("Write true or false.")),
    "list_type": _LIST,
    "tuple_type": _LIST,
    "dict_type": _OBJECT,
    "model_type": _OBJECT,
    "date_type": _DAY,
    "date_parsing": _DAY,
    "date_from_datetime_parsing": _DAY,
    "greater_than": (marked("{input} must be above {limit}"), marked("Correct the number.")),
    "greater_than_equal": (marked("{input} must be at least {limit}"), marked("Correct the number.")),
    "less_than": (marked("{input} must be below {limit}"), marked("Correct the number.")),
    "less_than_equal": (marked("{input} must be at most {limit}"), marked("Correct the number.")),
    "string_too_short": (marked("too short: at least {limit} characters"), marked("Write it in full.")),
    "string_too_long": (marked("too long: at most {limit} characters"), marked("Say it in fewer words.")),
    "string_pattern_mismatch": (
        marked("{input} is not written as it must be"),
        marked("Use small letters, as nz or us-tx."),
    ),
    "too_short": (marked("too few: at least {limit}"), marked("Add what is missing.")),
}
_LIMITS = ("gt", "ge", "lt", "le", "min_length", "max_length")


def findings_of(model: type[Model], data: Any) -> list[Finding]:
    """Return everything that keeps JSON data from being a `model`; types are taken strictly, "23" is no number."""
    try:
        model.model_validate_json(json.dumps(data), strict=True)
    except ValidationError as error:
        return findings_from(error)
    return []


def findings_from(error: ValidationError) -> list[Finding]:
    """Return what pydantic has against some data, in our words."""
    return [_finding(detail) for detail in error.errors(include_url=False)]


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
    if kind not in _WORDS:
        return shown(error["msg"]), tr("Correct the value.")
    context = error.get("ctx", {})
    filled = {
        "input": _said(error["input"]),
        "limit": next((figure(context[name]) for name in _LIMITS if name in context), ""),
        "words": str(context.get("expected", "")).replace(" or ", ", "),
    }
    what, way_out = _WORDS[kind]
    return tr(what).format(**filled), tr(way_out).format(**filled)


def _said(value: object) -> str:
    if isinstance(value, dict):
        return tr("an object")
    if isinstance(value, list):
        return tr("a list")
    return shown(json.dumps(value, ensure_ascii=False, default=str), 40)
