"""Readings taken off something that is not full size: a print, a copy, a photograph, a drawing to scale."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import Any

from fractions_shop.errors import NoAnswer, ShopError
from fractions_shop.meant.readings import Reading, reading
from fractions_shop.meant.shared import CommonError, Measured, Print
from fractions_shop.size.arguments import SizeLike, as_length
from fractions_shop.size.frozen import Record, Result
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.told import Told

#: Fewer sizes off one print, without a known one, may fit any scale.
FEWEST = 4


class KnownScale(Told, Result):
    """What one known size tells of a scale: true sizes are `factor` times what is read, give or take `spread` of that.

    `read` is what the known size `size` reads.

    >>> scale_from("25.0 mm", "2 in")
    <KnownScale: true sizes are 2.032 times what is read, give or take 0.16 %; 2 in reads 25 mm>
    """

    told_as = "scale"

    factor: Fraction
    spread: Fraction
    read: Quantity
    size: Quantity


Scale = Print | KnownScale | Fraction


def scale_from(
    read: SizeLike | Sequence[SizeLike], size: SizeLike, *, within: SizeLike | None = None
) -> KnownScale:
    """The scale at which `size` reads as `read`; any photograph, in any unit.

    Its spread is that of the reading, and of how near the known piece was made to its size.

    >>> scale_from("25.0 mm", "2 in").factor
    Fraction(254, 125)
    """
    taken, known = reading(read, within=within), as_length(size)
    if known.value <= 0:
        raise ShopError("a known size must be above zero")
    factor = known.mm / taken.size.mm
    spread = Fraction(taken.sigma / float(taken.size.mm)).limit_denominator(10**9)
    return KnownScale(factor, spread, taken.size, known)


def as_scale(given: Any) -> Scale | None:
    """A scale as the options take it: "print", "1:2", Fraction(1, 2), a Print or a KnownScale; None for none.

    ShopError for what is none of these.
    """
    if given is None or isinstance(given, Print | KnownScale):
        return given
    if isinstance(given, str) and given.strip().lower() in ("print", "a print"):
        return Print()
    try:
        over, _, under = given.partition(":") if isinstance(given, str) else (given, "", "1")
        ratio = Fraction(over) / Fraction(under or "1")
    except (TypeError, ValueError, ZeroDivisionError):
        ratio = Fraction(0)
    if isinstance(given, float) or ratio <= 0:
        raise ShopError(
            f"{given!r} is no scale: expected 'print', '1:2', a Fraction, or scale_from(reading, size)"
        )
    return ratio


def scaled(taken: Reading, scale: Scale | None) -> Reading:
    """The reading at full size, as far as the scale is known; what is not known of it is shared with the others."""
    if scale is None:
        return taken
    if isinstance(scale, Print):
        return taken.but(shared=(*taken.shared, scale))
    factor = scale.factor if isinstance(scale, KnownScale) else 1 / scale
    left = (Measured(_named(scale), scale.spread),) if isinstance(scale, KnownScale) else ()
    return taken.but(
        size=taken.size * factor,
        within=taken.within * factor,
        figures=tuple(figure * factor for figure in taken.figures),
        shared=(*taken.shared, *left),
    )


def _named(scale: KnownScale) -> str:
    """A name for what is left of a scale, so that two photographs never share one error."""
    return f"{scale.read.mm} mm is {scale.size.mm} mm"


class ScaleFound(Record):
    """True sizes are `factor` times what was read, give or take `spread` of that.

    It rests on `readings` readings of sizes that were not known, and on the `known` one if there is one.
    An exact scale has no spread and rests on nothing that was read.
    """

    factor: Fraction
    spread: Fraction
    readings: int
    known: KnownScale | None = None


def scale_found(scale: Scale | None, common: Sequence[CommonError]) -> ScaleFound | None:
    """What the readings say of the scale that they were read at; None where none was named."""
    if scale is None:
        return None
    if isinstance(scale, Fraction):
        return ScaleFound(1 / scale, Fraction(0), 0)
    known = scale if isinstance(scale, KnownScale) else None
    error = next(shared_error for shared_error in common if isinstance(shared_error.shared, Print | Measured))
    at = known.factor if known else Fraction(1)
    factor = at * Fraction(error.factor).limit_denominator(10**6)
    spread = Fraction(error.spread / error.factor).limit_denominator(10**6)
    return ScaleFound(factor, spread, error.readings, known)


def open_scales(readings: Sequence[Reading]) -> dict[Print, int]:
    """The prints off which too few different sizes were read to settle their scale, each with how many were."""
    prints = {carried for each in readings for carried in each.shared if isinstance(carried, Print)}
    counts = {
        print_: len({each.size for each in readings if print_ in each.shared})
        for print_ in sorted(prints, key=lambda shared: shared.name)
    }
    return {print_: count for print_, count in counts.items() if count < FEWEST}


def lacking(print_: Print, count: int) -> str:
    """What a print of so few sizes wants, in words."""
    name = f"print {print_.name}" if print_.name else "the print"
    return (
        f"the scale of {name} is not settled by {count} size{'' if count == 1 else 's'}: "
        f"read {FEWEST} different ones, or one whose true size is known, with scale from"
    )


def need_sizes(readings: Sequence[Reading]) -> None:
    """NoAnswer for a print off which too few different sizes were read to settle its scale."""
    for print_, count in open_scales(readings).items():
        raise NoAnswer(lacking(print_, count))
