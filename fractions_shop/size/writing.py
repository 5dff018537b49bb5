"""Sizes written out: what `str` gives, and what may stand in a format spec.

A spec is what stands behind `as` in the language, with a point and a number of decimals
if they are to be that many at most, or `both`:

    f"{q}"        the exact size, as short as it can be read again: 2 1/32 in, 51.5 mm
    f"{q:in}"     inches, a fraction where it is one of a rule: 2 1/32 in
    f"{q:mm}"     any unit; at most six decimals, and `about` before what does not end
    f"{q:ft in}"  feet and inches: 8 ft 7 7/16 in
    f"{q:64ths}"  how many divisions of a rule: 130 64ths
    f"{q:both}"   inches and millimetres: 2 1/32 in (51.59375 mm)
    f"{q:mm.3}"   rounded to nearest in the third decimal, a tie to even: 51.594 mm
    f"{n:.3}"     a plain number, which is in no unit

A size with limits is written from its lower limit to its upper one; decimals that were
asked for are rounded inward there, so that no part leaves the limits (ANSI/IEEE 268; ISO
370, method B).
"""

from __future__ import annotations

import re
from fractions import Fraction
from math import ceil, floor

from fractions_shop.errors import ArgumentError, DimensionError, ShopError
from fractions_shop.size import units
from fractions_shop.size.digits import PLACES
from fractions_shop.size.limits import Limits
from fractions_shop.size.notation import (
    FEET_FROM,
    MOST_ASKED,
    decimal,
    feet_text,
    in_decimals,
    inch_figures,
    mixed,
    readable,
)
from fractions_shop.size.quantity import Angle, Quantity
from fractions_shop.size.rule import Rule, UnknownRule
from fractions_shop.size.units import a_power

#: An exact size whose decimals end within so many is written with them, else as a fraction.
_LONGEST = 12
_SPEC = re.compile(r"(?P<unit>.*?)(?:\.(?P<places>[0-9]{1,2}))?")
_DECIMALS = re.compile(r"\.([0-9]{1,2})")
#: What Python's own format specs begin with where they are padded, or end with.
_PADDED = re.compile(r"(?:.?[<>^=])?[0-9]*(?:\.[0-9]+)?s?$")
_NAMES = {2: "sq in", 3: "cu in", -1: "tpi"}


def formatted(value: Quantity | Limits | Angle, spec: str = "") -> str:
    """A value as a format spec asks for it; ShopError for a spec that is none."""
    if isinstance(value, Angle):
        return _angle(value, spec)
    if isinstance(value, Limits):
        return _limits(value, spec)
    if not spec:
        return exact_text(value)
    if not value.power:
        return _plain_number(value, spec)
    unit, places = _parts(spec)
    if unit == "both":
        length = value if value.power == 1 else _no_length(value)
        return f"{_inches(length, places)} ({_in_unit(length, 'mm', places)})"
    if unit in ("in", "inch"):
        return _inches(value, places) if value.power == 1 else _in_unit(value, unit, places)
    if " ".join(unit.split()) in ("ft in", "ft-in"):
        length = value if value.power == 1 else _no_length(value)
        text, whole = feet_text(length.inch, PLACES if places is None else places)
        return text if (whole and not value.approximate) or places is not None else f"about {text}"
    return _in_unit(value, unit, places)


def exact_text(size: Quantity) -> str:
    """A size exactly, as short as it can be read again; `about` before one that is approximate."""
    if size.approximate:
        return _about(size)
    if size.power == 1:
        return _exact_length(size)
    number, unit = _number(size)
    return f"{_exact(number)} {unit}".rstrip()


def _about(size: Quantity) -> str:
    if size.power == 1:
        return f"about {inch_figures(size)[0]}"
    number, unit = _number(size)
    return f"about {decimal(number)[0]} {unit}".rstrip()


def _number(size: Quantity) -> tuple[Fraction, str]:
    """What is no length as a number of its unit of inches."""
    return size.in_unit("in"), "" if not size.power else _NAMES.get(size.power, f"in^{size.power}")


def _exact(number: Fraction) -> str:
    text, whole = decimal(number, _LONGEST)
    return text if whole else mixed(number)


def _exact_length(size: Quantity) -> str:
    inch, mm = size.inch, size.mm
    if abs(inch) >= FEET_FROM:
        text, whole = feet_text(inch, PLACES)
        if whole:
            return text
    if readable(inch):
        return f"{mixed(inch)} in"
    for places in (PLACES, _LONGEST):
        for number, unit in ((inch, "in"), (mm, "mm")):
            text, whole = decimal(number, places)
            if whole:
                return f"{text} {unit}"
    number, unit = min((inch, "in"), (mm, "mm"), key=lambda pair: pair[0].denominator)
    return f"{mixed(number)} {unit}"


def _inches(size: Quantity, places: int | None) -> str:
    if places is None and readable(size.inch):
        text = f"{mixed(size.inch)} in"
        return f"about {text}" if size.approximate else text
    return _in_unit(size, "in", places)


