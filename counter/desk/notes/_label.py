"""What was understood from a pasted ballast label, in a few words."""

from __future__ import annotations

from typing import TYPE_CHECKING

from counter import fit
from counter.catalogue import Model
from counter.fit import LabelSpan
from counter.language import figure, marked, tr, trn

if TYPE_CHECKING:
    from collections.abc import Iterable

NOTHING_READ = marked("nothing read: enter what it says in the fields")
KINDS = {"led-driver": marked("LED driver"), "bypassed": marked("ballast gone, mains on the holders")}


class LabelNote(Model):
    """One line, each part of the label with its meaning, and what contradicts itself."""

    says: str
    spans: tuple[LabelSpan, ...] = ()
    problems: tuple[str, ...] = ()


def label_note(label: str) -> LabelNote | None:
    """Return what a label says, "2 × 26 W, electronic"; None where there is no label."""
    if not label.strip():
        return None
    read = fit.parse_label(label)
    words = _words(read.fields)
    says = tr("read: {words}").format(words=words) if words else tr(NOTHING_READ)
    return LabelNote(says=says, spans=read.spans, problems=read.problems)


def _words(fields: dict[str, object]) -> str:
    counts, watts = fields.get("ballast_counts", ()), fields.get("ballast_watts", ())
    assert isinstance(counts, tuple)
    assert isinstance(watts, tuple)
    lamps = f"{_or(watts)}\N{THIN SPACE}W" if watts else ""
    if counts:
        many = trn("{count} lamp", "{count} lamps", max(counts)).format(count=_or(counts))
        lamps = f"{_or(counts)} × {lamps}" if lamps else many
    kind = str(fields.get("ballast", ""))
    emergency = tr("emergency battery") if fields.get("emergency") else ""
    return ", ".join(one for one in (lamps, tr(KINDS.get(kind, kind)), emergency) if one)


def _or(numbers: Iterable[float]) -> str:
    return tr(" or ").join(map(figure, numbers))
