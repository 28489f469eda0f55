"""Where a shop's store is: one address, from a variable, a setting, or the data folder itself. No database here."""

from __future__ import annotations

import json
import os
import re
from pathlib import Path
from typing import NamedTuple

from counter.files import is_there, read_json, write_atomic
from counter.language import tr
from counter.shop._problem import StoreProblem

FILE = "shop.db"
SETTING = "store.json"
VARIABLE = "COUNTER_STORE"
_SECRET = re.compile(r"(?<=//)([^:@/]*):[^@/]*@|(password=)[^&\s]*")
_POSTGRES = ("postgresql://", "postgres://", "postgresql+psycopg://")


class Where(NamedTuple):
    """A store's address, and the data folder it belongs to."""

    url: str
    data: Path

    @property
    def file(self) -> Path | None:
        """Return the file of an SQLite store, None for a server."""
        return Path(self.url.removeprefix("sqlite:///")) if self.url.startswith("sqlite") else None

    @property
    def shown(self) -> str:
        """Return the address as it may be read over a shoulder: without a password."""
        return str(self.file) if self.file is not None else without_password(self.url)


def where_of(data: Path) -> Where:
    """Return where the store of a data folder is: the variable wins over the setting, which wins over the folder.

    Raises:
        StoreProblem: the setting cannot be read, or names no store that this program knows.
    """
    named = os.environ.get(VARIABLE) or _setting(data)
    return Where(address(named) if named else f"sqlite:///{data.absolute() / FILE}", data)


def address(named: str) -> str:
    """Return an address as the engine takes it; a plain path is an SQLite file.

    Raises:
        StoreProblem: neither a PostgreSQL address nor a file.
    """
    text = named.strip()
    if text.startswith("sqlite:///"):
        text = text.removeprefix("sqlite:///")
    for prefix in _POSTGRES:
        if text.startswith(prefix):
            return "postgresql+psycopg://" + text.removeprefix(prefix)
    if "://" in text or not text:
        shown = without_password(text)[:80]
        raise StoreProblem(
            "refused",
            tr("“{text}” is no address of a store").format(text=shown),
            tr("Write postgresql://user@host/database, or the path of a file."),
        )
    return f"sqlite:///{Path(text).expanduser().absolute()}"


def without_password(url: str) -> str:
    """Return an address with its password left out."""
    return _SECRET.sub(lambda found: f"{found[1]}:…@" if found[1] is not None else f"{found[2]}…", url)


def set_where(data: Path, url: str | None) -> None:
    """Keep which store this folder uses from now on; None goes back to the folder's own.

    Raises:
        OSError: the setting cannot be written.
    """
    path = data / SETTING
    if url is None:
        path.unlink(missing_ok=True)
        return
    write_atomic(path, (json.dumps({"format": "lamp-counter/store", "version": 1, "url": url}) + "\n").encode())


def _setting(data: Path) -> str | None:
    path = data / SETTING
    if not is_there(path):
        return None
    try:
        content = read_json(path)
        return str(content["url"]) if content["url"] else None
    except (OSError, ValueError, KeyError, TypeError) as error:
        way_out = tr("Mend {file} or take it away; without it the store in the data folder is used.")
        what = tr("{file} cannot be read ({fault})").format(file=SETTING, fault=type(error).__name__)
        raise StoreProblem("refused", what, way_out.format(file=path)) from None


def is_network_folder(folder: Path) -> bool:
    """Whether a folder lies on another machine: there a write-ahead log, which needs shared memory, is not safe."""
    if str(folder).startswith(("\\\\", "//")):
        return True
    try:
        mounts = Path("/proc/self/mounts").read_text("utf-8", "replace").splitlines()
    except OSError:
        return False
    here = str(folder.absolute())
    points = [line.split()[1:3] for line in mounts if len(line.split()) > 2]
    above = [(at, kind) for at, kind in points if here == at or here.startswith(at.rstrip("/") + "/")]
    kind = max(above, key=lambda one: len(one[0]), default=("", ""))[1]
    return kind.startswith(("nfs", "cifs", "smb", "9p", "fuse.sshfs", "afs", "ncpfs"))
