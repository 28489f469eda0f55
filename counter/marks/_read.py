"""The road of one text: fold, barcode, codes and words, then the worn search where something is left over."""

from __future__ import annotations

import re
from math import inf, log
from typing import TYPE_CHECKING

from counter import words
from counter.marks import _say as say
from counter.marks._answer import answer
from counter.marks._asides import asides, spans, without
from counter.marks._barcode import barcode
from counter.marks._clean import clean_read
from counter.marks._house import shipped_house
from counter.marks._known import known_for
from counter.marks._lex import fold
from counter.marks._makers import MAKER, MakersRead, is_makers, read_makers, with_makers
from counter.marks._models import MarkEvidence
from counter.marks._sentences import SPEAKS_OF_UV
from counter.marks._tables import tables
from counter.marks._weigh import background, evidence, floor_of, is_worn, strain, weights, worn_floor
from counter.marks._worn import Worn, read_worn

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from counter.catalogue import Catalogue
    from counter.marks._house import HouseMaker
    from counter.marks._known import Known
    from counter.marks._models import Reading, Span
    from counter.marks._weigh import Clean
    from counter.words import Folded


BENT = 0.01  # a reading this likely by which letters are a maker's own keeps them unread
NAMES_COST = 2.0  # a whole code among other words is twice as likely another lamp's as one that stands alone
_RAREST_LAST = ("daily", "weekly", "seldom", "never")
_TOKEN = re.compile(r"[^\s,;/]+")


def read(catalogue: Catalogue, text: str, house: Sequence[HouseMaker] = (), limit: int = 8) -> MarkEvidence:
    """Read the marks of a lamp, whole or worn, best reading first. No text raises.

    Blanks, line breaks, wide letters and format characters change nothing: the text is folded first, and every span
    points into what was typed.
    """
    folded = words.fold(text)
    beside = asides(folded.cased, tuple(fold(one.letters) for maker in house for one in maker.letters))
    found = _read(catalogue, without(folded.cased, beside), house, limit)
    if beside:
        said = spans(folded.cased, beside)
        readings = tuple(
            one.model_copy(update={"spans": tuple(sorted((*one.spans, *said), key=lambda span: span.start))})
            for one in found.readings
        )
        uv = [span.text for span, one in zip(said, beside, strict=True) if one.is_uv]
        problems = (*([SPEAKS_OF_UV.format(text=uv[0])] if uv else []), *found.problems)
        found = found.model_copy(update={"text": folded.cased, "readings": readings, "problems": problems})
    if folded.cased == text:
        return found
    readings = tuple(_as_typed(one, folded) for one in found.readings)
    return found.model_copy(update={"text": text, "readings": readings})


def _as_typed(reading: Reading, folded: Folded) -> Reading:
    spans = []
    for one in reading.spans:
        start, end = folded.span(one.start, one.end)
        spans.append(one.model_copy(update={"start": start, "end": end, "text": folded.typed[start:end]}))
    return reading.model_copy(update={"spans": tuple(spans)})


def _read(catalogue: Catalogue, text: str, house: Sequence[HouseMaker], limit: int) -> MarkEvidence:
    known = known_for(catalogue)
    most = tables()["limits"]["characters"]
    plain = fold(text[:most])
    problems = [] if len(text) <= most else [say.too_long(len(text), most)]
    if not plain.strip():
        return MarkEvidence(text=text, problems=tuple(problems))
    found = _barcode(plain, text, known) or _codes(plain, text, known, (*house, *shipped_house()), limit)
    return found.model_copy(update={"problems": (*problems, *found.problems)})


def _barcode(plain: str, text: str, known: Known) -> MarkEvidence | None:
    scan = barcode(plain)
    if scan is None:
        return None
    if scan.parsed is None:
        return MarkEvidence(text=text, problems=(scan.problem or "",))
    reading, _, _ = answer((scan.parsed,), text, known, 1.0)
    return MarkEvidence(text=text, readings=(reading,))


