"""What keeps a case open, gravest first, and what would close each: the one list that stamp and questions come from.

A lamp is settled when no doubt about it is left, and a sale is free when no doubt is left at all. A doubt is never
closed by a click that says nothing new: by a look, by the marks, by an answer to its question, or by words pressed
as read that nothing here explains. Words of UV, of LED or of another kind of lamp cannot be pressed away.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Literal

from pydantic import Field

from counter import fit, marks, words
from counter.catalogue import Model
from counter.desk._case import CANNOT_TELL
from counter.desk._disputes import disputes
from counter.desk._evidence import COATED_UV
from counter.desk._letters_asked import letters_asked
from counter.fit import Caution
from counter.language import figure, marked, tr
from counter.thresholds import ENOUGH_BITS, LEAST_OF_BEST, SETTLED_AT, TOLD_AT, UV_DOUBT

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator, Sequence

    from counter.catalogue import Catalogue, Lamp
    from counter.desk._evidence import Evidence
    from counter.fit import Judgement
    from counter.identify import NextLook

    Finder = Callable[[Evidence], Iterator["Doubt"]]

DoubtKind = Literal[
    "uv",  # marks or glass speak of UV
    "led",  # the marks speak of an LED or another kind of lamp
    "glass",  # a germicidal twin stands on the base, and nobody has looked at the glass
    "dispute",  # marks and looks contradict each other
    "against",  # something seen speaks against the lamp that is named
    "split",  # the marks contradict themselves
    "letters",  # something speaks against what letters mean in this shop
    "warned",  # a rule that warns of harm asks something
    "broken",  # a lamp lies broken
    "unread",  # words that no table explains
    "watts",  # a base is known, its watts are not
    "look",  # too little has been seen
    "fixture",  # something about the fixture that must be known
    "rule",  # a rule asks something
    "day",  # a place without a day: its law cannot be judged
]
ORDER: tuple[DoubtKind, ...] = DoubtKind.__args__  # type: ignore[attr-defined]
ABOUT_LAMP = frozenset({"uv", "led", "glass", "dispute", "against", "split", "letters", "unread", "watts", "look"})
MOST_NAMED = 3  # words that a question names
OPEN_END = "instead"  # what a doubt is about that no question can end: it is written down as open
NO_DAY = marked("A place but no day is given, so its law is not judged: give the day as “on”.")
LED_LAMP: tuple[words.Topic, ...] = ("led", "led-driver", "bypassed", "line-voltage")


class Doubt(Model):
    """One thing that keeps a case open: what it is about, what it says, and the question that could close it."""

    kind: DoubtKind
    about: str = Field(description="a look, a field of Case or Fixture, or a caution's rule")
    says: str
    ask: str
    caution: Caution | None = None
    key: str = Field("", description="under which a yes or no is kept in `Fixture.told`")
    words: tuple[str, ...] = Field((), description="words that can be pressed as read: they say nothing of the lamp")
    outcomes: tuple[str, ...] = ()

    @property
    def is_about_lamp(self) -> bool:
        """Whether it keeps the lamp itself open, whatever the fixture is."""
        return self.kind in ABOUT_LAMP


def lamp_doubts(seen: Evidence) -> tuple[Doubt, ...]:
    """Return what keeps the lamp open, gravest first; none: it is settled."""
    if seen.nothing_known and not seen.case.marks.strip():
        return ()
    return in_order(doubt for find in FINDERS for doubt in find(seen))


def fixture_doubts(judged: Judgement, of_lamp: Iterable[Doubt] = ()) -> tuple[Doubt, ...]:
    """Return what keeps a sale open that the lamp itself would allow: cautions that ask, and what is not known."""
    told = {one.caution.rule for one in of_lamp if one.caution is not None}
    asking = (one for one in judged.cautions if one.verdict == "ask first" and one.topic != "broken")
    asking = (one for one in asking if one.rule not in told)
    missing = (one for one in judged.asks if one.blocks)
    return (
        *(_of_caution(one) for one in asking),
        *(
            Doubt(kind="fixture", about=one.about, says=one.why, ask=one.question, outcomes=one.outcomes)
            for one in missing
        ),
    )


def _of_caution(one: Caution) -> Doubt:
    kind: DoubtKind = "warned" if one.signal in ("DANGER", "WARNING") else "rule"
    about = ABOUT_RULE.get(one.rule, one.rule)
    ask = one.ask or (_what_means(one.words) if one.words else one.do)
    return Doubt(kind=kind, about=about, says=one.says, ask=ask, caution=one, key=one.key, words=one.words)


def _what_means(unread: Sequence[str]) -> str:
    ask = tr("What does {words} mean? If it says nothing of the lamp, press it.")
    return ask.format(words=", ".join(f"“{fit.quoted(one)}”" for one in unread[:MOST_NAMED]))


ABOUT_RULE = {  # where the answer is given, if not by yes or no
    "uvc-use-unknown": "use",
    "uvc-use-unknown-no-figure": "use",
    "uva-use-unknown": "use",
    "uvb-use-unknown": "use",
    "look-uvc": "glass",
    "look-uvc-no-figure": "glass",
    "look-uvc-leading": "marks",
    "look-uvc-leading-no-figure": "marks",
    "label-unread": "label",
    "holder-words": "holder",
    "label-uv": "label",
    "label-led": "label",
}


def other_doubts(seen: Evidence) -> tuple[Doubt, ...]:
    """Return what keeps the case open beside lamp and fixture: a broken lamp, a law that cannot be judged."""
    case, found = seen.case, []
    if case.broken:
        said = fit.broken_caution()
        found.append(Doubt(kind="broken", about="broken", says=said.says, ask=tr(BROKEN_ASK), caution=said))
    if case.place is not None and case.on is None:
        found.append(Doubt(kind="day", about="on", says=tr(NO_DAY), ask=tr("On which day is it sold?")))
    return tuple(found)


BROKEN_ASK = marked("Is the broken lamp cleaned up, by the steps under Law?")


def in_order(found: Iterable[Doubt]) -> tuple[Doubt, ...]:
    """Return doubts, each once, the gravest first."""
    once: dict[tuple[str, str, str], Doubt] = {}
    for one in found:
        once.setdefault((one.kind, one.about, one.says), one)
    return tuple(sorted(once.values(), key=lambda one: ORDER.index(one.kind)))


# -- of the lamp, one finder a kind


def _uv(seen: Evidence) -> Iterator[Doubt]:
    """Words of UV in the marks, or clear glass, on what passes for another lamp."""
    lamp = seen.presumed
    kind = lamp.kind if lamp is not None else None
    is_read = seen.reading is not None and seen.reading.lamp.kind == "uv-c"
    if kind != "uv-c" and (said := seen.words_of_uvc or (is_read and " ".join(seen.case.marks.split())[:40])):
        yield _spoken("uv", fit.said_uv(said), tr(SAYS_GERMICIDAL))
    others = tuple(one for one in COATED_UV_WORDS if one not in _own_topics(lamp))
    if others and (said := words.speaks_of(others, seen.case.marks, of_lamp=True)):
        yield _spoken(
            "uv", fit.said_coated_uv(said), tr("What does its whole marking say, and which unit is it from?")
        )
    makes_ozone = lamp is not None and "ozone" in lamp.purposes
    if not makes_ozone and kind == "uv-c" and (said := words.speaks_of("ozone", seen.case.marks, of_lamp=True)):
        yield _spoken("uv", fit.said_uv(said), tr("Does the unit's own manual call for a lamp that makes ozone?"))
    if lamp is not None and not lamp.is_ultraviolet and seen.glass == "clear":
        for one in fit.seen_clear(seen.catalogue, lamp, seen.strongest_uvc(lamp.base)):
            yield Doubt(kind="uv", about="glass", says=one.says, ask=tr(GLASS_AGAIN), caution=one)
    if kind == "uv-c" and seen.chosen is None and not seen.says_germicidal:
        why = tr("Clear glass alone does not say which germicidal lamp it is. The unit's own label does.")
        yield Doubt(kind="uv", about="marks", says=why, ask=tr(SAYS_GERMICIDAL))


COATED_UV_WORDS: tuple[words.Topic, ...] = ("uv-b", "uv-a")


def _own_topics(lamp: Lamp | None) -> tuple[words.Topic, ...]:
    """Return what words of ultraviolet a lamp's own print may hold: of tanning on UV-A lamps too."""
    if lamp is None or lamp.kind in ("fluorescent", "led"):
        return ()
    if lamp.kind == "uv-a":
        return COATED_UV_WORDS if {"tanning", "medical"} & set(lamp.purposes) else ("uv-a",)
    return ("uv-b",) if lamp.band == "uv-b" else ("uv-c",)


