"""Lamp against holder, ballast and use: verdict, cautions, questions, and what may replace what.

Lives here: the comparison of bases (`_holder`), how hard a ballast drives a lamp (`_drive`), the rules
(`_holder_rules`, `_supply_rules`, `_use_rules`: small functions that find, in numbers), their words (`_texts`,
from resources/cautions.json), the verdict (`_judge`), the questions (`_asks`) and pasted labels (`_label`).

May import counter.catalogue and counter.light.
"""

from counter.fit._judge import in_order, judge
from counter.fit._label import LabelReading, LabelSpan, parse_label
from counter.fit._look_alikes import LEADING, look_alikes
from counter.fit._models import Ask, Ballast, Caution, Fixture, Judgement, Replacement, Signal, Use, Verdict
from counter.fit._report import fit_report

__all__ = [
    "LEADING",
    "Ask",
    "Ballast",
    "Caution",
    "Fixture",
    "Judgement",
    "LabelReading",
    "LabelSpan",
    "Replacement",
    "Signal",
    "Use",
    "Verdict",
    "fit_report",
    "in_order",
    "judge",
    "look_alikes",
    "parse_label",
]
