"""The marks as typed, and what each part of them means. May import PySide6 and counter.window.parts."""
