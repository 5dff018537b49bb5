"""The modules of the package as Python's own parser sees them, each parsed once for all tests that look at them."""

from __future__ import annotations

import ast
from functools import cache
from pathlib import Path

PACKAGE = Path(__file__).parents[1] / "fractions_shop"


@cache
def tree(path: Path) -> ast.Module:
    """A module; it is shared, and must not be altered."""
    return ast.parse(path.read_text(encoding="utf-8"))


@cache
def nodes(path: Path) -> tuple[ast.AST, ...]:
    """All that a module is made of."""
    return tuple(ast.walk(tree(path)))
