"""Every answer of the library: exported, with a short repr, text, an object for JSON and a notebook table."""

from __future__ import annotations

import importlib
import inspect
import json
import types
import typing

import pytest

import fractions_shop
from fractions_shop import Session, ShopError, blocks, read
from fractions_shop.size.told import Told

#: A call of each function, and the statement that asks the same.
CALLS = {
    "snap('10.3 mm', '32nds')": "snap 10.3 mm to 32nds",
    "divide('2 in', 5, direction='up')": "divide 2 in into 5 up",
    "divide('2 in', (5, 7))": "divide 2 in into 5 and 7",
    "divide('2 1/32 in', 5, bodies='any')": None,
    "divide_for('72 in', 13, '1 1/2 in')": None,
    "how_many('109 in', about='7 in')": "divide 109 in into spaces of about 7 in",
    "share('2 5/8 in', (4, 2))": "share 2 5/8 in among 4 and 2",
    "mark('2 in', 5)": "mark 2 in into 5",
    "places('1 1/2 in', '7 in', along='9 in')": "places 1 1/2 in, 7 in along 9 in",
    "places(across=(2, '1 in'), up=(2, '1 in'))": "places 2 across by 1 in, 2 up by 1 in",
    "crown(6, across='13/32 in', radius='7 1/4 in', tallest='11/32 in')": "crown 6 across 13/32 in radius 7 1/4 in from 11/32 in",
    "pack('5/8 in', ['1/4 in', '3/16 in'])": "pack 5/8 in from 1/4 in, 3/16 in",
    "pack('5.0073 in', blocks(81))": None,
    "fit('10 mm', 'H7/g6')": "fit 10 mm H7/g6",
    "fit('10 mm', 'H7')": "fit 10 mm H7",
    "fit('1 in', 'RC5')": "fit 1 in RC5",
    "thread('6 BA')": "thread 6 BA",
    "identify('0.108 in', '1/48 in')": "identify 0.108 in, 48 tpi",
    "substitute('6 BA')": "substitute 6 BA",
    "drills('2.35 mm')": "drill 2.35 mm",
    "gauges('1.2 mm')": "gauge 1.2 mm",
    "recover(['51.5 mm', '66.7 mm'])": "recover 51.5 mm, 66.7 mm",
    "reconcile({'rack': '51.6 mm', 'bay': '10.3 mm'}, ['rack = 5 * bay'])": None,
}


def result_of(call: str) -> Told:
    made: Told = eval(call, {name: getattr(fractions_shop, name) for name in fractions_shop.__all__})
    return made


@pytest.mark.parametrize("call", CALLS)
def test_an_answer_is_told_by_the_room_that_writes_the_language_s(call: str) -> None:
    result, statement = result_of(call), CALLS[call]
    assert isinstance(result, Told)
    text, html, data = result.text(), result._repr_html_(), result.data()
    assert text
    assert html.startswith(("<p", "<table"))
    assert json.loads(json.dumps(data)) == data
    assert data["kind"] == result.told_as
    if statement is None:
        return
    answer = Session().answer(statement)
    assert answer is not None
    said, asked_text = (
        [line.split("; for ")[0] for line in made.splitlines() if not line.startswith("note: ")]
        for made in (result.text(200), answer.text(200))
    )
    assert said == asked_text
    asked = answer.data()
    assert {key: asked[key] for key in data if key in asked and key != "kind"} == {
        key: data[key] for key in data if key in asked and key != "kind"
    }


@pytest.mark.parametrize("call", CALLS)
def test_a_repr_is_one_short_line_that_says_what_it_is_and_the_main_figure(call: str) -> None:
    result = result_of(call)
    said = repr(result)
    assert said.startswith(f"<{type(result).__name__}")
    assert len(said) <= 160
    assert "\n" not in said
    assert any(sign.isdigit() for sign in said)


def test_figures_are_rounded_as_they_are_asked_for() -> None:
    result = result_of("mark('2 in', 7)")
    assert "0.0045" in result.text()
    assert result.text(60) != result.text(200)
    assert "about 0.28 in" in result_of("divide('2 in', 7)").text(digits=2) or result_of(
        "snap('10.3 mm')"
    ).text(digits=2)


def test_an_answer_without_a_way_still_has_a_repr() -> None:
    narrow = fractions_shop.how_many("2 in", bodies="1/2 in", about="1/4 in")
    assert repr(narrow).startswith("<HowMany")


@pytest.mark.parametrize("size", ["2 1/32 in", "1/2 in ± 1 thou", "2 sq in"])
def test_a_size_is_an_object_for_json_too(size: str) -> None:
    value = read(size)
    data = value.data()
    assert json.loads(json.dumps(data)) == data
    assert data == Session().answer(size).data()["value"]  # type: ignore[union-attr]


# What is exported


def _answers() -> typing.Iterator[tuple[str, type]]:
    """Every class of ours that a public function says it gives."""
    for name in fractions_shop.__all__:
        function = getattr(fractions_shop, name)
        if not inspect.isfunction(function):
            continue
        home = importlib.import_module(function.__module__)
        given = eval(inspect.signature(function).return_annotation, {**vars(home), **_typed(home)})
        for part in typing.get_args(given) if isinstance(given, types.UnionType) else (given,):
            kind = typing.get_origin(part) or part
            if isinstance(kind, type) and kind.__module__.startswith("fractions_shop"):
                yield name, kind


def _typed(home: types.ModuleType) -> dict[str, typing.Any]:
    """What a module imports for the type checker alone."""
    return {name: getattr(fractions_shop, name) for name in fractions_shop.__all__} | vars(home)


def test_the_class_of_every_answer_is_exported() -> None:
    beside = {"KnownScale", "Reading", "BlockSet", "Written", "Item"}
    missing = {kind.__name__ for _, kind in _answers()} - set(fractions_shop.__all__) - beside
    assert not missing


def test_all_is_written_out_and_names_what_the_homes_hold() -> None:
    assert fractions_shop.__all__ == sorted(fractions_shop._LATER)


def test_a_long_answer_is_cut() -> None:
    long = result_of("pack('20 in', blocks(88))")
    assert repr(long).endswith(" ...>")


def test_a_set_of_blocks_is_no_text() -> None:
    with pytest.raises(ShopError):
        blocks(80)
