"""The script that spoils modules: what it never draws, and to which tests it shows a line."""

from __future__ import annotations

import ast
import sys
from pathlib import Path
from random import Random

import pytest
from package_source import PACKAGE

sys.path.insert(0, str(Path(__file__).parent / "bench"))

from came_by import CameBy, blocks, noting
from mutant_places import places, spoilt

SOURCE = '''"""Of 3 things."""
from typing import TYPE_CHECKING
from functools import lru_cache
if TYPE_CHECKING:
    from here import there
LIMIT = 7

class Row:
    """At most 12."""

    __slots__ = ("a", "b")[:2]

    def __hash__(self) -> int:
        return hash(self.a) * 31

@lru_cache(maxsize=256)
def told(rows: list[int], most: int | None = None) -> int:
    """The sum of 2."""
    assert len(rows) > 0, "more than 0"
    for row, other in zip(rows, rows, strict=True):
        if row > LIMIT:
            return row - other
    if most is None:
        raise AssertionError(f"at most {LIMIT + 1}")
    return most
'''


def test_what_is_no_other_program_by_its_make_is_not_drawn():
    drawn = [(node.lineno, ast.unparse(node).split("\n")[0]) for node, _ in places(ast.parse(SOURCE))]
    assert [what for _, what in drawn] == [
        "7", "if row > LIMIT:", "row > LIMIT", "row - other", "if most is None:", "most is None",
    ]  # fmt: skip


def test_a_spoilt_module_differs_in_one_place_and_by_its_seed_alone():
    plain = ast.unparse(ast.parse(SOURCE)).split("\n")
    for number in range(len(places(ast.parse(SOURCE)))):
        made = [spoilt(SOURCE, number, Random(seed)) for seed in (5, 5)]
        assert made[0] == made[1]
        assert sum(a != b for a, b in zip(plain, made[0][0].split("\n"), strict=True)) == 1


@pytest.mark.parametrize("path", sorted(PACKAGE.glob("sheet/*.py")), ids=lambda path: path.stem)
def test_every_place_in_a_function_lies_in_a_block(path):
    source = path.read_text("utf-8")
    tree = ast.parse(source)
    inside = {
        line
        for node in ast.walk(tree)
        if isinstance(node, ast.FunctionDef)
        for line in range(node.body[0].lineno, (node.end_lineno or 0) + 1)
    }
    known = blocks(tree)
    for node, _ in places(ast.parse(source)):
        if node.lineno in inside:
            assert any(block.first <= node.lineno <= block.last for block in known), node.lineno


def test_what_is_come_by_is_noted_once_for_each_way_taken(monkeypatch):
    seen = set()
    monkeypatch.setattr("builtins.__come_by__", seen.add, raising=False)
    space = {"__name__": "noted"}
    exec(noting(SOURCE.replace("    from here import there\n", "    pass\n"), 100), space)
    assert space["told"].__wrapped__([9]) == 0
    first = set(seen)
    seen.clear()
    assert space["told"].__wrapped__([1, 2], 3) == 3
    assert first - seen  # the way out of the loop
    assert seen - first  # what stands behind it
    assert all(number >= 100 for number in first | seen)


def test_a_line_of_a_changed_module_is_shown_to_those_that_came_by_it_where_it_stood(tmp_path):
    package = tmp_path / "fractions_shop" / "size"
    package.mkdir(parents=True)
    module = package / "row.py"
    module.write_text("def one():\n    return 1\n\n\ndef two():\n    return 2\n", "utf-8")
    name = "fractions_shop/size/row.py"
    known = CameBy(tmp_path / "kept.json", tmp_path, ("size/*.py",))
    known.bits = {"tests/test_one.py::test": 1, "tests/test_two.py::test": 2}
    known.seconds = dict.fromkeys(known.bits, 0.1)
    known.texts = {"tests/test_one.py": "", "tests/test_two.py": "import subprocess"}
    assert known.tests(name, 2) == ["tests/test_one.py::test"]
    known.bits["tests/test_two.py::test"] = 0
    assert known.tests(name, 6) == ["tests/test_two.py::test"]
    known.bits["tests/test_two.py::test"] = 2
    known._save()
    module.write_text("def new():\n    return 0\n\n\n" + module.read_text("utf-8"), "utf-8")
    later = CameBy(tmp_path / "kept.json", tmp_path, ("size/*.py",))
    assert later.tests(name, 6) == ["tests/test_one.py::test"]
    assert later.tests(name, 10) == ["tests/test_two.py::test"]
    assert len(later.tests(name, 2)) == 2
