"""Looks to ranked lamps, and the next look worth taking.

May import counter.catalogue. Knows no marks grammar: evidence from marks arrives as one likelihood a lamp.
"""

from counter.identify._models import Candidate, NextLook
from counter.identify._next import next_looks
from counter.identify._parse import CANNOT_TELL, LookProblem, parse_look
from counter.identify._prior import prior
from counter.identify._rank import rank
from counter.identify._tables import word_chances
from counter.identify._units import Typed, UnitDoubt, Units, size_of, with_unit
from counter.identify._worth import Worth, worth_confirming

__all__ = [
    "CANNOT_TELL",
    "Candidate",
    "LookProblem",
    "NextLook",
    "Typed",
    "UnitDoubt",
    "Units",
    "Worth",
    "next_looks",
    "parse_look",
    "prior",
    "rank",
    "size_of",
    "with_unit",
    "word_chances",
    "worth_confirming",
]
