"""Words that must not be passed over, whether or not the rest of a text can be read: UV-C, and LED."""

from __future__ import annotations

import re
import unicodedata
from functools import cache

from counter.marks._tables import tables

_MOST = 2000  # characters looked through
_WORN = re.compile(r"[\w.?\-]*\?[\w.?\-]*")


@cache
def _pattern() -> re.Pattern[str]:
    table = tables()["germicidal"]
    words = "|".join(re.escape(word) for word in table["words"])
    stems = "|".join(re.escape(stem) for stem in table["stems"])
    lengths = "|".join(re.escape(length).replace(r"\.", "[.,]") for length in table["wavelengths_nm"])
    # "UV" followed by A is blacklight; a bare 254 may be anything, with nm or the decimal it is the mercury line.
    spelled = r"u[\s.\-/]{0,2}v(?:[\s.\-/]{0,2}[bc])?"
    return re.compile(
        rf"(?<![a-z])(?:{words}|{spelled})(?![a-z])(?!\s?[-.]?\s?a(?![a-z]))|(?<![a-z])(?:{stems})[a-z]*"
        rf"|(?<!\d)(?:{lengths})(?:\s?nm)(?![a-z])|253[.,]7",
        re.I,
    )


@cache
def _worn_words() -> tuple[str, ...]:
    table = tables()["germicidal"]
    lengths = (f"{length}{unit}" for length in table["wavelengths_nm"] for unit in ("", "nm"))
    return (*table["words"], *table["worn"], *lengths)


def germicidal_words(text: str) -> str:
    """Return the first word in the text that speaks of UV-C, as it stands there; "" where there is none.

    A word with unreadable characters counts where it can be such a word.
    """
    text = unicodedata.normalize("NFKC", text[:_MOST])
    found = _pattern().search(text)
    if found:
        return found.group().strip()
    worn = (match.group().strip(".-") for match in _WORN.finditer(text[:_MOST]))
    return next((word for word in worn if _may_be(word.lower())), "")


def _may_be(word: str) -> bool:
    if sum(map(str.isalnum, word)) < 1:
        return False
    return any(
        len(word) == len(meant) and all(one in ("?", other) for one, other in zip(word, meant, strict=True))
        for meant in _worn_words()
    )


@cache
def _led_pattern() -> re.Pattern[str]:
    words = "|".join(re.escape(word).replace(r"\ ", r"[\s\-]?") for word in tables()["led_words"]["words"])
    return re.compile(rf"(?<![a-z])(?:{words})(?![a-z])", re.I)


def led_words(text: str) -> str:
    """Return the first word in the text that speaks of an LED lamp, as it stands there; "" where there is none."""
    found = _led_pattern().search(text[:_MOST])
    return found.group() if found else ""
