"""What may go in instead, and why not the others: lamps first, LED types after them."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from counter.catalogue import shape_words
from counter.fit._asks import blocking
from counter.fit._codes import with_label
from counter.fit._facts import HIGH_FREQUENCY, Facts, facts, is_listed
from counter.fit._holder import compare
from counter.fit._judge import find, in_words
from counter.fit._led import led_types
from counter.fit._models import VERDICTS, Replacement, strictest
from counter.fit._near import keyed_counterpart, on_base, other_keys, pin_counterpart, uvc_twins
from counter.fit._texts import questions, verdict_of, white_codes
from counter.fit.rules._beyond import is_named, suits
from counter.fit.rules._holder import TWO_END_SLACK_MM
from counter.fit.rules._supply import eighths
from counter.language import figure, marked, tr

if TYPE_CHECKING:
    from collections.abc import Iterator

    from counter.catalogue import Catalogue, Lamp
    from counter.fit._models import Caution, Fixture, Use, Verdict

MOST_REFUSED = 8
SEEN_SLACK_MM = 15.0  # a length measured by eye and ruler, pins counted or not


class Offer(NamedTuple):
    """A lamp to judge, and what it is to the one in hand."""

    lamp: Lamp
    title: str
    cct_k: int | None = None
    note: str = ""
    is_any_colour: bool = False
    must_ask: bool = False


OWN_COLOUR = marked("The print names a colour of its own: ask what it is for before another one goes in.")


def replacements(
    catalogue: Catalogue,
    lamp: Lamp,
    fixture: Fixture,
    use: Use = "unknown",
    cct_k: int | None = None,
    seen_mm: float | None = None,
    is_white: bool = True,
) -> tuple[Replacement, ...]:
    """Return what may replace a lamp in this fixture, best first, and the refused ones with their reason.

    `cct_k` is the colour of the lamp in hand, `seen_mm` its length where somebody measured it; one that `is_white`
    may be replaced by another white, a coloured one is not replaced by another colour unasked. No LED lamp is ever
    plainly `sell`: that hangs on the list or label of one product, which this catalogue does not hold.
    """
    labelled = with_label(catalogue, fixture)
    known = facts(catalogue, lamp, labelled, use, cct_k)
    lamps = [_judged(known, offer) for offer in _offers(known, seen_mm, is_white)]
    if lamps[0].verdict == "do not sell":  # then no colour of it will do
        lamps = [one for one in lamps if one.lamp != lamp.id or one is lamps[0]]
    found = [*lamps, *led_types(known)]
    found.sort(key=lambda one: (VERDICTS.index(one.verdict), _is_unlisted(known, one)))
    refused = [one for one in found if one.verdict == "do not sell" and one.led_type is None]
    return tuple(
        one for one in found if one.verdict != "do not sell" or one.led_type or one in refused[:MOST_REFUSED]
    )


def _is_unlisted(known: Facts, one: Replacement) -> bool:
    """Whether the ballast label lists lamps, and not this one: what it lists is offered first."""
    if one.lamp is None or not known.fixture.ballast_watts:
        return False
    return not is_listed(known.catalogue.lamp_by_id[one.lamp], known.fixture)


def wanted(catalogue: Catalogue, fixture: Fixture, use: Use = "unknown") -> tuple[Replacement, ...]:
    """Return the lamps that the fixture itself asks for, best first; none where no holder is named.

    For the customer who has no lamp along, or one that cannot be read.
    """
    labelled = with_label(catalogue, fixture).model_copy(update={"came_out": False})  # no lamp is there that can have
    bases = [base for base in catalogue.bases if compare(catalogue, base, labelled.holder).says in ("same", "family")]
    found = []
    for base in bases:
        for lamp in catalogue.lamps_on[base.designation]:
            is_named = is_listed(lamp, labelled) or (not labelled.ballast_watts and not lamp.is_saver)
            if is_named and _is_for(lamp, use):
                known = facts(catalogue, lamp, labelled, use)
                offer = _judged(known, Offer(lamp, _named(marked("What the fixture takes: {lamp}"), lamp, lamp)))
                found.append(_if_used_for_light(offer) if use == "unknown" and uvc_twins(catalogue, lamp) else offer)
    return tuple(
        sorted((one for one in found if one.verdict != "do not sell"), key=lambda one: VERDICTS.index(one.verdict))
    )


def _if_used_for_light(one: Replacement) -> Replacement:
    """Ask what the fixture is for where germicidal units take the same base: no lamp is there to tell."""
    if one.verdict != "sell":
        return one
    return one.model_copy(update={"verdict": "ask first", "reason": _to_ask("use")})


def _to_ask(about: str) -> str:
    return tr("Ask first: {question}").format(question=tr(questions()[about].question))


def _is_for(lamp: Lamp, use: Use, like: Lamp | None = None) -> bool:
    """Whether a lamp is made for a use; with none named, for what the lamp in hand is for, or to see by."""
    if use == "unknown" and like is not None:
        return (lamp.kind, lamp.band) == (like.kind, like.band)
    return suits(lamp, use) if use not in ("lighting", "unknown") else lamp.kind == "fluorescent"


def _offers(known: Facts, seen_mm: float | None, is_white: bool) -> Iterator[Offer]:
    lamp = known.lamp
    yield Offer(lamp, _named(marked("The same lamp: {lamp}"), lamp, lamp), known.cct_k)
    if lamp.kind == "fluorescent":
        title = _named(marked("The same lamp in another colour: {lamp}"), lamp, lamp)
        note = _colour_note(known) if is_white else tr(OWN_COLOUR)
        yield Offer(lamp, title, note=note, is_any_colour=True, must_ask=not is_white)
    seen = {lamp.id}
    for offer in _other_lamps(known):
        if offer.lamp.id not in seen and _may_stand_in(known, offer.lamp) and _reaches(known, offer.lamp, seen_mm):
            seen.add(offer.lamp.id)
            yield offer


def _other_lamps(known: Facts) -> Iterator[Offer]:
    lamp, catalogue = known.lamp, known.catalogue
    base = known.match.base
    if base is not None:
        for other in _wanted_on(known, base.designation):
            if is_listed(other, known.fixture):
                title = _named(marked("What holder and ballast label name: {lamp}"), other, lamp)
                yield Offer(other, title, note=_other_than(known, other))
            elif not known.fixture.ballast_watts and base.designation != lamp.base:
                yield Offer(other, _named(marked("What the holder takes: {lamp}"), other, lamp))
    for other in sorted(_wanted_on(known, lamp.base), key=lambda one: one.watts != lamp.watts):
        yield Offer(other, _title(other, lamp), note=_other_than(known, other))
    for other in uvc_twins(catalogue, lamp)[:1]:
        yield Offer(other, _named(marked("The germicidal (UV-C) look-alike: {lamp}"), other, lamp))
    for name in _near_bases(known):
        for other in on_base(catalogue, name, lamp.kind):
            if other.band == lamp.band and abs(other.watts.value - lamp.watts.value) < 0.05:
                yield Offer(other, _named(marked("Same watts, other base: {lamp}"), other, lamp))


def _wanted_on(known: Facts, base: str) -> tuple[Lamp, ...]:
    return tuple(one for one in known.catalogue.lamps_on.get(base, ()) if _is_for(one, known.use, known.lamp))


def _may_stand_in(known: Facts, other: Lamp) -> bool:
    """Whether a saver is made for this place: for the lamp in hand, or by the label's own word."""
    if not other.is_saver or is_listed(other, known.fixture):
        return True
    return known.lamp.id in other.stands_in_for


