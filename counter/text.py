"""Text from outside: characters that nobody can read stand as one sign, as rubbed print does."""

from __future__ import annotations

import re

UNREAD = "?"  # as in marks: one character that nobody can read

# A lone surrogate is a byte that was no text, or half of a character; no encoding can write it. A null character
# ends a text for half of all programs. Neither can be typed.
_UNREADABLE = re.compile("[\x00\ud800-\udfff]")
_UNWRITABLE = re.compile("[\ud800-\udfff]")


def readable(text: object) -> object:
    """Return text with each unreadable character as a question mark, so that places stay; anything else as it is."""
    return _UNREADABLE.sub(UNREAD, text) if isinstance(text, str) else text


def all_readable(value: object) -> object:
    """Return what JSON can hold with all its text made readable, keys too."""
    if isinstance(value, dict):
        return {readable(key): all_readable(one) for key, one in value.items()}
    return [all_readable(one) for one in value] if isinstance(value, list) else readable(value)


def writable(text: str) -> str:
    """Return text that every Unicode encoding can write."""
    return _UNWRITABLE.sub(UNREAD, text)
