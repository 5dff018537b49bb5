"""Spacing as it is asked at the bench: figures worked out here anew, by trying every way, in plain fractions.

Each problem is asked in the language. What is tried here is written from the problem alone: whole
numbers of divisions, one after another. The answers are held to it as typed results and as objects.
"""

from __future__ import annotations

from fractions import Fraction
from itertools import count, pairwise, product
from math import ceil, floor
from typing import Any

import pytest

from fractions_shop import InputError, Session, Sheet

F = Fraction  # written often
IN, MM = F(1), F(5, 127)
#: The division of each rule.
ON = {
    "64ths": IN / 64,
    "32nds": IN / 32,
    "16ths": IN / 16,
    "8ths": IN / 8,
    "halves": IN / 2,
    "mm": MM,
    "half mm": MM / 2,
}


def asked(statement: str) -> dict[str, Any]:
    answer = Session().answer(statement)
    assert answer is not None
    return answer.data()


def inches(data: dict[str, str]) -> F:
    return F(data["inch"])


def nearest_total(total: F, spaces: int, step: F, beside: F, way: str) -> set[F]:
    """The spaces, in whole steps, whose total with what stands beside them is nearest to `total`."""
    totals = {k * step: spaces * k * step + beside for k in range(1, int(total / spaces / step) + 3)}
    if way:
        good = {s: t for s, t in totals.items() if (t >= total if way == "up" else t <= total)}
        return {min(good, key=lambda s: abs(good[s] - total))}
    least = min(abs(t - total) for t in totals.values())
    return {s for s, t in totals.items() if abs(t - total) == least}


#: What the maker asks, the statement, the total, the spaces, the bodies with what is left, the rule and the way.
ONE_COUNT = [
    ("seven drawers in a carcase of 33 5/8 in", "divide 33 5/8 in into 7", F(269, 8), 7, F(0), "64ths", ""),
    ("nine label slots in 11 3/4 in with 3/8 in left each end", "divide 11 3/4 in into 9 leaving 3/8 in each end", F(47, 4), 9, F(3, 4), "64ths", ""),
    ("a board of 47 3/4 in in seven pieces, six saw cuts of 1/8 in", "divide 47 3/4 in for 6 of 1/8 in", F(191, 4), 7, F(6, 8), "64ths", ""),
    ("27 balusters of 1 1/4 in between posts 11 ft 4 in apart", "divide 11 ft 4 in for 27 of 1 1/4 in", F(136), 28, F(135, 4), "64ths", ""),
    ("the same with 2 in left at each post", "divide 11 ft 4 in for 27 of 1 1/4 in leaving 2 in each end", F(136), 28, F(151, 4), "64ths", ""),
    ("four shelves of 3/4 in in a case of 54 in, on 16ths", "divide 54 in for 4 of 3/4 in on 16ths", F(54), 5, F(3), "16ths", ""),
    ("six rails of 3/4 in in a metre, on a metric rule", "divide 1 m for 6 of 3/4 in on mm", 1000 * MM, 7, F(9, 2), "mm", ""),
    ("nine rods of 8 mm in 40 cm, one at each end, no longer", "divide 40 cm into 8 between 8 mm on half mm down", 400 * MM, 8, 72 * MM, "half mm", "down"),
    ("a frame of 5 1/3 in in three, never shorter", "divide 5 1/3 in into 3 up", F(16, 3), 3, F(0), "64ths", "up"),
    ("one space", "divide 7.03 in into 1 on 8ths", F(703, 100), 1, F(0), "8ths", ""),
]  # fmt: skip


@pytest.mark.parametrize(("statement", "total", "spaces", "beside", "rule", "way"), [p[1:] for p in ONE_COUNT], ids=[p[0] for p in ONE_COUNT])  # fmt: skip
def test_spaces_on_the_rule(statement: str, total: F, spaces: int, beside: F, rule: str, way: str) -> None:
    data = asked(statement)
    step = ON[rule]
    assert inches(data["space"]) in nearest_total(total, spaces, step, beside, way)
    assert inches(data["total"]) == spaces * inches(data["space"]) + beside
    assert inches(data["change"]) == inches(data["total"]) - total
    assert inches(data["exact"]) == (total - beside) / spaces
    named = Sheet(f"s = {statement}\n").sizes["s"]
    assert named.inch == inches(data["space"])  # type: ignore[union-attr]


