"""Cautions, what may go in instead, light and law: the tabs beside. May import PySide6 and counter.window.parts."""
