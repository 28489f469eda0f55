"""The rules, one file a theme: small functions on `Facts` that find something, in numbers, or nothing.

What the light is for (`_use`), lamps for other than light (`_beyond`), holder and room (`_holder`), ballast and what
it drives (`_supply`), how a lamp is started (`_start`), the words on label and holder (`_label`). May import
counter.fit's facts and comparisons, never its verdict.
"""

from counter.fit.rules import _beyond, _holder, _label, _start, _supply, _use

RULES = (*_use.RULES, *_beyond.RULES, *_holder.RULES, *_supply.RULES, *_start.RULES, *_label.RULES)

__all__ = ["RULES"]
