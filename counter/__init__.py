"""The lamp counter: from the lamp in hand to what may be sold, and why."""

__version__ = "0.1.0"
