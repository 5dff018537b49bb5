"""Laws of the quick ways: what is worked out without asking is what asking gives."""

from __future__ import annotations

from fractions import Fraction
from itertools import product
from math import ceil, floor
from typing import Any

import bent_text
import pytest
from hypothesis import example, given
from hypothesis import strategies as st
from strategies import divisions, lengths, positive_lengths, rationals

from fractions_shop import Angle, InputError, Limits, Quantity, Rule, Session, ShopError
from fractions_shop.language import arithmetic
from fractions_shop.language.advice import second_meanings
from fractions_shop.language.evaluate import Evaluator
from fractions_shop.language.fault import Fault
from fractions_shop.language.nodes import Binary, Literal, Naming, Node, ShownExpression, nodes_in
from fractions_shop.layout.spacing import divide
from fractions_shop.requests import check
from fractions_shop.requests.answering import asks_the_rule
from fractions_shop.requests.expression import plain_size
from fractions_shop.sheet.lines import read_lines
from fractions_shop.sheet.solve import Worked, Working
from fractions_shop.sheet.worked_parts import worked_out
from fractions_shop.sheet.worked_sheet import WorkedSheet
from fractions_shop.size import ratios
from fractions_shop.size.limits import limits_of
from fractions_shop.size.quantity import unchecked
from fractions_shop.size.rule import as_rule, how_often, rule_called

INCH = Fraction(127, 5)
HUGE = st.integers(-(2**200), 2**200)
FRACTIONS = rationals() | st.builds(Fraction, HUGE, st.integers(1, 2**200))


# Arithmetic


@given(FRACTIONS, FRACTIONS)
def test_fractions_worked_out_crosswise_are_what_python_makes_of_them(a: Fraction, b: Fraction) -> None:
    assert (ratios.added(a, b), ratios.less(a, b), ratios.times(a, b)) == (a + b, a - b, a * b)
    assert (ratios.compared(a, b) > 0, ratios.compared(a, b) < 0) == (a > b, a < b)
    for made in (ratios.added(a, b), ratios.less(a, b), ratios.times(a, b)):
        assert type(made) is Fraction
        assert made.as_integer_ratio() == Fraction(*made.as_integer_ratio()).as_integer_ratio()
    if b:
        assert ratios.over(a, b) == a / b
        assert ratios.over(a, b).denominator > 0
    else:
        with pytest.raises(ZeroDivisionError):
            ratios.over(a, b)


MARKED = st.builds(
    Quantity, rationals(), st.sampled_from([0, 1, 1, 2, -1]), st.booleans(),
    st.none() | st.just(Quantity.inches(Fraction(1, 1000))), st.sampled_from(["", "printed", "from memory"]),
)  # fmt: skip


@given(MARKED, MARKED)
def test_a_sum_or_product_has_every_mark_of_its_parts(a: Quantity, b: Quantity) -> None:
    made = [a * b, -a, a * 3]
    made += [a + b, a - b] if a.power == b.power else []
    made += [a / b] if b else []
    for size in made:
        again = Quantity(size.value, size.power, size.approximate, size.within, size.standing)
        assert (again, again.power) == (size, size.power)
        assert repr(again) == repr(size)
        assert type(size.value) is Fraction
        assert type(size.power) is int
    for size in [one for one in made if one is not made[1] and one is not made[2]]:
        assert size.approximate == (a.approximate or b.approximate)
        assert size.within is None
        assert size.standing in (a.standing, b.standing)
    assert (made[1].within, made[1].standing, made[2].within) == (a.within, a.standing, None)


def test_sizes_of_two_kinds_are_joined_by_no_quick_way() -> None:
    for joined in (lambda a, b: a + b, lambda a, b: a - b, lambda a, b: a < b):
        with pytest.raises(ShopError):
            joined(Quantity.inches(1), unchecked(Fraction(1), 2))


@given(lengths(), rationals())
def test_limits_moved_by_an_exact_size_are_the_sum_with_one_that_has_no_spread(
    size: Quantity, spread: Fraction
) -> None:
    limits = Limits(Quantity.inches(2), Quantity(abs(spread)), Quantity(Fraction(1, 7)))
    for moved, summed in (
        (limits + size, limits + limits_of(size)),
        (size + limits, limits_of(size) + limits),
        (limits - size, limits - limits_of(size)),
        (size - limits, limits_of(size) - limits),
    ):
        assert moved == summed
        assert (moved.form, moved.slopes, moved.wide) == (summed.form, summed.slopes, summed.wide)


BITS = (1, 40, 165, 166, 167, 300, 333, 640, 641, 1300)
POWERS = (0, 1, -1, 2, 64, -64, 65, -65)


def bounded(value: Any) -> str:
    node = Session().read("1 in")
    assert node is not None
    try:
        return repr(arithmetic.bounded(value, node))
    except Fault as fault:
        return fault.message


