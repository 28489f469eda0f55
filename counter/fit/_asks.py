"""Which unknowns to ask for: those whose answer could change the verdict, the most telling first.

Each possible answer is tried with everything else as it is. The more different verdicts come out, and the more
evenly, the more telling the question.
"""

from __future__ import annotations

from collections import Counter
from math import log2
from typing import TYPE_CHECKING, NamedTuple, get_args

from counter.fit._facts import Facts, number
from counter.fit._holder import compare
from counter.fit._label import counts_for
from counter.fit._models import Ask, Ballast, Use, Verdict
from counter.fit._texts import questions, spoken
from counter.language import marked, tr

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from typing import Any

    from counter.catalogue import Lamp

NO_BALLAST = marked("no ballast")
_LEADING = ("use", "ballast", "holder", "ballast_watts")  # among questions that tell alike


class Unknown(NamedTuple):
    """A field that is not known, its possible answers, and whether the lamp may go without one."""

    about: str
    answers: tuple[tuple[str, Any], ...]
    blocks: bool


def asks(known: Facts, verdict_of: Callable[[Facts], Verdict]) -> tuple[Ask, ...]:
    """Return the questions, those that block first, then the most telling."""
    weighed = []
    for unknown in _unknowns(known):
        outcomes = [(label, verdict_of(_with(known, unknown.about, value))) for label, value in unknown.answers]
        found = Counter(verdict for _, verdict in outcomes)
        if len(found) < 2 and not unknown.blocks:
            continue
        telling = (unknown.about != "came_out", -len(found), -round(_bits(found), 6), _among_equals(unknown.about))
        weighed.append(((not unknown.blocks, not _is_of_harm(known, unknown), *telling), unknown, outcomes))
    weighed.sort(key=lambda row: row[0])
    return tuple(_ask(unknown, outcomes) for _, unknown, outcomes in weighed)


def _among_equals(about: str) -> int:
    return _LEADING.index(about) if about in _LEADING else len(_LEADING)


def _is_of_harm(known: Facts, unknown: Unknown) -> bool:
    # Whether people are to be exposed comes before whether a ballast is to be spoilt.
    return unknown.about == "use" and known.lamp.is_ultraviolet


def blocking(known: Facts) -> tuple[str, ...]:
    """Return the fields without which the lamp may not be sold, untried and in the order they are asked for."""
    return tuple(unknown.about for unknown in _unknowns(known) if unknown.blocks)


def _bits(found: Counter[Verdict]) -> float:
    total = found.total()
    return -sum(count / total * log2(count / total) for count in found.values())


def _ask(unknown: Unknown, outcomes: list[tuple[str, Verdict]]) -> Ask:
    words = questions()[unknown.about]
    lines = tuple(f"{spoken(label)}: {tr(verdict)}" for label, verdict in outcomes)
    return Ask(
        about=unknown.about, question=tr(words.question), why=tr(words.why), outcomes=lines, blocks=unknown.blocks
    )


def _with(known: Facts, about: str, value: Any) -> Facts:
    if about == "use":
        return known._replace(use=value)
    fixture = known.fixture.model_copy(update={about: value})
    if about != "holder":
        return known._replace(fixture=fixture)
    return known._replace(fixture=fixture, match=compare(known.catalogue, known.base, value))


def _unknowns(known: Facts) -> Iterator[Unknown]:
    fixture = known.fixture
    # A lamp that burned there until it died has shown that holder and ballast take it, though not on a dimmer.
    open_ = not fixture.came_out or bool(fixture.dimmer)
    if known.match.says in ("unknown", "unreadable", "family"):
        if fixture.came_out is None and known.match.says == "unknown":
            yield Unknown("came_out", (("yes", True), ("no", False)), blocks=True)
        yield Unknown("holder", _holders(known), blocks=open_ or known.match.says == "unreadable")
    if fixture.ballast == "unknown":
        kinds = tuple(
            (NO_BALLAST if kind == "none" else kind, kind) for kind in get_args(Ballast) if kind != "unknown"
        )
        yield Unknown("ballast", kinds, blocks=open_)
    if known.discharge and not fixture.ballast_watts:
        yield Unknown("ballast_watts", _watts(known), blocks=open_ and not _key_settles_watts(known))
    if known.use == "unknown":
        told = {"lighting", "germicidal", "blacklight", *known.lamp.purposes}
        uses = tuple((use, use) for use in get_args(Use) if use in told)
        yield Unknown("use", uses, blocks=known.lamp.is_ultraviolet)
    yield from _seldom_known(known)


def _seldom_known(known: Facts) -> Iterator[Unknown]:
    fixture = known.fixture
    for about in ("dimmer", "emergency"):
        if getattr(fixture, about) is None:
            yield Unknown(about, (("yes", True), ("no", False)), blocks=False)
    if fixture.shunted is None and known.base.mount == "two-ends":
        yield Unknown("shunted", (("yes", True), ("no", False)), blocks=False)
    if fixture.lamp_count is None and fixture.ballast_counts:
        counts = tuple((str(count), count) for count in range(1, max(fixture.ballast_counts) + 2))
        # "1 x 26 W, 2 x 18 W": the watts alone do not say that the lamp is listed.
        is_split = set(counts_for(fixture, known.lamp.watts.value)) < set(fixture.ballast_counts)
        yield Unknown("lamp_count", counts, blocks=is_split)


def _holders(known: Facts) -> tuple[tuple[str, str], ...]:
    own = known.base.designation
    other = next((base.designation for base in known.catalogue.bases if base.designation != own), own)
    return ((own, own), ("any other", other))  # the rules know only the same base and another one


def _watts(known: Facts) -> tuple[tuple[str, tuple[float, ...]], ...]:
    own = known.lamp.watts.value
    watts = sorted({lamp.watts.value for lamp in _on_base(known)})
    here = watts.index(own)
    nearest = watts[max(0, here - 1) : here + 2]  # what differs more is refused all the more
    return tuple((f"{number(one)} W", (one,)) for one in nearest)


def _on_base(known: Facts) -> Iterator[Lamp]:
    return iter(known.catalogue.lamps_on[known.base.designation])


def _key_settles_watts(known: Facts) -> bool:
    """Whether the holder alone says the wattage: its key (or X) admits lamps of one wattage, so its ballast runs it.

    The suffix of IEC 60061 is a key configuration, and keys stand for current classes; a holder whose key takes
    one wattage was put in for that lamp. Without key or modifier a base says nothing of the wattage.
    """
    is_keyed = known.match.says == "same" and known.match.holder is not None
    if not is_keyed or known.match.holder is None or not (known.match.holder.key or known.match.holder.modifiers):
        return False
    lamps = [lamp for lamp in _on_base(known) if lamp.id == known.lamp.id or _is_plain(lamp)]
    return len({lamp.watts.value for lamp in lamps}) == 1


def _is_plain(lamp: Lamp) -> bool:
    # Savers and UV lamps stand on a key that was put in for the plain lamp.
    return not lamp.is_saver and not lamp.is_ultraviolet
