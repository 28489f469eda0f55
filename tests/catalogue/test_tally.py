"""How many values stand on what."""

from __future__ import annotations

import json

from counter import cli
from counter.catalogue import load, share_read, sources_report


def test_every_value_is_counted_once() -> None:
    report = sources_report(load())
    parts = [*report["bases"].values(), *report["lamps"].values()]
    assert {key: sum(part[key] for part in parts) for key in report["all"]} == report["all"]
    assert sum(report["verdict"].values()) < sum(report["all"].values())
    assert 0 < share_read(report["verdict"]) < 1


def test_a_value_with_a_source_raises_its_share() -> None:
    report = sources_report(load())
    assert share_read(report["lamps"]["G13/18/linear"]) > share_read(report["lamps"]["GX32d-1/15/quad"])


def test_the_command_says_it_as_text_and_as_json(capsys) -> None:
    assert cli.main(["check", "--sources", "--json"]) == 0
    found = json.loads(capsys.readouterr().out)
    assert found["verdict"]["memory"] > 0
    assert cli.main(["check", "--sources"]) == 0
    assert "a verdict rests on" in capsys.readouterr().out
