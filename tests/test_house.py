"""House rules that a reader relies on: docstrings, annotations, and no float in the path of a size."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

from over_all import over
from package_source import PACKAGE, nodes, tree

from fractions_shop.requests import words

FILES = sorted(PACKAGE.rglob("*.py"))


def _id(path: Path) -> str:
    return str(path.relative_to(PACKAGE))


Function = ast.FunctionDef | ast.AsyncFunctionDef


def _overload(node: ast.ClassDef | Function) -> bool:
    """Whether it only tells a type checker of one form; the function itself says what it is."""
    return any(isinstance(name, ast.Name) and name.id == "overload" for name in node.decorator_list)


def _public(node: ast.Module | ast.ClassDef) -> Iterator[ast.ClassDef | Function]:
    """Public classes, functions and methods; what is inside a function is its own affair."""
    for child in node.body:
        if isinstance(child, (ast.ClassDef, ast.FunctionDef, ast.AsyncFunctionDef)) and not (
            child.name[0] == "_" or _overload(child)
        ):
            yield child
            if isinstance(child, ast.ClassDef):
                yield from _public(child)


@over(FILES, _id)
def test_every_module_class_and_function_says_what_it_is(path: Path) -> None:
    module = tree(path)
    assert ast.get_docstring(module), f"{path} has no docstring"
    for node in _public(module):
        assert ast.get_docstring(node), f"{path}:{node.lineno} {node.name} has no docstring"


@over(FILES, _id)
def test_every_public_function_is_typed(path: Path) -> None:
    for node in _public(tree(path)):
        if isinstance(node, ast.ClassDef):
            continue
        assert node.returns is not None, f"{path}:{node.lineno} {node.name} does not say what it returns"
        wanted = [*node.args.posonlyargs, *node.args.args, *node.args.kwonlyargs]
        for argument in wanted:
            assert argument.annotation or argument.arg in ("self", "cls"), (
                f"{path}:{node.lineno} {argument.arg}"
            )


#: Where a float may be named at all: to be refused, to be taken with its trust, or to weigh odds
#: and place ink, none of which is a size.
SIZES = (
    "size/units",
    "size/approx",
    "size/quantity",
    "size/limits",
    "size/notation",
    "size/arguments",
    "size/rule",
    "layout/spacing",
    "layout/room",
    "layout/whole_numbers",
    "layout/share",
    "layout/bodies",
    "layout/counts",
    "layout/posts",
    "layout/chain",
    "layout/places",
    "language/arithmetic",
)


@over(SIZES)
def test_no_float_is_made_in_the_path_of_a_size(module: str) -> None:
    path = PACKAGE / f"{module}.py"
    for node in nodes(path):
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name):
            assert node.func.id not in ("float", "round_half_up"), f"{path}:{node.lineno} makes a float"
        if isinstance(node, ast.Constant):
            assert not isinstance(node.value, float), f"{path}:{node.lineno} holds the float {node.value}"
        if isinstance(node, ast.ImportFrom) and node.module == "math":
            names = {alias.name for alias in node.names}
            assert names <= {"isqrt", "ceil", "floor", "gcd", "lcm"}, f"{path}:{node.lineno} imports {names}"


def test_the_package_says_that_it_is_typed() -> None:
    assert (PACKAGE / "py.typed").is_file()


#: Where a writer looks at text: signs that its own form would take for a formula.
_LOOKS_AT_TEXT = {"show/columns.py"}
_READING = {"startswith", "endswith", "removeprefix", "removesuffix", "partition", "rpartition"}


@over([p for p in FILES if p.parent.name in ("show", "pictures", "figures")], _id)
def test_no_writer_reads_a_sentence_of_ours(path: Path) -> None:
    if _id(path) in _LOOKS_AT_TEXT:
        return
    for node in nodes(path):
        if isinstance(node, ast.Attribute):
            assert node.attr not in _READING, (
                f"{_id(path)}:{node.lineno} reads text: let it be told by a type"
            )


#: What stands between the members of our own lists, and before our rounded figures: nothing is found again by them.
_OUR_OWN_SIGNS = {", ", "; ", "about ", "if "}
_CUTTING = {"split", "replace", *_READING}


@over([p for p in FILES if p.parent.name not in ("advice", "language", "written", "prompt")], _id)
def test_nothing_is_found_again_by_our_own_signs(path: Path) -> None:
    """A list that was joined, a figure that was told as rounded: what they hold is kept beside them."""
    for node in nodes(path):
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute) and node.func.attr in _CUTTING:
            cut = {each.value for each in node.args if isinstance(each, ast.Constant)}
            assert not cut & _OUR_OWN_SIGNS, f"{_id(path)}:{node.lineno} takes our own text apart"


#: Libraries whose switches are the whole process's, and so the caller's alone: `__main__` is the one caller here.
_THE_CALLERS = {"gc", "locale"}


@over(FILES, _id)
def test_nothing_of_the_whole_process_is_switched(path: Path) -> None:
    for node in nodes(path):
        assert not isinstance(node, ast.Global), f"{_id(path)}:{node.lineno} sets a global of its module"
        names = (
            [alias.name for alias in node.names]
            if isinstance(node, ast.Import)
            else [node.module or ""]
            if isinstance(node, ast.ImportFrom)
            else []
        )
        if _id(path) != "__main__.py":
            assert not _THE_CALLERS.intersection(names), f"{_id(path)} switches {names}"


def _outside_the_rooms() -> Iterator[tuple[str, Path]]:
    return ((_id(path), path) for path in FILES if not _id(path).startswith("requests/"))


#: What the advice says of one request's own numbers.
_SPOKEN_TO = {("language/advice/missing_units.py", "drill")}
_ASKS = re.compile(r"\.(?:word|request)\b|\banswer\.kind\b")


def test_no_module_outside_the_rooms_asks_which_request_it_has_before_it():
    """What is so of one request is a fact of its room, or of its rule in the grammar."""
    found = set()
    for name, path in _outside_the_rooms():
        for node in nodes(path):
            if isinstance(node, ast.Compare) and _ASKS.search(ast.unparse(node.left)):
                said = {each.value for each in ast.walk(node) if isinstance(each, ast.Constant)}
                found |= {(name, word) for word in said & {*words()}}
    assert found == _SPOKEN_TO


def test_no_module_outside_the_rooms_asks_of_which_class_a_result_is():
    """A new request has a class of its own, that nobody else can know of."""
    found = set()
    for name, path in _outside_the_rooms():
        for node in nodes(path):
            call = ast.unparse(node) if isinstance(node, ast.Call) else ""
            match = re.match(r"isinstance\([\w.]*result, (\w+)\)", call)
            found |= {(name, match[1])} if match else set()
    # What sets the size of an expression apart from requests, and what a check is made of.
    others = {place for place in found if place[1] != "SizeResult"}
    assert others == {("sheet/solve.py", "CheckResult")}


def _classes() -> Iterator[tuple[str, str]]:
    """Every class of the package: its name, and the module it stands in."""
    for path in FILES:
        yield from ((node.name, _id(path)) for node in nodes(path) if isinstance(node, ast.ClassDef))


def test_a_class_name_means_one_thing_in_the_whole_package():
    homes: dict[str, list[str]] = {}
    for name, module in _classes():
        homes.setdefault(name.lstrip("_"), []).append(module)
    assert {name: modules for name, modules in homes.items() if len(modules) > 1} == {}


#: Names that leave a reader asking: one what, found where, told what?
_SAYS_NOTHING = {"one", "ones", "found", "told", "thing", "things", "stuff", "obj", "tmp"}


@over(FILES, _id)
def test_a_variable_says_what_it_holds(path: Path) -> None:
    fields = {  # said with their class, and outside Python too
        id(node.target)
        for each in nodes(path)
        if isinstance(each, ast.ClassDef)
        for node in each.body
        if isinstance(node, ast.AnnAssign)
    }
    for node in nodes(path):
        name = node.arg if isinstance(node, ast.arg) else node.id if isinstance(node, ast.Name) else ""
        assert name not in _SAYS_NOTHING or id(node) in fields, f"{_id(path)}: what does {name} hold?"
