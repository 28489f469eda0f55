"""How well makers' own codes are read: `python -m tests.simulate_makers [--makers N] [--codes N] [--seed N]`.

Invented makers, each with an order, separators, letters, a way to write colour, pins and base of its own; a quarter
of the codes worn by one sign (the noise of tests.bench_marks). Three states are measured: no table at all, after five
codes were taught, after a list of 60 lines with noisy descriptions was learned. Beside the last stand a nearest
neighbour by rapidfuzz and one on character n-grams (scikit-learn), both on the same lines.
"""

from __future__ import annotations

import argparse
import json
import random
from collections import Counter
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from counter import catalogue, identify, marks
from counter.marks import letters
from tests.bench_marks import wear
from tests.simulate import draw_looks

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Sequence

    from counter.catalogue import Lamp
    from counter.marks import HouseMaker

SURE = 0.9
LOOKS = ("pins", "legs")
COLOURS = ("827", "830", "835", "840", "841", "850", "865")
CONSONANTS = "BCDHJKLMNPQRSTVXYZ"
SHAPES = ("twin", "quad", "triple", "long-twin", "flat", "square")
SHIPPED = catalogue.load()


@dataclass(frozen=True)
class Code:
    """One printed code: its text, the lamp it stands on, its colour, and which letters mean what."""

    text: str
    lamp: Lamp
    colour: str
    series: str


@dataclass
class Maker:
    """An invented maker's way to write codes."""

    name: str
    head: str
    series: dict[tuple[str, int, str], str]  # shape, pins, kind: letters of the type
    series_first: bool
    unit: str
    separators: tuple[str, str]
    colour_style: str
    colour_letters: str
    pins_style: str
    suffixes: tuple[str, ...]
    lamps: dict[tuple[str, int, str], list[Lamp]] = field(default_factory=dict)

    def code(self, rng: random.Random) -> Code:
        """Write one code."""
        key = rng.choice(list(self.series))
        lamp = rng.choice(self.lamps[key])
        colour = rng.choice(COLOURS) if lamp.kind == "fluorescent" else ""
        first, second = self.separators
        watts = f"{lamp.watts.value:g}{self.unit}"
        series = self.series[key]
        body = f"{self.head}{series}{first}{watts}" if self.series_first else f"{self.head}{watts}{series}"
        parts = [body, self._colour(colour), self._pins(lamp)]
        if self.suffixes and rng.random() < 0.4:
            parts.append(rng.choice(self.suffixes))
        return Code(second.join(part for part in parts if part), lamp, colour, series)

    def _colour(self, colour: str) -> str:
        if not colour:
            return ""
        cct = int(colour[1:])
        return {
            "digits": colour,
            "k": f"{cct}K",
            "kelvin": f"{cct}00K",
            "letters": f"{self.colour_letters}{cct}",
            "re": f"RE{colour}",
        }[self.colour_style]

    def _pins(self, lamp: Lamp) -> str:
        pins = int(SHIPPED.base_by_name[lamp.base].pins.value)
        return {
            "letters": "",
            "p": f"{pins}P",
            "e": "E" if pins == 4 else "",
            "base": SHIPPED.base_by_name[lamp.base].family.upper(),
            "key": lamp.base,
            "figure": str(pins),
        }[self.pins_style]


