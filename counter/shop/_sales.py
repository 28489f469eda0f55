"""A shop's own sales as the prior of identifying and reading: what it sells often is what comes over its counter."""

from __future__ import annotations

from typing import TYPE_CHECKING

from counter import identify

if TYPE_CHECKING:
    from collections.abc import Mapping

    from counter.catalogue import Catalogue, Lamp


def weighed_by_sales(catalogue: Catalogue, sold: Mapping[str, int]) -> Catalogue:
    """Return a catalogue whose prevalence is the shipped one with the shop's slips counted onto it.

    A Dirichlet count: the shipped shares weigh as many sales as `identify.prior` says, each slip one. A germicidal
    lamp is never thought rarer than the lamp for light that it is taken for, however many of those were sold.
    """
    if not any(lamp in catalogue.lamp_by_id for lamp in sold):
        return catalogue
    shares = dict(identify.prior(catalogue, sold))
    white = _of_white(catalogue, shares)
    for lamp in catalogue.lamps:
        if lamp.kind == "uv-c":
            shares[lamp.id] = max(shares[lamp.id], white.get(_twin(lamp), 0.0))
    total = sum(shares.values())
    made = catalogue.model_copy()  # its bases and lamps are the same, and so is all that was worked out from them
    made.__dict__["prevalence"] = {lamp: share / total for lamp, share in shares.items()}
    return made


def _of_white(catalogue: Catalogue, shares: Mapping[str, float]) -> dict[tuple[str, float], float]:
    white: dict[tuple[str, float], float] = {}
    for lamp in catalogue.lamps:
        if not lamp.is_ultraviolet:
            white[_twin(lamp)] = max(white.get(_twin(lamp), 0.0), shares[lamp.id])
    return white


def _twin(lamp: Lamp) -> tuple[str, float]:
    return lamp.base, lamp.watts.value
