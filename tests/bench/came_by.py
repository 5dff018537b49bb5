"""Which tests come by which lines, so that a spoilt line is shown to those that may see it.

Every block of the modules is given a call that notes that it was come by: at the head of each body, and behind
each statement that may leave it. A test file runs in a process of its own, so that what one has worked out and kept does
not hide a line from another; laws are tried on few examples. What was noted is kept in a file: a test file is run again when
it has changed, and the blocks of a module that has changed are found by the lines that are the same.
"""

from __future__ import annotations

import ast
import builtins
import compileall
import difflib
import json
import re
import time
from collections.abc import Callable
from pathlib import Path
from py_compile import PycInvalidationMode
from typing import Any, NamedTuple

PACKAGE = "fractions_shop"
_LEAVES = (ast.If, ast.For, ast.While, ast.Try, ast.With, ast.Match)


class Block(NamedTuple):
    """Lines that run one after another, from and to."""

    first: int
    last: int


def blocks(tree: ast.Module, note: Callable[[int], ast.stmt] | None = None) -> list[Block]:
    """The blocks of the functions of a module; with `note`, each gets what it gives for its number."""
    found: list[Block] = []

    def enter(body: list[ast.stmt], first: int | None = None) -> None:
        made: list[ast.stmt] = []
        start = True
        for n, statement in enumerate(body):
            if n == 0 and isinstance(statement, ast.Expr) and isinstance(statement.value, ast.Constant):
                made.append(statement)
                continue
            if start:
                found.append(Block(first or statement.lineno, 0))
                number, first, start = len(found) - 1, None, False
                if note:
                    made.append(note(number))
            found[number] = Block(found[number].first, _head(statement))
            made.append(statement)
            _inside(statement)
            start = isinstance(statement, _LEAVES)
        body[:] = made

    def _inside(statement: ast.stmt) -> None:
        if isinstance(statement, ast.FunctionDef):
            enter(statement.body, statement.lineno)
        elif isinstance(statement, ast.ClassDef):
            for part in statement.body:
                if isinstance(part, ast.FunctionDef | ast.ClassDef):
                    _inside(part)
        elif isinstance(statement, _LEAVES):
            for name in ("body", "orelse", "finalbody"):
                if part := getattr(statement, name, None):
                    enter(part)
            for part in (*getattr(statement, "handlers", ()), *getattr(statement, "cases", ())):
                enter(part.body)

    for statement in tree.body:
        if isinstance(statement, ast.FunctionDef | ast.ClassDef):
            _inside(statement)
    return found


def _head(statement: ast.stmt) -> int:
    """The last line of what runs of a statement before anything inside it."""
    last = statement.end_lineno or statement.lineno
    if isinstance(statement, ast.If | ast.While):
        last = statement.test.end_lineno or last
    elif isinstance(statement, ast.For):
        last = statement.iter.end_lineno or last
    elif isinstance(statement, ast.Try | ast.With | ast.FunctionDef | ast.ClassDef):
        last = statement.lineno
    return last


def noting(source: str, offset: int) -> str:
    """A module that notes each block that is come by, by its number from there."""
    tree = ast.parse(source)
    blocks(tree, lambda number: ast.parse(f"__come_by__({offset + number})").body[0])
    future = [
        n
        for n, part in enumerate(tree.body)
        if isinstance(part, ast.ImportFrom) and part.module == "__future__"
    ]
    after = 1 + max(future, default=-1)
    before = "import builtins as __b__\n__come_by__ = getattr(__b__, '__come_by__', id)"
    tree.body[after:after] = ast.parse(before).body
    return ast.unparse(ast.fix_missing_locations(tree))


class _Noter:
    """What pytest is handed: it writes down what each test came by, as bits, and how long it took."""

    def __init__(self, place: Path) -> None:
        self.place = place
        self.seen: set[int] = set()
        self.now = ""
        self.tests: dict[str, tuple[float, str]] = {}
        self.failed: set[str] = set()
        builtins.__come_by__ = self.seen.add  # type: ignore[attr-defined]

    def pytest_sessionstart(self) -> None:
        from hypothesis import settings

        settings.register_profile("few", max_examples=8, deadline=None, derandomize=True)
        settings.load_profile("few")

    def pytest_runtest_protocol(self, item: Any, nextitem: Any) -> None:
        self.close()
        self.now, self.since = item.nodeid, time.process_time()
        self.times = 5 if hasattr(getattr(item, "obj", None), "hypothesis") else 1

    def pytest_runtest_logreport(self, report: Any) -> None:
        if report.failed:
            self.failed.add(report.nodeid)

    def pytest_sessionfinish(self) -> None:
        self.close()
        told = {test: noted for test, noted in self.tests.items() if test not in self.failed}
        self.place.write_text(json.dumps([told, sorted(self.failed)]), "utf-8")

    def close(self) -> None:
        """The test before this is over."""
        if self.now:
            bits = sum(1 << number for number in self.seen)
            took = self.times * (time.process_time() - self.since)  # with all its examples
            self.tests[self.now] = (round(took, 3), f"{bits:x}")
        self.seen.clear()


