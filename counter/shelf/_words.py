"""Words to find an item by: the same on both databases, and cut where letters meet figures."""

from __future__ import annotations

import re
import unicodedata

_WORD = re.compile(r"[^\W_]+")
_BORDER = re.compile(r"(?<=[^\W\d_])(?=\d)|(?<=\d)(?=[^\W\d_])")
MOST_WORDS = 60


def folded(text: str) -> str:
    """Return text without case and accents: "Röhre" is found as "rohre"."""
    plain = unicodedata.normalize("NFKD", text.casefold())
    return "".join(sign for sign in plain if not unicodedata.combining(sign))


def search_words(*texts: str) -> str:
    """Return what is kept to be searched: each word, and what follows each border of letters and figures in it.

    "CFQ26W/G24q" is found by cfq, by 26, by 26w, by g24 and by 24q.
    """
    words: dict[str, None] = {}
    for word in _WORD.findall(folded(" ".join(texts))):
        words[word] = None
        if not word.isdigit() and not word.isalpha():
            for border in _BORDER.finditer(word):
                words[word[border.start() :]] = None
    return " ".join(list(words)[:MOST_WORDS])


def asked_words(text: str) -> tuple[str, ...]:
    """Return the words that were typed; an item is found whose words begin with each of them."""
    return tuple(dict.fromkeys(_WORD.findall(folded(text))))[:12]