def test_what_is_short_is_within_the_bounds_that_all_else_is_held_to(monkeypatch: pytest.MonkeyPatch) -> None:
    values: list[Any] = []
    for top, bottom in product(BITS, BITS):
        number = Fraction(2**top - 1, max(1, 2**bottom - 2))
        values += [Angle(number), Angle(-number)]
        for size in (Quantity(sign * number, power) for power in POWERS for sign in (1, -1)):
            values += [
                size,
                Limits(Quantity(Fraction(1), size.power), abs(size), Quantity(Fraction(0), size.power)),
            ]
    quick = [bounded(value) for value in values]
    monkeypatch.setattr(arithmetic, "_is_short", lambda _: False)
    assert quick == [bounded(value) for value in values]
    assert len(set(quick)) > 100


# What needs no question


def sums(text: str) -> list[tuple[Binary, Binary | None]]:
    """Every sum in a line, each with what it is the left side of."""
    try:
        read = Session().read(text)
    except InputError:
        return []
    found = [node for node in nodes_in(read) if isinstance(node, Binary)]
    return [(node, next((outer for outer in found if outer.left is node), None)) for node in found]


OPERANDS = (
    "a",
    "slat",
    "3 mm",
    '1/2"',
    "+2 thou",
    "-1 mm",
    "(3 mm)",
    "1/8",
    "16",
    "0.002",
    "a / 5",
    "-a",
    "2 in ± 1 thou",
    "24",
)
MADE = [
    f"{before}{left}{one}{sign}{two}{right}{behind}"
    for left, sign, right in product(OPERANDS, "+-*/×", OPERANDS)
    for one, two in ((" ", " "), (" ", ""))
    for before, behind in (("", ""), ("1 in - ", ""), ("", " + 1 thou"))
]
VALUES: list[Any] = [
    Quantity.inches(2), Quantity(Fraction(127, 5), 0), Quantity.number(3), Quantity(Fraction(5), -1), Angle(Fraction(30)),
    Limits(Quantity.inches(1), Quantity.inches(Fraction(1, 64)), Quantity.inches(Fraction(1, 64))),
    Quantity.inches(0), Quantity.inches(Fraction(-1, 2)),
]  # fmt: skip


def values_of(node: Node) -> list[Any]:
    """What a node can come to: a number that is written has one value."""
    return [node.value] if isinstance(node, Literal) else VALUES


def test_of_a_form_of_one_meaning_there_is_nothing_to_say() -> None:
    texts = bent_text.Texts.read()
    real = [row for sitting in texts.sittings for row in sitting if "+" in row or "-" in row]
    seen = 0
    for text in (*real, *MADE):
        for node, outer in sums(text):
            plain = [left for left in VALUES if arithmetic.has_one_meaning(node, left)]
            if plain:
                seen += 1
                second_meanings.refuse(node, outer, text)
            for left, right in product(plain, values_of(node.right)):
                second_meanings.refuse_sides(node, left, right, text)
                assert second_meanings.notes(node, left, right, text) == [], text
    assert seen > 300


KNOWN = {
    "a": Quantity.inches(2), "b": Quantity.number(9), "c": Quantity(Fraction(5), 1, True), "d": VALUES[5], "e": Angle(Fraction(30)),
    "f": Quantity(Fraction(5), 1, False, None, "from memory"), "g": Quantity(Fraction(9), 2),
}  # fmt: skip


@pytest.mark.parametrize("power", [0, 1, 2])
def test_a_size_taken_as_it_stands_is_what_its_line_answers(power: int) -> None:
    taken, texts = 0, bent_text.Texts.read()
    for text in (*KNOWN, *texts.sizes, "2 in as mm", "9", "5' 3", "no such name"):
        bench = Session()
        bench.known = dict(KNOWN)
        try:
            read = bench.read(text)
        except InputError:
            continue
        if not isinstance(read, ShownExpression):
            continue
        size = plain_size(read, bench.known, power)
        if size is None:
            continue
        taken += 1
        answer = bench.work_out(read, text)
        assert repr(size) == repr(answer.value)
        assert (size.power, answer.kind) == (power, "size")
        dashed = text.lstrip().startswith("-")  # a line of a list, which no size within a line is
        if not dashed:
            assert [note.kind for note in answer.notes] == ["remark"] * (power == 0 and text not in KNOWN)
    assert taken


def test_a_size_of_a_part_that_rests_on_a_doubt_is_asked_for_and_says_so() -> None:
    bench = Session()
    bench.known = {"a": Quantity.inches(2)}
    (line,) = read_lines("part slat: 2 of oak, a by 1 in")
    assert line.part is not None
    node = line.part.sizes[0]
    assert worked_out(node, line, bench).notes == ()
    bench.doubtful = {"a": ("bay",)}
    assert [note.text for note in worked_out(node, line, bench).notes] == [
        "rests on bay, which may be another size"
    ]


