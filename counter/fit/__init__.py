"""Lamp against holder, ballast and use: verdict, cautions, questions, and what may replace what.

Lives here: the comparison of bases (`_holder`), how hard a ballast drives a lamp (`_drive`), the rules
(`rules`: small functions that find, in numbers), their words (`_texts`, from resources/cautions.json; `_own_words`,
where a shop says them otherwise), the verdict
(`_judge`), the questions (`_asks`), pasted labels (`_label`, `_label_scan`), lamps that stand near one another
(`_near`, `_look_alikes`), what may go in instead (`_replacements`, `_led`), and law and
disposal (`_law`, `_disposal`).

May import counter.catalogue, counter.light and counter.words.
"""

from counter.fit._disposal import BrokenStep, broken_caution, broken_steps, disposal, disposal_check
from counter.fit._facts import weakest
from counter.fit._families import other_family
from counter.fit._holder import bases_that_go_in, unknown_holder
from counter.fit._judge import first_words, in_order, judge, judge_any, strictest_of
from counter.fit._label import LabelReading, LabelSpan, parse_label, quoted
from counter.fit._law import LawNote, law, law_caution, law_check, places
from counter.fit._look_alikes import (
    look_alikes,
    printed,
    said_coated_uv,
    said_led,
    said_other_lamp,
    said_uv,
    seen_clear,
    soonest_to_harm,
    unread_marks,
)
from counter.fit._models import (
    VERDICTS,
    Ask,
    Ballast,
    Caution,
    Fixture,
    Judgement,
    Replacement,
    Signal,
    Use,
    Verdict,
    strictest,
)
from counter.fit._near import uvc_twins, worth_holding_beside
from counter.fit._own_words import in_own_words, judged_in_own_words, wording_faults
from counter.fit._replacements import replacements, wanted
from counter.fit._report import fit_report
from counter.fit._texts import questions, spoken, texts, white_codes
from counter.fit.rules._beyond import typical_band
from counter.fit.rules._use import about, most_uvc

__all__ = [
    "VERDICTS",
    "Ask",
    "Ballast",
    "BrokenStep",
    "Caution",
    "Fixture",
    "Judgement",
    "LabelReading",
    "LabelSpan",
    "LawNote",
    "Replacement",
    "Signal",
    "Use",
    "Verdict",
    "about",
    "bases_that_go_in",
    "broken_caution",
    "broken_steps",
    "disposal",
    "disposal_check",
    "first_words",
    "fit_report",
    "in_order",
    "in_own_words",
    "judge",
    "judge_any",
    "judged_in_own_words",
    "law",
    "law_caution",
    "law_check",
    "look_alikes",
    "most_uvc",
    "other_family",
    "parse_label",
    "places",
    "printed",
    "questions",
    "quoted",
    "replacements",
    "said_coated_uv",
    "said_led",
    "said_other_lamp",
    "said_uv",
    "seen_clear",
    "soonest_to_harm",
    "spoken",
    "strictest",
    "strictest_of",
    "texts",
    "typical_band",
    "unknown_holder",
    "unread_marks",
    "uvc_twins",
    "wanted",
    "weakest",
    "white_codes",
    "wording_faults",
    "worth_holding_beside",
]