SAYS_GERMICIDAL = marked("Does its print or the unit's label say germicidal?")
GLASS_AGAIN = marked("Look again: is the glass really clear?")


def _spoken(kind: DoubtKind, said: Caution, ask: str) -> Doubt:
    return Doubt(kind=kind, about="marks", says=said.says, ask=ask, caution=said)


def _led(seen: Evidence) -> Iterator[Doubt]:
    if seen.lamp is not None and seen.lamp.kind == "led":
        return
    if said := words.speaks_of(LED_LAMP, seen.case.marks, of_lamp=True):
        yield _spoken("led", fit.said_led(said), tr("Is it an LED lamp? Read its type and its whole marking."))
    elif said := words.speaks_of("other-source", seen.case.marks, of_lamp=True):
        yield _spoken("led", fit.said_other_lamp(said), tr("What kind of lamp is it? Read its whole marking."))


def _glass(seen: Evidence) -> Iterator[Doubt]:
    """A UV twin that is likely enough, and nobody has seen what tells it apart."""
    lamp = seen.presumed
    if lamp is None or lamp.is_ultraviolet:
        return
    is_likely = seen.uv_share(lamp) >= UV_DOUBT or _leaves_uvc_open(seen, lamp)
    if not seen.is_white and seen.glass != "clear" and is_likely:
        why = tr("Germicidal lamps stand on this base too; their tube is clear.")
        yield Doubt(kind="glass", about="glass", says=why, ask=tr("Is the glass white or clear?"))
    if seen.case.use == "unknown" and seen.cct_k is None and seen.coated_uv_share(lamp) >= UV_DOUBT:
        why = tr("Ultraviolet lamps stand on this base too, coated like white ones.")
        yield Doubt(kind="glass", about="use", says=why, ask=tr("What was it for: light to see by?"))


