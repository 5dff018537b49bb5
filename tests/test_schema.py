"""The JSON Schema in the package, against real answers and real failures."""

from __future__ import annotations

import copy
import json
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Any

import case_files
import pytest
import readme_blocks
import renew_schema
import schema_maker
from hypothesis import given
from hypothesis import strategies as st
from jsonschema import Draft202012Validator
from over_all import over
from referencing import Registry, Resource
from strategies import plain_sizes, written_limits

import fractions_shop
from fractions_shop import InputError, Session, drills, gauges, requests
from fractions_shop.requests import data
from fractions_shop.requests import kinds as answer_kinds
from fractions_shop.requests import words as request_words
from fractions_shop.show.sheet import Sheet

SCHEMA = json.loads((Path(fractions_shop.__file__).parent / "requests/answer.schema.json").read_text("utf-8"))
VALID = Draft202012Validator(SCHEMA)
SHEET_SCHEMA = json.loads(
    (Path(fractions_shop.__file__).parent / "show/sheet.schema.json").read_text("utf-8")
)
WHOLE = Draft202012Validator(
    SHEET_SCHEMA, registry=Registry().with_resource(SCHEMA["$id"], Resource.from_contents(SCHEMA))
)

STATEMENTS = [
    "2 1/32 in / 5",
    "-1/64 in",
    "sqrt(2) * 1 in",
    "2 in * 3 in",
    "2 in ^ 3",
    "5",
    "1 / 2 in",
    "20 tpi",
    "12.5 deg",
    "asin(1/2)",
    "1/2 in +1/-2 thou",
    "(1/2 in ± 2 thou) + (1 in ± 1 thou)",
    "51.5 mm as 64ths",
    "1/2 in ± 2 thou as mm",
    "18 SWG",
    "pitch = 2 in / 5",
    "snap 10.3 mm",
    "snap 10.3 mm to half mm down",
    "snap 10.3 mm to 32nds within 0.5 mm",
    "divide 2 in into 5 up",
    "space = divide 10 in into 4 leaving 1/2 in each end",
    "divide 10 in into 3 between 1/4 in",
    "divide 2 in into 5 and 7 up",
    "divide 2 1/32 in into 5 between any from 1/8 in to 1/4 in",
    "divide 2 in into 5 between any on 8ths",
    "divide 3/8 in into 5 between any on 8ths",
    "divide 72 in for 13 of 1 1/2 in",
    "divide 72 in for any of 1 1/2 in, at most 4 in apart",
    "divide 109 in into spaces of about 7 in",
    "share 2 5/8 in among 4 and 2",
    "share 1 mm among 2 and 4 on 16ths",
    "places 1 1/2 in, 7 in along 8 in",
    "places 1 in by 2 in, 3.3 in by 2 in",
    "hinge = places 3 across by 2 in, 2 up by 1 in first at 1/2 in, 3/4 in along 8 in by 4 in",
    "bolt_circle(6, 4 in)",
    "mark 10 13/16 in for 3 of 3 5/16 in centres",
    "mark 10 in into 4 leaving 1/2 in each end between 1 in edges",
    "pack 5.0073 in from blocks 81",
    "mark 10 in into 7",
    "mark 10 in into 7 on mm from 1/2 in",
    "recover 10.31 mm",
    "recover 10.31 mm, 20.6 mm, 30.95 mm",
    "crown 6 across 2 in radius 20 in",
    "pack 1 in from 1/4 in, 1/8 in",
    "pack 1.03 in from 1/4 in, 1/8 in each once",
    "fit 10 mm H7/g6",
    "fit 10 mm H7",
    "fit 1 in RC4",
    "thread 6 BA",
    "thread 1/4-20 UNC",
    "thread G 1/4",
    "identify 0.25 in, 20 tpi",
    "substitute 1/4 BSW from UNC",
    "drill 3.3 mm",
    "drill 20 in",
    "gauge 1 mm",
    "gauge 18 SWG",
    "check 1 in = 25.4 mm",
    "check 1 in = 25 mm within 1 thou",
    "check 2 in * 3 in = 6 in ^ 2",
    "rule 32nds",
    "rule half mm",
    # An error common to all readings has a sign.
    "recover 14.1 mm, 20.2 mm, 27.3 mm by caliper unzeroed",
    "recover 9.7 mm, 12.9 mm, 19.2 mm, 25.6 mm by caliper unzeroed",
    "recover 9.7 mm, 12.9 mm, 19.2 mm, 25.6 mm off a print",
    *(requests.room(kind).example for kind in answer_kinds()),
]
FAULTS = [
    "2 in +",
    "nonsense",
    "51,5 mm",
    "2 in + 3",
    "1/0 in",
    "2 5/4 in",
    "(",
    "½½",
    "divide 2 in into 0",
    "thread 7/64 BSW",
]


