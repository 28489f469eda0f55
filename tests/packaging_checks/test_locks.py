"""The lock files: every release pinned and hashed, nothing that says where it came from."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

ROOT = Path(__file__).parents[2]
LOCKS = ["requirements.lock", "requirements-test.lock"]
SETTINGS = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))


def entries(lock: str) -> dict[str, tuple[str, frozenset[str]]]:
    """Return the version and the hashes of each release that a lock names."""
    text = (ROOT / "packaging" / lock).read_text(encoding="utf-8").replace("\\\n", " ")
    found = {}
    for line in filter(str.strip, text.splitlines()):
        wanted = Requirement(line.split(" --hash")[0])
        hashes = frozenset(re.findall(r"--hash=sha256:([0-9a-f]{64})\b", line))
        found[canonicalize_name(wanted.name)] = (str(wanted.specifier), hashes)
    return found


@pytest.mark.parametrize("lock", LOCKS)
def test_every_release_is_pinned_and_hashed(lock: str) -> None:
    loose = {
        name: entry for name, entry in entries(lock).items() if not (re.match(r"==[\w.]+$", entry[0]) and entry[1])
    }
    assert entries(lock)
    assert not loose


@pytest.mark.parametrize("lock", LOCKS)
def test_no_address_inside(lock: str) -> None:
    assert not re.search(r"://|@|index|find-links", (ROOT / "packaging" / lock).read_text(encoding="utf-8"))


def test_the_test_lock_holds_all_of_the_other() -> None:
    assert entries("requirements.lock").items() <= entries("requirements-test.lock").items()


@pytest.mark.parametrize(
    ("lock", "wanted"),
    [
        ("requirements.lock", SETTINGS["project"]["dependencies"]),
        ("requirements-test.lock", SETTINGS["dependency-groups"]["test"]),
    ],
)
def test_the_lock_has_the_releases_that_the_settings_ask_for(lock: str, wanted: list[str]) -> None:
    asked = {canonicalize_name(Requirement(line).name): str(Requirement(line).specifier) for line in wanted}
    locked = {name: version for name, (version, _) in entries(lock).items()}
    assert asked.items() <= locked.items()
