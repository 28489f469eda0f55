"""Whether a card's answer is right, found out again by the core and by another road than the card was made on.

What the card tells is put to `assess` again. Bases are also proved by ranking the lamps from what the card says is
seen, sides from the outline really drawn, and verdicts by judging the lamp.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from counter.desk import Case, assess
from counter.fit import judge, replacements, strictest
from counter.identify import rank
from counter.outline import Path, face_view
from counter.training._settings import words
from counter.training.cards._code_cards import could_be
from counter.training.cards._facts import PRINT, Setting, known_here, lore
from counter.training.cards._look_cards import UV_CHOICES, asks_for_one, is_safe, told_kind, worths_of
from counter.training.cards._maker_cards import asked_by
from counter.training.cards._sale_cards import first_caution, sure_of

if TYPE_CHECKING:
    from collections.abc import Callable

    from counter.catalogue import Catalogue
    from counter.outline import Drawing
    from counter.training._models import Card, CardKind

CLEARLY = 2.0  # the best lamp of the answer is this many times as probable as the best of any other choice


def prove(catalogue: Catalogue, card: Card) -> bool:
    """Return whether the answer, and no choice marked wrong, is what the core answers."""
    return _is_whole(card) and _PROOFS[card.kind](catalogue, card)


def _is_whole(card: Card) -> bool:
    sizes = {len(card.choices), len(card.values), len(card.worth), len(set(card.choices))}
    return len(sizes) == 1 and max(card.worth) == card.worth[card.answer] == 1.0 and min(card.worth) < 1.0


def _base(catalogue: Catalogue, card: Card) -> bool:
    if card.draw is None or card.draw.lamp is None:
        return False
    known = lore(catalogue)
    facts = known.facts(catalogue.lamp_by_id[card.draw.lamp])
    looks: dict[str, str | float] = {
        look: (fact.low + fact.high) / 2 if fact.high else fact.value
        for look, fact in facts.items()
        if look != PRINT or fact.words in card.shown
    }
    best: dict[str, float] = {}
    for one in rank(catalogue, looks):
        best.setdefault(catalogue.base_by_name[one.base].family, one.probability)
    answer = card.values[card.answer]
    rivals = [best[value] for value in card.values if value != answer]
    return all(fact.words in card.shown or fact.look == PRINT for fact in facts.values()) and best[
        answer
    ] >= CLEARLY * max(rivals)


def _side(catalogue: Catalogue, card: Card) -> bool:
    """Find the notch in the drawing, turn the page until its key edge is up, and look which side it is on."""
    if card.draw is None or "as drawn here" not in card.question:
        return False
    drawing = face_view(catalogue.base_by_name[card.draw.base], turned_deg=card.draw.turned_deg)
    notch, block = _middle(drawing, "notch"), _middle(drawing, "block")
    across = {0: notch[0] - block[0], 90: notch[1] - block[1], 180: block[0] - notch[0], 270: block[1] - notch[1]}
    right = across[card.draw.turned_deg]
    side = "small-centre" if abs(right) < 1 else "small-right" if right > 0 else "small-left"
    return card.values[card.answer] == side


def _middle(drawing: Drawing, part: str) -> tuple[float, float]:
    """Return the middle of the box round the first shape of a part; its notches do not move the block's."""
    points = next(shape.points for shape in drawing.shapes if isinstance(shape, Path) and shape.part == part)
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return ((min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2)


def _part(catalogue: Catalogue, card: Card) -> bool:
    if card.case is None or card.code is None or card.part is None:
        return False
    readings = assess(catalogue, card.case).readings
    at = card.code.find(card.part)
    said = [
        span.means for reading in readings for span in reading.spans if span.start == at and span.text == card.part
    ]
    return bool(said) and said[0] == card.choices[card.answer] and _no_other(card, set(said))


def _no_other(card: Card, right: set[str]) -> bool:
    return not any(choice in right for choice, worth in zip(card.choices, card.worth, strict=True) if worth < 1)


def _worn(catalogue: Catalogue, card: Card) -> bool:
    """Every choice fits the characters still read; only the right one is a code that a lamp type has."""
    if card.code is None or card.code.count("?") != 1:
        return False
    before, after = card.code.split("?")
    fits = all(one.startswith(before) and one.endswith(after) and len(one) == len(card.code) for one in card.choices)
    possible = could_be(assess(catalogue, Case(marks=card.code)).readings)
    exist = [one in possible | could_be(assess(catalogue, Case(marks=one)).readings) for one in card.choices]
    return fits and exist == [worth >= 1 for worth in card.worth] and card.choices[card.answer] in possible


def _maker_part(catalogue: Catalogue, card: Card) -> bool:
    """Whether the choices are the parts of the code as it is read, and the right one is what was asked for."""
    spans = known_here(catalogue, card.case).readings[0].spans
    what = words()[asked_by(spans[card.answer])].format(spans[card.answer].means)
    return card.choices == tuple(one.text for one in spans) and card.question.endswith(f"says {what}?")


def _verdict(catalogue: Catalogue, card: Card) -> bool:
    if card.case is None or card.case.chosen is None:
        return False
    setting, answer = _setting(card), card.values[card.answer]
    sure = sure_of(lore(catalogue), setting)
    return sure is not None and answer == sure.verdict == _judged(catalogue, card, setting)


def _judged(catalogue: Catalogue, card: Card, setting: Setting) -> str | None:
    """Return the verdict by another road where there is one: the lamp, or the LED type, judged without `assess`."""
    case = setting.case
    lamp = catalogue.lamp_by_id[case.chosen or ""]
    if setting.instead is not None:
        found = replacements(catalogue, lamp, case.fixture, case.use)
        return next((one.verdict for one in found if one.led_type == setting.instead), None)
    verdict = assess(catalogue, case).verdict
    judged = judge(catalogue, lamp, case.fixture, case.use).verdict
    # What lamp, fixture and use refuse by themselves, nothing else may allow; what they allow, more may hold back.
    return verdict if verdict is not None and strictest([verdict, judged]) == verdict else None


def _setting(card: Card) -> Setting:
    assert card.case is not None
    return Setting("", card.case.chosen or "", card.case, card.instead)


def _caution(catalogue: Catalogue, card: Card) -> bool:
    first = first_caution(lore(catalogue), _setting(card)) if card.case is not None else None
    if first is None or card.case is None:
        return False
    is_first = (first.rule, getattr(first, card.aspect)) == (card.values[card.answer], card.choices[card.answer])
    said = {getattr(caution, card.aspect) for caution in assess(catalogue, card.case).cautions}
    return is_first and _no_other(card, said)


def _look(catalogue: Catalogue, card: Card) -> bool:
    if card.case is None:
        return False
    found = assess(catalogue, card.case)
    worth = worths_of(catalogue, found.next)
    is_first = card.values[card.answer] == found.next[0].look and asks_for_one(catalogue, found)
    return is_first and tuple(worth[value] for value in card.values) == card.worth


def _kind(catalogue: Catalogue, card: Card) -> bool:
    if card.case is None or card.values != UV_CHOICES:
        return False
    told = told_kind(assess(catalogue, card.case))
    return told == card.values[card.answer] and is_safe(card.case, told)


_PROOFS: dict[CardKind, Callable[[Catalogue, Card], bool]] = {
    "name-base": _base,
    "which-of-two": _base,
    "notch-side": _side,
    "read-code": _part,
    "worn-code": _worn,
    "makers-code": _maker_part,
    "sale": _verdict,
    "caution": _caution,
    "next-look": _look,
    "uv-or-light": _kind,
}
