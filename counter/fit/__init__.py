"""Lamp against holder, ballast and use: verdict, cautions, questions, and what may replace what.

May import counter.catalogue and counter.light.
"""

from counter.fit._models import Ask, Ballast, Caution, Fixture, Judgement, Replacement, Signal, Use, Verdict

__all__ = ["Ask", "Ballast", "Caution", "Fixture", "Judgement", "Replacement", "Signal", "Use", "Verdict"]
