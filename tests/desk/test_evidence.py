"""What is kept of looks and marks is what would be worked out afresh, and does not grow without end."""

import gc

import pytest

from counter import identify, marks
from counter.catalogue import load
from counter.desk import Case, Fixture, assess
from counter.desk import _evidence as evidence
from counter.desk._evidence import MOST_KEPT
from counter.desk._evidence import weighed_of as evidence_of

CASES = [({}, ""), ({"legs": "4", "pins": "4"}, ""), ({"glass": "white"}, "CFQ18W/G24q/841"), ({}, "CFQ18?/G24q")]


@pytest.mark.parametrize(("looks", "text"), CASES)
def test_kept_is_what_was_worked_out(catalogue, looks, text):
    first = evidence_of(catalogue, looks, text)
    assert evidence_of(catalogue, dict(looks), text) is first
    said = marks.read(catalogue, text) if text else marks.MarkEvidence(text=text)
    assert first == evidence._weigh(catalogue, looks, said, (), identify.rank(catalogue, looks), (), None)


def test_other_looks_or_marks_are_not_mistaken(catalogue):
    found = [evidence_of(catalogue, looks, text).candidates for looks, text in CASES]
    assert all(one != other for i, one in enumerate(found) for other in found[:i])


def test_no_more_than_some_are_kept(catalogue):
    for watts in range(MOST_KEPT + 5):
        evidence_of(catalogue, {}, f"{watts + 1}W")
    assert len(evidence._kept[id(catalogue)]) == MOST_KEPT


def test_nothing_is_kept_of_a_catalogue_that_is_gone():
    other = load().model_copy()
    evidence_of(other, {}, "")
    key = id(other)
    del other
    gc.collect()
    assert key not in evidence._kept


@pytest.mark.parametrize("marks", ["32W triple", "26W 4-pin", "F32T8", "CFQ26W", "quad 4-pin"])
def test_nobody_is_sent_to_look_at_what_the_marks_say(catalogue, marks):
    found = assess(catalogue, Case(marks=marks, looks={"glass": "white"}))
    claimed = found.readings[0].looks
    told = [look.look in claimed for look in found.next]
    assert True in told
    assert told == sorted(told), "what the marks answer comes last"


def test_the_glass_is_asked_for_whatever_the_marks_say(catalogue):
    assert assess(catalogue, Case(marks="9W")).next[0].look == "glass"


@pytest.mark.parametrize(("mm", "disputed"), [(25.0, False), (26.0, False), (38.0, True), (16.0, True)])
def test_a_measure_is_disputed_only_beyond_what_hands_miss(catalogue, mm, disputed):
    found = assess(catalogue, Case(marks="F32T8/841", looks={"tube_mm": mm})).conflicts
    assert [one.look for one in found] == (["tube_mm"] if disputed else [])


@pytest.mark.parametrize(("length_mm", "watts"), [(225.0, 18), (415.0, 60), (535.0, 95)])
def test_of_germicidal_lamps_the_strongest_that_it_can_well_be_counts(catalogue, length_mm, watts):
    seen = evidence.evidence_of(catalogue, Case(looks={"glass": "clear", "pins": "4", "length_mm": length_mm}))
    assert seen.strongest_uvc("2G11").watts.value == watts


def test_with_no_length_the_strongest_of_all_counts(catalogue):
    seen = evidence.evidence_of(catalogue, Case(looks={"glass": "clear", "pins": "4"}))
    strongest = max(one.watts.value for one in catalogue.lamps if one.base == "2G11" and one.kind == "uv-c")
    assert seen.strongest_uvc("2G11").watts.value == strongest


@pytest.mark.parametrize(("colour", "cct_k"), [("8*", None), ("84?", None), ("8?1", 4100), ("841", 4100)])
def test_a_rubbed_colour_is_told_only_where_one_can_be_read(catalogue, colour, cct_k):
    looks = {"body": "square", "pins": "4", "legs": "4"}
    seen = evidence.evidence_of(catalogue, Case(marks=f"CF?26W/G24?/{colour}", looks=looks))
    assert seen.cct_k == cct_k


LIT = {"ballast": "electronic", "came_out": True}
FOUR = {"legs": "4", "pins": "4", "glass": "white", "watts": "26"}


@pytest.mark.parametrize(
    ("looks", "fixture", "lamp", "verdict"),
    [
        (FOUR, LIT | {"holder": "G24q-3"}, "G24q-3/26/quad", "sell"),
        (FOUR, LIT | {"holder": "G24q-3", "came_out": None}, "G24q-3/26/quad", "ask first"),
        (FOUR | {"pins": "2"}, LIT | {"holder": "G24q-3"}, "G24d-3/26/quad", "do not sell"),  # somebody is wrong
        (FOUR | {"legs": "6"}, LIT | {"holder": "G24q-3"}, "GX24q-3/26/triple", "do not sell"),
        (FOUR | {"notch": "small-middle"}, LIT | {"holder": "G24q-3"}, "G24q-3/26/quad", "ask first"),
        ({}, LIT | {"holder": "G24q-3"}, None, None),  # a holder alone names no lamp
        (FOUR, LIT | {"holder": "nobody reads this"}, "G24q-3/26/quad", "ask first"),
    ],
)
def test_the_holder_that_a_lamp_burned_in_speaks_of_its_base(catalogue, looks, fixture, lamp, verdict):
    """As far as a mark that may be misread: what was seen of the lamp itself weighs more."""
    found = assess(catalogue, Case(looks=looks, fixture=Fixture(**fixture), use="lighting"))
    assert (found.lamp, found.verdict) == (lamp, verdict)
