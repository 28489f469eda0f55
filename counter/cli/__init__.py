"""The `counter` command: the window, or one answer as text or JSON.

Lives here: the line as typed and its parser (`_line`), reading standard input (`_input`), writing for any console
(`_output`), what every command needs (`_core`), and one file a group of commands, each with an `add` that names them.

May import everything but PySide6, which it reaches through `counter.app`.
"""

from counter.cli._main import main

__all__ = ["main"]
