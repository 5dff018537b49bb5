"""The library's face: its names, what they say of themselves, and that their examples run."""

from __future__ import annotations

import doctest
import importlib
import inspect
import subprocess
import sys

import pytest

import fractions_shop

FIXED = {
    "Quantity", "Limits", "Rule", "Session", "InputError", "read", "snap", "divide", "mark", "recover", "reconcile",
    "crown", "pack", "fit", "share", "places", "blocks", "thread", "identify", "substitute", "drills", "gauges", "Sheet",
}  # fmt: skip


def test_the_fixed_names_are_all_there():
    assert set(fractions_shop.__all__) >= FIXED


@pytest.mark.parametrize("name", fractions_shop.__all__)
def test_a_public_name_has_a_docstring_with_an_example(name):
    thing = getattr(fractions_shop, name)
    text = inspect.getdoc(thing)
    assert text
    assert ">>>" in text
    module = importlib.import_module(thing.__module__)
    finder = doctest.DocTestFinder(recurse=False)
    (test,) = finder.find(thing, name, module=module, globs={**vars(module), name: thing})
    assert test.examples  # test_doctests runs them


@pytest.mark.parametrize("name", sorted(FIXED))
def test_a_name_is_the_same_whatever_was_imported_first(name):
    home = fractions_shop._LATER[name]
    code = (
        f"import fractions_shop.{home}; import importlib; "
        f"from fractions_shop import {name}; assert callable({name}), {name}"
    )
    subprocess.run([sys.executable, "-c", code], check=True)


def test_an_unknown_name_is_refused_as_usual():
    with pytest.raises(AttributeError, match="no attribute 'metre'"):
        fractions_shop.metre  # noqa: B018


def test_dir_lists_the_public_names():
    assert set(fractions_shop.__all__) <= set(dir(fractions_shop))
