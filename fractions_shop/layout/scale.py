"""Where the marks of a drawn rule fall, and where a long strip is cut: exact places, no drawing."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from math import ceil, floor

from fractions_shop.size.rule import Rule

#: Divisions closer together than this run into one another on paper.
CLOSEST = Fraction(3, 10)


@dataclass(frozen=True, slots=True)
class Tick:
    """A division of a drawn rule: its place in mm from zero, and how coarse it is (0 the coarsest)."""

    place: Fraction
    rank: int
    number: int | None


@dataclass(frozen=True, slots=True)
class Stretch:
    """A piece of a strip, `start` to `end` in mm, with the places where it meets its neighbours."""

    start: Fraction
    end: Fraction
    meets_before: Fraction | None
    meets_after: Fraction | None


def steps(rule: Rule) -> tuple[Fraction, ...]:
    """The divisions that are drawn for a rule in mm, coarsest first.

    Those too close together to print are left out.
    """
    if rule.metric:
        marked = [Fraction(10), Fraction(5), Fraction(1), Fraction(1, 2)]
        marked = [step for step in marked if step >= rule.division.mm]
    else:
        inch = rule.division.mm * rule.parts
        marked = [inch / n for n in _parts(rule.parts)]
    drawn = [step for step in marked if step >= CLOSEST]
    return tuple(drawn or marked[:1])


def _parts(parts: int) -> list[int]:
    if parts & (parts - 1) == 0:
        return [2**k for k in range(parts.bit_length())]
    if parts % 10 == 0:
        return [n for n in (1, 2, 10, 50) if parts % n == 0 and n < parts] + [parts]
    return [1, parts]


def ticks(rule: Rule, start: Fraction, end: Fraction) -> Iterator[Tick]:
    """The divisions of a rule from `start` to `end` (mm from its zero), in order.

    Whole inches, or every 10 mm, carry their number.
    """
    drawn = steps(rule)
    finest = drawn[-1]
    each = 10 if rule.metric else 1
    # Every coarser division is a whole number of the finest, so that ranks are told in whole numbers.
    wholes = [int(step / finest) for step in drawn]
    assert all(whole * finest == step for whole, step in zip(wholes, drawn, strict=True))
    for k in range(ceil(start / finest), floor(end / finest) + 1):
        rank = next(n for n, whole in enumerate(wholes) if k % whole == 0)
        yield Tick(k * finest, rank, k // wholes[0] * each if rank == 0 else None)


def stretches(start: Fraction, end: Fraction, widest: Fraction, overlap: Fraction) -> tuple[Stretch, ...]:
    """The fewest stretches that cover `start` to `end`, each `widest` long but the last.

    Neighbours share `overlap`, and meet in the middle of it. ValueError if the overlap
    leaves no way forward.
    """
    if widest <= overlap:
        raise ValueError("a stretch must be longer than its overlap")
    count = max(1, ceil((end - start - overlap) / (widest - overlap)))
    drawn = []
    for k in range(count):
        first = start + k * (widest - overlap)
        last = first + widest if k < count - 1 else end
        drawn.append(Stretch(
            first, last,
            first + overlap / 2 if k else None,
            last - overlap / 2 if k < count - 1 else None,
        ))  # fmt: skip
    return tuple(drawn)
