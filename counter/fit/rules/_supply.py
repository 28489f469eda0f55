"""Rules on what feeds the lamp: no ballast, the wrong kind of ballast, one made for another lamp."""

from __future__ import annotations

from math import ceil
from typing import TYPE_CHECKING

from counter.fit._codes import EIGHTH_MM, SAME_EIGHTHS, names, tube_codes
from counter.fit._drive import SAME_LENGTH, Drive, nearest_drive
from counter.fit._facts import HIGH_FREQUENCY, RUNS_LAMPS, Facts, Finding, is_unsure, number
from counter.fit._label import counts_for, parse_label
from counter.fit._texts import shared_chokes
from counter.fit.rules._start import starts_said
from counter.language import marked

if TYPE_CHECKING:
    from counter.catalogue import Figure, Lamp
    from counter.fit._models import Verdict

ANOTHER_LENGTH = marked("in another length")
THIN_TUBE_MM = 16.5  # the class that IEC 61347-2-3 wants end-of-life protection for: 16 mm and less, with tolerance

CLOSE_CURRENT = 0.05  # two lamps of the same watts whose currents differ by no more are one lamp to a ballast
TUBES_APART_MM = 6.0  # T8 from T12, not T4 from T5


def bypassed(facts: Facts) -> Finding | None:
    """A lamp that needs a ballast, on bare mains."""
    if not facts.discharge or facts.fixture.ballast not in ("bypassed", "none"):
        return None
    return Finding("mains-on-holder")


def led_driver(facts: Facts) -> Finding | None:
    """A driver for LEDs cannot start or steady a discharge."""
    return Finding("led-driver") if facts.discharge and facts.fixture.ballast == "led-driver" else None


def mains_lamp(facts: Facts) -> Finding | None:
    """A self-ballasted lamp must never meet a ballast, an LED driver or a rewired fixture unseen."""
    ballast = facts.fixture.ballast
    if not facts.on_mains or ballast in ("none", "unknown"):
        return None
    values = {"base": facts.base.designation}
    return Finding("mains-lamp-rewired" if ballast == "bypassed" else "mains-lamp-on-ballast", values)


def two_pin_on_electronic(facts: Facts) -> Finding | None:
    """The starter in a two-pin base works with a choke at mains frequency only."""
    if not (facts.discharge and facts.has_starter and facts.fixture.ballast in HIGH_FREQUENCY):
        return None
    return Finding("two-pin-on-electronic", {"base": facts.base.designation})


def electronic_only(facts: Facts) -> Finding | None:
    """The larger compact lamps exist for electronic ballasts alone; of others the ballast's own list decides."""
    if facts.fixture.ballast != "magnetic" or not facts.discharge or "magnetic" in facts.lamp.ballasts:
        return None
    watts, if_listed = facts.lamp.watts, facts.lamp.magnetic_if_listed
    has_lit = facts.fixture.came_out and not facts.fixture.ballast_watts  # so it may be one of those made for it
    if if_listed is not None and (facts.listed or has_lit):
        if code_is_named(facts):
            return None
        return Finding("magnetic-if-listed", {"watts": number(watts.value)}, watts.value, "W", if_listed.confidence)
    sure = facts.lamp.ballasts_from.confidence
    return Finding("electronic-only", {"watts": number(watts.value)}, watts.value, "W", sure)


def magnetic_only(facts: Facts) -> Finding | None:
    """Other lamps made for magnetic ballasts; a label that names the watts leaves a doubt open where ours is one.

    An electronic ballast whose label names the tube by its code was made for it: those for F40T12 were common.
    """
    if facts.has_starter or not facts.discharge or facts.fixture.ballast not in HIGH_FREQUENCY:
        return None
    if "electronic" in facts.lamp.ballasts or code_is_named(facts):
        return None
    sure = facts.lamp.ballasts_from.confidence
    verdict: Verdict | None = "ask first" if facts.listed and is_unsure(sure) else None
    watts = facts.lamp.watts.value
    return Finding("magnetic-only", {"watts": number(watts)}, watts, "W", sure, verdict)


