"""What the library answers cannot be altered afterwards: every result class is frozen."""

from __future__ import annotations

import copy
import dataclasses
import importlib
import inspect
import pickle
from typing import Any, ClassVar

import pytest

from fractions_shop.language import nodes
from fractions_shop.language.notes import Note
from fractions_shop.sheet.lines import Line
from fractions_shop.sheet.solve import Worked
from fractions_shop.size.drafts import Drafted
from fractions_shop.size.frozen import Frozen, Record, Result

#: The modules whose results a caller holds and may use as keys.
MODULES = (
    "size.quantity", "size.limits", "size.rule", "layout.marks", "layout.spacing", "layout.room", "layout.whole_numbers",
    "layout.share", "layout.bodies", "layout.counts", "layout.posts", "layout.chain", "layout.places", "layout.circle", "layout.curve", "layout.zones", "layout.fits", "meant.readings", "meant.priors",
    "meant.chance", "meant.found", "meant.reconciled", "meant.closing", "meant.planes", "meant.relations", "meant.shared", "meant.scale",
    "meant.steps", "meant.shops", "meant.weighing", "meant.likelihood", "meant.belief", "meant.instruments", "meant.grids",
    "meant.quantogram", "layout.packing", "meant.catalogue",
    "tables.blocks", "tables.old_inches", "tables.drills", "tables.gauges", "tables.head_records", "tables.nearest", "tables.stock",
    "threads.clearance", "threads.forms", "threads.heads", "threads.holes", "threads.identify", "threads.names",
    "threads.record", "threads.retapping", "threads.substitute", "threads.thread", "threads.wires",
)  # fmt: skip


def _results(name: str) -> list[type]:
    module = importlib.import_module(f"fractions_shop.{name}")
    return [
        each
        for _, each in inspect.getmembers(module, inspect.isclass)
        if each.__module__ == module.__name__ and (dataclasses.is_dataclass(each) or issubclass(each, Frozen))
    ]


@pytest.mark.parametrize("name", MODULES)
def test_every_result_is_frozen(name: str) -> None:
    found = _results(name)
    assert found
    for each in found:
        # The name of a field, so that it is the freezing and not the slots that refuses.
        held = each.field_names[0] if issubclass(each, Frozen) else dataclasses.fields(each)[0].name
        # A frozen dataclass raises an AttributeError of its own.
        with pytest.raises(AttributeError):
            each.__setattr__(object.__new__(each), held, None)


class Bearing(Result):
    """A result of this test's own."""

    uncompared: ClassVar[tuple[str, ...]] = ("note",)

    bore: int
    width: int = 5
    note: str = ""


def test_a_result_is_a_dataclass_to_whoever_asks() -> None:
    made = Bearing(8, note="read twice")
    assert dataclasses.is_dataclass(made)
    assert [(each.name, each.compare) for each in dataclasses.fields(made)] == [
        ("bore", True), ("width", True), ("note", False),
    ]  # fmt: skip
    assert dataclasses.asdict(made) == {"bore": 8, "width": 5, "note": "read twice"}
    assert dataclasses.astuple(dataclasses.replace(made, width=7)) == (8, 7, "read twice")
    assert dataclasses.fields(Bearing)[1].default == 5
    assert pickle.loads(pickle.dumps(made)) == made


def test_what_is_not_compared_tells_no_results_apart() -> None:
    assert Bearing(8, note="a") == Bearing(8, note="b")
    assert len({Bearing(8, note="a"), Bearing(8, note="b"), Bearing(9)}) == 2


@pytest.mark.parametrize(
    ("values", "named", "said"),
    [
        pytest.param((), {}, "Bearing was not given bore", id="too-few"),
        pytest.param((8, 5, "", 1), {}, "Bearing has 3 fields, and 4 values were given", id="too-many"),
        pytest.param((8,), {"bore": 9}, "Bearing was given bore twice", id="twice"),
        pytest.param((8,), {"depth": 9}, "Bearing has no field 'depth'; its fields are bore, width, note", id="unknown"),
    ],
)  # fmt: skip
def test_a_result_is_made_of_its_fields_alone(
    values: tuple[Any, ...], named: dict[str, Any], said: str
) -> None:
    with pytest.raises(TypeError) as error:
        Bearing(*values, **named)
    assert str(error.value) == said


class Bore(Record, metaclass=Drafted):
    """A record of this test's own, and one that has a field more."""

    size: int
    deep: int = 5
    note: str = ""


class SunkBore(Bore):
    sunk: int = 3


def test_a_drafted_record_is_as_any_other() -> None:
    made = Bore(8, note="read twice")
    assert repr(made) == "Bore(size=8, deep=5, note='read twice')"
    assert (made, hash(made)) == (Bore(8, 5, "read twice"), hash(Bore(8, 5, "read twice")))
    assert made != Bore(8)
    assert made.but(deep=7) == Bore(8, 7, "read twice")
    assert [pickle.loads(pickle.dumps(made)), copy.copy(made), copy.deepcopy(made)] == [made] * 3
    assert repr(SunkBore(8, sunk=1)) == "SunkBore(size=8, deep=5, note='', sunk=1)"
    assert (type(made), type(SunkBore(8))) == (Bore, SunkBore)


@pytest.mark.parametrize("field", ["size", "note", "draft", "other"])
def test_a_drafted_record_cannot_be_altered(field: str) -> None:
    made = Bore(8)
    with pytest.raises(AttributeError, match="cannot be altered"):
        setattr(made, field, 1)
    assert not hasattr(made, "__dict__")


@pytest.mark.parametrize(
    ("values", "named", "said"),
    [
        pytest.param((), {}, "missing 1 required positional argument: 'size'", id="too-few"),
        pytest.param((8, 5, "", 1), {}, "takes from 2 to 4 positional arguments", id="too-many"),
        pytest.param((8,), {"width": 1}, "unexpected keyword argument 'width'", id="unknown"),
        pytest.param((8,), {"size": 1}, "multiple values for argument 'size'", id="twice"),
    ],
)
def test_a_drafted_record_is_made_with_its_own_fields(
    values: tuple[Any, ...], named: dict[str, Any], said: str
) -> None:
    for _ in range(2):  # the first of a class is made otherwise
        with pytest.raises(TypeError, match=said):
            Bore(*values, **named)


def _of_nodes(kind: type) -> bool:
    """Whether a class is a node's, and not the draft of one."""
    return kind.__module__ == nodes.__name__


@pytest.mark.parametrize("kind", [*filter(_of_nodes, nodes.Node.__subclasses__()), Line, Worked, Note])
def test_every_drafted_class_can_be_made(kind: Any) -> None:
    """There is a function for its number of fields, which fills each of them."""
    values = [object() for _ in kind.field_names]
    assert [getattr(kind(*values), name) for name in kind.field_names] == values
