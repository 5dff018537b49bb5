"""Laws of reading: every written form of a value reads back to that value."""

from __future__ import annotations

from fractions import Fraction

from hypothesis import example, given
from hypothesis import strategies as st
from strategies import (
    Written,
    WrittenLimits,
    divisions,
    lengths,
    plain_sizes,
    rationals,
    written_limits,
    written_sizes,
)

from fractions_shop import read
from fractions_shop.errors import InputError
from fractions_shop.figures.figure import in_feet
from fractions_shop.sheet.session import Session
from fractions_shop.size.limits import Limits
from fractions_shop.size.notation import decimal, inch_figures, mixed, number_value, read_plain
from fractions_shop.size.quantity import Angle, Quantity
from fractions_shop.size.rule import nths


@given(written_sizes())
def test_every_written_form_reads_to_its_value(size: Written) -> None:
    assert read(size.text) == Quantity(size.mm)


@given(written_sizes())
def test_a_written_size_is_exact(size: Written) -> None:
    assert not read(size.text).approximate


@given(plain_sizes())
def test_the_plain_reader_reads_the_value_or_leaves_it(size: Written) -> None:
    found = read_plain(size.text)
    assert found is None or found == Quantity(size.mm)


#: What a line of a column may be made of, right or wrong.
_PIECES = (
    "1", "2", "6", "64", "32", "12", "0", ".", "/", " ", "-", "+", "in", "ft", "mm", "thou", "m", '"', "'", "½",
    "ths", "th", "nds", "st", "inch", "feet", "e", ",", "·", "_", "１", "−", "⁄",
)  # fmt: skip


@given(st.lists(st.sampled_from(_PIECES), min_size=1, max_size=8).map("".join))
@example("1/64th")
@example("3/64ths")
@example("3.564ths")
@example("64ths")
@example("5ft3in")
@example("5'-3\"")
def test_the_plain_reader_and_the_language_agree_wherever_the_plain_one_answers(text: str) -> None:
    plain = read_plain(text)
    if plain is None:
        return
    # 1/2 is a size to the reader of columns, and the rest must hold for any text at all.
    answer = Session().answer(text)
    assert answer is not None
    assert answer.value == plain


@given(written_limits())
def test_written_limits_read_to_their_limits(size: WrittenLimits) -> None:
    found = read(size.text)
    assert isinstance(found, Limits)
    assert (found.nominal.mm, found.lower.mm, found.upper.mm) == (size.nominal, size.lower, size.upper)


@given(lengths())
def test_the_inch_fraction_shown_reads_back_to_the_size(size: Quantity) -> None:
    text, whole = inch_figures(size)
    assert not whole or read(text) == size


@given(st.integers(-5000, 5000).map(lambda n: Quantity.inches(Fraction(n, 64))))
def test_feet_and_inches_shown_read_back_to_the_size(size: Quantity) -> None:
    assert read(in_feet(size).bare) == size


@given(rationals())
def test_a_mixed_number_reads_back_to_its_value(value: Fraction) -> None:
    text = mixed(value)
    assert (-1 if text[0] == "-" else 1) * number_value(text.removeprefix("-")) == value


@given(rationals(), st.integers(0, 12))
def test_a_decimal_is_off_by_at_most_half_its_last_figure_and_says_when_it_is_exact(
    value: Fraction, places: int
) -> None:
    text, whole = decimal(value, places)
    assert abs(Fraction(text) - value) <= Fraction(1, 2 * 10**places)
    assert whole == (Fraction(text) == value)


@given(st.integers(0, 5000), divisions().filter(lambda r: not r.metric))
def test_so_many_parts_of_an_inch_read_to_that_many_divisions(count: int, rule: object) -> None:
    parts = rule.parts  # type: ignore[attr-defined]
    assert read(f"{count} {nths(parts)}") == Quantity.inches(Fraction(count, parts))


@given(st.integers(0, 359), st.integers(0, 59), st.integers(0, 59))
def test_degrees_minutes_and_seconds_read_to_their_angle(degrees: int, minutes: int, seconds: int) -> None:
    answer = Session().answer(f"{degrees}°{minutes}'{seconds}\"")
    assert answer is not None
    assert answer.value == Angle(degrees + Fraction(minutes, 60) + Fraction(seconds, 3600))


@given(st.text(alphabet=st.sampled_from("0123456789 ./-+'\"½inmth()*^=#,°±×e"), max_size=24))
def test_any_text_is_answered_or_refused_in_words(text: str) -> None:
    fault = None
    try:
        Session().answer(text)
    except InputError as error:
        fault = error
    assert fault is None or (fault.message and 0 <= fault.start <= len(text))
