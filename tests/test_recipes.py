"""The recipes of DEVELOPERS.md are true: in a copy of the checkout each is followed, and what it adds is tried."""

from __future__ import annotations

import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
import recipes
from processes import of_a_copy

import fractions_shop
from fractions_shop.errors import InputError

TOP = Path(__file__).parents[1]
#: What is written by a script, never by hand.
_GENERATED = {"renew_grammar.py", "renew_schema.py"}

_REQUEST = """
import json
from jsonschema import Draft202012Validator
import renew_schema
from fractions_shop import InputError, Session, Sheet
from fractions_shop.command.cli import main
from fractions_shop.prompt.colours import pieces
from fractions_shop.prompt.model import PromptModel
from fractions_shop.prompt.word_offers import word_offers
from fractions_shop.requests.help import topic
from fractions_shop.show.ruler import picture

answer = Session().answer("double 2 in")
assert answer.value.inch == 4, answer
assert answer.text() == "two of 2 in (50.8 mm) make 4 in (101.6 mm)", answer.text()
assert answer.gist() == answer.text()
assert Session().answer("double 1/2 in + 1/4 in").value.inch * 2 == 3
assert Session().answer("DOUBLE 2 in").value.inch == 4
session = Session()
assert session.answer("pair = double 3 mm").value.mm == 6
assert session.answer("ans + pair").value.mm == 12
assert "4 in" in picture(answer, 79)[0], picture(answer, 79)

told = topic("double")
assert (told.meaning, told.forms, told.example) == ("a size taken twice", ("double SIZE",), "double 2 in"), told
(offer,) = (one for one in word_offers("dou", {}, True) if one.text == "double")
assert offer.meaning == "a size taken twice"
assert pieces("double 2 in")[0] == ("word", "double")
assert PromptModel().settled("double 2 in").error is None

data = json.loads(json.dumps(answer.data()))
assert (data["kind"], data["twice"]["inch"]) == ("double", "4"), data
schema = json.loads(renew_schema.ANSWER.read_text("utf-8"))
valid = Draft202012Validator(schema)
assert list(valid.iter_errors(data)) == []
del data["twice"]
assert list(valid.iter_errors(data)), "the schema does not know what the answer tells"

sheet = Sheet.from_text("rail = double 2 in\\ncheck rail = 4 in\\npart rail: 2 of oak, rail\\n")
assert sheet.ok, sheet.to_text()
for written in (sheet.to_text(), sheet.to_markdown(), sheet.to_html()):
    assert "make 4 in (101.6 mm)" in written.replace("&nbsp;", " "), written
assert "rail,4" in sheet.to_csv(), sheet.to_csv()
waiting = Sheet.from_text("rule 33 xx\\ndouble 2 in")
assert [line.state for line in waiting.worked] == ["fault", "waits"], "it says that it reads the rule"


def fault(line):
    try:
        Session().answer(line)
    except InputError as error:
        return error
    raise AssertionError(f"{line} is answered")


assert fault("double 2").message == "this has no unit, where a length is needed", fault("double 2")
assert fault("double 2").advice == "write 2 in or 2 mm"
assert fault("double , 2 in").advice == "write it like this: double 2 in", fault("double , 2 in")
session = Session()  # a sheet that has the word as a name goes on to mean that
assert session.answer("double = 3 in").value.inch == 3
assert session.answer("double + 1 in").value.inch == 4
assert session.answer("double 2 in").value.inch == 4

assert fractions_shop.double("2 in").text() == answer.text()
assert fractions_shop.double("2 in").data()["twice"]["inch"] == "4"
assert fault("double 2 sq in").message, "an area has no length"
assert main(["double 2 in", "--json"]) == 0
"""
_UNIT = """
import every_form
from fractions import Fraction
assert every_form.wrong_units(dict.fromkeys(("dm", "decimetre", "decimetres"), Fraction(100))) == []
assert "dm" in every_form.FACTORS
"""
_RULE = """
import every_form
assert every_form.wrong_rules({"quarter mm": every_form.RULES["quarter mm"]}) == []
"""
_FUNCTION = """
from fractions_shop import Session
from fractions_shop.prompt.colours import pieces
from fractions_shop.prompt.word_offers import word_offers
from fractions_shop.requests.help import topic
assert Session().answer("twice(3/8 in)").value.inch * 4 == 3
assert Session().answer("2 in + twice(3/8 in ± 1 thou)").value.nominal.inch * 4 == 11
assert topic("twice").meaning == "two of a size"
assert Session().answer(topic("twice").example).value.inch * 4 == 3
assert "two of a size" in [one.meaning for one in word_offers("twi", {}, True)]
assert pieces("twice(3/8 in)")[0] == ("function", "twice")
"""
_OUTPUT = """
from pathlib import Path
from fractions_shop import Sheet
from fractions_shop.command.cli import main
from fractions_shop.command.completion import SHELLS, script
from fractions_shop.command.words.sheet import parser
said = "rail = 2 in\\nreading reads 0.3712 in within 0.01 in\\nlip = reading * 2\\nbad = 51,5 mm\\ngap = 1/2 in ± 1 thou\\nunits mm first\\nturn = 3 deg\\n"
Path("rack.shop").write_text("rail = 2 in\\n", "utf-8")
told = dict(row.split(": ", 1) for row in Sheet.from_text(said).to_list().splitlines()[1:])
assert told["rail"] == "50.8 mm = 2 in exactly", told
assert told["bad"].startswith("not worked out: 51,5 has a comma"), told
assert told["gap"].startswith("12.7 mm"), told
assert told["turn"].startswith("3 deg"), told
assert "taken from a reading" in told["reading"] and "rests on" in told["lip"], told
assert "list  the named sizes, one a line" in parser().format_help(), parser().format_help()
for shell in SHELLS:
    assert " list " in script(shell), shell
for _ in range(2):  # what it wrote itself it writes over
    assert main(["sheet", "rack.shop", "--out", "rack.lst"]) == 0
assert Path("rack.lst").read_text("utf-8").splitlines()[1:] == ["rail: 2 in = 50.8 mm exactly"], Path("rack.lst").read_text()
assert main(["sheet", "rack.shop", "--to", "list"]) == 0
"""


