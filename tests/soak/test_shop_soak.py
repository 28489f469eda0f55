"""Two tills at once, kills in the middle of writing, a server that stops: nothing that was acknowledged is lost."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

import counter
from counter import shop
from counter.shop import open_store

pytestmark = [pytest.mark.slow, pytest.mark.skipif(sys.platform == "win32", reason="no SIGKILL")]
SLIPS, KILLS = 2000, 300
WRITING = """
import sys
from pathlib import Path
from counter import shop
store = shop.open_store(Path(sys.argv[1]))
item = {"code": "TV100", "description": "lamp", "bin": "A1", "lamp": None, "quantity": 1, "price_cents": 850}
for n in range(int(sys.argv[3])):
    row = {"key": f"{sys.argv[2]}-{n}", "at": "2026-11-25T10:00:00", "day": "2026-11-25", "till": sys.argv[2],
           "lamp": None, "base": None, "watts": None, "body": {}, "words": ""}
    print(shop.add_slip(store, row, [item]), flush=True)
"""


def till(data, name, count):
    env = os.environ | {"PYTHONPATH": str(Path(counter.__file__).parents[1])}
    line = [sys.executable, "-c", WRITING, data, name, str(count)]
    return subprocess.Popen(line, env=env, stdout=subprocess.PIPE, text=True)


def test_two_tills_give_distinct_numbers_in_order(shop_data):
    open_store(shop_data)
    tills = [till(shop_data, name, SLIPS) for name in ("one", "two")]
    given = [[int(line) for line in one.communicate()[0].split()] for one in tills]
    assert [one.returncode for one in tills] == [0, 0]
    assert all(numbers == sorted(numbers) for numbers in given)
    assert sorted(given[0] + given[1]) == list(range(1, 2 * SLIPS + 1))
    assert shop.check_store(shop_data) == []


def test_kills_lose_at_most_the_write_in_flight(shop_data):
    open_store(shop_data)
    acknowledged: set[int] = set()
    for kill in range(KILLS):
        one = till(shop_data, f"kill {kill}", 100_000)
        first = one.stdout.readline()
        time.sleep(kill % 7 * 0.003)
        os.kill(one.pid, signal.SIGKILL)
        lines = [first, *one.stdout.readlines()]
        acknowledged |= {int(line) for line in lines if line.endswith("\n")}
        one.stdout.close()
        one.wait()
    kept = {row.number for row in shop.find_slips(open_store(shop_data), limit=10_000_000)}
    assert acknowledged <= kept
    assert len(kept - acknowledged) <= KILLS, "each kill may leave one written that was not yet said"
    assert shop.check_store(shop_data) == []
