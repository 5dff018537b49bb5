"""What every test shares: how hard hypothesis tries, and a home folder of the test's own."""

from __future__ import annotations

import gc
import os
import sys
from collections.abc import Generator, Iterator
from itertools import count
from pathlib import Path

import pytest
from hypothesis import HealthCheck, settings

# Quick and the same every time by default; HYPOTHESIS_PROFILE=ci tries harder and afresh.
# Neither has a deadline: a slow machine is no fault of the code.
settings.register_profile("quick", max_examples=40, deadline=None, derandomize=True)
settings.register_profile("ci", max_examples=600, deadline=None, suppress_health_check=[HealthCheck.too_slow])
settings.load_profile(os.environ.get("HYPOTHESIS_PROFILE", "quick"))

_NUMBERS = count(1)


@pytest.fixture(scope="session", autouse=True)
def _bytecode(tmp_path_factory: pytest.TempPathFactory) -> Iterator[None]:
    """A folder of the run for bytecode, where none may be kept beside the code (`PYTHONDONTWRITEBYTECODE`).

    Tests start some hundred processes, and each would compile the package anew.
    """
    with pytest.MonkeyPatch.context() as patch:
        if sys.dont_write_bytecode and sys.pycache_prefix is None:
            own = tmp_path_factory.getbasetemp()
            shared = own.parent if "PYTEST_XDIST_WORKER" in os.environ else own
            patch.delenv("PYTHONDONTWRITEBYTECODE", raising=False)
            patch.setenv("PYTHONPYCACHEPREFIX", str(shared / "bytecode"))
        yield


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


#: Files and folders whose tests look at many cases, at other programs, at whole outputs or at every module:
#: they take most of the time, and `pytest -m "not slow"` leaves them out.
SLOW = {
    "property",
    *(
        f"test_{name}.py"
        for name in (
            "advice_mutations", "allowed_for", "an_hour", "answers", "api_pages", "approx", "blocks", "circle", "cli", "close_up", "common_errors", "conflicts",
            "crown_drawing", "curve", "cutting", "decimal_cells", "doctests", "drills", "examples", "feature_drawing",
            "figures", "fits", "for_a_stranger", "hostile_files", "house", "identify", "keys", "last_figures", "layers",
            "live_reading", "marks_alike", "meant_in_language", "old_series", "packing", "page", "parser", "part_drawing", "pdf",
            "pint_beside", "pint_bridge", "places", "proposals", "public_names", "quantogram",
            "quantogram_range", "quantogram_search", "read_column", "readme", "reads_scales", "recipe_gauge",
            "recipe_series", "recipes", "recover_words", "recovery", "recovery_several", "schema", "sheet",
            "sheet_changes", "sheet_doubts", "sheet_feeds", "sheet_forms", "shops", "standing", "standing_exits", "steps",
            "stranger", "words_of_habit_in_spacing",
            "stock_lines", "strips", "substitute", "substitute_rules", "svg", "terminals", "thread_holes",
            "thread_series", "typed", "unfinished", "units_everywhere", "units_shown", "unsaid", "user_strategies",
            "weighed_once", "wheel", "writing", "zones",
        )
    ),
}  # fmt: skip


#: With so many new objects Python looks for rings of them that nobody holds; by default with 700.
_NEW_OBJECTS = 50_000


@pytest.hookimpl(wrapper=True)
def pytest_collection() -> Generator[None, object, object]:
    """Thousands of tests are loaded and stay: they need not be looked through again and again for what may go."""
    gc.disable()
    try:
        return (yield)
    finally:
        gc.freeze()
        gc.set_threshold(_NEW_OBJECTS)
        gc.enable()


def pytest_ignore_collect(collection_path: Path, config: pytest.Config) -> bool | None:
    """Files of slow tests are not even loaded where these are left out."""
    return True if config.getoption("markexpr") == "not slow" and collection_path.name in SLOW else None


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Mark what is slow."""
    for item in items:
        if SLOW & {item.path.name, item.path.parent.name}:
            item.add_marker(pytest.mark.slow)
