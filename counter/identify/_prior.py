"""How likely each lamp type is before anything is looked at: how often a counter meets it, or what the shop sold."""

from __future__ import annotations

from types import MappingProxyType
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping

    from counter.catalogue import Catalogue

WORTH_SALES = 50  # sales after which a shop's own count weighs as much as the words of the catalogue; a judgement
NONE_SOLD: Mapping[str, int] = MappingProxyType({})


def prior(catalogue: Catalogue, sold: Mapping[str, int] = NONE_SOLD) -> Mapping[str, float]:
    """Return the chance of every lamp type by id, summing to 1, with nothing known.

    `sold` counts the shop's own sales or slips by lamp id. Each sale overrides a little of what the catalogue says
    in words; ids that it does not hold are passed over.
    """
    shares = catalogue.prevalence
    counted = {lamp: count for lamp, count in sold.items() if lamp in shares and count > 0}
    if not counted:
        return shares
    total = WORTH_SALES + sum(counted.values())
    return {lamp: (WORTH_SALES * share + counted.get(lamp, 0)) / total for lamp, share in shares.items()}
