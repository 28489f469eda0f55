"""Measure the reading of worn codes: python -m tests.bench_marks [--json] [--samples N].

Right answers are counted on a corpus of every lamp type in every system and colour, worn by the noise model below,
which shares nothing with the cost table of resources/marks.json. A sample counts where the truth is still
decidable: no code of the corpus that names other lamp types can give the same worn text with as much damage or less,
and none stands there undamaged.
An answer is right where it names exactly the lamp types that the undamaged code names.
"""

from __future__ import annotations

import argparse
import difflib
import json
import random
import statistics
import time
import tracemalloc
from functools import cache
from typing import Any

from rapidfuzz import process
from rapidfuzz.distance import Levenshtein
from rapidfuzz.fuzz import ratio

from counter import catalogue, marks
from counter.marks._index import CodeIndex

SEED = 20_240_611
SYSTEMS = ("nema", "ansi-linear", "ansi-germicidal", "ilcos", "lbs", "partial", "base", "house")
# What a character looks like when half of it is gone. Written for this bench, not taken from the reader's table.
LOOKS_LIKE = {
    "0": "OQDC86", "1": "I7L/", "2": "Z7", "3": "8B5", "4": "9A", "5": "S63", "6": "G8B", "7": "1T2", "8": "B306",
    "9": "4GQ", "A": "4", "B": "83ER", "C": "GO0", "D": "0O", "E": "FBL", "F": "EPT", "G": "6C0", "H": "NM",
    "I": "1L", "K": "X", "L": "I1E", "M": "NH", "N": "MH", "O": "0DQC", "P": "FR", "Q": "0OG", "R": "PB", "S": "58",
    "T": "71I", "U": "VO", "V": "UY", "W": "VM", "X": "KY", "Y": "VX", "Z": "27",
    "/": "17I", "-": "=.", "=": "-", ".": ",",
}  # fmt: skip
KINDS = ("looks like another", "smudged", "lost")
SHARES = (0.5, 0.3, 0.2)

SHIPPED = catalogue.load()


def corpus() -> dict[str, set[str]]:
    """Return every code with the lamp types it was written for."""
    table = marks.tables()["colour"]
    colours = (None, *table["common"], *(row["letters"] for row in table["letters"]))
    codes: dict[str, set[str]] = {}
    for lamp in SHIPPED.lamps:
        for system in SYSTEMS:
            for colour in colours:
                if code := marks.format_code(SHIPPED, lamp.id, system, colour):
                    codes.setdefault(code, set()).add(lamp.id)
    return codes


@cache
def named(code: str) -> frozenset[str]:
    """Return the lamp types that an undamaged code names."""
    readings = marks.read(SHIPPED, code).readings
    return frozenset(readings[0].lamps) if readings else frozenset()


def wear(code: str, damage: int, rng: random.Random) -> str | None:
    """Damage some characters; None where too few can be."""
    signs = list(code.upper())
    places = [place for place, sign in enumerate(signs) if sign != " "]
    if len(places) <= damage:
        return None
    for place in rng.sample(places, damage):
        kind = rng.choices(KINDS, SHARES)[0]
        if kind == "looks like another" and signs[place] in LOOKS_LIKE:
            signs[place] = rng.choice(LOOKS_LIKE[signs[place]])
        else:
            signs[place] = "" if kind == "lost" else "?"
    return "".join(signs)


def least_damage(code: str, worn: str, most: int) -> int:
    """Return the fewest damaged characters by which a code gives a worn text under this noise; most + 1: none."""
    far = most + 1
    row = [0] + [far] * len(worn)
    for sign in code.upper():
        after = [min(row[0] + 1, far)]
        for place, typed in enumerate(worn, 1):
            same = row[place - 1] + (
                0 if sign == typed else 1 if typed == "?" or typed in LOOKS_LIKE.get(sign, "") else far
            )
            after.append(min(same, row[place] + 1, far))
        row = after
    return row[-1]


@cache
def by_words() -> dict[tuple[str, ...], list[str]]:
    """Return the codes by their words, in whatever order they stand."""
    found: dict[tuple[str, ...], list[str]] = {}
    for code in corpus():
        found.setdefault(words_of(code), []).append(code)
    return found