def _reaches(known: Facts, other: Lamp, seen_mm: float | None) -> bool:
    """Whether a tube with two ends is as long as the one in hand, and a ring as wide; others need not be.

    A measured length counts before the catalogue's, and so does a measured room, by its own rule. Where one of two
    lengths is not known, nothing says that a tube reaches both holders.
    """
    length = other.lengths_mm
    if known.catalogue.base_of(other).mount != "two-ends" and other.shape != "circular":
        return True
    own = (seen_mm, seen_mm) if seen_mm is not None else known.lamp.lengths_mm
    slack = TWO_END_SLACK_MM if seen_mm is None else TWO_END_SLACK_MM + SEEN_SLACK_MM
    if length is None or own is None:
        return other.id == known.lamp.id
    return length[0] - slack <= own[1] and own[0] <= length[1] + slack


def _other_than(known: Facts, other: Lamp) -> str:
    """Say what a customer would notice: watts and length other than those of the lamp in hand, a saver's limits."""
    notes = _watts_note(known, other), _length_note(known.lamp, other), _saver_note(other)
    return " ".join(note for note in notes if note)


def _watts_note(known: Facts, other: Lamp) -> str:
    if other.is_saver or other.kind != known.lamp.kind:
        return ""  # said by what it is
    if other.watts.value < known.lamp.watts.value:
        return tr("Fewer watts, less light.")
    if other.watts.value == known.lamp.watts.value:
        return ""
    if known.on_mains:
        return tr("More watts, more heat: only if the fixture's label allows them.")
    return tr("More watts, more light and heat.")


