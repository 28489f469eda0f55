"""Printed codes to readings: grammars, worn characters, house codes, barcodes.

May import counter.catalogue, counter.light (colour words) and python-stdnum (check digits).
"""

from counter.marks._models import MarkEvidence, Reading, ReadLamp, Span

__all__ = ["MarkEvidence", "ReadLamp", "Reading", "Span"]
