"""What stands to be confused with the lamps in question, before anything is known of the fixture."""

from __future__ import annotations

from typing import TYPE_CHECKING

from counter.fit._facts import Finding, number
from counter.fit._judge import in_words
from counter.fit._label import quoted
from counter.fit._near import keyed_counterpart, pin_counterpart, uvc_twins, watts_on
from counter.fit._texts import answered, caution, plain_rule
from counter.fit.rules._use import exposing
from counter.thresholds import LEADING

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping

    from counter.catalogue import Base, Catalogue, Lamp
    from counter.fit._models import Caution, Use

    Chances = Mapping[str, float] | Iterable[tuple[str, float]]

MOST_BASES = 3  # of the leading candidates' bases: more at a time warn of nothing


def look_alikes(
    catalogue: Catalogue,
    ids_with_probability: Chances,
    lamp: Lamp | None = None,
    *,
    settled: bool = False,
    white: bool = False,
    strongest: Lamp | None = None,
) -> tuple[Caution, ...]:
    """Return the cautions that stand for the leading candidates, or for `lamp` once it is named.

    Germicidal look-alikes are named when the germicidal candidates together reach `LEADING` and something has been
    looked at, and whenever a leading lighting lamp has a germicidal twin on its base. Once glass was seen `white`
    nobody is sent to look at it again; once the lamp is `settled` only the lamp from the shelf is left to look at.
    `strongest` is the germicidal lamp that the figures are of while it is open which one it is. Ids that the
    catalogue does not know are passed over.
    """
    chances = {name: chance for name, chance in dict(ids_with_probability).items() if name in catalogue.lamp_by_id}
    names = sorted((name for name, chance in chances.items() if chance >= LEADING), key=lambda name: -chances[name])
    leaders = [lamp] if lamp else [catalogue.lamp_by_id[name] for name in names]
    is_known = settled and lamp is not None and lamp.kind == "uv-c"  # then the rule of germicidal lamps speaks
    findings = [] if is_known else _germicidal(catalogue, chances, leaders, named=lamp is not None, white=white)
    if strongest is not None and not (lamp is not None and lamp.kind == "uv-c"):
        findings = [_exposing(plain_rule(one.rule), strongest) for one in findings]
    if settled:
        findings = [one._replace(rule=one.rule.replace("look-uvc-twin", "look-uvc-shelf")) for one in findings]
    shares: dict[str, float] = {}
    for one in leaders:
        shares[one.base] = shares.get(one.base, 0.0) + chances.get(one.id, 0.0)
    bases = sorted(shares, key=lambda base: -shares[base])
    for base in bases[:MOST_BASES]:
        findings += _of_base(catalogue, catalogue.base_by_name[base])
    return in_words(_each_pair_once(findings))


def said_uv(words: str) -> Caution:
    """Return the caution for marks that speak of UV-C beside what reads as a lighting lamp, or as nothing."""
    return caution(Finding("marks-uv", {"words": words}))


def said_led(words: str) -> Caution:
    """Return the caution for marks that speak of an LED lamp beside what reads as a fluorescent one."""
    return caution(Finding("marks-led", {"words": words}))


def said_coated_uv(words: str) -> Caution:
    """Return the caution for marks that speak of UV-A or UV-B: such lamps may be coated like white ones."""
    return caution(Finding("marks-uv-coated", {"words": words}))


def said_other_lamp(words: str) -> Caution:
    """Return the caution for marks that speak of another kind of lamp."""
    return caution(Finding("marks-other-lamp", {"words": words}))


def unread_marks(words: Iterable[str]) -> Caution:
    """Return the caution for marks that nothing explains."""
    return caution(Finding("marks-unread", {"words": ", ".join(map(quoted, words))}, words=tuple(words)))


def printed(said: Mapping[str, str], lamp: str, use: Use, told: Mapping[str, bool]) -> tuple[Caution, ...]:
    """Return the cautions for what the print says the lamp from the shelf must be too, as the answers leave them.

    `said` holds the words by what they speak of, `lamp` is the lamp type's id. A lamp for newborn babies is refused
    for light to see by, whatever was answered.
    """
    findings = [Finding(f"print-{topic}", {"words": words}) for topic, words in said.items()]
    if use == "lighting":
        findings = [one._replace(verdict="do not sell") if one.rule == "print-newborn" else one for one in findings]
    return in_words([answered(one, lamp, told) for one in findings], lamp)


def seen_clear(catalogue: Catalogue, lamp: Lamp, strongest: Lamp | None = None) -> tuple[Caution, ...]:
    """Return the caution for clear glass on what otherwise passes for a lighting lamp."""
    twins = (strongest,) if strongest is not None else uvc_twins(catalogue, lamp)[:1]
    return in_words([_exposing("look-uvc-leading", twin) for twin in twins])


def soonest_to_harm(lamps: Iterable[Lamp]) -> Lamp | None:
    """Return the germicidal lamp whose daily limit is reached first; one without a figure only if none has one."""
    timed = [(exposing(lamp, "look-uvc"), lamp) for lamp in lamps]
    timed.sort(key=lambda row: (row[0].figure is None, row[0].figure or 0.0))
    return timed[0][1] if timed else None


def _germicidal(
    catalogue: Catalogue, chances: Mapping[str, float], leaders: list[Lamp], *, named: bool, white: bool
) -> list[Finding]:
    suspects = sorted(
        (lamp for name in chances if (lamp := catalogue.lamp_by_id[name]).kind == "uv-c"),
        key=lambda one: -chances[one.id],
    )
    total = sum(chances[one.id] for one in suspects)
    if leaders and leaders[0].kind == "uv-c":
        return [_exposing("look-uvc-leading", leaders[0])]
    if not named and not white and total >= LEADING and _is_narrowed(catalogue, chances):
        return [_exposing("look-uvc", suspects[0])]
    twins = [twin for leader in leaders for twin in uvc_twins(catalogue, leader)[:1]]
    return [_exposing("look-uvc-twin", twins[0])] if twins else []


def _is_narrowed(catalogue: Catalogue, chances: Mapping[str, float]) -> bool:
    return catalogue.is_narrowed(chances)  # with nothing looked at yet a warning would warn of all lamps


def _exposing(rule: str, lamp: Lamp) -> Finding:
    finding = exposing(lamp, rule)
    return finding._replace(values={**finding.values, "base": lamp.base, "watts": number(lamp.watts.value)})


def _of_base(catalogue: Catalogue, base: Base) -> Iterator[Finding]:
    name, watts = base.designation, watts_on(catalogue, base.designation)
    one_ended = base.mount == "push"
    if len(watts) > 1 and one_ended:
        yield Finding("look-watts", {"base": name, "watts": _or(watts)}, len(watts), "wattages")
    for rule, other in (("look-pins", pin_counterpart(name)), ("look-keyed-apart", keyed_counterpart(name))):
        if other in catalogue.base_by_name and one_ended:
            values = {
                "base": name,
                "other": other,
                "watts": _or(watts),
                "other_watts": _or(watts_on(catalogue, other)),
            }
            yield Finding(rule, values)


def _or(watts: tuple[float, ...]) -> str:
    return " or ".join(map(number, watts)) if len(watts) < 3 else f"{number(watts[0])} to {number(watts[-1])}"


def _each_pair_once(findings: list[Finding]) -> list[Finding]:
    seen: dict[tuple[str, frozenset[str | None]], Finding] = {}
    for finding in findings:
        pair = frozenset((finding.values.get("base"), finding.values.get("other")))
        seen.setdefault((finding.rule, pair), finding)
    return list(seen.values())