def not_listed(facts: Facts) -> Finding | None:
    """The label lists other watts: how far off, by current and by watts."""
    if facts.listed or not facts.discharge or facts.fixture.ballast not in (*RUNS_LAMPS, "unknown"):
        return None
    if facts.match.says == "base":
        return None  # what does not go in is driven by nothing
    drive = nearest_drive(facts)
    if drive is None:
        return None
    return _shared_choke(facts, drive) or _saver_unlisted(facts) or _off(facts, drive)


def _saver_unlisted(facts: Facts) -> Finding | None:
    """A saver where the label names the lamp it stands in for: many such ballasts run it, but not all."""
    lamp, fixture = facts.lamp, facts.fixture
    for name in lamp.stands_in_for:
        full = facts.catalogue.lamp_by_id[name].watts.value
        if any(abs(watts - full) < 0.05 for watts in fixture.ballast_watts):
            values = {"watts": number(lamp.watts.value), "full": number(full)}
            sure = lamp.stands_in_from.confidence if lamp.stands_in_from else None
            return Finding("saver-unlisted", values, full, "W", sure)
    return None


def _off(facts: Facts, drive: Drive) -> Finding:
    values = _drive_values(facts, drive)
    if drive.current is None:
        rule = "watts-off" if drive.is_off else "not-listed"
        return Finding(rule, values, round(drive.watts, 3), "times the lamp's watts", facts.lamp.watts.confidence)
    rule = "not-listed-close"
    if drive.is_current_off:
        rule = "over-driven" if drive.current > 1 else "under-driven"
    elif drive.is_off:
        rule = "watts-off-same-current"
    return Finding(rule, values, round(drive.current, 3), "times the lamp's current", drive.confidence)


def _drive_values(facts: Facts, drive: Drive) -> dict[str, str]:
    percent = abs((drive.current or drive.watts) - 1) * 100
    return {
        "watts": number(facts.lamp.watts.value),
        "listed": " or ".join(map(number, facts.fixture.ballast_watts)),
        "nearest": number(drive.listed_w),
        "design_a": number(drive.design_a or 0),
        "lamp_a": number(drive.lamp_a or 0),
        "frequency": drive.frequency,
        "percent": f"{percent:.0f}",
        "within": f"{max(ceil(percent), 1)}",
        "more_or_less": "more" if (drive.current or drive.watts) > 1 else "less",
    }


def _shared_choke(facts: Facts, drive: Drive) -> Finding | None:
    if facts.fixture.ballast not in ("magnetic", "unknown") or drive.is_current_off:
        return None
    for choke in shared_chokes():
        if facts.base.designation in choke.bases and {facts.lamp.watts.value, drive.listed_w} <= set(choke.watts):
            ratio = round(drive.current or 1, 3)
            values = _drive_values(facts, drive)
            return Finding(choke.rule, values, ratio, "times the lamp's current", choke.confidence)
    return None


def same_watts_other_tube(facts: Facts) -> Finding | None:
    """The label's watts may mean a lamp of the same base and watts with a thicker or thinner tube."""
    lamp, tube = facts.lamp, facts.lamp.tube_mm
    if facts.base.mount != "two-ends" or not facts.listed or tube is None or _label_says_tube(facts, tube.value):
        return None  # compact lamps of one base and wattage all have one current
    for other in facts.catalogue.lamps_on[lamp.base]:
        other_tube = other.tube_mm
        if other.watts.value != lamp.watts.value or other_tube is None or not _may_be_meant(lamp, other):
            continue
        if _is_hardly_met(other, lamp):
            continue
        if abs(other_tube.value - tube.value) > TUBES_APART_MM and _same_length(facts, other.length_mm):
            values = {"watts": number(lamp.watts.value), "tube": eighths(tube.value)}
            return Finding("same-watts-other-tube", values | {"other": eighths(other_tube.value)}, tube.value, "mm")
    return None


