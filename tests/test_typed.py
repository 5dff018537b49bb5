"""Typed programs of users: those of a folder, README's and the examples pass a strict type checker, and run."""

from __future__ import annotations

import ast
import doctest
import inspect
import re
import runpy
import subprocess
import sys
from pathlib import Path

import pytest
from processes import with_libraries
from readme_blocks import TOP, blocks

import fractions_shop

FOLDER = Path(__file__).parent / "typed"
PROGRAMS = sorted(FOLDER.glob("*.py"))
EXAMPLES = sorted(path for path in (TOP / "examples").glob("*.py") if path.name != "renew.py")


def _of_readme() -> str:
    """README's python examples as one program, without those that show an error."""
    text = "\n".join(block.text for block in blocks() if block.kind == "python")
    return "".join(part.source for part in doctest.DocTestParser().get_examples(text) if part.exc_msg is None)


def test_a_strict_type_checker_passes_them_all(tmp_path: Path) -> None:
    program = tmp_path / "of_readme.py"
    program.write_text(_of_readme(), encoding="utf-8")
    files = [str(path) for path in (program, *PROGRAMS, *EXAMPLES)]
    done = subprocess.run(
        [sys.executable, "-m", "mypy", "--strict", "--no-error-summary", *files],
        capture_output=True, text=True, cwd=TOP, check=False, env=with_libraries(),
    )  # fmt: skip
    assert done.stdout + done.stderr == ""
    assert done.returncode == 0


@pytest.mark.parametrize("program", PROGRAMS, ids=lambda path: path.stem)
def test_a_program_of_the_folder_runs(program: Path, capsys: pytest.CaptureFixture[str]) -> None:
    runpy.run_path(str(program))
    assert capsys.readouterr().out


def test_the_list_of_names_can_be_read_without_running_it() -> None:
    tree = ast.parse(Path(fractions_shop.__file__).read_text(encoding="utf-8"))
    literal = next(
        ast.literal_eval(node.value)
        for node in tree.body
        if isinstance(node, ast.Assign) and ast.unparse(node.targets[0]) == "__all__"
    )
    assert literal == fractions_shop.__all__
    imported = {
        alias.name
        for node in ast.walk(tree)
        if isinstance(node, ast.ImportFrom) and node.module != "typing" and node.module != "importlib"
        for alias in node.names
    }
    assert imported == set(literal)


#: What is not ours is not ours to type: pint's registries and its quantities.
_ANY_FOR_A_REASON = {"to_pint", "from_pint"}


def test_no_public_function_takes_or_gives_just_anything() -> None:
    loose = set()
    for name in fractions_shop.__all__:
        function = getattr(fractions_shop, name)
        if inspect.isfunction(function):
            parts = [*inspect.signature(function).parameters.values()]
            said = [str(part.annotation) for part in parts] + [
                str(inspect.signature(function).return_annotation)
            ]
            loose |= {name} if any(re.search(r"\bAny\b", text) for text in said) else set()
    assert loose == _ANY_FOR_A_REASON