#: The statement, the total, the counts, the rule, what is left in all, the width of bodies.
SEVERAL = [
    ("four on one edge and six on the other", "divide 9 3/8 in into 4 and 6 on 32nds", F(75, 8), (4, 6), "32nds", F(0), F(0)),
    ("five and eight in 214 mm", "divide 214 mm into 5 and 8 on mm", 214 * MM, (5, 8), "mm", F(0), F(0)),
    ("three, four and five, half an inch left", "divide 2 ft into 3 and 4 and 5 leaving 1/2 in each end", F(24), (3, 4, 5), "64ths", F(1), F(0)),
    ("all of it and sevenths", "divide 10 in into 1 and 7", F(10), (1, 7), "64ths", F(0), F(0)),
    ("the same twice", "divide 6 1/2 in into 6 and 6", F(13, 2), (6, 6), "64ths", F(0), F(0)),
    ("with bars of 3/8 in between", "divide 16 in into 4 and 6 between 3/8 in", F(16), (4, 6), "64ths", F(0), F(3, 8)),
]  # fmt: skip


@pytest.mark.parametrize(("statement", "total", "counts", "rule", "left", "body"), [p[1:] for p in SEVERAL], ids=[p[0] for p in SEVERAL])  # fmt: skip
def test_several_counts_at_once(
    statement: str, total: F, counts: tuple[int, ...], rule: str, left: F, body: F
) -> None:
    data, step = asked(statement), ON[rule]

    def spaces(whole: F) -> list[F]:
        return [(whole - left - (n + 1) * body * bool(body)) / n for n in counts]

    first = counts[0]
    totals = [first * k * step + left + (first + 1) * body * bool(body) for k in range(1, 3000)]
    good = [whole for whole in totals if all(s > 0 and (s / step).denominator == 1 for s in spaces(whole))]
    least = min(abs(whole - total) for whole in good)
    assert abs(inches(data["total"]) - total) == least
    assert list(map(inches, data["spaces"])) == spaces(inches(data["total"]))


HOW_MANY = [
    ("battens no more than 4 in apart in 11 ft", "divide 11 ft into spaces of at most 4 in", 132 * IN, 4 * IN, "at most", None, True, "64ths"),
    ("it comes out at the limit itself", "divide 48 in into spaces of at most 4 in", 48 * IN, 4 * IN, "at most", None, True, "64ths"),
    ("slats of about 7 1/4 in from 8 ft", "divide 96 in into spaces of about 7 1/4 in", 96 * IN, F(29, 4), "about", None, True, "64ths"),
    ("bars of 1 1/4 in, gaps of at most 100 mm", "divide 11 ft 4 in for any of 1 1/4 in, at most 100 mm apart", 136 * IN, 100 * MM, "at most", F(5, 4), False, "64ths"),
    ("gaps of at most 101.6 mm on a metric rule", "divide 1015 mm into spaces of at most 101.6 mm on mm", 1015 * MM, 4 * IN, "at most", None, True, "mm"),
    ("a coarse rule would round the gap up past the limit", "divide 40 in into spaces of at most 2.9 in on halves", 40 * IN, F(29, 10), "at most", None, True, "halves"),
    ("bars at both ends", "divide 40 in into spaces of at most 3 in between 1 in", 40 * IN, 3 * IN, "at most", F(1), True, "64ths"),
    ("about 3 1/2 in between bars", "divide 11 ft 4 in for any of 1 1/4 in, about 3 1/2 in apart", 136 * IN, F(7, 2), "about", F(5, 4), False, "64ths"),
    ("wider than the whole", "divide 3 in into spaces of at most 5 in", 3 * IN, 5 * IN, "at most", None, True, "64ths"),
]  # fmt: skip


@pytest.mark.parametrize(("statement", "total", "limit", "kind", "body", "outer", "rule"), [p[1:] for p in HOW_MANY], ids=[p[0] for p in HOW_MANY])  # fmt: skip
def test_how_many(
    statement: str, total: F, limit: F, kind: str, body: F | None, outer: bool, rule: str
) -> None:
    data = asked(statement)

    def space(n: int) -> F:
        return (total - (body or 0) * (n + 1 if outer else n - 1)) / n

    if kind == "at most":
        wanted = {next(n for n in count(1) if space(n) <= limit)}
        assert inches(data["space"]) <= limit
    else:
        tried = range(1, 200)
        least = min(abs(space(n) - limit) for n in tried)
        wanted = {n for n in tried if abs(space(n) - limit) == least}
    assert data["count"] in wanted
    assert inches(data["exact"]) == space(data["count"])
    assert (inches(data["space"]) / ON[rule]).denominator == 1
    bodies = 0 if body is None else data["count"] + (1 if outer else -1)
    assert data["body_count"] == bodies


