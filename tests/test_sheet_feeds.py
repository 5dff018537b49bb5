"""What feeds a failed check: expected figures are worked out by hand beside each."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fractions_shop import Quantity
from fractions_shop.sheet.check_causes import Feed
from fractions_shop.sheet.worked_sheet import SheetCheck
from fractions_shop.show.sheet import Sheet


def failed(*lines: str) -> SheetCheck:
    (check,) = (c for c in Sheet.from_text("\n".join(lines)).checks if not c.holds)
    return check


def feeds(*lines: str) -> dict[str, Feed]:
    return {feed.name: feed for feed in failed(*lines).feeds}


def test_a_sum_moves_as_its_parts_do():
    # 3a + b against 2 in: a counts three times, b once. It stands at 1 3/4 in, 1/4 in short.
    found = feeds("a = 1/2 in", "b = 1/4 in", "check 3 * a + b = 2 in")
    assert found["a"].moves == Quantity.inches(Fraction(3, 64))
    assert found["b"].moves == Quantity.inches(Fraction(1, 64))
    assert found["a"].closes == Quantity.inches(Fraction(1, 12))
    assert found["b"].closes == Quantity.inches(Fraction(1, 4))
    assert list(found) == ["a", "b"]  # the stronger first


def test_the_second_side_counts_against_the_first():
    found = feeds("a = 1 in", "b = 2 in", "check a = b")
    assert found["b"].moves == Quantity.inches(Fraction(-1, 64))
    assert found["b"].closes == Quantity.inches(-1)


def test_only_given_sizes_are_told_and_they_reach_through_what_lies_between():
    found = feeds(
        "check area = 6 in^2", "area = wide * high", "wide = 2 in", "high = base + 1/2 in", "base = 2 in"
    )
    assert set(found) == {"wide", "base"}
    # 1/64 in more on a side of 2 in by 2 1/2 in.
    assert found["wide"].moves == Quantity.inches(Fraction(1, 64)) * Quantity.inches(Fraction(5, 2))


def test_a_product_moves_by_an_exact_difference_and_not_by_a_slope():
    # (1 1/64)^2 - 1 = 129/4096 square inches; the slope would say 2/64 = 128/4096.
    found = feeds("a = 1 in", "check a * a = 2 in^2")
    assert found["a"].moves.in_unit("in") == Fraction(129, 4096)


def test_what_a_rule_rounds_away_is_said_to_move_nothing():
    found = feeds("total = 2 in", "bay = divide total into 5 up", "check bay * 5 = 2 in")
    assert found["total"].moves == Quantity.inches(0)
    assert found["total"].closes is None


def test_the_step_is_a_division_of_the_rule_on_the_check():
    assert feeds("a = 1 in", "rule mm", "check a = 1 mm")["a"].moves.mm == 1


def test_a_count_moves_by_one_and_closes_by_whole_numbers():
    found = feeds("n = 4", "gap = 3/8 in", "check n * gap = 1 7/8 in")
    assert (found["n"].moves.inch, found["n"].closes) == (Fraction(3, 8), Quantity.number(1))
    assert feeds("n = 4", "check n * 3/8 in = 2 in")["n"].closes is None


@pytest.mark.parametrize(
    ("n", "check", "closes"),
    [
        (4, "n * 2 in is at most 5 1/2 in", -2),
        (1, "n * 2 in is at least 5 1/2 in", 2),
        (4, "5 1/2 in is at least n * 2 in", -2),
        (4, "n * 2 in is at most 6 in", -1),
    ],
)
def test_of_a_one_sided_check_a_count_closes_by_the_least_whole_number_that_does(n, check, closes):
    found = feeds(f"n = {n}", f"check {check}")
    assert found["n"].closes == Quantity.number(closes)
    assert failed(f"n = {n + closes - (1 if closes > 0 else -1)}", f"check {check}")


def test_a_size_whose_step_leaves_the_sheet_without_an_answer_closes_nothing():
    found = feeds("a = 1 in", "check 1 in * 1 in / (65/64 in - a) = 1 in")
    assert (found["a"].moves, found["a"].closes, found["a"].least) == (None, None, None)


def test_an_angle_moves_by_a_degree():
    found = feeds("turn = 30 deg", "check 2 in * sin(turn) = 1 1/2 in")
    # 2 (sin 31 - sin 30) = 0.030076... from any table of sines
    assert abs(found["turn"].moves.inch - Fraction("0.030076")) < Fraction(1, 10**6)


def test_limits_tell_how_far_they_reach():
    check = failed("a = 1 in ± 1/64 in", "b = 2 in ± 1/32 in", "check a + 2 * b = 6 in within 1/2 in")
    found = {feed.name: feed for feed in check.feeds}
    assert found["a"].reach == Quantity.inches(Fraction(1, 64))
    assert found["b"].reach == Quantity.inches(Fraction(1, 16))
    assert [feed.name for feed in check.feeds] == ["b", "a"]


def test_a_closing_change_is_proved_and_not_only_proportioned():
    # By proportion a square root would be closed by the wrong change, so none is told.
    found = feeds("a = 4 in^2", "check sqrt(a) = 3 in")
    assert found["a"].moves.value > 0
    assert found["a"].closes is None


def test_no_name_no_feed():
    assert failed("check 1 in = 2 in").feeds == ()


def test_ans_feeds_through():
    assert set(feeds("a = 1 in", "a * 2", "check ans = 3 in")) == {"a"}


def test_a_check_that_rests_on_very_much_is_told_by_its_own_names():
    lines = [f"n{k} = n{k - 1} + 1 in" for k in range(1, 400)]
    found = feeds("n0 = 1 in", *lines, "check n399 = 1 in")
    assert set(found) == {"n399"}
    assert found["n399"].closes == Quantity.inches(-399)


def test_many_failed_checks_share_one_budget():
    lines = [f"n{k} = n{k - 1} + 1 in" for k in range(1, 190)]
    made = Sheet.from_text("\n".join(["n0 = 1 in", *lines, *["check n189 = 1 in"] * 60]))
    told = [check for check in made.checks if check.feeds and check.feeds[0].moves is not None]
    assert 0 < len(told) < 60
    assert not any(check.holds for check in made.checks)


@given(st.integers(-50, 50), st.integers(1, 40), st.integers(1, 9))
def test_the_check_holds_when_a_size_is_changed_by_what_is_said_to_close_it(whole, part, times):
    lines = ["a = {}", f"check {times} * a + 1/3 in = {whole} in"]
    start = f"{part} in / 7"
    made = Sheet.from_text("\n".join(lines).format(start))
    (check,) = made.checks
    if check.holds:
        return
    closes = check.feeds[0].closes
    mended = Sheet.from_text(
        "\n".join(lines).format(f"{start} + ({closes.inch.numerator} in / {closes.inch.denominator})")
    )
    assert mended.checks[0].holds
