"""Figures and days as each language writes them, held against the Unicode CLDR as Babel carries it."""

from __future__ import annotations

from datetime import date

import pytest
from babel import Locale
from babel.dates import format_date
from babel.localedata import locale_identifiers
from babel.numbers import format_decimal, get_decimal_symbol

from counter import language
from counter.language._numbers import MONTHS, POINT_IN, WITH_COMMA
from counter.shelf import reason_words
from counter.shelf._reasons import ANY_OF, NO_FIGURE


def regions():
    """Return every region of CLDR that a language of the table is spoken in."""
    known = (Locale.parse(name) for name in locale_identifiers() if name.split("_")[0] in WITH_COMMA)
    return sorted({(one.language, one.territory) for one in known if one.territory and not one.script})


@pytest.mark.parametrize(
    ("code", "region"), [row for row in regions() if row[0] in ("de", "es", "it", "fr", "nl", "pt")]
)
def test_the_decimal_sign_is_that_of_cldr(code, region):
    is_point = region in POINT_IN.get(code, ())
    assert get_decimal_symbol(f"{code}_{region}") == ("." if is_point else ",")


@pytest.mark.parametrize("code", ["en", "es", "de_AT", "es_MX"])
@pytest.mark.parametrize("value", [0.32, 1234.5, 26.0])
def test_figures_are_written_as_cldr_writes_them(code, value):
    language.use(code)
    assert language.figure(value) == format_decimal(value, "0.##", code)


@pytest.mark.parametrize("month", range(1, 13))
def test_months_are_those_of_cldr(month, spanish):
    assert language.tr(MONTHS[month - 1]) == format_date(date(2027, month, 1), "LLLL", "es")


def test_a_day_in_words(spanish):
    assert language.day(date(2027, 1, 2)) == format_date(date(2027, 1, 2), "long", "es") == "2 de enero de 2027"


def test_thousands_are_parted_by_the_other_sign(spanish):
    assert language.grouped(1234.5) == "1.234,50"


@pytest.fixture(autouse=True)
def _english_again():
    yield
    language.use(language.OWN)


@pytest.mark.parametrize(
    ("kept", "spoken"),
    [
        (ANY_OF.format(lamps="G23/9/twin, G23/7/twin"), "puede ser cualquiera de G23/9/twin, G23/7/twin"),
        (NO_FIGURE.format(field="price", text="x1"), "su campo precio, «x1», no es una cifra"),
        ("a ballast, not a lamp", "un balasto, no una lámpara"),
        ("what nobody wrote here", "what nobody wrote here"),
    ],
)
def test_what_a_store_keeps_is_said_again(kept, spoken, spanish):
    assert reason_words(kept) == spoken


def test_words_kept_in_one_language_are_asked_anew_in_another():
    @language.kept_by_language(4)
    def yes():
        return language.tr("yes")

    assert yes() == "yes"
    language.use("es")
    assert yes() == "sí"
    language.use("xx")
    assert yes() == "yes"


def test_a_number_in_a_sentence_keeps_the_format_that_stands_there(spanish):
    assert f"{language.SpokenNumber(0.3249):.2f} {language.SpokenNumber(26.0):g}" == "0,32 26"
