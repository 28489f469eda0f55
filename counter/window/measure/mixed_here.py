"""What this shop mixes up: read from the store beside the window, and turned into pairs of bases for a sheet."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from counter import shop

if TYPE_CHECKING:
    from pathlib import Path

    from counter.catalogue import Catalogue
    from counter.training import Answer


class MixedHere(NamedTuple):
    """Lamp types that came back as one sold for the other, with how often, and what trainees answered."""

    came_back: tuple[tuple[str, str, int], ...] = ()
    answers: tuple[Answer, ...] = ()


def mixed_here(data: Path) -> MixedHere:
    """Read what was mixed up; nothing where there is no store yet.

    Raises:
        StoreProblem: the store cannot be read.
    """
    from counter.training import everybody

    if not shop.has_store(data):
        return MixedHere()
    came_back = shop.mixed_up(shop.open_store(data))
    return MixedHere(tuple(came_back), tuple(answer for one in everybody(data) for answer in one.answers))


def pairs_here(catalogue: Catalogue, found: MixedHere) -> tuple[tuple[str, str], ...]:
    """Return pairs of bases, each once: those of lamps that came back first, then those that trainees confuse."""
    from counter import paper, training

    lamps = catalogue.lamp_by_id
    back = [(lamps[a].base, lamps[b].base) for a, b, _ in found.came_back if {a, b} <= lamps.keys()]
    taught = [(mix.asked, mix.said) for mix in training.mixes(found.answers) if mix.axis == "family"]
    different = [(one, other) for one, other in back if one != other]
    return tuple(paper.each_once((*different, *paper.pairs_of(catalogue, taught))))
