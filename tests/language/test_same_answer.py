"""A language changes words and no answer: random cases, asked in both, differ in nothing but what is read."""

from __future__ import annotations

import random
import re
from datetime import date
from string import Formatter

import pytest

from counter import language
from counter.desk import Case, assess
from counter.fit import Fixture, places
from counter.marks import format_code, spoken, tables
from tests.language.test_translations import ENGLISH

# What people read; all else is an answer.
WORDS = frozenset(
    [
        *("headline", "subline", "advice", "says", "why", "do", "ask", "question", "outcomes", "title", "reason"),
        *("text", "means", "assumptions", "problems", "where", "notes", "not_known", "what", "law", "note", "check"),
        *("disposal_check", "place_name", "step", "says_marks", "says_look", "values"),
    ]
)
TYPED = frozenset(["text"])  # of a span it is what was typed
# Titles of laws, a box's words that the law wants in English, a place, what was typed.
QUOTED = re.compile(r"«[^»]*»|'[^']*'|\b(?:Health and Safety|Products Containing|is|IS)\b|WEEE Regulations")
SYSTEMS = ("nema", "ansi-germicidal", "ansi-linear", "ilcos")
HOLDERS = ("", "", "G24q-3", "G23", "2G11", "GX24q", "G13", "G24 q3 max 26W", "nonsense", "E27")
LABELS = (
    "",
    "",
    "2 x 26 W electronic ballast, F32T8 instant start",
    "1 or 2 lamps, 18W or 26W 4-pin, 120 V 0.32 A, min. start temp 10 C",
    "magnetic, 13 W, for use with twin lamps only",
    "LED retrofit, ballast bypassed, 120-277 V on the sockets",
    "UV-C germicidal unit, 11 W, replace with same",
)


def coded(catalogue, lamp):
    """Return a code of a lamp type in the first system that has one."""
    return next(filter(None, (format_code(catalogue, lamp.id, one) for one in SYSTEMS)), "")


def drawn(catalogue, rng):
    """Return a case as clerks bring them about: some looks, some marks, some of the fixture."""
    lamp = rng.choice(catalogue.lamps)
    words = [one for one in catalogue.looks if not one.is_measured and one.values]
    looks = {one.key: rng.choice(one.values).value for one in rng.sample(words, rng.randint(0, 4))}
    marks = rng.choice(["", "", coded(catalogue, lamp), "9W", "F?0T12", "TC-DEL 26W 840", "PLX 26/840/4P"])
    fixture = Fixture(
        holder=rng.choice(HOLDERS) or None,
        label=rng.choice(LABELS),
        ballast=rng.choice(
            ["unknown", "unknown", "magnetic", "electronic", "dimming", "led-driver", "bypassed", "none"]
        ),
        ballast_watts=rng.choice([(), (), (26.0, 32.0), (9.0,), (lamp.watts.value,), (13.5,)]),
        lamp_count=rng.choice([None, 1, 2, 3]),
        room_k=rng.choice([None, 3000, 4100]),
        space_mm=rng.choice([None, None, 150.5]),
        **{key: rng.choice([None, None, True, False]) for key in ("enclosed", "damp", "cold", "dimmer", "came_out")},
    )
    return Case(
        looks=looks,
        marks=marks,
        fixture=fixture,
        use=rng.choice(["unknown", "unknown", "lighting", "germicidal", "insect trap"]),
        chosen=rng.choice([None, None, lamp.id]),
        broken=rng.random() < 0.1,
        place=rng.choice([None, *(one.id for one in places(catalogue))]),
        on=rng.choice([None, date(2026, 11, 29), date(2031, 1, 1)]),
    )


def parted(plain, words=False, place=""):
    """Yield each value of an answer with its place, and whether it is read by people."""
    if isinstance(plain, dict):
        for key, value in plain.items():
            is_typed = key in TYPED and ("spans" in place or "start" in plain)
            yield from parted(value, (words or key in WORDS) and not is_typed, f"{place}.{key}")
    elif isinstance(plain, list):
        for at, value in enumerate(plain):
            yield from parted(value, words, f"{place}.{at}")
    else:
        yield place, plain, words and isinstance(plain, str)


@pytest.fixture(scope="module")
def pairs(catalogue):
    """Return random cases answered in English and in Spanish."""
    rng = random.Random(20)
    cases = [drawn(catalogue, rng) for _ in range(150)]
    english = [assess(catalogue, case).model_dump(mode="json") for case in cases]
    language.use("es")
    spanish = [assess(catalogue, case).model_dump(mode="json") for case in cases]
    language.use(language.OWN)
    again = [assess(catalogue, case).model_dump(mode="json") for case in cases]
    assert again == english  # nothing that was kept in the other language comes back
    return list(zip(cases, english, spanish, strict=True))


def test_all_but_words_is_the_same(pairs):
    for case, english, spanish in pairs:
        here, there = ([row for row in parted(one) if not row[2]] for one in (english, spanish))
        assert here == there, case


def test_every_word_is_another(pairs):
    """No sentence stays English: what a Spanish clerk reads has none of its small words."""
    for case, _, spanish in pairs:
        for place, text, is_read in parted(spanish):
            assert not (is_read and ENGLISH.search(QUOTED.sub("", text))), (place, text, case)


FILLED = {"means": "a ring", "eighths": "8", "n": "26", "text": "120V"}


def said_of_slots():
    """Yield what the tables of code systems say of each slot, filled in as reading would."""
    for slot in tables()["systems"]["parts"].values():
        for _, _, says, *_ in slot.get("parts", ()):
            for sentence in says.values() if isinstance(says, dict) else (says,):
                names = [name for _, name, _, _ in Formatter().parse(sentence) if name]
                yield sentence, sentence.format_map({name: FILLED.get(name, 26) for name in names})


@pytest.mark.parametrize(("sentence", "said"), sorted(set(said_of_slots())))
def test_what_a_slot_means_is_found_again(sentence, said, spanish):
    is_words = re.search(r"[A-Za-z]{2,}", re.sub(r"\{[^}]*\}", "", sentence)) or "means" in sentence
    assert (spoken(said) != said) is bool(is_words)