def same_watts_other_length(facts: Facts) -> Finding | None:
    """The label's watts may mean a lamp of another length on the same base; where it burned, it fits."""
    lamp, own, fixture = facts.lamp, facts.lamp.length_mm, facts.fixture
    is_told = fixture.came_out or fixture.space_mm is not None or code_is_named(facts)
    if facts.base.mount != "two-ends" or not facts.listed or own is None or is_told:
        return None
    for other in facts.catalogue.lamps_on[lamp.base]:
        is_meant = other.watts.value == lamp.watts.value and (other.kind, other.band) == (lamp.kind, lamp.band)
        if is_meant and _runs_there(facts, other) and not _is_as_long(facts, other):
            length = other.length_mm
            values = {"watts": number(lamp.watts.value), "base": lamp.base, "length": number(own.value)}
            values["other"] = f"{number(length.value)} mm" if length is not None else ANOTHER_LENGTH
            return Finding("same-watts-other-length", values, own.value, "mm", own.confidence)
    return None


def length_not_known(facts: Facts) -> Finding | None:
    """A tube with two ends of which no length is known: nothing says that it reaches both holders."""
    lamp, is_told = facts.lamp, facts.fixture.came_out or code_is_named(facts)
    if facts.base.mount != "two-ends" or lamp.length_mm is not None or is_told:
        return None
    return Finding("length-not-known", {"watts": number(lamp.watts.value), "base": lamp.base})


def _runs_there(facts: Facts, other: Lamp) -> bool:
    """Whether another lamp goes with the kind of ballast and with the tubes that the label names."""
    kind = "electronic" if facts.fixture.ballast in HIGH_FREQUENCY else facts.fixture.ballast
    tubes = parse_label(facts.fixture.label).tubes
    its = other.tube_mm.value / EIGHTH_MM if other.tube_mm is not None else 0.0
    is_named = not tubes or any(abs(one - its) < SAME_EIGHTHS for one in tubes)
    is_unsure_of = kind == "electronic" and is_unsure(other.ballasts_from.confidence)
    return is_named and (kind not in ("magnetic", "electronic") or kind in other.ballasts or is_unsure_of)


def _is_as_long(facts: Facts, other: Lamp) -> bool:
    """Whether another lamp is known to be as long; of a tube as thick an unknown length says nothing."""
    if other.length_mm is None:
        own, its = facts.lamp.tube_mm, other.tube_mm
        return own is None or its is None or abs(own.value - its.value) < EIGHTH_MM / 2
    return _same_length(facts, other.length_mm)


def _may_be_meant(lamp: Lamp, other: Lamp) -> bool:
    """Whether a label's watts may mean the other lamp: a saver is printed beside the lamp it stands in for, so that
    bare watts mean a full lamp before it, and never it before a full one.
    """
    if other.kind != lamp.kind or other.band != lamp.band or (other.is_saver and not lamp.is_saver):
        return False
    own, its = lamp.mains and lamp.mains.current_a, other.mains and other.mains.current_a
    return not own or not its or abs(its.value / own.value - 1) > CLOSE_CURRENT


def _same_length(facts: Facts, length: Figure | None) -> bool:
    own = facts.lamp.lengths_mm
    if own is None or length is None:
        return True
    return own[0] * (1 - SAME_LENGTH) <= length.value <= own[1] * (1 + SAME_LENGTH)


def _is_hardly_met(other: Lamp, lamp: Lamp) -> bool:
    """Whether a lamp of another tube is met so seldom beside this one that a label's bare watts will not mean it."""
    if lamp.tube_mm is None or other.tube_mm is None:
        return False
    is_other_tube = abs(lamp.tube_mm.value - other.tube_mm.value) > TUBES_APART_MM
    return is_other_tube and other.weight_met <= lamp.weight_met / 2


def code_is_named(facts: Facts) -> bool:
    """Whether the label names the lamp by a code with its number and tube: F40T12, F96T12/HO."""
    return any(names(code, facts.lamp, facts.catalogue) for code in tube_codes(facts.fixture.label))


def _label_says_tube(facts: Facts, tube_mm: float) -> bool:
    return eighths(tube_mm) in facts.fixture.label.upper().replace(" ", "")


def eighths(tube_mm: float) -> str:
    """Write a tube's diameter as lamp codes do: T and eighths of an inch."""
    return f"T{round(tube_mm / 25.4 * 8)}"


