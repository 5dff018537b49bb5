"""Spoil a module in one place at a time and see whether a test says so: `python tests/bench/mutants.py 400 --seed 7`.

The places are drawn by seed over size, threads, layout, meant and sheet/solve (or what `--only` names): a comparison,
a sign, a number, a condition, a bound. For each the tests that name the module, or what it makes public,
are run in a copy of the checkout, and stop at the first that fails; what survives is run against all tests that are not slow.
What survives that too is printed with its line, for someone to read: some of it is no other program.
Run it with nice: it takes some seconds of one core a mutant. Nothing in the checkout itself is changed.
"""

from __future__ import annotations

import argparse
import ast
import copy
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
from pathlib import Path

TOP = Path(__file__).parents[2]
PACKAGE = "fractions_shop"
MODULES = ("size/*.py", "threads/*.py", "layout/*.py", "meant/*.py", "sheet/solve.py")
#: Signs that take one another's place.
_OTHER: dict[type[ast.AST], type[ast.AST]] = {
    ast.Lt: ast.LtE, ast.LtE: ast.Lt, ast.Gt: ast.GtE, ast.GtE: ast.Gt, ast.Eq: ast.NotEq, ast.NotEq: ast.Eq, ast.In: ast.NotIn,
    ast.NotIn: ast.In, ast.Is: ast.IsNot, ast.IsNot: ast.Is, ast.Add: ast.Sub, ast.Sub: ast.Add, ast.Mult: ast.Div, ast.Div: ast.Mult,
    ast.FloorDiv: ast.Mult, ast.Mod: ast.Mult, ast.Pow: ast.Mult, ast.And: ast.Or, ast.Or: ast.And,
}  # fmt: skip
_CALLS = {
    "min": "max",
    "max": "min",
    "floor": "ceil",
    "ceil": "floor",
    "any": "all",
    "all": "any",
    "sorted": "list",
    "abs": "+",
}


class _Places(ast.NodeVisitor):
    """The nodes of a module that may be spoilt, in order, without annotations and what only types are told of."""

    def __init__(self) -> None:
        self.found: list[tuple[ast.AST, str]] = []

    def visit_AnnAssign(self, node: ast.AnnAssign) -> None:
        if node.value is not None:
            self.visit(node.value)

    def visit_FunctionDef(self, node: ast.FunctionDef) -> None:
        if not any(isinstance(mark, ast.Name) and mark.id == "overload" for mark in node.decorator_list):
            for part in (*node.args.defaults, *(d for d in node.args.kw_defaults if d), *node.body):
                self.visit(part)

    def visit_If(self, node: ast.If) -> None:
        if isinstance(node.test, ast.Name) and node.test.id == "TYPE_CHECKING":
            return
        self.found.append((node, "condition"))
        self.generic_visit(node)

    def visit_Assert(self, node: ast.Assert) -> None:
        """Only the checker of types asks these."""

    def visit_Raise(self, node: ast.Raise) -> None:
        """The words of a fault are held by the tests of whole messages."""

    def visit_IfExp(self, node: ast.IfExp) -> None:
        self.found.append((node, "condition"))
        self.generic_visit(node)

    def visit_Compare(self, node: ast.Compare) -> None:
        self.found += [(node, f"sign {n}") for n, sign in enumerate(node.ops) if type(sign) in _OTHER]
        self.generic_visit(node)

    def visit_BinOp(self, node: ast.BinOp) -> None:
        if (
            type(node.op) in _OTHER and not isinstance(node.left, ast.JoinedStr | ast.Constant)
        ) or _is_number(node.left):
            self.found.append((node, "sign"))
        self.generic_visit(node)

    def visit_AugAssign(self, node: ast.AugAssign) -> None:
        if type(node.op) in _OTHER:
            self.found.append((node, "sign"))
        self.generic_visit(node)

    def visit_BoolOp(self, node: ast.BoolOp) -> None:
        self.found.append((node, "sign"))
        self.generic_visit(node)

    def visit_UnaryOp(self, node: ast.UnaryOp) -> None:
        if isinstance(node.op, ast.USub | ast.Not):
            self.found.append((node, "left out"))
        self.generic_visit(node)

    def visit_Constant(self, node: ast.Constant) -> None:
        if _is_number(node) or isinstance(node.value, bool):
            self.found.append((node, "number"))

    def visit_Call(self, node: ast.Call) -> None:
        if isinstance(node.func, ast.Name) and node.func.id in _CALLS and node.args:
            self.found.append((node, "call"))
        self.generic_visit(node)

    def visit_Break(self, node: ast.Break) -> None:
        self.found.append((node, "loop"))

    def visit_Continue(self, node: ast.Continue) -> None:
        self.found.append((node, "loop"))


def _is_number(node: ast.AST) -> bool:
    return isinstance(node, ast.Constant) and type(node.value) in (int, float)


