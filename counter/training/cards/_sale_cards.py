"""Cards on selling: will you sell this lamp for that fixture, and what do you say first; both graded by `assess`.

All are critical: they are about ultraviolet and about what does not go together. A case is asked only where the
verdict does not hang on facts that the catalogue is unsure of.
"""

from __future__ import annotations

from itertools import islice
from typing import TYPE_CHECKING, get_args

from counter.catalogue import TRUST
from counter.desk import CANNOT_TELL, assess
from counter.fit import Judgement, Verdict, judge
from counter.training._models import Point
from counter.training._settings import settings
from counter.training.cards._build import Asked, Choice, build
from counter.training.cards._case_words import case_words
from counter.training.cards._facts import SURE
from counter.training.cards._facts import lore as lore_of
from counter.training.cards._sale_cases import Setting, settings_of_family

if TYPE_CHECKING:
    import random
    from collections.abc import Iterator

    from counter.catalogue import Catalogue
    from counter.desk import Case
    from counter.fit import Caution, Replacement
    from counter.training._models import Card
    from counter.training.cards._facts import Lore

TELLING = frozenset({"LED", "electronic", "magnetic", "dimmer", "mains", "germicidal"})
SAYINGS_WEIGHED = 8  # to find them is what takes a card its time
WRONG_SAYINGS = 3


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
    """Return the first scenario of a family in which a rule decides, or None."""
    for setting in settings_of_family(lore, family):
        if any(caution.rule == rule for caution in _judge(lore.catalogue, setting.case).cautions[:1]):
            return setting.scenario
    return None


def sure_judgement(lore: Lore, case: Case) -> Judgement | None:
    """Return the judgement from sure facts alone, or None when they do not carry the verdict by themselves."""
    judged = _judge(lore.sure, case)
    told = [caution for caution in judged.cautions if caution.verdict == judged.verdict]
    is_told = any(TRUST[caution.confidence] >= SURE for caution in told) or any(ask.blocks for ask in judged.asks)
    return judged if judged.verdict == "sell" or is_told else None


def _judge(catalogue: Catalogue, case: Case) -> Judgement:
    return judge(catalogue, catalogue.lamp_by_id[case.chosen or ""], case.fixture, case.use)


def verdict_card(lore: Lore, point: Point, setting: Setting) -> Card | None:
    """Ask whether the lamp may be sold; None where sure facts alone do not say so."""
    told, sure = told_of(lore, setting), sure_of(lore, setting)
    is_doubtful = setting.case.chosen is None or setting.case.looks.get("glass") == CANNOT_TELL
    if is_doubtful or told is None or sure is None or sure.verdict != told.verdict:
        return None
    words = settings().words
    says, why = _because(sure, told)
    asked = Asked(
        kind="sale",
        axis="verdict",
        question={"case": _told_words(lore, setting)},
        why={"verdict": words[told.verdict], "says": says, "why": why},
        case=setting.case,
        instead=setting.instead,
    )
    verdicts: tuple[Verdict, ...] = get_args(Verdict)
    choices = [Choice(one, words[one], float(one == told.verdict)) for one in verdicts]
    return build(point, asked, choices, keeps_order=True)


def told_of(lore: Lore, setting: Setting) -> Judgement | None:
    """Return what `assess` says of the lamp, or of the LED type in its place; None where it says nothing."""
    found = lore.assessed(setting.case)
    if setting.instead is None:
        return None if found.verdict is None else Judgement(verdict=found.verdict, cautions=found.cautions)
    led = _led(lore, setting)
    return None if led is None else Judgement(verdict=led.verdict, cautions=led.cautions)


def _led(lore: Lore, setting: Setting) -> Replacement | None:
    offered = lore.assessed(setting.case).replacements
    return next((one for one in offered if one.led_type == setting.instead is not None), None)


def _told_words(lore: Lore, setting: Setting) -> str:
    led = _led(lore, setting)
    return case_words(lore.catalogue, setting, led.title if led is not None else "")


def sure_of(lore: Lore, setting: Setting) -> Judgement | None:
    """Return the judgement from sure facts alone, or None when they do not carry it.

    What goes beyond lamp, fixture and use (marks, a broken lamp, the law, LED types) is sure where its caution is.
    """
    if setting.instead is None and is_plain(setting.case):
        return sure_judgement(lore, setting.case)
    told, first = told_of(lore, setting), first_caution(lore, setting)
    return told if told is not None and first is not None and first.verdict == told.verdict else None


