"""The one list of doubts: a sale without any is free, and whatever keeps one open says what would end it."""

from __future__ import annotations

import random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from counter.desk import CANNOT_TELL, OPEN_END, Case, Fixture, assess
from counter.fit import VERDICTS
from counter.light import exposure

CODES = ["CFQ26W/G24q/841", "CFT9W/G23/827", "FT36W/2G11/840", "F32T8/841", "CFTR32W/GX24q/835", "GFT9W/G23", "26W"]
FIXTURES = {
    "G24q-3": Fixture(holder="G24q-3", ballast="electronic", ballast_watts=(26,)),
    "G23": Fixture(holder="G23", ballast="magnetic", ballast_watts=(9,)),
    "G13": Fixture(holder="G13", ballast="electronic", ballast_watts=(32,)),
    "none": Fixture(),
}
LABELS = ["", "26W electronic", "(2) F32T8", "LED only", "zorbik 26W", "9W magnetic ballast removed", "max 18W"]


def random_case(catalogue, seed):
    rng = random.Random(seed)
    looks = {}
    for look in catalogue.looks:
        if rng.random() < 0.25 and look.values:
            looks[look.key] = rng.choice([*(one.value for one in look.values), CANNOT_TELL])
    fixture = rng.choice(list(FIXTURES.values())).model_copy(update={"label": rng.choice(LABELS)})
    fixture = fixture.model_copy(
        update={"dimmer": rng.choice([None, True]), "emergency": rng.choice([None, None, True])}
    )
    lamps = [one.id for one in catalogue.lamps]
    return Case(
        looks=looks,
        marks=rng.choice(["", "", *CODES, "zorbik", "CFQ26W/G24q LED", "9W UV"]),
        fixture=fixture,
        use=rng.choice(["unknown", "lighting", "germicidal"]),
        chosen=rng.choice([None, None, rng.choice(lamps)]),
        broken=rng.random() < 0.1,
        place=rng.choice([None, "us-ca"]),
    )


@pytest.mark.parametrize("seed", range(300))
def test_ask_first_always_says_what_would_end_it(catalogue, seed):
    found = assess(catalogue, random_case(catalogue, seed))
    if found.verdict == "ask first":
        assert found.doubts
        assert all(one.ask and one.says and one.about for one in found.doubts)
        assert found.asks[0].question == found.doubts[0].ask
    if found.verdict == "sell":
        assert found.doubts == ()


def answers(catalogue, case, doubt):
    """Yield cases in which somebody has answered a doubt, in every way that there is."""
    fixture = case.fixture
    told = [{"told": fixture.told | {doubt.key: answer}} for answer in (True, False)] if doubt.key else []
    look = catalogue.look_by_key.get(doubt.about)
    if look is not None:
        said = [CANNOT_TELL, *(one.value for one in look.values)]
        yield from (case.model_copy(update={"looks": case.looks | {look.key: one}}) for one in said)
        yield case.model_copy(update={"looks": {key: a for key, a in case.looks.items() if key != look.key}})
        sizes = [size for size in (12.7, 23.0, 147.0, 570.0) if (look.low or 0) <= size <= (look.high or 0)]
        yield from (case.model_copy(update={"looks": case.looks | {look.key: size}}) for size in sizes)
    if doubt.about == "marks":
        yield from (case.model_copy(update={"marks": text}) for text in ("", *CODES))
        yield case.model_copy(update={"explained": (*case.explained, *doubt.words)})
    if doubt.about in ("watts", OPEN_END):  # at an open end only what nobody could read
        watts = {f"{one.watts.value:g}" for one in catalogue.lamps}
        yield from (case.model_copy(update={"looks": case.looks | {"watts": one}}) for one in sorted(watts))
    fields = {
        "holder": ("G24q-3", "G23", "G13"),
        "ballast": ("magnetic", "electronic", "bypassed", "none"),
        "ballast_watts": ((26.0,), (9.0,), (32.0,)),
        "came_out": (True, False),
        "label": ("",),
        "lamp_count": (1, 2),
    }
    told += [{doubt.about: answer} for answer in fields.get(doubt.about, ())]
    told += [{"explained": (*fixture.explained, *doubt.words)}] if doubt.words else []
    yield from (case.model_copy(update={"fixture": fixture.model_copy(update=one)}) for one in told)
    if doubt.about == "use":
        yield from (case.model_copy(update={"use": use}) for use in ("lighting", "germicidal", "blacklight"))
    if doubt.about == "broken":
        yield case.model_copy(update={"broken": False})
    if doubt.about == "on":
        yield case.model_copy(update={"place": None})


@pytest.mark.parametrize("seed", range(120))
def test_every_doubt_can_be_ended_by_an_answer_to_it(catalogue, seed):
    case = random_case(catalogue, 1000 + seed)
    found = assess(catalogue, case)
    if found.verdict != "ask first":
        return
    for doubt in found.doubts[:3]:
        same = (doubt.kind, doubt.about, doubt.says)
        ended = (
            same not in {(one.kind, one.about, one.says) for one in assess(catalogue, answered).doubts}
            for answered in answers(catalogue, case, doubt)
        )
        assert any(ended), doubt


