"""The shop's own entries in the window: forms, their drawing, what was added, sharing with other shops.

Nothing of it is imported before it is opened.
"""
