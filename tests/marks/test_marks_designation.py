"""One grammar of IEC 60061-4 designations, read alone and in running text."""

import re

import pytest

from counter import marks
from counter.catalogue import parse_designation, scan_designation
from counter.marks._tables import tables

# What each says of its contacts is clause 3.1 to 3.4 of IEC 60061-4 as its preview prints them; 2G13 is common
# practice, no source: the two ends of a bent tube, each with a base of its own.
PINS = {
    "G24q-3": 4, "G6.35": 2, "G6.35-15": 2, "GZ10": 2, "2G11": 4, "2G13": 2, "GRY10q-3": 4, "Fa8": 1, "R7s": 1,
    "W2.1x9.5d": 2, "B22d-3": 2, "E27": None, "PG13.5": None,
}  # fmt: skip


@pytest.mark.parametrize(("text", "pins"), PINS.items())
def test_alone_and_in_a_text_it_is_the_same(shipped, text, pins):
    alone, found = parse_designation(text), scan_designation(f"26W {text.upper()} 841", 4)
    assert alone == found.designation
    assert (alone.text, alone.pins) == (text, pins)
    assert [reading.lamp.pins for reading in marks.read(shipped, text).readings[:1]] in ([pins], [])


@pytest.mark.parametrize("text", [*PINS, "B22d-3(90°/135°)/25x26", "GX24q-3", "SV8.5-8"])
def test_pieces_stand_where_they_were_written(text):
    plain = f"  {text.upper()}"
    pieces = scan_designation(plain, 2).pieces
    assert "".join(plain[piece.start : piece.end] for piece in pieces) == plain[2 : pieces[-1].end]
    assert "".join(piece.written for piece in pieces) == parse_designation(text).text


def test_a_key_without_its_hyphen_is_for_those_who_ask():
    assert scan_designation("G24Q3").designation.text == "G24q"
    assert scan_designation("G24Q3", joined=True).designation.text == "G24q-3"
    assert scan_designation("G24Q841", joined=True).end == 4


def test_a_key_worn_off_behind_its_hyphen_leaves_the_family():
    assert parse_designation("G24q-").text == "G24q"


def test_every_letter_of_the_grammar_has_its_meaning():
    for row in tables()["caps"]["main"]:
        assert scan_designation(f"{row['letters']}10").designation.letter.upper() == row["letters"]
    for row in tables()["caps"]["modifiers"]:
        assert scan_designation(f"G{row['letters']}10").designation.modifiers == row["letters"]
    alphabet = {one for one in map(chr, range(65, 91)) if scan_designation(f"{one}10") is not None}
    assert alphabet == {row["letters"] for row in tables()["caps"]["main"] if len(row["letters"]) == 1}


@pytest.mark.parametrize(
    ("text", "measures"),
    [("G13", "distance of two pins"), ("G10q", "the circle through the pins"), ("E27", "diameter over the thread")],
)
def test_the_number_says_what_it_measures(shipped, text, measures):
    (span,) = (part for part in marks.read(shipped, text).readings[0].spans if re.match(r"\d", part.text))
    assert measures in span.means
