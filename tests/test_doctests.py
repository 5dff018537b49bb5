"""The examples in the docstrings of every module run, and say what they say."""

from __future__ import annotations

import doctest
import importlib
import pkgutil

import pytest
from over_all import over

import fractions_shop

MODULES = ["fractions_shop"] + [
    found.name
    for found in pkgutil.walk_packages(fractions_shop.__path__, "fractions_shop.")
    if not found.name.endswith("__main__")
]


@over(MODULES)
def test_doctests(name: str) -> None:
    result = doctest.testmod(importlib.import_module(name), optionflags=doctest.ELLIPSIS)
    assert result.failed == 0


@pytest.mark.parametrize(
    "name",
    [
        "size.quantity",
        "size.limits",
        "size.notation",
        "size.rule",
        "layout.marks",
        "layout.spacing",
        "layout.bodies",
        "layout.counts",
        "layout.posts",
        "layout.share",
        "layout.places",
        "layout.room",
        "sheet.session",
    ],
)
def test_the_modules_that_teach_have_examples(name: str) -> None:
    module = importlib.import_module(f"fractions_shop.{name}")
    assert any(test.examples for test in doctest.DocTestFinder().find(module))
