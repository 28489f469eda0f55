"""How many values stand on what, and which of them a verdict rests on."""

from __future__ import annotations

import json

from counter import cli
from counter.catalogue import load, share_read, sources_report
from tests.fit.traced import read_by_rules


def test_the_parts_are_the_whole_that_verdicts_rest_on() -> None:
    report = sources_report(load())
    parts = [*report["bases"].values(), *report["lamps"].values()]
    assert {key: sum(part[key] for part in parts) for key in report["verdict"]} == report["verdict"]
    assert sum(report["verdict"].values()) < sum(report["all"].values())
    assert 0 < share_read(report["verdict"]) < 1


def test_exactly_what_the_rules_read_is_counted() -> None:
    catalogue = load()
    report, read = sources_report(catalogue), read_by_rules(catalogue)
    counted = {name: sum(tally.values()) for name, tally in {**report["bases"], **report["lamps"]}.items()}
    traced = dict.fromkeys(counted, 0)
    for name, path in read:
        traced[name] += path != "met"  # a judgement, and no work prints one
    assert counted == traced


def test_a_value_with_a_source_raises_its_share() -> None:
    report = sources_report(load())
    assert share_read(report["lamps"]["G13/18/linear"]) > share_read(report["lamps"]["GX32d-1/15/quad"])


def test_the_command_says_it_as_text_and_as_json(capsys) -> None:
    assert cli.main(["check", "--sources", "--json"]) == 0
    found = json.loads(capsys.readouterr().out)
    assert found["verdict"]["memory"] > 0
    assert cli.main(["check", "--sources"]) == 0
    assert "a verdict rests on" in capsys.readouterr().out
