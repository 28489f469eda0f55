"""What a shop made before it had a store: taken over once, the old files kept beside it."""

from __future__ import annotations

import hashlib
import json
import re
from contextlib import suppress
from typing import TYPE_CHECKING, Any

from sqlalchemy import insert, select

from counter.catalogue import SHOP_FILE, read_layer
from counter.shop._moments import now_text
from counter.shop._tables import confirmed, own_entries, settings, trainees, training_events

if TYPE_CHECKING:
    from pathlib import Path

    from sqlalchemy import Connection

    from counter.shop._store import Store

KEPT = "taken-over"  # folder of the old files, within the data folder
RECORDS = "training"
_ID = re.compile(r"[0-9a-f]{16}")


def take_over(store: Store, data: Path) -> None:
    """Take what lies in old files into the store. A file that cannot be read stays where it is, and is named later.

    Raises:
        StoreProblem: the store cannot be written; the old files stay as they are.
    """
    if (data / SHOP_FILE).is_file():
        _take_layer(store, data)
    for file in sorted((data / RECORDS).glob("*.jsonl")):
        if _ID.fullmatch(file.stem):
            with suppress(OSError):
                _take_record(store, data, file)


def _take_layer(store: Store, data: Path) -> None:
    path = data / SHOP_FILE
    layer = read_layer(path)
    if not isinstance(layer, dict):
        return
    mark = f"took {hashlib.sha256(path.read_bytes()).hexdigest()[:40]}"
    with store.writing("confirmed") as connection:
        if connection.scalar(select(settings.c.key).where(settings.c.key == mark)) is None:
            put_layer(connection, layer)
            connection.execute(insert(settings).values(key=mark, value=True, at=now_text()))
    _keep(data, path)


def put_layer(connection: Connection, layer: dict[str, Any]) -> None:
    """Put the content of a shop's file into the tables, entries with faults too: they can be mended."""
    rows = [{"body": body, "at": now_text()} for body in _list(layer, "confirmed")]
    if rows:
        connection.execute(insert(confirmed), rows)
    own = [{"section": at, "body": body} for at in ("bases", "lamps") for body in _list(layer, at)]
    if own:
        connection.execute(insert(own_entries), own)


def _list(layer: dict[str, Any], section: str) -> list[Any]:
    found = layer.get(section)
    return found if isinstance(found, list) else []


def _take_record(store: Store, data: Path, file: Path) -> None:
    lines = [line for line in file.read_text("utf-8", "replace").splitlines() if line.strip()]
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
