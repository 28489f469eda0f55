"""Sentences that were filled in and kept: found again, and said in another language.

What is kept for long, in a store or in a table, stays in the program's own words; where it is shown, the sentence
that it was made of is looked for and said anew with the same figures and names.
"""

from __future__ import annotations

import re
from functools import cache
from typing import TYPE_CHECKING

from counter.language._chosen import OWN, current, tr

if TYPE_CHECKING:
    from collections.abc import Iterable


@cache
def _shape(sentence: str) -> re.Pattern[str]:
    return re.compile(re.sub(r"\\\{(\w+)\\\}", r"(?P<\1>.+?)", re.escape(sentence)), re.DOTALL)


def said_again(text: str, sentences: Iterable[str]) -> str:
    """Return a text made of one of these sentences in the language now spoken; as it is where it is of none."""
    if current() == OWN:
        return text
    for sentence in sentences:
        if (found := _shape(sentence).fullmatch(text)) is not None:
            return tr(sentence).format(**{name: tr(part) for name, part in found.groupdict().items()})
    return tr(text)
