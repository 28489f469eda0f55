"""A case as text short enough for a QR code, and back: what is scanned or pasted next year brings the case back.

The text is `LAMPCASE2` and then, in base 32 (RFC 4648) without its padding, two bytes of CRC (CCITT, as in
`binascii.crc_hqx`) and the case as JSON, deflated (RFC 1951) over a dictionary of what cases say often. Letters and
figures alone: QR's alphanumeric mode packs them into five and a half bits each, and a scanner that types them under
another keyboard's layout at most swaps Y and Z. A case too long for a code that a counter's scanner reads gives
`LAMPKEY2` and the slip's key, under which the log knows it. Slips of older days begin with `LC1:` or `LCK:`.
"""

from __future__ import annotations

import base64
import binascii
import json
import zlib
from functools import cache
from typing import TYPE_CHECKING

from pydantic import ValidationError

from counter import paths
from counter.desk import Case, CaseProblem
from counter.language import tr

if TYPE_CHECKING:
    from counter.catalogue import Catalogue

CASE, KEY = "LAMPCASE2", "LAMPKEY2"
OLD_CASE, OLD_KEY = "LC1:", "LCK:"
LONGEST = 2100  # characters: QR version 32 at level M
LARGEST = 200_000  # bytes of JSON; more is no case
CRC_BYTES = 2
SWAPPED = str.maketrans("YZ", "ZY")
DICTIONARY = "case-words.txt"  # never changed: every slip of this version was packed over it


def case_text(case: Case, key: str) -> str:
    """Return what a slip's QR code says."""
    plain = case.model_dump_json(exclude_defaults=True, exclude={"version"}).encode()
    deflate = zlib.compressobj(9, zlib.DEFLATED, -zlib.MAX_WBITS, 9, zdict=_dictionary())
    packed = deflate.compress(plain) + deflate.flush()
    text = base64.b32encode(_crc(plain) + packed).decode().rstrip("=")
    return f"{CASE}{text}" if len(text) <= LONGEST else f"{KEY}{key.upper()}"


def holds_case(text: str) -> bool:
    """Whether a slip's code holds the case itself, not only the key of its place in the log."""
    return text.startswith(CASE)


def is_case_text(text: str) -> bool:
    """Whether a text that was scanned or pasted is of a slip."""
    return text.strip().upper().startswith((CASE, KEY, OLD_CASE, OLD_KEY))


def key_in(text: str) -> str | None:
    """Return the slip's key in a text that names one."""
    plain = text.strip().upper()
    return next((plain[len(one) :].lower() for one in (KEY, OLD_KEY) if plain.startswith(one)), None)


def case_in(text: str, catalogue: Catalogue) -> Case:
    """Return the case that a text holds; lamp types that the catalogue no longer has are left out of it.

    Raises:
        CaseProblem: it holds none, or a part of one.
    """
    try:
        case = Case.model_validate(json.loads(_unpacked("".join(text.split()).upper())))
    except (binascii.Error, zlib.error, ValidationError, ValueError) as problem:
        if isinstance(problem, CaseProblem):
            raise
        raise CaseProblem(tr("The code holds no case: scan it again.")) from None
    return without_the_gone(case, catalogue)


def _unpacked(text: str) -> bytes:
    if text.startswith(OLD_CASE):
        return _inflated(_raw(text[len(OLD_CASE) :]), zlib.decompressobj())
    body = text[len(CASE) :]
    for one in (body, body.translate(SWAPPED)):
        raw = _raw(one)
        try:
            unpack = zlib.decompressobj(-zlib.MAX_WBITS, zdict=_dictionary())
            plain = _inflated(raw[CRC_BYTES:], unpack)
        except (zlib.error, CaseProblem):
            continue
        if _crc(plain) == raw[:CRC_BYTES]:
            return plain
    raise CaseProblem(tr("The code is cut off: scan it again."))


def _raw(body: str) -> bytes:
    return base64.b32decode(body + "=" * (-len(body) % 8))


def _inflated(raw: bytes, unpack: zlib._Decompress) -> bytes:
    plain = unpack.decompress(raw, LARGEST)
    if not unpack.eof:
        raise CaseProblem(tr("The code is cut off: scan it again."))
    return plain


def _crc(plain: bytes) -> bytes:
    return binascii.crc_hqx(plain, 0).to_bytes(CRC_BYTES)


@cache
def _dictionary() -> bytes:
    return (paths.resources() / DICTIONARY).read_bytes()


def without_the_gone(case: Case, catalogue: Catalogue) -> Case:
    """Return a case of another day without lamp types and looks that the catalogue no longer has."""
    gone = [at for at in ("chosen", "shown", "beside") if getattr(case, at) not in (None, *catalogue.lamp_by_id)]
    looks = {key: value for key, value in case.looks.items() if key in catalogue.look_by_key}
    return case.model_copy(update={**dict.fromkeys(gone), "looks": looks})
