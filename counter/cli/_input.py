"""Standard input for those who write - where a code or a file is asked for: bounded, and read as it comes."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING

from counter.cli._line import BadInput
from counter.files import reason
from counter.language import tr

if TYPE_CHECKING:
    from collections.abc import Iterator

STANDARD_INPUT = "-"
LONGEST_LINE = 1_000_000  # bytes; a full case has two thousand
LARGEST_INPUT = 20_000_000


def lines() -> Iterator[str]:
    """Yield the lines of standard input that hold something, each as soon as it is there.

    Bytes that are no text become lone surrogates, which a case takes as characters nobody can read.

    Raises:
        BadInput: there is no standard input, it cannot be read, or a line does not end.
    """
    source = _source()
    number = 0
    while line := _line(source):
        number += 1
        if len(line) > LONGEST_LINE:
            told = tr("standard input, line {line} has more than {most} bytes; nothing of ours has")
            raise BadInput(told.format(line=number, most=LONGEST_LINE))
        text = line.decode("utf-8", "surrogateescape").rstrip("\r\n")
        if number == 1:
            text = text.removeprefix("\ufeff")  # some shells of Windows begin a pipe with it
        if text.strip():
            yield text


def whole() -> str:
    """Return all of standard input as one text."""
    found, size = [], 0
    for line in lines():
        size += len(line)
        if size > LARGEST_INPUT:
            told = tr("standard input has more than {most} bytes; nothing of ours has")
            raise BadInput(told.format(most=LARGEST_INPUT))
        found.append(line)
    return "\n".join(found)


def _source() -> object:
    if sys.stdin is None or sys.stdin.closed:
        raise BadInput(tr("there is no standard input to read from; name a file, or pipe something in"))
    return getattr(sys.stdin, "buffer", sys.stdin)


def _line(source: object) -> bytes:
    try:
        line = source.readline(LONGEST_LINE + 1)  # type: ignore[attr-defined] # a text stream in its place, in tests
    except (OSError, ValueError) as problem:
        why = reason(problem) if isinstance(problem, OSError) else problem
        raise BadInput(tr("standard input cannot be read: {why}").format(why=why)) from None
    return line if isinstance(line, bytes) else line.encode("utf-8", "surrogateescape")
