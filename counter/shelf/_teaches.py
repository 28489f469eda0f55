"""What a stock list teaches of makers' letters, worked out of codes beside words, and what it leaves open."""

from __future__ import annotations

import re
import time
from collections import Counter
from typing import TYPE_CHECKING, NamedTuple

from counter import marks, shop
from counter.marks.letters import Learned, Line, learn
from counter.shop import Cancelled

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Mapping, Sequence

    from counter.catalogue import Catalogue
    from counter.marks import HouseMaker
    from counter.shelf._plan import Plan
    from counter.shop import StockList, Store

_SERIAL = re.compile(r"\d{5}")  # a shop's own number, a barcode: no lamp's code has so many figures in a row
MOST_LINES = 2000  # read to learn from, evenly over the list: letters come back on many lines
MOST_UNMATCHED = 300
REST_S = 0.0005  # after each line, so that a window beside this has its turn


class Taught(NamedTuple):
    """What the present list teaches that this shop does not know yet, and how many of its lines were read."""

    stock: StockList
    learned: Learned
    of_lines: int


def teaches(store: Store, catalogue: Catalogue, progress: Callable[[int, int], bool] | None = None) -> Taught | None:
    """Work out what the present list says of makers' letters; None where there is no list.

    Letters that were taught by hand, or that were taken from this list already with this meaning, are left out.

    Raises:
        Cancelled: `progress`, told of lines read and of all to read, said no.
        StoreProblem: the store cannot be read.
    """
    stock = shop.current_list(store)
    if stock is None:
        return None
    items = [one for one in shop.all_items(store) if one.code and one.description]
    lines = [Line(one.code, one.description) for one in items if not _SERIAL.search(one.code)]
    step = -(-len(lines) // MOST_LINES) or 1
    some = lines[::step]
    found = learn(catalogue, _paced(some, progress), name=stock.name, at=stock.at[:16])
    table = shop.house_codes_of(store).letters.letters
    by_hand = {one.letters for one in table if one.source == "taught"}
    taken = {(one.letters, one.means) for one in table}
    new = (one for one in found.letters if one.letters not in by_hand and (one.letters, one.means) not in taken)
    return Taught(stock, found._replace(letters=tuple(new)), len(lines))


def _paced(lines: Sequence[Line], progress: Callable[[int, int], bool] | None) -> Iterator[Line]:
    for done, line in enumerate(lines):
        if progress is not None and not progress(done, len(lines)):
            raise Cancelled
        time.sleep(REST_S)
        yield line


def unknown_letters(catalogue: Catalogue, plan: Plan, house: Sequence[HouseMaker] = ()) -> Mapping[str, int]:
    """Return letters that nobody knows here, by how many lines without a lamp type they stand on, most first."""
    counts: Counter[str] = Counter()
    codes = [str(item["code"]) for item in plan.items if item["reason"] and item["code"]]
    for code in codes[:MOST_UNMATCHED]:
        found = marks.read(catalogue, code, house)
        if found.readings and found.readings[0].lamp.watts:  # else it is no lamp's code, but the shop's own number
            counts.update({one.upper() for one in found.makers})
    return dict(counts.most_common())
