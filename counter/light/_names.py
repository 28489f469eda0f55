"""What a colour is called: three-digit codes, kelvins, standard colours and the older letters."""

from __future__ import annotations

import re
from typing import Literal, NamedTuple

from counter.language import marked, tr
from counter.light._bounds import within
from counter.light._tables import tables

KELVIN_RANGE = (1667, 25000)  # where both loci are defined, and more than any white lamp needs

# A space parts thousands only where K follows: "18 840" is more likely watts and a code.
_KELVIN = re.compile(r"(\d{1,2}),?(\d{3})(?: ?°? ?K)?|(\d{1,2}) (\d{3}) ?°? ?K|(\d{3}) ?°? ?K", re.ASCII)
_CODE = re.compile(r"(?:RE ?)?(\d)(\d\d)", re.ASCII)
_SHORT = re.compile(r"(\d\d) ?K?", re.ASCII)


class Name(NamedTuple):
    """A colour name read: colour temperature and, where the name says it, colour rendering (Ra)."""

    text: str
    kind: Literal["code", "kelvin", "letters", "standard"]
    cct_k: int
    cct_range_k: tuple[int, int]
    cri_range: tuple[int, int] | None
    source: str | None
    confidence: str


def read_name(text: str) -> Name:
    """Read "840", "RE841", "/841", "CW", "F4000", "4100", "4100K" or "4000 K".

    Raises:
        ValueError: the text is none of these, or its colour temperature is outside `KELVIN_RANGE`.
    """
    plain = " ".join(text.upper().split()).lstrip("/- ")
    name = _letters(plain) or _standard(plain) or _kelvin(plain) or _code(plain)
    if name is None:
        short = _SHORT.fullmatch(plain)
        guess = tr(" Did you mean {kelvin} K?").format(kelvin=f"{short[1]}00") if short else ""
        told = tr(
            "Colour {text} is not known.{guess} Write a code such as 840, a temperature such as 4000 K, "
            "or letters: {letters}."
        )
        letters = ", ".join(row.letters for row in tables().letters)
        raise ValueError(told.format(text=repr(text[:40]), guess=guess, letters=letters))
    return name


def _letters(plain: str) -> Name | None:
    for row in tables().letters:
        if plain == row.letters:
            what = row.cct_k, row.cct_range_k, row.cri_range, row.source, row.confidence
            return Name(row.letters, "letters", *what)
    return None


def _standard(plain: str) -> Name | None:
    for row in tables().standard:
        if plain.replace(" ", "") == row.name:
            nominal = int(row.name[1:])
            return Name(row.name, "standard", nominal, (nominal, nominal), None, row.source, row.confidence)
    return None


def _kelvin(plain: str) -> Name | None:
    found = _KELVIN.fullmatch(plain)
    if found is None:
        return None
    cct_k = int("".join(part for part in found.groups() if part))
    way_out = marked("White lamps lie between 2200 and 8000 K.")
    within(marked("The colour temperature"), cct_k, *KELVIN_RANGE, "K", way_out)
    return Name(f"{cct_k} K", "kelvin", cct_k, (cct_k, cct_k), None, None, "published")


def _code(plain: str) -> Name | None:
    found = _CODE.fullmatch(plain)
    if found is None:
        return None
    classes = {row.digit: row for row in tables().cri_classes}
    row = classes.get(int(found[1]))
    if row is None:
        told = tr("Colour code {code} is not known. The first digit is the colour rendering class, {low} to {high}.")
        raise ValueError(told.format(code=repr(plain), low=min(classes), high=max(classes)))
    cct_k = int(found[2]) * 100
    way_out = marked("The last two digits are hundreds of kelvins: 840 is 4000 K.")
    what = tr("The colour temperature of code {code}").format(code=plain)
    within(what, cct_k, *KELVIN_RANGE, "K", way_out)
    return Name(found[1] + found[2], "code", cct_k, (cct_k, cct_k), row.cri_range, row.source, row.confidence)
