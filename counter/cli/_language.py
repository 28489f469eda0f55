"""In which language a command answers: as its line says, by a variable of ours, or as the system is set.

The system's variables mean what they mean to GNU gettext: LANGUAGE is a list and counts before the others, but not
where those say C or POSIX, which is our own English.
"""

from __future__ import annotations

import argparse
import os
from itertools import pairwise
from typing import TYPE_CHECKING

from counter.language import OWN, languages, marked, tr, trn, use

if TYPE_CHECKING:
    from collections.abc import Sequence

OPTION = "--language"
OURS = "COUNTER_LANGUAGE"
PLAIN = ("C", "POSIX")

# What argparse says by itself; it asks a gettext of its own, which is led to ours.
ARGPARSE = (
    marked("usage: "),
    marked("positional arguments"),
    marked("options"),
    marked("show this help message and exit"),
    marked("argument %(argument_name)s: %(message)s"),
    marked("the following arguments are required: %s"),
    marked("one of the arguments %s is required"),
    marked("not allowed with argument %s"),
    marked("unrecognized arguments: %s"),
    marked("invalid choice: %(value)r (choose from %(choices)s)"),
    marked("invalid %(type)s value: %(value)r"),
    marked("unknown parser %(parser_name)r (choices: %(choices)s)"),
    marked("ignored explicit argument %r"),
    marked("expected one argument"),
    marked("expected at most one argument"),
    marked("expected at least one argument"),
)


def speak(arguments: Sequence[str]) -> None:
    """Speak the language that a line of arguments, or the system, asks for; our own where none of it is known."""
    use(next(iter(_wished(arguments)), OWN))
    argparse._ = tr  # type: ignore[attr-defined]
    argparse.ngettext = trn  # type: ignore[attr-defined]


def _wished(arguments: Sequence[str]) -> list[str]:
    known = languages()
    wished = (*_on_the_line(arguments), os.environ.get(OURS, ""), *_of_the_system())
    return [one for one in wished if _plain(one) in known or _plain(one).split("_")[0] in known]


def _on_the_line(arguments: Sequence[str]) -> list[str]:
    """Return what stands behind the option; whether it is a language the parser says."""
    words = list(arguments[: arguments.index("--")] if "--" in arguments else arguments)
    found = [word.partition("=")[2] for word in words if word.startswith(f"{OPTION}=")]
    return found + [behind for word, behind in pairwise(words) if word == OPTION]


def _of_the_system() -> list[str]:
    set_ = next((one for name in ("LC_ALL", "LC_MESSAGES", "LANG") if (one := os.environ.get(name, ""))), "C")
    if set_.partition(".")[0] in PLAIN:
        return [OWN]
    return [*os.environ.get("LANGUAGE", "").split(":"), set_]


def _plain(code: str) -> str:
    return code.partition(".")[0].partition("@")[0].replace("-", "_")
