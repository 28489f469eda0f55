"""The rules, one file a theme: small functions on `Facts` that find something, in numbers, or nothing.

What the light is for (`_use`), holder and room (`_holder`), ballast and what it drives (`_supply`), the words on
label and holder (`_label`). May import counter.fit's facts and comparisons, never its verdict.
"""

from counter.fit.rules import _holder, _label, _supply, _use

RULES = (*_use.RULES, *_holder.RULES, *_supply.RULES, *_label.RULES)

__all__ = ["RULES"]