def _leaves_uvc_open(seen: Evidence, lamp: Lamp) -> bool:
    """Whether a code without a colour may be worn: that of a germicidal lamp has a letter more, and no colour."""
    is_read = seen.reading is not None and seen.cct_k is None
    return is_read and any(one.watts.value == lamp.watts.value for one in fit.uvc_twins(seen.catalogue, lamp))


def _dispute(seen: Evidence) -> Iterator[Doubt]:
    for one in disputes(seen)[:1]:
        label = tr(seen.catalogue.look_by_key[one.look].label)
        ask = tr("Look again: {look}. The marks say otherwise.").format(look=label)
        yield Doubt(kind="dispute", about=one.look, says=one.text, ask=ask)


def _against(seen: Evidence) -> Iterator[Doubt]:
    if said := seen.marks.unlisted:
        yield Doubt(kind="against", about="marks", says=tr(UNLISTED).format(code=said), ask=tr(READ_SIGN_BY_SIGN))
        return
    if seen.lamp is None or disputes(seen):
        return
    for about in seen.against(seen.lamp)[:1]:
        look = seen.catalogue.look_by_key.get(about)
        says = tr("{watts}\N{THIN SPACE}W on {base} does not go with what was seen or read.")
        says = says.format(watts=figure(seen.lamp.watts.value), base=seen.lamp.base)
        label = tr(look.label if look is not None else THE_MARKS)
        if look is not None and about == "glass":
            says = tr(look.why)
        yield Doubt(kind="against", about=about, says=says, ask=tr("Look again: {look}").format(look=label))


THE_MARKS = marked("The marks")
UNLISTED = marked("“{code}” can be read as it stands, and no lamp like it is in the catalogue.")
READ_SIGN_BY_SIGN = marked("Read the print again, sign by sign, worn ones as “?”: does it say just this?")


