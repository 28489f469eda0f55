"""Look for where each rule of caution speaks first, and write it to resources/lessons.json.

    python -m tests.lessons            say what would change
    python -m tests.lessons --write    write it

Takes about a minute: every lamp type is put into every fixture that cards know, LED types in its place included.
To be run after a change to the rules, the catalogue or the cases; a slow test compares.
"""

from __future__ import annotations

import json
import sys
from collections import defaultdict

from counter import paths
from counter.catalogue import load
from counter.training.cards._facts import Lore
from counter.training.cards._rule_cards import places, rules, without_figure
from counter.training.cards._sale_cards import first_caution, first_rule
from counter.training.cards._sale_cases import settings_of_lamp
from counter.training.cards._sale_extras import extras_of_lamp, led_settings

A_FAMILY = 2  # places kept of one family
AT_LEAST = 8  # and of a rule, where it has as many


def found_places(lore: Lore) -> dict[str, list[tuple[str, str, int]]]:
    """Return for each rule where it speaks first and can be asked about, family by family by turns."""
    met: dict[str, dict[str, list[tuple[str, str, int]]]] = defaultdict(lambda: defaultdict(list))
    for family, lamps in lore.lamps_of.items():
        for lamp in lamps:
            for name, nth, setting in _numbered(lore, lamp):
                rule = without_figure(first_rule(lore, setting))
                if len(met[rule][family]) < AT_LEAST and first_caution(lore, setting) is not None:
                    met[rule][family].append((lamp.id, name, nth))
    return {rule: _by_turns(met[rule]) for rule in sorted({*map(without_figure, rules())})}


def _numbered(lore, lamp):
    count: dict[str, int] = defaultdict(int)
    for maker in (settings_of_lamp, extras_of_lamp, led_settings):
        for setting in maker(lore, lamp):
            yield setting.scenario, count[setting.scenario], setting
            count[setting.scenario] += 1


def _by_turns(by_family):
    """Return the first place of every family, then the second ones, and more only while there are few."""
    found = []
    for turn in range(AT_LEAST):
        for one in by_family.values():
            if turn < len(one) and (turn < A_FAMILY or len(found) < AT_LEAST):
                found.append(one[turn])
    return found


def main() -> None:
    found = found_places(Lore(load()))
    file = paths.resources() / "lessons.json"
    known = places() if file.exists() else {}
    for rule, one in found.items():
        kept = len(known.get(rule, ()))
        print(f"{rule:<32}{kept:>4} ->{len(one):>4}")
    if "--write" in sys.argv:
        rows = ",\n  ".join(f"{json.dumps(rule)}: {json.dumps(one)}" for rule, one in found.items())
        head = '{\n "format": "lamp-counter/lessons",\n "version": 1,\n'
        file.write_text(f'{head} "rules": {{\n  {rows}\n }}\n}}\n', encoding="utf-8")


if __name__ == "__main__":
    main()
