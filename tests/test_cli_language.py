"""Commands answer in the language asked for; what programs read stays the same in every language."""

from __future__ import annotations

import json

import pytest

from counter import language
from counter.cli import main
from counter.cli._language import speak

FIT = ("fit", "--lamp", "CFQ18W/G24d/841", "--holder", "G24d-2", "--ballast", "electronic")


@pytest.fixture(autouse=True)
def _english_again(monkeypatch):
    for name in ("COUNTER_LANGUAGE", "LANGUAGE", "LC_ALL", "LC_MESSAGES", "LANG"):
        monkeypatch.delenv(name, raising=False)
    yield
    speak(())
    language.use(language.OWN)


def test_the_line_says_the_language_anywhere_on_it(capsys):
    assert main([*FIT, "--language", "es"]) == main(["--language=en", *FIT]) == 1
    said = capsys.readouterr().out
    assert said.startswith("NO VENDER\n")
    assert "\nDO NOT SELL\n" in said


@pytest.mark.parametrize(
    ("set_", "spoken"),
    [
        ({}, "en"),
        ({"LANG": "es_ES.UTF-8"}, "es"),
        ({"LANG": "de_DE.UTF-8", "LC_ALL": "es_MX.UTF-8"}, "es"),
        ({"LANG": "es_ES.UTF-8", "LC_ALL": "C.UTF-8"}, "en"),
        ({"LANG": "es_ES.UTF-8", "LANGUAGE": "xx:de:es"}, "de"),
        ({"LC_ALL": "C", "LANGUAGE": "es"}, "en"),
        ({"LANG": "fr_FR.UTF-8"}, "en"),
        ({"LANG": "en_US.UTF-8", "COUNTER_LANGUAGE": "es"}, "es"),
        ({"LANG": "xx_YY.UTF-8", "LC_MESSAGES": "es_MX.UTF-8"}, "es"),
    ],
)
def test_the_system_says_it_where_the_line_does_not(set_, spoken, monkeypatch):
    for name, value in set_.items():
        monkeypatch.setenv(name, value)
    speak(("read", "9W"))
    assert language.current() == spoken


@pytest.mark.parametrize(("region", "sign"), [("es_ES", ","), ("es_MX", "."), ("de_CH", "."), ("de_AT", ",")])
def test_decimals_follow_the_region(region, sign, monkeypatch, capsys):
    monkeypatch.setenv("LANG", f"{region}.UTF-8")
    assert main(["uv", "--uvc-watts", "5,5", "--arc-mm", "360", "--distance-m", "1.5"]) == 0
    assert f"1{sign}5 m" in capsys.readouterr().out


def test_json_is_the_same_but_for_words(capsys):
    main([*FIT, "--json"])
    english = json.loads(capsys.readouterr().out)
    main([*FIT, "--json", "--language", "es"])
    spanish = json.loads(capsys.readouterr().out)
    kept = ("signal", "rule", "figure", "unit", "source", "confidence", "verdict", "key")
    assert spanish["verdict"] == english["verdict"] == "do not sell"
    assert [[one[key] for key in kept] for one in spanish["cautions"]] == [
        [one[key] for key in kept] for one in english["cautions"]
    ]
    assert spanish["cautions"][0]["says"] != english["cautions"][0]["says"]


def test_figures_in_json_are_plain_in_every_language(capsys):
    assert main(["colour", "840", "--json", "--language", "es"]) == 0
    assert json.loads(capsys.readouterr().out)["x"] == pytest.approx(0.38)


def test_help_and_complaints_are_spoken_too(capsys):
    assert main(["--help", "--language", "es"]) == 0
    told = capsys.readouterr().out
    assert told.startswith("uso: counter")
    assert "estado de salida:" in told
    assert "muestra esta ayuda y termina" in told
    assert main(["fit", "--lamp", "9W", "--language", "es"]) == 2
    assert "faltan estos argumentos: --holder" in capsys.readouterr().err
    assert main(["identify", "--help", "--language", "es"]) == 0
    assert "datos, cada uno también cannot-tell:" in capsys.readouterr().out


def test_a_language_that_is_not_there_is_said(capsys):
    assert main(["read", "9W", "--language", "xx"]) == 2
    assert "xx" in capsys.readouterr().err


def test_it_goes_with_a_command(capsys):
    assert main(["--language", "es"]) == 2
    assert "--language" in capsys.readouterr().err