# -- the same words in other clothes, and more words


def sold(catalogue, **case):
    return VERDICTS.index(assess(catalogue, Case(use="lighting", **case)).verdict or "ask first")


PHRASES = [
    *("9W magnetic ballast removed", "9W bypassed", "9W LED tube only", "9W 2-pin lamps only", "9W not for CFT9W"),
    *("9W germicidal lamp", "9W metal halide", "9W ballast burnt", "9W direct wire", "9W do not use 9W lamps"),
    *("9W ohne Vorschaltgerät", "9W sin balasto", "9W insect trap", "9W emergency battery", "9W electronic ballast"),
    *("9W zorbik", "9W 240V at sockets", "9W max 5W"),
]
CLOTHES = [
    lambda text: text.replace(" ", "  "),
    lambda text: text.replace(" ", "\n"),
    lambda text: text.replace(" ", "\t"),
    lambda text: text.replace(" ", "\u2009"),
    lambda text: text.upper(),
    lambda text: text.title(),
    lambda text: "".join(chr(ord(one) + 0xFEE0) if "!" <= one <= "~" else one for one in text),
    lambda text: "\xad".join(text),
    lambda text: text[:-2] + "-\n" + text[-2:],
    lambda text: text.replace("-", "\u2011"),
]


@pytest.mark.parametrize("phrase", PHRASES)
@pytest.mark.parametrize("dress", CLOTHES, ids=range(len(CLOTHES)))
def test_the_same_words_otherwise_written_are_never_judged_looser(catalogue, phrase, dress):
    fixture = FIXTURES["G23"]
    looks = {"legs": "2", "pins": "2", "glass": "white"}
    for place in ("label", "marks"):
        if place == "label":
            cases = [
                {"marks": "CFT9W/G23/840", "looks": looks, "fixture": fixture.model_copy(update={"label": text})}
                for text in (phrase, dress(phrase))
            ]
        else:
            cases = [
                {"marks": f"CFT9W/G23/840 {text}", "looks": looks, "fixture": fixture}
                for text in (phrase.removeprefix("9W "), dress(phrase.removeprefix("9W ")))
            ]
        plain, dressed = (sold(catalogue, **case) for case in cases)
        assert dressed >= plain, (place, cases[1])


words = st.text(alphabet="abcdefghijklmnopqrstuvwxyz", min_size=3, max_size=9)


@settings(max_examples=60, deadline=None)
@given(word=words, at_start=st.booleans())
def test_more_words_never_loosen_a_verdict(catalogue, word, at_start):
    for label in ("9W", "9W LED", "9W magnetic", "do not use"):
        fixture = FIXTURES["G23"].model_copy(update={"label": label})
        more = fixture.model_copy(update={"label": f"{word} {label}" if at_start else f"{label} {word}"})
        looks = {"legs": "2", "pins": "2", "glass": "white"}
        before, after = (sold(catalogue, marks="CFT9W/G23/840", looks=looks, fixture=one) for one in (fixture, more))
        assert after >= before, (label, word)
        before = sold(catalogue, marks="CFT9W/G23/840", looks=looks, fixture=FIXTURES["G23"])
        assert sold(catalogue, marks=f"CFT9W/G23/840 {word}", looks=looks, fixture=FIXTURES["G23"]) >= before


# -- what was sold and must not be


@pytest.mark.parametrize("words", ["FS", "tanning", "narrowband", "nail gel curing", "insect killer", "UV-B"])
def test_white_glass_rules_no_coated_uv_lamp_out(catalogue, words):
    fixture = Fixture(holder="G13", ballast="magnetic", ballast_watts=(40,))
    found = assess(
        catalogue, Case(marks=f"F40T12 {words}", looks={"glass": "white"}, fixture=fixture, use="lighting")
    )
    assert found.verdict != "sell"


def test_the_everyday_sale_is_settled_by_one_honest_question(catalogue):
    case = Case(marks="CFQ26W/G24q/841", looks={"legs": "4", "pins": "4"}, use="lighting")
    found = assess(catalogue, case)
    assert (found.verdict, found.doubts[0].about) == ("ask first", "came_out")
    burned = case.model_copy(update={"fixture": Fixture(came_out=True)})
    said = assess(catalogue, burned)
    assert said.verdict == "sell"
    assert "same-again" in {one.rule for one in said.cautions}
    assert {one.lamp for one in said.replacements if one.verdict == "sell"} == {"G24q-3/26/quad"}


def test_grave_words_stand_first_and_all_of_them(catalogue):
    looks = {"legs": "2", "pins": "2", "glass": "clear", "watts": "9"}
    found = assess(catalogue, Case(looks=looks, use="lighting", broken=True, fixture=FIXTURES["G23"]))
    signals = [one.signal for one in found.first_words]
    assert signals[0] == "DANGER"
    assert {"uvc-in-lighting", "broken"} <= {one.rule for one in found.first_words}


