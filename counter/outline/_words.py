"""Lengths in words, for dimension lines and facts."""

from __future__ import annotations

from counter.language import figure

MM_PER_INCH = 25.4  # exact since the 1959 international yard and pound agreement
THIN_SPACE = "\N{THIN SPACE}"


def length_words(mm: float, units: str = "mm") -> str:
    """Return a length as `23 mm` or, with units "in", to the nearest sixteenth as a tape reads it: `5 7/8 in`."""
    if units == "mm":
        return f"{figure(round(mm, 2 if mm < 10 else 1))}{THIN_SPACE}mm"
    sixteenths = round(mm / MM_PER_INCH * 16)
    whole, rest = divmod(sixteenths, 16)
    if not rest:
        return f"{whole}{THIN_SPACE}in"
    from fractions import Fraction  # 5 ms that the first paint need not pay

    part = str(Fraction(rest, 16))
    return f"{whole} {part}{THIN_SPACE}in" if whole else f"{part}{THIN_SPACE}in"