def maker(rng: random.Random, number: int) -> Maker:
    """Invent a maker."""
    pins_style = rng.choice(("letters", "letters", "p", "e", "base", "key", "figure"))
    wanted = rng.sample(_types(), k=rng.randint(3, 5))
    used = set("TQSM") | {"TR"}  # behind CF these are the standard's letters
    series: dict[tuple[str, int, str], str] = {}
    lamps: dict[tuple[str, int, str], list[Lamp]] = {}
    short = rng.choice((1, 2, 2, 3))
    for shape, pins, kind in wanted:
        # Where pins stand elsewhere in the code, letters name the form alone.
        at = (shape, pins if pins_style == "letters" else 0, kind)
        series.setdefault(at, _letters(rng, short, used))
        lamps.setdefault(at, []).extend(_lamps(shape, pins, kind, rng))
    return Maker(
        name=f"invented {number}",
        head=rng.choice(("F", "F", "CF", "", "", _letters(rng, 2, used))),
        series=series,
        series_first=rng.random() < 0.5,
        unit=rng.choice(("", "W")),
        separators=(rng.choice(("", "", "-", " ")), rng.choice(("/", "/", "-", " "))),
        colour_style=rng.choice(("digits", "digits", "digits", "k", "kelvin", "letters", "re")),
        colour_letters=_letters(rng, 2, used),
        pins_style=pins_style,
        suffixes=tuple(
            rng.sample(("ECO", "LL", "XL", _letters(rng, 2, used), _letters(rng, 3, used)), k=rng.randint(0, 3))
        ),
        lamps=lamps,
    )


def _types() -> list[tuple[str, int, str]]:
    found = {
        (lamp.shape, int(SHIPPED.base_by_name[lamp.base].pins.value), lamp.kind)
        for lamp in SHIPPED.lamps
        if lamp.shape in SHAPES and lamp.kind in ("fluorescent", "uv-c")
    }
    return sorted(found)  # type: ignore[arg-type]


def _lamps(shape: str, pins: int, kind: str, rng: random.Random) -> list[Lamp]:
    """Return one lamp for each wattage: a maker who made two would tell them apart in the code."""
    fitting = [
        lamp
        for lamp in SHIPPED.lamps
        if (lamp.shape, lamp.kind) == (shape, kind) and SHIPPED.base_by_name[lamp.base].pins.value == pins
    ]
    rng.shuffle(fitting)
    return list({lamp.watts.value: lamp for lamp in fitting}.values())


def _letters(rng: random.Random, most: int, used: set[str]) -> str:
    """Invent letters that no table of ours knows, and that this maker does not use yet."""
    known = {row["letters"] for row in marks.tables()["slots"]["letters"]}
    known |= {row["letters"] for row in marks.tables()["colour"]["letters"]}
    while True:
        text = "".join(rng.choice(CONSONANTS) for _ in range(most))
        if text not in used | known:
            used.add(text)
            return text


def worn(codes: Sequence[Code], rng: random.Random) -> list[tuple[str, Code]]:
    """Return texts as typed, a quarter of them worn by one sign."""
    return [(wear(one.text, 1, rng) or one.text if rng.random() < 0.25 else one.text, one) for one in codes]


# -- what a shop's list says of a lamp

WORDS = {
    "twin": ("twin tube", "twin", "2 legs"),
    "quad": ("quad", "double twin", "4 legs"),
    "triple": ("triple", "triple tube", "6 legs"),
    "long-twin": ("long twin", "long-twin"),
    "flat": ("flat 4 legs",),
    "square": ("square", "double-d"),
}


def description(lamp: Lamp, colour: str, rng: random.Random) -> str:
    """Describe a lamp as a stock list does: some of its facts, in the trade's words, one in twenty wrong."""
    told = lamp
    if rng.random() < 0.05:
        told = rng.choice([one for one in SHIPPED.lamps if one.shape in SHAPES and one.kind == lamp.kind])
    base = SHIPPED.base_by_name[told.base]
    words = [f"{told.watts.value:g}W"]
    if rng.random() < 0.8:
        words.append(rng.choice(WORDS[told.shape or "twin"]))
    if rng.random() < 0.6:
        words.append(f"{base.pins.value:g}-pin")
    if rng.random() < 0.6:
        words.append(rng.choice((told.base, base.family)))
    if colour and rng.random() < 0.5:
        words.append(rng.choice((colour, f"{int(colour[1:])}00K")))
    if told.kind == "uv-c" and rng.random() < 0.9:
        words.append("germicidal UV-C")
    rng.shuffle(words)
    return " ".join(words)


# -- measuring


