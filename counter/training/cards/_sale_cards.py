"""Cards on selling: will you sell this lamp for that fixture, what do you say first, why, and what do you do then.

`assess` is asked for every answer. A card is made only where it answers the same from sure facts alone.
All are critical: they are about ultraviolet and about what does not go together.
"""

from __future__ import annotations

from collections import Counter
from itertools import islice
from operator import itemgetter
from typing import TYPE_CHECKING, NamedTuple, get_args

from counter.catalogue import TRUST
from counter.desk import CANNOT_TELL
from counter.fit import Verdict
from counter.language import tr
from counter.training._models import Point
from counter.training._settings import words
from counter.training.cards._build import Asked, Choice, build
from counter.training.cards._case_words import case_words
from counter.training.cards._facts import SURE, Setting
from counter.training.cards._facts import lore as lore_of
from counter.training.cards._sale_cases import settings_of_family

if TYPE_CHECKING:
    import random
    from collections.abc import Iterator

    from counter.catalogue import Catalogue
    from counter.desk import Assessment
    from counter.fit import Ask, Caution, Replacement
    from counter.training._models import Aspect, Card
    from counter.training.cards._facts import Lore

TELLING = frozenset({"LED", "electronic", "magnetic", "dimmer", "mains", "germicidal"})
SAYINGS_WEIGHED = 8  # to find them is what takes a card its time
CASES_ASKED = 24  # for them, at most
WRONG_SAYINGS = 3


class Told(NamedTuple):
    """What the counter says of the lamp of a case, or of the LED type asked for in its place."""

    verdict: Verdict
    cautions: tuple[Caution, ...]
    asks: tuple[Ask, ...] = ()


def sale_points(lore: Lore) -> Iterator[Point]:
    """Yield the scenarios that each family's lamps can meet."""
    for family in lore.lamps_of:
        for scenario in dict.fromkeys(setting.scenario for setting in settings_of_family(lore, family)):
            yield Point(
                id=f"sale/{family}/{scenario}", kind="sale", family=family, subject=scenario, is_critical=True
            )


def sale_card(lore: Lore, point: Point, rng: random.Random) -> Card | None:
    """Ask for the verdict or for the first caution on one case of the scenario."""
    met = [setting for setting in settings_of_family(lore, point.family) if setting.scenario == point.subject]
    rng.shuffle(met)
    makers = [verdict_card, caution_card]
    rng.shuffle(makers)
    made = (maker(lore, point, setting) for setting in met for maker in makers)
    return next((card for card in made if card is not None), None)


def scenario_of(lore: Lore, family: str, rule: str) -> str | None:
    """Return the first scenario of a family in which a rule speaks first, or None."""
    met = settings_of_family(lore, family)
    return next((one.scenario for one in met if first_rule(lore, one) == rule), None)


def told_of(lore: Lore, setting: Setting) -> Told | None:
    """Return what the counter says; None where it says nothing."""
    return _told(lore.assessed(setting.case), setting)


def sure_of(lore: Lore, setting: Setting) -> Told | None:
    """Return what the counter would say from sure facts alone."""
    return _told(lore.assured(setting.case), setting)


def _told(found: Assessment, setting: Setting) -> Told | None:
    if setting.instead is None:
        return None if found.verdict is None else Told(found.verdict, found.cautions, found.asks)
    led = _led(found, setting)
    return None if led is None else Told(led.verdict, led.cautions)


def _led(found: Assessment, setting: Setting) -> Replacement | None:
    return next((one for one in found.replacements if one.led_type == setting.instead is not None), None)


def _told_words(lore: Lore, setting: Setting) -> str:
    led = _led(lore.assessed(setting.case), setting)
    return case_words(lore.catalogue, setting, led.title if led is not None else "")


def verdict_card(lore: Lore, point: Point, setting: Setting) -> Card | None:
    """Ask whether the lamp may be sold; None where sure facts alone do not say so."""
    told, sure = told_of(lore, setting), sure_of(lore, setting)
    is_doubtful = setting.case.chosen is None or setting.case.looks.get("glass") == CANNOT_TELL
    if is_doubtful or told is None or sure is None or sure.verdict != told.verdict or not _is_carried(sure):
        return None
    said = words()
    says, why = _because(told, sure)
    asked = Asked(
        kind="sale",
        axis="verdict",
        question={"case": _told_words(lore, setting)},
        why={"verdict": said[told.verdict], "says": says, "why": why},
        case=setting.case,
        instead=setting.instead,
    )
    verdicts: tuple[Verdict, ...] = get_args(Verdict)
    choices = [Choice(one, said[one], float(one == told.verdict)) for one in verdicts]
    return build(point, asked, choices, keeps_order=True)


def _is_carried(sure: Told) -> bool:
    """Whether a caution trusted enough, or a question, stands behind a verdict that holds the sale."""
    return sure.verdict == "sell" or any(ask.blocks for ask in sure.asks) or _decisive(sure) is not None


def _decisive(told: Told) -> Caution | None:
    """Return the first trusted caution that comes to the verdict itself."""
    found = (one for one in told.cautions if one.verdict == told.verdict and TRUST[one.confidence] >= SURE)
    return next(found, None)


