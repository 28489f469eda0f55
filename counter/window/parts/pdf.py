"""A PDF that is written in full or not at all: Qt's own writer says nothing of a full disk."""

from __future__ import annotations

import errno
import os
from contextlib import contextmanager
from typing import TYPE_CHECKING

from PySide6.QtCore import QBuffer
from PySide6.QtGui import QPdfWriter

from counter.files import target_of, write_atomic

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path


@contextmanager
def pdf_file(out: Path, title: str, dpi: int) -> Iterator[QPdfWriter]:
    """Give a PDF to be painted on, which is a file once it is painted.

    Raises:
        OSError: the file cannot be written, or its folder is not there; nothing is left of it.
    """
    if not target_of(out).parent.is_dir():
        raise FileNotFoundError(errno.ENOENT, os.strerror(errno.ENOENT), str(out.parent))
    raw = QBuffer()
    raw.open(QBuffer.OpenModeFlag.WriteOnly)
    writer = QPdfWriter(raw)
    writer.setResolution(dpi)
    writer.setTitle(title)
    yield writer
    del writer  # which writes the end of the file
    write_atomic(out, bytes(raw.data().data()))
