"""share: so many pieces of one size and so many of another, each on the rule."""

from __future__ import annotations

from fractions_shop.figures.plain import Lines
from fractions_shop.figures.table import Cell, Table, in_prose
from fractions_shop.figures.wording import exact_cell, in_rule, in_rule_cell, moved_cell, rule_word
from fractions_shop.language.fault import Fault
from fractions_shop.layout.share import Choice, Share, share
from fractions_shop.requests.inputs import Inputs
from fractions_shop.requests.rooms import Room


def _answer(given: Inputs) -> tuple[Share, None]:
    counts = given.wholes(1)
    if len(counts) == 1:
        node = given.subject(1)
        raise Fault(
            "a total is shared among two or three kinds of piece", node.start, node.end,
            "write it like this: share 2 5/8 in among 4 and 2",
        )  # fmt: skip
    result = share(
        given.length(0), counts, given.rule_after("on"), direction=given.direction,
        least=given.optional_length("from"), most=given.optional_length("to"),
    )  # fmt: skip
    result.chosen  # noqa: B018 - raises now rather than when it is looked at
    return result, None


def _lines(result: Share) -> Lines:
    """How many ways there are, the first of them, or the nearest totals that have one."""
    rule = result.rule
    kinds = _kinds(result)
    header = (*(f"{n} of" for n in result.counts), "marks of")
    if not result.choices:
        rows = tuple(
            (name, in_rule_cell(way.total, rule), moved_cell(way.change, rule), *_row(way, result))
            for name, way in (("below", result.below), ("above", result.above))
            if way is not None
        )
        return [
            f"{in_rule(result.asked, rule)} cannot be shared among {kinds} on the {rule_word(rule)}"
            f"{_bounds(result)}; the nearest totals that can:",
            Table(rows, ("", "total", "moved", *header)),
        ]
    ways = "1 way" if result.many == 1 else f"{result.many:,} ways"
    shown = ", the most readable first" if len(result.choices) > 1 else ""
    first = "" if result.many == len(result.choices) else f"; {len(result.choices)} of them are shown"
    return [
        f"{in_rule(result.asked, rule)} is shared among {kinds} in {ways} on the {rule_word(rule)}"
        f"{_bounds(result)}{shown}{first}",
        Table(tuple(_row(way, result) for way in result.choices), header),
        f"all alike they would be {in_prose(exact_cell(result.exact, rule))} each",
    ]


def _row(way: Choice, result: Share) -> tuple[Cell | str, ...]:
    return (*(in_rule_cell(size, result.rule) for size in way.sizes), f"the {rule_word(way.rule)}")


def _kinds(result: Share) -> str:
    """`4 of one size and 2 of another`."""
    names = ("one size", "another", "a third")
    said = [f"{n} of {name}" for n, name in zip(result.counts, names, strict=False)]
    return " and ".join(said) if len(said) == 2 else f"{', '.join(said[:-1])} and {said[-1]}"


def _bounds(result: Share) -> str:
    least = "" if result.least is None else f" from {in_rule(result.least, result.rule)}"
    most = "" if result.most is None else f" to {in_rule(result.most, result.rule)}"
    return f"{least}{most}"


def _gist(result: Share, lines: list[str]) -> list[str]:
    if not result.choices:
        return lines[:1]
    sizes = zip(result.counts, result.choices[0].sizes, strict=True)
    first = " and ".join(f"{n} of {in_rule(size, result.rule)}" for n, size in sizes)
    return [first, f"{result.many:,} way{'' if result.many == 1 else 's'}"]


ROOM = Room(
    word="share",
    forms=("share SIZE among N and M [and K] [on RULE] [from SIZE to SIZE] [up | down]",),
    example="share 2 5/8 in among 4 and 2",
    answer=_answer,
    lines=_lines,
    gist=_gist,
)
