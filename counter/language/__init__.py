"""Whose words are shown: every sentence of the program in the language chosen, by GNU gettext, with no Qt.

Lives here: `tr` and `trn`, which give a sentence in the language now chosen, `use` and `languages`, and which texts
of the resources are sentences (`_texts`). Translations lie in resources/translations, a folder for each language with
`counter.po` to be read by people and the `counter.mo` made from it; a further folder is a further language.

The language is ambient, as a locale is: it changes words and never an answer. What is kept in words must be kept by
language (`current`).

May import the standard library and counter.paths.
"""

from counter.language._chosen import OWN, current, languages, marked, tr, trn, use
from counter.language._texts import TEXTS, texts_of

__all__ = ["OWN", "TEXTS", "current", "languages", "marked", "texts_of", "tr", "trn", "use"]
