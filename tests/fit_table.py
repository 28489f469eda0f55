"""Count the verdicts over the whole decision table: `python -m tests.fit_table [--sample N]`."""

from __future__ import annotations

import argparse
import random
import statistics
import time
from collections import Counter

from counter.catalogue import load
from counter.fit import Fixture, judge
from tests.fit.decision_oracle import Row, must_sell, objections, rows


def verdict(catalogue, row: Row):
    """The judgement on one row."""
    fixture = Fixture(holder=row.holder, ballast=row.ballast, ballast_watts=row.listed)
    return judge(catalogue, catalogue.lamp_by_id[row.lamp], fixture, row.use)


def count(table: list[Row]) -> None:
    """Judge every row and print counts, breaches and times."""
    catalogue = load()
    found, spent, unsafe, missed = Counter(), [], [], []
    for row in table:
        start = time.perf_counter()
        said = verdict(catalogue, row).verdict
        spent.append(time.perf_counter() - start)
        found[said] += 1
        if said == "sell" and objections(row):
            unsafe.append(row)
        if said != "sell" and must_sell(row):
            missed.append(row)
    print(f"  {len(table)} rows in {sum(spent):.1f} s; {statistics.median(spent) * 1e3:.3f} ms median, ", end="")
    print(f"{statistics.quantiles(spent, n=100)[-1] * 1e3:.3f} ms at 99 %")
    for said in ("sell", "ask first", "do not sell"):
        print(f"  {said:12} {found[said]:7} {found[said] / len(table):8.2%}")
    print(f"  unsafe rows sold: {len(unsafe)} {unsafe[:3] or ''}")
    print(f"  safe rows not sold: {len(missed)} {missed[:3] or ''}")


def main() -> None:
    """Print the table with the lamp's watts on the label, and with nothing on it."""
    options = argparse.ArgumentParser()
    options.add_argument("--sample", type=int, default=0, metavar="N", help="that many rows of each, drawn by lot")
    sample = options.parse_args().sample
    for is_listed, title in ((True, "Ballast label lists the lamp's watts"), (False, "Ballast label not known")):
        table = list(rows(is_listed=is_listed))
        print(title)
        count(random.Random(1).sample(table, sample) if sample else table)


if __name__ == "__main__":
    main()