def places(tree: ast.Module) -> list[tuple[ast.AST, str]]:
    """What may be spoilt in a module."""
    seen = _Places()
    seen.visit(tree)
    return seen.found


def spoilt(source: str, number: int, dice: random.Random) -> tuple[str, int, str]:
    """The module with its place of that number spoilt, the line, and what was done."""
    tree = ast.parse(source)
    node, how = places(tree)[number]
    before = ast.unparse(node).split("\n")[0]
    _spoil(node, how, dice)
    after = ast.unparse(node).split("\n")[0]
    return ast.unparse(tree), node.lineno, f"{before[:110]}   ->   {after[:110]}"  # type: ignore[attr-defined]


def _spoil(node: ast.AST, how: str, dice: random.Random) -> None:
    if isinstance(node, ast.If | ast.IfExp):
        node.test = (
            ast.UnaryOp(ast.Not(), node.test) if dice.randrange(3) else ast.Constant(bool(dice.randrange(2)))
        )
    elif isinstance(node, ast.Compare):
        n = int(how.split()[1])
        node.ops[n] = _OTHER[type(node.ops[n])]()  # type: ignore[call-overload]
    elif isinstance(node, ast.BinOp | ast.AugAssign | ast.BoolOp):
        node.op = _OTHER[type(node.op)]()  # type: ignore[assignment]
    elif isinstance(node, ast.UnaryOp):
        node.op = ast.UAdd() if isinstance(node.op, ast.USub) else ast.Not()
        if isinstance(node.op, ast.Not):
            node.operand = ast.UnaryOp(ast.Not(), node.operand)
    elif isinstance(node, ast.Constant):
        value = node.value
        node.value = (
            (not value)
            if isinstance(value, bool)
            else value + dice.choice((1, -1))
            if isinstance(value, int)
            else value * 1.5 or 1.0
        )  # type: ignore[operator]
    elif isinstance(node, ast.Call):
        assert isinstance(node.func, ast.Name)
        other = _CALLS[node.func.id]
        if other == "+":
            node.func = ast.Lambda(
                ast.arguments([], [ast.arg("x")], None, [], [], None, []), ast.Name("x", ast.Load())
            )
        else:
            node.func = ast.Name(other, ast.Load())
            node.keywords = [] if other == "list" else node.keywords
    elif isinstance(node, ast.Break | ast.Continue):
        node.__class__ = ast.Pass  # type: ignore[assignment]


# Tests


def tests_of(module: Path, copy_of: Path) -> list[str]:
    """The test files that name a module or what it makes public, those of its own name first."""
    dotted = ".".join(module.with_suffix("").parts)
    own = [part for part in re.split("_", module.stem) if len(part) > 3] or [module.stem]
    public = (copy_of / PACKAGE / "__init__.py").read_text("utf-8")
    names = {
        node.name for node in ast.parse((copy_of / module).read_text("utf-8")).body
        if isinstance(node, ast.FunctionDef | ast.ClassDef) and re.search(rf"\b{node.name}\b", public)
    }  # fmt: skip
    found: list[tuple[int, bool, str]] = []
    for path in sorted((copy_of / "tests").rglob("test_*.py")):
        text = path.read_text("utf-8")
        weight = 0
        if dotted in text or re.search(rf"from {dotted.rpartition('.')[0]} import .*\b{module.stem}\b", text):
            weight = 3
        elif any(re.search(rf"\b{name}\(", text) for name in names):
            weight = 2
        elif any(part in path.stem for part in own):
            weight = 1
        if weight and path.stem not in _NEVER:
            found.append((-weight, path.parent.name == "property", str(path.relative_to(copy_of))))
    files = [name for *_, name in sorted(found)]
    return [
        *files,
        *(name for name in _ALSO.get(module.parts[1], ()) if name not in files),
        "tests/test_cases.py",
    ]


#: Tests that hold a whole package to its laws, by statements of the language.
_ALSO = {
    "size": [f"tests/property/test_{name}_laws.py" for name in ("limits", "nought", "pieces")] + ["tests/test_limits.py", "tests/test_writing.py"],
    "layout": [f"tests/test_{name}.py" for name in ("spacing_forms", "spacing_statements", "sheet_forms", "features", "told")],
    "threads": [f"tests/test_{name}.py" for name in ("thread_answers", "thread_holes", "substitute_rules", "thread_series")],
    "meant": [f"tests/test_{name}.py" for name in ("recovery", "recovery_several", "reconcile", "reads", "reads_scales", "priors", "priors_worked", "steps", "chance", "meant_in_language")],
    "sheet": [f"tests/test_{name}.py" for name in ("sheet", "sheet_doubts", "sheet_feeds", "sheet_changes", "living", "parts", "reads")],
}  # fmt: skip