def test_no_gap_is_rounded_up_past_its_limit_for_want_of_a_finer_rule() -> None:
    with pytest.raises(InputError, match="no space on the halves is so narrow: the least is 1/2 in"):
        Session().answer("divide 40 in into spaces of at most 0.3 in on halves")


CHOSEN = [
    ("divide 17 5/16 in into 7 between any on 16ths", F(277, 16), 7, 8, "16ths", None),
    (
        "divide 17 5/16 in into 7 between any from 1/4 in to 1/2 in",
        F(277, 16),
        7,
        8,
        "64ths",
        (F(1, 4), F(1, 2)),
    ),
    ("divide 300 mm for 4 of any on mm leaving 10 mm each end", 280 * MM, 5, 4, "mm", None),
    ("divide 5 in into 3 between any on halves", F(5), 3, 4, "halves", None),
    ("divide 1/64 in into 5 between any", F(1, 64), 5, 6, "64ths", None),
]


@pytest.mark.parametrize(("statement", "total", "spaces", "bodies", "rule", "between"), CHOSEN)
def test_body_and_space_both_chosen(
    statement: str, total: F, spaces: int, bodies: int, rule: str, between: tuple[F, F] | None
) -> None:
    data, step = asked(statement), ON[rule]
    ways = set()
    for k in range(1, int(total / step)):
        body, space = k * step, (total - bodies * k * step) / spaces
        if (
            space > 0
            and (space / step).denominator == 1
            and (between is None or between[0] <= body <= between[1])
        ):
            ways.add((body, space))
    assert data["many"] == len(ways)
    shown = [(inches(way["body"]), inches(way["space"])) for way in data["choices"]]
    assert set(shown) <= ways
    assert len(set(shown)) == min(12, len(ways))


SHARED = [
    ("share 31 1/2 in among 3 and 5 on 16ths from 2 in to 6 in", F(63, 2), (3, 5), "16ths", F(2), F(6)),
    ("share 410 mm among 2 and 3 and 4 on mm from 20 mm to 80 mm", 410 * MM, (2, 3, 4), "mm", 20 * MM, 80 * MM),
    ("share 10 1/64 in among 4 and 6", F(641, 64), (4, 6), "64ths", F(1, 64), F(10)),
    ("share 5 in among 1 and 1 on halves", F(5), (1, 1), "halves", F(1, 2), F(5)),
    ("share 1/16 in among 3 and 5", F(1, 16), (3, 5), "64ths", F(1, 64), F(1)),
]  # fmt: skip


@pytest.mark.parametrize(("statement", "total", "counts", "rule", "least", "most"), SHARED)
def test_pieces_of_several_sizes(
    statement: str, total: F, counts: tuple[int, ...], rule: str, least: F, most: F
) -> None:
    data, step = asked(statement), ON[rule]
    sizes = range(ceil(least / step), floor(most / step) + 1)

    def ways(divisions: F) -> set[tuple[int, ...]]:
        *others, last = counts
        made = set()
        for tried in product(sizes, repeat=len(others)):
            rest = (divisions - sum(n * k for n, k in zip(others, tried, strict=True))) / last
            if rest.denominator == 1 and rest in sizes:
                made.add((*tried, int(rest)))
        return made

    found = ways(total / step)
    assert data["many"] == len(found)
    shown = {tuple(int(inches(size) / step) for size in way["sizes"]) for way in data["choices"]}
    assert shown <= found
    assert len(shown) == min(12, len(found))
    if not found:
        for side, turn in (("below", -1), ("above", 1)):
            start = floor(total / step) if turn < 0 else ceil(total / step)
            near = next((k for k in range(start, start + 40 * turn, turn) if k > 0 and ways(F(k))), None)
            assert (data[side] is None) == (near is None)
            assert near is None or inches(data[side]["total"]) == near * step


