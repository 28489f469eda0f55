"""Places that a shop adds, and the law and the disposal it read for one: each with its text, the day, and who."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING, Any

from counter.cli._core import catalogue_of
from counter.cli._line import DONE, NOTHING, Answer, BadInput
from counter.cli._shop import in_one_line
from counter.language import day, tr

if TYPE_CHECKING:
    import argparse
    from collections.abc import Iterator
    from pathlib import Path

    from counter.catalogue import Catalogue
    from counter.cli._line import Commands, Parser
    from counter.shop import OwnRow

SECTIONS = ("places", "law", "disposal")
READ_AS = ("text", "summary")


def add(commands: Commands) -> None:
    """Name the commands of this file."""
    about = tr("places, their law of selling lamps, used lamps there")
    group = commands.group("place", about, "show | add | law | used | out")
    show = group.add("show", _show, tr("all places, or all that is known of one; numbers are of the shop's own rows"))
    show.add_argument("place", metavar="PLACE", nargs="?", default="")
    new = group.add("add", _add, tr("add a place that is not there"))
    new.add_argument("place", metavar="CODE", help=tr("small letters, as nz or us-tx; us-tx lies in us"))
    new.add_argument("name", metavar="NAME")
    _add_law(group.add("law", _law, tr("add a law of selling lamps to a place")))
    used = group.add("used", _used, tr("add what to do with used lamps in a place"))
    used.add_argument("place", metavar="PLACE")
    used.add_argument("--title", required=True)
    used.add_argument("--says", metavar="TEXT", required=True, help=tr("what to do, in a sentence"))
    _add_text(used)
    out = group.add("out", _out, tr("let rows of the shop's own no longer count"))
    out.add_argument("number", metavar="NUMBER", type=int, nargs="+")
    for one in (new, used, out):
        one.add_argument("--who", metavar="NAME", required=True, help=tr("who adds or takes out"))


def _add_law(law: Parser) -> None:
    law.add_argument("place", metavar="PLACE")
    law.add_argument("--lamps", metavar="CLASS", nargs="+", required=True, help=tr("as linear-t8 pin-base"))
    law.add_argument("--what", metavar="TEXT", required=True, help=tr("what ends, as: sale of new lamps"))
    law.add_argument("--ends", metavar="DAY", help=tr("first day without, as 2027-01-01; left out: no day is known"))
    law.add_argument("--last-day", action="store_true", help=tr("that day is the last with it"))
    law.add_argument(
        "--length-mm", metavar="MM", type=float, nargs="+", default=[], help=tr("only tubes of these lengths")
    )
    law.add_argument("--note", metavar="TEXT")
    _add_text(law)
    law.add_argument("--who", metavar="NAME", required=True, help=tr("who read it"))


def _add_text(to: Parser) -> None:
    to.add_argument("--text", metavar="LAW", required=True, help=tr("what it rests on: act, section, number"))
    to.add_argument("--read", metavar="DAY", required=True, help=tr("the day on which it was read, as 2026-11-29"))
    to.add_argument("--read-as", choices=READ_AS, required=True, help=tr("the text itself, or a summary only"))


def _show(chosen: argparse.Namespace, data: Path) -> Answer:
    from counter import fit

    catalogue = catalogue_of(data)
    known = {one.id: one.name for one in fit.places(catalogue)}
    if not chosen.place:
        text = "\n".join(f"{code:8}  {name}" for code, name in known.items())
        return Answer({"places": [{"code": code, "name": name} for code, name in known.items()]}, text)
    if chosen.place not in known:
        told = tr("place: “{place}” is not known; «counter place show» lists them")
        raise BadInput(told.format(place=chosen.place[:40]))
    return _of_place(catalogue, chosen.place, known[chosen.place], _own_rows(data))


def _of_place(catalogue: Catalogue, place: str, name: str, own: list[OwnRow]) -> Answer:
    from counter import fit

    law = {(row.law, row.says): row for row in fit.law(catalogue, place, None, None)}
    used = fit.disposal(catalogue, place)
    mine = [row for row in own if place in (row.body.get("place"), row.body.get("code"))]
    lines = [name, *(f"  {row.says} {row.law}{_by(row)}" for row in law.values())]
    lines += [f"  {one.title}: {one.text}{_by(one)}" for one in used]
    lines += [f"  #{row.id} {row.section}: {' '.join(row.key[1:])}" for row in mine]
    found = {
        "place": place,
        "name": name,
        "law": [row.model_dump(mode="json") for row in law.values()],
        "disposal": [one.model_dump(mode="json") for one in used],
        "own": [{"number": row.id, "section": row.section, **row.body} for row in mine],
    }
    return Answer(found, "\n".join(lines))


def _by(row: Any) -> str:
    if row.read is None:
        told = tr("common practice") if row.confidence == "practice" else tr("from memory")
    elif row.who:
        told = tr("read on {day} by {who}").format(day=day(row.read), who=row.who)
    else:
        told = tr("read on {day}").format(day=day(row.read))
    return f" ({told})"


def _own_rows(data: Path) -> list[OwnRow]:
    from counter import shop

    if not shop.has_store(data):
        return []
    with in_one_line():
        rows = shop.own_rows(shop.open_store(data))
    return [row for row in rows if row.gone is None and row.section in SECTIONS]


def _add(chosen: argparse.Namespace, data: Path) -> Answer:
    return _keep(chosen, data, "places", {"code": chosen.place, "name": chosen.name})


def _law(chosen: argparse.Namespace, data: Path) -> Answer:
    entry = {"place": chosen.place, "classes": chosen.lamps, "what": chosen.what, **_read(chosen)}
    entry |= {"last_day": chosen.last_day, "lengths_mm": chosen.length_mm}
    entry |= {name: said for name in ("ends", "note") if (said := getattr(chosen, name)) is not None}
    return _keep(chosen, data, "law", entry)


def _used(chosen: argparse.Namespace, data: Path) -> Answer:
    entry = {"place": chosen.place, "title": chosen.title, "text": chosen.says, **_read(chosen)}
    return _keep(chosen, data, "disposal", entry)


def _read(chosen: argparse.Namespace) -> dict[str, str]:
    return {"law": chosen.text, "read": chosen.read, "read_as": chosen.read_as}


def _keep(chosen: argparse.Namespace, data: Path, section: str, entry: dict[str, Any]) -> Answer:
    from counter import catalogue, entries, shop

    with in_one_line():
        layer = shop.layer(shop.open_store(data)).content if shop.has_store(data) else {}
    found = entries.faults(section, entry, catalogue.load(), layer)
    if found:
        raise BadInput("; ".join(_faults(found)))
    with in_one_line():
        number = shop.keep_own(data, section, entry, who=chosen.who, on=date.today())
    return Answer(
        {"number": number, "section": section, **entry}, tr("Kept as #{number}.").format(number=number), DONE
    )


def _faults(found: tuple[Any, ...]) -> Iterator[str]:
    for one in found:
        yield f"{'.'.join(map(str, one.path)) or 'entry'}: {one.what}. {one.way_out}"


def _out(chosen: argparse.Namespace, data: Path) -> Answer:
    from counter import shop

    known = {row.id for row in _own_rows(data)}
    wanted = [number for number in chosen.number if number in known]
    if not wanted:
        return Answer({"out": []}, tr("No such row of the shop's own."), NOTHING)
    with in_one_line():
        shop.take_out(data, wanted, who=chosen.who)
    told = tr("No longer counted: {numbers}").format(numbers=", ".join(f"#{one}" for one in wanted))
    return Answer({"out": wanted}, told, DONE)
