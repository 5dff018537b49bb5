"""The bridge to pint: exact both ways, our factors against pint's, and why pint reads no user text."""

from __future__ import annotations

import re
from fractions import Fraction
from typing import Any

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st
from over_all import over
from strategies import rationals

from fractions_shop import divide, from_pint, read, snap, to_pint
from fractions_shop.errors import ArgumentError, FloatRefused, InputError, ShopError
from fractions_shop.size import units
from fractions_shop.size.other_lengths import LENGTHS, NOT_EXACT, PINT, length_called
from fractions_shop.size.pint_bridge import registry
from fractions_shop.size.quantity import Quantity


@pytest.fixture(scope="module")
def floating() -> Any:
    """A registry as pint gives it by default, in which numbers are floats."""
    return pint.UnitRegistry()


# Why pint is never given user text


@pytest.mark.parametrize(
    ("text", "pints_inches", "ours"),
    [
        ("3 1/2 in", Fraction(3, 2), Fraction(7, 2)),
        ("2 1/32 inch / 5", Fraction(1, 80), Fraction(13, 32)),
    ],
)
def test_pint_misreads_a_mixed_number_without_a_word(
    text: str, pints_inches: Fraction, ours: Fraction
) -> None:
    misread = registry().parse_expression(text)
    assert misread.to("inch").magnitude == pints_inches
    assert read(text) == Quantity.inches(ours) != Quantity.inches(pints_inches)


# Our factors and names


def _words() -> list[tuple[str, units.Unit]]:
    return [
        (word, unit) for unit in units.UNITS if unit.power == 1 for word in unit.words if word.isidentifier()
    ]


@over(_words(), lambda each: each[0])
def test_every_unit_word_of_ours_is_pints_or_unknown_to_it(word: str, unit: units.Unit) -> None:
    try:
        theirs = registry().Quantity(Fraction(1), word)
    except pint.UndefinedUnitError:
        assert word in ("ins", "yds", "thousandth", "thousandths"), "pint has a word for every other"
        return
    assert theirs.to("millimeter").magnitude == unit.mm


@pytest.mark.parametrize("unit", [u for u in units.UNITS if u.power == 1], ids=lambda u: u.name)
def test_every_unit_of_ours_has_pints_factor(unit: units.Unit) -> None:
    names = {"in": "inch", "ft": "foot", "yd": "yard", "um": "micrometer"}
    theirs = registry().Quantity(Fraction(1), names.get(unit.name, unit.name))
    assert theirs.to("millimeter").magnitude == unit.mm


def test_threads_per_inch_are_one_over_an_inch() -> None:
    tpi = units.BY_WORD["tpi"]
    assert tpi.power == -1
    assert registry().Quantity(Fraction(1), "1/inch").to("1/millimeter").magnitude == tpi.mm


_PREFIXED = re.compile(r"(?:deci|centi|milli|micro|nano|pico|femto|kilo)meter")


def _pints_lengths() -> set[str]:
    own, found = registry(), set()
    for word in dir(own):
        try:
            if own.Quantity(1, word).check("[length]"):
                found.add(own.get_name(word))
        except (pint.errors.PintError, AttributeError, TypeError, ValueError):
            continue
    return found


def test_every_length_of_pints_is_ours_exact_refused_or_not_exact() -> None:
    lengths = _pints_lengths()
    assert {"inch", "meter", "mile", "parsec", "pica", "chain"} <= lengths
    for name in lengths:
        if (
            units.find(name) is not None
            or units.two_meanings(name)
            or name in NOT_EXACT
            or _PREFIXED.fullmatch(name)
            or (name not in LENGTHS and pint.__version__ != PINT)
        ):
            continue
        found = length_called(name)
        assert found is not None, f"{name} is read nowhere"
        assert found.mm == registry().Quantity(Fraction(1), name).to("millimeter").magnitude, name


def test_the_exact_ones_are_read_by_their_full_names() -> None:
    for name, (mm, _) in LENGTHS.items():
        assert read(f"2 {name}") == read(f"2 {name}s") == Quantity(2 * mm)


@pytest.mark.parametrize("name", sorted(LENGTHS))
def test_each_of_them_is_as_long_as_in_pint(name: str) -> None:
    """Those too that pint makes of a prefix, such as a decimetre."""
    assert LENGTHS[name][0] == registry().Quantity(Fraction(1), name).to("millimeter").magnitude


def test_none_of_them_is_a_unit_of_ours_or_has_two_meanings() -> None:
    assert not [name for name in LENGTHS if units.find(name) or units.two_meanings(name)]


@pytest.mark.parametrize("name", sorted(NOT_EXACT & _pints_lengths()))
def test_a_length_that_rests_on_a_measurement_is_refused(name: str) -> None:
    with pytest.raises(ShopError, match="rests on a measurement"):
        length_called(name)


