"""What a shop made before it had a store: taken over once, the old files kept beside it."""

from __future__ import annotations

import hashlib
import json
import re
from contextlib import suppress
from functools import partial
from typing import TYPE_CHECKING, Any

from sqlalchemy import insert, select

from counter import shop_words
from counter.catalogue import KEYS, SHOP_FILE, read_layer
from counter.files import is_there, read_bytes
from counter.shop._house_codes import HouseCodes
from counter.shop._letters import put_letters_in, put_makers_in
from counter.shop._load import OLD_MAKERS
from counter.shop._moments import now_text
from counter.shop._old_makers import old_makers
from counter.shop._tables import confirmed, own_entries, settings, trainees, training_events
from counter.text import all_readable

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from sqlalchemy import Connection

    from counter.shop._store import Store

KEPT = "taken-over"  # folder of the old files, within the data folder
RECORDS = "training"
LARGEST_RECORD = 200_000_000  # bytes; a year of quiet hours has one million
_ID = re.compile(r"[0-9a-f]{16}")


def take_over(store: Store, data: Path) -> None:
    """Take what lies in old files into the store. A file that cannot be read stays where it is, and is named later.

    Raises:
        StoreProblem: the store cannot be written; the old files stay as they are.
    """
    if (data / SHOP_FILE).is_file():
        _take_layer(store, data)
    if any(is_there(data / name) for name in OLD_MAKERS):
        _take_makers(store, data)
    if (data / shop_words.FILE_NAME).is_file():
        with suppress(OSError, ValueError):
            _take_words(store, data)
    for file in sorted((data / RECORDS).glob("*.jsonl")):
        if _ID.fullmatch(file.stem):
            with suppress(OSError):
                _take_record(store, data, file)


def _take_layer(store: Store, data: Path) -> None:
    layer = read_layer(data / SHOP_FILE)
    if isinstance(layer, dict):
        _take_once(store, data, SHOP_FILE, "confirmed", partial(put_layer, layer=layer))


def _take_makers(store: Store, data: Path) -> None:
    for name, found in old_makers(data).items():
        if isinstance(found, HouseCodes):
            _take_once(store, data, name, "letters", partial(_put_makers, codes=found, name=name))


def _put_makers(connection: Connection, codes: HouseCodes, name: str) -> None:
    put_makers_in(connection, codes.makers, "")
    if codes.letters.letters:
        put_letters_in(connection, codes.letters, f"taken over from {name}")


def _take_once(store: Store, data: Path, name: str, area: str, put: Callable[[Connection], None]) -> None:
    """Take a file's content in, unless it was before, and keep the file aside."""
    path = data / name
    mark = f"took {hashlib.sha256(read_bytes(path)).hexdigest()[:40]}"
    with store.writing(area) as connection:
        if connection.scalar(select(settings.c.key).where(settings.c.key == mark)) is None:
            put(connection)
            connection.execute(insert(settings).values(key=mark, value=True, at=now_text()))
    _keep(data, path)


def _take_words(store: Store, data: Path) -> None:
    """Take the words that say nothing of a lamp; what the file does not say of who read them stays open."""
    path = data / shop_words.FILE_NAME
    rows = [{"section": "words", "body": shop_words.as_entry(row), "at": now_text()} for row in shop_words.rows(data)]
    mark = f"took {hashlib.sha256(read_bytes(path)).hexdigest()[:40]}"
    with store.writing("confirmed") as connection:
        if connection.scalar(select(settings.c.key).where(settings.c.key == mark)) is None:
            if rows:
                connection.execute(insert(own_entries), rows)
            connection.execute(insert(settings).values(key=mark, value=True, at=now_text()))
    _keep(data, path)


def put_layer(connection: Connection, layer: dict[str, Any]) -> None:
    """Put the content of a shop's file into the tables, entries with faults too: they can be mended."""
    rows = [{"body": body, "at": now_text()} for body in _list(layer, "confirmed")]
    if rows:
        connection.execute(insert(confirmed), rows)
    own = [{"section": at, "body": body, "at": now_text()} for at in KEYS for body in _list(layer, at)]
    if own:
        connection.execute(insert(own_entries), own)


def _list(layer: dict[str, Any], section: str) -> list[Any]:
    found = layer.get(section)
    return [all_readable(one) for one in found] if isinstance(found, list) else []


def _take_record(store: Store, data: Path, file: Path) -> None:
    lines = [
        line for line in read_bytes(file, LARGEST_RECORD).decode("utf-8", "replace").splitlines() if line.strip()
    ]
    first = next((line for line in lines if _is_trainee(line)), None)
    if first is None:
        return
    with store.writing("training") as connection:
        if connection.scalar(select(trainees.c.id).where(trainees.c.id == file.stem)) is None:
            connection.execute(insert(trainees).values(id=file.stem, body=first))
            rest = [{"trainee": file.stem, "body": line.replace("\0", "")} for line in lines if line is not first]
            if rest:
                connection.execute(insert(training_events), rest)
    _keep(data, file)


def _is_trainee(line: str) -> bool:
    try:
        found = json.loads(line)
    except ValueError:
        return False
    return isinstance(found, dict) and found.get("what") == "trainee"


def kept_record(data: Path, trainee: str) -> Path:
    """Return where a trainee's old file was kept, if there was one."""
    return data / KEPT / RECORDS / f"{trainee}.jsonl"


def _keep(data: Path, file: Path) -> None:
    """Move an old file aside; where that is not allowed it stays, and is known by its content the next time."""
    target = data / KEPT / file.relative_to(data)
    with suppress(OSError):
        target.parent.mkdir(parents=True, exist_ok=True)
        while target.exists():
            target = target.with_name(f"{target.stem}-{now_text()[:19].replace(':', '')}{target.suffix}")
        file.replace(target)