def _length_note(lamp: Lamp, other: Lamp) -> str:
    if lamp.length_mm is None or other.length_mm is None:
        return ""
    own, its = lamp.length_mm.value, other.length_mm.value
    if abs(its - own) <= TWO_END_SLACK_MM:
        return ""
    told = tr("Its length is about {its} mm, not {own} mm: see that it fits.")
    return told.format(its=figure(round(its)), own=figure(round(own)))


def _saver_note(other: Lamp) -> str:
    least = other.starts_above_c
    if not other.is_saver or least is None:
        return ""
    told = tr("A saver: not where it gets colder than about {least} degrees Celsius.")
    return told.format(least=figure(least.value))


def _near_bases(known: Facts) -> Iterator[str]:
    base = known.lamp.base
    near = (pin_counterpart(base), keyed_counterpart(base), *other_keys(known.catalogue, base))
    return (name for name in near if name in known.catalogue.base_by_name and name is not None)


def _title(other: Lamp, lamp: Lamp) -> str:
    if other.watts.value == lamp.watts.value:
        if other.kind == lamp.kind:
            return _named(marked("Same base and watts, other tube: {lamp}"), other, lamp)
        return _named(marked("Same base and watts, other light: {lamp}"), other, lamp)
    if lamp.id in other.stands_in_for:
        return _named(marked("Reduced-wattage lamp: {lamp}"), other, lamp)
    return _named(marked("Same base, other watts: {lamp}"), other, lamp)


def _named(title: str, lamp: Lamp, beside: Lamp) -> str:
    """Return a title with a lamp type in it; a white one says so where the lamp in hand is none."""
    shape = f" {shape_words(lamp.shape)}" if lamp.shape else ""
    if lamp.shape == "linear" and lamp.tube_mm is not None and lamp.length_mm is not None:
        shape += f" {eighths(lamp.tube_mm.value)}, {figure(round(lamp.length_mm.value, 3))} mm"
    white = tr(", white for lighting") if beside.is_ultraviolet else ""
    kind = f", {tr(lamp.purposes[0])}" if lamp.purposes else white
    name = f"{figure(round(lamp.watts.value, 3))} W{shape}, {lamp.base}{kind}"
    return tr(title).format(lamp=name)


