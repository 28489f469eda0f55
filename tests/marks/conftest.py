"""The shipped catalogue, once for all tests of reading."""

from __future__ import annotations

import pytest

from counter import catalogue


@pytest.fixture(scope="session")
def shipped() -> catalogue.Catalogue:
    return catalogue.load()
