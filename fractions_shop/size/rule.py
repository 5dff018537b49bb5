"""Rules: what a person can read on one, and the nearest division of it."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from math import gcd
from typing import ClassVar, Literal

from fractions_shop.errors import ArgumentError, NoAnswer, ShopError
from fractions_shop.size.arguments import SizeLike, as_length, options_by_name
from fractions_shop.size.cached import cached_property
from fractions_shop.size.drafts import Drafted
from fractions_shop.size.frozen import Record
from fractions_shop.size.limits import Limits
from fractions_shop.size.notation import inch_text, mm_text, read_plain
from fractions_shop.size.quantity import Quantity, unchecked
from fractions_shop.size.told import Told
from fractions_shop.size.units import INCH

#: Where a size may be taken to: the nearest division, or the next one up or down.
Direction = Literal["nearest", "up", "down"]
DIRECTIONS: tuple[Direction, ...] = ("nearest", "up", "down")

_MOST_PARTS = 99_999
_NTHS = re.compile(r"([0-9]{1,5})(?:ths?|nds?|rds?|sts?)")
_WORDS = {"halves": 2, "half": 2, "quarters": 4, "quarter": 4, "eighths": 8, "sixteenths": 16}
#: The metric rules: the division in millimetres, and what else the rule is called, in two words at most.
METRIC_RULES: dict[str, tuple[Fraction, tuple[str, ...]]] = {
    "10 mm": (Fraction(10), ("cm",)),
    "5 mm": (Fraction(5), ()),
    "mm": (Fraction(1), ("1 mm",)),
    "half mm": (Fraction(1, 2), ("0.5 mm", "1/2 mm", "half-mm")),
}
_METRIC_WORDS = {word: name for name, (_, words) in METRIC_RULES.items() for word in (name, *words)}


@dataclass(frozen=True, init=False, repr=False)
class Rule(Told):
    """A rule (the steel one) and its finest division.

    `Rule("64ths")`, or `Rule(64)`, is divided in 64ths of an inch; any `Nths` works, and
    `mm` and `half mm`. ShopError for any other name.

    >>> Rule("64ths").division == Quantity.inches(Fraction(1, 64))
    True
    """

    told_as: ClassVar[str] = "steel rule"

    name: str
    division: Quantity
    #: Whether it is divided in millimetres.
    metric: bool

    def __init__(self, name: str | int | Rule) -> None:
        if isinstance(name, int) and not isinstance(name, bool):
            if not 1 <= name <= _MOST_PARTS:
                raise ShopError(f"a rule has 1 to {_MOST_PARTS:,} divisions to the inch, not {name:,}")
            name = nths(name)
        fields = (name.name, name.division, name.metric) if isinstance(name, Rule) else _named(name)
        for field, value in zip(("name", "division", "metric"), fields, strict=True):
            object.__setattr__(self, field, value)

    @cached_property
    def parts(self) -> int:
        """How many divisions an inch has; 0 on a metric rule."""
        return 0 if self.metric else int(1 / self.division.inch)

    @cached_property
    def coarser(self) -> tuple[Rule, ...]:
        """The rules whose every mark lies on this one, coarsest first, itself last.

        They are what a person reads off the longer marks: on 64ths the 32nds, 16ths,
        8ths, quarters, halves and whole inches.
        """
        if self.metric:
            steps = {name: step for name, (step, _) in METRIC_RULES.items() if step % self.division.mm == 0}
            return tuple(Rule(name) for name in sorted(steps, key=steps.__getitem__, reverse=True))
        parts = self.parts
        return tuple(Rule(nths(n)) for n in range(1, parts + 1) if parts % n == 0)

    @cached_property
    def _step(self) -> tuple[int, int]:
        """Its division in mm, as whole numbers one over the other: asked of it for every size that is told."""
        return self.division.mm.as_integer_ratio()

    def divisions(self, count: int) -> Quantity:
        """So many of its divisions."""
        many, of = self.division.value.as_integer_ratio()
        return unchecked(Fraction(count * many, of), 1)

    def carries(self, size: Quantity) -> bool:
        """Whether `size` is a whole number of divisions, so that a mark stands there."""
        above, below = as_length(size).mm.as_integer_ratio()
        top, bottom = self._step
        return not above * bottom % (below * top)

    def has_marks_of(self, other: Rule) -> bool:
        """Whether every mark of another rule of its kind, inch or metric, lies on this one."""
        return self.metric == other.metric and self.carries(other.division)

    @cached_property
    def multiples(self) -> tuple[int, ...]:
        """How many of its divisions lie between two marks of each of `coarser`: 64, 32 ... 1 on 64ths."""
        return tuple(int(rule.division.mm / self.division.mm) for rule in self.coarser)

    def readability(self, divisions: Iterable[int]) -> int:
        """How readable sizes of so many `divisions` are together: the greatest of `multiples` in them all.

        So many divisions of this rule make one of the coarsest rule that carries every
        one of the sizes: on 64ths 10 and 14 divisions are 32nds, and 2. More is more
        readable. This is what *most readable first* means wherever sizes are chosen.
        """
        common = gcd(*divisions)
        return next(multiple for multiple in self.multiples if common % multiple == 0)

    def coarsest_that_carries(self, *sizes: Quantity) -> Rule | None:
        """The coarsest of its own coarser rules with a mark at every one of `sizes`, or None."""
        if not all(map(self.carries, sizes)):
            return None  # what a coarser one carries, it carries too
        divisions = (int(as_length(size).mm / self.division.mm) for size in sizes)
        return self.coarser[self.multiples.index(self.readability(divisions))]

    def __hash__(self) -> int:
        return hash(self.name)

    def __str__(self) -> str:
        return self.name

    def __repr__(self) -> str:
        return f"Rule({self.name!r})"


class UnknownRule(ShopError):
    """A name that is no rule's; `message` says so, `advice` how rules are named."""

    def __init__(self, name: str) -> None:
        super().__init__(name)
        self.message: str = f"{name!r} is not a rule"
        self.advice = (
            "write 64ths, 32nds, 16ths, 8ths, 100ths, 50ths, 10ths (of an inch), mm or half mm; "
            "any whole number of ths will do"
        )

    def __str__(self) -> str:
        return f"{self.message}: {self.advice}"


