"""Look-alike sheets: two bases that are taken for one another, full size side by side, what differs in words."""

from __future__ import annotations

from itertools import combinations
from typing import TYPE_CHECKING, NamedTuple

from counter.language import figure, tr
from counter.outline import face_view
from counter.paper._sheet import MARGIN_MM, PAGES, Placed, Sheet, Text, check_bar, lines, rule, wrapped
from counter.paper._words import check_words, length_words, notch_words, watts_words

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable

    from counter.catalogue import Base, Catalogue

NEAR_MM = 1.6  # pin spacings that a hurried eye takes for the same
HEAD_MM, BAR_MM, GAP_MM, ROW_MM = 14.0, 16.0, 8.0, 4.8  # over the faces, for the check bar, between pairs


class Differs(NamedTuple):
    """One thing in which two bases differ: what, and how it is on each; `part` is what the drawing marks."""

    what: str
    here: str
    there: str
    part: str


def likely_pairs(catalogue: Catalogue, most: int = 8) -> tuple[tuple[str, str], ...]:
    """Return pairs of bases that look alike by the catalogue: as many pins, about as far apart, of other keys.

    For a shop whose own mistakes are not known yet. Other families on the same pins come first: there the wrong
    lamp may even go in.
    """
    pairs = [pair for pair in combinations(catalogue.bases, 2) if _near(*pair)]
    pairs.sort(key=lambda pair: (pair[0].family == pair[1].family, _is_odd(*pair)))
    met: dict[frozenset[str], tuple[str, str]] = {}
    for one, other in pairs:
        met.setdefault(frozenset((one.family, other.family)), (one.designation, other.designation))
    return tuple(met.values())[:most]


def each_once(pairs: Iterable[tuple[str, str]], most: int = 8) -> tuple[tuple[str, str], ...]:
    """Return pairs of bases in their order, each once either way round."""
    found: dict[frozenset[str], tuple[str, str]] = {}
    for pair in pairs:
        found.setdefault(frozenset(pair), pair)
    return tuple(found.values())[:most]


def pairs_of(catalogue: Catalogue, mixed: Iterable[tuple[str, str]], most: int = 8) -> tuple[tuple[str, str], ...]:
    """Return pairs of bases for pairs of families that a shop mixes up, most often first, each once either way round.

    Of two families those two bases stand for them whose key numbers agree; what the catalogue lacks is left out.
    """
    by_family: dict[str, list[Base]] = {}
    for base in catalogue.bases:
        by_family.setdefault(base.family, []).append(base)
    found: dict[frozenset[str], tuple[str, str]] = {}
    for one, other in mixed:
        if one == other or one not in by_family or other not in by_family:
            continue
        pairs = [(here, there) for here in by_family[one] for there in by_family[other]]
        here, there = min(pairs, key=lambda pair: _is_odd(*pair))
        found.setdefault(frozenset((one, other)), (here.designation, there.designation))
    return tuple(found.values())[:most]


def _near(one: Base, other: Base) -> bool:
    here, there = one.pin_spacing_mm, other.pin_spacing_mm
    if here is None or there is None or one.pins.value != other.pins.value:
        return False
    if one.arrangement is None or other.arrangement is None or one.arrangement.value != other.arrangement.value:
        return False
    return _has_block(one) == _has_block(other) and abs(here.value - there.value) <= NEAR_MM


def _has_block(base: Base) -> bool:
    return base.block is not None and base.block.value == "yes"


def _is_odd(one: Base, other: Base) -> bool:
    """Whether key numbers differ: G24q-1 belongs beside GX24q-1 rather than beside GX24q-4."""
    return one.designation.partition("-")[2] != other.designation.partition("-")[2]


def look_alike_sheets(catalogue: Catalogue, pairs: Iterable[tuple[str, str]], page: str = "A4") -> tuple[Sheet, ...]:
    """Return sheets with as many pairs a page as fit; pairs of bases that the catalogue lacks are left out."""
    width, height = PAGES[page]
    pages: list[list[Placed | Text]] = []
    y = 0.0
    for names in pairs:
        if not all(name in catalogue.base_by_name for name in names):
            continue
        pair = _pair(catalogue, names)
        if y - pair.tall < MARGIN_MM + BAR_MM:
            pages.append(check_bar(MARGIN_MM, MARGIN_MM + 5, check_words(), 2.3))
            y = height - MARGIN_MM
        pages[-1] += _laid(pair, y, width)
        y -= pair.tall + GAP_MM
    return tuple(Sheet(width, height, tuple(items)) for items in pages)


class Pair(NamedTuple):
    """Two bases, what differs, and the height they take on paper."""

    bases: tuple[Base, Base]
    found: list[Differs]
    faces: float
    tall: float


