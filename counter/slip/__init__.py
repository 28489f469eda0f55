"""The slip: what a case came to, for the customer and for the log; its code that brings the case back.

Lives here: the slip as data (`_slip`), the text of its QR code (`_code`), the log as a file (`_log_files`). How it
looks on paper is the window's business, which has the pen.

May import counter.shelf, counter.shop, counter.desk and the core behind it.
"""

from counter.slip._code import (
    case_in,
    case_text,
    holds_case,
    is_case_text,
    key_in,
    without_the_gone,
)
from counter.slip._log_files import log_csv, log_words
from counter.slip._slip import (
    Slip,
    SlipCaution,
    SlipItem,
    SlipMark,
    item_from,
    keep,
    make_slip,
    slip_of,
    slip_report,
)

__all__ = [
    "Slip",
    "SlipCaution",
    "SlipItem",
    "SlipMark",
    "case_in",
    "case_text",
    "holds_case",
    "is_case_text",
    "item_from",
    "keep",
    "key_in",
    "log_csv",
    "log_words",
    "make_slip",
    "slip_of",
    "slip_report",
    "without_the_gone",
]
