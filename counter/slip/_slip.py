"""The slip as data: what the desk answered, what was chosen from the shelf, and what was said; no paper, no clock."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from pydantic import Field

from counter import shop
from counter.catalogue import Model
from counter.desk import CANNOT_TELL, OPEN_END, Case
from counter.language import figure, marked, tr
from counter.shelf import folded, search_words

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import datetime
    from pathlib import Path

    from counter.catalogue import Catalogue
    from counter.desk import Assessment
    from counter.shop import Kept, LoggedSlip, StockItem

MOST_DISPOSAL = 3


class SlipItem(Model):
    """One thing sold: money is whole hundredths of the shop's currency for one piece."""

    code: str
    description: str
    bin: str = ""
    lamp: str | None = None
    quantity: int = Field(1, ge=1, le=9999)
    price_cents: int | None = None


class SlipMark(Model):
    """One part of the marks and what it means."""

    text: str
    means: str


class SlipCaution(Model):
    """One caution that was shown."""

    signal: str
    says: str
    do: str


class Slip(Model):
    """What a customer takes home on paper, and what the shop keeps; a name, where one is given, is kept apart."""

    version: int = 1
    key: str = Field(pattern="^[0-9a-f]{32}$", description="known before there is a number: a slip goes in once")
    at: str
    day: str
    till: str
    initials: str = Field("", max_length=8)
    headline: str
    subline: str
    lamp: str | None
    base: str | None
    watts: float | None
    verdict: str | None
    marks: tuple[SlipMark, ...] = ()
    items: tuple[SlipItem, ...] = ()
    cautions: tuple[SlipCaution, ...] = ()
    answers: tuple[str, ...] = Field((), description="what was seen, measured and answered, in words")
    unknown: tuple[str, ...] = Field((), description="what was not known when it was written")
    disposal: tuple[str, ...] = ()
    is_demo: bool = Field(False, description="written while the stock list was that of the invented shop")
    case: Case

    @property
    def total_cents(self) -> int | None:
        """Return what it comes to; None where a price is not known."""
        prices = [item.price_cents for item in self.items]
        if not prices or None in prices:
            return None
        return sum((item.price_cents or 0) * item.quantity for item in self.items)


def make_slip(
    catalogue: Catalogue,
    case: Case,
    found: Assessment,
    items: Sequence[SlipItem],
    *,
    now: datetime,
    key: str,
    till: str,
    initials: str = "",
    is_demo: bool = False,
) -> Slip:
    """Return the slip of a case as the desk answered it; `now` has a time zone."""
    lamp = catalogue.lamp_by_id.get(found.lamp or "")
    spans = found.readings[0].spans if found.readings else ()
    law = found.law
    disposal = [f"{note.title}: {note.text}" for note in law.disposal][:MOST_DISPOSAL] if law is not None else []
    return Slip(
        key=key,
        at=now.isoformat(timespec="seconds"),
        day=now.date().isoformat(),
        till=till,
        initials=initials,
        headline=found.headline,
        subline=found.subline,
        lamp=found.lamp,
        base=lamp.base if lamp is not None else None,
        watts=lamp.watts.value if lamp is not None else None,
        verdict=found.verdict,
        marks=tuple(SlipMark(text=span.text, means=span.means) for span in spans),
        items=tuple(items),
        cautions=tuple(SlipCaution(signal=one.signal, says=one.says, do=one.do) for one in found.cautions),
        answers=tuple(_answers(catalogue, case)),
        unknown=tuple(dict.fromkeys(one.says if one.about == OPEN_END else one.ask for one in found.doubts)),
        disposal=(*disposal, *([law.disposal_check] if law is not None and disposal else [])),
        is_demo=is_demo,
        case=case,
    )


def _answers(catalogue: Catalogue, case: Case) -> list[str]:
    said = []
    for key, answer in case.looks.items():
        look = catalogue.look_by_key[key]
        label = next((tr(value.label) for value in look.values if value.value == answer), None)
        label = tr("can't tell") if answer == CANNOT_TELL else label
        shown = label or (f"{figure(answer)} mm" if isinstance(answer, float) else str(answer))
        said.append(f"{tr(look.label)}: {shown}")
    fixture = case.fixture.model_dump(exclude_defaults=True, exclude={"label", "told", "explained"})
    said += [f"{tr(FIELDS[name])}: {_plain(value)}" for name, value in fixture.items()]
    if case.use != "unknown":
        said.append(f"{tr(FIELDS['use'])}: {_plain(case.use)}")
    return said


FIELDS = {  # what was told of the fixture, as a slip names it
    "use": marked("use"),
    "holder": marked("holder"),
    "ballast": marked("ballast"),
    "ballast_watts": marked("watts on the ballast label"),
    "ballast_counts": marked("lamps the ballast runs"),
    "lamp_count": marked("lamps on this ballast"),
    "enclosed": marked("enclosed"),
    "damp": marked("damp"),
    "cold": marked("cold"),
    "base_up": marked("base up"),
    "emergency": marked("battery pack"),
    "dimmer": marked("dimmer"),
    "shunted": marked("contacts joined (shunted)"),
    "space_mm": marked("longest lamp, mm"),
    "tube_room_mm": marked("thickest tube, mm"),
    "room_k": marked("other lamps in the room, K"),
    "came_out": marked("same lamp worked there"),
}


BALLASTS = {"led-driver": marked("LED driver"), "bypassed": marked("taken out")}


def _plain(value: Any) -> str:
    if isinstance(value, bool):
        return tr("yes") if value else tr("no")
    if isinstance(value, list | tuple):
        return ", ".join(map(_plain, value))
    return figure(value) if isinstance(value, float) else tr(BALLASTS.get(value, str(value)))


def item_from(item: StockItem, quantity: int = 1) -> SlipItem:
    """Return a stock item as it goes on a slip."""
    return SlipItem(
        code=item.code,
        description=item.description,
        bin=item.bin,
        lamp=item.lamp,
        quantity=quantity,
        price_cents=item.price_cents,
    )


def keep(data: Path, slip: Slip, customer: str = "") -> Kept:
    """Put a slip into the log, or into this machine's journal while the store cannot take it.

    Raises:
        StoreProblem: neither could be written.
    """
    name = " ".join(customer.split())[:200]
    row = {
        "key": slip.key,
        "at": slip.at,
        "day": slip.day,
        "till": slip.till,
        "lamp": slip.lamp,
        "base": slip.base,
        "watts": slip.watts,
        "body": slip.model_dump(mode="json"),
        "words": f" {search_words(slip.headline, slip.base or '', slip.case.marks, *_item_words(slip))}",
    }
    items = [item.model_dump() for item in slip.items]
    return shop.keep_slip(data, row, items, name, folded(name))


def _item_words(slip: Slip) -> list[str]:
    return [word for item in slip.items for word in (item.code, item.description, item.bin)]


def slip_of(logged: LoggedSlip) -> Slip:
    """Return a slip of the log as it was written.

    Raises:
        pydantic.ValidationError: a later version wrote it.
    """
    return Slip.model_validate(logged.body)


def slip_report(logged: LoggedSlip) -> dict[str, Any]:
    """Return a slip as `counter slips --json` prints it."""
    body = logged.body
    return {
        "number": logged.number,
        "at": logged.at,
        "base": logged.base,
        "watts": logged.watts,
        "items": body.get("items", []),
        "cautions": body.get("cautions", []),
        "headline": body.get("headline", ""),
        "customer": logged.customer or None,
        "till": logged.till,
    }
