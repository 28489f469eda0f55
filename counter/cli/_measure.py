"""Measuring from a picture, and paper to hold against."""

from __future__ import annotations

import os
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

from counter.cli._core import catalogue_of
from counter.cli._line import DONE, NOTHING, Answer, BadInput
from counter.files import reason
from counter.language import tr

if TYPE_CHECKING:
    import argparse
    from collections.abc import Iterator, Sequence

    from counter.catalogue import Catalogue
    from counter.cli._line import Commands
    from counter.paper import Sheet

NAMES = ("wall", "look-alikes", "gauge", "labels")
PAGES = ("A4", "Letter", "A3", "Tabloid")
GRIDS = ("a4-24", "a4-21", "letter-30", "letter-10")


def add(commands: Commands) -> None:
    """Name the commands of this file."""
    measure = commands.add("measure", _measure, tr("measure a base on a picture with a bank card beside it"))
    measure.add_argument("picture", metavar=tr("PICTURE"), type=Path, help=tr("JPEG, PNG, BMP or WebP"))
    chart = commands.add("chart", _chart, tr("the wall chart and other sheets to hold against, as a PDF"))
    chart.add_argument("out", metavar="OUT.pdf", type=Path)
    chart.add_argument("--sheet", choices=NAMES, default="wall")
    chart.add_argument("--page", choices=PAGES, default="A4")
    chart.add_argument(
        "--pair",
        metavar="BASE:BASE",
        action="append",
        default=[],
        help=tr("a pair for the sheet of look-alikes, as G23:GX23"),
    )
    chart.add_argument("--base", metavar="BASE", action="append", default=[], help=tr("labels of these bases only"))
    chart.add_argument("--labels", choices=GRIDS, default="a4-24", help=tr("how labels stand on their sheet"))
    chart.add_argument("--skip", metavar="N", type=int, default=0, help=tr("labels already used on the first sheet"))


def _measure(chosen: argparse.Namespace, data: Path) -> Answer:
    from counter import measure

    catalogue = catalogue_of(data)
    try:
        with _codecs_silent():
            told = measure.measure_picture(catalogue, chosen.picture)
    except measure.PictureProblem as problem:
        raise BadInput(str(problem)) from None
    status = DONE if told.pattern is not None else NOTHING
    return Answer(measure.measured_report(told), measure.measured_text(told), status)


@contextmanager
def _codecs_silent() -> Iterator[None]:
    """Keep decoders of pictures, which write to the process's own stderr, from adding lines to ours."""
    with Path(os.devnull).open("w") as nowhere, os.fdopen(os.dup(2), "w") as kept:
        os.dup2(nowhere.fileno(), 2)
        try:
            yield
        finally:
            os.dup2(kept.fileno(), 2)


def _chart(chosen: argparse.Namespace, data: Path) -> Answer:
    sheets = _sheets(chosen, catalogue_of(data))
    from counter.app import save_paper  # what was typed is judged first: a bad name needs no Qt

    try:
        save_paper(chosen.out, sheets)
    except OSError as problem:
        told = tr("{file}: {why}; name a file in a folder that can be written")
        raise BadInput(told.format(file=chosen.out, why=reason(problem))) from None
    return Answer({"chart": str(chosen.out), "pages": len(sheets)}, "")


def _sheets(chosen: argparse.Namespace, catalogue: Catalogue) -> Sequence[Sheet]:
    from counter import paper

    if chosen.sheet == "gauge":
        return paper.pin_gauge(catalogue, chosen.page)
    if chosen.sheet == "look-alikes":
        pairs = [_pair(catalogue, text) for text in chosen.pair] or paper.likely_pairs(catalogue)
        return paper.look_alike_sheets(catalogue, pairs, chosen.page)
    if chosen.sheet == "labels":
        return _labels(chosen, catalogue)
    return (paper.wall_chart(catalogue, chosen.page),)


def _labels(chosen: argparse.Namespace, catalogue: Catalogue) -> Sequence[Sheet]:
    from counter import paper

    grid = paper.GRIDS[chosen.labels]
    if not 0 <= chosen.skip < grid.each:
        told = tr("--skip: {count} is out of range; a sheet has {most} labels, name 0 or more of them")
        raise BadInput(told.format(count=chosen.skip, most=grid.each))
    labels = paper.labels_for(catalogue, [_base(catalogue, name) for name in chosen.base])
    if not labels:
        told = tr("--base: no lamp stands on {bases}; name another base")
        raise BadInput(told.format(bases=", ".join(chosen.base)))
    return paper.bin_labels(catalogue, labels, grid, chosen.skip)


def _pair(catalogue: Catalogue, text: str) -> tuple[str, str]:
    one, _, other = text.partition(":")
    return _base(catalogue, one), _base(catalogue, other)


def _base(catalogue: Catalogue, name: str) -> str:
    if name in catalogue.base_by_name:
        return name
    told = tr("“{name}” is no base here; known are {bases}")
    raise BadInput(told.format(name=name[:20], bases=", ".join(catalogue.base_by_name)))
