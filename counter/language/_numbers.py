"""Numbers and days as the language now spoken writes them: the one place that knows of decimal commas and months.

A table and not the system's locale, which is one for the whole process and not safe among threads. The signs are
those of the Unicode CLDR; a test holds them against it.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from counter.language._chosen import current, marked, region, tr

if TYPE_CHECKING:
    from datetime import date

WITH_COMMA = frozenset(["cs", "da", "de", "es", "fi", "fr", "it", "nb", "nl", "pl", "pt", "ro", "sv", "tr"])
# Where a language of these is spoken with a decimal point after all.
POINT_IN = {
    "de": frozenset(["CH", "LI"]),
    "es": frozenset(["419", "BR", "BZ", "CU", "DO", "GT", "HN", "MX", "NI", "PA", "PE", "PR", "SV", "US"]),
    "it": frozenset(["CH"]),
}
MONTHS = (
    *(marked("January"), marked("February"), marked("March"), marked("April"), marked("May"), marked("June")),
    *(marked("July"), marked("August"), marked("September"), marked("October"), marked("November")),
    marked("December"),
)
DAYS = {"de": "{day}. {month} {year}", "es": "{day} de {month} de {year}"}
_POINT = r"(?<=\d)\.(?=\d)"  # compiled where it is used: the first paint has no numbers


def decimal_sign() -> str:
    """Return what parts whole from fraction in the language now spoken."""
    code = current()
    return "," if code in WITH_COMMA and region() not in POINT_IN.get(code, ()) else "."


def decimals(text: str) -> str:
    """Return a text of numbers written with decimal points, "0.32" or "9.5 to 13", with the language's own sign."""
    return text if decimal_sign() == "." else re.sub(_POINT, ",", text)


def figure(value: float, form: str = "g") -> str:
    """Write a number for people, by a format of Python's: 0.32 or 0,32."""
    return decimals(f"{value:{form}}")


class SpokenNumber(float):
    """A number that is filled into a sentence with the language's decimal sign, by whatever format stands there."""

    __slots__ = ()

    def __format__(self, form: str) -> str:
        return decimals(super().__format__(form))


def grouped(value: float, form: str = ",.2f") -> str:
    """Write a number with its thousands parted: 1,234.50 or 1.234,50."""
    text = f"{value:{form}}"
    return text if decimal_sign() == "." else text.translate(str.maketrans(",.", ".,"))


def day(when: date) -> str:
    """Write a day for people, its month in words: 1 January 2027."""
    written = DAYS.get(current(), "{day} {month} {year}")
    return written.format(day=when.day, month=tr(MONTHS[when.month - 1]), year=when.year)


def range_of(least: str, most: str) -> str:
    """Write two written numbers as a range."""
    return tr("{least} to {most}").format(least=least, most=most)
