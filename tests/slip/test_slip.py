"""The slip as data: what the desk answered stands on it, and its code brings the case back."""

from __future__ import annotations

import string
from datetime import UTC, datetime

import pytest

from counter import desk, slip
from counter.desk import Case, CaseProblem
from counter.slip import SlipItem
from tests.slip.rich_cases import rich_case

NOW = datetime(2026, 11, 25, 10, 30, tzinfo=UTC)
KEY = "0123456789abcdef" * 2
CRC32 = 2777204129
LOOKS = {"glass": "white", "pins": "4"}
CASE = Case(marks="CFQ26W/G24q/835", looks=LOOKS, fixture={"holder": "G24q-3"}, place="us-ca", on="2026-11-25")


def made(catalogue, case=CASE, items=()):
    found = desk.assess(catalogue, case)
    return slip.make_slip(catalogue, case, found, items, now=NOW, key=KEY, till="till 1", initials="kb"), found


def test_everything_that_was_said_stands_on_it(catalogue):
    item = SlipItem(code="TV100", description="lamp", quantity=3, price_cents=850)
    written, found = made(catalogue, items=[item])
    assert (written.lamp, written.base, written.watts) == ("G24q-3/26/quad", "G24q-3", 26)
    assert written.total_cents == 2550
    assert [one.says for one in written.cautions] == [one.says for one in found.cautions]
    assert "Pins: 4 pins" in written.answers
    assert "holder: G24q-3" in written.answers
    assert [mark.text for mark in written.marks][:2] == ["CF", "Q"]
    assert written.disposal


def test_what_was_not_known_stands_on_it(catalogue):
    written, found = made(catalogue, Case(looks={"pins": "4"}))
    assert written.unknown == tuple(dict.fromkeys(doubt.ask for doubt in found.doubts))
    assert written.unknown


def test_price_that_is_not_known_leaves_no_total(catalogue):
    items = [SlipItem(code="a", description="", price_cents=100), SlipItem(code="b", description="")]
    assert made(catalogue, items=items)[0].total_cents is None


def test_code_brings_the_case_back(catalogue):
    text = slip.case_text(CASE, KEY)
    assert set(text) <= set(string.ascii_uppercase + string.digits), (
        "QR's alphanumeric mode, and every keyboard's letters"
    )
    assert slip.case_in(text, catalogue) == CASE
    assert slip.case_in(f"  {text[:40]}\n{text[40:].lower()} ", catalogue) == CASE


def test_scanner_with_another_keyboards_layout_is_understood(catalogue):
    swapped = slip.case_text(CASE, KEY).translate(str.maketrans("YZ", "ZY"))
    assert slip.case_in(swapped, catalogue) == CASE


def test_code_of_the_first_version_still_brings_its_case_back(catalogue):
    import base64
    import zlib

    plain = CASE.model_dump_json(exclude_defaults=True, exclude={"version"}).encode()
    old = "LC1:" + base64.b32encode(zlib.compress(plain, 9)).decode().rstrip("=")
    assert slip.case_in(old, catalogue) == CASE
    assert slip.key_in("LCK:" + KEY.upper()) == KEY


def test_dictionary_of_printed_slips_never_changes():
    import zlib

    from counter import paths

    assert zlib.crc32((paths.resources() / "case-words.txt").read_bytes()) == CRC32


@pytest.mark.parametrize("seed", range(40))
def test_cases_as_they_are_sold_come_back_from_their_code(catalogue, seed):
    case = rich_case(catalogue, seed)
    text = slip.case_text(case, KEY)
    assert slip.holds_case(text)
    assert slip.case_in(text, catalogue) == case


def test_letter_that_was_read_wrong_is_noticed(catalogue):
    text = slip.case_text(CASE, KEY)
    for at in range(len("LAMPCASE2"), len(text), 7):
        wrong = text[:at] + ("A" if text[at] != "A" else "B") + text[at + 1 :]
        try:
            assert slip.case_in(wrong, catalogue) == CASE, "the last letter holds bits that say nothing"
        except CaseProblem:
            continue


def test_case_too_long_for_a_code_is_known_by_its_key():
    import random

    dice = random.Random(3)
    text = slip.case_text(Case(marks="".join(dice.choices(string.printable, k=3000))), KEY)
    assert slip.key_in(text) == KEY
    assert slip.is_case_text(text)


def test_lamps_that_are_gone_are_left_out(catalogue):
    case = CASE.model_copy(update={"chosen": "G99/1", "looks": {"pins": "4", "smell": "none"}})
    back = slip.case_in(slip.case_text(case, KEY), catalogue)
    assert (back.chosen, back.looks) == (None, {"pins": "4"})


@pytest.mark.parametrize("cut", [5, 20, -9, -1])
def test_code_that_is_cut_off_is_said(catalogue, cut):
    with pytest.raises(CaseProblem, match="scan it again"):
        slip.case_in(slip.case_text(CASE, KEY)[:cut], catalogue)


def test_code_that_unpacks_without_end_is_no_case(catalogue):
    import base64
    import zlib

    deflate = zlib.compressobj(9, zlib.DEFLATED, -zlib.MAX_WBITS)
    raw = deflate.compress(b" " * 50_000_000) + deflate.flush()
    for head, packed in (("LC1:", zlib.compress(b" " * 50_000_000)), ("LAMPCASE2", b"00" + raw)):
        with pytest.raises(CaseProblem):
            slip.case_in(head + base64.b32encode(packed).decode().rstrip("="), catalogue)
