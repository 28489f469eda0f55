"""Which language is asked for: what somebody chose, else a variable of ours, else as the system is set.

The system's variables mean what they mean to GNU gettext: LANGUAGE is a list and counts before the others, but not
where those say C or POSIX, which is our own English.
"""

from __future__ import annotations

import os

from counter.language._chosen import OWN, known_as

OURS = "COUNTER_LANGUAGE"
PLAIN = ("C", "POSIX")


def wished(*chosen: str) -> str:
    """Return the first known language of these, of our variable and of the system's; our own where none is."""
    return next(filter(known_as, (*chosen, os.environ.get(OURS, ""), *_of_the_system())), OWN)


def _of_the_system() -> list[str]:
    set_ = next((one for name in ("LC_ALL", "LC_MESSAGES", "LANG") if (one := os.environ.get(name, ""))), "C")
    if set_.partition(".")[0] in PLAIN:
        return [OWN]
    return [*os.environ.get("LANGUAGE", "").split(":"), set_]