def _judged(known: Facts, offer: Offer) -> Replacement:
    trial = facts(known.catalogue, offer.lamp, _fixture_for(known, offer.lamp), known.use, offer.cct_k)
    if offer.is_any_colour:  # so none is compared with the room
        trial = trial._replace(fixture=trial.fixture.model_copy(update={"room_k": None}))
    findings = find(trial)
    verdict = strictest(map(verdict_of, findings))
    waiting = blocking(trial) if verdict != "do not sell" else ()
    is_unnamed = _is_germicidal_unasked(known, offer.lamp, trial)
    if waiting or offer.must_ask or is_unnamed:
        verdict = "ask first" if verdict == "sell" else verdict
    said = in_words(findings, offer.lamp.id)
    cautions = tuple(one for one in said if one.verdict != "sell" or one.signal != "NOTICE")
    reason = _reason(trial, verdict, cautions, waiting, is_unnamed=is_unnamed)
    return Replacement(
        title=offer.title,
        lamp=offer.lamp.id,
        verdict=verdict,
        reason=f"{reason} {offer.note}" if offer.note else reason,
        cautions=cautions,
    )


def _is_germicidal_unasked(known: Facts, lamp: Lamp, trial: Facts) -> bool:
    """Whether a UV-C lamp would be sold to somebody who brought another, and no label of the unit names it."""
    return lamp.kind == "uv-c" and known.lamp.kind != "uv-c" and not is_named(trial)


def _fixture_for(known: Facts, lamp: Lamp) -> Fixture:
    """Return the fixture as it stands to another lamp: that one burned there says nothing of it.

    While the holder is not known, it is taken to be one for the lamp in hand: what stands on another base is no
    replacement before the holder has been read; and where that lamp burned there, the holder has shown what it
    takes. Not so where the ballast says that the lamp in hand never belonged
    there: then its counterpart with the other pins may well be what the holder takes.
    """
    if lamp.id == known.lamp.id:
        return known.fixture
    is_told = known.match.says != "unknown" or (lamp.base == known.lamp.base and not known.fixture.came_out)
    is_open = is_told or (_is_stranger(known) and lamp.base == pin_counterpart(known.lamp.base))
    holder = known.fixture.holder if is_open else known.lamp.base
    return known.fixture.model_copy(update={"came_out": False, "holder": holder})


def _is_stranger(known: Facts) -> bool:
    """Whether the lamp in hand has a starter of its own and the ballast is electronic."""
    return known.has_starter and known.fixture.ballast in HIGH_FREQUENCY


def _reason(
    known: Facts, verdict: Verdict, cautions: tuple[Caution, ...], waiting: tuple[str, ...], *, is_unnamed: bool
) -> str:
    objecting = [one for one in cautions if one.verdict == verdict != "sell"]
    if objecting:
        return f"{objecting[0].says} {objecting[0].why}"
    if waiting:
        return _to_ask(waiting[0])
    if is_unnamed:
        return tr("The lamp in hand is no germicidal one: read which lamp the unit's own label names.")
    return _all_that_matches(known)


def _all_that_matches(known: Facts) -> str:
    """Say what was found to match, and only that: a use that nobody asked for does not."""
    fixture = known.fixture
    found = {
        "base": known.match.says == "same",
        "ballast": fixture.ballast != "unknown" or known.listed,
        "use": known.use != "unknown",
    }
    names = tuple(name for name, is_known in found.items() if is_known)
    if not names and fixture.came_out:
        return tr("It worked there until it wore out.")
    return tr(MATCHES[names])


MATCHES = {
    (): marked("Nothing speaks against it."),
    ("base",): marked("Base matches."),
    ("ballast",): marked("Ballast matches."),
    ("use",): marked("Use matches."),
    ("base", "ballast"): marked("Base and ballast match."),
    ("base", "use"): marked("Base and use match."),
    ("ballast", "use"): marked("Ballast and use match."),
    ("base", "ballast", "use"): marked("Base, ballast and use all match."),
}


def _colour_note(known: Facts) -> str:
    room = known.fixture.room_k
    if room is None:
        return tr("Colour changes nothing electrical: match the other lamps in the room.")
    from counter.light import matching  # not needed before the first room with a colour

    try:
        nearest = matching(white_codes(), room)[0]
    except ValueError:
        return tr("Match the other lamps in the room.")
    told = tr("Nearest to {room} K is colour {code} ({mired} mired away).")
    return told.format(room=figure(room), code=nearest.code, mired=figure(nearest.difference_mired, ".0f"))
