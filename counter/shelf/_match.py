"""Which lamp type a stock line is: its code and its description, read by the reader of marks, and what hands matched.

Nothing is matched that the line leaves open: two lamp types it can mean, code against description, a line that does
not say lighting or germicidal. Such a line is kept, with the reason, and can be matched by hand once and for all.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, NamedTuple

from counter import marks
from counter.shelf._reasons import ANY_OF, LED_NO_BASE, NOT_READ, OTHER_GOODS, SEVERAL_WAYS, TWICE, TWO_LAMPS, UV_OPEN
from counter.shelf._tables import goods_of, tables
from counter.shelf._words import folded

if TYPE_CHECKING:
    from collections.abc import Mapping

    from counter.catalogue import Catalogue, Lamp
    from counter.marks import HouseMaker, MarkEvidence, Reading

SURE = 0.9  # share of all readings that the best must have
UV_MOST = 0.02  # a germicidal reading this likely keeps a line open
CODE_SYSTEMS = ("nema", "ilcos", "ansi-linear", "ansi-germicidal", "house")
_TOKEN = re.compile(r"[^\s,;]+")
# "10/CS", "25 PK", "case of 12": how many are sold together says nothing of the lamp.
_PACK = re.compile(
    r"(?i)\b\d+\s*/?\s*(cs|pk|pck|case|pack|ctn|carton|bx|box|ea|each)\b\.?|\b(case|pack|box) of \d+\b"
)
# A lamp code begins with a few letters and up to three figures; most of a shop's own numbers have more.
_LIKE_CODE = re.compile(r"(?i)[a-z]{1,5}[-_ ]?\d{1,3}(?!\d)[-_./ wt=]?.*")
# White colours as nearly every list prints them: 840 behind a sign or at the end, or 4000K.
_COLOUR = re.compile(
    r"(?<=[/ ])[89](?P<tens>27|30|35|40|41|50|65)(?=$|[ /])|\b(?P<kelvin>2700|3000|3500|4000|4100|5000|6500)[Kk]\b"
)
ONE_COLOUR = 4000
_LETTERS = re.compile(r"[^\W\d_]+")


class Match(NamedTuple):
    """What a line is; `reason` says why it is no lamp type here, empty where it is."""

    lamp: str | None = None
    base: str | None = None
    watts: float | None = None
    kind: str | None = None
    cct_k: int | None = None
    reason: str = ""


class _Said(NamedTuple):
    """What one text says: the lamp types it can mean, and the best reading."""

    lamps: frozenset[str] = frozenset()
    best: Reading | None = None
    reason: str = ""
    cct_k: int | None = None


NOTHING = Match(reason=NOT_READ)


def key_of(code: str) -> str:
    """Return a code as hand matches know it."""
    return re.sub(r"\W", "", folded(code))


class Matcher:
    """Matches lines; what was read once is kept, since a list says the same thing many times."""

    def __init__(
        self, catalogue: Catalogue, house: tuple[HouseMaker, ...] = (), by_hand: Mapping[str, str] | None = None
    ) -> None:
        self.catalogue = catalogue
        self.house = house
        self.by_hand = {key: lamp for key, lamp in (by_hand or {}).items() if lamp in catalogue.lamp_by_id}
        self._kept: dict[str, _Said] = {}
        self._lines: dict[tuple[str, str], Match] = {}
        rows = marks.tables()["words"]
        self._known = {word.lower() for row in rows for word in row["words"]} | {"uv", "uvc", "germicidal"}

    def match(self, code: str, description: str, barcode: str = "") -> Match:
        """Return what a line is."""
        for known in (key_of(code), key_of(barcode)):
            if known and known in self.by_hand:
                return self._of(self.catalogue.lamp_by_id[self.by_hand[known]], self._colour(description))
        key = (code if _LIKE_CODE.fullmatch(code) else "", self.telling(description))
        if key not in self._lines:
            self._lines[key] = self._line(*key)
        return self._lines[key]

    def _line(self, code: str, telling: str) -> Match:
        words = set(_LETTERS.findall(folded(telling)))
        goods = next((goods_of()[word] for word in sorted(words) if word in goods_of()), None)
        if goods is not None:
            return Match(reason=OTHER_GOODS.format(goods=goods))
        if words & set(tables()["led_words"]):
            return self._led(telling)
        by_code, by_words = self._read(code, only_codes=True), self._read(telling)
        return self._joined(by_code, by_words)

    def telling(self, text: str) -> str:
        """Return the words that can say something of a lamp: those with a figure, and those the reader knows."""
        kept = [
            token
            for token in _TOKEN.findall(_PACK.sub(" ", text))
            if any(map(str.isdigit, token)) or token.lower().strip(".()[]") in self._known or self._is_goods(token)
        ]
        return " ".join(kept)

    def _is_goods(self, token: str) -> bool:
        words = _LETTERS.findall(folded(token))
        return any(word in goods_of() or word in tables()["led_words"] for word in words)

    def _read(self, text: str, *, only_codes: bool = False) -> _Said:
        """Read a text; of a shop's code only a whole lamp code counts, since most are the shop's own numbers.

        A list has each lamp in many colours: one of them is read for all, and the colour put back.
        """
        if not any(map(str.isdigit, text)):
            return _Said()
        colours = list(_COLOUR.finditer(text))
        if len(colours) == 1:
            found = colours[0]
            one = "4000K" if found["kelvin"] else "840"
            said = self._read_once(text[: found.start()] + one + text[found.end() :], only_codes)
            if said.cct_k == ONE_COLOUR:
                cct_k = int(found["kelvin"] or found["tens"] + "00")
                return said._replace(cct_k=cct_k)
        return self._read_once(text, only_codes)

    def _read_once(self, text: str, only_codes: bool) -> _Said:
        key = f"{only_codes:d}{text}"
        if key not in self._kept:
            said = self._weighed(marks.read(self.catalogue, text, self.house), only_codes)
            self._kept[key] = said._replace(cct_k=said.best.lamp.cct_k) if said.best is not None else said
        return self._kept[key]

    def _weighed(self, found: MarkEvidence, only_codes: bool) -> _Said:
        best = found.readings[0] if found.readings else None
        if best is None or not best.lamps:
            return _Said()
        if any(span.assumed for span in best.spans) or not _is_telling(best, only_codes):
            return _Said()
        if found.is_split:
            return _Said(best=best, reason=TWICE)
        if best.probability < SURE * sum(one.probability for one in found.readings if one.lamps):
            return _Said(best=best, reason=SEVERAL_WAYS)
        if self._is_uv_open(found.readings, best):
            return _Said(best=best, reason=UV_OPEN)
        return _Said(frozenset(best.lamps), best)

    def _is_uv_open(self, readings: tuple[Reading, ...], best: Reading) -> bool:
        if best.lamp.kind == "uv-c":
            return False
        uv = sum(one.probability for one in readings if one.lamp.kind == "uv-c")
        of_best = {self.catalogue.lamp_by_id[lamp].kind for lamp in best.lamps if lamp in self.catalogue.lamp_by_id}
        return uv > UV_MOST or "uv-c" in of_best

    def _joined(self, by_code: _Said, by_words: _Said) -> Match:
        reason = by_words.reason or by_code.reason
        if reason:
            return Match(reason=reason)
        if by_code.lamps and by_words.lamps and not by_code.lamps & by_words.lamps:
            return Match(reason=TWO_LAMPS.format(code=_name(by_code), words=_name(by_words)))
        lamps = (
            by_code.lamps & by_words.lamps if by_code.lamps and by_words.lamps else by_code.lamps or by_words.lamps
        )
        if not lamps:
            return NOTHING
        if len(lamps) > 1:
            return Match(reason=ANY_OF.format(lamps=", ".join(sorted(lamps)[:4])))
        lamp = self.catalogue.lamp_by_id[next(iter(lamps))]
        colours = [said.cct_k for said in (by_words, by_code) if said.cct_k]
        return self._of(lamp, colours[0] if colours else None)

    def _led(self, telling: str) -> Match:
        """An LED lamp is none of the catalogue's types; its base and watts are kept where it says them."""
        found = marks.read(self.catalogue, telling, self.house).readings
        said = found[0].lamp if found else None
        if said is None or said.base is None:
            return Match(kind="led", reason=LED_NO_BASE)
        base = said.bases[0] if len(said.bases) == 1 else said.base
        return Match(base=base, watts=said.watts, kind="led", cct_k=said.cct_k)

    def _of(self, lamp: Lamp, cct_k: int | None) -> Match:
        return Match(lamp.id, lamp.base, lamp.watts.value, lamp.kind, cct_k)

    def _colour(self, description: str) -> int | None:
        return self._read(self.telling(description)).cct_k


def _is_telling(best: Reading, only_codes: bool) -> bool:
    """Whether a reading says enough to put a lamp type's name on a shelf: a whole code, or base and watts."""
    if best.system in CODE_SYSTEMS:
        return True
    return not only_codes and bool(best.lamp.base and best.lamp.watts)


def _name(said: _Said) -> str:
    return sorted(said.lamps)[0]