def _because(told: Told, sure: Told) -> tuple[str, str]:
    """Return what decides, and why: the caution with all its figures, or the question that stands first."""
    decisive = _decisive(sure)
    if told.verdict != "sell" and decisive is not None:
        in_full = next((one for one in told.cautions if one.says == decisive.says), decisive)
        return in_full.says, _why(in_full)
    ask = next((one for one in told.asks if one.blocks), None)
    if ask is not None:
        return ask.question, ask.why
    said, first = words(), next(iter(told.cautions), None)
    if first is None:
        return said["nothing objects"], ""
    return said["nothing objects"], said["say with it"].format(says=first.says, why=_why(first))


def _why(caution: Caution) -> str:
    """Return the reason, and say so where a figure in it is not confirmed."""
    doubt = "" if TRUST[caution.confidence] >= SURE else words()["unsure"]
    return f"{caution.why} {doubt}".strip()


def first_rule(lore: Lore, setting: Setting) -> str | None:
    """Return the rule that speaks first in a case, without looking whether it is sure."""
    told = told_of(lore, setting)
    return told.cautions[0].rule if told is not None and told.cautions else None


def first_caution(lore: Lore, setting: Setting) -> Caution | None:
    """Return the first caution of a case, if sure facts alone put it first in the same words.

    None where the counter's list begins with another than what it says before all else.
    """
    told, sure = told_of(lore, setting), sure_of(lore, setting)
    if told is None or sure is None or not told.cautions or not sure.cautions:
        return None
    before_all = lore.assessed(setting.case).first_words if setting.instead is None else ()
    if before_all and before_all[0].says != told.cautions[0].says:
        return None
    first, trusted = told.cautions[0], sure.cautions[0]
    return first if TRUST[trusted.confidence] >= SURE and trusted.says == first.says else None


def caution_card(lore: Lore, point: Point, setting: Setting) -> Card | None:
    """Ask for the first caution among sayings that belong to other cases of the family."""
    return _aspect_card(lore, point, setting, "says")


def why_card(lore: Lore, point: Point, setting: Setting) -> Card | None:
    """Ask for the reason of the first caution."""
    return _aspect_card(lore, point, setting, "why")


def do_card(lore: Lore, point: Point, setting: Setting) -> Card | None:
    """Ask what the first caution tells the clerk to do."""
    return _aspect_card(lore, point, setting, "do")


def _aspect_card(lore: Lore, point: Point, setting: Setting, aspect: Aspect) -> Card | None:
    first = first_caution(lore, setting)
    if first is None:
        return None
    case = _told_words(lore, setting)
    met = islice(_others(lore, point.family, setting, aspect), SAYINGS_WEIGHED)
    wrong = sorted(met, key=lambda one: strange_words(one.text, case))
    asked = Asked(
        kind="caution",
        axis="caution",
        question={"case": case, "says": first.says},
        why={"signal": tr(first.signal), "says": first.says, "why": _why(first), "do": first.do},
        case=setting.case,
        instead=setting.instead,
        aspect=aspect,
    )
    right = Choice(first.rule, getattr(first, aspect), 1.0)
    return build(point, asked, [right, *wrong[:WRONG_SAYINGS]])


def strange_words(says: str, case: str) -> int:
    """Count what a wrong answer names and the question does not, bases, figures, ballasts: it gives it away."""
    named, known = ({word.strip("().,:;") for word in text.split()} for text in (says, case))
    return sum(any(map(str.isdigit, word)) or word in TELLING for word in named - known)


def _others(lore: Lore, family: str, asked: Setting, aspect: Aspect) -> Iterator[Choice]:
    """Yield what other rules say, those of the same lamp first: figures of another would give them away.

    One case of each scenario comes before the next of any: cases of one scenario mostly come to the same.
    """
    told = told_of(lore, asked)
    cautions = (*lore.assessed(asked.case).cautions, *(told.cautions if told is not None else ()))
    taken = {text for caution in cautions for text in (caution.rule, getattr(caution, aspect))}
    met, count = settings_of_family(lore, family), Counter[tuple[str, str]]()
    order: list[tuple[bool, int, Setting]] = []
    for one in met:
        order.append((one.lamp != asked.lamp, count[one.lamp, one.scenario], one))
        count[one.lamp, one.scenario] += 1
    for *_, setting in sorted(order, key=itemgetter(0, 1))[:CASES_ASKED]:
        for caution in lore.assessed(setting.case).cautions:
            text = getattr(caution, aspect)
            if taken.isdisjoint({caution.rule, text}):
                taken |= {caution.rule, text}
                yield Choice(caution.rule, text)


def signal_of(catalogue: Catalogue, card: Card) -> str | None:
    """Return the signal word of the first caution of a card that asks about selling."""
    if card.axis not in ("verdict", "caution"):
        return None
    told = told_of(lore_of(catalogue), Setting("", card.case.chosen or "", card.case, card.instead))
    return told.cautions[0].signal if told is not None and told.cautions else None
