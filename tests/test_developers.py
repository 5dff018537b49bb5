"""DEVELOPERS.md is true: the top level, the layers, the commands and the files that it names."""

from __future__ import annotations

import re
import subprocess
import tomllib
from pathlib import Path

import pytest
from test_layers import LAYERS

import fractions_shop

TOP = Path(__file__).parents[1]
TEXT = (TOP / "DEVELOPERS.md").read_text(encoding="utf-8")


def _rows(header: str) -> list[list[str]]:
    lines = TEXT[TEXT.index(header) :].splitlines()[2:]
    table = []
    for line in lines:
        if not line.startswith("|"):
            break
        table.append([cell.strip() for cell in line.strip("|").split("|")])
    return table


def test_the_top_level_is_as_listed():
    listed = {row[0].strip("`/") for row in _rows("| name | what it is |")}
    try:
        tracked = subprocess.run(
            ["git", "ls-files"], cwd=TOP, capture_output=True, text=True, check=True
        ).stdout.splitlines()
    except (OSError, subprocess.CalledProcessError):
        pytest.skip("not a git checkout")
    assert {name.split("/")[0] for name in tracked} == listed | {".gitignore"}


def test_the_layers_are_those_that_the_imports_are_held_to():
    rows = [tuple(re.findall(r"`([a-z_.]+)`", row[0])) for row in _rows("| modules | what they know |")]
    assert rows == list(LAYERS)


def test_every_file_named_is_there():
    named = set(
        re.findall(
            r"`((?:fractions_shop|grammar|tests|examples|language|show|threads)/[\w./]+\.(?:py|lark|csv|txt))`",
            TEXT,
        )
    )
    named |= set(re.findall(r"python (tests/[\w./]+\.py)", TEXT))
    assert len(named) > 8
    for name in named:
        assert (TOP / name).exists() or (TOP / "fractions_shop" / name).exists(), name


def test_names_in_code_are_there():
    for module, name in (
        ("size.units", "UNITS"), ("size.units", "TWO_MEANINGS"), ("requests", "TABLE"), ("requests.rooms", "Room"), ("tables", "rows"),
    ):  # fmt: skip
        assert f"{module.split('.')[-1]}.{name}" in TEXT or name in TEXT
        assert hasattr(__import__(f"fractions_shop.{module}", fromlist=[name]), name)


def test_the_readme_ends_with_the_changes_and_begins_them_with_the_version_that_this_is():
    readme = (TOP / "README.md").read_text(encoding="utf-8")
    heading, text = readme.rpartition("\n## ")[2].split("\n", 1)
    assert heading == "Changes"
    versions = re.findall(r"^- \*\*([0-9.]+)\*\*", text, re.MULTILINE)
    assert versions[0] == fractions_shop.__version__
    numbers = [tuple(map(int, version.split("."))) for version in versions]
    assert numbers == sorted(set(numbers), reverse=True)


def test_the_version_stands_in_one_place():
    assert "version" not in tomllib.loads((TOP / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    written = f'"{fractions_shop.__version__}"'
    holders = [
        path for path in (TOP / "fractions_shop").rglob("*.py") if written in path.read_text(encoding="utf-8")
    ]
    assert [path.name for path in holders] == ["__init__.py"]


def test_the_metadata_names_the_pythons_that_the_core_of_the_tests_is_run_on():
    project = tomllib.loads((TOP / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    named = {each.rsplit(" ", 1)[1] for each in project["classifiers"] if re.search(r":: 3\.[0-9]+$", each)}
    also = re.search(r"for version in ([0-9. ]+);", (TOP / ".ci/run").read_text(encoding="utf-8"))
    assert also is not None
    assert named == {project["requires-python"].removeprefix(">="), *also[1].split()}
