"""The cards of the outline grid: candidates of one base and kind together, as plain data painted without models."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from counter.language import SpokenNumber, figure, kept_by_language, marked, tr

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from counter.catalogue import Base, Catalogue, Lamp
    from counter.identify import Candidate
    from counter.outline import Drawing

KIND_WORDS = {
    "uv-c": marked("UV-C germicidal"),
    "uv-a": marked("UV-A blacklight"),
    "led": "LED",
    "other": "UV-B",
}
SHAPE_WORDS = {
    "twin": marked("2 legs"),
    "quad": marked("4 legs"),
    "triple": marked("6 legs"),
    "four-fold": marked("8 legs"),
    "long-twin": marked("2 long legs"),
    "flat": marked("4 legs, flat"),
    "square": marked("flat square"),
    "circular": marked("ring"),
    "u-bent": marked("U tube"),
    "linear": marked("straight"),
    None: marked("spiral or disc"),
}


def kind_words(kind: str) -> str:
    """Return what a kind of lamp is called beside its base; nothing for one to see by."""
    return tr(KIND_WORDS.get(kind, ""))


def shape_words(shape: str | None) -> str:
    """Return the shape of a lamp in two words."""
    return tr(SHAPE_WORDS[shape])


class Card(NamedTuple):
    """One base and kind: what to write, how likely, and its two drawings."""

    base: str
    kind: str
    lamp: str
    words: str
    watts: str
    share: float
    against: tuple[str, ...]
    face: Drawing
    side: Drawing


def cards_of(
    catalogue: Catalogue, candidates: Iterable[Candidate], drawn: dict[str, Drawing], order: Sequence[str] = ()
) -> tuple[Card, ...]:
    """Return one card a base and kind in the order of lamp types given; `drawn` keeps drawings between calls.

    With no order, nothing is known: then they stand as in the catalogue.
    """
    groups: dict[tuple[str, str], list[Candidate]] = {}
    for candidate in candidates:
        groups.setdefault((candidate.base, candidate.kind), []).append(candidate)
    cards = [_card(catalogue, members, drawn) for members in groups.values()]
    if not order:
        return _in_catalogue_order(catalogue, cards)
    place = {_group(catalogue, lamp): at for at, lamp in enumerate(order)}
    return tuple(sorted(cards, key=lambda card: place[card.base, card.kind]))


def _group(catalogue: Catalogue, lamp: str) -> tuple[str, str]:
    one = catalogue.lamp_by_id[lamp]
    return one.base, one.kind


def _in_catalogue_order(catalogue: Catalogue, cards: list[Card]) -> tuple[Card, ...]:
    place = {base.designation: i for i, base in enumerate(catalogue.bases)}
    return tuple(sorted(cards, key=lambda card: (card.kind != "fluorescent", place[card.base])))


def _card(catalogue: Catalogue, members: list[Candidate], drawn: dict[str, Drawing]) -> Card:
    best = members[0]
    face, side = f"face {best.lamp}", f"side {best.lamp}"
    if side not in drawn:
        _draw(catalogue.lamp_by_id[best.lamp], catalogue.base_by_name[best.base], drawn)
    return Card(
        base=best.base,
        kind=best.kind,
        lamp=best.lamp,
        words=shape_words(best.shape),
        watts=_watts(members),
        share=sum([member.probability for member in members]),  # a list: summed far faster
        against=best.disagrees,
        face=drawn[face],
        side=drawn[side],
    )


def _draw(lamp: Lamp, base: Base, drawn: dict[str, Drawing]) -> None:
    """Draw the two pictures of a lamp; lamps whose faces are alike share one."""
    from counter.outline import face_view, side_view  # not before the first paint, which repaints kept drawings

    tube_mm = lamp.tube_mm.value if lamp.tube_mm is not None and base.mount == "two-ends" else None
    face = f"base {base.designation} {tube_mm}"
    if face not in drawn:
        drawn[face] = face_view(base, tube_mm=tube_mm)
    drawn[f"face {lamp.id}"], drawn[f"side {lamp.id}"] = drawn[face], side_view(lamp, base)


def _watts(members: list[Candidate]) -> str:
    """Return the watts worth naming: those within a tenth of the best, as a range when many."""
    floor = members[0].probability / 10
    return _in_words(tuple(sorted({one.watts for one in members if one.probability >= floor})))


@kept_by_language(512)
def _in_words(likely: tuple[float, ...]) -> str:
    if len(likely) > 3:
        return tr("{least:g} to {most:g}\N{THIN SPACE}W").format(
            least=SpokenNumber(likely[0]), most=SpokenNumber(likely[-1])
        )
    return ", ".join(map(figure, likely)) + "\N{THIN SPACE}W"
