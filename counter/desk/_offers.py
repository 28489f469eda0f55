"""What may go in instead, once law, breakage and doubt have spoken.

May import counter.catalogue and counter.fit; counter.desk is its only reader.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from counter import fit
from counter.desk._doubts import NO_DAY
from counter.language import marked, tr

if TYPE_CHECKING:
    from collections.abc import Sequence

    from counter.catalogue import Catalogue, Lamp
    from counter.desk._case import Case
    from counter.desk._doubts import Doubt
    from counter.desk._evidence import Evidence
    from counter.fit import Caution, Replacement

SAYS_OTHER = ("uv", "led", "dispute", "split")  # doubts that speak of another lamp than the fixture asks for
SETTLE_FIRST = marked("First find out which lamp it is.")
OTHER_IN_HAND = marked("The lamp in hand looks or reads otherwise: first find out which lamp it is.")
BROKEN_FIRST = marked("First clean up the broken lamp.")
NO_WHITE = ("print-coloured", "print-colour-number", "print-newborn")  # of light other than white
NOMINAL_MM = 60.0  # codes print nominal lengths, pins and holders in them; the next nominal length lies farther off


def offers(seen: Evidence, printed: tuple[Caution, ...], of_lamp: Sequence[Doubt]) -> tuple[Replacement, ...]:
    """Return what may replace a lamp; with no lamp named, what the fixture itself asks for.

    Where a length was measured on the lamp in hand, or its code prints one, no tube much longer or shorter stands
    where it stood. `printed` is what the print says that the lamp from the shelf must be too: until that is answered
    none is sold.
    """
    catalogue, case, lamp = seen.catalogue, seen.case, seen.lamp
    if lamp is None:
        is_told = any(one.kind in SAYS_OTHER for one in of_lamp)
        wanted = (_as_seen(seen, one, is_told) for one in fit.wanted(catalogue, case.fixture, case.use))
        length_mm = _seen_mm(case) or seen.printed_mm
        found = tuple(one for one in wanted if _reaches(catalogue, one, length_mm))
    else:
        is_white = not any(one.rule in NO_WHITE for one in printed)
        found = fit.replacements(catalogue, lamp, case.fixture, case.use, seen.cct_k, _seen_mm(case), is_white)
    if lamp is not None and of_lamp:
        found = tuple(_unsettled(one, lamp) for one in found)
    open_ = next((one.says for one in printed if one.verdict != "sell"), "")
    found = tuple(_asked_first(one, open_) for one in found) if open_ else found
    held = [(_held_back(catalogue, case, one), one) for one in found]
    # What is held back here, by the law for one, stands behind what is as strict by itself.
    held.sort(key=lambda pair: (fit.VERDICTS.index(pair[0].verdict), pair[0] is not pair[1]))
    return tuple(one for one, _ in held)


def _reaches(catalogue: Catalogue, one: Replacement, length_mm: float | None) -> bool:
    lamp = catalogue.lamp_by_id[one.lamp] if one.lamp is not None else None
    lengths = lamp.lengths_mm if lamp is not None and catalogue.base_of(lamp).mount == "two-ends" else None
    if lengths is None or length_mm is None:
        return True
    return lengths[0] - NOMINAL_MM <= length_mm <= lengths[1] + NOMINAL_MM


def _asked_first(one: Replacement, why: str) -> Replacement:
    return one.model_copy(update={"verdict": "ask first", "reason": why}) if one.verdict == "sell" else one


def _seen_mm(case: Case) -> float | None:
    """Return the length that was measured on the lamp in hand, mm."""
    seen = case.looks.get("length_mm")
    return seen if isinstance(seen, float) else None


def _unsettled(one: Replacement, lamp: Lamp) -> Replacement:
    """Hold back "the same lamp" while it is not sure which lamp that is."""
    if one.lamp != lamp.id or one.verdict != "sell":
        return one
    return _asked_first(one, f"{tr(SETTLE_FIRST)} {one.reason}")


def _as_seen(seen: Evidence, one: Replacement, is_told: bool) -> Replacement:
    """Hold back what the fixture asks for where the lamp in hand is not named, and yet is seen or told as another."""
    offered = seen.catalogue.lamp_by_id.get(one.lamp or "")
    is_seen = offered is not None and not seen.nothing_known and bool(seen.against(offered))
    return _asked_first(one, f"{tr(OTHER_IN_HAND)} {one.reason}") if is_told or is_seen else one


def _held_back(catalogue: Catalogue, case: Case, one: Replacement) -> Replacement:
    """Offer no lamp for sale that the law of the place has ended, nor any before a broken one is dealt with."""
    lamp = catalogue.lamp_by_id[one.lamp] if one.lamp is not None else None
    if one.verdict != "sell" or lamp is None or lamp.kind == "led":
        return one
    why = tr(BROKEN_FIRST) if case.broken else _law_against(catalogue, case, lamp)
    return _asked_first(one, f"{why} {one.reason}") if why else one


def _law_against(catalogue: Catalogue, case: Case, lamp: Lamp) -> str:
    if case.place is None:
        return ""
    if case.on is None:
        return tr(NO_DAY)
    ended = fit.law_caution(fit.law(catalogue, case.place, case.on, lamp), lamp, case.fixture.told)
    return ended.says if ended is not None and ended.verdict != "sell" else ""
