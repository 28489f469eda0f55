"""From a picture to what it says of the base: scale, pins, block, key, the bases that they fit, and the looks."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from counter.language import marked, tr
from counter.measure._models import PIN_TALL_MM, Measured, Pattern, Pin

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence
    from pathlib import Path

    from counter.catalogue import Base, Catalogue
    from counter.measure._block import Block, Key
    from counter.measure._card import Floats
    from counter.measure._part import Place
    from counter.measure._patterns import Pattern as Laid
    from counter.measure._picture import Pixels
    from counter.measure._pins import Spot
    from counter.measure._view import View

NO_CARD = marked(
    "No bank card was found: lay one beside the base, level with its face, all four corners in the picture."
)
NO_PINS = marked("No pins were found: take the picture from straight above, the pins toward the camera.")
SLANTED = marked("The camera stood slanted by {tilt:.0f}°; straight above is surer.")
FAINT = marked("Not every pin is clear; check the marks on the picture.")
NOT_ALIKE = marked("The key could not be seen clearly; look at it and press its picture.")
CLEAR_SCORE = -5.0  # a pattern below which nothing is shown; below `SURE_SCORE` it only ranks bases, and says so
SURE_SCORE = 4.0
SURE_KEY = 0.45  # how clear a key must be to become a look; that there is none is never sure, a worn one looks so too
AS_LIKELY = 4.0  # as the best, within which blocks of other bases are looked for too
WELL_CLEAR = 9.0  # a pattern after which no other place is looked at
LEFT_OVER_MM = 0.35  # of the pins on the best base: with more the spacing is not taken for certain
CLEAR_PIN = 1.5  # of a pin, below which a spacing is not taken for certain either
BODY_MM = 3.0  # how far below the face the middle of what is seen of the body lies
SLANTED_DEG = 25.0
TOLERANCE_MM, OF_SPACING = 0.5, 0.02  # of a pin spacing from a picture, whichever is more: 99 in 100 keep it


class Found(NamedTuple):
    """What may lie beside the card, likeliest first, and where."""

    patterns: list[Laid]
    place: Place


def measure_picture(catalogue: Catalogue, path: Path) -> Measured:
    """Measure a picture file.

    Raises:
        PictureProblem: the file cannot be used; one line says why.
    """
    from counter.measure._picture import read_picture

    return measure_pixels(catalogue, read_picture(path))


def measure_bytes(catalogue: Catalogue, raw: bytes) -> Measured:
    """Measure a picture that was pasted or dropped.

    Raises:
        PictureProblem: the bytes cannot be used; one line says why.
    """
    from counter.measure._picture import pixels_of

    return measure_pixels(catalogue, pixels_of(raw))


def measure_pixels(catalogue: Catalogue, image: Pixels) -> Measured:
    """Measure a picture."""
    from counter.measure._card import find_card
    from counter.measure._codes import codes_in
    from counter.measure._view import view_of

    size = (int(image.shape[1]), int(image.shape[0]))
    codes = codes_in(image)
    card = find_card(image)
    view = view_of(card.corners, size) if card is not None else None
    if card is None or view is None:
        return Measured(size_px=size, codes=codes, problems=(tr(NO_CARD),))
    told = Measured(
        size_px=size,
        scale_mm_per_px=round(float(_scale(view, size)), 5),
        tilt_deg=round(view.tilt_deg, 1),
        card_px=_pairs(card.corners),
        codes=codes,
    )
    return _measure_part(catalogue, image, view, told)


def _scale(view: View, size: tuple[int, int]) -> float:
    """Return millimetres a pixel at the middle of the card, mean of both directions."""
    import numpy as np

    at = view.pixels(np.array([(0.0, 0.0), (5.0, 0.0), (0.0, 5.0)]))
    across, up = np.linalg.norm(at[1] - at[0]), np.linalg.norm(at[2] - at[0])
    return float(5.0 / np.sqrt(across * up))


def _pairs(points: Floats) -> tuple[tuple[float, float], ...]:
    return tuple((round(float(x), 2), round(float(y), 2)) for x, y in points)


def _measure_part(catalogue: Catalogue, image: Pixels, view: View, told: Measured) -> Measured:
    import numpy as np

    from counter.measure._part import as_floats
    from counter.measure._tall import standing

    lab = as_floats(image)
    found = _best_place(catalogue, image, lab, view)
    if found is None or found.patterns[0].score < CLEAR_SCORE:
        return told.model_copy(update={"problems": (tr(NO_PINS),)})
    spots, tall_mm = standing(lab, view, found.patterns[0].spots)
    ends_px = view.pixels(np.array([(spot.x, spot.y) for spot in spots]), PIN_TALL_MM)
    at = view.millimetres(ends_px, tall_mm)
    spots = [spot._replace(x=float(x), y=float(y)) for spot, (x, y) in zip(spots, at, strict=True)]
    pattern = _pattern(catalogue, lab, view, found, spots)
    problems = [tr(SLANTED).format(tilt=view.tilt_deg)] if view.tilt_deg > SLANTED_DEG else []
    is_sure = found.patterns[0].score >= SURE_SCORE
    if not is_sure:
        problems.append(tr(FAINT))
    told = told.model_copy(update={"pins_px": _pairs(ends_px), "pins_tall_mm": round(tall_mm, 2)})
    return answered(catalogue, told, pattern, tuple(problems), is_sure)


def _best_place(catalogue: Catalogue, image: Pixels, lab: Floats, view: View) -> Found | None:
    """Return the likeliest place; where none is clear, of those that come near it, after a closer look."""
    from counter.measure._part import places_of
    from counter.measure._patterns import AGAIN, known_patterns, looked_closer, patterns_at
    from counter.measure._pins import maps_of

    known = known_patterns(catalogue.bases)
    found: list[Found] = []
    for place in places_of(image, view):
        maps = maps_of(lab, view, (place.x, place.y), place.reach + 3)
        patterns = patterns_at(lab, view, maps, place, known)
        if patterns:
            found.append(Found(patterns, place))
            if patterns[0].score > WELL_CLEAR:
                return found[-1]
    least = max((one.patterns[0].score for one in found), default=0.0) - AGAIN
    near = [one for one in found if one.patterns[0].score >= least]
    closer = [Found(looked_closer(lab, view, one.patterns, one.place), one.place) for one in near]
    return max(closer, key=lambda one: one.patterns[0].score, default=None)


def _pattern(catalogue: Catalogue, lab: Floats, view: View, found: Found, spots: Sequence[Spot]) -> Pattern:
    """Return the pins in the part's own frame, turned key up where the key says which way that is."""
    import numpy as np

    from counter.measure._block import CLEAR_STEP, LEAST_STEP
    from counter.measure._patterns import turned

    places = np.array([(spot.x, spot.y) for spot in spots])
    middle, turn = places.mean(0), turn_of(places, found.patterns[0].known.arrangement)
    pattern = _pins_only(found, spots, (places - middle) @ turned(-turn))
    seen = _block_and_key(lab, view, middle, turn, _alike(catalogue, found.patterns), found.place)
    if seen is None or seen[0].clear < LEAST_STEP:
        return pattern
    key, is_clear = seen[1], seen[0].clear >= CLEAR_STEP
    pattern = pattern.model_copy(update={"keys": key.looks, "block": True if is_clear else None})
    if key.look == "none" or key.clear < SURE_KEY:
        return pattern
    if key.edge < 0:
        pins = tuple(pin.model_copy(update={"x_mm": -pin.x_mm, "y_mm": -pin.y_mm}) for pin in pattern.pins)
        pattern = pattern.model_copy(update={"pins": pins})
    return pattern.model_copy(update={"block": True, "notch": key.look, "key_up": True})


