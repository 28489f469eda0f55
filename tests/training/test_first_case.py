"""The guided first case: every step can be done, and the counter then says what the words say."""

from counter.desk import Case, assess
from counter.identify import parse_look
from counter.training import STEPS, step_of


def walk():
    case = Case()
    while not STEPS[step_of(case)].is_read_only:
        yield case
        case = case.model_copy(update=STEPS[step_of(case)].done(case))
    yield case


def test_each_step_leads_to_the_next():
    assert [step_of(case) for case in walk()] == list(range(len(STEPS)))


def test_answers_are_answers_of_the_catalogue(catalogue):
    for step in STEPS:
        for key, value in step.looks.items():
            assert parse_look(catalogue, key, value) == value


def test_the_glass_is_what_the_counter_asks_for_when_the_words_say_so(catalogue):
    case = next(case for case in walk() if "glass" in STEPS[step_of(case)].looks)
    assert assess(catalogue, case).next[0].look == "glass"


def test_at_the_end_the_sale_is_refused_for_the_reason_told(catalogue):
    *_, end = walk()
    found = assess(catalogue, end)
    assert found.verdict == "do not sell"
    assert found.cautions[0].rule.startswith("uvc-in-lighting")
    assert found.replacements


def test_another_order_is_as_good():
    case = Case(looks={"pins": "2", "glass": "clear"}, use="lighting")
    assert step_of(case) == 0
    assert step_of(case.model_copy(update=STEPS[0].done(case))) == 3
