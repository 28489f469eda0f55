"""A measured pattern laid on every base's face: least squares over a similarity, the key side free."""

from __future__ import annotations

from itertools import permutations
from math import atan2, degrees, exp, hypot, log
from typing import TYPE_CHECKING

from counter.catalogue import notch_look
from counter.measure._models import Fit, Pattern

if TYPE_CHECKING:
    from collections.abc import Sequence

    from counter.catalogue import Base, Catalogue

SCALE_FREE = 0.015  # a picture's own scale may be off by this much for nothing; more counts as distance
OTHER_COUNT_MM = 8.0  # what one pin more or less counts as
OTHER_KEY_MM, UNKNOWN_KEY_MM = 2.0, 0.4
OTHER_BLOCK_MM = 1.5
KEY_WORTH, LEAST_KEY = 3.0, -3.0  # what one look of a key counts over another, and how much against at most
UNSEEN = -30.0  # what a base counts of whose pins nothing was found in a picture


def fit_all(catalogue: Catalogue, pattern: Pattern) -> tuple[Fit, ...]:
    """Return every base, best first; of bases drawn alike the catalogue's order stays.

    Where a picture says how likely each is, that counts, with its key; of points placed by hand what is left over.
    """
    fits = [fit_base(base, pattern) for base in catalogue.bases if base.face.is_known]
    if not pattern.likely:
        return tuple(sorted(fits, key=lambda fit: fit.residual_mm))
    likely = {base.designation: likely_of(base, pattern) for base in catalogue.bases}
    return tuple(sorted(fits, key=lambda fit: (-likely[fit.base], fit.residual_mm)))


def faces_of(catalogue: Catalogue, fits: Sequence[Fit]) -> list[tuple[Fit, ...]]:
    """Return fits by face, best first: bases that the catalogue draws alike are one, no picture tells them apart."""
    faces: dict[str, list[Fit]] = {}
    for fit in fits:
        faces.setdefault(_drawn(catalogue.base_by_name[fit.base]), []).append(fit)
    return [tuple(alike) for alike in faces.values()]


def _drawn(base: Base) -> str:
    face = base.face
    return face.model_dump_json(exclude={part: {"source", "confidence", "note"} for part in type(face).model_fields})


def likely_of(base: Base, pattern: Pattern) -> float:
    """Return the logarithm of how likely a picture makes a base, but for a constant."""
    return pattern.likely.get(base.designation, UNSEEN) + _key_worth(base, pattern)


def _key_worth(base: Base, pattern: Pattern) -> float:
    """Return what the looks of the key speak for a base, 0 for the one that goes best with them.

    A base whose own key is not known may have any of its family's, each as likely.
    """
    notches = base.face.notches
    may_be = (notch_look(notches.at),) if notches is not None else base.family_notches
    if not pattern.keys or not may_be:
        return 0.0
    best = max(pattern.keys.values())
    worths = [max(KEY_WORTH * (pattern.keys.get(look, 0.0) - best), LEAST_KEY) for look in may_be]
    return log(sum(exp(worth) for worth in worths) / len(worths))


def fit_base(base: Base, pattern: Pattern) -> Fit:
    """Return how well one base's face lies on the pattern."""
    pins, turned, pairs = _fit_pins(base, pattern)
    off = (pins**2 + _block_off(base, pattern) ** 2 + _key_off(base, pattern) ** 2) ** 0.5
    return Fit(base=base.designation, residual_mm=round(off, 3), turned_deg=round(turned, 1), pairs=pairs)