def _pair(catalogue: Catalogue, names: tuple[str, str]) -> Pair:
    one, other = (catalogue.base_by_name[name] for name in names)
    found = differing(catalogue, one, other)
    faces = max(face_view(base).height_mm for base in (one, other))
    return Pair((one, other), found, faces, HEAD_MM + faces + (len(found) + 3) * ROW_MM)


def _laid(pair: Pair, top: float, width: float) -> list[Placed | Text]:
    strong = frozenset(one.part for one in pair.found)
    one, other = (base.designation for base in pair.bases)
    room = width - 2 * MARGIN_MM
    items: list[Placed | Text] = [
        Text(
            MARGIN_MM,
            top - 6,
            tr("Easily mistaken: {one} and {other}").format(one=one, other=other),
            5.2,
            bold=True,
            room_mm=room,
        ),
        Text(
            MARGIN_MM,
            top - 10.5,
            tr("Full size, pins toward you, notched side up. What differs is in the strong line."),
            2.5,
            quiet=True,
            room_mm=room,
        ),
    ]
    under = top - HEAD_MM - pair.faces
    for at, base in enumerate(pair.bases):
        view, middle = face_view(base), MARGIN_MM + room / 2 * (at + 0.5)
        items.append(Placed(view, middle, under + pair.faces / 2 - (view.box[1] + view.box[3]) / 2, 1.0, strong))
        items.append(Text(middle, under - 4, base.designation, 3.4, "middle", bold=True))
    return items + _table(pair.found, under - 11, width)


def _table(found: list[Differs], top: float, width: float) -> list[Placed | Text]:
    column = (width - 2 * MARGIN_MM) / 2
    items: list[Placed | Text] = []
    y = top
    for row in found:
        items.append(lines([rule(MARGIN_MM, y + 3.6, width - MARGIN_MM, y + 3.6)]))
        items.append(Text(width / 2, y, row.what, 2.5, "middle", quiet=True))
        items.append(Text(MARGIN_MM + column * 0.45, y, row.here, 2.7, "middle", room_mm=column * 0.75))
        items.append(Text(width - MARGIN_MM - column * 0.45, y, row.there, 2.7, "middle", room_mm=column * 0.75))
        y -= ROW_MM
    last = (
        []
        if found
        else wrapped(
            tr("Nothing that the catalogue knows differs but the name: read the marks."), 2.7, width - 2 * MARGIN_MM
        )
    )
    for line in (*last, tr("Never one for the other: the base is the key to watts and ballast.")):
        items.append(Text(MARGIN_MM, y - 0.6, line, 2.7, bold=True, room_mm=width - 2 * MARGIN_MM))
        y -= 4.0
    return items


class Said(NamedTuple):
    """How one thing is on a base; that one of two alike is not sure is no difference."""

    text: str
    is_unsure: bool = False

    def __str__(self) -> str:
        return tr("{what} (not sure)").format(what=self.text) if self.is_unsure else self.text or "–"


def differing(catalogue: Catalogue, one: Base, other: Base) -> list[Differs]:
    """Return what differs between two bases, in the order in which an eye sees it."""
    rows: tuple[tuple[str, str, Callable[[Base], Said]], ...] = (
        (tr("pins"), "pins", lambda base: Said(f"{base.pins.value:g}")),
        (tr("key"), "notch", _key),
        (tr("pin spacing"), "pin_spacing", _spacing),
        (tr("block or post"), "block", _block),
        (tr("outline"), "outline", _outline),
        (tr("watts"), "", lambda base: _watts(catalogue, base)),
    )
    said = ((what, say(one), say(other), part) for what, part, say in rows)
    return [Differs(what, str(here), str(there), part) for what, here, there, part in said if here.text != there.text]


def _block(base: Base) -> Said:
    return Said(tr("not known") if base.block is None else tr("yes") if base.block.value == "yes" else tr("no"))


def _key(base: Base) -> Said:
    look, doubt = notch_words(base)
    return Said(look, bool(doubt))


def _spacing(base: Base) -> Said:
    spacing = base.pin_spacing_mm
    return Said(tr("not known")) if spacing is None else Said(length_words(spacing.value), spacing.is_unsure)


def _outline(base: Base) -> Said:
    outline = base.face.outline
    return Said(f"{figure(outline.width_mm)} × {length_words(outline.height_mm)}", outline.is_unsure)


def _watts(catalogue: Catalogue, base: Base) -> Said:
    found = sorted({lamp.watts.value for lamp in catalogue.lamps_on[base.designation] if lamp.kind == "fluorescent"})
    return Said(watts_words(", ".join(map(figure, found))) if found else "")
