"""Cards on selling: will you sell this lamp for that fixture, and what do you say first; both graded by `assess`.

All are critical: they are about ultraviolet and about what does not go together. A case is asked only where the
verdict does not hang on facts that the catalogue is unsure of.
"""

from __future__ import annotations

from itertools import islice
from typing import TYPE_CHECKING, NamedTuple, get_args

from counter.catalogue import TRUST
from counter.desk import Case
from counter.fit import Fixture, Use, Verdict, judge
from counter.training._build import Asked, Choice, build
from counter.training._case_words import case_words
from counter.training._facts import SURE
from counter.training._look_cards import true_answer
from counter.training._models import Point
from counter.training._settings import settings

if TYPE_CHECKING:
    import random
    from collections.abc import Iterator, Mapping

    from counter.catalogue import Base, Catalogue, Lamp
    from counter.fit import Ballast, Caution, Judgement
    from counter.training._facts import Lore
    from counter.training._models import Card

USE_OF: dict[str, Use] = {"fluorescent": "lighting", "uv-c": "germicidal", "uv-a": "blacklight"}
WRONG_SAYINGS = 3


class _Setting(NamedTuple):
    """One lamp and one fixture, told as a case."""

    scenario: str
    case: Case


def sale_points(lore: Lore) -> Iterator[Point]:
    """Yield the scenarios that each family's lamps can meet."""
    for family in lore.lamps_of:
        for scenario in dict.fromkeys(setting.scenario for setting in _settings(lore, family)):
            yield Point(
                id=f"sale/{family}/{scenario}", kind="sale", family=family, subject=scenario, is_critical=True
            )


def sale_card(lore: Lore, point: Point, rng: random.Random) -> Card | None:
    """Ask for the verdict or for the first caution on one case of the scenario."""
    cases = [setting.case for setting in _settings(lore, point.family) if setting.scenario == point.subject]
    rng.shuffle(cases)
    makers = [_verdict_card, _caution_card]
    rng.shuffle(makers)
    made = (maker(lore, point, case) for case in cases for maker in makers)
    return next((card for card in made if card is not None), None)


def cards_on_rule(lore: Lore, point: Point, rule: str) -> Iterator[Card]:
    """Yield at most one verdict card and one caution card of a scenario on which one rule decides."""
    if rule not in rules_of(lore, point):
        return
    for setting in (one for one in _settings(lore, point.family) if one.scenario == point.subject):
        if any(caution.rule == rule for caution in _judge(lore.catalogue, setting.case).cautions[:1]):
            made = (maker(lore, point, setting.case) for maker in (_caution_card, _verdict_card))
            yield from (card for card in made if card is not None)
            return


def rules_of(lore: Lore, point: Point) -> frozenset[str]:
    """Return the rules that decide in a scenario, for one lamp or another of the family; worked out once."""
    if point.id not in lore.rules:
        settings_here = (one for one in _settings(lore, point.family) if one.scenario == point.subject)
        firsts = (_judge(lore.catalogue, one.case).cautions[:1] for one in settings_here)
        lore.rules[point.id] = frozenset(caution.rule for first in firsts for caution in first)
    return lore.rules[point.id]


def scenario_of(lore: Lore, family: str, rule: str) -> str | None:
    """Return the first scenario of a family in which a rule decides, or None."""
    for setting in _settings(lore, family):
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


def _verdict_card(lore: Lore, point: Point, case: Case) -> Card | None:
    assessment, sure = lore.assessed(case), sure_judgement(lore, case)
    verdict = assessment.verdict
    if verdict is None or sure is None or sure.verdict != verdict:
        return None
    words = settings().words
    says, why = _because(sure, {caution.says: caution for caution in assessment.cautions})
    asked = Asked(
        kind="sale",
        axis="verdict",
        question={"case": case_words(lore.catalogue, case)},
        why={"verdict": words[verdict], "says": says, "why": why},
        case=case,
    )
    verdicts: tuple[Verdict, ...] = get_args(Verdict)
    return build(point, asked, [Choice(one, words[one], float(one == verdict)) for one in verdicts], keeps_order=True)


def _because(judged: Judgement, in_full: Mapping[str, Caution]) -> tuple[str, str]:
    """Return what decides, and why; the reason with its figures, unsure ones too, where they come to the same."""
    for caution in judged.cautions:
        if caution.verdict == judged.verdict != "sell" and TRUST[caution.confidence] >= SURE:
            return caution.says, _why(in_full.get(caution.says, caution))
    for ask in judged.asks:
        if ask.blocks:
            return ask.question, ask.why
    return settings().words["nothing objects"], ""


def _why(caution: Caution) -> str:
    """Return the reason, and say so where a figure in it is not confirmed."""
    doubt = "" if TRUST[caution.confidence] >= SURE else settings().words["unsure"]
    return f"{caution.why} {doubt}".strip()


