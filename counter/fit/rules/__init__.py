"""The rules, one file a theme: small functions on `Facts` that find something, in numbers, or nothing.

May import counter.fit's facts and comparisons, never its verdict.
"""
