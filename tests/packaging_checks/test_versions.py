"""One place for the version; the changelog, the built package and the command say the same."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path

from counter import __version__, catalogue

ROOT = Path(__file__).parents[2]
SETTINGS = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))


def test_the_newest_entry_of_the_changelog_is_this_version() -> None:
    heads = re.findall(r"^## (\S+)", (ROOT / "packaging" / "CHANGELOG.md").read_text(encoding="utf-8"), re.MULTILINE)
    assert heads[0] == __version__


def test_the_settings_name_no_version_of_their_own() -> None:
    assert "version" not in SETTINGS["project"]
    assert SETTINGS["project"]["dynamic"] == ["version"]
    assert SETTINGS["tool"]["hatch"]["version"]["path"] == "counter/__init__.py"


def test_the_catalogue_has_an_edition_and_a_day() -> None:
    assert re.fullmatch(r"[0-9.]+ of \d{4}-\d\d-\d\d", str(catalogue.load().edition))
