"""Divide and mark: worked cases. They are held against brute force in property/."""

from __future__ import annotations

from fractions import Fraction

import pytest

from fractions_shop.errors import DimensionError, NoAnswer, ShopError
from fractions_shop.layout.marks import mark
from fractions_shop.layout.spacing import divide
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.rule import Rule


def _in(text: str) -> Quantity:
    return Quantity.inches(Fraction(text))


def test_two_inches_into_five_on_64ths_upwards() -> None:
    # Check value: common practice, no source.
    found = divide("2 in", 5, direction="up")
    assert (found.total, found.space, found.change) == (_in("65/32"), _in("13/32"), _in("1/32"))
    assert found.exact == _in("2/5")


def test_the_totals_about_two_inches() -> None:
    found = divide("2 in", 5)
    assert found.nearest.total == found.above.total == _in("65/32")
    assert found.below is not None
    assert (found.below.total, found.below.space) == (_in("125/64"), _in("25/64"))
    assert found.kept_total is not None
    assert (found.kept_total.space, found.kept_total.ends) == (_in("3/8"), _in("1/16"))


def test_fixed_ends() -> None:
    # Check value: 1 13/16 in leaving 1/8 in each end into 5 gives 5/16 in; common practice, no source.
    found = divide("1 13/16 in", 5, ends="1/8 in")
    assert (found.space, found.change, found.total) == (_in("5/16"), _in("0"), _in("29/16"))
    assert found.kept_total is None


def test_bodies_between_spaces() -> None:
    # Four spaces of 13/32 and two ends of 1/2 in add to 2 5/8 in = 66.675 mm; common practice, no source.
    found = divide("2 5/8 in", 4, ends="1/2 in")
    assert found.space == _in("13/32")
    assert found.total.mm == Fraction("66.675")
    # Six bars of 1/4 in and five spaces in 4 in: 2 1/2 in of room, 1/2 in each; common practice, no source.
    bars = divide("4 in", 5, bodies="1/4 in")
    assert (bars.space, bars.change) == (_in("1/2"), _in("0"))


def test_ends_and_bodies_together() -> None:
    found = divide("5 in", 4, ends="1/4 in", bodies="3/8 in")
    assert found.exact == (_in("5") - 2 * _in("1/4") - 5 * _in("3/8")) / 4
    assert found.total == 2 * _in("1/4") + 5 * _in("3/8") + 4 * found.space


def test_down_when_no_smaller_total_is_left() -> None:
    assert divide("1/128 in", 3).total == _in("3/64")
    with pytest.raises(NoAnswer, match="leaves no space"):
        divide("1/128 in", 3, direction="down")


def test_down_is_the_total_below() -> None:
    # 25/64 in is the next space under 2/5 in; five of them are 1 61/64 in, by arithmetic.
    found = divide("2 in", 5, direction="down")
    assert (found.total, found.space, found.change) == (_in("125/64"), _in("25/64"), _in("-3/64"))
    assert found.nearest.total == _in("65/32")


@pytest.mark.parametrize(
    ("size", "count", "more", "space", "end"),
    [
        # In 64ths, by arithmetic: count x space + 2 x end + (count + 1) x body = total.
        pytest.param("4 1/16 in", 3, {"bodies": "1/4 in"}, "1", "1/32", id="bars: 3 x 64 + 2 x 2 + 4 x 16"),
        pytest.param("10 in", 3, {"ends": "1 in"}, "85/32", "65/64", id="ends: 3 x 170 + 2 x 65"),
        pytest.param("1/8 in", 6, {}, "1/64", "1/64", id="the least space: 6 x 1 + 2 x 1"),
        pytest.param("5/8 in", 3, {"ends": "19/64 in"}, "1/32", "17/64", id="ends give way: 3 x 2 + 2 x 17"),
        pytest.param(
            "1 9/16 in",
            3,
            {"ends": "9/32 in"},
            "11/32",
            "17/64",
            id="1/64 less before 2/64 more: 3 x 22 + 2 x 17",
        ),
    ],
)
def test_the_total_kept(size: str, count: int, more: dict[str, str], space: str, end: str) -> None:
    kept = divide(size, count, **more).kept_total  # type: ignore[arg-type]
    assert kept is not None
    assert (kept.space, kept.ends, kept.total) == (_in(space), _in(end), divide(size, count).asked)
    assert kept.change == _in("0")


