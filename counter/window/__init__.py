"""Everything that imports PySide6: one widget a file, delegates that only paint.

Shows assessments, sends changes of the case; holds no rule of the trade.
"""
