"""What a shop says once and for all: words that say nothing of a lamp, and cautions in words of its own."""

from __future__ import annotations

from typing import TYPE_CHECKING

from counter import fit, words

if TYPE_CHECKING:
    from collections.abc import Iterable

    from counter.catalogue import Catalogue
    from counter.desk._case import Case
    from counter.desk._doubts import Doubt
    from counter.fit import Caution, Replacement


def as_shop_reads(catalogue: Catalogue, case: Case) -> Case:
    """Return a case in which the words that the shop has read for good are read; never such as speak of danger."""
    read = tuple(one for one in catalogue.own_words if not words.danger_in(one))
    if not read:
        return case
    fixture = case.fixture.model_copy(update={"explained": (*case.fixture.explained, *read)})
    return case.model_copy(update={"explained": (*case.explained, *read), "fixture": fixture})


def doubts_in_own_words(catalogue: Catalogue, doubts: Iterable[Doubt]) -> tuple[Doubt, ...]:
    """Return doubts whose cautions speak as the shop does."""
    if not catalogue.own_texts:
        return tuple(doubts)
    return tuple(
        one if one.caution is None else _said(one, fit.in_own_words(catalogue, [one.caution])[0]) for one in doubts
    )


def _said(doubt: Doubt, caution: Caution) -> Doubt:
    """Return a doubt with its caution in other words; it says what the caution says, where it said that before."""
    assert doubt.caution is not None
    says = caution.says if doubt.says == doubt.caution.says else doubt.says
    return doubt.model_copy(update={"caution": caution, "says": says})


def offers_in_own_words(catalogue: Catalogue, offered: tuple[Replacement, ...]) -> tuple[Replacement, ...]:
    """Return what may go in instead, its cautions as the shop says them."""
    if not catalogue.own_texts:
        return offered
    return tuple(
        one.model_copy(update={"cautions": fit.in_own_words(catalogue, one.cautions)}) if one.cautions else one
        for one in offered
    )
