"""Cards on makers' own codes: which part says what, in codes of invented makers and with letters told in this shop.

What a part says is what `assess` reads in the code; a code that it cannot read part by part makes no card.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from counter.desk import Case
from counter.marks import tables
from counter.marks.letters import against
from counter.training._models import Point
from counter.training._settings import words
from counter.training.cards._build import Asked, Choice, build
from counter.training.cards._facts import MAKERS

if TYPE_CHECKING:
    import random
    from collections.abc import Iterator, Sequence

    from counter.catalogue import Lamp
    from counter.marks import KnownLetters, Span
    from counter.training._models import Card
    from counter.training.cards._facts import Lore

COLOURS = ("827", "830", "835", "840", "841", "865", "41K", "35K")
ORDERS = ("F{watts}{own}/{colour}", "{own}{watts}W/{colour}", "F{watts}/{own}/{colour}", "F {own}{watts}/{colour}")
OWN = ("XK", "ZN", "QV", "KZ", "XJ", "VQ", "ZH", "QX", "JV", "ZK", "XQ", "QB", "VX", "HJ", "ZQK", "XVJ")  # invented
LEAST_PARTS = 3
# The parts that a new hire should know, by the first word of the name that the reader gives them.
ASKED = {one: f"part-{one}" for one in ("kind", "watts", "maker", "letters", "rendering", "colour")}


def asked_by(span: Span) -> str | None:
    """Return the key of the words that ask for a part; None where it is not worth asking."""
    return ASKED.get(span.part.partition(" ")[0])


def maker_points(lore: Lore) -> Iterator[Point]:
    """Yield one point for each family of white lamps, and one for each letters that this shop gave a meaning."""
    for family in lore.lamps_of:
        if _white(lore, family):
            yield Point(id=f"{MAKERS}/{family}", kind=MAKERS, family=family)
    for row in _told(lore):
        lamp = next((one for one in _lamps(lore) if not against(row.means, lore.catalogue, one)), None)
        if lamp is not None:
            family = lore.catalogue.base_of(lamp).family
            yield Point(id=f"{MAKERS}/{family}/{row.letters}", kind=MAKERS, family=family, subject=row.letters)


def _told(lore: Lore) -> Iterator[KnownLetters]:
    return (row for maker in lore.house for row in maker.letters if row.means.stated())


def _lamps(lore: Lore) -> Iterator[Lamp]:
    return (lamp for lamp in lore.catalogue.lamps if lamp.kind == "fluorescent" and lamp.shape in _forms())


def _forms() -> frozenset[str]:
    """Return the forms that letters can be told to mean: those of plug-in lamps."""
    return frozenset(tables()["shapes"])


def _white(lore: Lore, family: str) -> list[Lamp]:
    return [lamp for lamp in _lamps(lore) if lore.catalogue.base_of(lamp).family == family]


def maker_card(lore: Lore, point: Point, rng: random.Random) -> Card | None:
    """Ask which part of a maker's code says something; None where the reader does not cut it so."""
    row = next((one for one in _told(lore) if one.letters == point.subject), None)
    if point.subject and row is None:
        return None  # forgotten since
    lamps = [one for one in _white(lore, point.family) if row is None or not against(row.means, lore.catalogue, one)]
    if not lamps:
        return None
    own = row.letters if row is not None else rng.choice(OWN)
    watts, colour = f"{rng.choice(lamps).watts.value:g}", rng.choice(COLOURS)
    case = Case(marks=rng.choice(ORDERS).format(watts=watts, own=own, colour=colour))
    spans = _spans(lore, case)
    asked = [one for one in spans if asked_by(one) and (row is None or one.part == "letters")]
    if len(spans) < LEAST_PARTS or not asked or not _is_as_built(spans, own, is_told=row is not None):
        return None
    return _card(point, case, spans, rng.choice(asked))


def _spans(lore: Lore, case: Case) -> Sequence[Span]:
    """Return the parts of a code; none where the counter without what it is unsure of cuts it in another way."""
    found, sure = lore.known_here(case).readings, lore.known_here(case, is_sure=True).readings
    same = found and sure and [one.part for one in found[0].spans] == [one.part for one in sure[0].spans]
    return found[0].spans if same else ()


def _is_as_built(spans: Sequence[Span], own: str, *, is_told: bool) -> bool:
    """Whether the letters are read as such, nothing was put in, and no two parts say the same or read alike."""
    part = next((one.part for one in spans if one.text.upper() == own), "")
    texts, names = [one.text for one in spans], [asked_by(one) or one.part for one in spans]
    is_whole = not any(one.assumed for one in spans)
    is_clear = len(set(texts)) == len(texts) and len(set(names)) == len(names)
    return part == ("letters" if is_told else "maker") and is_whole and is_clear


def _card(point: Point, case: Case, spans: Sequence[Span], asked: Span) -> Card | None:
    what = words()[asked_by(asked) or ""].format(asked.means)
    question = Asked(
        kind=MAKERS,
        axis="code",
        question={"code": case.marks, "what": what},
        why={"code": case.marks, "part": asked.text, "means": asked.means},
        code=case.marks,
        case=case,
    )
    choices = [Choice(one.part, one.text, float(one is asked)) for one in spans]
    return build(point, question, choices, keeps_order=True)