def _codes(plain: str, text: str, known: Known, house: tuple[HouseMaker, ...], limit: int) -> MarkEvidence:
    clean = clean_read(plain, text, known, house)
    if clean.is_enough and not is_worn(plain):
        return evidence(text, clean.readings, clean.problems, floor_of(clean.readings), known, limit)
    found = _worn(clean, plain, text, known, house, limit)
    if is_worn(plain) or not clean.is_unlisted or not found.readings:
        return found
    least, plain_one = tables()["limits"]["unlisted_floor"], clean.readings[0]
    on_base = {lamp.id: 1.0 for base in plain_one.lamp.bases for lamp in known.catalogue.lamps_on[base]}
    said = {"likelihood": found.likelihood or on_base, "floor": max(found.floor, least)}
    readings = _with_plain(found.readings, plain_one)
    return found.model_copy(update={"unlisted": " ".join(text.split()), "readings": readings, **said})


def _with_plain(readings: Sequence[Reading], plain: Reading) -> tuple[Reading, ...]:
    """Return the readings with the print as it stands among them, half as likely as the nearest code."""
    if readings[0].canonical == plain.canonical:
        return tuple(readings)
    nearest, *others = (one for one in readings if one.canonical != plain.canonical)
    rows = [nearest, plain.model_copy(update={"probability": nearest.probability / 2}), *others]
    rows.sort(key=lambda one: -one.probability)
    total = sum(one.probability for one in rows) / sum(one.probability for one in readings)
    return tuple(one.model_copy(update={"probability": one.probability / total}) for one in rows)


def _worn(
    clean: Clean, plain: str, text: str, known: Known, house: tuple[HouseMaker, ...], limit: int
) -> MarkEvidence:
    """Weigh what was read as it stands, slot by slot and as a worn code against each other and against none."""
    makers = MakersRead() if is_worn(plain) else read_makers(plain, text, known, house)
    costs = [*(cost for _, cost in makers.readings), *(strain(clean, reading) for reading in clean.readings)]
    systems = tuple(maker for maker in house if maker.parts or maker.codes)
    worn = read_worn(plain, text, known, systems, min(costs, default=inf))
    if makers.may_be_worn:
        most = min((*costs, *(cost for _, cost in worn.readings)), default=inf) + tables()["noise"]["window"]
        bent = read_makers(plain, text, known, house, worn=True, most=most)
        makers = bent if bent.readings else makers
    weighed = _weighed(clean, worn, makers, plain, known)
    shown = [reading for reading in weighed if reading.probability >= tables()["noise"]["least_probability"]]
    if not shown:  # what can be read is shown, though the text is more probably something else
        standing = {reading.canonical for reading in clean.readings if _is_telling(reading)}
        shown = [reading for reading in weighed if reading.canonical in standing]
    shown = [with_makers(one, clean.unknown, text) if _stands_as_typed(clean, one) else one for one in shown]
    problems = say.of_worn(clean, worn, makers, shown, text)
    unread = _unread(clean, shown, text)
    left = 1 - sum(reading.probability for reading in weighed if reading.lamps)
    floor = worn_floor(shown, left, known)
    if shown and _is_whole_beside_names(clean, shown[0], unread):
        floor = NAMES_COST * floor_of(shown[:1])
    found = evidence(text, tuple(shown), problems, floor, known, limit)
    is_split = bool(shown and clean.clashes and _stands_as_typed(clean, shown[0]))
    own = tuple(word for word in unread if is_makers(word))
    return found.model_copy(update={"unread": unread, "makers": own, "is_split": is_split})


def _stands_as_typed(clean: Clean, best: Reading) -> bool:
    return any(best.canonical == reading.canonical for reading in clean.readings)


def _is_whole_beside_names(clean: Clean, best: Reading, unread: Sequence[str]) -> bool:
    """Whether a whole code stands as typed, and nothing with it but letters and words without a figure.

    A maker's name beside the code, or letters joined to it ("/RS", "/A"): the code says no less for them.
    """
    is_typed = any(one.lamps == best.lamps and _is_part(one, best) for one in clean.readings)
    is_code = best.system not in ("partial", "base", "house", "colour")
    is_whole = is_typed and is_code and bool(best.lamps) and not clean.clashes
    return is_whole and not any(map(str.isdigit, "".join(unread)))


def _is_part(one: Reading, whole: Reading) -> bool:
    """Whether all parts of one reading stand in another, as they do there."""
    return {(span.start, span.end, span.part) for span in one.spans} <= {
        (span.start, span.end, span.part) for span in whole.spans
    }


