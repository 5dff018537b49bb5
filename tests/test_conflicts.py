"""Relations that cannot all hold: the smallest set, against a search of every subset by other means."""

from __future__ import annotations

from fractions import Fraction
from itertools import combinations, pairwise
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fractions_shop import NoAnswer, reconcile
from fractions_shop.meant.conflicts import conflict, hold_of_sizes
from fractions_shop.meant.relation_text import read_relation
from fractions_shop.meant.relations import Relation, can_hold
from fractions_shop.size.quantity import Quantity

NAMES = "abcd"

#: Counts of four names and a length in mm, which together come to nought.
systems = st.lists(
    st.tuples(*[st.integers(-2, 2)] * 4, st.integers(-3, 3)).filter(lambda row: any(row[:4])),
    min_size=1,
    max_size=4,
)


def relation(row):
    counts = {name: count for name, count in zip(NAMES, row, strict=False) if count}
    return Relation.of(counts, Quantity(Fraction(row[4])), " ".join(map(str, row)))


def rank(rows):
    """By minors: the size of the largest square of rows and columns whose determinant is not nought."""
    width = len(rows[0])
    return next(
        size
        for size in range(min(len(rows), width), -1, -1)
        if any(
            determinant([[rows[i][j] for j in columns] for i in chosen])
            for chosen in combinations(range(len(rows)), size)
            for columns in combinations(range(width), size)
        )
    )


def determinant(square):
    """By Laplace's expansion."""
    if not square:
        return 1
    return sum(
        (-1) ** j * square[0][j] * determinant([row[:j] + row[j + 1 :] for row in square[1:]])
        for j in range(len(square))
    )


def some_fulfil(rows):
    """Rouché and Capelli: the constants raise no rank."""
    return rank([row[:4] for row in rows]) == rank([list(row) for row in rows])


def some_above_nought_fulfil(rows):
    """Fourier's and Motzkin's elimination, of an equation as two inequalities; `strict` ones say above nought."""
    faces = [([Fraction(sign * c) for c in row], False) for row in rows for sign in (1, -1)]
    faces += [([Fraction(k == j) for j in range(4)] + [Fraction(0)], True) for k in range(4)]
    for k in range(4):
        above = [face for face in faces if face[0][k] > 0]
        below = [face for face in faces if face[0][k] < 0]
        kept = {(tuple(row), strict) for row, strict in faces if not row[k]}
        for up, one in above:
            for down, other in below:
                row = [a / up[k] - b / down[k] for a, b in zip(up, down, strict=True)]
                most = max(map(abs, row)) or 1
                kept.add((tuple(entry / most for entry in row), one or other))
        faces = [(list(row), strict) for row, strict in kept]
    return all(row[4] > 0 or (not strict and row[4] == 0) for row, strict in faces)


@settings(max_examples=150, deadline=None)
@given(systems)
def test_whether_they_can_hold_is_told_as_by_other_means(rows):
    written = [relation(row) for row in rows]
    assert can_hold(written) == some_fulfil(rows)
    assert (can_hold(written) and hold_of_sizes(written)) == some_above_nought_fulfil(rows)


#: Systems that no sizes above nought fulfil, and whose pivots are no ones: they part a quotient from a product.
_UNLIKE = [
    [(2, 2, -1, -1, 3), (-1, 2, 2, 1, -2)],
    [(-2, 0, 0, 0, 0), (-1, 0, 1, 1, -3), (-2, 1, -2, 1, 2), (1, -1, 0, -2, 1)],
    [(2, 0, 6, -4, 2), (-2, 0, 2, -5, 3), (0, 1, 5, -1, 3)],
]


def test_counts_of_many_pieces_are_told_apart_too():
    r = Random(1977)
    drawn = [
        [(*(r.randint(-6, 6) for _ in range(4)), r.randint(-9, 9)) for _ in range(r.randint(1, 3))]
        for _ in range(120)
    ]
    for rows in (*_UNLIKE, *drawn):
        rows = [row for row in rows if any(row[:4])]
        written = [relation(row) for row in rows]
        if rows and can_hold(written):
            assert hold_of_sizes(written) == some_above_nought_fulfil(rows), rows


@settings(max_examples=100, deadline=None)
@given(systems)
def test_no_smaller_set_of_all_subsets_conflicts(rows):
    told = conflict([relation(row) for row in rows])
    conflicting = [
        few
        for size in range(1, len(rows) + 1)
        for few in combinations(rows, size)
        if not some_above_nought_fulfil(few)
    ]
    if not conflicting:
        assert not told
        return
    fewest = [" ".join(map(str, row)) for row in conflicting[0]]
    of = "" if not some_fulfil(conflicting[0]) else " of sizes above zero"
    if len(fewest) == 1:
        assert told == f"{fewest[0]} can never hold{of}"
    else:
        assert told == f"these cannot all hold{of}: {', '.join(fewest[:-1])} and {fewest[-1]}"


@pytest.mark.parametrize(
    ("relations", "words"),
    [
        (["a = 5 * b", "a = 4 * b", "c = 2 * d"], "of sizes above zero: a = 5 * b and a = 4 * b"),
        (["a = b + c", "d = a + b", "d + c = 0 mm"], "d + c = 0 mm can never hold of sizes above zero"),
        (["a = b + c", "b = a + d"], "of sizes above zero: a = b + c and b = a + d"),
        (["c = d", "a - b = 40 mm", "a - b = 41 mm"], "hold: a - b = 40 mm and a - b = 41 mm"),
    ],
)
def test_it_is_said_instead_of_no_set(relations, words):
    read = {name: f"{10 + 5 * place}.0 mm" for place, name in enumerate(NAMES)}
    with pytest.raises(NoAnswer) as refused:
        reconcile(read, relations)
    assert str(refused.value).endswith(words)


def test_eight_relations_of_twelve_names_are_searched():
    names = "abcdefghijkl"
    chain = [read_relation(f"{one} = {other} + 1 mm") for one, other in pairwise(names[:8])]
    assert not conflict(chain)
    assert conflict([*chain, read_relation("h = a + 1 mm")]).count(" = ") == 8