@dataclass
class Tally:
    """Counts over codes."""

    counts: Counter[str] = field(default_factory=Counter)

    def add(self, **what: bool | None) -> None:
        """Count what applies (not None) and what is true of it."""
        for name, value in what.items():
            if value is not None:
                self.counts[name, "n"] += 1  # type: ignore[index]
                self.counts[name, "yes"] += value  # type: ignore[index]

    def shares(self) -> dict[str, float]:
        """Return shares."""
        names = dict.fromkeys(name for name, _ in self.counts)  # type: ignore[misc]
        return {name: self.counts[name, "yes"] / max(1, self.counts[name, "n"]) for name in names}  # type: ignore[index]


def ranked(text: str, looks: dict[str, Any], house: Sequence[HouseMaker]) -> tuple[Any, list[Any]]:
    """Return what the marks say and the lamp types by marks and looks together."""
    said = marks.read(SHIPPED, text, house)
    return said, list(identify.rank(SHIPPED, looks, said.likelihood, said.floor))


def measure(
    texts: Iterable[tuple[str, Code]],
    house: Sequence[HouseMaker],
    rng: random.Random,
    tally: Tally,
    misses: list[str],
) -> None:
    """Count how a maker's codes are read."""
    for text, code in texts:
        drawn = draw_looks(SHIPPED, SHIPPED.lamps.index(code.lamp), rng, doubt=False)
        looks = {key: drawn[key] for key in LOOKS}
        said, with_looks = ranked(text, looks, house)
        alone = identify.rank(SHIPPED, {}, said.likelihood, said.floor) if said.likelihood else with_looks
        best = said.readings[0] if said.readings else None
        cct = int(code.colour[1:]) * 100 if code.colour else None
        first = [one.lamp for one in with_looks[:3]]
        is_uv = code.lamp.kind == "uv-c"
        uv_share = sum(one.probability for one in alone if one.kind == "uv-c" and one.base == code.lamp.base)
        own = sum(one.probability for one in alone if one.base == code.lamp.base)
        right = {
            "watts": best is not None and best.lamp.watts == code.lamp.watts.value,
            "colour": (best is not None and best.lamp.cct_k == cct) if cct else None,
            "type in three with two looks": code.lamp.id in first,
            "type first with two looks": first[0] == code.lamp.id,
            "type first by the code alone": alone[0].lamp == code.lamp.id,
            "wrongly sure by the code alone": alone[0].lamp != code.lamp.id and alone[0].probability >= SURE,
            "wrongly sure with two looks": first[0] != code.lamp.id and with_looks[0].probability >= SURE,
            "UV doubt kept": (uv_share >= 0.01 * own) if is_uv else None,
        }
        tally.add(**right)
        misses += [
            f"{name}: {text} ({code.text}, {code.lamp.id}, {code.colour})"
            for name, ok in right.items()
            if ok is False and "wrongly" not in name
        ]
        misses += [
            f"{name}: {text} ({code.text}, {code.lamp.id}) as {alone[0].lamp} {alone[0].probability:.2f}"
            for name, ok in right.items()
            if ok and "wrongly" in name
        ]


def taught_by(codes: Sequence[Code], made: Maker, most: int = 5) -> letters.LetterTable:
    """Teach what stands on the first lamps whose letters are not known: at most so many codes."""
    table, count = letters.LetterTable(), 0
    for code in codes:
        said = marks.read(SHIPPED, code.text, (letters.as_house(table),))
        unknown = [one for one in said.makers if not letters.knows(table, one)]
        if not unknown or count == most:
            continue
        count += 1
        for one in unknown:
            means = _meaning(code, made) if one in (code.series, made.head + code.series) else marks.LettersMean()
            table = letters.teach(table, one, means, who="simulated clerk", at="2024-01-01T09:00")
    return table


def _meaning(code: Code, made: Maker) -> marks.LettersMean:
    """Say what a clerk with the lamp in hand would: its form and base, and its pins where nothing else says them."""
    base = SHIPPED.base_by_name[code.lamp.base]
    pins = int(base.pins.value) if made.pins_style == "letters" else None
    return marks.LettersMean(shape=code.lamp.shape, kind=code.lamp.kind, pins=pins, base=base.family)


