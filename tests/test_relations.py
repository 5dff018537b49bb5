"""Relations: read from text, solved exactly, and refused with the smallest set that conflicts."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fractions_shop.errors import InputError, NoAnswer, ShopError
from fractions_shop.meant.conflicts import conflict
from fractions_shop.meant.relation_text import read_relation
from fractions_shop.meant.relations import Relation, solve
from fractions_shop.size.quantity import Quantity


@pytest.mark.parametrize(
    ("text", "counts", "constant_inch"),
    [
        pytest.param("rack = 5 * bay + 6 * slat", {"rack": 1, "bay": -5, "slat": -6}, 0, id="times"),
        pytest.param("rack = 5 of bay + 6 of slat", {"rack": 1, "bay": -5, "slat": -6}, 0, id="of"),
        pytest.param("bay * 5 = rack", {"bay": 5, "rack": -1}, 0, id="count-behind"),
        pytest.param(
            "a = b / 2 - 3/4 of c", {"a": 1, "b": Fraction(-1, 2), "c": Fraction(3, 4)}, 0, id="shares"
        ),
        pytest.param("a = 2 * (b - c + 1/8 in)", {"a": 1, "b": -2, "c": 2}, Fraction(-1, 4), id="brackets"),
        pytest.param('2-1/32" = 4 of s', {"s": -4}, Fraction(65, 32), id="old-mixed-number"),
        pytest.param("x = 2 in-b", {"x": 1, "b": 1}, -2, id="no-blanks"),
        pytest.param("-a + b = 0 mm", {"a": -1, "b": 1}, 0, id="sign-first"),
        pytest.param("a + a = b", {"a": 2, "b": -1}, 0, id="a-name-twice"),
        pytest.param("a = b + 1 in / 2", {"a": 1, "b": -1}, Fraction(-1, 2), id="size-shared"),
    ],
)
def test_reads(text: str, counts: dict[str, int], constant_inch: Fraction) -> None:
    found = read_relation(text)
    assert dict(found.terms) == counts
    assert found.constant.inch == constant_inch
    assert found.written == text


@pytest.mark.parametrize(
    ("text", "message", "start", "end"),
    [
        pytest.param(
            "a * b = c", "a relation must be linear: two sizes are multiplied here", 0, 5, id="product"
        ),
        pytest.param(
            "c = 2 in * a",
            "a relation must be linear: two sizes are multiplied here",
            4,
            12,
            id="size-by-name",
        ),
        pytest.param("c = 1 / a", "sizes are divided only by a number", 4, 9, id="quotient"),
        pytest.param("a = 2", "a number has no unit, so it is not a size", 4, 5, id="bare"),
        pytest.param("a = b + 3", "a number and a size cannot be added", 4, 9, id="bare-added"),
        pytest.param("a + b", "an equals sign is expected here", 5, 6, id="no-equals"),
        pytest.param("a = ", "a name, a count or a size is expected here", 4, 5, id="ends"),
        pytest.param("a = (b + c", "a closing bracket is expected here", 10, 11, id="open"),
        pytest.param("a = b c", "this is not expected here", 6, 7, id="more"),
        pytest.param("a = 5 qq", "a number has no unit, so it is not a size", 4, 6, id="unit-not-known"),
        pytest.param("a = a", "this relation ties no name", 0, 5, id="nothing"),
        pytest.param("a = 1/0 in", "sizes are divided only by a number", 4, 10, id="by-nought"),
    ],
)
def test_what_is_not_linear_or_no_sum_is_refused_with_its_place(
    text: str, message: str, start: int, end: int
) -> None:
    with pytest.raises(InputError) as refused:
        read_relation(text)
    assert (refused.value.message, refused.value.start, refused.value.end) == (message, start, end)


def test_brackets_and_length_are_bounded() -> None:
    assert read_relation("a = " + "(" * 20 + "b" + ")" * 20).names == ("a", "b")
    with pytest.raises(InputError) as refused:
        read_relation("a = " + "(" * 500 + "b")
    assert refused.value.message == "brackets stand too deep here"
    assert (refused.value.start, refused.value.end) == (24, 25)  # the first that is too many
    read_relation("a = " + "b + " * 248 + "b  ")
    with pytest.raises(InputError) as refused:
        read_relation("a = " + "b + " * 249 + "b")
    assert refused.value.message == "a relation of 1,001 characters is too long"
    assert (refused.value.start, refused.value.end) == (1000, 1001)


names = st.sampled_from("abcde")
counts = st.dictionaries(names, st.integers(-6, 6).filter(bool), min_size=1)


@given(
    st.lists(counts, min_size=1, max_size=4),
    st.lists(st.fractions(1, 9, max_denominator=64), min_size=5, max_size=5),
)
def test_what_follows_fulfils_every_relation_exactly(
    given_counts: list[dict[str, int]], sizes: list[Fraction]
) -> None:
    relations = [Relation.of(one) for one in given_counts]
    solved = solve(relations, tuple("abcde"))
    found = {name: Quantity(mm) for name, mm in solved.sizes(sizes[: len(solved.free)]).items()}
    assert set(solved.free) | set(solved.rows) == set("abcde")
    for relation in relations:
        assert sum((found[name] * count for name, count in relation.terms), relation.constant) == 0


@pytest.mark.parametrize(
    ("relations", "message"),
    [
        pytest.param(
            ["a = b", "c = d", "b = c", "a = d + 1 mm"],
            "these cannot all hold: a = b, c = d, b = c and a = d + 1 mm",
            id="all-four",
        ),
        pytest.param(["a = b", "c = d", "2 of a = 2 of b + 1 in"], "these cannot all hold: a = b and 2 of a = 2 of b + 1 in", id="two-of-three"),
    ],
)  # fmt: skip
def test_relations_that_cannot_all_hold_name_the_smallest_set(relations: list[str], message: str) -> None:
    written = [read_relation(one) for one in relations]
    with pytest.raises(NoAnswer):
        solve(written, tuple("abcd"))
    assert conflict(written) == message


def test_a_relation_that_says_again_what_others_say_is_no_fault() -> None:
    solved = solve([read_relation(one) for one in ("a = b + c", "2 * a = 2 * b + 2 * c")], tuple("abc"))
    assert len(solved.free) == 2


def test_the_name_that_stands_once_follows_so_that_counts_stay_whole() -> None:
    solved = solve([read_relation("rack = 5 * bay + 6 * slat")], ("rack", "bay", "slat"))
    assert solved.rows == {"rack": ((Fraction(5), Fraction(6)), Fraction(0))}


def test_a_relation_of_no_names_is_none() -> None:
    with pytest.raises(ShopError, match="ties no name"):
        Relation.of({"a": 0})