def first_caution(lore: Lore, case: Case) -> Caution | None:
    """Return the first caution of a case, if sure facts alone put it first in the same words."""
    cautions, sure = lore.assessed(case).cautions, _judge(lore.sure, case).cautions
    if not cautions or not sure or TRUST[sure[0].confidence] < SURE:
        return None
    return cautions[0] if cautions[0].says == sure[0].says else None


def _caution_card(lore: Lore, point: Point, case: Case) -> Card | None:
    """Ask for the first caution among sayings that belong to other cases of the family."""
    first = first_caution(lore, case)
    if first is None:
        return None
    wrong = list(islice(_other_sayings(lore, point.family, case), WRONG_SAYINGS))
    asked = Asked(
        kind="caution",
        axis="caution",
        question={"case": case_words(lore.catalogue, case)},
        why={"signal": first.signal, "says": first.says, "why": _why(first)},
        case=case,
    )
    return build(point, asked, [Choice(first.rule, first.says, 1.0), *wrong])


def _other_sayings(lore: Lore, family: str, case: Case) -> Iterator[Choice]:
    """Yield cautions of other rules, those of the same lamp first: figures of another would give them away."""
    cautions = lore.assessed(case).cautions
    taken = {caution.rule for caution in cautions} | {caution.says for caution in cautions}
    for setting in sorted(_settings(lore, family), key=lambda setting: setting.case.chosen != case.chosen):
        for caution in _judge(lore.catalogue, setting.case).cautions:
            if taken.isdisjoint({caution.rule, caution.says}):
                taken |= {caution.rule, caution.says}
                yield Choice(caution.rule, caution.says)


def _settings(lore: Lore, family: str) -> list[_Setting]:
    """Return the cases asked about a family, in catalogue order."""
    return [setting for lamp in lore.lamps_of.get(family, ()) for setting in _settings_of(lore, lamp)]


def _settings_of(lore: Lore, lamp: Lamp) -> Iterator[_Setting]:
    base, right = lore.catalogue.base_of(lamp), USE_OF.get(lamp.kind, "unknown")
    watts = () if base.supply == "mains" else (lamp.watts.value,)
    fitting = Fixture(holder=base.designation, ballast=_right_ballast(lamp, base), ballast_watts=watts)
    looks = _looks(lore, lamp)

    def told(scenario: str, fixture: Fixture, use: Use) -> _Setting:
        return _Setting(scenario, Case(looks=looks, chosen=lamp.id, fixture=fixture, use=use))

    yield told("right", fitting, right)
    yield told("unknown-ballast", Fixture(holder=base.designation), right)
    for other in _other_bases(lore, base):
        yield told("other-base", fitting.model_copy(update={"holder": other}), right)
    if lamp.kind == "uv-c":
        yield told("for-lighting", fitting, "lighting")
        yield told("use-unknown", fitting, "unknown")
    for scenario, change in _wrong_supplies(lore, lamp, base):
        yield told(scenario, fitting.model_copy(update=change), right)


def _looks(lore: Lore, lamp: Lamp) -> dict[str, str | float]:
    """Return the looks that the words of a case give away."""
    keys = ("legs", "watts", "glass") if lamp.glass else ("legs", "watts")
    return {key: true_answer(lore, lamp, key) for key in keys}


def _right_ballast(lamp: Lamp, base: Base) -> Ballast:
    if base.supply == "mains":
        return "none"
    return "electronic" if lamp.ballasts[0] == "electronic" else "magnetic"


def _other_bases(lore: Lore, base: Base) -> Iterator[str]:
    """Yield holders that the lamp does not belong into: its own family's other keys, and the closest look-alike's."""
    yield from (other.designation for other in lore.catalogue.bases if other.family == base.family and other != base)
    closest = lore.alike(base.family)[:2]
    yield from (other.designation for other in lore.catalogue.bases if other.family in closest)


def _wrong_supplies(lore: Lore, lamp: Lamp, base: Base) -> Iterator[tuple[str, dict[str, object]]]:
    """Yield what may feed the holder wrongly."""
    if base.supply == "mains":
        yield "on-ballast", {"ballast": "magnetic"}
        return
    watts = {other.watts.value for other in lore.lamps_of[base.family]} - {lamp.watts.value}
    for one in sorted(watts):
        yield "other-watts", {"ballast_watts": (one,)}
    for ballast in ("magnetic", "electronic"):
        if ballast not in lamp.ballasts:
            yield "other-ballast", {"ballast": ballast}
    yield "led-driver", {"ballast": "led-driver", "ballast_watts": ()}
    yield "bypassed", {"ballast": "bypassed", "ballast_watts": ()}
