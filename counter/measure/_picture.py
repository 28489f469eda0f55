"""A picture file to pixels: what is too large, broken or of another kind is refused in one line.

Only the pixels leave this module. Where and when a picture was taken, which a telephone writes into it, does not.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple

from counter.files import UnusableFileError, read_bytes
from counter.language import tr

if TYPE_CHECKING:
    from pathlib import Path

    from numpy.typing import NDArray

    Pixels = NDArray[Any]  # height, width, blue-green-red

LARGEST_MB = 40
MOST_MEGAPIXELS = 80
SMALLEST_PX = 160
WORKING_PX = 1800  # of the longer side: a pin is then some 16 px wide, and a larger picture only takes longer


class PictureProblem(Exception):  # noqa: N818 - said to the user as it stands
    """A picture that cannot be measured; the message is one line: what, and the way out."""


class Head(NamedTuple):
    """What the first bytes say."""

    kind: str
    width: int
    height: int


def read_picture(path: Path) -> Pixels:
    """Return the pixels of a picture file.

    Raises:
        PictureProblem: no such file, too large, broken, or of a kind that is not read.
    """
    try:
        return pixels_of(read_bytes(path, LARGEST_MB * 1_000_000))
    except FileNotFoundError:
        told = tr("there is no picture {file}; mend the name")
        raise PictureProblem(told.format(file=repr(path.name[:60]))) from None
    except UnusableFileError as problem:
        raise PictureProblem(tr("the picture cannot be read: {why}").format(why=problem)) from None


def pixels_of(raw: bytes) -> Pixels:
    """Return the pixels of a picture's bytes, upright, its longer side brought down to what measuring needs.

    Raises:
        PictureProblem: too large, broken, or of a kind that is not read.
    """
    if len(raw) > LARGEST_MB * 1_000_000:
        raise PictureProblem(tr("the picture has more than {most} MB; send a smaller one").format(most=LARGEST_MB))
    head = head_of(raw)
    if head is None:
        raise PictureProblem(tr("this is no picture that can be read here; save it as JPEG or PNG"))
    if head.width * head.height > MOST_MEGAPIXELS * 1_000_000:
        told = tr("the picture is {width} x {height}; send one under {most} megapixels")
        raise PictureProblem(told.format(width=head.width, height=head.height, most=MOST_MEGAPIXELS))
    if min(head.width, head.height) < SMALLEST_PX:
        told = tr("the picture is only {width} x {height}; send a larger one")
        raise PictureProblem(told.format(width=head.width, height=head.height))
    return _decoded(raw, head)


def _decoded(raw: bytes, head: Head) -> Pixels:
    import cv2
    import numpy as np

    cv2.utils.logging.setLogLevel(cv2.utils.logging.LOG_LEVEL_SILENT)  # what is wrong is said once, and by us
    longest = max(head.width, head.height)
    how = cv2.IMREAD_COLOR
    if head.kind == "jpeg" and longest >= 2 * WORKING_PX:  # half of it decodes in a third of the time
        how = cv2.IMREAD_REDUCED_COLOR_4 if longest >= 4 * WORKING_PX else cv2.IMREAD_REDUCED_COLOR_2
    try:
        image = cv2.imdecode(np.frombuffer(raw, np.uint8), how)
    except cv2.error:
        image = None
    if image is None:
        raise PictureProblem(tr("the picture is broken; send it again, or save it anew as JPEG or PNG"))
    scale = WORKING_PX / max(image.shape[:2])
    if scale < 1:
        image = cv2.resize(image, None, fx=scale, fy=scale, interpolation=cv2.INTER_AREA)
    return np.asarray(image, np.uint8)


def head_of(raw: bytes) -> Head | None:
    """Return kind and size by a picture's first bytes, so that a bomb is known before it is unpacked."""
    for begins, sizes in ((b"\x89PNG\r\n\x1a\n", _png), (b"\xff\xd8\xff", _jpeg), (b"BM", _bmp), (b"RIFF", _webp)):
        if raw.startswith(begins):
            try:
                return sizes(raw)
            except IndexError:
                return None
    return None


def _number(raw: bytes, at: int, length: int, order: str = "big") -> int:
    part = raw[at : at + length]
    if len(part) < length:
        raise IndexError
    return int.from_bytes(part, "little" if order == "little" else "big")


def _png(raw: bytes) -> Head | None:
    """ISO/IEC 15948: IHDR comes first, width and height as four bytes each."""
    return Head("png", _number(raw, 16, 4), _number(raw, 20, 4)) if raw[12:16] == b"IHDR" else None


def _bmp(raw: bytes) -> Head:
    return Head("bmp", _number(raw, 18, 4, "little"), abs(_signed(_number(raw, 22, 4, "little"))))


def _signed(number: int) -> int:
    return number - (1 << 32) if number >= 1 << 31 else number


def _jpeg(raw: bytes) -> Head | None:
    """ISO/IEC 10918-1: the frame header SOF0 to SOF15 holds height and width; DHT, JPG and DAC share its numbers."""
    at = 2
    while True:
        while _number(raw, at, 1) == 0xFF and _number(raw, at + 1, 1) == 0xFF:
            at += 1  # fill bytes
        marker = _number(raw, at + 1, 1)
        if _number(raw, at, 1) != 0xFF or marker in (0xD9, 0xDA):
            return None
        if 0xC0 <= marker <= 0xCF and marker not in (0xC4, 0xC8, 0xCC):
            return Head("jpeg", _number(raw, at + 7, 2), _number(raw, at + 5, 2))
        at += 2 + _number(raw, at + 2, 2)


def _webp(raw: bytes) -> Head | None:
    """RFC 9649: VP8X, VP8L and VP8 chunks each say the size in their own way."""
    if raw[8:12] != b"WEBP":
        return None
    chunk = raw[12:16]
    if chunk == b"VP8X":
        return Head("webp", 1 + _number(raw, 24, 3, "little"), 1 + _number(raw, 27, 3, "little"))
    if chunk == b"VP8L":
        bits = _number(raw, 21, 4, "little")
        return Head("webp", 1 + (bits & 0x3FFF), 1 + (bits >> 14 & 0x3FFF))
    if chunk == b"VP8 ":
        return Head("webp", _number(raw, 26, 2, "little") & 0x3FFF, _number(raw, 28, 2, "little") & 0x3FFF)
    return None