def _in_unit(size: Quantity, unit: str, places: int | None) -> str:
    many, label = how_many(size, unit), _label(unit, size.power)
    if places is not None:
        return f"{decimal(many, places)[0]} {label}"
    text, whole = in_decimals(many, label)
    return text if whole and not size.approximate else f"about {text}"


def _plain_number(number: Quantity, spec: str) -> str:
    """A number without a unit, to so many decimals."""
    places = _DECIMALS.fullmatch(spec.strip())
    if places is None:
        raise _no_unit()
    return decimal(number.value, _few(int(places[1])))[0]


def _no_unit() -> DimensionError:
    return DimensionError("this is a plain number, which is in no unit: say .3 for decimals, or nothing")


def _label(unit: str, power: int) -> str:
    """A unit with the power of a size that is no length: `sq mm`."""
    known = units.find(unit)
    if known is None or known.power != 1 or power == 1:
        return unit
    return {2: f"sq {unit}", 3: f"cu {unit}", -1: f"per {unit}"}.get(power, f"{unit}^{power}")


def _limits(value: Limits, spec: str) -> str:
    if not spec:
        return _exact_limits(value)
    unit, places = _parts(spec)
    if places is None:
        return f"{formatted(value.lower, spec)} to {formatted(value.upper, spec)}"
    if unit == "both":
        return f"{_limits(value, f'in.{places}')} ({_limits(value, f'mm.{places}')})"
    scale = 10**places
    raised = Fraction(ceil(how_many(value.lower, unit) * scale), scale)
    cut = Fraction(floor(how_many(value.upper, unit) * scale), scale)
    if raised > cut:
        raise ShopError(f"{places} decimals are too few for these limits: rounded inward they would cross")
    return f"{decimal(raised, places)[0]} to {decimal(cut, places)[0]} {unit}"


def _exact_limits(value: Limits) -> str:
    """Nominal and deviations as they are read again; of deviations that do not end, the two limits."""
    if value.power != 1:
        return f"{exact_text(value.lower)} to {exact_text(value.upper)}"
    if value.plus == value.minus:
        return f"{exact_text(value.nominal)} ± {exact_text(value.plus)}"
    for unit in ("in", "mm"):
        plus, minus = (decimal(how_many(size, unit), _LONGEST) for size in (value.plus, -value.minus))
        if plus[1] and minus[1]:
            signed = [text if text.startswith("-") else f"+{text}" for text, _ in (plus, minus)]
            nominal = exact_text(value.nominal)
            # A minus in front would else be read as before all of it.
            nominal = f"({nominal})" if value.nominal.value < 0 else nominal
            return f"{nominal} {'/'.join(signed)} {unit}"
    return f"{exact_text(value.lower)} to {exact_text(value.upper)}"


def _angle(angle: Angle, spec: str) -> str:
    unit, places = _parts(spec or "deg")
    if unit not in ("deg", "°"):
        raise ShopError(f"an angle is written in deg, not in {unit!r}")
    if places is not None:
        return f"{decimal(angle.degrees, places)[0]} deg"
    if not angle.approximate:
        return f"{_exact(angle.degrees)} deg"
    return f"about {decimal(angle.degrees)[0]} deg"


def how_many(size: Quantity, unit: str | Rule) -> Fraction:
    """How many of a unit, or of a rule's divisions, a size is, exactly.

    ShopError for what is neither; DimensionError for a size of another power, or of none.
    """
    if not isinstance(unit, (str, Rule)):
        raise ArgumentError(f"a unit is named by text such as 'mm' or '64ths', not by {type(unit).__name__}")
    if not size.power:
        raise _no_unit()
    known = None if isinstance(unit, Rule) else units.find(unit) or units.find_raised(unit)
    if known is not None:
        if known.power == size.power:
            return size.value / known.mm
        if known.power == 1:
            return size.value / known.mm**size.power
        raise DimensionError(f"this is {a_power(size.power)}, and {unit} is {a_power(known.power)}")
    try:
        rule = Rule(unit)
    except UnknownRule:
        assert isinstance(unit, str)
        if _PADDED.match(unit):
            raise ShopError(
                f"{unit!r} is no unit: what is to be so wide is text first, f'{{size!s:{unit}}}'"
            ) from None
        two = units.two_meanings(unit)
        raise ShopError(
            two
            or f"{unit!r} is neither a unit nor a rule: write in, mm, ft in, 64ths or both, and .3 for decimals"
        ) from None
    return (size if size.power == 1 else _no_length(size)).mm / rule.division.mm


def _no_length(size: Quantity) -> Quantity:
    raise DimensionError(f"this is {a_power(size.power)}, where a length is needed")


def _parts(spec: str) -> tuple[str, int | None]:
    """The unit of a spec, and how many decimals."""
    match = _SPEC.fullmatch(spec.strip())
    unit, places = (match["unit"].strip(), match["places"]) if match else (spec, None)
    if not unit:
        raise ShopError(
            f"a format says a unit first: in, mm, ft in, 64ths or both, and .3 for decimals, not {spec!r}"
        )
    return unit, None if places is None else _few(int(places))


def _few(places: int) -> int:
    """So many decimals, if they are not too many to be asked for."""
    if places > MOST_ASKED:
        raise ShopError(f"at most {MOST_ASKED} decimals are written")
    return places
