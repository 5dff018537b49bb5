"""Relations that cannot all hold: the smallest set of them that conflicts.

They conflict where no sizes at all fulfil them, and where only sizes of zero or below do: a piece has some length.
Whether sizes above zero fulfil them is a question of linear programming, answered exactly, with Fractions: the simplex
method with Bland's rule (R. G. Bland, "New finite pivoting rules for the simplex method", Math. Oper. Res. 2 (1977), 103-107),
by which it ends.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from itertools import combinations

from fractions_shop.meant.relations import Relation, can_hold, names_tied

_ZERO, _ONE = Fraction(0), Fraction(1)

Table = list[list[Fraction]]


def conflict(relations: Sequence[Relation]) -> str:
    """Which of them conflict, as few as do, in words; empty where sizes above zero fulfil all."""
    if can_hold(relations) and hold_of_sizes(relations):
        return ""
    for count in range(1, len(relations) + 1):
        for few in combinations(relations, count):
            if not can_hold(few):
                return _named(few, "")
            if not hold_of_sizes(few):
                return _named(few, " of sizes above zero")
    raise AssertionError("all of them together are such a set")  # pragma: no cover


def _named(few: Sequence[Relation], of: str) -> str:
    if len(few) == 1:
        return f"{few[0]} can never hold{of}"
    listed = " and ".join((", ".join(map(str, few[:-1])), str(few[-1])))
    return f"these cannot all hold{of}: {listed}"


def hold_of_sizes(relations: Sequence[Relation]) -> bool:
    """Whether some sizes, every one above zero, fulfil them all.

    Each size is t and something more; sought is the largest t up to 1 mm. It is above zero where they can.
    """
    names = list(names_tied(relations))
    table: Table = []
    for relation in relations:
        counts = dict(relation.terms)
        row = [counts.get(name, _ZERO) for name in names]
        row += [sum(row, _ZERO), _ZERO, -relation.constant.mm]
        table.append(row if row[-1] >= 0 else [-entry for entry in row])
    table.append([_ZERO] * len(names) + [_ONE, _ONE, _ONE])  # t and what it lacks of 1 mm
    known = len(names) + 2
    # What each row lacks at first is made up by a helper, which must come to zero.
    for place, row in enumerate(table):
        row[-1:-1] = [Fraction(place == other) for other in range(len(table))]
    basis = [known + place for place in range(len(table))]
    helpers = [_ZERO] * known + [-_ONE] * len(table)
    if _greatest(table, basis, helpers) < 0:
        return False
    _without_helpers(table, basis, known)
    return _greatest(table, basis, [*[_ZERO] * len(names), _ONE, _ZERO]) > 0


def _without_helpers(table: Table, basis: list[int], known: int) -> None:
    """Takes the helpers, all at zero now, out of the table; a row left with nothing else repeats what others say."""
    for place in reversed(range(len(table))):
        if basis[place] >= known:
            enters = next((j for j in range(known) if table[place][j]), None)
            if enters is None:
                del table[place], basis[place]
            else:
                _pivot(table, place, enters)
                basis[place] = enters
    for row in table:
        del row[known:-1]


def _greatest(table: Table, basis: list[int], worth: Sequence[Fraction]) -> Fraction:
    """The greatest worth that a table of rows with its basis can be brought to."""
    while True:
        enters = next(
            (
                j
                for j in range(len(worth))
                if worth[j] > sum((worth[b] * row[j] for b, row in zip(basis, table, strict=True)), _ZERO)
            ),
            None,
        )
        if enters is None:
            return sum((worth[b] * row[-1] for b, row in zip(basis, table, strict=True)), _ZERO)
        _, _, leaves = min(
            (row[-1] / row[enters], basis[place], place) for place, row in enumerate(table) if row[enters] > 0
        )
        _pivot(table, leaves, enters)
        basis[leaves] = enters


def _pivot(table: Table, leaves: int, enters: int) -> None:
    own = table[leaves][enters]
    table[leaves] = [entry / own for entry in table[leaves]]
    for place, row in enumerate(table):
        if place != leaves and row[enters]:
            times = row[enters]
            table[place] = [a - times * b for a, b in zip(row, table[leaves], strict=True)]
