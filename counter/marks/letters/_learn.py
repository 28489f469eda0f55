"""What letters mean, worked out from a list of codes beside words.

Each line gives the letters of its code that no table explains, and what words and code together say of the lamp. For
letters L and a field f the lines with L that say anything of f are counted: n lines, k with the commonest value v.
L means f = v where the lower bound of k / n (Wilson's score interval, one-sided 95 %) passes LEAST_SHARE, at most
MOST_AGAINST of them say otherwise, and v is clearly rarer without L (contrast: letters that stand on every line of
the list carry nothing that can be told apart). The surest letters take their lines first; those lines then count for
no other letters of the same field (what is explained needs no second reason), so that a suffix that happens to stand
beside quads learns nothing from them. Letters that always stand together share no meaning: which of them it is, the
list does not say.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from itertools import islice
from math import sqrt
from typing import TYPE_CHECKING, Any, NamedTuple

from counter.marks._known import known_for
from counter.marks._letters import KnownLetters, LettersMean
from counter.marks._lex import fold
from counter.marks._makers import MAKER, read_makers
from counter.marks._read import read
from counter.marks._tables import tables

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from counter.catalogue import Catalogue, Lamp
    from counter.marks._known import Known
    from counter.marks._models import Reading

Z = 1.645  # one-sided 95 %
LEAST_SHARE = 0.5
MOST_AGAINST = 0.15
LEAST_LINES = 3  # for a meaning
LEAST_FOR_NOTHING = 5  # for letters that decide nothing
EXAMPLES = 3
FIELDS = ("kind", "base", "shape", "pins", "cct_k")
Values = dict[str, Any]


class Line(NamedTuple):
    """One line of a list."""

    code: str
    description: str


class Learned(NamedTuple):
    """What a list taught, how many lines it has and how many could be used, and by letters some that bear it out."""

    letters: tuple[KnownLetters, ...]
    lines: int
    used: int
    examples: Mapping[str, tuple[str, ...]]


class _Told(NamedTuple):
    """The unknown letters of one line, and what the line says of the lamp."""

    line: Line
    letters: frozenset[str]
    values: Values


class _Finding(NamedTuple):
    letters: str
    field: str
    value: Any
    lower: float
    lines: int


def learn(catalogue: Catalogue, lines: Iterable[Line], *, name: str, at: str = "") -> Learned:
    """Work out what letters mean in a list; `name` is kept with them, so that they go when the list goes."""
    known = known_for(catalogue)
    read_lines = [_told(catalogue, known, line) for line in lines]
    told = [one for one in read_lines if one is not None]
    means = _meanings(told)
    rows = [_row(letters, stated, told, name, at) for letters, stated in sorted(means.items())]
    rows = [row for row in rows if row.support >= LEAST_LINES]
    examples = {row.letters: _bearing_out(row, told) for row in rows}
    return Learned(tuple(rows), len(read_lines), len(told), examples)


def _told(catalogue: Catalogue, known: Known, line: Line) -> _Told | None:
    read_code = read_makers(fold(line.code), line.code, known, ()).readings
    if not read_code or not any(map(str.isalnum, line.description)):
        return None
    code = read_code[0][0]
    if code.lamp.watts and not code.lamps:
        return None  # no lamp has these figures: a shop's own number, not a maker's code
    letters = frozenset(fold(span.text) for span in code.spans if span.part == MAKER and span.text.isalpha())
    words = read(catalogue, line.description).readings
    if not letters or not words:
        return None
    values = _values(catalogue, code, words[0])
    return _Told(line, letters, values) if values else None


def _values(catalogue: Catalogue, code: Reading, words: Reading) -> Values:
    """Return what the lamp types that code and words leave share, and what the words alone say.

    A line whose words speak of other lamps than its code's figures do teaches nothing.
    """
    ids = [one for one in words.lamps if not code.lamps or one in code.lamps]
    if words.lamps and not ids:
        return {}
    lamps = [catalogue.lamp_by_id[one] for one in ids]
    stated = words.lamp.model_dump(include={"shape", "pins", "kind", "cct_k"}, exclude_none=True)
    if code.lamp.cct_k is not None:
        stated.pop("cct_k", None)  # what the code's figures say, its letters need not
    shared = _shared(catalogue, lamps) if lamps else {}
    return {**stated, **shared}


def _shared(catalogue: Catalogue, lamps: Sequence[Lamp]) -> Values:
    seen: dict[str, set[Any]] = defaultdict(set)
    for lamp in lamps:
        base = catalogue.base_by_name[lamp.base]
        of_lamp = {"shape": lamp.shape, "pins": int(base.pins.value), "kind": lamp.kind, "base": base.family}
        for key, value in of_lamp.items():
            seen[key].add(value)
    return {key: next(iter(values)) for key, values in seen.items() if len(values) == 1 and None not in values}


def _meanings(told: Sequence[_Told]) -> dict[str, Values]:
    """Return what each letters mean, by field; letters met often enough that decide nothing have an empty meaning."""
    lines_of: dict[str, set[int]] = defaultdict(set)
    for at, one in enumerate(told):
        for letters in one.letters:
            lines_of[letters].add(at)
    means: dict[str, Values] = {}
    for field in FIELDS:
        for finding in _findings(field, told, lines_of):
            means.setdefault(finding.letters, {})[field] = finding.value
    for letters, places in lines_of.items():
        if letters not in means and len(places) >= LEAST_FOR_NOTHING and _is_plain(places, told):
            means[letters] = {}
    return {letters: _kept(stated) for letters, stated in means.items()}


def _kept(stated: Values) -> Values:
    """Return a meaning without what is no news, that a lamp gives light, and with the legs of its form."""
    kept = {key: value for key, value in stated.items() if (key, value) != ("kind", "fluorescent")}
    legs = tables()["shapes"].get(kept.get("shape"), {}).get("legs")
    return {**kept, "legs": legs} if legs else kept


def _is_plain(places: Iterable[int], told: Sequence[_Told]) -> bool:
    """Whether letters that were not learned decide nothing: they stand on several forms, and on no lamp of UV."""
    if any(told[at].values.get("kind") not in (None, "fluorescent") for at in places):
        return False
    shapes = Counter(shape for at in places if (shape := told[at].values.get("shape")))
    total = sum(shapes.values())
    return total > 0 and shapes.most_common(1)[0][1] / total <= 1 - MOST_AGAINST


def _findings(field: str, told: Sequence[_Told], lines_of: dict[str, set[int]]) -> Iterable[_Finding]:
    """Yield what letters mean for one field, the surest first; each takes its lines from the others."""
    open_lines = {at for at, one in enumerate(told) if field in one.values}
    everywhere = Counter(told[at].values[field] for at in open_lines)
    twins = _always_together(lines_of)
    left = dict(lines_of)
    while left:
        found = [one for letters in left if (one := _finding(letters, field, told, left[letters] & open_lines))]
        found = [one for one in found if _stands_out(one, lines_of, told, everywhere) and one.letters not in twins]
        if not found:
            return
        best = max(found, key=lambda one: (one.lower, one.lines, one.letters))
        yield best
        open_lines -= left.pop(best.letters)


def _finding(letters: str, field: str, told: Sequence[_Told], places: set[int]) -> _Finding | None:
    counts = Counter(told[at].values[field] for at in places)
    total = sum(counts.values())
    if total < LEAST_LINES:
        return None
    value, agreed = counts.most_common(1)[0]
    lower = lower_bound(agreed, total)
    if lower < LEAST_SHARE or (total - agreed) / total > MOST_AGAINST:
        return None
    return _Finding(letters, field, value, lower, total)


def _stands_out(
    found: _Finding, lines_of: dict[str, set[int]], told: Sequence[_Told], everywhere: Counter[Any]
) -> bool:
    """Whether the value is clearly rarer on lines without the letters; with no such line nothing stands out."""
    mine = Counter(told[at].values.get(found.field) for at in lines_of[found.letters])
    stated = sum(count for value, count in mine.items() if value is not None)
    if (stated - mine[found.value]) / stated > MOST_AGAINST:
        return False  # pure only on the lines that nothing else explains
    others = sum(everywhere.values()) - stated
    if others < LEAST_LINES:
        return False
    share = (everywhere[found.value] - mine[found.value]) / others
    return share < found.lower


def _always_together(lines_of: dict[str, set[int]]) -> set[str]:
    by_lines: dict[frozenset[int], list[str]] = defaultdict(list)
    for letters, places in lines_of.items():
        by_lines[frozenset(places)].append(letters)
    return {letters for group in by_lines.values() if len(group) > 1 for letters in group}


def lower_bound(agreed: int, total: int) -> float:
    """Return the lower end of Wilson's score interval for a share, one-sided 95 %."""
    if total == 0:
        return 0.0
    share, z2 = agreed / total, Z * Z
    middle = share + z2 / (2 * total)
    spread = Z * sqrt(share * (1 - share) / total + z2 / (4 * total * total))
    return (middle - spread) / (1 + z2 / total)


def _bearing_out(row: KnownLetters, told: Sequence[_Told]) -> tuple[str, ...]:
    """Return the first lines that say what letters mean."""
    said = row.means.stated()
    lines = (
        f"{one.line.code} {one.line.description}"
        for one in told
        if row.letters in one.letters and all(one.values.get(key, value) == value for key, value in said.items())
    )
    return tuple(islice(lines, EXAMPLES))


def _row(letters: str, stated: Values, told: Sequence[_Told], name: str, at: str) -> KnownLetters:
    lines = [one for one in told if letters in one.letters]
    checked = {key: value for key, value in stated.items() if key != "legs"}
    against = [one for one in lines if any(one.values.get(key, value) != value for key, value in checked.items())]
    return KnownLetters(
        letters=letters,
        means=LettersMean(**stated),
        support=len(lines) - len(against),
        against=len(against),
        source="list",
        at=at,
        list_name=name,
        examples=tuple(f"{one.line.code} {one.line.description}" for one in against[:EXAMPLES]),
    )
