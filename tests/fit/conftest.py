"""The shipped catalogue, and one short way to ask for a judgement."""

import pytest

from counter.catalogue import load
from counter.fit import Fixture, judge


@pytest.fixture(scope="session")
def catalogue():
    return load()


@pytest.fixture(scope="session")
def judged(catalogue):
    def ask(lamp, use="lighting", cct_k=None, **fixture):
        return judge(catalogue, catalogue.lamp_by_id[lamp], Fixture(**fixture), use, cct_k)

    return ask


@pytest.fixture(scope="session")
def rules(judged):
    def ask(lamp, use="lighting", cct_k=None, **fixture):
        return {caution.rule: caution for caution in judged(lamp, use, cct_k, **fixture).cautions}

    return ask