def is_plain(case: Case) -> bool:
    """Whether lamp, fixture and use are all there is to a case."""
    is_unseen = case.looks.get("glass") == CANNOT_TELL  # then look-alikes have a say, which no lamp alone has
    return not (case.chosen is None or case.marks or case.broken or case.place or is_unseen)


def first_rule(lore: Lore, setting: Setting) -> str | None:
    """Return the rule that speaks first in a case, without looking whether it is sure."""
    if setting.instead is None and is_plain(setting.case):
        cautions = _judge(lore.catalogue, setting.case).cautions
        if cautions and cautions[0].verdict != "sell":
            return cautions[0].rule  # look-alikes only speak before what allows the sale
    told = told_of(lore, setting)
    return told.cautions[0].rule if told is not None and told.cautions else None


def _because(judged: Judgement, told: Judgement) -> tuple[str, str]:
    """Return what decides, and why; the reason with its figures, unsure ones too, where they come to the same.

    `judged` rests on sure facts of lamp and fixture, `told` is all that the counter says, look-alikes too.
    """
    in_full = {caution.says: caution for caution in told.cautions}
    for caution in judged.cautions:
        if caution.verdict == judged.verdict != "sell" and TRUST[caution.confidence] >= SURE:
            return caution.says, _why(in_full.get(caution.says, caution))
    for ask in judged.asks:
        if ask.blocks:
            return ask.question, ask.why
    words, first = settings().words, next(iter((*told.cautions, *judged.cautions)), None)
    if first is None:
        return words["nothing objects"], ""
    return words["nothing objects"], words["say with it"].format(says=first.says, why=_why(first))


def _why(caution: Caution) -> str:
    """Return the reason, and say so where a figure in it is not confirmed."""
    doubt = "" if TRUST[caution.confidence] >= SURE else settings().words["unsure"]
    return f"{caution.why} {doubt}".strip()


def first_caution(lore: Lore, setting: Setting) -> Caution | None:
    """Return the first caution of a case, if sure facts alone put it first in the same words."""
    told = told_of(lore, setting)
    if told is None or not told.cautions:
        return None
    first = told.cautions[0]
    if setting.instead is not None:
        return first if TRUST[first.confidence] >= SURE else None
    case = setting.case
    sure = _judge(lore.sure, case).cautions if is_plain(case) else assess(lore.sure, case).cautions
    return first if sure and TRUST[sure[0].confidence] >= SURE and sure[0].says == first.says else None


def caution_card(lore: Lore, point: Point, setting: Setting) -> Card | None:
    """Ask for the first caution among sayings that belong to other cases of the family."""
    first = first_caution(lore, setting)
    if first is None:
        return None
    case = _told_words(lore, setting)
    met = islice(_other_sayings(lore, point.family, setting), SAYINGS_WEIGHED)
    wrong = sorted(met, key=lambda one: strange_words(one.text, case))
    asked = Asked(
        kind="caution",
        axis="caution",
        question={"case": case},
        why={"signal": first.signal, "says": first.says, "why": _why(first)},
        case=setting.case,
        instead=setting.instead,
    )
    return build(point, asked, [Choice(first.rule, first.says, 1.0), *wrong[:WRONG_SAYINGS]])


def strange_words(says: str, case: str) -> int:
    """Count what a wrong answer names and the question does not, bases, figures, ballasts: it gives it away."""
    named, known = ({word.strip("().,:;") for word in text.split()} for text in (says, case))
    return sum(any(map(str.isdigit, word)) or word in TELLING for word in named - known)


def _other_sayings(lore: Lore, family: str, asked: Setting) -> Iterator[Choice]:
    """Yield cautions of other rules, those of the same lamp first: figures of another would give them away."""
    told = told_of(lore, asked)
    cautions = (*lore.assessed(asked.case).cautions, *(told.cautions if told is not None else ()))
    taken = {caution.rule for caution in cautions} | {caution.says for caution in cautions}
    met = settings_of_family(lore, family)
    for setting in sorted(met, key=lambda setting: setting.case.chosen != asked.case.chosen):
        for caution in _judge(lore.catalogue, setting.case).cautions:
            if taken.isdisjoint({caution.rule, caution.says}):
                taken |= {caution.rule, caution.says}
                yield Choice(caution.rule, caution.says)


def signal_of(catalogue: Catalogue, card: Card) -> str | None:
    """Return the signal word of the first caution of a card that asks about selling."""
    if card.axis not in ("verdict", "caution") or card.case is None:
        return None
    told = told_of(lore_of(catalogue), Setting("", card.case.chosen or "", card.case, card.instead))
    return told.cautions[0].signal if told is not None and told.cautions else None
