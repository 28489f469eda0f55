"""The language now chosen, and its words."""

from __future__ import annotations

from functools import cache, lru_cache, wraps
from typing import TYPE_CHECKING, ParamSpec, TypeVar

from counter import paths

if TYPE_CHECKING:
    from collections.abc import Callable
    from gettext import NullTranslations
    from pathlib import Path

Asked = ParamSpec("Asked")
Made = TypeVar("Made")

OWN = "en"  # the language that the program is written in; it needs no file
DOMAIN = "counter"

_chosen = [OWN, "", OWN]  # language, region and both, of the whole program: whoever sets them draws everything anew


def folder() -> Path:
    """Return where translations lie, a folder for each language."""
    return paths.resources() / "translations"


@cache
def _words(code: str) -> NullTranslations:
    from gettext import GNUTranslations, NullTranslations  # nothing that a start in the program's own words waits for

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

    A regional code falls back on its language: es_MX on es. Its region still says how numbers are written.
    """
    place = _plain(code).partition("_")[2]
    spoken = known_as(code) or OWN
    _chosen[:] = [spoken, place.upper(), f"{spoken}_{place}"]


def known_as(code: str) -> str:
    """Return which of our languages a code means, es for es_MX.UTF-8; "" where it is none of them."""
    plain = _plain(code)
    return next((one for one in (plain, plain.partition("_")[0]) if _is_known(one)), "")


def _plain(code: str) -> str:
    return code.partition(".")[0].partition("@")[0].replace("-", "_")


def _is_known(code: str) -> bool:
    return code == OWN or (code.replace("_", "").isalpha() and (folder() / code / f"{DOMAIN}.mo").is_file())


def current() -> str:
    """Return the code of the language now spoken."""
    return _chosen[0]


def region() -> str:
    """Return the region that came with the language, "MX" of es_MX; "" where none did."""
    return _chosen[1]


def tr(text: str) -> str:
    """Return a sentence in the language now spoken; the sentence itself where it has no translation."""
    code = _chosen[0]
    return text if code == OWN or not text else _words(code).gettext(text)


def marked(text: str) -> str:
    """Return a sentence as it is: a constant that goes through `tr` where it is shown."""
    return text


NAME = marked("This language, in itself")  # every catalogue translates it: Español, Deutsch


def trn(one: str, many: str, count: float) -> str:
    """Return the sentence for one or for many, whichever the language says for a count."""
    return _words(_chosen[0]).ngettext(one, many, int(count))


def kept_by_language(most: int) -> Callable[[Callable[Asked, Made]], Callable[Asked, Made]]:
    """Keep the last `most` answers of a function that answers in words: another language asks it anew."""

    def keeping(make: Callable[Asked, Made]) -> Callable[Asked, Made]:
        @lru_cache(maxsize=most)
        def kept(_: str, *args: Asked.args, **named: Asked.kwargs) -> Made:
            return make(*args, **named)

        @wraps(make)
        def asked(*args: Asked.args, **named: Asked.kwargs) -> Made:
            return kept(_chosen[2], *args, **named)  # type: ignore[arg-type] # what is kept can be hashed

        return asked

    return keeping
