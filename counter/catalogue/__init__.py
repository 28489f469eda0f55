"""What is known, with its source: models, loading, the shop's own layer over the shipped one, checking.

May import the standard library, pydantic, counter.paths and counter.files; nothing else of counter.
Checking and the shop's layer are imported when first asked for (26 ms): a start without a layer needs neither.
"""

from typing import TYPE_CHECKING, Any

from counter.catalogue._designation import Designation, parse_designation, parse_designations, words_beside
from counter.catalogue._load import SHOP_FILE, Loaded, load, load_file, load_with_problems
from counter.catalogue._models import (
    TRUST,
    UNSURE,
    Arrangement,
    Base,
    Catalogue,
    Centre,
    Circuit,
    Confidence,
    Edition,
    Face,
    Figure,
    Kind,
    Lamp,
    LampShape,
    Look,
    LookValue,
    Model,
    Notch,
    Notches,
    Outline,
    Pin,
    Pins,
    Source,
    Sourced,
    Word,
    notch_look,
)

if TYPE_CHECKING:
    from counter.catalogue._check import Checker, check_file, check_shipped, check_text
    from counter.catalogue._merge import Conflict, Layer, conflicts, content_of, layer_of, merged
    from counter.catalogue._problems import Finding, Problem, check_report, report_text, shown
    from counter.catalogue._schema import schemas
    from counter.catalogue._shop import PARTS, Confirmed, Shop, confirmations
    from counter.catalogue._shop_file import ConfirmError, empty_layer, read_layer, refuse_bad
    from counter.catalogue._tally import share_read, sources_report, sources_text
    from counter.catalogue._validate import findings_of

_LATER = {
    "Checker": "_check",
    "check_file": "_check",
    "check_shipped": "_check",
    "check_text": "_check",
    "Finding": "_problems",
    "Problem": "_problems",
    "check_report": "_problems",
    "report_text": "_problems",
    "shown": "_problems",
    "Conflict": "_merge",
    "Layer": "_merge",
    "conflicts": "_merge",
    "content_of": "_merge",
    "layer_of": "_merge",
    "merged": "_merge",
    "schemas": "_schema",
    "PARTS": "_shop",
    "Confirmed": "_shop",
    "confirmations": "_shop",
    "Shop": "_shop",
    "ConfirmError": "_shop_file",
    "empty_layer": "_shop_file",
    "read_layer": "_shop_file",
    "refuse_bad": "_shop_file",
    "share_read": "_tally",
    "sources_report": "_tally",
    "sources_text": "_tally",
    "findings_of": "_validate",
}

__all__ = [
    "PARTS",
    "SHOP_FILE",
    "TRUST",
    "UNSURE",
    "Arrangement",
    "Base",
    "Catalogue",
    "Centre",
    "Checker",
    "Circuit",
    "Confidence",
    "ConfirmError",
    "Confirmed",
    "Conflict",
    "Designation",
    "Edition",
    "Face",
    "Figure",
    "Finding",
    "Kind",
    "Lamp",
    "LampShape",
    "Layer",
    "Loaded",
    "Look",
    "LookValue",
    "Model",
    "Notch",
    "Notches",
    "Outline",
    "Pin",
    "Pins",
    "Problem",
    "Shop",
    "Source",
    "Sourced",
    "Word",
    "check_file",
    "check_report",
    "check_shipped",
    "check_text",
    "confirmations",
    "conflicts",
    "content_of",
    "empty_layer",
    "findings_of",
    "layer_of",
    "load",
    "load_file",
    "load_with_problems",
    "merged",
    "notch_look",
    "parse_designation",
    "parse_designations",
    "read_layer",
    "refuse_bad",
    "report_text",
    "schemas",
    "share_read",
    "shown",
    "sources_report",
    "sources_text",
    "words_beside",
]

if not TYPE_CHECKING:  # a type checker would take any name for one that exists

    def __getattr__(name: str) -> Any:
        if name not in _LATER:
            raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
        from importlib import import_module

        return getattr(import_module(f"{__name__}.{_LATER[name]}"), name)
