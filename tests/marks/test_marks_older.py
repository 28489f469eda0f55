"""Older writings of generic codes, T or M for a triple tube and no X in the base; and meanings that fit the code."""

from __future__ import annotations

import pytest

from counter import marks
from counter.marks._vocabulary import codes_of


@pytest.mark.parametrize("code", ["CFT26W/GX24q", "CFT26W/G24q", "CFM26W/GX24q", "CFT26W"])
def test_one_answer_to_what_the_shape_letter_means(shipped, code):
    evidence = marks.read(shipped, code)
    best = evidence.readings[0]
    (shape,) = (span for span in best.spans if span.part == "shape")
    assert (best.lamp.shape, best.lamp.legs) == ("triple", 6)
    assert shape.means == f"triple tube: three bent tubes, 6 legs; {shape.text} is its older letter"
    assert any(said.startswith(f"{shape.text} stands here for a triple tube") for said in evidence.problems)
    assert not any("twin tube" in said for said in evidence.problems)


def test_twin_stays_a_twin(shipped):
    best = marks.read(shipped, "CFT9W/G23").readings[0]
    assert (best.lamp.shape, best.spans[1].means) == ("twin", "twin tube: one bent tube, 2 legs")


@pytest.mark.parametrize("text", ["CF?26W/G24q", "CF*26W/G24q"])
def test_unreadable_shape_offers_every_shape_that_exists(shipped, text):
    readings = marks.read(shipped, text).readings
    shapes = {reading.lamp.shape: reading for reading in readings}
    assert readings[0].lamps == ("G24q-3/26/quad",), "as printed, before what an older code leaves out"
    assert shapes["triple"].lamps == ("GX24q-3/26/triple",)
    assert any("without its X" in said for said in shapes["triple"].assumptions)


def test_unreadable_shape_between_twin_and_quad(shipped):
    shapes = {reading.lamp.shape for reading in marks.read(shipped, "CF?13W/GX23").readings}
    assert shapes == {"twin", "quad"}


def test_older_writings_are_searched_and_cost_more(shipped):
    costs = {code: one.cost for code, one in codes_of(shipped).items()}
    assert costs["CFTR26W/GX24q"] < costs["CFTR26W/G24q"] < costs["CFT26W/GX24q"] < costs["CFT26W/G24q"]
    assert costs["CFQ26W/G24q"] == costs["CFT9W/G23"] == 0


@pytest.mark.parametrize(
    ("code", "letters"),
    [("GX24q", "X"), ("GR10q", "R"), ("GRY10q-3", "RY"), ("GU24", "U"), ("G24q", ""), ("2GX13", "X")],
)
def test_meaning_speaks_only_of_letters_in_the_code(shipped, code, letters):
    spans = marks.read(shipped, f"{code} 841").readings[0].spans
    (means,) = (span.means for span in spans if span.part == "base")
    assert [letter for letter in "RXYZUJK" if f"{letter}: " in means] == list(letters), means
    assert "X, Y or U" not in means


def test_letter_by_letter(shipped):
    spans = marks.read(shipped, "GRY10q-3").readings[0].spans
    assert [span.text for span in spans] == ["G", "R", "Y", "10", "q", "-3"]
    assert spans[2].means == "not, or not fully, interchangeable with the base without it"
