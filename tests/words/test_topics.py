"""What words speak of, in whatever dress; and what is no word of danger."""

import pytest

from counter.words import is_danger, is_harmless, sayings, speaks_of

SPOKEN = [
    (
        "uv-c",
        ["UVGI", "253.7", "253,7 nm", "ozone", "ultra violet", "bactericidal", "u.v.c", "germ?cidal"],
    ),
    ("uv-a", ["black light", "BLB", "UV-A", "insect killer", "nail gel curing", "365 nm", "mata insectos"]),
    ("uv-b", ["tanning", "narrowband", "UVB", "FS", "phototherapy", "311 nm", "bronceado"]),
    (
        "led",
        [
            "LED",
            "L.E.D.",
            "TLED",
            "l e d",
            "LEDtube",
            "l'éclairage à DEL",
            "D E L",
            "Type B",
            "retrofit",
            "self-ballasted",
        ],
    ),
    ("bypassed", ["by-pass", "BALLAST REMOVED", "ballast re-\nmoved", "sin balasto", "Vorschaltgerät entfernt"]),
    ("restricts", ["only", "do not", "nur", "jamais", "prohibited", "prohibido"]),
    ("other-source", ["metal halide", "HID", "halogen", "Natriumdampf"]),
    ("fault", ["burnt", "defekt", "quemado", "hors service"]),
    ("other-source", ["HIDs", "xenons", "candles"]),  # plurals
]


@pytest.mark.parametrize(("topic", "text"), [(topic, text) for topic, texts in SPOKEN for text in texts])
def test_words_speak_of_their_topic(topic, text):
    assert speaks_of(topic, f"F32T8 {text} 120V")


@pytest.mark.parametrize(
    "text", ["ledger", "no PCBs", "type A sound rated", "class P", "model no 4711", "UNV", "bled"]
)
def test_no_word_of_danger(text):
    assert [one for one in sayings(text) if is_danger(one.topic)] == []


@pytest.mark.parametrize(
    ("text", "topic"),
    [("UV-A", "uv-c"), ("2537", "uv-c"), ("1254 nm", "uv-c"), ("type a", "uv-a"), ("de l'appareil", "led")],
)
def test_another_topic(text, topic):
    assert speaks_of(topic, text) == ""


@pytest.mark.parametrize(
    "text", ["made in Mexico", "rapid start", "lamps", "LAMP CONTAINS MERCURY", "UL listed", "hergestellt in"]
)
def test_known_to_say_nothing(text):
    assert is_harmless(text)


@pytest.mark.parametrize(
    "text",
    [
        "zorbik",
        "LED lamps",
        "only",
        "made by zorbik",
        "FS",
        "01",
        "rated lamp zorbik",
        "class P",
        "blue",
        "reflector",
    ],
)
def test_not_known_to_say_nothing(text):
    assert not is_harmless(text)


def test_words_are_quoted_as_they_were_typed():
    said = sayings("old  BALLAST re-\nmoved!")
    assert [one.text for one in said if one.topic == "bypassed"] == ["BALLAST re-\nmoved"]


@pytest.mark.parametrize(("text", "said"), [("a worn ?VC.", "?VC."), ("b?llast", ""), ("L?D", "")])
def test_a_worn_word_counts_where_it_can_be_one_of_the_topic(text, said):
    assert speaks_of("uv-c", text) == said