def run(makers: int, count: int, seed: int, show: int = 0) -> dict[str, Any]:
    """Measure all makers in all states."""
    tallies: dict[str, Tally] = {}
    misses: dict[str, list[str]] = {}
    for number in range(makers):
        rng = random.Random(seed * 1000 + number)
        made = maker(rng, number)
        codes = [made.code(rng) for _ in range(count)]
        texts = worn(codes, rng)
        measure(texts, (), rng, tallies.setdefault("no table", Tally()), misses.setdefault("no table", []))
        _after_teaching(made, codes, texts, rng, tallies, misses)
        _after_a_list(made, texts, rng, tallies, misses)
    return {
        "shares": {state: tally.shares() for state, tally in tallies.items()},
        "misses": {state: rows[:show] if show else [] for state, rows in misses.items()},
    }


def _after_teaching(
    made: Maker,
    codes: Sequence[Code],
    texts: Sequence[tuple[str, Code]],
    rng: random.Random,
    tallies: dict[str, Tally],
    misses: dict[str, list[str]],
) -> None:
    table = taught_by(codes[:40], made)
    unseen = [(text, code) for text, code in texts[40:] if code.text not in {one.text for one in codes[:40]}]
    name = "five codes taught"
    measure(unseen, (letters.as_house(table),), rng, tallies.setdefault(name, Tally()), misses.setdefault(name, []))


def _after_a_list(
    made: Maker,
    texts: Sequence[tuple[str, Code]],
    rng: random.Random,
    tallies: dict[str, Tally],
    misses: dict[str, list[str]],
) -> None:
    listed = [made.code(rng) for _ in range(60)]
    lines = [letters.Line(code=one.text, description=description(one.lamp, one.colour, rng)) for one in listed]
    learned = letters.learn(SHIPPED, lines, name="list")
    house = (letters.as_house(letters.LetterTable(letters=learned.letters)),)
    known = {one.text for one in listed}
    unseen = [(text, code) for text, code in texts if code.text not in known]
    name = "list of 60 learned"
    measure(unseen, house, rng, tallies.setdefault(name, Tally()), misses.setdefault(name, []))
    for who, guess in (("rapidfuzz", _by_rapidfuzz(listed)), ("n-grams", _by_n_grams(listed))):
        tally = tallies.setdefault(f"{who} on the same lines", Tally())
        for text, code in unseen:
            tally.add(**{"type first by the code alone": guess(text) == code.lamp.id})


def _by_rapidfuzz(listed: Sequence[Code]) -> Callable[[str], str]:
    from rapidfuzz import fuzz, process

    known = [one.text for one in listed]
    return lambda text: listed[process.extractOne(text, known, scorer=fuzz.ratio)[2]].lamp.id


def _by_n_grams(listed: Sequence[Code]) -> Callable[[str], str]:
    from sklearn.feature_extraction.text import TfidfVectorizer
    from sklearn.neighbors import KNeighborsClassifier

    vectors = TfidfVectorizer(analyzer="char", ngram_range=(1, 3), lowercase=False)
    nearest = KNeighborsClassifier(n_neighbors=1, metric="cosine")
    nearest.fit(vectors.fit_transform([one.text for one in listed]), [one.lamp.id for one in listed])
    return lambda text: str(nearest.predict(vectors.transform([text]))[0])


def main() -> None:
    """Print what was measured."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--makers", type=int, default=40)
    parser.add_argument("--codes", type=int, default=200)
    parser.add_argument("--seed", type=int, default=11)
    parser.add_argument("--show", type=int, default=0, help="list so many misses of each state")
    parser.add_argument("--json", action="store_true")
    asked = parser.parse_args()
    report = run(asked.makers, asked.codes, asked.seed, asked.show)
    if asked.json:
        print(json.dumps(report))
        return
    for state, shares in report["shares"].items():
        print(f"\n{state}", *(f"  {name:36}{share:8.1%}" for name, share in shares.items()), sep="\n")
    for state, rows in report["misses"].items():
        print(f"\n{state}", *rows, sep="\n")


if __name__ == "__main__":
    main()
