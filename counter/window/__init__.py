"""Everything that imports PySide6: one widget a file, delegates that only paint.

Shows assessments, sends changes of the case; holds no rule of the trade.
"""

import builtins

import PySide6.QtCore  # noqa: F401 - sets what is taken back here

# From its own import on, PySide6 reads the source of every module that is imported and keeps it, to see whether that
# asks for its `__feature__`: 11 ms of a start, and memory all day. Nothing here does, so Python's import is put back.
builtins.__import__ = getattr(builtins, "__orig_import__", builtins.__import__)