@pytest.mark.parametrize("pins", ["2", "4"])
@pytest.mark.parametrize("use", ["lighting", "unknown", "germicidal"])
def test_one_time_to_harm_stands_everywhere_while_the_watts_are_open(catalogue, pins, use):
    found = assess(catalogue, Case(looks={"legs": "2", "pins": pins, "glass": "clear"}, use=use))
    figures = {one.figure for one in found.cautions if one.unit == "s"}
    assert len(figures) == 1
    at_two_metres = exposure(found.light.uvc.uvc_watts, found.light.uvc.arc_mm, 2.0)
    assert int(at_two_metres.time_to_limit_s) == figures.pop()


@pytest.mark.parametrize(
    ("case", "headline"),
    [
        ({"marks": "26W 4 pin"}, "GX24q-3 or G24q-3?"),
        ({"looks": {"legs": "4"}}, "G24q or G24d?"),
    ],
)
def test_a_tie_is_named_as_one(catalogue, case, headline):
    assert assess(catalogue, Case(**case)).headline == headline


def test_what_the_ballast_lists_is_offered_before_what_it_does_not(catalogue):
    fixture = Fixture(holder="G13", ballast="electronic", ballast_watts=(32,))
    found = assess(catalogue, Case(marks="F36T8/840", fixture=fixture, use="lighting"))
    offered = [one for one in found.replacements if one.lamp is not None and one.verdict != "do not sell"]
    assert catalogue.lamp_by_id[offered[0].lamp].watts.value == 32


def test_four_pins_are_never_offered_for_two(catalogue):
    case = Case(marks="CFQ18W/G24d-2/840", fixture=Fixture(ballast="magnetic"), use="lighting")
    found = assess(catalogue, case).replacements
    four = [one for one in found if one.lamp and catalogue.base_of(catalogue.lamp_by_id[one.lamp]).pins.value == 4]
    assert all(one.verdict == "do not sell" for one in four)


def test_what_was_not_asked_does_not_match(catalogue):
    fixture = Fixture(holder="G24q-3", ballast="electronic", ballast_watts=(26,))
    found = assess(catalogue, Case(marks="CFQ26W/G24q/841", fixture=fixture))
    assert "use" not in found.replacements[0].reason


def test_the_law_can_be_read_and_answered(catalogue):
    from datetime import date

    fixture = FIXTURES["G24q-3"]
    case = Case(marks="CFQ26W/G24q/841", fixture=fixture, use="lighting", place="us-ca", on=date(2031, 1, 1))
    found = assess(catalogue, case)
    law = next(one for one in found.doubts if one.about == "law-ended")
    yes = case.model_copy(update={"fixture": fixture.model_copy(update={"told": {law.key: True}})})
    no = case.model_copy(update={"fixture": fixture.model_copy(update={"told": {law.key: False}})})
    assert (found.verdict, assess(catalogue, yes).verdict) == ("ask first", "sell")
    assert assess(catalogue, no).verdict == "do not sell"
    assert next(one for one in found.replacements if one.verdict != "ask first").verdict in ("sell", "do not sell")


@pytest.mark.parametrize("code", ["F72T12/ES", "F13T5/ES", "F20T12/SS"])
def test_a_saver_that_is_not_in_the_catalogue_is_not_the_full_lamp(catalogue, code):
    found = assess(
        catalogue, Case(marks=code, looks={"glass": "white"}, fixture=Fixture(came_out=True), use="lighting")
    )
    assert found.verdict == "ask first"


def test_what_burned_on_a_dimmer_is_asked_about(catalogue):
    fixture = Fixture(came_out=True, dimmer=True)
    found = assess(catalogue, Case(marks="FT36W/2G11/840", fixture=fixture, use="lighting"))
    assert found.verdict == "ask first"


def test_nothing_seen_is_never_sold(catalogue):
    found = assess(catalogue, Case(fixture=Fixture(came_out=True), use="lighting"))
    assert found.verdict != "sell"


def test_an_untouched_case_names_its_first_look(catalogue):
    found = assess(catalogue, Case())
    assert found.advice == f"{catalogue.look_by_key[found.next[0].look].label}: {found.next[0].why}"


def test_the_stamp_asks_for_the_look_that_the_looks_are_marked_with(catalogue):
    found = assess(catalogue, Case(marks="CF?26W/G24?/8*"))
    assert [one.about for one in found.doubts if one.kind == "look"] == [found.next[0].look] == ["pins"]


def test_a_savers_own_watts_do_not_speak_against_its_code(catalogue):
    code = "F32T8/841/ES"
    assert next(one.about for one in assess(catalogue, Case(marks=code)).doubts) == "watts"
    found = assess(catalogue, Case(marks=code, looks={"watts": "28"}))
    assert (found.lamp, found.conflicts) == ("G13/28/linear/saver", ())
