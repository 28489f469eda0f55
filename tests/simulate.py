"""How well looks find the lamp: `python -m tests.simulate [--draws N] [--seed N] [--json]` from the checkout.

Every lamp type is drawn `draws` times. The looks are drawn from the catalogue's own slip model, so this measures
the method, not the catalogue: how often shipped values and slip rates are right is not known to it. The figures of
what is attainable come from the ranking's own posterior, so they are bounds where the draws are as doubtful as the
catalogue says; where every shipped value is taken for right, the ranking is warier than it need be and may beat them.
"""

from __future__ import annotations

import argparse
import json
import random
from dataclasses import asdict, dataclass, field
from math import log2
from typing import TYPE_CHECKING

from counter.catalogue import load
from counter.identify import next_looks, rank
from counter.identify._entropy import entropy
from counter.identify._sizes import WIDER, SizeTable
from counter.identify._tables import tables_of
from counter.identify._words import WordTable, slips

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from counter.catalogue import Catalogue, Lamp
    from counter.identify import Candidate

SURE = 0.9  # the leading base is settled
WORTH = 0.05  # bits below which no further look is worth taking
Looks = dict[str, str | float]
Scores = dict[str, float]


def draw_looks(catalogue: Catalogue, at: int, rng: random.Random, doubt: bool) -> Looks:
    """Draw an answer to every look at lamp `at`; without `doubt` every value the catalogue knows is true."""
    tables = tables_of(catalogue)
    return {key: draw(table, table.row_of[at], rng, doubt) for key, table in tables.items()}


def draw(table: WordTable | SizeTable, row: int, rng: random.Random, doubt: bool) -> str | float:
    """Draw an answer to one look at a lamp of one row."""
    if isinstance(table, SizeTable):
        while not table.low <= (mm := _draw_size(table, row, rng, doubt)) <= table.high:
            pass  # an absurd reading is refused, and taken again
        return mm
    truth = table.truths[row]
    weights = truth.chances
    if not doubt and truth.allowed:
        weights = tuple(w if value in truth.allowed else 0.0 for value, w in zip(table.values, weights, strict=True))
    (true,) = rng.choices(table.values, weights)
    return rng.choices(table.values, slips(table.look, table.values)[true])[0]


def _draw_size(table: SizeTable, row: int, rng: random.Random, doubt: bool) -> float:
    if rng.random() < table.look.slip:
        return rng.uniform(table.low, table.high)
    size, wider = table.rows[row], 1.0
    if size is not None and doubt and rng.random() > size.trust:
        size, wider = (size, WIDER) if rng.random() < 0.5 else (None, 1.0)
    if size is None:
        size = table.rows[rng.choices(range(len(table.rows)), table.shares)[0]]
    assert size is not None
    return rng.gauss(size.mean, size.sd * wider)


def advised(catalogue: Catalogue, drawn: Looks) -> tuple[Looks, tuple[Candidate, ...]]:
    """Take looks as the program advises until the leading base is settled or no look is worth it."""
    looks: Looks = {}
    while True:
        candidates = rank(catalogue, looks)
        left = next_looks(catalogue, looks, candidates)
        if max(by_base(candidates).values()) >= SURE or not left or left[0].bits < WORTH:
            return looks, candidates
        looks[left[0].look] = drawn[left[0].look]


def everything(catalogue: Catalogue, drawn: Looks) -> tuple[Looks, tuple[Candidate, ...]]:
    """Take all looks."""
    return drawn, rank(catalogue, drawn)


def by_base(candidates: Sequence[Candidate], weigh: Callable[[Candidate], float] | None = None) -> Scores:
    """Sum weights (probabilities, if nothing else is said) by base."""
    sums: Scores = {}
    for one in candidates:
        sums[one.base] = sums.get(one.base, 0.0) + (weigh(one) if weigh else one.probability)
    return sums


def within(scores: Scores, true: str, top: int) -> float:
    """Return the chance that `true` is among the `top` best when ties are broken at random; score 0 is struck out."""
    own = scores[true]
    if own <= 0:
        return 0.0
    better = sum(score > own * (1 + 1e-9) for score in scores.values())
    equal = sum(abs(score - own) <= own * 1e-9 for score in scores.values())
    return min(1.0, max(0.0, (top - better) / equal))


METHODS: dict[str, Callable[[Candidate], float]] = {
    "ranking": lambda one: one.probability,
    "plain filtering": lambda one: float(not one.disagrees),
    "fewest mismatches": lambda one: 0.5 ** (20 * len(one.disagrees)),
}


