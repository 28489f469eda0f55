"""What a lamp is and may do: read its code, rank it by looks, hold it against a fixture, its light in numbers."""

from __future__ import annotations

from typing import TYPE_CHECKING

from counter.cli._core import assessed, catalogue_of, house_of
from counter.cli._input import STANDARD_INPUT, lines, whole
from counter.cli._line import BY_VERDICT, DONE, NOTHING, Answer, BadInput
from counter.language import figure, marked, tr
from counter.text import writable

if TYPE_CHECKING:
    import argparse
    from collections.abc import Iterator, Sequence
    from pathlib import Path

    from counter.catalogue import Catalogue, Look
    from counter.cli._line import Commands, Parser
    from counter.desk import Assessment

SPELLED = marked("KEY=VALUE, as legs=4 pins=4 notch=small-left length_mm=146")
BALLASTS = ("magnetic", "electronic", "dimming", "led-driver", "bypassed", "unknown")
BANDS = ("uv-a", "uv-a-tanning", "uv-b-narrow", "uv-b-broad")
UV_OUTPUTS = {"uvc": "", "uva": "uv-a", "uvb": "uv-b-broad"}  # and the band meant where none is named
USES = ("lighting", "germicidal", "blacklight", "insect trap", "gel curing", "tanning", "medical", "unknown")


def add(commands: Commands) -> None:
    """Name the commands of this file."""
    read = commands.add("read", _read, tr("read the code printed on a lamp"))
    code = tr("? for an unreadable character, * for an unreadable stretch; - reads one code a line")
    read.add_argument("code", metavar="CODE", help=code)
    identify = commands.add("identify", _identify, tr("rank lamp types by what you see"))
    looks = tr("{spelled}; - reads one a line").format(spelled=tr(SPELLED))
    identify.add_argument("looks", metavar="KEY=VALUE", nargs="*", help=looks)
    identify.more = _looks_in_words
    _add_fit(commands.add("fit", _fit, tr("may this lamp go into that fixture")))
    _add_uv(commands.add("uv", _uv, tr("exposure in front of a lamp for UV-C, UV-A or UV-B")))
    colour = commands.add("colour", _colour, tr("a colour code or colour temperature in numbers"))
    colour.add_argument("code", metavar="CODE_OR_KELVIN", help=tr("as 840 or 4000; - reads one a line"))


def _add_uv(uv: Parser) -> None:
    output = uv.add_mutually_exclusive_group(required=True)
    output.add_argument("--uvc-watts", metavar="W", help=tr("UV-C that the lamp gives, not its electrical watts"))
    output.add_argument("--uva-watts", metavar="W", help=tr("UV-A that it gives: counted by both limits"))
    strongest = tr("UV-B that it gives: counted at the strongest of its band")
    output.add_argument("--uvb-watts", metavar="W", help=strongest)
    uv.add_argument("--arc-mm", metavar="MM", required=True, help=tr("length of its glowing part"))
    far = tr("from the middle of the lamp to the eyes or skin")
    uv.add_argument("--distance-m", metavar="M", required=True, help=far)
    bands = tr("what the lamp is like, where it gives UV-A or UV-B; left out: uv-a, or uv-b-broad")
    uv.add_argument("--band", choices=BANDS, help=bands)


def _add_fit(fit: Parser) -> None:
    fit.add_argument("--lamp", metavar="CODE", required=True, help=tr("as printed, or a lamp's id; - reads it"))
    printed = tr("as printed on it, G24q-2; empty: not known")
    fit.add_argument("--holder", metavar="BASE", required=True, help=printed)
    fit.add_argument("--ballast-watts", metavar="18,26", default="", help=tr("the lamp watts that its label lists"))
    fit.add_argument("--ballast", choices=BALLASTS, default="unknown")
    fit.add_argument("--use", choices=USES, default="unknown", help=tr("what the light is for"))


def _read(chosen: argparse.Namespace, data: Path) -> Answer | Iterator[Answer]:
    if chosen.code == STANDARD_INPUT:
        return (_read_one(code, data) for code in lines())
    return _read_one(chosen.code, data)


def _read_one(code: str, data: Path) -> Answer:
    found = assessed(data, marks=code)
    readings = [reading.model_dump(mode="json") for reading in found.readings]
    sold = [one.model_dump(mode="json") for one in found.sold]
    answer = {"input": writable(code), "readings": readings, "problems": list(found.problems), "sold": sold}
    return Answer(answer, _reading_text(found), DONE if readings or sold else NOTHING)


def _reading_text(found: Assessment) -> str:
    lines = []
    for reading in found.readings:
        lines.append(f"{reading.canonical}  {figure(reading.probability, '.0%')}  ({reading.system})")
        lines += [f"    {span.text:<10} {span.means}" for span in reading.spans]
        lines += [tr("    taken as: {words}").format(words=words) for words in reading.assumptions]
    return "\n".join([*lines, *(one.says for one in found.sold), *found.problems]) or tr("nothing to read")


