"""A name set again from itself: refused, with the statement that it stood for offered in its place."""

from __future__ import annotations

from collections.abc import Collection

from fractions_shop.errors import InputError
from fractions_shop.language.nodes import Call, Literal, Name, Naming, Node, ShownExpression
from fractions_shop.requests.reading import statement
from fractions_shop.sheet.last_size import LAST, put
from fractions_shop.sheet.line_nodes import nodes_of
from fractions_shop.sheet.lines import Line


def refuse_itself(line: Line, old: Line, names: Collection[str], ans_is_it: bool = False) -> None:
    """InputError for a line that sets some names from one of them, that `old` set; `ans` may be it.

    A sheet knows one size of a name, so there is no former one to draw on.
    """
    own = {*names, LAST} if ans_is_it else set(names)
    drawn = [
        node
        for node in nodes_of(line)
        if isinstance(node, Name) and node.word in own and node.word in line.uses
    ]
    if not drawn:
        return
    first = min(drawn, key=lambda node: node.start)
    offer = _with_the_old(line, old, drawn) if len(names) == 1 else ""
    beside = f"{line.sets}_2 = {line.statement.partition('=')[2].strip()}"
    advice = f"write {offer}" if offer else f"give the new size a name of its own, such as {beside}"
    as_it_stood = f"{old.statement} (line {old.number})"
    raise InputError(
        f"{old.sets} would rest on itself; it stands as {as_it_stood}",
        line.text, first.start, first.end, advice, line.number,
    )  # fmt: skip


def _with_the_old(line: Line, old: Line, drawn: list[Name]) -> str:
    """The line with what the old one said in the place of its name; empty where that is no expression."""
    expression = _expression(old)
    if expression is None or line.sets in old.uses:
        return ""
    said = old.text[expression.start : expression.end].strip()
    if not isinstance(expression, Call | Literal | Name):
        said = f"({said})"
    offer = (
        put(line.text, {(node.start, node.end) for node in drawn}, said).removesuffix(line.comment).strip()
    )
    try:
        return offer if statement(offer) is not None else ""
    except InputError:
        return ""


def _expression(old: Line) -> Node | None:
    answer = old.node.answer if isinstance(old.node, Naming) else None
    return answer.expression if isinstance(answer, ShownExpression) else None