@dataclass
class Tally:
    """Sums over draws; `best` and `bits` are what the ranking's own posterior says is attainable and left open."""

    looks: float = 0.0
    seconds: float = 0.0
    bits: float = 0.0
    best: float = 0.0
    best_base: float = 0.0
    hits: dict[str, dict[str, float]] = field(default_factory=lambda: {name: {} for name in METHODS})

    def add(self, catalogue: Catalogue, lamp: Lamp, looks: Looks, candidates: Sequence[Candidate]) -> None:
        """Count one draw."""
        self.looks += len(looks)
        self.seconds += sum(catalogue.look_by_key[key].seconds for key in looks)
        self.bits += entropy(one.probability for one in candidates)
        self.best += max(one.probability for one in candidates)
        self.best_base += max(by_base(candidates).values())
        for name, weigh in METHODS.items():
            lamps, bases, hits = (
                {one.lamp: weigh(one) for one in candidates},
                by_base(candidates, weigh),
                self.hits[name],
            )
            for what, scores, true in (("lamp", lamps, lamp.id), ("base", bases, lamp.base)):
                for top in (1, 3):
                    hits[f"{what} top-{top}"] = hits.get(f"{what} top-{top}", 0.0) + within(scores, true, top)

    def mean(self, count: int, lamps: int) -> dict[str, object]:
        """Return the means over `count` draws."""
        bits = self.bits / count
        return {
            "looks": self.looks / count,
            "seconds": self.seconds / count,
            "bits left": bits,
            "best attainable lamp top-1": self.best / count,
            "best attainable base top-1": self.best_base / count,
            "ceiling of lamp top-1 from the bits left": 1 - fano(bits, lamps),
            **{name: {what: sum_ / count for what, sum_ in hits.items()} for name, hits in self.hits.items()},
        }


def fano(bits: float, count: int) -> float:
    """Return the least error of any guess among `count` that leaves `bits` open (Fano's inequality), by bisection."""
    low, high = 0.0, 1 - 1 / count
    for _ in range(60):
        error = (low + high) / 2
        allowed = entropy((error, 1 - error)) + error * log2(count - 1)
        low, high = (low, error) if allowed >= bits else (error, high)
    return low


def simulate(catalogue: Catalogue, draws: int, seed: int, doubt: bool = True) -> dict[str, dict[str, object]]:
    """Draw every lamp type `draws` times; return the means by way of asking."""
    rng, report = random.Random(seed), {}
    cases = [
        (lamp, draw_looks(catalogue, at, rng, doubt)) for at, lamp in enumerate(catalogue.lamps) for _ in range(draws)
    ]
    for name, ask in (("as advised", advised), ("all looks", everything)):
        tally = Tally()
        for lamp, drawn in cases:
            tally.add(catalogue, lamp, *ask(catalogue, drawn))
        report[name] = tally.mean(len(cases), len(catalogue.lamps))
    return report


def _table(report: dict[str, dict[str, object]]) -> str:
    lines = []
    for name, means in report.items():
        numbers = {key: value for key, value in means.items() if isinstance(value, float)}
        lines += [f"\n{name}", *(f"  {key:42}{value:8.3f}" for key, value in numbers.items())]
        for method in METHODS:
            hits = means[method]
            assert isinstance(hits, dict)
            lines.append(f"  {method:20}" + "".join(f"  {what} {share:6.1%}" for what, share in hits.items()))
    return "\n".join(lines)


def main() -> None:
    """Print the report."""
    from tests.single_wrong import Wrong, check, summary

    parser = argparse.ArgumentParser(description="Simulate identification on the shipped catalogue.")
    parser.add_argument("--draws", type=int, default=20, help="draws of each lamp type (20)")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--json", action="store_true")
    asked = parser.parse_args()
    catalogue = load()
    runs = {
        "catalogue as doubtful as it says": simulate(catalogue, asked.draws, asked.seed, doubt=True),
        "catalogue right": simulate(catalogue, asked.draws, asked.seed, doubt=False),
    }
    wrong: list[Wrong] = check(catalogue)
    if asked.json:
        failures = [asdict(one) for one in wrong if one.is_failure]
        print(json.dumps({"runs": runs, "single wrong look": {**summary(wrong), "failures": failures}}))
        return
    for name, report in runs.items():
        print(f"\n== {name}: {len(catalogue.lamps)} lamp types, {asked.draws} draws of each, seed {asked.seed}")
        print(_table(report))
    print("\n== any single wrong look", *(f"  {key:60}{value}" for key, value in summary(wrong).items()), sep="\n")
    print(*(f"  lost: {one}" for one in wrong if one.is_failure), sep="\n")


if __name__ == "__main__":
    main()
