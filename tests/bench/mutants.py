"""Spoil a module in one place at a time and see whether a test says so: `python tests/bench/mutants.py --each 60 --seed 7`.

The places are drawn by seed, as many in each of size, layout, meant, threads and sheet (or of what `--only` names):
a comparison, a sign, a number, a condition, a bound. `mutant_places.py` says what is left out since it can be
no other program by its make (annotations, assertions, sizes of caches and the like); what is a bound on
work alone cannot be told by its make, and is drawn and lives.
For each, the tests that come by the line are run in a copy of the checkout until one fails: those that are named as the module
first, and the quick ones before the slow. Which these are is tried once (`came_by.py`, some ten minutes of CPU) and kept in the
file that `--came-by` names.
What lives is printed with its line, for someone to read, and written to `--out`, from which `--again` takes it.
Run it with nice: a mutant takes some seconds of one core, one that lives up to a minute or two. Nothing in the checkout itself is changed.
"""

from __future__ import annotations

import argparse
import ast
import compileall
import json
import os
import random
import re
import resource
import shutil
import signal
import sys
import tempfile
import time
import traceback
from collections import Counter
from collections.abc import Callable, Iterator
from pathlib import Path
from py_compile import PycInvalidationMode
from typing import Any

from came_by import PACKAGE, CameBy
from mutant_places import places, spoilt

TOP = Path(__file__).parents[2]
ROOMS = ("size/*.py", "layout/*.py", "meant/*.py", "threads/*.py", "sheet/*.py")

#: What tests the house, not the work, or takes longer than it says more.
_NEVER = {
    "test_layers", "test_house", "test_developers", "test_wheel", "test_recipes", "test_recipe_series", "test_recipe_gauge", "test_typed",
    "test_public_names", "test_lowest", "test_page", "test_pdf", "test_schema", "test_keys", "test_terminals", "test_api_pages", "test_live_reading",
    "test_advice_mutations", "test_unfinished", "test_fuzz_laws", "test_an_hour", "test_hostile_files",
}  # fmt: skip

#: The libraries are loaded before, once for all.
_OPTIONS = ("-q", "-p", "no:cacheprovider", "-W", "ignore::pytest.PytestAssertRewriteWarning")


def run(
    files: list[str],
    folder: Path,
    seconds: float,
    *,
    plugins: Callable[[], list[Any]] = list,
    stop: bool = True,
) -> str:
    """What comes of the tests in a process of their own: lives, killed, or timed out."""
    child = os.fork()
    if child == 0:
        os.setsid()
        resource.setrlimit(resource.RLIMIT_CPU, (int(seconds), int(seconds) + 5))
        resource.setrlimit(resource.RLIMIT_AS, (6 << 30, 6 << 30))
        sink = os.open(os.environ.get("MUTANTS_LOG", os.devnull), os.O_WRONLY | os.O_CREAT | os.O_TRUNC)
        os.dup2(sink, 1)
        os.dup2(sink, 2)
        os.chdir(folder)
        own = (TOP, TOP / "tests", TOP / "tests" / "bench")
        sys.path[:] = [
            str(folder),
            str(folder / "tests"),
            *(p for p in sys.path if Path(p or ".").resolve() not in own),
        ]
        os.environ["PYTHONPATH"] = str(folder)
        sys.dont_write_bytecode = (
            False  # the tests as pytest writes them anew; the package's own go by their hash
        )
        code = 99
        try:
            import pytest

            code = int(pytest.main([*_OPTIONS, *(["-x"] if stop else []), *files], plugins()))
        except BaseException:
            traceback.print_exc()
        finally:
            sys.stdout.flush()
            sys.stderr.flush()
            os._exit(code)
    until = time.monotonic() + seconds * 6
    while time.monotonic() < until:
        done, status = os.waitpid(child, os.WNOHANG)
        if done:
            if os.WIFSIGNALED(status):
                return "timed out"
            return {0: "lives", 1: "killed", 2: "killed"}.get(os.WEXITSTATUS(status), "no tests")
        time.sleep(0.05)
    os.killpg(child, signal.SIGKILL)
    os.waitpid(child, 0)
    return "timed out"