def words_of(text: str) -> tuple[str, ...]:
    """Return the words of a text in one order; what parts them says nothing."""
    return tuple(sorted(text.upper().replace("/", " ").split()))


def stands_there(worn: str, truth: frozenset[str]) -> bool:
    """Say whether another code stands there undamaged.

    Either by its words, since shorthand has no order: T38 40W G13 without its 3 is 40W G13 T8. Or as a whole code of
    an ultraviolet lamp with more behind it: CFT9W/2G7/730 with its C worn to a G, which nobody may take for light.
    """
    begins = [words_of(worn[:at]) for at, sign in enumerate(worn) if sign == "/"]
    ultraviolet = [code for words in begins for code in by_words().get(words, ()) if is_ultraviolet(code)]
    return any(named(code) != truth for code in (*by_words().get(words_of(worn), ()), *ultraviolet))


def is_ultraviolet(code: str) -> bool:
    """Say whether a code names ultraviolet lamps alone."""
    return bool(named(code)) and all(SHIPPED.lamp_by_id[lamp].is_ultraviolet for lamp in named(code))


def is_decidable(worn: str, truth: frozenset[str], damage: int, plain: list[str], codes: list[str]) -> bool:
    """Say whether no code that names other lamp types can give this text with as much damage or less."""
    if stands_there(worn, truth):
        return False
    near = process.extract(worn, plain, scorer=Levenshtein.distance, processor=None, score_cutoff=damage, limit=None)
    return not any(named(codes[at]) != truth and least_damage(codes[at], worn, damage) <= damage for _, _, at in near)


def samples(damage: int, count: int, codes: list[str]) -> tuple[list[tuple[str, str]], int]:
    """Return worn texts with their codes, of which all are decidable, and how many were not."""
    rng = random.Random(SEED + damage)
    plain = [code.upper() for code in codes]
    found: list[tuple[str, str]] = []
    undecided = 0
    while len(found) < count:
        code = rng.choice(codes)
        worn = wear(code, damage, rng)
        if worn is None:
            continue
        if is_decidable(worn, named(code), damage, plain, codes):
            found.append((worn, code))
        else:
            undecided += 1
    return found, undecided


def ours(worn: str) -> list[frozenset[str]]:
    """Return the lamp types of our readings, best first."""
    return [frozenset(reading.lamps) for reading in marks.read(SHIPPED, worn).readings[:3]]


def theirs(worn: str, plain: list[str], codes: list[str]) -> list[frozenset[str]]:
    """Return what rapidfuzz finds over the same list."""
    return [named(codes[at]) for _, _, at in process.extract(worn, plain, scorer=ratio, limit=3)]


def standard(worn: str, plain: list[str], at: dict[str, str]) -> list[frozenset[str]]:
    """Return what difflib finds over the same list."""
    return [named(at[code]) for code in difflib.get_close_matches(worn, plain, n=3, cutoff=0.3)]


def score(answers: list[tuple[list[frozenset[str]], frozenset[str]]]) -> dict[str, float]:
    """Return the share of right first answers, and of right ones among three."""
    count = len(answers)
    return {
        "n": count,
        "top1": round(sum(bool(found) and found[0] == truth for found, truth in answers) / count, 4),
        "top3": round(sum(truth in found for found, truth in answers) / count, 4),
    }


