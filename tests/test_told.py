"""Every answer of the library: exported, with a short repr, text, an object for JSON and a notebook table."""

from __future__ import annotations

import copy
import dataclasses
import importlib
import inspect
import json
import pickle
import typing
from fractions import Fraction

import pytest
from room_examples import answered_example

import fractions_shop
from fractions_shop import Session, ShopError, blocks, read, recover, requests
from fractions_shop.size.frozen import Frozen
from fractions_shop.size.told import Told
from fractions_shop.tables.blocks import Block
from fractions_shop.tables.drills import Drill
from fractions_shop.tables.gauges import Gauge

#: A call of each function, and the statement that asks the same.
CALLS: dict[str, str | None] = {
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
    "spanner('1/4 BSW')": "spanner 1/4 BSW",
    "thread('6 BA').tapping()": None,
    "thread('R 1/4').tapping()": None,
    "thread('1/4-20 UNC').clearance('close')": None,
    "taper('MT2')": "taper MT2",
    "bolt_circle(6, '3 in')": "bolt_circle(6, 3 in)",
    "face('2 in', '7/8 in', thick='1/16 in', corner='1/8 in')": None,
    "face('1 in', shape='hex')": None,
    "hole('1/8 in', [('1/4 in', '1/4 in'), ('1 in', '1/2 in')], sunk='3/16 in')": None,
    "slot('1/2 in', '1/8 in', ('1 in', '1/8 in'))": None,
    "notch('1/2 in', '1/8 in', ('1 in', '3 in'), edge='upper', of=face('4 in', '1 in'))": None,
    "walls(face('2 in'), [hole('1/8 in', ('1/4 in', '1/4 in')), slot('1/2 in', '1/8 in', ('1 in', '1 in'))])": None,
    "walls(face('2 in'), [hole('1/8 in', [('1/4 in', '1/4 in'), ('1/4 in', '3/8 in')])], wall='1/4 in')": None,
    "walls(face('2 in'), [hole('1/8 in', ('1/4 in', '1/4 in'))])[0]": None,
    "cut_from('36 in', {'runner': ('11 in', 24), 'stop': ('2 7/8 in', 9)}, saw='1/32 in')": None,
    "Rule(64)": None,
    "Rule('half mm')": None,
    "reading('51.5 mm', by='caliper')": None,
    "reading(['51.4 mm', '51.6 mm', '51.6 mm'], worn='0.1 mm')": None,
    "scale_from('25.0 mm', '2 in')": None,
    "Relation.of({'rack': 1, 'bay': -5}, '-1/2 in')": None,
    "blocks(81)": None,
    "find_sizes('24 runners 1/16 in. thick and a bare 11 in long, 1/4-20 UNC, 1/4 to 3/8 in')": None,
    "find_sizes('runners 1/16 in. thick')[0]": None,
    "written('two 3/32 in holes')": None,
    "read_column(['2 1/32 in', 'oak', '51.5 mm', 52] * 30, unit='mm')": None,
    "read('2 1/32 in')": "2 1/32 in",
    "read('1/2 in +1/-2 thou')": "1/2 in +1/-2 thou",
    "read('2 in') / 3": None,
    "pi()": "pi",
    "girth('48 in')": "girth(48 in)",
    "Angle(Fraction(25, 2))": "12.5 deg",
    "Session().ask('divide 2 in into 5 up')": None,
    "Sheet.from_text('check 2 in = 2 in')": None,
}
#: And the example of each request, so that one which is added is tried here too.
CALLS |= {
    f"answered_example({row.word!r}).result": None
    for row in requests.TABLE
    if type(answered_example(row.word).result).__name__ in fractions_shop.__all__
}
#: Longer than this is no repr for a console.
SHORT = 120


def result_of(call: str) -> Told:
    names = {name: getattr(fractions_shop, name) for name in fractions_shop.__all__}
    made: Told = eval(call, {**names, "Fraction": Fraction, "answered_example": answered_example})
    return made


@pytest.mark.parametrize("call", CALLS)
def test_an_answer_is_told_by_the_room_that_writes_the_language_s(call: str) -> None:
    result, statement = result_of(call), CALLS[call]
    text, html, data = result.text(), result._repr_html_(), result.data()
    assert text
    assert html.startswith("<")
    assert json.loads(json.dumps(data)) == data
    if isinstance(result, Told):
        assert data["kind"] == result.told_as
    if statement is None:
        return
    answer = Session().ask(statement)
    said, asked_text = (
        [line.split("; for ")[0] for line in made.splitlines() if not line.startswith("note: ")]
        for made in (result.text(200), answer.text(200))
    )
    assert said == asked_text
    asked = answer.data()
    if not isinstance(result, Told):
        asked = asked["value"]
    assert {key: asked[key] for key in data if key in asked and key != "kind"} == {
        key: data[key] for key in data if key in asked and key != "kind"
    }


@pytest.mark.parametrize("call", CALLS)
def test_a_repr_is_one_short_line_that_says_what_it_is_and_the_main_figure(call: str) -> None:
    result = result_of(call)
    said = repr(result)
    assert said.lstrip("<").startswith(type(result).__name__)
    assert len(said) <= SHORT
    assert "\n" not in said
    assert any(sign.isdigit() for sign in said) or "half mm" in said


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


def _answers() -> set[type]:
    """Every class of ours that a public function says it gives, and every public one that is no error."""
    found: set[type] = set()
    for name in fractions_shop.__all__:
        thing = getattr(fractions_shop, name)
        if inspect.isclass(thing):
            found |= set() if issubclass(thing, Exception) else {thing}
        else:
            home = vars(importlib.import_module(thing.__module__))
            found |= set(_classes(eval(inspect.signature(thing).return_annotation, _typed(home))))
    return found