#: What must be said before some examples.
_BEFORE = {requests.room(kind).example: requests.room(kind).before for kind in answer_kinds()}


def answered(statement: str) -> dict[str, Any]:
    """Its object through JSON itself, as a reader gets it."""
    made: dict[str, Any] = json.loads(_json_of(statement))
    return made


@cache
def _json_of(statement: str) -> str:
    session = Session()
    for line in _BEFORE.get(statement, ()):
        session.answer(line)
    answer = session.answer(statement)
    assert answer is not None
    return json.dumps(answer.data())


def failed(statement: str) -> dict[str, Any]:
    with pytest.raises(InputError) as caught:
        Session().answer(statement)
    return json.loads(json.dumps(data.fault(caught.value.at(caught.value.text, 0, 3))))


def faults_in(found: object) -> list[str]:
    return [f"{list(e.path)}: {e.message[:200]}" for e in VALID.iter_errors(found)]


def test_the_schema_is_one():
    Draft202012Validator.check_schema(SCHEMA)


def test_the_schema_is_of_the_number_that_answers_carry():
    defs = SCHEMA["$defs"]
    numbers = {defs[part]["properties"]["schema"]["const"] for part in ("answer", "fault")}
    assert numbers == {data.SCHEMA}
    assert SCHEMA["$id"].endswith(f":{data.SCHEMA}")


@over(STATEMENTS)
def test_answers_are_valid(statement):
    assert faults_in(answered(statement)) == []


@pytest.mark.parametrize("statement", FAULTS)
def test_faults_are_valid(statement):
    found = failed(statement)
    assert faults_in(found) == []
    assert (found["ok"], found["line"]) == (False, 3)
    assert found["column"] >= 1


def test_every_request_is_in_the_schema_and_among_these_statements():
    kinds = set(SCHEMA["$defs"]["answer"]["properties"]["kind"]["enum"])
    assert kinds == {*answer_kinds()} >= {*request_words()}
    assert {answered(s)["kind"] for s in STATEMENTS} == kinds
    described = {branch["if"]["properties"]["kind"]["const"] for branch in SCHEMA["$defs"]["answer"]["allOf"]}
    assert described == kinds


def _said_in_order() -> list[list[str]]:
    """Every example that is run: the README's, and the cases, each list in one session."""
    found = [block.text.splitlines() for block in readme_blocks.blocks() if block.kind == "shop"]
    found += [case_files.statements(block) for block in case_files.blocks("statements.txt")]
    found += [case_files.statements(block) for block in case_files.blocks("faults.txt")]
    found += [[text] for text, _ in case_files.sizes("sizes.txt")]
    return [[case_files.unescaped(line) for line in block if not line.startswith("    ")] for block in found]


def test_every_example_of_the_readme_and_of_the_cases_is_valid():
    said = 0
    for block in _said_in_order():
        bench = Session()
        for statement in block:
            try:
                answer = bench.answer(statement)
                found = None if answer is None else answer.data()
            except InputError as error:
                found = data.fault(error, statement)
            if found is not None:
                said += 1
                assert faults_in(json.loads(json.dumps(found))) == [], statement
    assert said > 500


def test_every_object_that_the_readme_shows_on_a_console_is_valid():
    rows = [
        row for block in readme_blocks.blocks() if block.kind == "console" for row in block.text.splitlines()
    ]
    shown = [json.loads(row) for row in rows if row.startswith("{")]
    assert shown
    for found in shown:
        assert faults_in(found) == [], found["statement"]


SHEETS = sorted((readme_blocks.TOP / "examples").glob("*.shop"))


@pytest.mark.parametrize("path", SHEETS, ids=lambda path: path.stem)
def test_every_sheet_of_the_examples_is_valid(path):
    sheet = json.loads(Sheet.read(path).to_json())
    assert [e.message[:200] for e in WHOLE.iter_errors(sheet)] == []


def test_a_sheet_of_every_kind_of_line_is_valid():
    text = "\n".join(
        ["## All", "# a note", *STATEMENTS, *FAULTS, "part peg: 2 of oak, 1 in by nothing", "later + 1 in"]
    )
    sheet = json.loads(Sheet.from_text(text).to_json())
    assert [e.message[:200] for e in WHOLE.iter_errors(sheet)] == []


@given(plain_sizes())
def test_a_size_is_valid_whatever_it_is(size):
    assert faults_in(answered(size.text)) == []


@given(written_limits())
def test_limits_are_valid_whatever_they_are(limits):
    assert faults_in(answered(limits.text)) == []


