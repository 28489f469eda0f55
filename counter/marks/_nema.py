"""Generic codes of single-base lamps: prefix, shape, watts W / base / colour, as in CFQ26W/G24q/841."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from counter.marks._caps import take_cap
from counter.marks._colour import take_colour
from counter.marks._lex import Draft, Parsed
from counter.marks._tables import longest_first, tables

if TYPE_CHECKING:
    from counter.marks._known import Known

_GAP = r"[ /,\-]*"
_WORD_ENDS = r"(?![A-Z0-9]| *[?*])"


def nema_code(plain: str, at: int, known: Known) -> Parsed | None:
    """Read a generic single-base code at a place; germicidal ones too."""
    draft = Draft(plain, at)
    system = _head(draft)
    if system is None or not _watts(draft):
        return None
    while _extra(draft, known):
        pass
    return draft.parsed(system) if draft.ends() else None


def nema_head_alone(draft: Draft) -> bool:
    """Take the head of a generic code that stands as a word of its own, CFQ or CF; FT alone is feet."""
    return _head(draft, _WORD_ENDS, least=2) is not None or _prefix_alone(draft)


def _prefix_alone(draft: Draft) -> bool:
    """Take CF without a shape letter: any shape of a lamp on one base."""
    prefix = tables()["nema"]["prefixes"][0]
    if not draft.find(prefix["letters"] + _WORD_ENDS):
        return False
    shapes = [shape for row in tables()["nema"]["shapes"] for shape in (*row["shapes"], *row["older"])]
    draft.add(len(prefix["letters"]), "kind", prefix["means"], prefix["letters"])
    draft.state(kind=prefix["kind"], shapes=tuple(dict.fromkeys(shapes)), may_drop_x=True, output="")
    return True


def _head(draft: Draft, before: str = r"[ \-]*\d", least: int = 1) -> str | None:
    for prefix in longest_first("nema", "prefixes"):
        if len(prefix["letters"]) < least or not draft.letters(prefix["letters"]):
            continue
        for shape in longest_first("nema", "shapes"):
            head = prefix["letters"] + shape["letters"]
            if shape["letters"] in prefix["shapes"] and draft.find(head + before):
                _take_head(draft, prefix, shape)
                return str(prefix["system"])
    return None


def _take_head(draft: Draft, prefix: dict[str, Any], shape: dict[str, Any]) -> None:
    draft.add(len(prefix["letters"]), "kind", prefix["means"], prefix["letters"])
    draft.add(len(shape["letters"]), "shape", shape["means"], shape["letters"])
    draft.state(
        kind=prefix["kind"],
        shapes=tuple(shape["shapes"]),
        older=tuple(shape["older"]),
        letters=shape["letters"],
        may_drop_x=True,
        output="",
    )


def _watts(draft: Draft) -> bool:
    draft.skip(r"[ \-]*")
    match = draft.find(r"(\d{1,3})(?: ?W(?:ATTS?)?)?(?!T ?\d)")
    if match is None:
        return False
    draft.add(len(match[0]), "watts", f"{int(match[1])} watts", f"{int(match[1])}W")
    draft.state(watts=float(match[1]))
    return True


def _extra(draft: Draft, known: Known) -> bool:
    """Take one more element: base, colour, number of pins or blacklight."""
    before = draft.at
    draft.skip(_GAP)
    if draft.at == len(draft.plain):
        draft.at = before
        return False
    clean, draft.clean = draft.clean, ""
    took = _base(draft, known) or _pins(draft) or _blacklight(draft) or _colour(draft)
    if not took:
        draft.at, draft.clean = before, clean
        return False
    draft.clean = f"{clean}/{draft.clean}"
    return True


def _base(draft: Draft, known: Known) -> bool:
    if "base" in draft.facts:
        return False
    found = take_cap(draft.plain, draft.at, known, loose=True)
    if found is None:
        return False
    draft.add(found.end - draft.at, "base", found.means, found.cap.text)
    draft.state(base=found.cap)
    if found.note:
        draft.notes.append(found.note)
    return True


def _pins(draft: Draft) -> bool:
    match = draft.find(r"([24])[ \-]?P(?:INS?)?(?![A-Z])")
    if match is None or "pins" in draft.facts:
        return False
    draft.add(len(match[0]), "pins", f"{match[1]} pins", f"{match[1]}P")
    draft.state(pins=int(match[1]))
    return True


def _blacklight(draft: Draft) -> bool:
    for row in longest_first("linear", "suffixes"):
        if row.get("kind") == "uv-a" and draft.find(rf"{row['letters']}(?![A-Z0-9])"):
            draft.add(len(row["letters"]), "kind", row["means"], row["letters"])
            draft.state(kind="uv-a")
            return True
    return False


def _colour(draft: Draft) -> bool:
    if "cct_k" in draft.facts:
        return False
    before = draft.at, list(draft.parts), draft.clean, draft.facts.copy()
    if take_colour(draft) and draft.ends():
        return True
    draft.at, draft.parts, draft.clean, draft.facts = before
    return False


def nema_head(shape: str, kind: str) -> str | None:
    """Return the letters written for a shape: CFQ for quad."""
    table = {"fluorescent": "write", "uv-c": "write_uvc"}.get(kind)
    found: str | None = tables()["nema"][table].get(shape) if table else None
    return found