def _classes(given: object) -> typing.Iterator[type]:
    """The classes of ours in an annotation: `Spacing | None`, `tuple[Item, ...]`, `Nearby[Drill]`."""
    parts = typing.get_args(given)
    kind = typing.get_origin(given) or given
    if isinstance(kind, type) and kind.__module__.startswith("fractions_shop"):
        yield kind
    elif parts:
        for part in parts:
            yield from _classes(part)


def _typed(home: dict[str, typing.Any]) -> dict[str, typing.Any]:
    """What a module imports for the type checker alone."""
    return {name: getattr(fractions_shop, name) for name in fractions_shop.__all__} | home


def test_the_class_of_every_answer_is_exported_and_tells_itself_in_every_way() -> None:
    """Text, an object, a notebook table and a short repr of its own; each is tried above on a sample."""
    answers = _answers() - {Session}  # which is asked, and answers nothing itself
    parts = {Block, Drill, Gauge}  # of what is a sequence of them
    assert len(answers) > 30
    assert {kind.__name__ for kind in answers - parts} <= set(fractions_shop.__all__)
    tried = {type(result_of(call)) for call in CALLS}
    assert {kind.__name__ for kind in answers - parts - tried} == set()


def test_what_is_exported_is_made_whole_or_not_at_all() -> None:
    """KnownScale(1) was made, and had no repr."""
    kinds = [getattr(fractions_shop, name) for name in fractions_shop.__all__]
    records = [kind for kind in kinds if inspect.isclass(kind) and issubclass(kind, Frozen)]
    assert len(records) > 6
    for kind in records:
        assert dataclasses.is_dataclass(kind), kind
        with pytest.raises(TypeError, match=f"{kind.__name__} was not given"):
            kind()


def test_all_is_written_out_and_names_what_the_homes_hold() -> None:
    assert fractions_shop.__all__ == sorted(fractions_shop._LATER)


def test_a_doubt_is_not_what_a_repr_leaves_out() -> None:
    """A list of readings was told as three sizes, though one was not to be cut yet."""
    several = recover(["51.5 mm", "66.7 mm", "12.7 mm"])
    assert repr(several).startswith("<Recovered: 2 1/32 in (not settled), 2 5/8 in, 1/2 in; ")
    assert Session().ask("recover 51.5 mm, 66.7 mm, 12.7 mm").gist().startswith("2 1/32 in (not settled), ")
    tied = fractions_shop.reconcile(
        {"rack": "75.4 mm", "bay": "10.3 mm", "slat": "4.9 mm"}, ["rack = 5 * bay + 6 * slat"]
    )
    assert "Not settled" in repr(tied)
    for found in (fractions_shop.find_sizes("21/2 in"), fractions_shop.written("21/2 in")):
        assert repr(found).endswith("10 1/2 in (266.7 mm) (in doubt)>")


def test_the_nearest_is_named_and_no_row_of_a_table_stands_in_a_repr() -> None:
    assert repr(fractions_shop.gauges("1.2 mm")).startswith("<Nearby: nearest 18 SWG, 0.048 in (1.2192 mm), ")
    assert repr(fractions_shop.drills("2.36 mm")).endswith(
        "the nearest is 2.35 mm, about 0.0004 in (0.01 mm) under>"
    )
    assert repr(fractions_shop.snap("2 in")) == "<Snap: 2 in (50.8 mm), a mark of the 8ths, exact>"
    assert repr(fractions_shop.how_many("100 in", about="7 in")).endswith("comes nearest to 7 in (177.8 mm)>")
    assert (
        repr(fractions_shop.substitute("6 BA")[0]) == "<StandIn: No 4-48 UNF, as it is stiff, re-tapped poor>"
    )


def test_a_field_of_json_has_no_blank_in_its_name() -> None:
    for call in CALLS:
        names = [name for name in result_of(call).data() if name != "lines"]
        assert not [name for name in names if " " in name], call


def test_a_sheet_goes_into_a_pickle_and_says_its_name_once() -> None:
    sheet = fractions_shop.Sheet.from_text("bay = 2 in / 5\ncheck bay * 5 = 2 in", "Rack")
    for same in (pickle.loads(pickle.dumps(sheet)), copy.deepcopy(sheet)):
        assert (same.title, same.data()) == ("Rack", sheet.data())
    assert repr(sheet).startswith("<Sheet Rack: ")
    assert repr(fractions_shop.Sheet.from_text("2 in")).startswith("<Sheet: ")


@pytest.mark.parametrize("digits", [-1, 41, 2.5, "3", None, True])
def test_figures_are_rounded_to_so_many_decimals_or_none(digits: object) -> None:
    """Below nought they were told wrongly: 1/3 in as about 8.5 mm."""
    for told in (result_of("mark('2 in', 7)"), read("1/3 in"), Session().ask("1/3 in")):
        with pytest.raises(ShopError, match="figures are rounded to 0 to 40 decimals, not"):
            told.text(digits=digits)  # type: ignore[arg-type]


def test_a_long_answer_is_cut() -> None:
    long = result_of("Relation.of({f'size_{n}': 1 for n in range(40)})")
    assert repr(long).endswith(" ...>")


def test_a_set_of_blocks_is_no_text() -> None:
    with pytest.raises(ShopError):
        blocks(80)
