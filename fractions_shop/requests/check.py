"""check: whether two sizes agree, or one is at least, at most or clear of the other, and by how much."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from fractions_shop.figures.plain import Lines
from fractions_shop.figures.size_words import short_cell, size_cell, size_line
from fractions_shop.figures.table import Table, in_prose
from fractions_shop.figures.wording import (
    both,
    over_under,
)
from fractions_shop.language.arithmetic import kind_name
from fractions_shop.language.fault import Fault
from fractions_shop.requests.inputs import Inputs
from fractions_shop.requests.rooms import Room
from fractions_shop.size import ratios
from fractions_shop.size.limits import Limits, limits_of, nominal_of
from fractions_shop.size.quantity import Angle, Quantity
from fractions_shop.size.standing import mark_of, worst
from fractions_shop.size.sums import Sum, summed
from fractions_shop.size.value import AnyPower

#: Two approximate sizes are taken as equal when they differ by less than this share of themselves.
_ALIKE = Fraction(1, 10**20)


#: What the first side of a one-sided check may not be, by the words that stand between the sides.
_WRONG_SIDE = {"is at least": "too small", "is at most": "too large", "clears": "too little"}


@dataclass(frozen=True)
class CheckResult:
    """Whether two sizes lie as they were said to.

    `relation` is `equals`, `is at least`, `is at most` or `clears`. `difference` is left less right, and for `clears`
    less `by` too, how far the left is to clear the right. `allowed` is how far apart equal sizes may be.
    `shared` says that one piece stands in both, so that the two move together. `spare` is what a one-sided
    check has to spare in the worst case, below zero where it fails.
    """

    left: AnyPower | Limits
    right: AnyPower | Limits
    difference: AnyPower
    allowed: AnyPower | None
    holds: bool
    shared: bool = False
    relation: str = "equals"
    by: AnyPower | Limits | None = None
    spare: AnyPower | None = None

    @property
    def sides(self) -> tuple[AnyPower | Limits, ...]:
        """Every size that it rests on."""
        return (self.left, self.right) if self.by is None else (self.left, self.right, self.by)

    @property
    def wide(self) -> bool:
        """Whether it rests on limits that may lie further apart than the truth."""
        return any(isinstance(side, Limits) and side.wide for side in self.sides)

    @property
    def off(self) -> bool:
        """Whether two sizes that are to be equal pass by what is allowed, their limits or within, and are not."""
        least = Fraction(0)
        if self.difference.approximate:
            least = _ALIKE * max(abs(nominal_of(side).value) for side in self.sides)
        return self.holds and self.relation == "equals" and abs(self.difference.value) > least

    @property
    def lacks(self) -> AnyPower:
        """What the difference would have to move by for the check to hold, to first order."""
        if self.spare is None:
            return -self.difference
        return self.spare if self.relation == "is at most" else -self.spare

    @property
    def may_move(self) -> tuple[Fraction, Fraction] | None:
        """From where to where its difference may be moved for the check to hold, the sizes keeping their limits.

        None of a one-sided check, and where no move will do.
        """
        if self.relation != "equals":
            return None
        room = Fraction(0) if self.allowed is None else self.allowed.value
        if self.shared:
            asked, let = _asked_and_let(self.left, self.right)
            least = -room - let.high - asked.low - self.difference.value
            most = room - let.low - asked.high - self.difference.value
        else:
            inner, outer = limits_of(self.left), limits_of(self.right)
            least = outer.lower.value - room - inner.lower.value
            most = outer.upper.value + room - inner.upper.value
            if isinstance(self.right, Quantity) and self.allowed is None:
                # Limits take in one exact size.
                least, most = most, least
        return (least, most) if least <= most else None


def _answer(given: Inputs) -> tuple[CheckResult, None]:
    relation = next((o.word for o in given.request.options if o.word in _WRONG_SIDE), "equals")
    sides = [_side(given, 0)]
    sides += [_side(given, n, sides[0]) for n in range(1, len(given.request.subjects))]
    if relation != "equals":
        return _one_sided(relation, *sides), None
    left, right = sides
    option = given.option("within")
    allowed = None
    if option is not None and option.value is not None:
        node = option.value
        size = given.value(node)
        if not isinstance(size, Quantity) or size.power != left.power or size.value.numerator < 0:
            raise Fault(
                f"within must be followed by a {kind_name(left)}", node.start, node.end, "write within 1 thou"
            )
        allowed = size
    difference = nominal_of(left) - nominal_of(right)
    shared = _move_together(left, right)
    holds = _holds_together if shared else _holds
    return CheckResult(
        left, right, difference, allowed, holds(left, right, difference, allowed), shared
    ), None  # fmt: skip


def _side(given: Inputs, n: int, first: Quantity | Limits | None = None) -> Quantity | Limits:
    """One side of a check, or how far its sides are to be apart; Fault for what cannot be compared with the first."""
    node = given.subject(n)
    value = given.value(node)
    if isinstance(value, Angle):
        raise Fault("angles are not checked", node.start, node.end, "check sizes")
    if first is not None and value.power != first.power:
        raise Fault(
            f"a {kind_name(first)} and a {kind_name(value)} cannot be compared", node.start, node.end,
            "give both sides a unit, such as in or mm",
        )  # fmt: skip
    if n == 2 and _lowest(value).value < 0:
        raise Fault(
            "what one size clears another by must not be below zero", node.start, node.end,
            "for an overlap write it like this: check 2 in is at least 3 in - 1 in",
        )  # fmt: skip
    return value


def _lowest(value: Quantity | Limits) -> Quantity:
    return value.lower if isinstance(value, Limits) else value


def _move_together(left: Quantity | Limits, right: Quantity | Limits) -> bool:
    if isinstance(left, Quantity) or isinstance(right, Quantity):
        return False  # an exact size has no pieces
    return not left.slopes.keys().isdisjoint(right.slopes)


def _one_sided(
    relation: str, left: Quantity | Limits, right: Quantity | Limits, by: Quantity | Limits | None = None
) -> CheckResult:
    """A check of the worst case: wherever every size lies within its limits, one piece in both sides being one size."""
    apart: Quantity | Limits = left - right
    shared = _move_together(left, right)
    difference = nominal_of(left) - nominal_of(right)
    if by is not None:
        shared = shared or _move_together(by, left) or _move_together(by, right)
        apart, difference = apart - by, difference - nominal_of(by)
    worst_case = limits_of(apart)
    spare = -worst_case.upper if relation == "is at most" else worst_case.lower
    if abs(spare.value) <= _alike(left, right, spare):
        spare = spare * 0  # as near as roots are worked out
    return CheckResult(left, right, difference, None, spare.value >= 0, shared, relation, by, spare)


def _alike(left: Quantity | Limits, right: Quantity | Limits, off: Quantity) -> Fraction:
    """How far apart two sizes may lie by the rounding of roots alone; nothing where `off`, how far they do, has none."""
    if not off.approximate:
        return Fraction(0)
    return _ALIKE * max(abs(nominal_of(left).value), abs(nominal_of(right).value))


def _holds(
    left: Quantity | Limits, right: Quantity | Limits, off: Quantity, allowed: Quantity | None
) -> bool:
    """Whether every size that the left may have is one that the right, with what is allowed, takes in.

    Limits against one exact size with nothing allowed hold if they take that size in.
    """
    if isinstance(left, Quantity) and isinstance(right, Quantity):
        may_lie = _alike(left, right, off) if allowed is None else allowed.value
        return ratios.compared(abs(off.value), may_lie) <= 0
    inner, outer = limits_of(left), limits_of(right)
    if isinstance(left, Limits) and isinstance(right, Quantity) and allowed is None:
        return right in left
    room = Quantity(_alike(left, right, off), inner.power) if allowed is None else allowed
    return outer.lower - room <= inner.lower and inner.upper <= outer.upper + room


def _holds_together(
    left: Quantity | Limits, right: Quantity | Limits, off: Quantity, allowed: Quantity | None
) -> bool:
    """The same where a piece stands in both sides: wherever the pieces of the left lie, so they lie in the right too.

    Pieces that stand in the right alone say how far the left may lie.
    """
    asked, let = _asked_and_let(left, right)
    room = Fraction(0) if allowed is None else allowed.value
    if allowed is None and (limits_of(left) - limits_of(right)).approximate:
        room = _ALIKE * max(abs(nominal_of(left).value), abs(off.value))
    return -room - let.high <= off.value + asked.low and off.value + asked.high <= room - let.low


def _asked_and_let(left: AnyPower | Limits, right: AnyPower | Limits) -> tuple[Sum, Sum]:
    """How far the difference lies from its nominal by the pieces of the left, and by those of the right alone."""
    limits, apart = limits_of(left), limits_of(left) - limits_of(right)
    moving = {
        term: share for term, share in apart.terms.items() if not limits.slopes.keys().isdisjoint(term.slopes)
    }
    return summed(moving), summed({term: share for term, share in apart.terms.items() if term not in moving})


def _lines(result: CheckResult) -> Lines:
    """Whether it holds, and how far apart the sizes are; limits are told from the nominal sizes."""
    mark = mark_of(worst(result.sides))
    said = f"{'holds' if result.holds else 'FAILS'}: {check_said(result)}{mark}"
    rows = zip(("first", "second", "by"), map(size_cell, result.sides), strict=False)
    return [said, Table(tuple(rows))]


def check_said(result: CheckResult) -> str:
    """By how much a check holds or fails; of limits, how they lie, and the nominal sizes."""
    if result.spare is not None:
        return _one_sided_said(result, result.spare)
    if result.shared:
        return f"{_together_said(result)}; nominally {_nominally(result)}"
    limits = isinstance(result.left, Limits) or isinstance(result.right, Limits)
    off, by = result.difference, _nominally(result)
    if result.allowed is not None and not limits and off.value and off.power == 1:
        by += f", {'within' if result.holds else 'more than'} what is allowed, {both(result.allowed)}"
    return f"{_zones_said(result)}; nominally {by}" if limits else by


def _one_sided_said(result: CheckResult, spare: AnyPower) -> str:
    """What there is to spare or is wanting, in the worst case where there are limits."""
    limits = any(isinstance(side, Limits) for side in result.sides)
    if not result.holds:
        wrong = _WRONG_SIDE[result.relation]
        verb = "clears the second by" if result.relation == "clears" else "is"
        said = f"the first {verb} {_much(-spare)} {wrong}"
    elif spare.value > 0:
        said = f"{_much(spare)} to spare"
    else:
        said = "nothing to spare"
    if not limits:
        return said
    together = "; one piece stands in more than one of them" if result.shared else ""
    between = nominal_of(result.left) - nominal_of(result.right)
    return f"{said} in the worst case{together}; nominally {_over(between)}"


def _much(size: AnyPower) -> str:
    return both(size) if size.power == 1 else in_prose(short_cell(size))


def _nominally(result: CheckResult) -> str:
    return _over(result.difference)


def _over(off: AnyPower) -> str:
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
        return f"the second lies {'inside' if result.holds else 'outside'} the limits of the first"
    room = "the second" if result.allowed is None else "what is allowed about the second"
    if not isinstance(result.left, Limits):
        return f"the first lies {'inside' if result.holds else 'outside'} the limits of {room}"
    return f"the limits of the first {'lie inside' if result.holds else 'reach outside'} {room}"


ROOM = Room(
    word="check",
    forms=(
        "check SIZE = SIZE [within SIZE]",
        "check SIZE is at least|is at most SIZE",
        "check SIZE clears SIZE by SIZE",
    ),
    example="check 2 in = 50.8 mm within 1 thou",
    answer=_answer,
    lines=_lines,
    reads_rule=False,
    holds=lambda result: result.holds,
    further=(
        (r"is +at +least", "check 2 1/32 in is at least 2 in"),
        (r"is +at +most", "check 2 in is at most 2 1/32 in"),
        ("clears", "check 2 1/32 in clears 2 in by 1/64 in"),
    ),
)