def test_no_total_is_kept_by_spaces_of_nothing() -> None:
    # 4/64 in has no room for five 64ths; five of nothing and two ends of 1/32 in are no answer.
    assert divide("1/16 in", 5).kept_total is None


def test_a_tie_goes_to_the_even_number_of_divisions() -> None:
    assert divide("3/16 in", 4, "8ths", direction="nearest").space == _in("1/8")
    assert divide("3/2 in", 1, "1sts").space == _in("2")
    assert divide("5/2 in", 1, "1sts").space == _in("2")


def test_on_a_metric_rule() -> None:
    found = divide("100 mm", 7, "mm")
    assert (found.space.mm, found.total.mm) == (14, 98)


@pytest.mark.parametrize(
    ("size", "count", "more", "said"),
    [
        ("0 in", 5, {}, "above zero"),
        ("-2 in", 5, {}, "above zero"),
        ("2 in", 0, {}, "from 1 to 10,000, not 0"),
        ("2 in", -3, {}, "from 1 to 10,000, not -3"),
        ("2 in", 10_001, {}, "not 10,001"),
        ("2 in", 5, {"ends": "1 in"}, "no room"),
        ("2 in", 5, {"ends": "-1/8 in"}, "margin at each end must not be negative"),
        ("2 in", 5, {"bodies": "1 in"}, "no room"),
        ("2 in", 5, {"bodies": "-1 mm"}, "width of a body must not be negative"),
        ("2 in", 5, {"direction": "left"}, "direction"),
        ("2 in", 5, {"rule": "yards"}, "is not a rule"),
        ("two", 5, {}, "two is written in figures"),
        ("2", 5, {}, "plain number"),
    ],
)
def test_what_cannot_be_divided_is_refused_in_words(
    size: str, count: int, more: dict[str, str], said: str
) -> None:
    with pytest.raises(ShopError, match=said):
        divide(size, count, **more)  # type: ignore[arg-type]


@pytest.mark.parametrize("count", [5.0, Fraction(5, 2), True, "5", None, Quantity.number(Fraction(5, 2))])
def test_the_count_is_a_whole_number(count: object) -> None:
    with pytest.raises(ShopError, match="whole number such as 5"):
        divide("2 in", count)  # type: ignore[arg-type]


def test_a_count_may_be_a_plain_quantity() -> None:
    assert divide("2 in", Quantity.number(5)).count == 5  # type: ignore[arg-type]


def test_an_area_is_not_divided() -> None:
    with pytest.raises(DimensionError):
        divide(_in("2") * _in("2"), 5)


def test_a_great_total_is_quick_and_exact() -> None:
    found = divide(Quantity.inches(10**12), 9_999, direction="up")
    assert found.total >= Quantity.inches(10**12)
    assert found.total - Quantity.inches(10**12) < 9_999 * Rule("64ths").division


class TestMark:
    def test_every_mark_of_two_inches_into_five(self) -> None:
        found = mark("2 in", 5)
        assert [str(m.inch) for m in found.exact] == ["0", "2/5", "4/5", "6/5", "8/5", "2"]
        assert [str(m.inch) for m in found.read] == ["0", "13/32", "51/64", "77/64", "51/32", "2"]
        assert found.worst == abs(_in("13/32") - _in("2/5"))
        assert found.step == _in("13/32")
        assert found.stepping == _in("1/32")

    def test_from_a_datum(self) -> None:
        found = mark("2 in", 4, "16ths", start="1/8 in")
        assert [str(m.inch) for m in found.exact] == ["1/8", "5/8", "9/8", "13/8", "17/8"]
        assert found.exact == found.read
        assert found.worst == found.stepping == _in("0")

    def test_the_datum_may_lie_before_the_edge(self) -> None:
        assert mark("2 in", 2, start="-1 in").exact == (_in("-1"), _in("0"), _in("1"))

    @pytest.mark.parametrize(("size", "count"), [("0 in", 5), ("-1 in", 5), ("2 in", 0), ("2", 5)])
    def test_what_cannot_be_marked_is_refused(self, size: str, count: int) -> None:
        with pytest.raises(ShopError):
            mark(size, count)
