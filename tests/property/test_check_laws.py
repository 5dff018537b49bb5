"""Laws of check: wherever the pieces of the first side lie, those of the second alone can answer them."""

from __future__ import annotations

import random
from fractions import Fraction
from itertools import product

import pytest

from fractions_shop import Limits, Quantity, Session

#: Half the limits of each piece, in 64ths, and how many times it may stand in a side.
PIECES = {"x": 1, "y": 2, "z": 3}
TIMES = (-1, 0, 1, 2)


def sides(dice: random.Random) -> tuple[dict[str, int], dict[str, int], int]:
    first, second = ({name: dice.choice(TIMES) for name in PIECES} for _ in range(2))
    return first, second, dice.choice((0, 0, 1, 3, 6))


def written(side: dict[str, int], nominal: int) -> str:
    """A side whose nominal size is `nominal` inches."""
    rest = nominal - sum(times * 2 for times in side.values())
    return " + ".join([*(f"({times}) * {name}" for name, times in side.items() if times), f"({rest} in)"])


def agrees(first: dict[str, int], second: dict[str, int], allowed: int) -> bool:
    """The law by brute force: for each corner of the first side's pieces some place of the second's own."""
    own = [name for name in PIECES if not first[name] and second[name]]
    room = allowed + sum(abs(second[name]) * PIECES[name] for name in own)
    moving = [name for name in PIECES if first[name]]
    return all(
        abs(
            sum(
                (first[name] - second[name]) * PIECES[name] * end
                for name, end in zip(moving, ends, strict=True)
            )
        )
        <= room
        for ends in product((-1, 1), repeat=len(moving))
    )


@pytest.mark.parametrize("seed", range(8))
def test_a_check_holds_where_the_pieces_of_both_sides_say_so(seed: int) -> None:
    dice, seen = random.Random(seed), set()
    bench = Session()
    for name, reach in PIECES.items():
        bench.answer(f"{name} = 2 in ± {reach}/64 in")
    for _ in range(60):
        first, second, allowed = sides(dice)
        if not any(first.values()) and any(second.values()):
            continue  # one exact size against limits must lie inside them: another question
        line = f"check {written(first, 9)} = {written(second, 9)}"
        if not any(second.values()) and any(first.values()) and not allowed:
            continue  # limits against one exact size have only to take it in
        answer = bench.answer(line + (f" within {allowed}/64 in" if allowed else ""))
        assert answer is not None
        assert answer.ok is agrees(first, second, allowed), (line, allowed)
        seen.add(answer.ok)
    assert seen == {True, False}


@pytest.mark.parametrize(
    ("line", "holds"),
    [
        ("check x = x", True),
        ("check a + x = 3 in", True),
        ("check a = 3 in - x", True),
        ("check x * y = y * x", True),
        ("check x * x / x = x", True),
        ("check x = 4 in - x", False),  # the zones are the same, the sizes are not
        ("check x = 4 in - x within 1/32 in", True),
        ("check x = 4 in - x within 1/33 in", False),
        ("check x + (1 in ± 1/64 in) = x + y", True),
        ("check x + y = x + (1 in ± 1/64 in)", False),
        ("check 4 of x = 4 of x", True),  # two batches: the one lies where the other may
    ],
)
def test_a_name_is_one_piece_on_both_sides_of_a_check(line: str, holds: bool) -> None:
    bench = Session()
    for given in ("x = 2 in ± 1/64 in", "y = 1 in ± 1/32 in", "a = 3 in - x"):
        bench.answer(given)
    answer = bench.answer(line)
    assert answer is not None
    assert answer.ok is holds
    assert "one piece stands in both sides" in answer.text(500) or not answer.result.shared


def test_the_difference_of_a_shared_check_is_that_of_the_nominal_sizes() -> None:
    bench = Session()
    bench.answer("x = 2 in +1/64/-0 in")
    answer = bench.answer("check x = x + 0.01 in within 1/64 in")
    assert answer is not None
    assert answer.ok
    assert answer.result.difference == Quantity.inches(Fraction(-1, 100))
    assert isinstance(answer.result.left, Limits)
