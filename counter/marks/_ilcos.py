"""ILCOS, the international lamp coding system: FSQ-26/40/1B-E-G24q=3, short or full."""

from __future__ import annotations

from typing import TYPE_CHECKING

from counter.marks._caps import take_cap
from counter.marks._colour import cct_allowed, take_colour
from counter.marks._lex import Draft, Parsed
from counter.marks._tables import longest_first, tables

if TYPE_CHECKING:
    from counter.marks._known import Known


def ilcos_code(plain: str, at: int, known: Known) -> Parsed | None:
    """Read an ILCOS code at a place."""
    draft = Draft(plain, at)
    if not _form(draft) or not _watts(draft):
        return None
    while _element(draft, known):
        pass
    return draft.parsed("ilcos") if draft.ends() else None


def _form(draft: Draft) -> bool:
    for row in longest_first("ilcos", "forms"):
        if draft.find(rf"{row['letters']}[ \-]*\d"):
            draft.add(len(row["letters"]), "form", f"fluorescent: {row['means']}", row["letters"])
            draft.state(kind="fluorescent", may_drop_x=False)
            if row["shapes"]:
                draft.state(shapes=tuple(row["shapes"]))
            draft.state(**{key: True for key in ("electronic", "mains") if row.get(key)})
            return True
    return False


def _watts(draft: Draft) -> bool:
    draft.skip(r"[ \-]*")
    match = draft.find(r"(\d{1,3}(?:[.,]\d)?) ?W?(?!\d)")
    if match is None:
        return False
    watts = float(match[1].replace(",", "."))
    draft.add(len(match[0].rstrip()), "watts", f"{watts:g} watts", f"-{watts:g}")
    draft.state(watts=watts)
    return True


def _element(draft: Draft, known: Known) -> bool:
    before = draft.at
    draft.skip(r"[ /\-]*")
    if draft.at > before and (_colour(draft) or _size(draft) or _cap(draft, known) or _start(draft)):
        return True
    draft.at = before
    return False


def _colour(draft: Draft) -> bool:
    if "cct_k" in draft.facts:
        return False
    match = draft.find(r"(\d\d)/(1A|1B|2A|2B|3|4)(?![0-9A-Z])")
    if match is None or not cct_allowed(int(match[1]) * 100):
        return _three_digits(draft)
    cct_k, cri_min = int(match[1]) * 100, tables()["ilcos"]["cri_classes"][match[2]]
    draft.add(2, "colour", f"{cct_k} K", f"/{match[1]}")
    draft.at += 1
    draft.add(len(match[2]), "rendering", f"colour rendering {cri_min} or better (Ra)", f"/{match[2]}")
    draft.state(cct_k=cct_k, cri_min=cri_min)
    return True


def _three_digits(draft: Draft) -> bool:
    if not draft.find(r"[5-9]\d\d(?![0-9A-Z/])"):
        return False
    clean, draft.clean = draft.clean, ""
    took = take_colour(draft, letters=False)
    draft.clean = f"{clean}/{draft.clean}" if took else clean
    return took


def _size(draft: Draft) -> bool:
    match = draft.find(r"(\d{1,2})/(\d{2,4})(?![0-9A-Z])")
    if match is None or "tube_mm" in draft.facts or not _is_tube(float(match[1])):
        return False
    draft.add(len(match[1]), "diameter", f"tube {match[1]} mm thick", f"-{match[1]}")
    draft.at += 1
    draft.add(len(match[2]), "length", f"{match[2]} mm long (nominal)", f"/{match[2]}")
    draft.state(tube_mm=float(match[1]), length_mm=float(match[2]))
    draft.state(length_tolerance_mm=tables()["ilcos"]["length_tolerance_mm"])
    return True


def _is_tube(tube_mm: float) -> bool:
    return any(abs(tube_mm - known_mm) < 1.2 for known_mm in tables()["linear"]["eighths_mm"].values())


def _cap(draft: Draft, known: Known) -> bool:
    if "base" in draft.facts or draft.find(r"[EILPH](?![0-9A-Z])"):
        return False
    found = take_cap(draft.plain, draft.at, known)
    if found is None:
        return False
    draft.add(found.end - draft.at, "base", found.means, "-" + found.cap.text.replace("-", "="))
    draft.state(base=found.cap)
    if found.note:
        draft.notes.append(found.note)
    return True


def _start(draft: Draft) -> bool:
    for row in longest_first("ilcos", "starts"):
        if draft.find(rf"{row['letters']}(?![0-9A-Z])"):
            draft.add(len(row["letters"]), "start", row["means"], f"-{row['letters']}")
            if row["starter"]:
                draft.state(starter=row["starter"])
            return True
    return False
