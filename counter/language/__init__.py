"""Whose words are shown: every sentence of the program in the language chosen, by GNU gettext, with no Qt.

Lives here: `tr` and `trn`, which give a sentence in the language now chosen, `use` and `languages`, which of them is
asked for (`_wished`), which texts of the resources are sentences (`_texts`), and numbers and days as a language
writes them (`_numbers`). Translations lie in resources/translations, a folder for each language with `counter.po` to
be read by people and the `counter.mo` made from it; a further folder is a further language.

The language is ambient, as a locale is: it changes words and never an answer. What is kept in words must be kept by
language (`current`).

May import the standard library and counter.paths.
"""

from counter.language._again import said_again
from counter.language._chosen import OWN, current, kept_by_language, languages, marked, region, tr, trn, use
from counter.language._numbers import MONTHS, SpokenNumber, day, decimal_sign, decimals, figure, grouped, range_of
from counter.language._texts import TEXTS, texts_of
from counter.language._wished import wished

__all__ = [
    "MONTHS",
    "OWN",
    "TEXTS",
    "SpokenNumber",
    "current",
    "day",
    "decimal_sign",
    "decimals",
    "figure",
    "grouped",
    "kept_by_language",
    "languages",
    "marked",
    "range_of",
    "region",
    "said_again",
    "texts_of",
    "tr",
    "trn",
    "use",
    "wished",
]
