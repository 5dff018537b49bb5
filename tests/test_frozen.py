"""What the library answers cannot be altered afterwards: every result class is frozen."""

from __future__ import annotations

import dataclasses
import importlib
import inspect

import pytest

from fractions_shop.size.frozen import Frozen

#: The modules whose results a caller holds and may use as keys.
MODULES = (
    "size.quantity", "size.limits", "size.rule", "layout.marks", "layout.spacing", "layout.room", "layout.whole_numbers",
    "layout.share", "layout.bodies", "layout.counts", "layout.posts", "layout.chain", "layout.places", "layout.circle", "layout.curve", "layout.zones", "layout.fits", "meant.readings", "meant.priors",
    "meant.chance", "meant.found", "meant.reconciled", "meant.closing", "meant.planes", "meant.relations", "meant.shared", "meant.scale",
    "meant.steps", "meant.shops", "meant.weighing", "meant.likelihood", "meant.belief", "meant.instruments", "meant.grids",
    "meant.quantogram", "layout.packing", "meant.catalogue",
    "tables.blocks", "tables.old_inches", "tables.drills", "tables.gauges", "tables.head_records", "tables.nearest", "tables.stock",
    "threads.clearance", "threads.forms", "threads.heads", "threads.holes", "threads.identify", "threads.names",
    "threads.record", "threads.substitute", "threads.thread", "threads.wires",
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