def _split(seen: Evidence) -> Iterator[Doubt]:
    if seen.marks.is_split:
        says = tr("The marks contradict themselves.")
        ask = tr("Read the marks again: which of the two is printed there?")
        yield Doubt(kind="split", about="marks", says=says, ask=ask)
    said = fit.other_family(seen.case.marks, seen.presumed, seen.catalogue) if seen.presumed is not None else ""
    if said:
        says = tr("“{words}” names another family of lamps than the rest of the marks.").format(words=said)
        yield Doubt(kind="split", about="marks", says=says, ask=tr("Read the whole marking again: what does it say?"))


def _letters(seen: Evidence) -> Iterator[Doubt]:
    """Letters whose meaning in this shop the case speaks against; it is never changed without being asked."""
    for one in letters_asked(seen):
        passed = (one.letters,) if one.may_except else ()
        ask = tr("What does {letters} mean? Say it anew below the code, or forget it there.")
        yield Doubt(kind="letters", about="marks", says=one.says, ask=ask.format(letters=one.letters), words=passed)


def _unread(seen: Evidence) -> Iterator[Doubt]:
    """Words in the marks that nothing explains and nobody has read: they may name another kind of lamp."""
    left = unread_marks(seen)
    if not left:
        return
    said = fit.unread_marks(left)
    if words_may_be_pressed(left):
        yield Doubt(kind="unread", about="marks", says=said.says, ask=_what_means(left), caution=said, words=left)
    else:
        yield _spoken("unread", said, tr("Read the whole marking again: what does it say?"))


TELLING = re.compile(r"uv|\d ?ma\b")  # ultraviolet in any dress, and the current that a lamp is made for


def words_may_be_pressed(left: Iterable[str]) -> bool:
    """Whether words may be said to mean nothing: not those known to speak of UV, LED or another kind of lamp."""
    known = (*words.UV_TOPICS, *LED_LAMP, "other-source")
    return not any(
        TELLING.search(words.fold(part).plain) or any(one.topic in known for one in words.sayings(part, of_lamp=True))
        for part in left
    )


def unread_marks(seen: Evidence) -> tuple[str, ...]:
    """Return the words of the marks that no table explains and nobody has read.

    Without the harmless ones, those with a question of their own, and those that say what the lamp is named as.
    """
    read = words.plains(seen.case.explained)
    but = (*words.PRINTED, *_own_topics(seen.presumed))
    whole = seen.marks.text.strip()[:40] if seen.marks.is_split else ""  # that is a doubt of its own
    left = (one for one in seen.marks.unread if one != whole and not words.is_harmless(one, but))
    return tuple(one for one in left if words.fold(one).plain not in read)


def _saver(seen: Evidence) -> Iterator[Doubt]:
    """Letters that say "fewer watts than the number", where no such lamp is known: it is not the full one either."""
    lamp, reading = seen.lamp, seen.reading
    if lamp is None or reading is None or lamp.is_saver or lamp.shape != "linear":
        return
    if said := marks.saving_suffix(reading):
        says = tr(
            "“{letters}” means a saver: it takes fewer watts than its number says. No such lamp is in the catalogue."
        )
        ask = tr("How many watts does it take? Read the whole print.")
        yield Doubt(kind="against", about="marks", says=says.format(letters=said), ask=ask)


def _watts(seen: Evidence) -> Iterator[Doubt]:
    """A chosen base that comes in several wattages, of which none was seen; where none can be, what is left to do."""
    if seen.chosen is None or seen.lamp is not None:
        return
    found = sorted({one.watts.value for one in seen.in_question})
    listed = ", ".join(map(figure, found))
    says = tr("{base} comes in {watts}\N{THIN SPACE}W; choosing the base does not say which.")
    says = says.format(base=seen.in_question[0].base, watts=listed)
    about, ask = "watts", tr("Which watts are printed on it?")
    if seen.case.looks.get("watts") == CANNOT_TELL:
        about, ask = _by_length(seen) or _by_fixture(seen)
    yield Doubt(kind="watts", about=about, says=says, ask=ask)


