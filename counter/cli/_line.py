"""The line as typed: options that may stand anywhere, complaints that read like ours, help that tells all."""

from __future__ import annotations

import argparse
from typing import TYPE_CHECKING, Any, NamedTuple, NoReturn

from counter.cli._language import OPTION
from counter.language import marked, tr

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence
    from pathlib import Path

DONE, NOTHING, BAD_INPUT, NO_SCREEN, ASK_FIRST, OUR_FAULT = 0, 1, 2, 4, 5, 70
BY_VERDICT = {"do not sell": NOTHING, "ask first": ASK_FIRST}
STATUSES = marked(
    """exit status:
  0  done
  1  done, but nothing was found, or the verdict is "do not sell"
  2  bad input, or the answer could not be written; one line on standard error says what and the way out
  4  the window is wanted and there is no screen
  5  the verdict is "ask first"
 70  a fault of the program; it says where its report lies"""
)
JSON = "--json"


class BadInput(Exception):  # noqa: N818 - said to the user as it stands, never a fault of the program
    """What was typed cannot be used; the message says what, where, and the way out."""


class Answer(NamedTuple):
    """What a command answers: a JSON object, the same as text for people, the exit status."""

    found: dict[str, Any]
    text: str
    status: int = DONE


class Parser(argparse.ArgumentParser):
    """A parser whose complaints and help read like ours; `more` adds what only the catalogue knows to the help."""

    more: Callable[[], str] | None = None

    def __init__(self, **keywords: Any) -> None:
        super().__init__(
            allow_abbrev=False,
            formatter_class=argparse.RawDescriptionHelpFormatter,
            epilog=tr(STATUSES),
            **keywords,
        )

    def format_help(self) -> str:
        text, statuses = super().format_help(), tr(STATUSES)
        return text.replace(statuses, f"{self.more()}\n\n{statuses}") if self.more is not None else text

    def print_help(self, file: Any = None) -> None:
        from counter.cli._output import write_words  # which says it where a full disk takes no help

        write_words(self.format_help().rstrip())

    def error(self, message: str) -> NoReturn:
        said = tr("{problem}. Try «{command} --help».").format(problem=message, command=self.prog)
        self.exit(BAD_INPUT, f"counter: {said}\n")


class Commands:
    """The commands of a parser, added one by one."""

    def __init__(self, parser: Parser, inner: str = "") -> None:
        self._parsers = parser.add_subparsers(
            parser_class=Parser,
            metavar=inner or tr("COMMAND"),
            title=tr("commands"),
            required=bool(inner),
            dest="inner" if inner else "command",
        )

    def add(self, name: str, run: Callable[[argparse.Namespace, Path], Any], about: str) -> Parser:
        """Add a command; `run` returns its Answer, or an iterator of Answers to be written one a line."""
        made = self._parsers.add_parser(name, help=about, description=about)
        told = tr("one JSON object, not text")
        made.add_argument(JSON, action="store_true", default=argparse.SUPPRESS, help=told)
        made.set_defaults(run=run)
        return made

    def group(self, name: str, about: str, inner: str) -> Commands:
        """Add a command that has commands of its own; on the line one of them must follow, as `inner` lists them."""
        made = self._parsers.add_parser(name, help=about, description=about)
        return Commands(made, inner)


def globals_first(arguments: Sequence[str]) -> list[str]:
    """Let --data, --language and --json stand anywhere on the line; argparse takes them only before the command."""
    first: list[str] = []
    rest: list[str] = []
    words = iter(arguments)
    for word in words:
        if word == "--":
            return [*first, *rest, word, *words]
        if word in ("--data", OPTION):
            named = next(words, None)
            # Where no folder or language follows, nothing else may be taken for one: the parser complains.
            first = [*first, word, named] if named is not None else []
            if named is None:
                return [word]
        elif word == JSON or word.startswith(("--data=", f"{OPTION}=")):
            first.append(word)
        else:
            rest.append(word)
    return [*first, *rest]


def actions_of(parser: argparse.ArgumentParser) -> Iterator[argparse.Action]:
    """Yield every option and argument of a parser and of its commands."""
    for action in parser._actions:
        yield action
        if isinstance(action, argparse._SubParsersAction):
            for inner in action.choices.values():
                yield from actions_of(inner)
