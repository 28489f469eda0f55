"""Bayes over lamp types: what all looks and marks together say of each."""

from __future__ import annotations

from itertools import compress
from operator import mul
from types import MappingProxyType
from typing import TYPE_CHECKING

from counter.identify._models import Candidate
from counter.identify._parse import CANNOT_TELL, parse_look
from counter.identify._tables import Tables, tables_of

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from counter.catalogue import Catalogue, Lamp
    from counter.identify._heard import Heard

MARKS = "marks"
HALF = 0.5  # marks agree with a lamp that they make at least half as likely as their best one
LEAST = 1e-12  # of the best: evidence or a prior of zero would strike a lamp out for good
_NONE: Mapping[str, float] = MappingProxyType({})

Keys = tuple[str, ...]
Verdicts = dict[str, list[bool | None]]  # by look, in catalogue order of lamps


def rank(
    catalogue: Catalogue,
    looks: Mapping[str, str | float],
    likelihood: Mapping[str, float] = _NONE,
    floor: float = 1.0,
    prior: Mapping[str, float] | None = None,
) -> tuple[Candidate, ...]:
    """Return every lamp type, most probable first; the probabilities sum to 1.

    `looks` are answers by look key, "cannot-tell" saying nothing. `likelihood` is what the marks say by lamp id,
    `floor` for lamps they do not name; no mapping, no evidence. `prior` weighs lamps by id, 1 if not named; without
    one, each weighs by how often a counter meets it.

    Raises:
        LookProblem: a look that the catalogue does not have, or an answer that is none of its answers.
    """
    lamps = catalogue.lamps
    before = prior if prior is not None else catalogue.prevalence
    weights = _scaled([before.get(lamp.id, 1.0) for lamp in lamps])
    verdicts: Verdicts = {}
    tables = tables_of(catalogue)
    for key, answer in looks.items():
        heard = _hear(catalogue, tables, key, answer)
        if heard is not None:
            weights = list(map(mul, weights, heard.chances))
            verdicts[key] = heard.speaks
    if likelihood:
        evidence = _scaled([likelihood.get(lamp.id, floor) for lamp in lamps])
        weights = list(map(mul, weights, evidence))
        verdicts[MARKS] = [said >= HALF for said in evidence]
    return _candidates(lamps, weights, verdicts)


def _hear(catalogue: Catalogue, tables: Tables, key: str, answer: str | float) -> Heard | None:
    """Return what an answer says; None for "cannot-tell"."""
    if key not in tables or answer not in tables[key].values:  # a word of the look needs no reading
        answer = parse_look(catalogue, key, answer)
    return None if answer == CANNOT_TELL else tables[key].hear(answer)


def _scaled(weights: list[float]) -> list[float]:
    """Scale so that the best is 1 and none is zero."""
    best = max(weights)
    return [max(weight / best, LEAST) for weight in weights] if best > 0 else [1.0] * len(weights)


def _candidates(lamps: Sequence[Lamp], weights: list[float], verdicts: Verdicts) -> tuple[Candidate, ...]:
    total = sum(weights)
    spoken = list(zip(*verdicts.values(), strict=True)) if verdicts else [()] * len(lamps)
    keys = tuple(verdicts)
    split = {says: _split(keys, says) for says in set(spoken)}  # far fewer than lamps
    order = sorted(range(len(lamps)), key=weights.__getitem__, reverse=True)
    return tuple(
        [
            Candidate(
                lamps[at].id,
                lamps[at].base,
                lamps[at].watts.value,
                lamps[at].shape,
                lamps[at].kind,
                weights[at] / total,
                *split[spoken[at]],
            )
            for at in order
        ]
    )


def _split(keys: Keys, says: tuple[bool | None, ...]) -> tuple[Keys, Keys]:
    """Return the looks that agree and those that disagree."""
    return tuple(compress(keys, says)), tuple(compress(keys, [said is False for said in says]))
