"""What the window leaves out: no Qt in the core, no pydantic before the first paint."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import counter

ROOT = Path(counter.__file__).parents[1]
BLOCKED = """
import sys
class Out:
    def find_spec(self, name, path=None, target=None):
        if name.partition(".")[0] in ("PySide6", "shiboken6"):
            raise ModuleNotFoundError(name)
sys.meta_path.insert(0, Out())
"""


def python(script):
    done = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, cwd=ROOT, timeout=60)
    assert done.returncode == 0, done.stderr
    return done.stdout.strip()


def test_the_core_answers_without_qt():
    said = python(
        BLOCKED + "from counter import catalogue, desk, cli, training\n"
        "print(desk.assess(catalogue.load(), desk.Case(marks='CFQ26W/G24q/841')).headline)"
    )
    assert said == "G24q-3"


def test_a_shop_that_keeps_nothing_waits_for_no_database():
    script = "import sys; from tempfile import mkdtemp; from counter import cli\n"
    script += "cli.main(['--data', mkdtemp(), 'read', 'CFQ26W/G24q/841'])\nprint('sqlalchemy' in sys.modules)"
    assert python(script).splitlines()[-1] == "False"


def test_the_block_blocks():
    assert python(BLOCKED + "try:\n import counter.app\nexcept ModuleNotFoundError as e: print(e)") == "PySide6"


def test_the_first_paint_waits_for_no_models_and_no_sources():
    script = (
        "import sys, os; os.environ['QT_QPA_PLATFORM'] = 'offscreen'\n"
        "from pathlib import Path; from tempfile import mkdtemp\n"
        "from counter.app import make_application, MainWindow\n"
        "a = make_application(['x']); w = MainWindow(Path(mkdtemp())); w.show(); a.processEvents()\n"
        "import linecache; print([file for file in linecache.cache if 'counter' in file])\n"
        "late = ('pydantic', 'counter.desk', 'counter.shop', 'sqlalchemy', 'sqlite3', 'numpy', 'scipy')\n"
        "print(w._is_painted, [m for m in late if m in sys.modules])"
    )
    # The first line: PySide6 would read the source of whatever is imported after it, and keep it.
    assert python(script) == "[]\nTrue []"
