"""Makes the opening cards with the installation, so that the very first start has them: a head start as any other.

    python -m counter.window.outlines.ahead

Run by packaging/run after it has set up, and for a bundle. Where it cannot write, the first start takes longer.
"""

from __future__ import annotations

from counter import language, paths
from counter.window.outlines.cards import cards_of
from counter.window.outlines.opening import keep, made_ahead, shipped

REGIONS = ("", "US", "CH")  # with these, each of our languages is written with every decimal sign it may have


def make() -> None:
    """Write the cards of an empty case, as the shipped catalogue has them, in every language.

    Raises:
        OSError: the folder of the installation cannot be written.
    """
    from counter import catalogue, desk  # no module of the window imports what the first paint need not wait for

    paths.made_ahead().mkdir(exist_ok=True)
    book = catalogue.load()
    found = desk.assess(book, desk.Case())
    for code in language.languages():
        for region in REGIONS:
            language.use(f"{code}_{region}")
            keep(made_ahead(), shipped(), cards_of(book, found.candidates, {}, found.outlines))


if __name__ == "__main__":
    make()
