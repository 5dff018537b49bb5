"""Where a module may be spoilt, and how: a comparison, a sign, a number, a condition, a bound.

Left out is what is no other program by its make, so that what lives is worth reading:
annotations, overloads and what stands under `TYPE_CHECKING` (only the checker of types reads them); docstrings and all
other text; assertions, and the words of an AssertionError (they say what cannot be otherwise, and no caller sees them);
`__slots__` and `__all__`; decorators (the size of a cache); `strict=` of zip, which only asserts; and the body of
`__hash__`, which may give any number that is the same for equals.
All else is drawn, also what a reader may then call the same program: that is for the reader to say.
"""

from __future__ import annotations

import ast
import random

#: Signs that take one another's place.
_OTHER: dict[type[ast.AST], type[ast.AST]] = {
    ast.Lt: ast.LtE, ast.LtE: ast.Lt, ast.Gt: ast.GtE, ast.GtE: ast.Gt, ast.Eq: ast.NotEq, ast.NotEq: ast.Eq, ast.In: ast.NotIn,
    ast.NotIn: ast.In, ast.Is: ast.IsNot, ast.IsNot: ast.Is, ast.Add: ast.Sub, ast.Sub: ast.Add, ast.Mult: ast.Div, ast.Div: ast.Mult,
    ast.FloorDiv: ast.Mult, ast.Mod: ast.Mult, ast.Pow: ast.Mult, ast.And: ast.Or, ast.Or: ast.And,
}  # fmt: skip
_CALLS = {
    "min": "max",
    "max": "min",
    "floor": "ceil",
    "ceil": "floor",
    "any": "all",
    "all": "any",
    "sorted": "list",
    "abs": "+",
}


class _Places(ast.NodeVisitor):
    """The nodes of a module that may be spoilt, in order."""

    def __init__(self) -> None:
        self.found: list[tuple[ast.AST, str]] = []

    def visit_Assign(self, node: ast.Assign) -> None:
        if not any(
            isinstance(name, ast.Name) and name.id in ("__slots__", "__all__") for name in node.targets
        ):
            self.visit(node.value)

    def visit_AnnAssign(self, node: ast.AnnAssign) -> None:
        if node.value is not None:
            self.visit(node.value)

    def visit_FunctionDef(self, node: ast.FunctionDef) -> None:
        marks = {mark.id for mark in node.decorator_list if isinstance(mark, ast.Name)}
        if "overload" not in marks and node.name != "__hash__":
            for part in (*node.args.defaults, *(d for d in node.args.kw_defaults if d), *node.body):
                self.visit(part)

    def visit_ClassDef(self, node: ast.ClassDef) -> None:
        for part in node.body:
            self.visit(part)

    def visit_If(self, node: ast.If) -> None:
        if isinstance(node.test, ast.Name) and node.test.id == "TYPE_CHECKING":
            for part in node.orelse:
                self.visit(part)
            return
        self.found.append((node, "condition"))
        self.generic_visit(node)

    def visit_Assert(self, node: ast.Assert) -> None:
        """What cannot be otherwise."""

    def visit_Raise(self, node: ast.Raise) -> None:
        fault = node.exc.func if isinstance(node.exc, ast.Call) else node.exc
        if not (isinstance(fault, ast.Name) and fault.id == "AssertionError"):
            self.generic_visit(node)

    def visit_IfExp(self, node: ast.IfExp) -> None:
        self.found.append((node, "condition"))
        self.generic_visit(node)

    def visit_Compare(self, node: ast.Compare) -> None:
        self.found += [(node, f"sign {n}") for n, sign in enumerate(node.ops) if type(sign) in _OTHER]
        self.generic_visit(node)

    def visit_BinOp(self, node: ast.BinOp) -> None:
        text = isinstance(node.left, ast.JoinedStr | ast.Constant) and not is_number(node.left)
        if type(node.op) in _OTHER and not text:
            self.found.append((node, "sign"))
        self.generic_visit(node)

    def visit_AugAssign(self, node: ast.AugAssign) -> None:
        if type(node.op) in _OTHER:
            self.found.append((node, "sign"))
        self.generic_visit(node)

    def visit_BoolOp(self, node: ast.BoolOp) -> None:
        self.found.append((node, "sign"))
        self.generic_visit(node)

    def visit_UnaryOp(self, node: ast.UnaryOp) -> None:
        if isinstance(node.op, ast.USub | ast.Not):
            self.found.append((node, "left out"))
        self.generic_visit(node)

    def visit_Constant(self, node: ast.Constant) -> None:
        if is_number(node) or isinstance(node.value, bool):
            self.found.append((node, "number"))

    def visit_Call(self, node: ast.Call) -> None:
        if isinstance(node.func, ast.Name) and node.func.id in _CALLS and node.args:
            self.found.append((node, "call"))
        self.visit(node.func)
        for part in node.args:
            self.visit(part)
        for word in node.keywords:
            if word.arg != "strict":
                self.visit(word.value)

    def visit_Break(self, node: ast.Break) -> None:
        self.found.append((node, "loop"))

    def visit_Continue(self, node: ast.Continue) -> None:
        self.found.append((node, "loop"))