@pytest.fixture
def copy(tmp_path: Path) -> Path:
    ignored = shutil.ignore_patterns("__pycache__", "data", "bench", "test_*")
    for folder in ("fractions_shop", "grammar", "tests"):
        shutil.copytree(TOP / folder, tmp_path / folder, ignore=ignored)
    shutil.copy(TOP / "README.md", tmp_path)
    return tmp_path


def contents(folder: Path) -> dict[str, bytes]:
    return {
        str(path.relative_to(folder)): path.read_bytes()
        for path in folder.rglob("*")
        if path.is_file() and "__pycache__" not in path.parts
    }


def run(folder: Path, *order: str) -> str:
    done = subprocess.run(
        [sys.executable, *order], env=of_a_copy(folder, folder / "tests"), cwd=folder,
        capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert done.returncode == 0, done.stderr or done.stdout
    return done.stdout


def follow(folder: Path, edits: tuple[recipes.Edit, ...]) -> set[str]:
    """Make the edits; give the files that they touch."""
    for edit in edits:
        home = folder / edit.path
        if not edit.place:
            assert not home.exists(), "a new file"
            home.write_text(edit.added, "utf-8")
            continue
        text = home.read_text("utf-8")
        assert edit.place in text, f"{edit.path} has no {edit.place!r} any more"
        home.write_text(text.replace(edit.place, edit.added + edit.place, 1), "utf-8")
    return {edit.path for edit in edits}


def recipe(name: str) -> str:
    """The paragraph of DEVELOPERS.md that begins with that name."""
    text = (TOP / "DEVELOPERS.md").read_text("utf-8")
    (found,) = re.findall(rf"^\*\*{name}\.\*\* (.*?)\n\n", text, re.MULTILINE | re.DOTALL)
    return " ".join(found.split())


@pytest.mark.parametrize(
    ("name", "edits", "tried", "most"),
    [
        pytest.param("A request", recipes.REQUEST, _REQUEST, 7, id="request"),
        pytest.param("A unit", recipes.UNIT, _UNIT, 2, id="unit"),
        pytest.param("A rule", recipes.RULE, _RULE, 2, id="rule"),
        pytest.param("A function of the language", recipes.FUNCTION, _FUNCTION, 2, id="function"),
        pytest.param("An output", recipes.OUTPUT, _OUTPUT, 4, id="output"),
    ],
)
def test_the_recipe_is_true(
    copy: Path, name: str, edits: tuple[recipes.Edit, ...], tried: str, most: int
) -> None:
    before = contents(copy)
    touched = follow(copy, edits)
    told = recipe(name)
    scripts = re.findall(r"python tests/(renew_\w+\.py)", told)
    assert {*scripts} <= _GENERATED
    for script in scripts:
        run(copy, str(copy / "tests" / script))
    run(
        copy,
        "-c",
        f"import fractions_shop\nassert fractions_shop.__file__.startswith({str(copy)!r})\n{tried}",
    )

    assert len(touched) <= most
    for path in touched:
        assert any(
            part in told for part in (path.removeprefix("fractions_shop/"), f"{Path(path).parent.name}/")
        ), path
    after = contents(copy)
    changed = {
        path
        for path, text in after.items()
        if before.get(path) != text and not path.startswith(("home/", "rack"))
    }
    written = {
        "fractions_shop/language/parse_tables.py",
        "grammar/named.lark",
        "fractions_shop/requests/answer.schema.json",
    }
    assert changed - touched <= (written if scripts else set())


#: The tests that hold lists to the tree: none of them needs to be told of what a recipe adds.
_LISTS = (
    "tests/test_layers.py::test_every_module_has_one_layer",
    "tests/test_layers.py::test_imports_point_one_way",
    "tests/test_public_names.py::test_a_public_name_has_a_docstring_with_an_example[double]",
    "tests/prompt/test_word_offers.py::test_every_request_and_every_word_of_the_prompt_is_offered_with_its_meaning",
    "tests/test_schema.py::test_every_request_is_in_the_schema_and_among_these_statements",
    "tests/test_schema.py::test_the_schemas_are_those_of_the_typed_results_as_they_are_now",
    "tests/test_readme.py::test_every_request_and_function_is_in_the_manual",
    "tests/test_units_everywhere.py::test_every_word_of_every_unit_is_right_in_every_form",
    "tests/test_units_everywhere.py::test_a_unit_is_metric_by_its_factor",
    "tests/test_units_everywhere.py::test_every_rule_is_right_in_every_request",
)  # fmt: skip


def test_all_recipes_together_leave_every_list_true(tmp_path: Path) -> None:
    for folder in ("fractions_shop", "grammar", "tests"):
        shutil.copytree(TOP / folder, tmp_path / folder, ignore=shutil.ignore_patterns("__pycache__"))
    for name in ("README.md", "DEVELOPERS.md", "pyproject.toml"):
        shutil.copy(TOP / name, tmp_path)
    for edits in (recipes.REQUEST, recipes.UNIT, recipes.RULE, recipes.FUNCTION, recipes.OUTPUT):
        follow(tmp_path, edits)
    for script in sorted(_GENERATED):
        run(tmp_path, str(tmp_path / "tests" / script))
    run(tmp_path, "-m", "pytest", "-q", "-p", "no:cacheprovider", *_LISTS)


@pytest.mark.parametrize(
    ("tried", "missed"),
    [
        pytest.param(_REQUEST, InputError, id="request"),
        pytest.param(_UNIT, InputError, id="unit"),
        pytest.param(_RULE, KeyError, id="rule"),
        pytest.param(_FUNCTION, InputError, id="function"),
        pytest.param(_OUTPUT, AttributeError, id="output"),
    ],
)
def test_what_is_tried_fails_without_the_recipe(
    tried: str, missed: type[Exception], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What holds the test above up."""
    monkeypatch.chdir(tmp_path)
    with pytest.raises(missed):
        exec(compile(tried, "tried", "exec"), {"fractions_shop": fractions_shop})