def _pins_only(found: Found, spots: Sequence[Spot], own: Floats) -> Pattern:
    pins = tuple(
        Pin(
            x_mm=round(float(x), 3),
            y_mm=round(float(y), 3),
            diameter_mm=round(2 * spot.radius, 2),
            clear=round(spot.score, 2),
        )
        for (x, y), spot in zip(own, spots, strict=True)
    )
    likely = {base: round(one.score, 2) for one in found.patterns for base in one.known.bases}
    return Pattern(pins=pins, arrangement=found.patterns[0].known.arrangement, likely=likely)


def turn_of(places: Floats, arrangement: str) -> float:
    """Return the direction of the pins' long side, radians."""
    import numpy as np

    if len(places) < 2:
        return 0.0
    if arrangement == "rectangle" and len(places) == 4:
        sides = [(places[j] - places[i]) for i in range(4) for j in range(i + 1, 4)]
        sides.sort(key=lambda side: float(np.hypot(*side)))
        way = sides[2]  # of two short sides, two long and two diagonals
        return float(np.arctan2(way[1], way[0]))
    _, _, axes = np.linalg.svd(places - places.mean(0))
    return float(np.arctan2(axes[0][1], axes[0][0]))


def _block_and_key(
    lab: Floats, view: View, middle: Floats, turn: float, bases: Sequence[Base], place: Place
) -> tuple[Block, Key] | None:
    """Look for a block as some base has it between such pins, and for its key."""
    import numpy as np

    from counter.measure._block import drawn_blocks, find_block, levelled, read_key, right_way_up

    c, s = np.cos(-turn), np.sin(-turn)
    back = np.array([[c, s], [-s, c]])
    level = levelled(lab, view, middle, turn, 22.0, 0.0)
    lean = view.lean(middle)
    off = (np.array([place.x, place.y]) + lean * BODY_MM - middle) @ back  # the body's side is seen too
    drawn = right_way_up(drawn_blocks(bases), float(off[1]))
    found = find_block(level, lean @ back, drawn)
    return (found[0], read_key(level, *found)) if found is not None else None


