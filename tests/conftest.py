"""What every test shares: how hard hypothesis tries, and a home folder of the test's own."""

from __future__ import annotations

import os
from itertools import count
from pathlib import Path

import pytest
from hypothesis import HealthCheck, settings

# Quick and the same every time by default; HYPOTHESIS_PROFILE=ci tries harder and afresh.
# Neither has a deadline: a slow machine is no fault of the code.
settings.register_profile("quick", max_examples=60, deadline=None, derandomize=True)
settings.register_profile("ci", max_examples=600, deadline=None, suppress_health_check=[HealthCheck.too_slow])
settings.load_profile(os.environ.get("HYPOTHESIS_PROFILE", "quick"))

_NUMBERS = count(1)


@pytest.fixture(scope="session")
def _homes(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("homes")


@pytest.fixture(autouse=True)
def home(_homes: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """An empty home, so that no test reads or leaves a cache, a history or settings of the user's."""
    folder = _homes / str(next(_NUMBERS))
    folder.mkdir()
    monkeypatch.setenv("HOME", str(folder))
    monkeypatch.setenv("USERPROFILE", str(folder))
    for name, part in (("CACHE", "cache"), ("STATE", "state"), ("CONFIG", "config"), ("DATA", "data")):
        monkeypatch.setenv(f"XDG_{name}_HOME", str(folder / part))
    monkeypatch.setenv("LOCALAPPDATA", str(folder / "local"))
    monkeypatch.delenv("COLUMNS", raising=False)
    monkeypatch.delenv("NO_COLOR", raising=False)
    return folder