def as_rule(value: Rule | str) -> Rule:
    """`value` as a Rule; ShopError for a name that is none, TypeError for a size in its place."""
    if isinstance(value, str) and read_plain(value) is not None:
        raise TypeError(f"{value!r} is a size, where a rule such as '64ths' or 'mm' is named")
    return value if isinstance(value, Rule) else rule_called(value) if isinstance(value, str) else Rule(value)


@lru_cache(maxsize=256)
def rule_called(name: str) -> Rule:
    """`Rule(name)`, one and the same for all who name it so: what it has worked out of itself is kept."""
    return Rule(name)


def first_that_carries(rules: Iterable[Rule], size: Quantity) -> Rule | None:
    """The first of some rules with a mark at `size`, or None."""
    above, below = as_length(size).mm.as_integer_ratio()
    for rule in rules:
        top, bottom = rule._step
        if not above * bottom % (below * top):
            return rule
    return None


def nths(n: int) -> str:
    """The name of a rule with `n` divisions to the inch: 64ths, 32nds, 1sts."""
    teens = n % 100 in (11, 12, 13)
    return f"{n}{'ths' if teens else {1: 'sts', 2: 'nds', 3: 'rds'}.get(n % 10, 'ths')}"


def _named(name: object) -> tuple[str, Quantity, bool]:
    if not isinstance(name, str):
        raise ArgumentError("a rule is named by text such as '64ths' or 'half mm'")
    known = _rule_of(" ".join(name.lower().split()))
    if known is None:
        raise UnknownRule(name)
    return known


@lru_cache(maxsize=256)
def _rule_of(word: str) -> tuple[str, Quantity, bool] | None:
    if word in _METRIC_WORDS:
        word = _METRIC_WORDS[word]
        return word, Quantity(METRIC_RULES[word][0]), True
    match = _NTHS.fullmatch(word)
    n = int(match[1]) if match else _WORDS.get(word, 0)
    return (nths(n), Quantity(INCH / n), False) if n else None


#: The names of the rules in a maker's drawer, in the order in which they are reached for.
DRAWER = ("8ths", "16ths", "32nds", "64ths", "10ths", "50ths", "100ths", "mm", "half mm")
#: The rungs of every ladder, as the drawer holds them: four inch rules and a metric one.
LADDER = tuple(rule_called(name) for name in ("8ths", "16ths", "32nds", "64ths", "mm"))


class Rung(Record, metaclass=Drafted):
    """The nearest division of one rule: its `size` and the `error` (size less the true one)."""

    rule: Rule
    size: Quantity
    error: Quantity