class _Only:
    """What pytest is handed: the tests to run, in their order."""

    def __init__(self, tests: list[str]) -> None:
        self.order = {test: n for n, test in enumerate(tests)}

    def pytest_collection_modifyitems(self, items: list[Any]) -> None:
        items[:] = sorted(
            (item for item in items if item.nodeid in self.order), key=lambda item: self.order[item.nodeid]
        )


def near_first(tests: list[str], module: Path, came_by: CameBy) -> list[str]:
    """The tests in the order in which they are asked: of the module's name, then the quick ones, one of each kind before the rest."""
    own = [part for part in re.split("_", module.stem) if len(part) > 3] or [module.stem]
    met: Counter[str] = Counter()
    ranked = []
    for test in sorted(tests, key=came_by.seconds.__getitem__):
        kind = test.partition("[")[0]
        met[kind] += 1
        far = not any(part in Path(test.partition("::")[0]).stem for part in own)
        seconds = came_by.seconds[test]
        ranked.append((seconds > 2, met[kind] > 3, far, seconds, test))
    return [test for *_, test in sorted(ranked)]


def compiled(folder: Path) -> None:
    """Compile the package of a copy, so that a module is read anew only where its text is another, whenever it was written."""
    compileall.compile_dir(folder / PACKAGE, quiet=2, invalidation_mode=PycInvalidationMode.CHECKED_HASH)


def shown(tests: list[str], folder: Path, came_by: CameBy, most: float) -> str:
    """What comes of a mutant that these tests are shown: the first few seconds of them, from few files, then the rest, then whole files."""
    if not tests:
        return "no tests"
    first: list[str] = []
    files: set[str] = set()
    spent = 0.0
    for test in tests:
        file = test.partition("::")[0]
        if spent < 6 and (file in files or len(files) < 6):
            first.append(test)
            files.add(file)
            spent += came_by.seconds[test]
    kept = set(first)
    rest: list[str] = []
    for test in tests:
        if test not in kept and spent < most:
            rest.append(test)
            spent += came_by.seconds[test]
    came = "no tests"
    for part in (first, rest):
        if part:
            takes = sum(came_by.seconds[test] for test in part)
            came = run(
                sorted({test.partition("::")[0] for test in part}),
                folder,
                4 * takes + 15,
                plugins=lambda part=part: [_Only(part)],
            )  # type: ignore[misc]
            if came != "lives":
                return came
    # What another test of the file had worked out and kept may have hidden the line from one that asks for it.
    whole, takes = [], 0.0
    for file in dict.fromkeys(test.partition("::")[0] for test in tests):
        more = sum(took for test, took in came_by.seconds.items() if test.startswith(f"{file}::"))
        if takes + more < most:
            whole.append(file)
            takes += more
    return run(whole, folder, 4 * takes + 15) if whole else came


# Which are drawn


def drawn(asked: argparse.Namespace, folder: Path) -> Iterator[tuple[Path, int, str]]:
    """Modules with the number of a place, and the seed of what is done to it."""
    if asked.again:
        for line in Path(asked.again).read_text("utf-8").splitlines():
            old = json.loads(line)
            if old["came"] in ("lives", "no tests"):
                yield from _found_again(folder, old)
        return
    for pattern in asked.only:
        modules = sorted((folder / PACKAGE).glob(pattern))
        every = [
            (path, n) for path in modules for n in range(len(places(ast.parse(path.read_text("utf-8")))))
        ]
        dice = random.Random(f"{asked.seed} {pattern}")
        print(f"{pattern}: {len(every):,} places in {len(modules)} modules", flush=True)
        for path, n in dice.sample(every, min(asked.each, len(every))):
            yield path.relative_to(folder), n, f"{asked.seed} {path.name} {n}"


