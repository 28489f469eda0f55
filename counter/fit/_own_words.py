"""Cautions in a shop's own words: what such words must keep, and putting them in the place of the shipped ones.

Signal word, verdict, question, figures and source stay those of the rule: a shop says it otherwise, not less.
"""

from __future__ import annotations

import string
from functools import lru_cache
from typing import TYPE_CHECKING

from counter.fit._texts import texts
from counter.language import OWN, current, tr
from counter.words import UV_TOPICS, speaks_of

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from counter.catalogue import Catalogue, OwnText
    from counter.fit._models import Caution, Judgement

PARTS = ("says", "why", "do")


def wording_faults(text: OwnText) -> tuple[tuple[str, str, str], ...]:
    """Return field, what is wrong, and the way out for a shop's words that leave out what the rule must say."""
    return tuple(_faults(text))


@lru_cache(maxsize=512)
def _is_sound(text: OwnText) -> bool:
    return not any(_faults(text))


def _faults(text: OwnText) -> Iterator[tuple[str, str, str]]:
    shipped = texts().get(text.rule)
    if shipped is None:
        yield "rule", tr("there is no caution {rule}").format(rule=text.rule[:40]), tr("Choose one of the list.")
        return
    known = set().union(*(_places(getattr(shipped, part)) or () for part in PARTS))
    for part in PARTS:
        ours, theirs = _places(getattr(text, part)), _places(getattr(shipped, part)) or frozenset()
        if ours is None:
            yield part, tr("a brace without its mate"), tr("Write braces around a figure's name, and none else.")
        elif strange := sorted(ours - known):
            told = tr("nothing fills in {name}").format(name=_listed({strange[0]}))
            yield part, told, tr("Known here: {names}.").format(names=_listed(known))
        elif lost := sorted(theirs - ours):
            told = tr("{name} is left out").format(name=_listed({lost[0]}))
            yield part, told, tr("Keep it: it stands for what the case says.")
    yield from _less_danger(text)


def _less_danger(text: OwnText) -> Iterator[tuple[str, str, str]]:
    """Yield where the shipped words speak of ultraviolet and the shop's do not any more."""
    shipped = texts()[text.rule]
    for part in PARTS:
        if speaks_of(UV_TOPICS, getattr(shipped, part)) and not speaks_of(UV_TOPICS, getattr(text, part)):
            yield part, tr("says nothing of ultraviolet any more"), tr("Name it, as the shipped words do.")


def _places(words: str) -> frozenset[str] | None:
    """Return the names in braces; None where the braces do not close, or hold more than a name."""
    try:
        found = list(string.Formatter().parse(words))
    except ValueError:
        return None
    names = [name for _, name, form, turn in found if name is not None]
    plain = all(name.isidentifier() and not form and not turn for _, name, form, turn in found if name is not None)
    return frozenset(names) if plain else None


def _listed(names: set[str]) -> str:
    return ", ".join(f"{{{name}}}" for name in sorted(names)) or tr("none")


def in_own_words(catalogue: Catalogue, cautions: Iterable[Caution]) -> tuple[Caution, ...]:
    """Return cautions as the shop says them in the language now spoken; what it does not say stays as shipped."""
    spoken = current() or OWN
    own = {one.rule: one for one in catalogue.own_texts if one.language == spoken and _is_sound(one)}
    return tuple(_said(one, own.get(one.rule)) for one in cautions)


def _said(one: Caution, own: OwnText | None) -> Caution:
    if own is None:
        return one
    return one.model_copy(update={part: getattr(own, part).format_map(one.values) for part in PARTS})


def judged_in_own_words(catalogue: Catalogue, found: Judgement) -> Judgement:
    """Return a judgement with its cautions as the shop says them."""
    if not catalogue.own_texts:
        return found
    return found.model_copy(update={"cautions": in_own_words(catalogue, found.cautions)})
