"""Words that speak of germicidal light anywhere in a text, whether or not the rest of it can be read."""

from __future__ import annotations

import re
from functools import cache

from counter.marks._tables import tables


@cache
def _pattern() -> re.Pattern[str]:
    words = "|".join(re.escape(word) for word in tables()["germicidal"]["words"])
    lengths = "|".join(
        re.escape(length).replace(r"\.", "[.,]") for length in tables()["germicidal"]["wavelengths_nm"]
    )
    # "UV" followed by A is blacklight; a bare 254 may be anything, with nm or the decimal it is the mercury line.
    return re.compile(
        rf"(?<![a-z])(?:{words})(?![a-z])(?!\s?-?\s?a(?![a-z]))|(?<!\d)(?:{lengths})(?:\s?nm)(?![a-z])|253[.,]7", re.I
    )


def germicidal_words(text: str) -> str:
    """Return the first word in the text that speaks of UV-C, as it stands there; "" where there is none."""
    found = _pattern().search(text[:2000])
    return found.group().strip() if found else ""