def is_number(node: ast.AST) -> bool:
    """Whether it is a number as it stands, and no truth."""
    return isinstance(node, ast.Constant) and type(node.value) in (int, float)


def places(tree: ast.Module) -> list[tuple[ast.AST, str]]:
    """What may be spoilt in a module."""
    seen = _Places()
    seen.visit(tree)
    return seen.found


def spoilt(source: str, number: int, dice: random.Random) -> tuple[str, int, str]:
    """The module with its place of that number spoilt, the line, and what was done."""
    tree = ast.parse(source)
    node, how = places(tree)[number]
    before = ast.unparse(node).split("\n")[0]
    _spoil(node, how, dice)
    after = ast.unparse(node).split("\n")[0]
    return ast.unparse(tree), node.lineno, f"{before[:110]}   ->   {after[:110]}"  # type: ignore[attr-defined]


def _spoil(node: ast.AST, how: str, dice: random.Random) -> None:
    if isinstance(node, ast.If | ast.IfExp):
        node.test = (
            ast.UnaryOp(ast.Not(), node.test) if dice.randrange(3) else ast.Constant(bool(dice.randrange(2)))
        )
    elif isinstance(node, ast.Compare):
        n = int(how.split()[1])
        node.ops[n] = _OTHER[type(node.ops[n])]()  # type: ignore[call-overload]
    elif isinstance(node, ast.BinOp | ast.AugAssign | ast.BoolOp):
        node.op = _OTHER[type(node.op)]()  # type: ignore[assignment]
    elif isinstance(node, ast.UnaryOp):
        if isinstance(node.op, ast.USub):
            node.op = ast.UAdd()
        else:
            node.operand = ast.UnaryOp(ast.Not(), node.operand)
    elif isinstance(node, ast.Constant):
        node.value = _other_number(node.value, dice)  # type: ignore[arg-type]
    elif isinstance(node, ast.Call):
        _other_call(node)
    elif isinstance(node, ast.Break | ast.Continue):
        node.__class__ = ast.Pass  # type: ignore[assignment]


def _other_number(value: bool | int | float, dice: random.Random) -> bool | int | float:
    if isinstance(value, bool):
        return not value
    return value + dice.choice((1, -1)) if isinstance(value, int) else value * 1.5 or 1.0


def _other_call(node: ast.Call) -> None:
    assert isinstance(node.func, ast.Name)
    other = _CALLS[node.func.id]
    if other == "+":
        x = ast.arguments([], [ast.arg("x")], None, [], [], None, [])
        node.func = ast.Lambda(x, ast.Name("x", ast.Load()))
    else:
        node.func = ast.Name(other, ast.Load())
        node.keywords = [] if other == "list" else node.keywords
