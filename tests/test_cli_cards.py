"""`counter cards`: the contract's fields, the same cards for the same seed, bad numbers refused."""

import json

import pytest

from counter import cli


def run(capsys, data, *arguments):
    status = cli.main(["--data", str(data), "cards", *arguments])
    said = capsys.readouterr()
    return status, said.out, said.err


def dealt(capsys, data, seed):
    status, out, _ = run(capsys, data, "--seed", str(seed), "--count", "12", "--json")
    assert status == 0
    return json.loads(out)["cards"]


def test_fields_and_the_place_of_the_answer(capsys, data):
    for card in dealt(capsys, data, 1):
        assert {"kind", "question", "choices", "answer", "why"} <= card.keys()
        assert card["worth"][card["answer"]] == max(card["worth"]) == 1


def test_a_seed_deals_the_same_cards_again(capsys, data):
    assert dealt(capsys, data, 1) == dealt(capsys, data, 1) != dealt(capsys, data, 2)


def test_as_text_the_right_answer_has_a_star(capsys, data):
    card = dealt(capsys, data, 1)[0]
    _, out, _ = run(capsys, data, "--seed", "1", "--count", "1")
    assert f"* {card['choices'][card['answer']]}" in out


@pytest.mark.parametrize(
    "arguments", [("--count", "0"), ("--count", "-3"), ("--count", "1000000000"), ("--seed", "x"), ("--count", "1.5")]
)
def test_bad_numbers_are_refused(capsys, data, arguments):
    status, out, err = run(capsys, data, *arguments)
    assert (status, out) == (2, "")
    assert err.startswith("counter: ")


def test_dealing_writes_nothing(capsys, data):
    dealt(capsys, data, 1)
    assert not data.exists()
