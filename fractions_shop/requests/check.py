"""check: whether two sizes agree, and how far apart they are."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from fractions_shop.figures.plain import Lines
from fractions_shop.figures.size_words import size_cell, size_line
from fractions_shop.figures.table import Table
from fractions_shop.figures.wording import (
    both,
    over_under,
)
from fractions_shop.language.arithmetic import kind_name
from fractions_shop.language.fault import Fault
from fractions_shop.requests.inputs import Inputs
from fractions_shop.requests.rooms import Room
from fractions_shop.size.limits import Limits, limits_of, nominal_of
from fractions_shop.size.quantity import Angle, Quantity
from fractions_shop.size.standing import mark_of, worst
from fractions_shop.size.sums import summed
from fractions_shop.size.value import AnyPower

#: Two approximate sizes are taken as equal when they differ by less than this share of themselves.
_ALIKE = Fraction(1, 10**20)


@dataclass(frozen=True)
class CheckResult:
    """Whether two sizes agree: `difference` is left less right, `allowed` how far apart they may be.

    `shared` says that one piece stands in both, so that the two move together.
    """

    left: AnyPower | Limits
    right: AnyPower | Limits
    difference: AnyPower
    allowed: AnyPower | None
    holds: bool
    shared: bool = False

    @property
    def wide(self) -> bool:
        """Whether it rests on limits that may lie further apart than the truth."""
        return any(isinstance(side, Limits) and side.wide for side in (self.left, self.right))


def _answer(given: Inputs) -> tuple[CheckResult, None]:
    left, right = (given.value(given.subject(n)) for n in (0, 1))
    for value, node in zip((left, right), given.request.subjects, strict=True):
        if isinstance(value, Angle):
            raise Fault("angles are not checked", node.start, node.end, "check sizes")
    assert not isinstance(left, Angle)
    assert not isinstance(right, Angle)
    if left.power != right.power:
        node = given.subject(1)
        raise Fault(
            f"a {kind_name(left)} and a {kind_name(right)} cannot be compared", node.start, node.end,
            "give both sides a unit, such as in or mm",
        )  # fmt: skip
    option = given.option("within")
    allowed = None
    if option is not None and option.value is not None:
        node = option.value
        size = given.value(node)
        if not isinstance(size, Quantity) or size.power != left.power or size.value < 0:
            raise Fault(
                f"within must be followed by a {kind_name(left)}", node.start, node.end, "write within 1 thou"
            )
        allowed = size
    difference = nominal_of(left) - nominal_of(right)
    shared = not limits_of(left).slopes.keys().isdisjoint(limits_of(right).slopes)
    holds = _holds_together if shared else _holds
    return CheckResult(
        left, right, difference, allowed, holds(left, right, difference, allowed), shared
    ), None  # fmt: skip


def _holds(
    left: Quantity | Limits, right: Quantity | Limits, off: Quantity, allowed: Quantity | None
) -> bool:
    """Whether every size that the left may have is one that the right, with what is allowed, takes in.

    Limits against one exact size with nothing allowed hold if they take that size in.
    """
    inner, outer = limits_of(left), limits_of(right)
    if isinstance(left, Limits) and isinstance(right, Quantity) and allowed is None:
        return right in left
    room = Quantity(Fraction(0), inner.power) if allowed is None else allowed
    if off.approximate and allowed is None:
        room = Quantity(_ALIKE * max(abs(inner.nominal.value), abs(outer.nominal.value)), inner.power)
    return outer.lower - room <= inner.lower and inner.upper <= outer.upper + room


def _holds_together(
    left: Quantity | Limits, right: Quantity | Limits, off: Quantity, allowed: Quantity | None
) -> bool:
    """The same where a piece stands in both sides: wherever the pieces of the left lie, so they lie in the right too.

    Pieces that stand in the right alone say how far the left may lie.
    """
    limits, apart = limits_of(left), limits_of(left) - limits_of(right)
    moving = {
        term: share for term, share in apart.terms.items() if not limits.slopes.keys().isdisjoint(term.slopes)
    }
    asked = summed(moving)
    let = summed({term: share for term, share in apart.terms.items() if term not in moving})
    room = Fraction(0) if allowed is None else allowed.value
    if apart.approximate and allowed is None:
        room = _ALIKE * max(abs(limits.nominal.value), abs(off.value))
    return -room - let.high <= off.value + asked.low and off.value + asked.high <= room - let.low


def _lines(result: CheckResult) -> Lines:
    """Whether it holds, and how far apart the sizes are; limits are told from the nominal sizes."""
    mark = mark_of(worst((result.left, result.right)))
    said = f"{'holds' if result.holds else 'FAILS'}: {check_said(result)}{mark}"
    return [said, Table((("first", size_cell(result.left)), ("second", size_cell(result.right))))]


def check_said(result: CheckResult) -> str:
    """By how much a check holds or fails; of limits, how they lie, and the nominal sizes."""
    if result.shared:
        return f"{_together_said(result)}; nominally {_nominally(result)}"
    limits = isinstance(result.left, Limits) or isinstance(result.right, Limits)
    off, by = result.difference, _nominally(result)
    if result.allowed is not None and not limits and off.value and off.power == 1:
        by += f", {'within' if result.holds else 'more than'} what is allowed, {both(result.allowed)}"
    return f"{_zones_said(result)}; nominally {by}" if limits else by


def _nominally(result: CheckResult) -> str:
    off = result.difference
    if not off.value:
        return "the two are the same"
    if off.power == 1:
        return f"the first is {over_under(off)}"
    return f"they differ by {size_line(abs(off))}"


def _together_said(result: CheckResult) -> str:
    room = "the second" if result.allowed is None else "what is allowed about the second"
    how = (
        f"wherever it lies, the first agrees with {room}"
        if result.holds
        else f"it may lie so that the first leaves {room}"
    )
    return f"one piece stands in both sides, and {how}"


def _zones_said(result: CheckResult) -> str:
    if isinstance(result.left, Limits) and isinstance(result.right, Quantity) and result.allowed is None:
        return f"the limits of the first {'take in' if result.holds else 'leave out'} the second"
    room = "the second" if result.allowed is None else "what is allowed about the second"
    if not isinstance(result.left, Limits):
        return f"the first lies {'inside' if result.holds else 'outside'} the limits of {room}"
    return f"the limits of the first {'lie inside' if result.holds else 'reach outside'} {room}"


ROOM = Room(
    word="check",
    forms=("check SIZE = SIZE [within SIZE]",),
    example="check 2 in = 50.8 mm within 1 thou",
    answer=_answer,
    lines=_lines,
    reads_rule=False,
    holds=lambda result: result.holds,
)
