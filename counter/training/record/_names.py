"""The words for what answers are about: no rule or look goes by the name that files use."""

from __future__ import annotations

from typing import TYPE_CHECKING

from counter.language import tr
from counter.marks import spoken
from counter.training._settings import settings, words

if TYPE_CHECKING:
    from counter.catalogue import Catalogue
    from counter.training.record._confusion import Mix

DO_NOT_KNOW = "do not know"  # as records have it


def rule_name(rule: str) -> str:
    """Return a few words for a rule of caution; of one that has none yet, only that it is a caution."""
    name = settings().rule_names.get(rule.removesuffix("-no-figure"))
    return tr(name) if name is not None else tr("another caution")


def label_name(catalogue: Catalogue, axis: str, value: str) -> str:
    """Return the words for one value that was asked or said; bases and codes are their own names."""
    if axis == "caution":
        return rule_name(value)
    if axis == "look":
        look = catalogue.look_by_key.get(value)
        return tr(look.label) if look is not None else tr("another look")
    return words().get(value, spoken(value))


def mix_words(catalogue: Catalogue, mix: Mix) -> str:
    """Say one mix-up: what was right, what was said."""
    asked, said = (label_name(catalogue, mix.axis, one) for one in (mix.asked, mix.said))
    return tr("{asked} taken for {said}").format(asked=_quoted(mix.axis, asked), said=_quoted(mix.axis, said))


def _quoted(axis: str, words: str) -> str:
    return words if axis in ("family", "code") else tr("“{words}”").format(words=words)
