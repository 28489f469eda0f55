"""In which language a command answers: as its line says, else as `counter.language.wished` finds."""

from __future__ import annotations

import argparse
from itertools import pairwise
from typing import TYPE_CHECKING

from counter.language import marked, tr, trn, use, wished

if TYPE_CHECKING:
    from collections.abc import Sequence

OPTION = "--language"

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
    use(wished(*_on_the_line(arguments)))
    argparse._ = tr  # type: ignore[attr-defined]
    argparse.ngettext = trn  # type: ignore[attr-defined]


def _on_the_line(arguments: Sequence[str]) -> list[str]:
    """Return what stands behind the option; whether it is a language the parser says."""
    words = list(arguments[: arguments.index("--")] if "--" in arguments else arguments)
    found = [word.partition("=")[2] for word in words if word.startswith(f"{OPTION}=")]
    return found + [behind for word, behind in pairwise(words) if word == OPTION]
