"""Words that say nothing of a lamp: what may stand in their classes, and what no ending or joining makes of them."""

import pytest

from counter.words import families, fold, is_beside, is_harmless, is_order, is_plain, matches, sayings
from counter.words._plain import _file
from counter.words._topics import table

ANY_SHAPE = next(tuple(row["values"]) for row in table()["families"]["rows"] if "circular housing" in row["words"])
LISTED = sorted({word for row in _file()["classes"] for text in row["words"].values() for word in text.split()})


def test_every_class_says_why():
    assert all(row["because"].strip() and row["words"] for row in _file()["classes"])


@pytest.mark.parametrize("of", [row["of"] for row in _file()["classes"]])
def test_no_class_holds_a_word_of_danger(of):
    row = next(row for row in _file()["classes"] if row["of"] == of)
    words = [word for text in row["words"].values() for word in text.split() if "-" not in word]
    kinds = {"magnetic", "electronic", "dimming", "emergency", "dimmer"}  # these speak all the same
    assert [word for word in words if {one.topic for one in sayings(word)} - kinds] == []


def test_words_are_written_as_they_are_searched():
    assert [word for word in LISTED if fold(word).plain != word or not word.replace("-", "").isalpha()] == []


@pytest.mark.parametrize(
    "word",
    ["brackets", "factories", "wannenleuchte", "kupferwicklung", "durchgangsverdrahtung", "tornillos", "bornes"],
)
def test_endings_and_compounds_are_known(word):
    assert is_plain(word)


@pytest.mark.parametrize(
    "word",
    [
        *("zorbik", "removed", "gutted", "rewired", "retrofit", "swapped", "cut", "direct", "replaced", "bypassed"),
        *("netzspannungslampe", "strahlerleuchte", "insektenleuchte", "terrarienleuchte", "tubes", "lamps", "germ"),
        *("wired", "disposed", "discarded", "hot", "inside", "hood", "sterile", "grow"),
    ],
)
def test_what_was_done_and_kinds_of_lamps_are_never_plain(word):
    assert not is_plain(word)


@pytest.mark.parametrize(("word", "order"), [("insert", True), ("contient", True), ("steel", False)])
def test_orders_are_told_from_what_says_nothing_anywhere(word, order):
    assert is_order(word) is order


def test_on_a_lamp_none_of_them_is_passed_over():
    assert is_plain("blue")
    assert not is_harmless("blue")


@pytest.mark.parametrize(("word", "beside"), [("ceiling", True), ("electrician", True), ("steel", False)])
def test_places_and_people_are_told_from_the_rest(word, beside):
    assert is_beside(word) is beside


@pytest.mark.parametrize(("text", "topic"), [("110V", "dimming"), ("010V", "dimming"), ("2/54W", "uv-c")])
def test_two_numbers_stay_two(text, topic):
    assert topic not in {one.topic for one in matches(fold(text).plain)}
    assert "dimming" in {one.topic for one in matches(fold("1-10 V").plain)}


@pytest.mark.parametrize(
    ("text", "values"),
    [
        ("double twin tube", [("quad",)]),
        ("circular housing", [ANY_SHAPE]),
        ("slimline VHO", [("one-pin",), ("vho",)]),
    ],
)
def test_of_words_for_a_family_the_longest_speak(text, values):
    assert [one.values for one in families(fold(text).plain)] == values
