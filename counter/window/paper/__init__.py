"""Sheets of counter.paper onto paper: the window's pen in a PDF or a printer."""
