"""The wheel stands alone: built, installed in a new venv far from the checkout, and run."""

from __future__ import annotations

import subprocess
import sys
import venv
import zipfile
from pathlib import Path

import pytest
from processes import with_libraries

from fractions_shop import __version__

TOP = Path(__file__).parents[1]


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("wheel")
    # Built by the back end itself, with what is installed here: no network is needed.
    code = f"import hatchling.build as b; print(b.build_wheel({str(folder)!r}))"
    subprocess.run(
        [sys.executable, "-c", code], cwd=TOP, check=True, capture_output=True, env=with_libraries()
    )
    (built,) = folder.glob("*.whl")
    return built


def test_the_wheel_holds_the_grammar_the_tables_and_the_type_marker(wheel):
    names = set(zipfile.ZipFile(wheel).namelist())
    for grammar in (TOP / "grammar").glob("*.lark"):
        assert f"fractions_shop/grammar/{grammar.name}" in names
    for table in (TOP / "fractions_shop" / "tables").glob("*.csv"):
        assert f"fractions_shop/tables/{table.name}" in names
    assert "fractions_shop/py.typed" in names
    assert wheel.name.startswith(f"fractions_shop-{__version__}-"), "the version is not that of the package"
    assert not any(name.startswith(("tests/", "examples/")) for name in names)


def test_the_installed_command_answers_far_from_the_checkout(wheel, tmp_path):
    home = tmp_path / "venv"
    # Our own libraries are lent by path, so that the test needs no network; pip only unpacks the wheel.
    venv.EnvBuilder(with_pip=False).create(home)
    python = home / "bin" / "python"
    if not python.exists():
        python = home / "Scripts" / "python.exe"
    subprocess.run(
        [sys.executable, "-m", "pip", "--python", python, "install", "-q", "--no-deps", "--no-index", wheel],
        check=True, capture_output=True, cwd=tmp_path, env=with_libraries(),
    )  # fmt: skip
    import lark

    lent = tmp_path / "lent"
    lent.mkdir()
    (lent / "lark").symlink_to(Path(lark.__file__).parent)
    done = subprocess.run(
        [python, "-m", "fractions_shop", "divide 2 in into 5 up"],
        capture_output=True, text=True, cwd=tmp_path, check=False,
        env={"PYTHONPATH": str(lent), "HOME": str(tmp_path), "PATH": ""},
    )  # fmt: skip
    assert done.stderr == ""
    assert done.stdout.startswith("2 1/32 in (51.59375 mm) falls into 5 spaces of 13/32 in")
    where = subprocess.run(
        [python, "-c", "import fractions_shop; print(fractions_shop.__file__)"],
        capture_output=True, text=True, cwd=tmp_path, check=True,
    )  # fmt: skip
    assert str(home) in where.stdout
