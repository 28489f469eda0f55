"""Nothing of the program opens a network connection: not in its code, not in Python's eyes, not in the system's.

A shop may keep its data in PostgreSQL; that library's own connection is made below Python, to the address the shop
named, and only where it named one. No test here names one.
"""

from __future__ import annotations

import ast
import os
import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from counter import paths
from counter.desk import Case

ROOT = Path(paths.__file__).parents[1]
NETWORKED = {
    *("socket", "ssl", "http", "urllib.request", "ftplib", "smtplib", "imaplib", "poplib", "telnetlib", "asyncio"),
    *("xmlrpc", "socketserver", "webbrowser", "requests", "httpx", "aiohttp", "urllib3"),
    *("PySide6.QtNetwork", "PySide6.QtWebSockets", "PySide6.QtWebEngineCore"),
}

# Ends the process the moment anything asks for an address or reaches out to one.
FORBID = """
import sys, os
FORBIDDEN = {"socket.connect", "socket.bind", "socket.getaddrinfo", "socket.gethostbyname", "socket.sendto",
             "socket.__new__", "urllib.Request", "webbrowser.open"}
def forbid(event, given):
    if event in FORBIDDEN:
        os.write(2, f"forbidden: {event} {given}".encode())
        os._exit(99)
sys.addaudithook(forbid)
"""

# A clerk's minutes: looks, marks, a fixture, a place, training opened and shut, the next customer.
SESSION = """
from pathlib import Path
from counter.app import make_application
from counter.window.main_window import MainWindow
application = make_application(["session"])
window = MainWindow(Path(sys.argv[1]))
window.show()
window.wake()
for fields in ({"looks": {"legs": "4", "pins": "4"}}, {"marks": "CFQ26W/G24q/841"}, {"broken": True}):
    window.counter.change(**fields)
    application.processEvents()
window.counter.change_fixture({"holder": "G24q-3", "ballast": "electronic", "ballast_watts": "26"})
window.set_theme("dark")
window.counter.training.enter()
application.processEvents()
window.counter.next_customer()
application.processEvents()
window.close()
"""
COMMANDS = """
from counter import cli
data = sys.argv[1]
for line in (["read", "CFQ18W/G24q/841"], ["identify", "legs=4"], ["check"], ["cards", "--count", "3"],
             ["fit", "--lamp", "CFQ18W/G24q", "--holder", "G24q-2"], ["colour", "840"], ["--version"],
             ["assess", sys.argv[2]], ["uv", "--uvc-watts", "2", "--arc-mm", "100", "--distance-m", "1"]):
    cli.main(["--data", data, *line])
"""


@pytest.fixture
def process(tmp_path):
    """Return a runner of a script in a process of its own, behind any words such as a tracer's."""

    def run(script, *before):
        case = tmp_path / "case.json"
        case.write_text(Case(marks="CFQ18W/G24q/841").model_dump_json())
        command = [*before, sys.executable, "-c", script, str(tmp_path / "data"), str(case)]
        environment = {**os.environ, "QT_QPA_PLATFORM": "offscreen"}
        return subprocess.run(command, capture_output=True, text=True, cwd=ROOT, env=environment, timeout=300)

    return run


def imports():
    for path in sorted((ROOT / "counter").rglob("*.py")):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Import):
                yield from ((path, alias.name) for alias in node.names)
            elif isinstance(node, ast.ImportFrom) and node.module:
                yield path, node.module
                yield from ((path, f"{node.module}.{alias.name}") for alias in node.names)


def test_no_file_imports_what_reaches_out():
    assert [(path.name, name) for path, name in imports() if name in NETWORKED] == []


def test_no_link_is_handed_to_a_browser():
    sources = {path: path.read_text(encoding="utf-8") for path in (ROOT / "counter").rglob("*.py")}
    handing = re.compile(r"openUrl|setOpenExternalLinks\(True|openExternalLinks=True")
    assert [path.name for path, text in sources.items() if handing.search(text)] == []


def test_the_ban_works(process):
    done = process(FORBID + "import socket\nsocket.create_connection(('127.0.0.1', 9))")
    assert done.returncode == 99


@pytest.mark.parametrize("script", [SESSION, COMMANDS], ids=["window", "commands"])
def test_a_session_asks_python_for_no_connection(process, script):
    if script == SESSION:
        pytest.importorskip("PySide6")
    done = process(FORBID + script)
    assert done.returncode == 0, done.stderr[-2000:]


@pytest.mark.slow
@pytest.mark.skipif(shutil.which("strace") is None, reason="needs strace, which Linux alone has")
@pytest.mark.parametrize("script", [SESSION, COMMANDS], ids=["window", "commands"])
def test_a_session_asks_the_system_for_no_connection(process, script, tmp_path):
    """A local socket (to the desktop's own bus) reaches no network; every other family would."""
    trace = tmp_path / "trace"
    done = process("import sys\n" + script, "strace", "-f", "-e", "trace=%network", "-o", str(trace))
    assert done.returncode == 0, done.stderr[-2000:]
    calls = [line for line in trace.read_text().splitlines() if re.search(r"\b(socket|connect|bind|sendto)\(", line)]
    assert [line for line in calls if "AF_UNIX" not in line and "AF_LOCAL" not in line] == []


@pytest.mark.slow
@pytest.mark.skipif(shutil.which("strace") is None, reason="needs strace, which Linux alone has")
def test_the_trace_sees_a_connection(process, tmp_path):
    trace = tmp_path / "trace"
    reach = "import socket\nsocket.socket(socket.AF_INET, socket.SOCK_DGRAM).connect(('127.0.0.1', 9))"
    process(reach, "strace", "-f", "-e", "trace=%network", "-o", str(trace))
    assert "AF_INET" in trace.read_text()