@dataclass(frozen=True, repr=False)
class Snap(Told):
    """What snapping gave.

    `size` is a mark of `rule` (the rule asked for, or with `within` the most readable
    of its coarser ones), `error` is `size` less `asked`; `ladder` holds the nearest
    8th, 16th, 32nd, 64th and mm, each with its error.

    >>> str(snap("10.3 mm").size), f"{snap('10.3 mm').error:mm.3}"
    ('13/32 in', '0.019 mm')
    """

    told_as: ClassVar[str] = "snap"

    asked: Quantity
    rule: Rule
    direction: Direction
    size: Quantity
    error: Quantity
    ladder: tuple[Rung, ...]
    within: Quantity | None = None


def as_direction(direction: str) -> Direction:
    """The word of a direction; ShopError for another word."""
    for known in DIRECTIONS:
        if direction == known:
            return known
    raise ShopError(f"a direction is nearest, up or down, not {direction!r}")


def multiple(value: Fraction, step: Fraction, direction: str = "nearest") -> Fraction:
    """The multiple of `step` nearest to `value`, or next up or down; `how_often` says which that is."""
    many, of = step.as_integer_ratio()
    return Fraction(how_often(value, step, direction) * many, of)


def how_often(value: Fraction, step: Fraction, direction: str = "nearest") -> int:
    """How often `step` goes into `value`, or next up or down.

    A tie goes to the even multiple, whose mark is the longer one on a binary rule. Up
    is towards plus infinity, down towards minus, for negative values too.
    """
    top, bottom = value.as_integer_ratio()
    many, of = step.as_integer_ratio()
    return _how_often(top * of, bottom * many, direction)


def _how_often(top: int, bottom: int, direction: str) -> int:
    turns, rest = divmod(top, bottom)
    if direction == "nearest":
        twice = 2 * rest - bottom
        return turns + (twice > 0 or (twice == 0 and turns % 2 == 1))
    if direction == "up":
        return turns + (rest > 0)
    if direction != "down":
        raise ShopError(f"a direction is nearest, up or down, not {direction!r}")
    return turns


def rung(size: Quantity, rule: Rule, direction: str = "nearest") -> Rung:
    """The division of `rule` for `size`, with its error."""
    top, bottom = size.mm.as_integer_ratio()
    many, of = rule.division.value.as_integer_ratio()
    marks = many * _how_often(top * of, bottom * many, direction)
    off = Fraction(marks * bottom - top * of, of * bottom)
    error = unchecked(off, 1, size.approximate, None, size.standing)
    return Rung(rule, unchecked(Fraction(marks, of), 1), error)


def mark_within(size: Limits, rule: Rule) -> Quantity | None:
    """The mark of `rule` that lies between the limits: nearest the nominal, or else the middle; None for none."""
    lower, upper = size.lower.mm, size.upper.mm
    if multiple(upper, rule.division.mm, "down") < lower:
        return None  # as of most limits that a machine keeps
    for aim in (size.nominal, size.middle):
        mark = rung(aim, rule).size
        if lower <= mark.mm <= upper:
            return mark
    return None


@options_by_name("snap('10.3 mm', '64ths', within='0.1 mm')")
def snap(
    size: SizeLike,
    rule: Rule | str = "64ths",
    *,
    direction: str = "nearest",
    within: SizeLike | None = None,
) -> Snap:
    """The division of `rule` nearest to `size`, or the next one `up` or `down`.

    With `within`, the most readable (coarsest) division whose error is not more than
    that; NoAnswer, naming the best there is, when the rule has none.

    >>> snap(Quantity.inches(Fraction(2, 5))).size.inch
    Fraction(13, 32)
    """
    size, rule = as_length(size), as_rule(rule)
    rungs = {step.name: rung(size, step) for step in LADDER}
    ladder = tuple(rungs.values())
    way = as_direction(direction)
    if within is None:
        best = rungs[rule.name] if way == "nearest" and rule.name in rungs else rung(size, rule, way)
        return Snap(size, rule, way, best.size, best.error, ladder)
    within = as_length(within)
    if within.value < 0:
        raise ShopError("an error allowed must not be negative")
    for step in rule.coarser:
        best = rung(size, step, way)
        if abs(best.error) <= within:
            return Snap(size, step, way, best.size, best.error, ladder, within)
    raise NoAnswer(
        f"no division of {rule.name} lies within that: the best is off by {inch_text(abs(best.error))} ({mm_text(abs(best.error))})"
    )
