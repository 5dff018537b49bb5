"""Strategies for hypothesis: sizes, rules, limits and written forms, for property tests of what is built on this library.

Hypothesis is not installed with the library, and is imported only here.

>>> from hypothesis import given
>>> @given(written_sizes())
... def test_my_own_reader(written):
...     assert my_reader(written.text) == written.size.inch
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import ceil, floor

from hypothesis import strategies as st

from fractions_shop.errors import ShopError
from fractions_shop.size import units
from fractions_shop.size.arguments import SizeLike, as_length
from fractions_shop.size.limits import Limits
from fractions_shop.size.notation import GLYPHS, decimal, mixed, number_value
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.rule import Rule
from fractions_shop.size.slips import slip

__all__ = ["WrittenForm", "limits", "rules", "sizes", "written_sizes"]

_RULES = ("64ths", "32nds", "16ths", "8ths", "100ths", "10ths", "mm", "half mm")
_MARKS = "'\""
_GLYPHS = {number_value(sign): sign for sign in GLYPHS}
#: No drawing has fractions with a larger denominator.
_LARGEST_DENOMINATOR = 1000
_MOST_DECIMALS = 8


@dataclass(frozen=True)
class WrittenForm:
    """A written form of a size: `read(text) == size`."""

    text: str
    size: Quantity


def rules() -> st.SearchStrategy[Rule]:
    """The usual rules, inch and metric, and inches divided into any number of parts up to 300."""
    return (st.sampled_from(_RULES) | st.integers(1, 300).map(lambda parts: f"{parts}ths")).map(Rule)


def sizes(
    least: SizeLike = "0 in", most: SizeLike = "60 in", *, rule: Rule | str | None = None
) -> st.SearchStrategy[Quantity]:
    """Exact lengths from `least` to `most`: marks of `rule`, or of all kinds if that is None.

    Of all kinds are binary fractions of an inch to 128ths, decimals of an inch or a millimetre
    to four places, and awkward fractions. They shrink towards the least one of the simplest kind.
    ShopError if `least` is over `most`, or no mark of the rule lies between.
    """
    low, high = as_length(least).mm, as_length(most).mm
    if low > high:
        raise ShopError(f"the least of the sizes, {Quantity(low)}, is over the most, {Quantity(high)}")
    if rule is not None:
        return _multiples(low, high, Rule(rule).division.mm).map(Quantity)
    steps = (
        *(units.INCH / 2**n for n in range(8)),
        units.INCH / 10**4,
        *(Fraction(1, 10**n) for n in range(5)),
    )
    kinds = [_multiples(low, high, step) for step in steps if low <= -(-low // step) * step <= high]
    # Awkward fractions begin and end where one of so many parts does, which a thou or less does not.
    first, last = (
        Fraction(end, _LARGEST_DENOMINATOR)
        for end in (ceil(low * _LARGEST_DENOMINATOR), floor(high * _LARGEST_DENOMINATOR))
    )
    awkward = [st.fractions(first, last, max_denominator=_LARGEST_DENOMINATOR)] if first <= last else []
    return st.one_of(*kinds, *awkward, st.sampled_from((low, high))).map(Quantity)


def limits(nominal: st.SearchStrategy[Quantity] | None = None) -> st.SearchStrategy[Limits]:
    """Sizes with limits of whole thous or hundredths of a millimetre, up to 20 either way, about `nominal`."""
    grain = st.sampled_from((units.INCH / 1000, Fraction(1, 100)))
    off = st.builds(lambda step, count: Quantity(step * count), grain, st.integers(0, 20))
    return st.builds(Limits, sizes() if nominal is None else nominal, off, off)


def written_sizes(size: st.SearchStrategy[Quantity] | None = None) -> st.SearchStrategy[WrittenForm]:
    """A form in which a drawing may write a length of `size`, and the length, both exact.

    Mixed numbers with a blank or a dash, signs such as ½, decimals that end, every word for inches
    and millimetres, and feet and inches. None of them has a second sensible meaning.
    """
    return (sizes() if size is None else size).flatmap(_forms_of)


def _forms_of(length: Quantity) -> st.SearchStrategy[WrittenForm]:
    forms = [*_inches(abs(length.inch)), *_millimetres(abs(length.mm))]
    sign = "-" if length.value < 0 else ""
    return st.sampled_from(forms).map(lambda text: WrittenForm(f"{sign}{text}", length))


def _multiples(low: Fraction, high: Fraction, step: Fraction) -> st.SearchStrategy[Fraction]:
    first, last = -(-low // step), high // step
    if first > last:
        raise ShopError(f"no multiple of {Quantity(step)} lies from {Quantity(low)} to {Quantity(high)}")
    return st.integers(first, last).map(lambda count: count * step)


def _inches(value: Fraction) -> list[str]:
    words = units.BY_WORD["in"].words
    numbers = _numbers(value)
    forms = [f"{number}{'' if word[0] in _MARKS else ' '}{word}" for number in numbers for word in words]
    feet, rest = divmod(value, 12)
    if feet:
        forms += [f"{feet}' {number}\"" for number in _numbers(rest)]
        forms += [f"{feet} ft {number} in" for number in _numbers(rest)]
    return forms


def _millimetres(value: Fraction) -> list[str]:
    # 7 3/32 mm is asked about: no rule of millimetres has it.
    numbers = [number for number in _numbers(value) if not slip(number, "mm")]
    return [f"{number} {word}" for number in numbers for word in units.BY_WORD["mm"].words]


def _numbers(value: Fraction) -> list[str]:
    """The ways to write a number that is zero or more."""
    whole, part = divmod(value, 1)
    forms = [mixed(value)]
    if whole and part:
        forms.append(f"{whole}-{part}")
    if part in _GLYPHS:
        forms.append(f"{whole or ''}{_GLYPHS[part]}")
    text, ends = decimal(value, _MOST_DECIMALS)
    return [*forms, text] if ends else forms