def _unread(clean: Clean, shown: Sequence[Reading], text: str) -> tuple[str, ...]:
    """Return what the best reading does not explain: words left over, bare numbers, and what clashes with itself."""
    if not shown:
        return ()
    best = shown[0]
    odd = [span.text for span in best.spans if span.part in ("other", "number", MAKER)]
    if _stands_as_typed(clean, best):
        left = [text[start:end] for start, end in clean.unknown]
        clashing = [text.strip()[:40]] if clean.clashes else []
        odd = [one for one in odd if not any(one in word for word in left)]
        return tuple(dict.fromkeys((*left, *odd, *clashing)))
    typed = (match for match in _TOKEN.finditer(text) if sum(map(str.isalnum, match[0])) > 1)
    meant = {word.lower() for row in tables()["words"] for word in row["words"]}
    left = [
        match[0]
        for match in typed
        if match[0].lower() not in meant
        and not any(span.start < match.end() and match.start() < span.end for span in best.spans)
    ]
    # "01" read as 841 with a figure put in: a colour number nobody knows may be no white at all.
    odd += [one.text for one in best.spans if one.part == "colour" and one.assumed and _is_longer(one)]
    # Letters bent to a code of the standard, where they may as well be a maker's own, are not read either.
    others = shown[1:] if best.grammar != "letters" else ()
    rivals = (one for one in others if one.grammar == "letters" and one.probability >= BENT)
    odd += [span.text for one in rivals for span in one.spans if span.part == MAKER]
    return tuple(dict.fromkeys((*left, *odd, *_passed_over(best, text))))


def _passed_over(best: Reading, text: str) -> Iterator[str]:
    """Yield signs inside a word that was read which no part of the reading holds: left out, or taken for a sign."""
    held = bytearray(len(text))
    for span in best.spans:
        held[span.start : span.end] = b"1" * (span.end - span.start)
    for word in _TOKEN.finditer(text):
        if any(held[word.start() : word.end()]):
            places = range(*word.span())
            left = "".join(" " if held[at] or not text[at].isalnum() else text[at] for at in places)
            yield from left.split()


def _is_longer(span: Span) -> bool:
    return "*" not in span.text and len(span.assumed or "") > len(span.text)


def _weighed(clean: Clean, worn: Worn, makers: MakersRead, plain: str, known: Known) -> list[Reading]:
    as_typed = ((reading, strain(clean, reading)) for reading in clean.readings)
    rows = _once([*worn.readings, *makers.readings, *as_typed], known)
    # What has the build of a maker's code is less likely to be no code at all.
    none = background(plain) + (tables()["slots"]["costs"]["own_background"] if makers.is_code else 0.0)
    chances = weights([round(cost, 6) for _, cost in rows], none) if rows else []
    return [
        reading.model_copy(update={"probability": chance}) for (reading, _), chance in zip(rows, chances, strict=True)
    ]


def _is_telling(reading: Reading) -> bool:
    """Whether a reading holds more than bare numbers, which stand in any text."""
    return bool({span.part for span in reading.spans} - {"number", "other", MAKER})


def _keeps_letters(reading: Reading) -> bool:
    return (
        reading.grammar == "letters" and not reading.assumptions and any(one.part == MAKER for one in reading.spans)
    )


def _once(rows: Sequence[tuple[Reading, float]], known: Known) -> list[tuple[Reading, float]]:
    """Return readings cheapest first, of equals the lamp met more often, those that say the same only once."""
    kept: dict[tuple[object, ...], tuple[Reading, float]] = {}
    for reading, cost in sorted(rows, key=lambda row: (round(row[1], 6), _rarity(row[0], known))):
        key = (reading.system, reading.lamps, reading.lamp)
        best, least = kept.setdefault(key, (reading, cost))
        if best.assumptions and _keeps_letters(reading) and cost < least - log(BENT):
            kept[key] = (reading, least)  # the same lamp with nothing bent: what it leaves unread is to be seen
    return list(kept.values())


def _rarity(reading: Reading, known: Known) -> int:
    met = (known.catalogue.lamp_by_id[lamp].met for lamp in reading.lamps)
    return min((_RAREST_LAST.index(one.value) for one in met if one), default=len(_RAREST_LAST))