def too_many_lamps(facts: Facts) -> Finding | None:
    """More lamps than the label says it runs."""
    counts, lamps = counts_for(facts.fixture, facts.lamp.watts.value), facts.fixture.lamp_count
    if not counts or lamps is None or lamps in counts or not facts.discharge:
        return None
    values = {"count": number(lamps), "counts": " or ".join(map(str, counts))}
    rule = "too-many-lamps" if lamps > max(counts) else "too-few-lamps"
    return Finding(rule, values, lamps, "lamps")


def several_lamps(facts: Facts) -> Finding | None:
    """Lamps that share a ballast share its fate."""
    lamps = facts.fixture.lamp_count
    is_shared = lamps is not None and lamps > 1 and facts.discharge and facts.fixture.ballast in RUNS_LAMPS
    return Finding("several-lamps", {"count": number(lamps or 0)}, lamps, "lamps") if is_shared else None


def dimmed(facts: Facts) -> Finding | None:
    """Two pins never dim; four pins only on a dimming ballast."""
    if not facts.fixture.dimmer or not facts.discharge:
        return Finding("mains-lamp-dimmed") if facts.fixture.dimmer and facts.on_mains else None
    if facts.has_starter:
        return Finding("two-pin-dimmed", {"base": facts.base.designation})
    rule = {"magnetic": "dimmer-without-dimming-ballast", "electronic": "dimmer-on-electronic"}
    return Finding(rule[facts.fixture.ballast]) if facts.fixture.ballast in rule else None


def shunted(facts: Facts) -> Finding | None:
    """Holders with both contacts joined cannot heat a cathode."""
    if not facts.fixture.shunted or facts.base.mount != "two-ends" or facts.base.pins.value != 2:
        return None
    if starts_said(facts.fixture.label) == {"instant"}:
        return None  # the label answers what would be asked
    rule = "shunted-preheat" if facts.fixture.ballast in ("magnetic", "dimming") else "shunted-instant"
    return Finding(rule)


def outside_starter(facts: Facts) -> Finding | None:
    """On a choke, a lamp without a starter of its own has one in the fixture."""
    starter = facts.base.starter
    has_one = facts.fixture.ballast == "magnetic" and starter is not None and starter.value == "external"
    return Finding("starter-in-fixture") if has_one and "magnetic" in facts.lamp.ballasts else None


def end_of_life(facts: Facts) -> Finding | None:
    """How a worn-out lamp behaves on this ballast."""
    if not facts.discharge:
        return None
    if facts.fixture.ballast == "magnetic" and facts.has_starter:
        return Finding("worn-lamp-blinks")
    tube = facts.lamp.tube_mm
    if facts.fixture.ballast in HIGH_FREQUENCY and tube is not None and tube.value <= THIN_TUBE_MM:
        return Finding("worn-lamp-thin-tube", {"tube": number(tube.value)}, tube.value, "mm", tube.confidence)
    return None


def emergency(facts: Facts) -> Finding | None:
    """A battery pack drives the lamp too, and has a list of its own."""
    return Finding("emergency") if facts.fixture.emergency else None


def led_lamp(facts: Facts) -> Finding | None:
    """An LED lamp's type decides what may feed it, and the shipped catalogue knows no types of single lamps."""
    return Finding("led-type") if facts.lamp.kind == "led" and not facts.on_mains else None


def same_again(facts: Facts) -> Finding | None:
    """The lamp burned there until it died: holder and ballast take it, what the ballast lists stays open."""
    fixture = facts.fixture
    is_open = facts.match.says == "unknown" or fixture.ballast == "unknown" or not fixture.ballast_watts
    return Finding("same-again") if fixture.came_out and is_open else None


RULES = (
    bypassed,
    led_driver,
    mains_lamp,
    two_pin_on_electronic,
    electronic_only,
    magnetic_only,
    not_listed,
    same_watts_other_tube,
    same_watts_other_length,
    length_not_known,
    too_many_lamps,
    dimmed,
    shunted,
    emergency,
    led_lamp,
    several_lamps,
    outside_starter,
    end_of_life,
    same_again,
)
