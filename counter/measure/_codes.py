"""Bar codes and QR codes in a picture, read by zxing-cpp."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from counter.measure._picture import Pixels

LONGEST = 200  # characters; what a lamp's box carries is far shorter
MOST = 8


def codes_in(image: Pixels) -> tuple[str, ...]:
    """Return the texts of all codes, without what cannot be shown, each once."""
    import cv2
    import zxingcpp

    found = zxingcpp.read_barcodes(cv2.cvtColor(image, cv2.COLOR_BGR2GRAY))
    texts = ("".join(char for char in one.text[:LONGEST] if char.isprintable()).strip() for one in found)
    return tuple(dict.fromkeys(text for text in texts if text))[:MOST]