def _looks(catalogue: Catalogue, pairs: Sequence[str]) -> tuple[dict[str, str | float], str]:
    from counter.identify import LookProblem, parse_look

    looks: dict[str, str | float] = {}
    marks = ""
    for pair in pairs:
        key, equals, value = pair.partition("=")
        if not equals:
            raise BadInput(tr("“{text}” is not {spelled}").format(text=pair[:40], spelled=tr(SPELLED)))
        if key == "marks":
            marks = value
            continue
        try:
            looks[key] = parse_look(catalogue, key, value)
        except LookProblem as problem:
            raise BadInput(str(problem)) from None
    return looks, marks


def _looks_in_words() -> str:
    """Return every look with its answers, for the help; nothing where the catalogue cannot be read."""
    from counter import paths

    try:
        catalogue = catalogue_of(paths.user_data())
    except BadInput:
        return tr("looks: the catalogue cannot be read; «counter check» says why")
    known = [f"  {look.key:<15} {_answers(look)}" for look in catalogue.looks]
    marks = f"  {'marks':<15} " + tr("what is printed, as for read")
    return "\n".join([tr("looks, each also cannot-tell:"), *known, marks])


def _answers(look: Look) -> str:
    if look.is_measured:
        told = tr('a size as 149.5, 14.9 cm or 5 7/8", {low} to {high} mm')
        return told.format(low=figure(look.low or 0), high=figure(look.high or 0))
    return " | ".join(value.value for value in look.values) or tr("a number of watts, as 26")


def _identify(chosen: argparse.Namespace, data: Path) -> Answer:
    pairs = list(lines()) if chosen.looks == [STANDARD_INPUT] else chosen.looks
    looks, marks = _looks(catalogue_of(data), pairs)
    found = assessed(data, looks=looks, marks=marks)
    kept = ("base", "watts", "shape", "kind", "probability", "agrees", "disagrees", "lamp")
    answer = {
        "candidates": [{key: getattr(one, key) for key in kept} for one in found.candidates],
        "next": [one.model_dump(mode="json") for one in found.next],
        "problems": list(found.problems),
    }
    return Answer(answer, _candidates_text(found))


def _candidates_text(found: Assessment) -> str:
    said = [
        f"{figure(one.probability, '6.1%')}  {one.base:<10} {figure(one.watts, '>4g')} W  "
        f"{one.shape or '-':<10} {one.kind}"
        + (tr("  against: {looks}").format(looks=", ".join(one.disagrees)) if one.disagrees else "")
        for one in found.candidates[:10]
    ]
    if found.next:
        said.append(tr("look next: {look}. {why}").format(look=found.next[0].look, why=found.next[0].why))
    return "\n".join(said)


def _fit(chosen: argparse.Namespace, data: Path) -> Answer:
    from counter import desk, fit

    catalogue = catalogue_of(data)
    code = whole() if chosen.lamp == STANDARD_INPUT else chosen.lamp
    try:
        fixture = desk.changed_fixture(
            catalogue,
            fit.Fixture(),
            {"holder": chosen.holder, "ballast": chosen.ballast, "ballast_watts": chosen.ballast_watts},
        )
        judged = desk.fit_code(catalogue, code, fixture, chosen.use, house_of(data))
    except desk.CaseProblem as problem:
        raise BadInput(str(problem)) from None
    unknown = fit.unknown_holder(catalogue, fixture.holder)
    said = [tr(judged.verdict).upper(), *([unknown] if unknown else [])]
    said += [f"{tr(one.signal)}: {one.says} {one.why} {one.do}" for one in judged.cautions]
    said += [tr("ask: {question} {why}").format(question=one.question, why=one.why) for one in judged.asks]
    found = {**fit.fit_report(judged), "problems": [unknown] if unknown else []}
    return Answer(found, "\n".join(said), BY_VERDICT.get(judged.verdict, DONE))


def _number(name: str, text: str) -> float:
    try:
        return float(text.replace(",", "."))
    except ValueError:
        told = tr("{name}: “{text}” is not a number; type it as 11 or 0.6")
        raise BadInput(told.format(name=name, text=text[:20])) from None


def _uv(chosen: argparse.Namespace, data: Path) -> Answer:
    from counter import light

    arc_mm, distance_m = _number("--arc-mm", chosen.arc_mm), _number("--distance-m", chosen.distance_m)
    name, text = next((name, text) for name in UV_OUTPUTS if (text := getattr(chosen, f"{name}_watts")) is not None)
    watts, band = _number(f"--{name}-watts", text), chosen.band or UV_OUTPUTS[name]
    if chosen.band is not None and band.replace("-", "")[:3] != name:
        raise BadInput(tr("--band: {band} does not go with {option}").format(band=band, option=f"--{name}-watts"))
    try:
        if name != "uvc":
            seen = light.band_exposure(band, watts, arc_mm, distance_m)
            return Answer(light.band_report(seen), light.band_text(seen))
        found = light.exposure(watts, arc_mm, distance_m)
    except ValueError as problem:
        raise BadInput(str(problem)) from None
    return Answer(light.uv_report(found), light.uv_text(found))


def _colour(chosen: argparse.Namespace, data: Path) -> Answer | Iterator[Answer]:
    if chosen.code == STANDARD_INPUT:
        return (_colour_one(code) for code in lines())
    return _colour_one(chosen.code)


def _colour_one(code: str) -> Answer:
    from counter import light

    try:
        found = light.colour_of(code)
    except ValueError as problem:
        raise BadInput(str(problem)) from None
    return Answer(light.colour_report(found), light.colour_text(found))
