"""Where things lie, as the XDG base directories and platformdirs say."""

from __future__ import annotations

from pathlib import Path

import platformdirs
import pytest

from counter.paths import APP_NAME, machine, user_data


@pytest.mark.parametrize("home", ["/home/kim", "/home/kim/", "relative", "", None])
@pytest.mark.parametrize("named", ["/srv/kept", "relative", "", None])
def test_the_systems_folders_are_those_of_platformdirs(monkeypatch, home, named):
    """Where the variables say it, without importing that."""
    for variable, value in (("HOME", home), ("XDG_DATA_HOME", named), ("XDG_STATE_HOME", named)):
        monkeypatch.delenv(variable, raising=False) if value is None else monkeypatch.setenv(variable, value)
    monkeypatch.delenv("COUNTER_DATA", raising=False)
    monkeypatch.delenv("COUNTER_LOCAL", raising=False)
    assert user_data() == platformdirs.user_data_path(APP_NAME, appauthor=False)
    assert machine(Path("/srv/shop")).parent == platformdirs.user_state_path(APP_NAME, appauthor=False)