def _found_again(folder: Path, old: dict[str, Any]) -> Iterator[tuple[Path, int, str]]:
    """A mutant of an earlier run in the module as it is now, by what was done, the nearest to its line and number."""
    source = (folder / old["module"]).read_text("utf-8")
    same = []
    for n, (node, _) in enumerate(places(ast.parse(source))):
        if not old["what"].startswith(ast.unparse(node).split("\n")[0][:110]):
            continue
        for seed in (old["seed"], *(f"again {k}" for k in range(6))):
            _, line, what = spoilt(source, n, random.Random(seed))
            if what == old["what"]:
                same.append((abs(line - old["line"]), abs(n - old["n"]), n, seed))
                break
    if same:
        *_, n, seed = min(same)
        yield Path(old["module"]), n, seed
    else:
        print(f"GONE {old['module']}:{old['line']}: {old['what']}", flush=True)


def main() -> int:
    parse = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parse.add_argument("--each", type=int, default=60, help="how many of each pattern")
    parse.add_argument("--seed", type=int, default=7)
    parse.add_argument("--only", nargs="*", default=list(ROOMS), help="patterns of modules")
    parse.add_argument("--seconds", type=float, default=60, help="of CPU that the tests of a mutant may take")
    parse.add_argument("--came-by", type=Path, default=Path(tempfile.gettempdir()) / "came_by.json")
    parse.add_argument("--out", type=Path, help="where each mutant is written down, one a line")
    parse.add_argument("--again", help="such a file, whose mutants that lived are tried again")
    asked = parse.parse_args()
    for name in ("pint", "hypothesis", "numpy", "pytest"):  # loaded once, for all that are forked
        __import__(name)
    with tempfile.TemporaryDirectory() as place:
        leave = shutil.ignore_patterns(".git", ".venv", "__pycache__", ".mypy_cache", ".ruff_cache")
        # Both at once, whatever is written in the checkout meanwhile.
        folder, copy = Path(place) / "noting", Path(place) / "copy"
        for each in (folder, copy):
            shutil.copytree(TOP, each, ignore=leave)
        came_by = CameBy(asked.came_by, folder, ROOMS)
        files = [path for path in sorted((folder / "tests").rglob("test_*.py")) if path.stem not in _NEVER]
        came_by.watch(folder, [str(path.relative_to(folder)) for path in files], run)
        compiled(copy)
        return try_all(asked, copy, came_by)


def try_all(asked: argparse.Namespace, folder: Path, came_by: CameBy) -> int:
    """Try each mutant drawn; what came of them is printed."""
    counts: Counter[str] = Counter()
    every = list(drawn(asked, folder))
    random.Random(asked.seed).shuffle(every)  # so that a run cut short has some of each
    for number, (module, n, seed) in enumerate(every, 1):
        path = folder / module
        source = path.read_text("utf-8")
        made, line, what = spoilt(source, n, random.Random(seed))
        tests = near_first(came_by.tests(str(module), line), module, came_by)
        path.write_text(made, "utf-8")
        try:
            came = shown(tests, folder, came_by, asked.seconds)
        finally:
            path.write_text(source, "utf-8")
        room = module.parts[1]
        counts.update((came, f"{room}: {came}", f"{room}: drawn"))
        told = {"module": str(module), "n": n, "seed": seed, "line": line, "what": what, "came": came, "of": len(tests)}  # fmt: skip
        if asked.out:
            with asked.out.open("a", encoding="utf-8") as out:
                print(json.dumps(told), file=out)
        if came in ("lives", "no tests"):
            print(f"LIVES {module}:{line}: {what}   ({len(tests)} tests)", flush=True)
        if number % 20 == 0:
            print(number, dict(counts), flush=True)
    for kind, many in sorted(counts.items()):
        print(f"{many:>5}  {kind}")
    done = sum(many for kind, many in counts.items() if ":" not in kind)
    lived = counts["lives"] + counts["no tests"]
    print(f"{done - lived} of {done} killed, {100 * (done - lived) / max(1, done):.1f} %")
    return 0


if __name__ == "__main__":
    sys.exit(main())
