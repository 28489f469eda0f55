"""The window as a picture, with no screen needed."""

from __future__ import annotations

import os
import sys
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pathlib import Path

    from counter.desk import Case


# A layout request made while requests are handled waits for the next round.
SETTLE_ROUNDS = 4


def save(out: Path, data: Path, case: Case | None, size: tuple[int, int], theme: str) -> None:
    """Paint the window with a case into a PNG of `size` pixels.

    Raises:
        OSError: the picture cannot be written.
    """
    os.environ["QT_QPA_PLATFORM"] = "offscreen"
    from counter.app import make_application
    from counter.window.main_window import MainWindow

    application = make_application(sys.argv[:1])
    window = MainWindow(data, theme)
    window.resize(*size)
    window.show()
    window.wake(case)
    for _ in range(SETTLE_ROUNDS):
        application.processEvents()
    if not window.grab().save(str(out)):
        raise OSError(f"cannot write {out}: is it a .png in a folder that exists?")
