"""Words that name lamps by shape, ends or output, on label and lamp, against the lamp that is judged."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING

from counter import words
from counter.fit._codes import EIGHTH_MM, THIN_EIGHTHS
from counter.fit._label_scan import scan

if TYPE_CHECKING:
    from counter.catalogue import Catalogue, Lamp
    from counter.words import Family, Trait

HIGH_OUTPUT_A = 0.2  # of T5 tubes longer than 50 cm: the slim series takes 0.17 A, high output 0.26 A and more
_BESIDE_CODES = ("tube", "shape", "count", "watts", "amperes")  # stretches whose words count by themselves


def other_family(text: str, lamp: Lamp, catalogue: Catalogue) -> str:
    """Return the first words of a text that name lamps of another family than this one's; "" where none do."""
    folded = words.fold(text[: words.LONGEST])
    found = words.other_family(_beside_codes(folded.plain), _traits(lamp, catalogue))
    return folded.as_typed(found.start, found.end) if found is not None else ""


@lru_cache(maxsize=128)
def _beside_codes(plain: str) -> tuple[Family, ...]:
    """Return the words for families that are no part of a code: HO in F96T12/HO is read with its code."""
    codes = [one for one in scan(plain).stretches if one.about not in _BESIDE_CODES]
    found = words.families(plain)
    return tuple(one for one in found if not any(code.start <= one.start < code.end for code in codes))


def _traits(lamp: Lamp, catalogue: Catalogue) -> dict[Trait, tuple[str, ...]]:
    found: dict[Trait, tuple[str, ...]] = {"ends": _ends(lamp, catalogue)}
    if lamp.shape is not None:
        found["shape"] = (lamp.shape,)
    if lamp.shape != "circular":
        found["output"] = _outputs(lamp, catalogue)
    return found


def _ends(lamp: Lamp, catalogue: Catalogue) -> tuple[str, ...]:
    base = catalogue.base_of(lamp)
    if base.designation.startswith("R"):
        return ("recessed",)
    return {1: ("one-pin",), 2: ("two-pins",)}.get(int(base.pins.value), ())


def _outputs(lamp: Lamp, catalogue: Catalogue) -> tuple[str, ...]:
    if lamp.shape == "long-twin":
        return ("ho",)  # those of 40 W and more are called so by some
    is_thin = lamp.tube_mm is not None and lamp.tube_mm.value <= (THIN_EIGHTHS + 0.5) * EIGHTH_MM
    if lamp.shape != "linear" or not is_thin:
        return (lamp.output,)
    full = catalogue.lamp_by_id[lamp.stands_in_for[0]] if lamp.is_saver else lamp
    current = full.hf.current_a if full.hf is not None else None
    return ("",) if current is None else ("ho",) if current.value > HIGH_OUTPUT_A else ("he",)
