"""The lowest versions that are tested are those that pyproject.toml allows."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path

TOP = Path(__file__).parents[1]


def _numbers(version: str) -> tuple[int, ...]:
    """A version as its numbers, noughts at the end left out: 4.2 is 4.2.0."""
    numbers = [int(n) for n in version.split(".")]
    while numbers and not numbers[-1]:
        numbers.pop()
    return tuple(numbers)


def test_each_lower_bound_is_the_version_that_is_tested():
    project = tomllib.loads((TOP / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    extras = project["optional-dependencies"]
    needed = [*project["dependencies"], *(one for name in extras if name != "test" for one in extras[name])]
    lines = (TOP / ".ci/lowest.txt").read_text(encoding="utf-8").splitlines()
    tested = dict(line.split("==") for line in lines if not line.startswith("#"))
    lowest = dict(re.match(r"([A-Za-z0-9_-]+)>=([0-9.]+)", one).groups() for one in needed)
    assert {name: _numbers(version) for name, version in tested.items()} == {
        name: _numbers(version) for name, version in lowest.items()
    }


def test_a_repeatable_run_has_a_version_for_all_that_the_tests_ask_for():
    project = tomllib.loads((TOP / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    needed = [*project["dependencies"], *project["optional-dependencies"]["test"]]
    lowest = dict(re.match(r"([A-Za-z0-9_-]+)>=([0-9.]+)", each).groups() for each in needed)
    lines = (TOP / "tests/constraints.txt").read_text(encoding="utf-8").splitlines()
    repeated = dict(line.split("==") for line in lines if not line.startswith("#"))
    for name, least in lowest.items():
        version = re.match("[0-9.]+[0-9]", repeated[name.replace("_", "-")])[0]
        assert _numbers(version) >= _numbers(least), name
