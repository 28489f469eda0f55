"""Barcodes: GTIN-8, -12, -13 and -14, their check digit by python-stdnum."""

from __future__ import annotations

import re
from typing import NamedTuple

from counter.marks._lex import Parsed, Part
from counter.marks._sentences import BAD_CHECK, CHECK_DIGIT, ONE_ARTICLE, ONLY_FIGURE

_LENGTHS = (8, 12, 13, 14)
_DIGITS = re.compile(r"[\d?][\d? \-]*[\d?]", re.ASCII)


class Scan(NamedTuple):
    """What a string of figures is as a barcode; `problem` where it is not one."""

    parsed: Parsed | None
    problem: str | None


def barcode(plain: str) -> Scan | None:
    """Read a whole text as a barcode; None where it cannot be one. One unreadable figure is computed."""
    start = len(plain) - len(plain.lstrip())
    body = plain.strip()
    digits = re.sub(r"[ \-]", "", body)
    if not _DIGITS.fullmatch(body) or len(digits) not in _LENGTHS or digits.count("?") > 1:
        return None
    from stdnum import ean  # loaded when a barcode is met

    fits = [digits.replace("?", figure) for figure in ("0123456789" if "?" in digits else "?")]
    fits = [number for number in fits if ean.is_valid(number)]
    if fits:
        return Scan(_parsed(body, start, fits[0], digits), None)
    should = ean.calc_check_digit(digits[:-1])
    return Scan(None, BAD_CHECK.format(n=len(digits), digit=should))


def _parsed(body: str, start: int, gtin: str, digits: str) -> Parsed:
    places = [start + at for at, sign in enumerate(body) if sign not in " -"]
    parts = (
        Part(places[0], places[-2] + 1, "number", ONE_ARTICLE.format(n=len(gtin))),
        Part(places[-1], places[-1] + 1, "check digit", CHECK_DIGIT),
    )
    note = (ONLY_FIGURE.format(n=gtin[digits.index("?")]),) if "?" in digits else ()
    return Parsed("barcode", None, start, start + len(body), gtin, parts, {}, note)
