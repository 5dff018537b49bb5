"""The step that a reader's instrument shows, inferred from readings that share it.

Readings of one list that name no instrument were read with one. If all of ten stand on half
millimetres, though written to the tenth, they were hardly read to the tenth. A step that
all stand on is weighed against reading as finely as was written: coarser steps leave
fewer figures to choose from, so that each reading is as many times likelier as the step
is coarser; but it is trusted less, to half the step. Whether the shop's own sizes make the
readings stand so (a metric shop's do) is weighed along with it, by `weighing`.

Fractions of an inch lose their step in writing (1/2 in on a rule of 32nds is 16/32). From
three on they are held to stand on one of the rules' divisions.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from math import log

from fractions_shop.meant.instruments import fraction_of_inch
from fractions_shop.meant.likelihood import trusted
from fractions_shop.meant.readings import MADE, Reading
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.units import INCH

#: Fewer readings do not show a step.
FEWEST = 3
#: What instruments show, in mm and in decimals of an inch; each alike likely, together 1 in 5.
_MM = tuple(Fraction(step) for step in ("1", "0.5", "0.2", "0.1", "0.05", "0.02", "0.01"))
_INCH = tuple(Fraction(step) * INCH for step in ("0.1", "0.05", "0.01", "0.005", "0.001"))
_COARSER = 0.2
#: Work truer than is taken for granted shows in the same way, figures that stand on marks, and must
#: not be taken for a coarse reader: so near to what was meant, as likely as this.
TRUER, _TRUER = Quantity(Fraction(1, 100)), 0.15
#: The divisions of rules and how likely one is read to.
_RULES = {8: 0.1, 16: 0.3, 32: 0.3, 64: 0.3}


@dataclass(frozen=True)
class Read:
    """A way in which the readings were taken: `step` is what all share, None as each was written.

    `prior` is the logarithm of how likely it is and of how much likelier it makes such figures.
    """

    step: Quantity | None
    readings: tuple[Reading, ...]
    prior: float


def ways(readings: Sequence[Reading]) -> tuple[Read, ...]:
    """Every way in which the readings may have been taken; one alone where nothing can be inferred."""
    free = [r for r in readings if r.by is None and not r.told and not r.figures and r.within.value]
    fractions = [r for r in free if fraction_of_inch(r.size, r.within)]
    decimals = [r for r in free if not fraction_of_inch(r.size, r.within)]
    as_written = Read(None, tuple(readings), 0.0)
    if len(free) < FEWEST:
        return (as_written,)
    if len(fractions) >= FEWEST and not decimals:
        return tuple(_on_rule(readings, fractions)) or (as_written,)
    if len(decimals) < FEWEST or fractions:
        return (as_written,)
    # Whether they were read in millimetres or in inches shows in how finely: 0.05 mm or 0.0005 in.
    table = (
        _MM if all((r.within.mm * 2000).denominator == 1 and _ten(r.within.mm) for r in decimals) else _INCH
    )
    plain = Read(None, tuple(readings), log(1 - _COARSER - _TRUER))
    truer = tuple(replace(r, made=TRUER) if r.made == MADE else r for r in readings)
    return (plain, Read(None, truer, log(_TRUER)), *_coarser(readings, decimals, table))


def _ten(within: Fraction) -> bool:
    """Whether it is half of a tenth, a hundredth ... of a millimetre."""
    return any(within * 2 * 10**n == 1 for n in range(-1, 5))


def _coarser(readings: Sequence[Reading], shown: Sequence[Reading], table: Sequence[Fraction]) -> list[Read]:
    finest = min(r.within.mm * 2 for r in shown)
    coarser = []
    for step in table:
        if step <= finest or any((r.size.mm / step).denominator != 1 for r in shown):
            continue
        fewer = sum(log(float(max(Fraction(1), step / (r.within.mm * 2)))) for r in shown)
        taken = tuple(
            trusted(r, max(r.within.mm, step / 2)) if any(r is stepped for stepped in shown) else r
            for r in readings
        )
        coarser.append(Read(Quantity(step), taken, log(_COARSER / len(table)) + fewer))
    return coarser


def _on_rule(readings: Sequence[Reading], shown: Sequence[Reading]) -> list[Read]:
    ruled = []
    for parts, weight in _RULES.items():
        step = INCH / parts
        if any((r.size.mm / step).denominator != 1 for r in shown):
            continue
        taken = tuple(trusted(r, step / 2) if any(r is stepped for stepped in shown) else r for r in readings)
        ruled.append(Read(Quantity(step), taken, log(weight) + len(shown) * log(float(step))))
    return ruled
