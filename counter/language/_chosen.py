"""The language now chosen, and its words."""

from __future__ import annotations

from functools import cache
from gettext import GNUTranslations, NullTranslations
from typing import TYPE_CHECKING

from counter import paths

if TYPE_CHECKING:
    from pathlib import Path

OWN = "en"  # the language that the program is written in; it needs no file
DOMAIN = "counter"

_chosen = [OWN]  # of the whole program: whoever sets it draws everything anew


def folder() -> Path:
    """Return where translations lie, a folder for each language."""
    return paths.resources() / "translations"


@cache
def _words(code: str) -> NullTranslations:
    file = folder() / code / f"{DOMAIN}.mo"
    if code == OWN or not file.is_file():
        return NullTranslations()
    with file.open("rb") as opened:
        return GNUTranslations(opened)


def languages() -> dict[str, str]:
    """Return every language there is, by code, with its own name for itself."""
    codes = (file.parent.name for file in sorted(folder().glob(f"*/{DOMAIN}.mo")))
    return {OWN: "English"} | {code: _words(code).gettext(NAME) for code in codes}


def use(code: str) -> None:
    """Speak this language from now on; the program's own where there is none of that code.

    A regional code falls back on its language: es_MX on es.
    """
    known = languages() if code != OWN else {}
    plain = code.replace("-", "_")
    _chosen[0] = next((one for one in (plain, plain.split("_")[0]) if one in known), OWN)


def current() -> str:
    """Return the code of the language now spoken."""
    return _chosen[0]


def tr(text: str) -> str:
    """Return a sentence in the language now spoken; the sentence itself where it has no translation."""
    return _words(_chosen[0]).gettext(text) if text else text


def marked(text: str) -> str:
    """Return a sentence as it is: a constant that goes through `tr` where it is shown."""
    return text


NAME = marked("This language, in itself")  # every catalogue translates it: Español, Deutsch


def trn(one: str, many: str, count: float) -> str:
    """Return the sentence for one or for many, whichever the language says for a count."""
    return _words(_chosen[0]).ngettext(one, many, int(count))