@pytest.mark.parametrize(
    "word", ["nmi", "pc", "au", "Å", "ly", "kilohand", "second", "kelvin", "metre tonne", "x.y", "", "ft3"]
)
def test_abbreviations_prefixes_and_other_things_are_not_looked_up(word: str) -> None:
    assert length_called(word) is None


@pytest.mark.parametrize("word", sorted(units.TWO_MEANINGS))
def test_a_word_of_two_meanings_is_refused_with_both(word: str) -> None:
    with pytest.raises(InputError) as caught:
        read(f"3 {word}")
    meanings, advice = units.TWO_MEANINGS[word].split(": ", 1)
    assert meanings in str(caught.value)
    assert advice in str(caught.value)


# Across the bridge


@given(rationals(), st.integers(-2, 3))
def test_there_and_back_is_the_same_quantity(value: Fraction, power: int) -> None:
    size = Quantity(value, power)
    assert from_pint(to_pint(size)) == size


@given(
    rationals(),
    st.sampled_from(("inch", "foot", "yard", "thou", "millimeter", "cm", "meter", "mile", "hand")),
)
def test_a_pint_length_comes_across_exactly(number: Fraction, unit: str) -> None:
    own = registry()
    mm = own.Quantity(number, unit).to("millimeter").magnitude
    assert from_pint(own.Quantity(number, unit)) == Quantity(Fraction(mm))


def test_what_goes_to_pint_is_a_fraction_of_millimetres() -> None:
    there = to_pint(Quantity.inches(Fraction(13, 32)))
    assert there.magnitude == Fraction(1651, 160)
    assert isinstance(there.magnitude, Fraction)
    assert str(there.units) == "millimeter"
    assert there.to("inch").magnitude == Fraction(13, 32)
    assert to_pint(Quantity(Fraction(3), 2)).dimensionality == {"[length]": 2}


def test_it_goes_into_a_registry_of_the_callers(floating: Any) -> None:
    there = to_pint(Quantity.inches(1), floating)
    assert there._REGISTRY is floating
    assert there.to("inch").magnitude == pytest.approx(1)


def test_a_whole_number_from_a_floating_registry_is_exact(floating: Any) -> None:
    assert from_pint(floating.Quantity(7, "inch")).mm == Fraction("177.8")


def test_a_float_is_refused_unless_it_says_how_far_to_trust_it(floating: Any) -> None:
    with pytest.raises(FloatRefused, match=r"from_pint\(size, within='0\.01 mm'\)"):
        from_pint(floating.Quantity(1.5, "inch"))
    with pytest.raises(FloatRefused):
        from_pint(floating.Quantity(7, "inch").to("millimeter"))
    size = from_pint(floating.Quantity(1.5, "inch"), within="0.01 mm")
    assert size.inch == Fraction(3, 2)
    assert size.approximate
    assert size.within == Quantity.millimetres(Fraction(1, 100))


def test_a_measured_area_is_not_taken(floating: Any) -> None:
    with pytest.raises(ShopError, match="only a measured length"):
        from_pint(floating.Quantity(1.5, "inch**2"), within="0.01 mm")


@pytest.mark.parametrize(
    "unit", ["second", "inch*pound", "inch**0.5", "inch**1.5", "kelvin", "degree", "parsec", "bohr**2"]
)
def test_what_is_no_exact_power_of_a_length_is_refused(floating: Any, unit: str) -> None:
    with pytest.raises(ShopError, match="is not an exact length or a power of one"):
        from_pint(floating.Quantity(2, unit))


def test_a_unit_that_a_registry_defines_for_itself_is_refused() -> None:
    theirs = pint.UnitRegistry()
    theirs.define("cubit = 18 inch")
    with pytest.raises(ShopError, match="cubit is not a unit that pint defines"):
        from_pint(theirs.Quantity(2, "cubit"))


@pytest.mark.filterwarnings("ignore:Redefining")
def test_a_unit_that_a_registry_defines_otherwise_is_refused() -> None:
    theirs = pint.UnitRegistry()
    theirs.define("hand = 5 inch")
    with pytest.raises(ShopError, match="hand has another size in that registry"):
        from_pint(theirs.Quantity(2, "hand"))
    assert from_pint(theirs.Quantity(2, "mile")) == Quantity.of(2 * 5280, "ft")


def test_public_functions_take_pint_lengths() -> None:
    own = registry()
    assert divide(own.Quantity(2, "inch"), 5, direction="up").space.inch == Fraction(13, 32)
    assert snap(own.Quantity(Fraction(103, 10), "mm")).size.inch == Fraction(13, 32)


def test_a_float_from_pint_is_refused_by_public_functions(floating: Any) -> None:
    with pytest.raises(FloatRefused):
        divide(floating.Quantity(2.0, "inch"), 5)


@pytest.mark.parametrize("value", ["2 in", None, 2, read("1/2 in +1/-2 thou")], ids=str)
def test_only_a_quantity_goes_to_pint(value: Any) -> None:
    with pytest.raises(ArgumentError, match="to_pint takes a Quantity, not "):
        to_pint(value)