class CameBy:
    """What each test of a checkout came by, kept in a file."""

    def __init__(self, path: Path, folder: Path, patterns: tuple[str, ...]) -> None:
        self.path = path
        self.modules: dict[str, tuple[str, list[Block], int]] = {}
        offset = 0
        for module in sorted({module for pattern in patterns for module in (folder / PACKAGE).glob(pattern)}):
            source = module.read_text("utf-8")
            found = blocks(ast.parse(source))
            self.modules[str(module.relative_to(folder))] = (source, found, offset)
            offset += len(found)
        self.texts: dict[str, str] = {}
        self.seconds: dict[str, float] = {}
        self.bits: dict[str, int] = {}
        if path.exists():
            self._load(json.loads(path.read_text("utf-8")))

    def tests(self, module: str, line: int) -> list[str]:
        """The tests that come by a line of the module; of a constant, by the lines that name it."""
        source, found, offset = self.modules[module]
        at = [n for n, block in enumerate(found) if block.first <= line <= block.last]
        at = [min(at, key=lambda n: found[n].last - found[n].first)] if at else _naming(source, line, found)
        asked = sum(1 << offset + n for n in at or range(len(found)))
        found = sorted(test for test, bits in self.bits.items() if bits & asked)
        # What nobody comes by here may be come by in a process that a test starts.
        return found or [test for test in self.bits if "subprocess" in self.texts[test.partition("::")[0]]]

    def watch(self, folder: Path, files: list[str], run: Callable[..., str]) -> None:
        """Run the test files that have changed one by one over modules that note, in a copy that is spoilt by it."""
        for name, (source, _, offset) in self.modules.items():
            (folder / name).write_text(noting(source, offset), "utf-8")
        compileall.compile_dir(folder / PACKAGE, quiet=2, invalidation_mode=PycInvalidationMode.CHECKED_HASH)
        place = folder.parent / "noted.json"
        for file in files:
            text = (folder / file).read_text("utf-8")
            if self.texts.get(file) == text:
                continue
            for test in [test for test in self.bits if test.partition("::")[0] == file]:
                del self.bits[test], self.seconds[test]
            place.write_text("[{}, []]", "utf-8")
            run([file], folder, 400, plugins=lambda: [_Noter(place)], stop=False)
            noted, failed = json.loads(place.read_text("utf-8"))
            self.texts[file] = text
            for test, (took, bits) in noted.items():
                self.seconds[test], self.bits[test] = took, int(bits, 16)
            took = sum(took for took, _ in noted.values())
            print(
                f"{file}: {len(noted)} tests, {took:.1f} s" + (f", left out {failed}" if failed else ""),
                flush=True,
            )
            self._save()

    def _save(self) -> None:
        told = {"modules": self.modules, "texts": self.texts, "seconds": self.seconds, "bits": {test: f"{bits:x}" for test, bits in self.bits.items()}}  # fmt: skip
        part = self.path.with_suffix(".part")
        part.write_text(json.dumps(told), "utf-8")
        part.replace(self.path)

    def _load(self, told: dict[str, Any]) -> None:
        self.texts, self.seconds = told["texts"], told["seconds"]
        moves: list[tuple[int, int, list[tuple[int, int]] | None]] = []
        for name, (was, known, offset) in told["modules"].items():
            if name in self.modules:
                source, found, now = self.modules[name]
                mask = (1 << len(known)) - 1
                moves.append((offset, now, mask) if was == source else (offset, now, _moved(was, known, source, found)))  # fmt: skip
        for test, hexed in told["bits"].items():
            bits, new = int(hexed, 16), 0
            for offset, now, move in moves:
                if isinstance(move, int):
                    new |= (bits >> offset & move) << now
                else:
                    new |= sum(1 << now + n for n, old in move if bits >> offset & old)
            self.bits[test] = new


def _moved(was: str, known: list[Any], source: str, found: list[Block]) -> list[tuple[int, int]]:
    """Each block of a changed module with the bits of the old blocks that hold its lines; all of them, where they are new."""
    same: dict[int, int] = {}
    for a, b, many in difflib.SequenceMatcher(None, was.split("\n"), source.split("\n"), autojunk=False).get_matching_blocks():  # fmt: skip
        same.update({b + n + 1: a + n + 1 for n in range(many)})
    moved = []
    for n, block in enumerate(found):
        lines = {same[line] for line in range(block.first, block.last + 1) if line in same}
        old = sum(
            1 << k for k, (first, last) in enumerate(known) if any(first <= line <= last for line in lines)
        )
        moved.append((n, old or (1 << len(known)) - 1))
    return moved


def _naming(source: str, line: int, found: list[Block]) -> list[int]:
    """The blocks that name what a statement of the module's own, on that line, gives a name to."""
    lines = source.split("\n")
    for part in ast.parse(source).body:
        if isinstance(part, ast.Assign | ast.AnnAssign) and part.lineno <= line <= (part.end_lineno or 0):
            names = {node.id for node in ast.walk(part) if isinstance(node, ast.Name) and isinstance(node.ctx, ast.Store)}  # fmt: skip
            return [n for n, (first, last) in enumerate(found) if names & set(re.findall(r"\w+", "\n".join(lines[first - 1 : last])))]  # fmt: skip
    return []
