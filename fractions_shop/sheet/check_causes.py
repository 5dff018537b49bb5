"""What feeds a check: the given sizes that it rests on, and what moving each of them does to it."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import ceil, floor

from fractions_shop.errors import ShopError
from fractions_shop.requests.check import CheckResult
from fractions_shop.sheet.solve import Working
from fractions_shop.size.limits import Limits, limits_of, nominal_of
from fractions_shop.size.quantity import Angle, Quantity
from fractions_shop.size.value import Value

#: A check that more lines feed than this is told by the names in the check itself.
_MOST_LINES = 200
_MOST_NAMES = 24
#: Lines worked out again for all the failed checks of one sheet.
BUDGET = 5_000


@dataclass(frozen=True, slots=True)
class Feed:
    """A named size that feeds a check.

    Moved by `step` (one division of the rule, one whole number, one degree), it moves
    the check's difference, first side less second (and what it is to clear it by), by `moves`: an exact difference of
    two workings, not a slope. `closes` is the change of this size alone that makes the
    check hold, its two sides the same, and `least` the least that makes it hold where less will do; both are found
    by proportion and proved by working them out, None where there is none so found. `reach` is how far the size's own limits move the difference, to
    first order, each way; None for a size without limits.
    """

    name: str
    line: int
    value: Value
    step: Value
    moves: Quantity | None
    closes: Value | None
    reach: Quantity | None
    least: Value | None = None


class Feeder:
    """Finds the feeds of checks, within one budget of work for a whole sheet."""

    def __init__(self, working: Working) -> None:
        self.working = working
        self.left = BUDGET
        self.place = {n: k for k, n in enumerate(working.plan.order)}

    def feeds(self, n: int, check: CheckResult) -> tuple[Feed, ...]:
        """The feeds of the check on line index `n`, the strongest first."""
        above = self._above(n)
        draws = self.working.plan.draws
        if above is None:
            above = sorted(set(draws[n].values()), key=lambda m: self.place[m])
            given = [m for m in above if self.working.lines[m].sets]
        else:
            given = [m for m in above if self.working.lines[m].sets and not draws[m]]
        reach = _reaches(check)
        feeds = [self._feed(m, n, above, check, reach) for m in given[:_MOST_NAMES]]
        return tuple(sorted((f for f in feeds if f is not None), key=_strength, reverse=True))

    def _above(self, n: int) -> list[int] | None:
        """Every line that the check rests on, in working order; None if there are too many."""
        draws = self.working.plan.draws
        seen: set[int] = set()
        waiting = list(draws[n].values())
        while waiting:
            m = waiting.pop()
            if m in seen:
                continue
            seen.add(m)
            if len(seen) > _MOST_LINES:
                return None
            waiting += draws[m].values()
        return sorted(seen, key=lambda m: self.place[m])

    def _feed(
        self, given: int, n: int, above: list[int], check: CheckResult, reach: dict[str, Quantity]
    ) -> Feed | None:
        line, value = self.working.lines[given], self.working.done[given].value
        if value is None:
            return None
        step = self._step(value, n)
        moved = self._check_with(given, _moved(value, step), n, above)
        own = reach.get(line.sets)
        if moved is None:
            return Feed(line.sets, line.number, value, step, None, None, own)
        moves = moved.difference - check.difference
        change = _closing_change(value, step, moves, check)
        less = _least_change(value, step, moves, check)
        closes, least = (
            None if each is None or not self._holds_with(given, _moved(value, each), n, above) else each
            for each in (change, None if less == change else less)
        )
        return Feed(line.sets, line.number, value, step, moves, closes, own, least)

    def _holds_with(self, given: int, value: Value, n: int, above: list[int]) -> bool:
        made = self._check_with(given, value, n, above)
        return made is not None and made.holds

    def _step(self, value: Value, n: int) -> Value:
        if isinstance(value, Angle):
            return Angle(Fraction(1))
        if value.power == 1:
            return self.working.rules[n].division
        if value.power == 0:
            return Quantity.number(1)
        nominal = nominal_of(value)
        return Quantity(abs(nominal.value) / 1000 or Fraction(1), value.power)

    def _check_with(self, given: int, value: Value, n: int, above: list[int]) -> CheckResult | None:
        """The check worked out with another value for one line; None if that cannot be done."""
        instead: dict[int, Value] = {given: value}
        draws = self.working.plan.draws
        try:
            for m in above:
                if m == given or not any(source in instead for source in draws[m].values()):
                    continue
                self.left -= 1
                if self.left < 0:
                    return None
                value_now = self.working.again(m, instead).value
                if value_now is not None:
                    instead[m] = value_now
            self.left -= 1
            return self.working.again(n, instead).check if self.left >= 0 else None
        except ShopError:
            return None  # moved so far, the sheet has no answer


def _reaches(check: CheckResult) -> dict[str, Quantity]:
    if not any(isinstance(side, Limits) for side in check.sides):
        return {}
    apart = limits_of(check.left) - limits_of(check.right)
    return dict((apart if check.by is None else apart - limits_of(check.by)).contributions)


def _moved(value: Value, by: Value) -> Value:
    if isinstance(value, Angle):
        assert isinstance(by, Angle)
        return value + by
    assert isinstance(by, Quantity)
    return value + by


def _closing_change(value: Value, step: Value, moves: Quantity, check: CheckResult) -> Value | None:
    """The change that would close the check if it answered in proportion; None where there is none."""
    if not moves.value:
        return None
    share = check.lacks.value / moves.value
    if isinstance(value, Quantity) and value.power == 0 and share.denominator != 1:
        # A count stays a whole number; of a one-sided check more of it than is wanting will do.
        return None if check.spare is None else Quantity.number(ceil(share) if share > 0 else floor(share))
    assert not isinstance(step, Limits)
    return step * share


def _least_change(value: Value, step: Value, moves: Quantity, check: CheckResult) -> Value | None:
    """The least change that would make a check of two equal sizes hold if it answered in proportion; None where there is none."""
    room = check.may_move
    if room is None or not moves.value:
        return None
    low, high = sorted(end / moves.value for end in room)
    share = low if low > 0 else high
    if isinstance(value, Quantity) and value.power == 0:
        whole = Fraction(ceil(low) if low > 0 else floor(high))
        share = whole if low <= whole <= high else Fraction(0)
    assert not isinstance(step, Limits)
    return step * share if share else None


def _strength(feed: Feed) -> tuple[Fraction, Fraction]:
    reach = feed.reach.value if feed.reach is not None else Fraction(0)
    return reach, abs(feed.moves.value) if feed.moves is not None else Fraction(0)
