"""Why a line of a stock list is left open or rejected: kept in the program's own words, spoken where it is shown."""

from __future__ import annotations

from counter.language import marked, said_again

NOT_READ = marked("nothing in it reads as a lamp")
OTHER_GOODS = marked("{goods}, not a lamp")
TWICE = marked("it says one thing twice, differently")
SEVERAL_WAYS = marked("it can be read in more than one way")
UV_OPEN = marked("it does not say whether it is for lighting or germicidal (UV-C)")
TWO_LAMPS = marked("its code says {code}, its description {words}")
ANY_OF = marked("it can be any of {lamps}")
LED_NO_BASE = marked("an LED lamp whose base the line does not say")
NEITHER = marked("it has neither a code nor a description")
NO_FIGURE = marked("its {field} “{text}” is no figure")
NO_PRICE = marked("its price “{text}” cannot be")
FIELDS = (marked("quantity"), marked("price"), marked("pack"), marked("lead days"), marked("life h"))
GOODS = (
    *(marked("a ballast"), marked("a lampholder"), marked("a starter"), marked("a fixture")),
    marked("an accessory"),
)
REASONS = (TWO_LAMPS, ANY_OF, NO_FIGURE, NO_PRICE, OTHER_GOODS)


def reason_words(reason: str) -> str:
    """Return why a line is left open or rejected, in the language now spoken."""
    return said_again(reason, REASONS)
