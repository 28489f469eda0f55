"""The cards of an empty case kept between starts, so that the first paint need not wait for pydantic.

A pydantic import costs about 100 ms; the opening cards depend on nothing but the catalogue, so they are kept as
plain JSON beside a fingerprint of the files they came from. A missing or stale file only costs that time once.
The very first start, and the first of a new version, finds those made with the installation (`ahead.py`).
A checksum keeps out cards that were changed since: JSON as sound as ours could still hold what no painter takes.
"""

from __future__ import annotations

import contextlib
import json
import zlib
from functools import cached_property
from typing import TYPE_CHECKING, Any

from counter import __version__, language, paths
from counter.files import read_bytes, write_atomic
from counter.outline import Disc, Drawing, Label, Measure, Path
from counter.paths import machine
from counter.window.outlines.cards import Card

if TYPE_CHECKING:
    import pathlib
    from collections.abc import Iterable

FILE_NAME = "opening.json"
NO_LAYER = "-"  # how a fingerprint of a shop ends that has nothing of its own
LARGEST = 3_000_000  # bytes; the shipped catalogue's has a hundred thousand
_SHAPES: dict[str, type[Path | Disc | Label | Measure]] = {
    "Path": Path,
    "Disc": Disc,
    "Label": Label,
    "Measure": Measure,
}


def fingerprint(data: pathlib.Path) -> str:
    """Return what the opening cards depend on: version, language, and the catalogue files' sizes and times."""
    parts = _words_of()
    for file in (paths.resources() / "catalogue.json", machine(data) / "layer.json"):
        try:
            stat = file.stat()
        except OSError:
            parts.append(NO_LAYER)
        else:
            parts.append(f"{stat.st_mtime_ns}.{stat.st_size}")
    return " ".join(parts)


def _words_of() -> list[str]:
    return [__version__, language.current(), language.decimal_sign()]


def shipped() -> str:
    """Return what the cards made with the installation depend on; installing changes a file's times, so its sum."""
    return " ".join((*_words_of(), f"{zlib.crc32((paths.resources() / 'catalogue.json').read_bytes()):08x}"))


def made_ahead() -> pathlib.Path:
    """Return the file of the cards made with the installation, in the language now spoken."""
    sign = {".": "point", ",": "comma"}[language.decimal_sign()]
    return paths.made_ahead() / f"opening-{language.current()}-{sign}.json"


def remembered(data: pathlib.Path) -> tuple[Card, ...]:
    """Return the kept opening cards, else those made with the installation while the shop has nothing of its own.

    None where they are missing, stale or damaged.
    """
    own = fingerprint(data)
    kept = _kept(machine(data) / FILE_NAME, own)
    if kept or not own.endswith(NO_LAYER):
        return kept
    with contextlib.suppress(OSError):
        return _kept(made_ahead(), shipped())
    return ()


def _kept(file: pathlib.Path, of: str) -> tuple[Card, ...]:
    try:
        raw = read_bytes(file, LARGEST)
        kept = json.loads(raw)
        if kept["of"] != of or kept["sum"] != _sum_in(raw, kept["cards"]):
            return ()
        return tuple(_card(one) for one in kept["cards"])
    except (OSError, ValueError, KeyError, TypeError, AttributeError, RecursionError):
        return ()


def remember(data: pathlib.Path, cards: Iterable[Card]) -> None:
    """Keep the opening cards; a folder that cannot be written only costs the next start its head start."""
    with contextlib.suppress(OSError):
        keep(machine(data) / FILE_NAME, fingerprint(data), cards)


def keep(file: pathlib.Path, of: str, cards: Iterable[Card]) -> None:
    """Write cards and what they depend on.

    Raises:
        OSError: the file cannot be written.
    """
    body = _compact([_plain(card) for card in cards])
    head = json.dumps({"of": of, "sum": zlib.crc32(body)}).encode()
    # The cards on a line of their own: their checksum is then had without writing them again.
    write_atomic(file, head[:-1] + b', "cards":\n' + body + b"\n}")


def forget(data: pathlib.Path) -> None:
    """Drop the kept cards: for whoever met an error before the core was awake, which they may be the cause of."""
    with contextlib.suppress(OSError):
        (machine(data) / FILE_NAME).unlink()


def _compact(cards: list[Any]) -> bytes:
    return json.dumps(cards, separators=(",", ":")).encode()


def _sum_in(raw: bytes, cards: list[Any]) -> int:
    lines = raw.split(b"\n")
    return zlib.crc32(lines[1] if len(lines) == 3 else _compact(cards))


def _plain(card: Card) -> dict[str, Any]:
    plain = card._asdict()
    for view, drawing in (("face", card.face), ("side", card.side)):
        shapes = [[type(shape).__name__, *shape] for shape in drawing.shapes]
        plain[view] = _compact([drawing.box, drawing.reach, shapes]).decode()
    return plain


def _card(plain: dict[str, Any]) -> Card:
    plain["against"] = tuple(plain["against"])
    for view in ("face", "side"):
        plain[view] = _KeptDrawing(plain[view].encode())
    return Card(**plain)


class _KeptDrawing:
    """Stands for a drawing and reads it when it is first painted: of sixty a first paint shows a dozen."""

    def __init__(self, text: bytes) -> None:
        self._text = text

    @cached_property
    def _drawing(self) -> Drawing:
        box, reach, shapes = json.loads(self._text)
        return Drawing(tuple(_shape(shape) for shape in shapes), tuple(box), tuple(reach))

    def __getattr__(self, name: str) -> Any:
        return getattr(self._drawing, name)


def _shape(plain: list[Any]) -> Path | Disc | Label | Measure:
    name, *values = plain
    return _SHAPES[name](*values)
