"""What could not go into the store yet: one file an entry on this machine, which goes in later, each once."""

from __future__ import annotations

import json
import os
from contextlib import suppress
from typing import TYPE_CHECKING, Any, NamedTuple

from counter import paths
from counter.files import read_json, reason, write_atomic
from counter.language import tr
from counter.shop._problem import StoreProblem

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping
    from pathlib import Path

    from counter.shop._store import Store

FOLDER = "journal"
REFUSED = "refused"


class Kept(NamedTuple):
    """What became of a slip: its number, or why it waits."""

    number: int | None
    problem: StoreProblem | None = None


def keep_slip(
    data: Path, slip: Mapping[str, Any], items: list[dict[str, Any]], customer: str = "", folded: str = ""
) -> Kept:
    """Put a slip into the log, or where the store cannot take it, into the journal of this machine.

    Raises:
        StoreProblem: neither could be written; the slip must be kept on paper.
    """
    entry = {"kind": "slip", "slip": dict(slip), "items": items, "customer": customer, "folded": folded}
    return Kept(*_keep(data, str(slip["key"]), entry))


def keep_wish(data: Path, key: str, wish: Mapping[str, Any]) -> StoreProblem | None:
    """Note what was asked for and not there, or let it wait; returns why it waits."""
    return _keep(data, key, {"kind": "wish", "key": key, "wish": dict(wish)})[1]


def keep_return(data: Path, key: str, returned: Mapping[str, Any]) -> StoreProblem | None:
    """Note what came back, or let it wait; returns why it waits."""
    return _keep(data, key, {"kind": "return", "key": key, "return": dict(returned)})[1]


def _keep(data: Path, key: str, entry: dict[str, Any]) -> tuple[int | None, StoreProblem | None]:
    from counter.shop._store import open_store

    try:
        store = open_store(data)
        flush(store)
        return _put(store, entry), None
    except StoreProblem as problem:
        if not problem.may_pass:
            raise
        _write(data, key, entry, problem)
        return None, problem


def _write(data: Path, key: str, entry: dict[str, Any], problem: StoreProblem) -> None:
    try:
        write_atomic(_folder(data) / f"{key}.json", json.dumps(entry, ensure_ascii=False).encode())
    except OSError as error:
        what = tr("{problem}, and this machine cannot keep the slip either ({why})")
        what = what.format(problem=problem.what, why=reason(error))
        raise StoreProblem("full", what, tr("Keep it on paper: print it, and make room on the disk.")) from error


def waiting(data: Path) -> int:
    """Return how many entries wait on this machine."""
    return len(_entries(data))


def flush(store: Store) -> int:
    """Put in what waits, oldest first; returns how many went in. What the store refuses is put aside, not lost.

    Raises:
        StoreProblem: the store went away again; the rest waits on.
    """
    done = 0
    for file in _entries(store.where.data):
        try:
            _put(store, _without_forgotten(store, read_json(file)))
        except (ValueError, KeyError, TypeError):
            _aside(file)
            continue
        file.unlink(missing_ok=True)
        done += 1
    return done


def _without_forgotten(store: Store, entry: dict[str, Any]) -> dict[str, Any]:
    """Return what waited without a name that somebody asked another machine to forget meanwhile."""
    from counter.shop._forgotten import is_forgotten

    if entry["kind"] != "slip" or not entry["folded"]:
        return entry
    with store.reading() as connection:
        is_gone = is_forgotten(connection, entry["folded"], entry["slip"]["at"])
    return entry | {"customer": "", "folded": ""} if is_gone else entry


def forget_waiting(data: Path, is_meant: Callable[[Mapping[str, Any]], bool]) -> int:
    """Take the names off slips that wait on this machine, or were put aside here; returns how many had one.

    Each keeps its place in the queue. One that another window puts in at this moment is in the store already, which
    knows its key and takes nothing of it twice.

    Raises:
        OSError: a name could not be taken off.
    """
    return sum(_forget_in(file, is_meant) for folder in ("", REFUSED) for file in _entries(data, folder))


def _forget_in(file: Path, is_meant: Callable[[Mapping[str, Any]], bool]) -> bool:
    try:
        entry, moment = read_json(file), file.stat()
        if entry["kind"] != "slip" or not entry["customer"] or not is_meant(entry):
            return False
    except (FileNotFoundError, ValueError, KeyError, TypeError):
        return False  # put in meanwhile, or no entry at all
    entry |= {"customer": "", "folded": ""}
    write_atomic(file, json.dumps(entry, ensure_ascii=False).encode())
    os.utime(file, ns=(moment.st_atime_ns, moment.st_mtime_ns))
    return True


def _put(store: Store, entry: Mapping[str, Any]) -> int | None:
    puts: dict[str, Callable[[Store, Mapping[str, Any]], int | None]] = {
        "slip": _put_slip,
        "wish": _put_wish,
        "return": _put_return,
    }
    return puts[entry["kind"]](store, entry)


def _put_slip(store: Store, entry: Mapping[str, Any]) -> int:
    from counter.shop._log import add_slip

    return add_slip(store, entry["slip"], entry["items"], entry["customer"], entry["folded"])


def _put_wish(store: Store, entry: Mapping[str, Any]) -> None:
    from counter.shop._log import Wish, add_wish

    add_wish(store, entry["key"], Wish(**entry["wish"]))


def _put_return(store: Store, entry: Mapping[str, Any]) -> None:
    from counter.shop._log import Return, add_return

    add_return(store, entry["key"], Return(**entry["return"]))


def _entries(data: Path, folder: str = "") -> list[Path]:
    """Return what waits, oldest first; a file that another window has just put in is no longer there."""
    found = []
    with suppress(OSError):
        for file in (_folder(data) / folder).glob("*.json"):
            with suppress(OSError):
                found.append((file.stat().st_mtime_ns, file))
    return [file for _, file in sorted(found)]


def _aside(file: Path) -> None:
    with suppress(OSError):
        (file.parent / REFUSED).mkdir(exist_ok=True)
        file.replace(file.parent / REFUSED / file.name)


def _folder(data: Path) -> Path:
    return paths.machine(data) / FOLDER
