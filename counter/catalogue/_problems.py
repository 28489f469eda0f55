"""Problems of a file: where in it, on which base or lamp, what is wrong, and the way out."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any, NamedTuple

from counter.language import tr

if TYPE_CHECKING:
    from collections.abc import Iterable

Loc = tuple[str | int, ...]
MOST = 1000  # a file with more is not a catalogue with mistakes, it is something else

_PLAIN_KEY = re.compile(r"[A-Za-z_][A-Za-z0-9_]*")
_UNPRINTABLE = re.compile(r"[\x00-\x1f\x7f-\x9f\u2028\u2029\u202a-\u202e\u2066-\u2069\ud800-\udfff]")


@dataclass(frozen=True, slots=True)
class Problem:
    """One thing wrong with a file.

    `path` is the place in the JSON (`bases[3].face.pins.at[0].x_mm`), empty for the file as a whole;
    `where` is the designation, lamp id or line and column when known, otherwise empty. `file` is the name of the
    file, `line` the line in it, from 1; empty and 0 where nobody said.
    """

    path: str
    what: str
    way_out: str
    where: str = ""
    file: str = ""
    line: int = 0

    def in_file(self, name: str) -> Problem:
        """Return the same, said of a file."""
        return replace(self, file=name)


class Finding(NamedTuple):
    """A problem before its place is put into words."""

    loc: Loc
    what: str
    way_out: str


def shown(value: object, most: int = 60) -> str:
    """Return text of a file safe to print: one line, cut short, no control or direction characters."""
    text = _UNPRINTABLE.sub("\N{REPLACEMENT CHARACTER}", str(value))
    return text if len(text) <= most else text[: most - 1] + "…"


def json_path(loc: Loc) -> str:
    """Write a place as it is read: `bases[3].pins.value`; odd keys in quotes and brackets."""
    words = ""
    for step in loc:
        if isinstance(step, int):
            words += f"[{step}]"
        elif _PLAIN_KEY.fullmatch(step):
            words += f".{step}" if words else step
        else:
            words += f'["{shown(step)}"]'
    return words


def problems_from(findings: Iterable[Finding], data: Any, text: str = "") -> tuple[Problem, ...]:
    """Put the places of findings into words, each once, sorted by place, at most `MOST` of them.

    `text` is what the data was read from; with it each problem gets its line.
    """
    unique = {(json_path(f.loc), f.what): f for f in findings}
    ordered = sorted(unique.items(), key=lambda item: [_order(step) for step in item[1].loc])
    lines = _lines(text, [f.loc for _, f in ordered])
    problems = [
        Problem(path, f.what, f.way_out, _name_at(data, f.loc), line=lines.get(f.loc, 0))
        for (path, _), f in ordered[: MOST + 1]
    ]
    if len(ordered) > MOST:
        rest = len(ordered) - MOST
        problems[MOST:] = [
            Problem(
                "", tr("there are {rest} more problems").format(rest=rest), tr("Correct those above and check again.")
            )
        ]
    return tuple(problems)


def check_report(problems: Iterable[Problem]) -> dict[str, list[dict[str, str | int | None]]]:
    """Return what `counter check --json` prints."""
    return {
        "problems": [
            {
                "path": p.path,
                "where": p.where,
                "what": p.what,
                "way_out": p.way_out,
                "file": p.file,
                "line": p.line or None,
            }
            for p in problems
        ]
    }


def report_text(problems: Iterable[Problem]) -> str:
    """Return what `counter check` prints: two lines a problem, place and fault, then the way out."""
    lines = []
    for problem in problems:
        place = _place(problem)
        lines += [f"{place}: {problem.what}" if place else problem.what, f"    {problem.way_out}"]
    return "\n".join(lines) if lines else tr("No problems.")


def _place(problem: Problem) -> str:
    line = tr("line {line}").format(line=problem.line) if problem.line and (problem.path or not problem.where) else ""
    file = ", ".join(filter(None, (problem.file, line)))
    inside = " ".join(filter(None, (problem.path, problem.where and f"({problem.where})")))
    return ": ".join(filter(None, (file, inside)))


def _lines(text: str, locs: list[Loc]) -> dict[Loc, int]:
    if not text:
        return {}
    from counter.catalogue._lines import lines_of

    return lines_of(text, locs[: MOST + 1])


def _order(step: str | int) -> tuple[int, str]:
    return (step, "") if isinstance(step, int) else (-1, step)


def _name_at(data: Any, loc: Loc) -> str:
    """Return the name of the base, lamp, look, source or confirmation that a place lies in."""
    try:
        entry = data[loc[0]][loc[1]]
        name = next(entry[key] for key in ("designation", "id", "of", "key") if key in entry)
    except (TypeError, KeyError, IndexError, StopIteration):
        return ""
    return shown(name)
