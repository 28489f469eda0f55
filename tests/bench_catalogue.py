"""How a case grows with the catalogue: the same cases at 271 and at 2710 lamp types, in CPU time.

Run as `python -m tests.bench_catalogue`; a ratio of ten says that a case grows as the catalogue does.
"""

from __future__ import annotations

import random
import statistics
import time

from counter.catalogue import Catalogue, load
from counter.desk import Case, assess

SEED, TIMES, PICKED = 10, 10, 12
STEPS_W = (0.25, 0.5, 0.75)  # apart from every other lamp type, so that none is another's double


def grown(shipped: Catalogue, times: int = TIMES, seed: int = SEED) -> Catalogue:
    """Return a catalogue of so many times as many lamp types, each like a shipped one but of other watts."""
    rng = random.Random(seed)
    lamps = list(shipped.lamps)
    for turn in range(1, times):
        for lamp in shipped.lamps:
            watts = lamp.watts.model_copy(update={"value": round(lamp.watts.value + turn * rng.choice(STEPS_W), 2)})
            other = {"id": f"{lamp.id}/{turn}", "watts": watts, "codes": (), "stands_in_for": ()}
            lamps.append(lamp.model_copy(update=other))
    kept = {name: getattr(shipped, name) for name in Catalogue.model_fields}
    return Catalogue.model_construct(**{**kept, "lamps": tuple(lamps)})


def cases(shipped: Catalogue, seed: int = SEED) -> list[Case]:
    """Return cases of lamps chosen, of looks alone, and of a code partly read."""
    found = []
    for lamp in random.Random(seed).sample(list(shipped.lamps), PICKED):
        found += [Case(chosen=lamp.id, looks={"pins": "2"}), Case(marks=f"{lamp.watts.value:g}W 840")]
        found.append(Case(looks={"pins": "2", "glass": "white", "watts": f"{lamp.watts.value:g}"}))
    return found


def seconds(catalogue: Catalogue, asked: list[Case]) -> list[float]:
    """Return the CPU time of each case, the second time that it is asked."""
    found = []
    for case in asked:
        assess(catalogue, case)
        begun = time.process_time()
        assess(catalogue, case)
        found.append(time.process_time() - begun)
    return found


def main() -> None:
    """Print the medians and the growth."""
    shipped = load()
    big, asked = grown(shipped), cases(shipped)
    small_s, big_s = seconds(shipped, asked), seconds(big, asked)
    ratios = [after / before for before, after in zip(small_s, big_s, strict=True)]
    print(f"{len(shipped.lamps)} lamp types: median {statistics.median(small_s) * 1000:.2f} ms")
    print(f"{len(big.lamps)} lamp types: median {statistics.median(big_s) * 1000:.2f} ms")
    print(f"growth: median {statistics.median(ratios):.1f}, most {max(ratios):.1f}")


if __name__ == "__main__":
    main()