MARKED = [
    ("mark 54 in for 4 of 3/4 in centres", [F(51, 5) * (k + 1) + F(3, 4) * k + F(3, 8) for k in range(4)]),
    ("mark 54 in for 2 of 3/4 in edges leaving 1 in each end", [1 + F(101, 6), 1 + F(101, 6) + F(3, 4), 1 + F(101, 3) + F(3, 4), 1 + F(101, 3) + F(3, 2)]),
    ("mark 22 3/8 in into 3 between 5/16 in edges", [k * (F(169, 8) / 3 + F(5, 16)) + e for k in range(4) for e in (F(0), F(5, 16))]),
    ("mark 1 m into 7 on mm from 15 mm", [(15 + F(1000, 7) * k) * MM for k in range(8)]),
    ("mark 30 in into 6 from 2 in leaving 1 in each end", [3 + F(28, 6) * k for k in range(7)]),
    ("mark 37 in into 5 from 1 in", [1 + F(37, 5) * k for k in range(6)]),
]  # fmt: skip


@pytest.mark.parametrize(("statement", "places"), MARKED)
def test_marks_from_one_datum(statement: str, places: list[F]) -> None:
    data = asked(statement)
    step = MM if "on mm" in statement else IN / 64
    assert list(map(inches, data["exact"])) == places
    for place, read in zip(places, map(inches, data["read"]), strict=True):
        assert (read / step).denominator == 1
        assert abs(read - place) <= step / 2
    assert inches(data["worst"]) == max(
        abs(F(r["inch"]) - p) for r, p in zip(data["read"], places, strict=True)
    )


@pytest.mark.parametrize("places", [[F(3, 4), F(41, 8), F(301, 32)], [F(9), F(3), F(5)], [F(1, 3), F(7, 5)]])
def test_running_and_chain_figures(places: list[F]) -> None:
    data = asked("places " + ", ".join(f"{place} in" for place in places))
    rising = sorted(places)
    axis = data["axes"][0]
    assert list(map(inches, axis["running"]["exact"])) == rising
    assert list(map(inches, axis["chain"]["exact"])) == [b - a for a, b in pairwise(rising)]
    assert [inches(point["x"]) for point in data["points"]] == places
    for point, place in zip(data["coordinates"]["points"], places, strict=True):
        assert abs(F(point["x"]["mm"]) - place / MM) <= F(1, 2000)


@pytest.mark.parametrize(
    "statement",
    [
        "divide 6 1/2 in into 0 and 3", "divide 6 1/2 in into 2.5", "divide 6 1/2 in into -3", "divide 0 in into 3",
        "divide 6 1/2 in into 100000000000000", "divide 12 in into 5 mm", "divide 12 in for 4 of 3 in", "share 5 in among 5 and 0",
        "divide 40 in into 5 leaving 25 in each end", "mark 30 in into 2.5", "places 3 across by 0 in", "places 3 in, 14 in along 12 in",
        "share 5 in among 3", "pack 2 in from blocks 50", "divide 20 in for any of any, at most 3 in apart",
    ],
)  # fmt: skip
def test_what_cannot_be_is_refused(statement: str) -> None:
    with pytest.raises(InputError):
        Session().answer(statement)


ROOTED = "sqrt(2) * sqrt(2) * 1 in"


@pytest.mark.parametrize(
    ("asked_of", "plain"),
    [
        (f"snap {ROOTED} up", "snap 2 in up"),
        (f"divide {ROOTED} into 4 up", "divide 2 in into 4 up"),
        (f"divide {ROOTED} into spaces of at most 1/2 in", "divide 2 in into spaces of at most 1/2 in"),
        (f"divide 4 in into spaces of at most {ROOTED}", "divide 4 in into spaces of at most 2 in"),
        (f"share {ROOTED} among 4 and 2", "share 2 in among 4 and 2"),
        (f"pack {ROOTED} from 1/4 in", "pack 2 in from 1/4 in"),
        (f"divide {ROOTED} into 3 between any", "divide 2 in into 3 between any"),
        (f"x = {ROOTED}", "x = 2 in"),
    ],
)
def test_a_size_that_a_root_misses_in_its_last_figures_is_no_step_too_long(asked_of: str, plain: str) -> None:
    """The square of the root of 2 is 2 and some 10**-30: never one division, or one space, more."""
    rooted, exact = Session().answer(asked_of), Session().answer(plain)
    assert rooted is not None
    assert exact is not None
    assert rooted.value == exact.value
    assert getattr(rooted.result, "count", 0) == getattr(exact.result, "count", 0)
    assert getattr(rooted.result, "many", 0) == getattr(exact.result, "many", 0)