@pytest.mark.parametrize(
    ("line", "asks"),
    [
        ("snap 3 mm", True),
        ("a = snap 3 mm to 16ths", False),
        ("check 1 in = 1 in", False),
        ("divide 2 in into 5 on mm", False),
        ("mark 2 in into 5", True),
    ],
)
def test_a_request_that_names_its_rule_or_needs_none_waits_for_none(line: str, asks: bool) -> None:
    read = Session().read(line)
    part = read.answer if isinstance(read, Naming) else read
    assert asks_the_rule(part) is asks  # type: ignore[arg-type]


# Checks, marks and spaces in whole numbers


@given(lengths(), lengths(), st.none() | positive_lengths(), st.booleans())
def test_a_check_of_exact_sizes_holds_as_one_of_limits_without_any_spread(
    left: Quantity, right: Quantity, allowed: Quantity | None, approximate: bool
) -> None:
    left = Quantity(left.value, 1, approximate)
    off = left - right
    same = limits_of(left), limits_of(right)
    assert check._holds(left, right, off, allowed) == check._holds(*same, off, allowed)


@given(FRACTIONS | st.integers(-9, 9), FRACTIONS.filter(lambda step: step > 0))
@example(1, Fraction(1))
@example(-3, Fraction(127, 320))
def test_how_often_a_step_goes_is_what_rounding_their_quotient_gives(
    value: Fraction | int, step: Fraction
) -> None:
    if isinstance(value, int):  # so many halves of it, every second time a tie
        value = step * value / 2
    parts = value / step
    assert how_often(value, step) == round(parts)
    assert how_often(value, step, "up") == ceil(parts)
    assert how_often(value, step, "down") == floor(parts)


@given(st.integers(1, 400), st.integers(1, 9), st.integers(0, 40), st.sampled_from([1, 2, 3]))
def test_a_total_that_is_kept_moves_its_ends_the_least_that_there_is(
    divisions_: int, count: int, ends: int, parts: int
) -> None:
    step, rule = INCH / 64, Rule("64ths")
    wanted = step * ends / parts
    total = step * divisions_
    if total <= 2 * wanted:
        return
    spacing = divide(Quantity(total), count, rule, ends=Quantity(wanted) if ends else None)
    tries = [
        (abs(step * (divisions_ - count * k) / 2 - wanted), k)
        for k in range(1, divisions_ // count + 1)
        if (divisions_ - count * k) % 2 == 0
    ]
    kept = spacing.kept_total
    if kept is None:
        assert not tries or min(tries)[0] == 0
    else:
        assert abs(kept.ends.mm - wanted) == min(tries)[0]
        assert kept.total.mm == total == kept.space.mm * count + 2 * kept.ends.mm


@given(divisions(), st.integers(-500, 500))
def test_so_many_divisions_are_that_many_times_the_one(rule: Rule, count: int) -> None:
    assert rule.divisions(count) == rule.division * count
    assert as_rule(rule) is rule
    assert rule_called(rule.name) == rule
    assert rule_called(rule.name) is rule_called(rule.name)


def test_a_rule_that_is_not_known_is_refused_each_time_it_is_named() -> None:
    for _ in range(2):
        with pytest.raises(ShopError, match="is not a rule"):
            rule_called("7 whole")


def test_every_kind_of_node_that_is_worked_out_can_be() -> None:
    evaluator = Evaluator({})
    read = Session().read("check 2 in = 50.8 mm within 1 thou")
    with pytest.raises(Fault, match="cannot be worked out"):
        evaluator.value(next(nodes_in(read)))


def test_a_sheet_that_is_changed_for_the_first_time_works_out_no_line_that_is_as_it_was(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    rows = [
        "a = 2 in",
        "rule 32nds",
        "b = a / 5",
        "c = snap a",
        "check a = 2 in",
        "part slat: 2 of oak, a by b",
        "d = nothing",
    ]
    first = WorkedSheet("\n".join(rows))
    assert [item.state for item in first.worked][-1] == "fault"
    again, anew = Working.again, list[int]()

    def counted(working: Working, n: int, *given: Any) -> Worked:
        anew.append(n)
        return again(working, n, *given)

    monkeypatch.setattr(Working, "again", counted)
    changed = first.edited("\n".join([*rows[:2], "b = a / 4", *rows[3:], "e = 1 in"]))
    assert [str(item.value) for item in changed.worked][2] == "1/2 in"
    assert sorted(anew) == [
        2,
        5,
        6,
        7,
    ]  # what is written anew, what draws on it, and a fault that looks at all names
    anew.clear()
    assert changed.edited(changed.written).worked == changed.worked
    assert anew == []
