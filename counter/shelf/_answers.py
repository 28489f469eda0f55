"""What on the shelf answers a case: exact first, then what may go in, then what must not, each with its reason."""

from __future__ import annotations

import weakref
from typing import TYPE_CHECKING, Literal, NamedTuple, get_args

from counter import desk, shop
from counter.desk import Case
from counter.language import current, marked, tr
from counter.shelf._find import is_there

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from counter.catalogue import Catalogue
    from counter.desk import Assessment
    from counter.fit import Replacement, Verdict
    from counter.shop import StockItem, Store

Rank = Literal["exact", "other colour", "may go in", "ask first", "not for this"]
RANKS: tuple[Rank, ...] = get_args(Rank)
MOST_REFUSED = 6  # in the pane without a search: the shelf is not listed to say no to all of it
LED_UNREAD = marked(
    "An LED lamp: which type its box says, and what its list says of this ballast, decides. See Instead."
)
NOT_A_LAMP = marked("Not a lamp type here: nothing is said of whether it fits.")


class ShelfAnswer(NamedTuple):
    """A stock item and what the desk says of it for this case; `why` is the reason or the first caution."""

    item: StockItem
    rank: Rank | None
    verdict: Verdict | None
    why: str


def answers(store: Store, catalogue: Catalogue, case: Case, found: Assessment) -> list[ShelfAnswer]:
    """Return what the shelf has for a case, best first; nothing where neither lamp nor holder is known."""
    lamps = {one.lamp for one in found.replacements if one.lamp} | ({found.lamp} if found.lamp else set())
    if not lamps:
        return []
    bases = {catalogue.lamp_by_id[lamp].base for lamp in lamps}
    families = {catalogue.base_by_name[base].family for base in bases}
    judged = judge_items(catalogue, case, found, shop.items_of(store, lamps, bases | families))
    kept = [one for one in judged if one.rank != "not for this"]
    return [*kept, *[one for one in judged if one.rank == "not for this"][:MOST_REFUSED]]


def judge_items(
    catalogue: Catalogue, case: Case, found: Assessment, items: Iterable[StockItem], *, searched: bool = False
) -> list[ShelfAnswer]:
    """Return what the desk says of each item for this case, best first; what is there before what is not.

    What was searched for keeps the search's order: whoever types a bin looks for that bin.
    """
    made = [_judged(catalogue, case, found, item) for item in items]
    if searched:
        return made
    order = {rank: at for at, rank in enumerate(RANKS)}
    return sorted(
        made, key=lambda one: (order.get(one.rank or "ask first", 9), not is_there(one.item), one.item.line)
    )


def _judged(catalogue: Catalogue, case: Case, found: Assessment, item: StockItem) -> ShelfAnswer:
    is_open = found.lamp is None and case.fixture.holder is None
    if item.kind == "led":
        return _led(found, item)
    if item.lamp is None or item.lamp not in catalogue.lamp_by_id or is_open:
        return ShelfAnswer(item, None, None, tr(NOT_A_LAMP) if item.lamp is None else "")
    offered = _offer(found.replacements, found, item)
    if offered is not None:
        return ShelfAnswer(item, _rank(offered.verdict, found, item), offered.verdict, offered.reason)
    verdict, why = _alone(catalogue, _for_item(catalogue, case, found, item.lamp))
    return ShelfAnswer(item, _rank(verdict, found, item), verdict, why)


def _offer(offers: Sequence[Replacement], found: Assessment, item: StockItem) -> Replacement | None:
    """Return what the desk offers of this lamp type: the first is of the colour in hand, a second of any other."""
    mine = [one for one in offers if one.lamp == item.lamp]
    if not mine:
        return None
    return mine[0] if len(mine) == 1 or item.cct_k in (None, _colour(found)) else mine[1]


def _colour(found: Assessment) -> int | None:
    return found.readings[0].read_cct_k if found.readings else None


def _rank(verdict: Verdict | None, found: Assessment, item: StockItem) -> Rank:
    if verdict == "do not sell":
        return "not for this"
    if item.lamp == found.lamp:
        same = item.cct_k is None or _colour(found) in (None, item.cct_k)
        return "exact" if same else "other colour"
    return "may go in" if verdict == "sell" else "ask first"


def _led(found: Assessment, item: StockItem) -> ShelfAnswer:
    types = [one for one in found.replacements if one.led_type]
    if types and all(one.verdict == "do not sell" for one in types):
        return ShelfAnswer(item, "not for this", "do not sell", types[0].reason)
    return ShelfAnswer(item, "ask first", "ask first", tr(LED_UNREAD))


def _for_item(catalogue: Catalogue, case: Case, found: Assessment, lamp: str) -> Case:
    """Return the case of putting an item into this fixture; a holder nobody named is that of the lamp in hand."""
    in_hand = catalogue.lamp_by_id.get(found.lamp or "")
    fixture = case.fixture
    if fixture.holder is None and in_hand is not None:
        fixture = fixture.model_copy(update={"holder": in_hand.base})
    return Case(fixture=fixture, use=case.use, chosen=lamp, place=case.place, on=case.on, broken=case.broken)


_alone_kept: weakref.WeakValueDictionary[int, Catalogue] = weakref.WeakValueDictionary()
_said: dict[tuple[int, str, str], tuple[Verdict | None, str]] = {}
MOST_SAID = 512


def _alone(catalogue: Catalogue, case: Case) -> tuple[Verdict | None, str]:
    """Return what the desk says of one lamp in this fixture; kept, since a shelf holds each lamp in many bins."""
    key = (id(catalogue), case.model_dump_json(), current())  # what is said is kept in words
    if _alone_kept.get(key[0]) is not catalogue or len(_said) > MOST_SAID:
        _said.clear()
        _alone_kept[key[0]] = catalogue
    if key not in _said:
        _said[key] = _asked(desk.assess(catalogue, case))
    return _said[key]


def _asked(judged: Assessment) -> tuple[Verdict | None, str]:
    objecting = next((one for one in judged.cautions if one.verdict == judged.verdict != "sell"), None)
    asked = judged.doubts[0].ask if judged.doubts else ""
    why = objecting.says if objecting is not None else asked
    return judged.verdict, why or tr("Base, ballast and use all match.")