def accuracy(count: int, difflib_count: int) -> list[dict[str, Any]]:
    """Return right answers by damage level, ours and theirs."""
    codes = list(corpus())
    plain = [code.upper() for code in codes]
    at = dict(zip(plain, codes, strict=True))
    rows = []
    for damage in range(4):
        worn, undecided = samples(damage, len(codes) if damage == 0 else count, codes)
        if damage == 0:
            worn = [(code.upper(), code) for code in codes]
        few = worn[:: max(1, len(worn) // difflib_count)][:difflib_count]
        some = worn if damage else worn[:: max(1, len(worn) // count)]
        rows.append(
            {
                "damage": damage,
                "undecidable": undecided,
                "ours": score([(ours(text), named(code)) for text, code in worn]),
                "rapidfuzz": score([(theirs(text, plain, codes), named(code)) for text, code in some]),
                "difflib": score([(standard(text, plain, at), named(code)) for text, code in few]),
                "ours_on_difflib_sample": score([(ours(text), named(code)) for text, code in few]),
            }
        )
    return rows


def shop_codes(count: int, rng: random.Random) -> list[str]:
    """Return invented stock codes."""
    codes: set[str] = set()
    while len(codes) < count:
        head = rng.choice(["LMP", "FL", "CF", "TB", "UV", "GX", "QD"]) + rng.choice("-/ ")
        number = str(rng.randrange(10 ** rng.choice((4, 5, 6))))
        codes.add(
            head
            + number
            + rng.choice(("", "-", "/"))
            + rng.choice(("827", "830", "840", "865", "A", "B2", "2P", "4P"))
        )
    return sorted(codes)


def speed(count: int, queries: int) -> dict[str, Any]:
    """Return the time of searches among many codes, and the memory of the index."""
    rng = random.Random(SEED + count)
    codes = shop_codes(count, rng)
    begun = time.perf_counter()
    index = CodeIndex(codes)
    index.search(codes[0])
    first = time.perf_counter() - begun
    row: dict[str, Any] = {"codes": count, "made_and_first_query_ms": round(first * 1e3, 1)}
    tracemalloc.start()
    index = CodeIndex(codes)
    for damage in (1, 2, 3):
        for _ in range(20):
            index.search(wear(rng.choice(codes), damage, rng) or "")
    row["memory_mb"] = round(tracemalloc.get_traced_memory()[0] / 1e6, 1)
    tracemalloc.stop()
    for damage in (0, 1, 2, 3):
        times = []
        for _ in range(queries):
            text = wear(rng.choice(codes), damage, rng) or ""
            begun = time.perf_counter()
            index.search(text)
            times.append((time.perf_counter() - begun) * 1e3)
        times.sort()
        row[f"damage_{damage}"] = {
            "median_ms": round(statistics.median(times), 2),
            "p99_ms": round(times[int(len(times) * 0.99)], 1),
        }
    return row


def reading_times(count: int) -> dict[str, Any]:
    """Return the time of whole `read` calls on the catalogue, clean and worn."""
    rng = random.Random(SEED)
    codes = list(corpus())
    fresh = catalogue.load()
    begun = time.perf_counter()
    marks.read(fresh, "CFQ?6W/G24q")
    rows: dict[str, Any] = {"first_worn_read_ms": round((time.perf_counter() - begun) * 1e3, 1)}
    for damage in (0, 1, 2, 3):
        texts = [wear(rng.choice(codes), damage, rng) or "" for _ in range(count)]
        times = []
        for text in texts:
            begun = time.perf_counter()
            marks.read(SHIPPED, text)
            times.append((time.perf_counter() - begun) * 1e3)
        times.sort()
        rows[f"damage_{damage}"] = {
            "median_ms": round(statistics.median(times), 2),
            "p99_ms": round(times[int(len(times) * 0.99)], 1),
        }
    return rows


def main() -> None:
    """Print what was measured."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--json", action="store_true")
    parser.add_argument("--samples", type=int, default=500)
    parser.add_argument("--difflib-samples", type=int, default=60)
    parser.add_argument("--only", choices=("accuracy", "speed"))
    chosen = parser.parse_args()
    result: dict[str, Any] = {"corpus": len(corpus())}
    if chosen.only != "speed":
        result["accuracy"] = accuracy(chosen.samples, chosen.difflib_samples)
    if chosen.only != "accuracy":
        result["read"] = reading_times(300)
        result["search"] = [speed(count, 200) for count in (1_000, 10_000, 100_000)]
    print(json.dumps(result) if chosen.json else "\n".join(_lines(result)))


def _lines(result: dict[str, Any]) -> list[str]:
    lines = [f"corpus: {result['corpus']} codes"]
    for row in result.get("accuracy", ()):
        lines.append(f"damage {row['damage']}, {row['undecidable']} undecidable left out")
        for who in ("ours", "rapidfuzz", "difflib", "ours_on_difflib_sample"):
            found = row[who]
            lines.append(f"  {who:<24} n {found['n']:>6}  top-1 {found['top1']:.1%}  top-3 {found['top3']:.1%}")
    if "read" in result:
        lines.append(f"read on the catalogue: {json.dumps(result['read'])}")
    lines += [json.dumps(row) for row in result.get("search", ())]
    return lines


if __name__ == "__main__":
    main()
