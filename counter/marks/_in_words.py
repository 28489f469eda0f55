"""What reading says, in the language now spoken: the sentence is found again that was filled in, and said anew.

Reading keeps slots, vocabularies and whole codes for as long as a catalogue lives, so all of it is kept in the
program's own words and only what is shown is put into another language.
"""

from __future__ import annotations

import re
from functools import cache
from typing import TYPE_CHECKING

from counter.catalogue import SHAPES
from counter.language import OWN, current, decimals, kept_by_language, tr
from counter.marks import _sentences
from counter.marks._tables import tables

if TYPE_CHECKING:
    from counter.marks._models import MarkEvidence, Reading

_FIGURES = frozenset({"n", "mm", "watts", "one", "other"})
_NARROW = {"code": "[^;]+?", "n": r"[\d.,½]+", "mm": r"[\d.,]+", "typed": r"\S{1,12}"}
_FIELD = r"\\\{(\w+)\\\}"


@cache
def _shapes() -> tuple[tuple[str, re.Pattern[str]], ...]:
    """Return every sentence that something is filled into, the one with most of its own words first."""
    table = tables()
    own = (one for one in vars(_sentences).values() if isinstance(one, str) and "{" in one)
    slots = (table["slots"][name] for name in ("taught_means", "watts_means", "key_means"))
    older = (table["nema"]["older_says"], table["nema"]["older_means"])
    found = dict.fromkeys((*own, *_sentences.CLASHES.values(), *slots, *older))
    last = (_sentences.SEVERAL, _sentences.MODIFIED)  # what has hardly a word of its own
    ordered = sorted((one for one in found if one not in last), key=lambda one: -len(re.sub(r"\{\w+\}", "", one)))
    return tuple((one, _shape(one)) for one in (*ordered, *last))


def _shape(sentence: str) -> re.Pattern[str]:
    seen: set[str] = set()

    def field(match: re.Match[str]) -> str:
        name = match[1]
        if name in seen:
            return f"(?P={name})"
        seen.add(name)
        return f"(?P<{name}>{_NARROW.get(name, '.+?')})"

    return re.compile(re.sub(_FIELD, field, re.escape(sentence)), re.DOTALL)


@kept_by_language(1024)
def spoken(text: str) -> str:
    """Return a sentence of reading in the language now spoken; as it is where no sentence of ours is found in it."""
    told = tr(text)
    if told != text or current() == OWN:
        return told
    for sentence, shape in _shapes():
        found = shape.fullmatch(text)
        if found is not None:
            return tr(sentence).format(**{name: _part(name, part) for name, part in found.groupdict().items()})
    return _sentence_by_sentence(text)


def _part(name: str, text: str) -> str:
    if name in ("what", "means", "first", "rest"):
        return spoken(text)
    if name in ("shapes", "lamps", "others", "bases"):
        return tr(" or ").join(map(_name, text.split(" or ")))
    return decimals(text) if name in _FIGURES else text


def _name(text: str) -> str:
    """Return a name among others: a shape, with its kind in brackets where it is no lamp for light, or figures."""
    shape, bracket, kind = text.partition(" (")
    if shape not in SHAPES:
        return decimals(tr(text))
    return f"{tr(SHAPES[shape])}{bracket}{kind}"


def _sentence_by_sentence(text: str) -> str:
    parts = re.split(r"(?<=[.?]) (?=\S)", text)
    return " ".join(map(spoken, parts)) if len(parts) > 1 else text


def in_words(found: MarkEvidence) -> MarkEvidence:
    """Return what was read with everything that is shown of it in the language now spoken."""
    if current() == OWN:
        return found
    readings = tuple(map(_reading, found.readings))
    return found.model_copy(update={"readings": readings, "problems": tuple(map(spoken, found.problems))})


def _reading(one: Reading) -> Reading:
    spans = tuple(span.model_copy(update={"means": spoken(span.means)}) for span in one.spans)
    return one.model_copy(update={"spans": spans, "assumptions": tuple(map(spoken, one.assumptions))})