def _fit_pins(base: Base, pattern: Pattern) -> tuple[float, float, tuple[tuple[int, int], ...]]:
    """Return the root mean square distance of the pins, the turn in degrees, and which pin lies on which."""
    seen = [complex(pin.x_mm, pin.y_mm) for pin in pattern.pins]
    drawn = [complex(pin.x_mm, pin.y_mm) for pin in base.face.pins.at]
    missing = abs(len(seen) - len(drawn))
    fewer = min(len(seen), len(drawn))
    if fewer == 0:
        return OTHER_COUNT_MM * max(missing, 1), 0.0, ()
    best: tuple[float, float, tuple[tuple[int, int], ...]] | None = None
    for chosen in permutations(range(len(drawn)), fewer) if len(drawn) >= len(seen) else [tuple(range(len(drawn)))]:
        for order in [tuple(range(fewer))] if len(drawn) >= len(seen) else permutations(range(len(seen)), fewer):
            miss, turned = similarity([drawn[i] for i in chosen], [seen[i] for i in order])
            if best is None or miss < best[0] - 1e-9:
                best = (miss, turned, tuple(zip(order, chosen, strict=True)))
    assert best is not None
    return (best[0] ** 2 + (OTHER_COUNT_MM * missing) ** 2) ** 0.5, best[1], best[2]


def similarity(drawn: Sequence[complex], seen: Sequence[complex]) -> tuple[float, float]:
    """Return root mean square distance in mm and turn in degrees of the best turn, shift and near-unit scale.

    The least squares turn of centred points is the argument of the sum of conjugate products (W. Kabsch's solution,
    in the plane); the scale that they would like is taken only within what a picture may be off.
    """
    a = [point - sum(drawn) / len(drawn) for point in drawn]
    b = [point - sum(seen) / len(seen) for point in seen]
    product = sum((q * p.conjugate() for p, q in zip(a, b, strict=True)), 0j)
    size = sum(abs(p) ** 2 for p in a)
    if size < 1e-9 or abs(product) < 1e-9:
        return 0.0, 0.0
    scale = min(max(abs(product) / size, 1 - SCALE_FREE), 1 + SCALE_FREE)
    way = product / abs(product) * scale
    miss = sum(abs(q - way * p) ** 2 for p, q in zip(a, b, strict=True)) / len(a)
    return float(miss**0.5), degrees(atan2(product.imag, product.real))


def outline_reach(base: Base) -> float:
    """Return the radius of the circle around a base's outline, mm."""
    outline = base.face.outline
    half_w, half_h = outline.width_mm / 2, outline.height_mm / 2
    if outline.shape == "circle":
        return half_w
    corner = min(outline.corner_mm, half_w, half_h)
    return max(hypot(half_w - corner, half_h - corner) + corner, half_w, half_h)


def _block_off(base: Base, pattern: Pattern) -> float:
    if pattern.block is None or base.block is None:
        return 0.0
    return 0.0 if (base.block.value == "yes") == pattern.block else OTHER_BLOCK_MM


def _key_off(base: Base, pattern: Pattern) -> float:
    """Return what the key speaks against a base; a key that the catalogue does not know speaks a little only."""
    if pattern.notch is None:
        return 0.0
    notches = base.face.notches
    if notches is not None:
        return 0.0 if notch_look(notches.at) == pattern.notch else OTHER_KEY_MM
    if base.family_notches:
        return UNKNOWN_KEY_MM if pattern.notch in base.family_notches else OTHER_KEY_MM
    return 0.0 if pattern.notch == "none" else OTHER_KEY_MM


def spacing_of(base: Base, fit: Fit, pattern: Pattern) -> float | None:
    """Return the measured distance between the two pins that the base's catalogue spacing speaks of, mm."""
    spacing, drawn = base.pin_spacing_mm, base.face.pins.at
    if spacing is None:
        return None
    found: list[tuple[float, float]] = []
    for at, (one, mine) in enumerate(fit.pairs):
        for other, yours in fit.pairs[at + 1 :]:
            drawn_mm = hypot(drawn[mine].x_mm - drawn[yours].x_mm, drawn[mine].y_mm - drawn[yours].y_mm)
            a, b = pattern.pins[one], pattern.pins[other]
            found.append((round(abs(drawn_mm - spacing.value), 1), hypot(a.x_mm - b.x_mm, a.y_mm - b.y_mm)))
    if not found:
        return None
    least = min(found)[0]
    alike = [seen for miss, seen in found if miss == least]
    return sum(alike) / len(alike)