@given(st.text(max_size=40))
def test_whatever_is_typed_gives_a_valid_object(text):
    try:
        answer = Session().answer(text)
        found = None if answer is None else answer.data()
    except InputError as error:
        found = data.fault(error)
    assert found is None or faults_in(json.loads(json.dumps(found))) == []


def lengths_in(found: object) -> list[dict[str, Any]]:
    if isinstance(found, list):
        return [size for part in found for size in lengths_in(part)]
    if isinstance(found, dict):
        if set(found) == {"inch", "mm", "approximate"}:
            return [found]
        return [size for part in found.values() for size in lengths_in(part)]
    return []


@over(STATEMENTS)
def test_inches_and_millimetres_say_the_same(statement):
    # 1 in is 25.4 mm: US Federal Register, 1 July 1959.
    for size in lengths_in(answered(statement)):
        assert Fraction(size["inch"]) * Fraction("25.4") == Fraction(size["mm"])


def changed(found: dict[str, Any], path: tuple[Any, ...], value: Any) -> dict[str, Any]:
    found = copy.deepcopy(found)
    inner: Any = found
    for step in path[:-1]:
        inner = inner[step]
    inner[path[-1]] = value
    return found


@pytest.mark.parametrize(
    ("statement", "path", "value"),
    [
        pytest.param("2 in", ("value", "mm"), 50.8, id="a float for a size"),
        pytest.param("2 in", ("value", "mm"), "50.8", id="a decimal for a rational"),
        pytest.param("2 in", ("value", "inch"), "", id="no figure"),
        pytest.param("2 in", ("value", "note"), "x", id="a stray field in a size"),
        pytest.param("2 in", ("kind",), "guess", id="an unknown kind"),
        pytest.param("2 in", ("schema",), 2, id="another number"),
        pytest.param("2 in", ("ok",), "yes", id="a word for true"),
        pytest.param("2 in", ("rule",), "64", id="no rule"),
        pytest.param("2 in", ("new",), 1.5, id="a float in a new field"),
        pytest.param("snap 1 mm", ("direction",), "sideways", id="an unknown direction"),
        pytest.param("snap 1 mm", ("value",), None, id="a snap without a size"),
        pytest.param("divide 2 in into 5", ("above",), None, id="a divide without a total above"),
        pytest.param("mark 2 in into 5", ("read", 0), "1/2", id="a mark that is no size"),
        pytest.param("thread 6 BA", ("pitch",), "0.53", id="a pitch that is no size"),
    ],
)
def test_the_schema_refuses(statement, path, value):
    good = answered(statement)
    assert faults_in(good) == []
    assert faults_in(changed(good, path, value)) != []


@pytest.mark.parametrize(
    "field", ["schema", "statement", "kind", "ok", "name", "value", "notes", "rule", "nearest"]
)
def test_the_schema_misses_a_field_that_is_gone(field):
    found = answered("2 in / 7")
    del found[field]
    assert faults_in(found) != []


@pytest.mark.parametrize("field", ["schema", "statement", "ok", "error", "advice", "line", "column"])
def test_the_schema_misses_a_field_of_a_fault_that_is_gone(field):
    found = failed("2 in +")
    del found[field]
    assert faults_in(found) != []


def test_a_new_field_is_no_fault():
    assert faults_in(changed(answered("2 in"), ("later",), {"words": ["a", 1, None, True]})) == []


def test_the_schemas_are_those_of_the_typed_results_as_they_are_now():
    for home, made in (
        (renew_schema.ANSWER, renew_schema.answer_schema()),
        (renew_schema.SHEET, renew_schema.sheet_schema()),
        (renew_schema.COMPARISON, renew_schema.comparison_schema()),
    ):
        assert home.read_text("utf-8") == renew_schema.written(made), "run python tests/renew_schema.py"


def test_a_type_that_no_schema_is_known_of_is_refused_by_name():
    with pytest.raises(TypeError, match="no schema is known for"):
        schema_maker.Maker().of(complex)


@pytest.mark.parametrize("kind", answer_kinds())
def test_every_field_of_an_answer_is_in_its_schema(kind):
    """So that a part that nobody described is not let through as some part or other."""
    branches = SCHEMA["$defs"]["answer"]["allOf"]
    (told,) = (one["then"] for one in branches if one["if"]["properties"]["kind"]["const"] == kind)
    for statement in (one for one in STATEMENTS if answered(one)["kind"] == kind):
        found = {*answered(statement)} - {*SCHEMA["$defs"]["answer"]["properties"]}
        known = [{*one.get("properties", ())} - {"value"} for one in told.get("anyOf", [told])]
        assert found in known or found <= {*drills_and_gauges()}, statement


def drills_and_gauges() -> tuple[str, ...]:
    return (*drills("1 mm"), *gauges("1 mm"))
