"""Sheets over the counter: help, keys, settings, about. May import PySide6, counter.window.parts and the core."""