#: What tests the house, not the work, or takes longer than it says more.
_NEVER = {
    "test_layers", "test_house", "test_developers", "test_wheel", "test_recipes", "test_recipe_series", "test_recipe_gauge", "test_typed",
    "test_readme", "test_examples", "test_advice_mutations", "test_public_names", "test_lowest", "test_doctests", "test_page", "test_pdf", "test_fuzz_laws", "test_live_reading", "test_schema", "test_standing", "test_keys",
}  # fmt: skip


def run(files: list[str], folder: Path, seconds: float, more: tuple[str, ...] = ()) -> str:
    """What comes of the tests in a process of their own: lives, killed, or timed out."""
    child = os.fork()
    if child == 0:
        os.setsid()
        resource.setrlimit(resource.RLIMIT_CPU, (int(seconds), int(seconds) + 5))
        sink = os.open(os.environ.get("MUTANTS_LOG", os.devnull), os.O_WRONLY | os.O_CREAT | os.O_TRUNC)
        os.dup2(sink, 1)
        os.dup2(sink, 2)
        os.chdir(folder)
        sys.path[:] = [
            str(folder),
            str(folder / "tests"),
            *(p for p in sys.path if Path(p or ".") not in (TOP, TOP / "tests", TOP / "tests" / "bench")),
        ]
        os.environ["PYTHONPATH"] = str(folder)
        code = 99
        try:
            import pytest

            code = int(pytest.main(["-x", "-q", "-p", "no:cacheprovider", *more, *files]))
        except BaseException:
            traceback.print_exc()
        finally:
            sys.stderr.flush()
            os._exit(code)
    until = time.monotonic() + seconds * 6
    while time.monotonic() < until:
        done, status = os.waitpid(child, os.WNOHANG)
        if done:
            if os.WIFSIGNALED(status):
                return "timed out"
            return {
                0: "lives",
                1: "killed",
                2: "killed",
            }.get(os.WEXITSTATUS(status), "no tests")
        time.sleep(0.05)
    os.killpg(child, signal.SIGKILL)
    os.waitpid(child, 0)
    return "timed out"


#: What may come of a mutant.
_CAME = ("killed", "killed by others", "timed out", "lives", "no tests")


def main() -> int:
    parse = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parse.add_argument("number", type=int)
    parse.add_argument("--seed", type=int, default=7)
    parse.add_argument("--only", nargs="*", default=MODULES, help="patterns of modules")
    parse.add_argument("--seconds", type=float, default=60, help="of CPU that the tests of a mutant may take")
    parse.add_argument(
        "--wide", action="store_true", help="run survivors against all tests that are not slow"
    )
    asked = parse.parse_args()
    dice = random.Random(asked.seed)
    import pint  # noqa: F401 - loaded once, for all that are forked
    import pytest  # noqa: F401

    counts: Counter[str] = Counter()
    survivors: list[str] = []
    with tempfile.TemporaryDirectory() as place:
        folder = Path(place) / "copy"
        shutil.copytree(
            TOP,
            folder,
            ignore=shutil.ignore_patterns(".git", ".venv", "__pycache__", ".mypy_cache", ".ruff_cache"),
        )
        modules = sorted({path for pattern in asked.only for path in (folder / PACKAGE).glob(pattern)})
        every = [
            (path.relative_to(folder), n)
            for path in modules
            for n in range(len(places(ast.parse(path.read_text("utf-8")))))
        ]
        print(
            f"{len(every):,} places in {len(modules)} modules; {asked.number} drawn with seed {asked.seed}",
            flush=True,
        )
        for module, n in dice.sample(every, min(asked.number, len(every))):
            path = folder / module
            source = path.read_text("utf-8")
            made, line, what = spoilt(source, n, copy.copy(dice))
            path.write_text(made, "utf-8")
            try:
                came = run(tests_of(module, folder), folder, asked.seconds)
                if came == "lives" and asked.wide:
                    came = run(
                        ["tests"],
                        folder,
                        400,
                        (
                            "-m",
                            "not slow",
                            "--ignore=tests/test_developers.py",
                            "--ignore=tests/test_lowest.py",
                        ),
                    )
                    came = "killed by others" if came == "killed" else came
            finally:
                path.write_text(source, "utf-8")
            counts[came] += 1
            if sum(counts[kind] for kind in _CAME) % 10 == 0:
                print(", ".join(f"{counts[kind]} {kind}" for kind in _CAME if counts[kind]), flush=True)
            counts[f"{module.parts[1]}: {came}"] += 1
            if came in ("lives", "no tests"):
                survivors.append(f"{module}:{line}: {what}")
                print("LIVES", survivors[-1], flush=True)
    for kind, many in sorted(counts.items()):
        print(f"{many:>5}  {kind}")
    done = sum(counts[kind] for kind in _CAME)
    print(f"{done - len(survivors)} of {done} killed, {100 * (done - len(survivors)) / max(1, done):.1f} %")
    return 0


if __name__ == "__main__":
    sys.exit(main())
