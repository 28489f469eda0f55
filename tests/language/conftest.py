"""A language for the length of one test."""

import pytest

from counter import language


@pytest.fixture
def spanish():
    language.use("es")
    yield
    language.use(language.OWN)
