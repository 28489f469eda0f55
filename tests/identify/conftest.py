"""The shipped catalogue, loaded once: it is frozen."""

from __future__ import annotations

import pytest

from counter.catalogue import load


@pytest.fixture(scope="session")
def catalogue():
    return load()