def _by_length(seen: Evidence) -> tuple[str, str] | None:
    """Return the question for the length of a lamp whose watts nobody can read; None where it would tell nothing."""
    found = sorted({(one.length_mm.value, one.watts.value) for one in seen.in_question if one.length_mm is not None})
    if "length_mm" in seen.case.looks or len({length for length, _ in found}) < 2:
        return None
    each = tr("{watts}\N{THIN SPACE}W {length}\N{THIN SPACE}mm")
    listed = "; ".join(each.format(watts=figure(watts), length=figure(length)) for length, watts in found)
    return "length_mm", tr("How long is it? {lengths}").format(lengths=listed)


def _by_fixture(seen: Evidence) -> tuple[str, str]:
    """Return the way of a lamp that tells no more: by the fixture's label, and after that honestly to an end."""
    fixture = seen.case.fixture
    if not (fixture.ballast_watts or fit.parse_label(fixture.label).fields.get("ballast_watts")):
        return "ballast_watts", tr("Which lamp does the fixture's label name? Enter holder and watts.")
    if fixture.holder is None:
        return "holder", tr("What is printed on the holder? Instead then shows the lamp that it takes.")
    return OPEN_END, tr("It tells no more: sell nothing by it. Instead shows what the fixture asks for.")


def _look(seen: Evidence) -> Iterator[Doubt]:
    """Too little has been seen: the look that tells most."""
    if _is_seen_enough(seen) or (seen.chosen is not None and seen.lamp is None):
        return
    first = _worth_most(seen.next)
    if first is None:
        says = tr("Everything was looked at, and it can still be several lamps.")
        about, ask = "marks", tr("What is printed on it? Read it again, worn parts as “?”.")
        if not seen.case.marks.strip():
            about, ask = _by_fixture(seen)
        yield Doubt(kind="look", about=about, says=says, ask=ask)
        return
    label = tr(seen.catalogue.look_by_key[first.look].label)
    yield Doubt(kind="look", about=first.look, says=first.why, ask=tr("Look at “{look}”.").format(look=label))


def _worth_most(nexts: Sequence[NextLook]) -> NextLook | None:
    """Return the first look that is worth its while beside the one that tells most, else the first of all."""
    least = max(ENOUGH_BITS, max((one.bits for one in nexts), default=0) / LEAST_OF_BEST)
    return next((one for one in nexts if one.bits >= least), next(iter(nexts), None))


def _is_seen_enough(seen: Evidence) -> bool:
    """Whether the lamp is likely enough among all; white glass that was seen rules the clear ones out."""
    if seen.lamp is None:
        return False
    if seen.chosen is not None:
        return True
    return _share_of(seen, seen.lamp) >= SETTLED_AT and seen.told_share(seen.lamp) >= TOLD_AT


def _share_of(seen: Evidence, lamp: Lamp) -> float:
    ruled_out = 0.0
    if seen.is_white and lamp.kind != "uv-c":
        ruled_out = sum(one.probability for one in seen.candidates if one.kind == "uv-c")
    if seen.case.use == "lighting" and lamp.kind == "fluorescent":  # what lit a room is no coated UV lamp
        ruled_out += sum(one.probability for one in seen.candidates if one.kind in COATED_UV)
    return seen.chance(lamp) / (1 - ruled_out) if ruled_out < 1 else 0.0


FINDERS: tuple[Finder, ...] = (
    _uv,
    _led,
    _glass,
    _dispute,
    _against,
    _split,
    _letters,
    _saver,
    _unread,
    _watts,
    _look,
)


def advice(seen: Evidence, doubts: Sequence[Doubt]) -> str:
    """Return the one thing to do next: the question of the gravest doubt, in the words of its look if it is one."""
    catalogue, nexts = seen.catalogue, seen.next
    if not doubts:  # an untouched case has none either, and its first look is still to come
        return _look_words(catalogue, nexts[0]) if seen.nothing_known and nexts else tr("Nothing more to look at.")
    first = doubts[0]
    if first.kind == "broken":
        return first.ask
    if not any(one.is_about_lamp for one in doubts):
        return tr("Lamp known. Now ask about the fixture.")
    asked = next((one for one in nexts if one.look == first.about), None)
    return _look_words(catalogue, asked) if first.kind == "look" and asked is not None else first.ask


def _look_words(catalogue: Catalogue, one: NextLook) -> str:
    return f"{tr(catalogue.look_by_key[one.look].label)}: {one.why}"