def _alike(catalogue: Catalogue, patterns: Sequence[Laid]) -> list[Base]:
    """Return the bases that are about as likely as the likeliest, by pins and outline."""
    least = patterns[0].score - AS_LIKELY
    return [catalogue.base_by_name[base] for one in patterns if one.score >= least for base in one.known.bases]


def answered(
    catalogue: Catalogue,
    told: Measured,
    pattern: Pattern,
    problems: Sequence[str] = (),
    is_sure: bool = True,
    of_spacing: float = OF_SPACING,
) -> Measured:
    """Return what a pattern says: the bases that it fits, and the looks that are certain.

    Pins that are not surely seen rank the bases, but become no looks; `of_spacing` is how far the scale may be off.
    """
    from counter.measure._fit import fit_all, fit_base, spacing_of

    fits = fit_all(catalogue, pattern)
    best = catalogue.base_by_name[fits[0].base]
    spacing = spacing_of(best, fits[0], pattern)
    alone = pattern.model_copy(update={"notch": None, "block": None})
    is_even = fit_base(best, alone).residual_mm <= LEFT_OVER_MM and all(
        pin.clear is None or pin.clear >= CLEAR_PIN for pin in pattern.pins
    )
    looks = certain_looks(catalogue, pattern, spacing if is_even else None) if is_sure else {}
    unseen = [tr(NOT_ALIKE)] if pattern.block and pattern.notch is None else []
    return told.model_copy(
        update={
            "pattern": pattern,
            "spacing_mm": None if spacing is None else round(spacing, 2),
            "looks": looks,
            "tolerances_mm": _tolerances(looks, of_spacing),
            "candidates": fits,
            "problems": (*problems, *unseen),
        }
    )


def _tolerances(looks: Mapping[str, str | float], of_spacing: float) -> dict[str, float]:
    spacing = looks.get("pin_spacing_mm")
    if not isinstance(spacing, float):
        return {}
    return {"pin_spacing_mm": round(max(TOLERANCE_MM, of_spacing * spacing), 2)}


def certain_looks(catalogue: Catalogue, pattern: Pattern, spacing_mm: float | None) -> dict[str, str | float]:
    """Return the looks that a pattern settles, by the keys and answers that the catalogue has."""
    told: dict[str, str | float | None] = {
        "pins": str(len(pattern.pins)),
        "arrangement": {"row": "row", "rectangle": "rectangle"}.get(pattern.arrangement or ""),
        "notch": pattern.notch,
        "block": "yes" if pattern.block else None,
        "pin_spacing_mm": None if spacing_mm is None else round(spacing_mm, 1),
    }
    looks: dict[str, str | float] = {}
    for key, answer in told.items():
        look = catalogue.look_by_key.get(key)
        if look is None or answer is None:
            continue
        if look.is_measured or any(value.value == answer for value in look.values):
            looks[key] = answer
    return looks
