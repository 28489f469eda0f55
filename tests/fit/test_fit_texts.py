"""The words of the cautions: short lines, a source and a confidence each, nobody told to wire anything."""

import json
import re
import string
from pathlib import Path

import pytest

from counter.fit._texts import questions, texts
from counter.fit.rules._use import about

RESOURCES = Path(__file__).resolve().parents[2] / "resources"
CONFIDENCES = {"published", "reproduced", "memory-high", "practice", "memory-medium", "memory-low"}
LONGEST_SAYS, LONGEST_LINE = 115, 245


def _texts():
    return [pytest.param(rule, text, id=rule) for rule, text in texts().items()]


@pytest.mark.parametrize(("rule", "text"), _texts())
def test_one_line_each(rule, text):
    for line in (text.says, text.why, text.do):
        assert line == line.strip()
        assert line.endswith((".", "!"))
        assert "\n" not in line
    assert len(text.says) <= LONGEST_SAYS
    assert max(len(text.why), len(text.do)) <= LONGEST_LINE


@pytest.mark.parametrize(("rule", "text"), _texts())
def test_short_sentences_and_short_words(rule, text):
    plain = re.sub(r"\{\w+\}", "X", f"{text.says} {text.why} {text.do}")
    words = re.findall(r"[A-Za-z-]+", plain)
    sentences = [part for part in re.split(r"[.;:!?]\s", plain) if part]
    assert len(words) / len(sentences) <= 17
    assert sum(len(word) for word in words) / len(words) <= 5.6


@pytest.mark.parametrize(("rule", "text"), _texts())
def test_nobody_is_told_to_wire(rule, text):
    told = re.compile(r"\b(?:re)?(?:wire|connect|cut|strip|splice|disconnect|remove the ballast|bypass)\b", re.I)
    found = told.findall(text.do)
    assert not found or "never cut" in text.do.lower()
    if re.search(r"rewir|wiring", f"{text.why} {text.do}", re.I) and "rewired" not in text.says:
        assert "licensed electrician" in f"{text.why} {text.do}"


@pytest.mark.parametrize(("rule", "text"), _texts())
def test_danger_never_sells_and_every_refusal_has_a_way_out(rule, text):
    assert text.signal != "DANGER" or text.verdict == "do not sell"
    assert text.do


def test_sources_and_confidences_are_known():
    catalogue = json.loads((RESOURCES / "catalogue.json").read_text(encoding="utf-8"))
    known = {source["key"] for source in catalogue["sources"]}
    for rule, text in texts().items():
        assert text.source in known, rule
        assert text.confidence in CONFIDENCES, rule
        # What rests on memory alone may not pass for published.
        assert text.source not in ("memory", "practice") or text.confidence not in ("published",), rule
    for name in ("law.json", "disposal.json", "replacements.json"):
        text = (RESOURCES / name).read_text(encoding="utf-8")
        assert set(re.findall(r'"source": "([^"]+)"', text)) <= known, name
        assert set(re.findall(r'"confidence": "([^"]+)"', text)) <= CONFIDENCES, name


def test_questions_end_as_questions():
    assert all(one.question.endswith("?") and one.why.endswith(".") for one in questions().values())


def test_placeholders_are_plain_names():
    for text in texts().values():
        for line in (text.says, text.why, text.do):
            assert all(name is None or name.isidentifier() for _, name, _, _ in string.Formatter().parse(line))


@pytest.mark.parametrize(
    ("seconds", "said"), [(89, "about 89 s"), (90, "about 1.5 min"), (5399, "about 89 min"), (5400, "about 1.5 h")]
)
def test_a_time_is_said_in_the_unit_that_people_count_in(seconds, said):
    assert about(seconds) == said
