"""The `counter` command: the window, or one answer as text or JSON.

Lives here: the window's own short way (`_window`), the line as typed and its parser (`_line`), reading standard input
(`_input`), writing for any console (`_output`), what every command needs (`_core`), running one (`_main`), and one
file a group of commands, each with an `add` that names them.

May import everything but PySide6, which it reaches through `counter.app`.
"""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

__all__ = ["main"]


def main(arguments: Sequence[str] | None = None) -> int:
    """Open the window where no command is named, or run the command; return the exit status."""
    words = list(sys.argv[1:] if arguments is None else arguments)
    if _names_no_command(words):
        from counter.cli._window import open_window

        return open_window(words[-1].removeprefix("--data=") if words else None)
    from counter.cli._main import run_command

    return run_command(words)


def _names_no_command(words: list[str]) -> bool:
    """Whether only a folder is named, if anything: then the first paint need not wait for the parser, 15 ms."""
    return (
        not words
        or (words[0].startswith("--data=") and len(words) == 1)
        or (words[0] == "--data" and len(words) == 2)
    )
