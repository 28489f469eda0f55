"""A case as text short enough for a QR code, and back: what is scanned or pasted next year brings the case back.

The text is `LC1:` and the case as JSON, deflated (RFC 1951, zlib's frame) and in base 32 (RFC 4648) without its
padding: letters and figures that QR's alphanumeric mode packs into five and a half bits each. A case too long for a
code that a counter's scanner reads gives `LCK:` and the slip's key, under which the log knows it.
"""

from __future__ import annotations

import base64
import binascii
import json
import zlib
from typing import TYPE_CHECKING

from pydantic import ValidationError

from counter.desk import Case, CaseProblem
from counter.language import tr

if TYPE_CHECKING:
    from counter.catalogue import Catalogue

CASE, KEY = "LC1:", "LCK:"
LONGEST = 1400  # characters: QR version 25 at level M, still read from a receipt
LARGEST = 200_000  # bytes of JSON; more is no case


def case_text(case: Case, key: str) -> str:
    """Return what a slip's QR code says."""
    plain = case.model_dump_json(exclude_defaults=True, exclude={"version"})
    packed = base64.b32encode(zlib.compress(plain.encode(), 9)).decode().rstrip("=")
    return f"{CASE}{packed}" if len(packed) <= LONGEST else f"{KEY}{key.upper()}"


def is_case_text(text: str) -> bool:
    """Whether a text that was scanned or pasted is of a slip."""
    return text.strip().upper().startswith((CASE, KEY))


def key_in(text: str) -> str | None:
    """Return the slip's key in a text that names one."""
    plain = text.strip()
    return plain[len(KEY) :].lower() if plain.upper().startswith(KEY) else None


def case_in(text: str, catalogue: Catalogue) -> Case:
    """Return the case that a text holds; lamp types that the catalogue no longer has are left out of it.

    Raises:
        CaseProblem: it holds none, or a part of one.
    """
    body = "".join(text.split())[len(CASE) :].upper()
    try:
        raw = base64.b32decode(body + "=" * (-len(body) % 8))
        unpack = zlib.decompressobj()
        plain = unpack.decompress(raw, LARGEST)
        if not unpack.eof:
            raise CaseProblem(tr("The code is cut off: scan it again."))
        case = Case.model_validate(json.loads(plain))
    except (binascii.Error, zlib.error, ValidationError, ValueError) as problem:
        if isinstance(problem, CaseProblem):
            raise
        raise CaseProblem(tr("The code holds no case: scan it again.")) from None
    return without_the_gone(case, catalogue)


def without_the_gone(case: Case, catalogue: Catalogue) -> Case:
    """Return a case of another day without lamp types and looks that the catalogue no longer has."""
    gone = [at for at in ("chosen", "shown", "beside") if getattr(case, at) not in (None, *catalogue.lamp_by_id)]
    looks = {key: value for key, value in case.looks.items() if key in catalogue.look_by_key}
    return case.model_copy(update={**dict.fromkeys(gone), "looks": looks})
