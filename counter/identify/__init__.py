"""Looks to ranked lamps, and the next look worth taking.

May import counter.catalogue. Knows no marks grammar: evidence from marks arrives as one likelihood a lamp.
"""

from counter.identify._models import Candidate, NextLook

__all__ = ["Candidate", "NextLook"]
