"""The one door: a Case goes in, an Assessment comes out, and every pane, command, slip and card shows from it.

Lives here: the case (`_case`, `_fields`, `_history`, `_saved_case`), what looks and marks say together
(`_evidence`), what leads (`_lead`), what may be offered (`_offers`), notes beside a verdict (`notes`), and `assess`.

May import the core below it: catalogue, identify, marks, fit, light.
"""

from counter.desk._assess import assess, fit_code
from counter.desk._assessment import Assessment
from counter.desk._case import CANNOT_TELL, LONGEST_MARKS, Case, CaseProblem
from counter.desk._disputes import Conflict
from counter.desk._doubts import OPEN_END, Doubt
from counter.desk._fields import changed_fixture, confirmable, readings, sized
from counter.desk._history import History
from counter.desk._kept_cases import Kept, keep_customer, keep_open, last_customers, open_case, write_case
from counter.desk._letters_asked import LettersAsked
from counter.desk._saved_case import case_in, read_case
from counter.desk._sold import SoldBefore, SoldCode, SoldCodes, code_key
from counter.desk._told import told
from counter.fit import Fixture

__all__ = [
    "CANNOT_TELL",
    "LONGEST_MARKS",
    "OPEN_END",
    "Assessment",
    "Case",
    "CaseProblem",
    "Conflict",
    "Doubt",
    "Fixture",
    "History",
    "Kept",
    "LettersAsked",
    "SoldBefore",
    "SoldCode",
    "SoldCodes",
    "assess",
    "case_in",
    "changed_fixture",
    "code_key",
    "confirmable",
    "fit_code",
    "keep_customer",
    "keep_open",
    "last_customers",
    "open_case",
    "read_case",
    "readings",
    "sized",
    "told",
    "write_case",
]
