"""Write an answer so that it arrives: on any console's encoding, into a pipe that closes, onto a full disk."""

from __future__ import annotations

import codecs
import contextlib
import io
import json
import os
import sys
import unicodedata
from typing import TYPE_CHECKING, Any

from counter.cli._line import BadInput
from counter.files import reason
from counter.language import tr
from counter.text import writable

if TYPE_CHECKING:
    from collections.abc import Callable

    from counter.cli._line import Answer

_PLAIN = str.maketrans(
    {"×": "x", "−": "-", "–": "-", "—": "-", "…": "...", "“": '"', "”": '"', "„": '"', "‘": "'", "’": "'"}
    | {
        "«": "'",
        "»": "'",
        "·": ".",
        "≤": "<=",
        "≥": ">=",
        "≈": "~",
        "→": "->",
        "▸": ">",
        "•": "*",
        "″": '"',
        "′": "'",
    }
    | {
        "°": " deg ",
        "µ": "u",
        "μ": "u",
        "²": "2",
        "³": "3",
        "½": "1/2",
        "¼": "1/4",
        "¾": "3/4",
        "⅛": "1/8",
        "⅞": "7/8",
    }
)


def _plainly(problem: UnicodeError) -> tuple[str, int]:
    """Write what an encoding lacks by what comes nearest in it: a thin space as a space, é as e, else ?."""
    if not isinstance(problem, UnicodeEncodeError):
        raise problem
    lacking = problem.object[problem.start : problem.end]
    near = unicodedata.normalize("NFKD", lacking.translate(_PLAIN))
    plain = "".join(char for char in near if not unicodedata.combining(char))
    return plain.encode("ascii", "replace").decode("ascii"), problem.end


def ready_console() -> None:
    """Let both outputs write whatever comes, whatever their encoding."""
    codecs.register_error("counter.plainly", _plainly)
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="counter.plainly")


def as_json(found: dict[str, Any]) -> str:
    """Return one line of JSON; in escapes where the console's encoding could not carry it as it is."""
    line = json.dumps(found, ensure_ascii=not _speaks_unicode())
    return line if line == writable(line) else json.dumps(found)


def _speaks_unicode() -> bool:
    encoding = getattr(sys.stdout, "encoding", None) or "utf-8"
    with contextlib.suppress(LookupError):
        return codecs.lookup(encoding).name.startswith("utf-")
    return False


def write(answer: Answer, *, json_wanted: bool) -> bool:
    """Write one answer at once, so that a program at the other end of a pipe need not wait for the next.

    Returns whether somebody still reads: whoever did may have left, as `| head` does, which is no fault.
    """
    return write_words(as_json(answer.found) if json_wanted else answer.text)


def write_words(words: str) -> bool:
    """Write words and an end of line, nothing for no words; returns as `write` does."""
    if sys.stdout is None:
        raise BadInput(tr("there is no standard output to write to; start it with one"))
    return not words or _reached(lambda: print(words, flush=True))


def flush() -> None:
    """Bring out what help and version left in the buffer."""
    if sys.stdout is not None:
        _reached(sys.stdout.flush)


def _reached(act: Callable[[], None]) -> bool:
    try:
        act()
    except BrokenPipeError:
        let_go(sys.stdout)
        return False
    except OSError as problem:
        let_go(sys.stdout)
        told = tr("the answer could not be written: {why}; send it somewhere else")
        raise BadInput(told.format(why=reason(problem))) from None
    return True


def complain(words: object) -> None:
    """Write one line to standard error, if there is one."""
    line = " ".join(str(words).split())
    with contextlib.suppress(OSError, ValueError):
        print(f"counter: {line}", file=sys.stderr, flush=True)


def let_go(stream: Any) -> None:
    """Point an output that cannot be written at nothing, so that Python's own flush at the end finds no fault."""
    with contextlib.suppress(OSError, ValueError, AttributeError):
        nothing = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nothing, stream.fileno())
        os.close(nothing)
