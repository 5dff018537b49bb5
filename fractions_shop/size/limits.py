"""Limits: a nominal size with a plus and a minus, and how the spreads of its pieces add up."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from fractions import Fraction
from typing import Any

from fractions_shop.errors import ArgumentError, ShopError
from fractions_shop.size import borrowed, made, quantity, ratios
from fractions_shop.size.made import Made
from fractions_shop.size.numberlike import ToldSize, figures_in_short, in_short
from fractions_shop.size.pieces import ONE, Piece, Place, Slope, Slopes
from fractions_shop.size.quantity import Quantity, as_whole, exact
from fractions_shop.size.standing import worse, worst
from fractions_shop.size.sums import Sum, Terms, batched, counted, likely_reach, summed

#: What the root-sum-square figure takes for granted; shown wherever it is.
RSS_ASSUMPTION = (
    "taking the parts as independent, each centred between its limits, and their spreads alike in kind"
)
#: What is said of limits that nobody has shown to be reached.
MAY_BE_WIDE = "one size stands in this more than once, so the true limits may lie closer together than these"


@dataclass(frozen=True, slots=True, eq=False, repr=False)
class Limits(ToldSize):
    """A `nominal` size that may be `plus` over and `minus` under.

    All three are Quantities of one power. `plus` and `minus` may be negative (both
    limits on one side of the nominal), but the upper limit is never below the lower.

    One that is made here is one new piece, and arithmetic knows it again wherever it
    stands: `x - x` is zero, and `a = total - x` then `a + x` is the total, in the worst
    case and the likely one alike. `x.pieces(4)` is four pieces cut to the same limits.
    `wide` says that the limits hold whatever the pieces are, yet may never be reached.

    Equality looks at nominal, plus and minus alone; limits without any spread equal
    their nominal size.

    >>> size = Limits(Quantity.inches(2), Quantity.inches(Fraction(1, 64)), Quantity.inches(0))
    >>> size.upper.inch
    Fraction(129, 64)
    >>> (size - size).spread == 0, size.pieces(4).upper == 4 * size.upper
    (True, True)
    """

    nominal: Quantity
    plus: Quantity
    minus: Quantity
    terms: Terms = field(init=False)
    slopes: Slopes = field(init=False)
    wide: bool = field(init=False)

    def __post_init__(self) -> None:
        for size in (self.nominal, self.plus, self.minus):
            if not isinstance(size, Quantity):
                raise ArgumentError(
                    f"a size and its plus and minus are Quantities, and this is {type(size).__name__}; "
                    "text is read by read('1/2 in +1/-2 thou')"
                )
        if not self.nominal.power == self.plus.power == self.minus.power:
            raise ShopError("a size and its plus and minus must be of one kind")
        if ratios.compared(self.plus.value, -self.minus.value) < 0:
            raise ShopError("the upper limit lies below the lower one")
        if not self.plus.value and not self.minus.value:
            self._keep({}, {}, False)
            return
        piece = Piece.cut(-self.minus.value, self.plus.value)
        self._keep({piece: ONE}, piece.slopes, False)

    def _keep(self, terms: Terms, slopes: Slopes, wide: bool) -> None:
        object.__setattr__(self, "terms", terms)
        object.__setattr__(self, "slopes", slopes)
        object.__setattr__(self, "wide", wide)

    @classmethod
    def between(cls, nominal: Quantity, lower: Quantity, upper: Quantity) -> Limits:
        """Limits of one new piece, from the two limits of size themselves."""
        return cls(nominal, upper - nominal, nominal - lower)

    @property
    def upper(self) -> Quantity:
        """The upper limit of size."""
        return self.nominal + self.plus

    @property
    def lower(self) -> Quantity:
        """The lower limit of size."""
        return self.nominal - self.minus

    @property
    def spread(self) -> Quantity:
        """Upper less lower: the tolerance."""
        return self.plus + self.minus

    @property
    def half_spread(self) -> Quantity:
        """Half the tolerance."""
        return self.spread / 2

    @property
    def middle(self) -> Quantity:
        """Half-way between the limits."""
        return (self.upper + self.lower) / 2

    @property
    def power(self) -> int:
        """The power of the length, as for Quantity."""
        return self.nominal.power

    @property
    def approximate(self) -> bool:
        """Whether a root, an angle function or a measured float went into it."""
        return self.nominal.approximate or self.plus.approximate or self.minus.approximate

    @property
    def standing(self) -> str:
        """How far the figures of tables that went into it may be trusted; empty where none did."""
        return worst((self.nominal, self.plus, self.minus))

    def resting_on(self, standing: str) -> Limits:
        """The same limits of the same pieces, trusted no further than figures of this standing."""
        if worse(self.standing, standing) == self.standing:
            return self
        nominal = self.nominal.resting_on(standing)
        return self._like(nominal, self.plus, self.minus, self.terms, self.slopes, self.wide)

    # Worst and likely

    @property
    def stacked(self) -> bool:
        """Whether several pieces feed it, so that its likely limits are not its worst."""
        return len(self.slopes) > 1 or any(not piece.single for piece in self.slopes)

    @property
    def root_sum_square(self) -> Limits:
        """The likely limits: how far each piece moves it, added as the root of the sum of squares.

        About the middle of the zone and never outside it; see RSS_ASSUMPTION for what
        it takes for granted. One piece gives its own limits back.
        """
        if not self.stacked:
            return self
        half = self.half_spread
        root, rounded = likely_reach(self.slopes, half.value)
        reach = Quantity(root, self.power, half.approximate or rounded)
        return Limits.between(self.nominal, self.middle - reach, self.middle + reach)

    @property
    def contributions(self) -> tuple[tuple[str, Quantity], ...]:
        """Each piece (or batch of alike ones) and how far it alone moves the result, largest first."""
        most = self.half_spread
        reaches = []
        for piece, slope in self.slopes.items():
            typical = slope.typical
            reach = most if typical is None else Quantity(abs(typical) * piece.half, self.power)
            reaches.append((piece.name, reach))
        return tuple(sorted(reaches, key=lambda pair: -pair[1].value))

    def labelled(self, label: str) -> Limits:
        """The same limits, with their one piece called `label` (one that has a name keeps it)."""
        if not label or len(self.terms) != 1:
            return self
        ((term, share),) = self.terms.items()
        if not isinstance(term, Piece) or term.label:
            return self
        named = term.but(label=label)
        return self._like(self.nominal, self.plus, self.minus, {named: share}, {named: self.slopes[term]})

    def pieces(self, count: int, *, label: str = "") -> Limits:
        """`count` pieces cut to these limits, laid together: each varies by itself.

        At worst they spread `count` times as far, likely by its square root. `label` is what
        one is called, where it has no name yet.

        >>> slat = Limits(Quantity.inches(1), *[Quantity.inches(Fraction(1, 64))] * 2)
        >>> slat.pieces(4).spread == 4 * slat.spread
        True
        >>> slat.pieces(4).root_sum_square.spread == 2 * slat.spread
        True
        """
        count = as_whole(count, "the number of pieces")
        if count < 1:
            raise ShopError(f"the number of pieces must be 1 or more, not {count}")
        low, high = -self.minus.value, self.plus.value
        terms = batched(self.terms, Sum(low, high, self.slopes, self.wide, self.approximate), count, label)
        return _summed(self.nominal * count, terms, self.approximate)

    # What arithmetic needs to know of it

    @property
    def form(self) -> bytes:
        """A key that two Limits share when they are made alike of the same pieces."""
        shares = sorted((term.key, str(share)) for term, share in self.terms.items())
        return made.digest((str(self.nominal.value), self.power, shares))

    @property
    def open(self) -> bool:
        """Whether it can be worked out again with its pieces elsewhere."""
        return all(term.open for term in self.terms)

    @property
    def weight(self) -> int:
        """How many steps more than adding up made it."""
        return sum(term.weight for term in self.terms)

    def at(self, place: Place) -> Quantity:
        """The size with its pieces at `place`."""
        off = sum((share * term.off(place) for term, share in self.terms.items()), Fraction(0))
        return Quantity(
            self.nominal.value + off, self.power, self.approximate, standing=self.nominal.standing
        )

    @classmethod
    def _like(
        cls, nominal: Quantity, plus: Quantity, minus: Quantity, terms: Terms, slopes: Slopes, wide: bool = False
    ) -> Limits:  # fmt: skip
        """Limits of pieces that are there already."""
        limits = object.__new__(cls)
        put = object.__setattr__
        put(limits, "nominal", nominal)
        put(limits, "plus", plus)
        put(limits, "minus", minus)
        limits._keep(terms, slopes, wide)
        return limits

    def __repr__(self) -> str:
        unit = "in" if self.power == 1 else f"mm^{self.power}" if self.power else ""
        plus, minus = (
            in_short(size.inch if self.power == 1 else size.value) for size in (self.plus, self.minus)
        )
        return f"Limits({figures_in_short(self.nominal)}, plus {plus}, minus {minus} {unit}".rstrip() + ")"

    def __str__(self) -> str:
        """The nominal and its deviations, as they are read again: `2 in ± 1/64 in`."""
        return borrowed.text_of(self)

    def __format__(self, spec: str) -> str:
        """From the lower limit to the upper one as `spec` says (see Quantity); decimals are rounded inward."""
        return borrowed.text_of(self, spec)

    def __contains__(self, size: Quantity) -> bool:
        return self.lower <= size <= self.upper

    def __eq__(self, other: object) -> bool:
        if isinstance(other, Limits):
            return (self.nominal, self.plus, self.minus) == (other.nominal, other.plus, other.minus)
        if self.plus.value or self.minus.value:
            return False if isinstance(other, Quantity) else NotImplemented
        return self.nominal == other

    def __hash__(self) -> int:
        if self.plus.value or self.minus.value:
            return hash((self.nominal, self.plus, self.minus))
        return hash(self.nominal)

    def __bool__(self) -> bool:
        return bool(self.nominal.value or self.plus.value or self.minus.value)

    # Arithmetic

    def __add__(self, other: Any) -> Limits:
        if not _operand(other):
            return borrowed.with_pint(self, other, "__add__")
        if quantity.is_zero(other):
            return self  # as sum() begins
        if type(other) is Quantity and self.plus.within is None is self.minus.within:
            # Its pieces, and how far they reach, are what they were.
            return self._like(self.nominal + other, self.plus, self.minus, self.terms, self.slopes, self.wide)
        other = limits_of(other)
        nominal = self.nominal + other.nominal
        if not self.slopes.keys().isdisjoint(other.slopes.keys()):
            terms = dict(self.terms)
            for term, share in other.terms.items():
                named = isinstance(term, Piece) and term.label  # a name given since is kept
                terms[term] = (terms.pop if named else terms.get)(term, Fraction(0)) + share
            left = {term: share for term, share in terms.items() if share}
            return _summed(nominal, left, self.approximate or other.approximate)
        slopes = {**self.slopes, **other.slopes}
        counted(slopes)
        terms = {**self.terms, **other.terms}
        plus, minus = self.plus + other.plus, self.minus + other.minus
        return self._like(nominal, plus, minus, terms, slopes, self.wide or other.wide)

    __radd__ = __add__

    def __neg__(self) -> Limits:
        return self.scaled(Quantity(Fraction(-1), 0))

    def __pos__(self) -> Limits:
        return self

    def __sub__(self, other: Any) -> Limits:
        return self + -other if _operand(other) else borrowed.with_pint(self, other, "__sub__")

    def __rsub__(self, other: Any) -> Limits:
        return (-self).__add__(other)

    def __mul__(self, other: Any) -> Limits:
        return _product(self, other, 1) if _operand(other) else borrowed.with_pint(self, other, "__mul__")

    __rmul__ = __mul__

    def __truediv__(self, other: Any) -> Limits:
        return (
            _product(self, other, -1) if _operand(other) else borrowed.with_pint(self, other, "__truediv__")
        )

    def __rtruediv__(self, other: Any) -> Limits:
        return limits_of(other) / self if _operand(other) else borrowed.with_pint(self, other, "__rtruediv__")

    def __pow__(self, exponent: int) -> Limits:
        if not isinstance(exponent, int):
            return NotImplemented
        if exponent == 0:
            return limits_of(self.nominal**0)
        return _power(self, exponent)

    def __abs__(self) -> Limits:
        if self.lower.value >= 0:
            return self
        if self.upper.value <= 0:
            return -self
        return of_one(abs(self.nominal), made.without_sign(self))

    def scaled(self, by: Quantity) -> Limits:
        """Times an exact size."""
        ends = (self.plus * by, self.minus * by)
        plus, minus = ends if by.value >= 0 else (-ends[1], -ends[0])
        if not by.value:
            return limits_of(self.nominal * by)
        through = Slope(by.value, by.value)
        terms = {term: share * by.value for term, share in self.terms.items()}
        slopes = {piece: slope.times(through) for piece, slope in self.slopes.items()}
        return self._like(self.nominal * by, plus, minus, terms, slopes, self.wide)


def _operand(value: Any) -> bool:
    return isinstance(value, (Limits, *quantity.OPERANDS))


def limits_of(value: Any) -> Limits:
    """`value` as Limits: an exact size has no spread."""
    if isinstance(value, Limits):
        return value
    if not isinstance(value, Quantity):
        value = Quantity(exact(value), 0)
    nothing = Quantity(Fraction(0), value.power)
    return Limits._like(value, nothing, nothing, {}, {})


def nominal_of(value: Quantity | Limits) -> Quantity:
    """The nominal size of limits; an exact size itself."""
    return value.nominal if isinstance(value, Limits) else value


def settled(value: Any) -> Any:
    """The size itself where no piece moves it any more, as x - x; else the same limits."""
    if isinstance(value, Limits) and not value.terms and not value.plus.value and not value.minus.value:
        return value.nominal
    return value


# Sums of terms


def of_one(nominal: Quantity, term: Made, share: Fraction = Fraction(1)) -> Limits:
    """The limits of one thing made of pieces, so many times."""
    return _summed(nominal, {term: share}, nominal.approximate)


def _summed(nominal: Quantity, terms: Terms, approximate: bool) -> Limits:
    """The limits of a sum of terms that may share pieces."""
    sums = summed(terms)
    approximate = approximate or nominal.approximate or sums.approximate
    ends = [Quantity(end, nominal.power, approximate) for end in (sums.high, -sums.low)]
    nominal = replace(nominal, approximate=approximate) if approximate else nominal
    return Limits._like(nominal, ends[0], ends[1], terms, sums.slopes, sums.wide)


# Products, whose module needs this one first


def _product(limits: Limits, other: Any, exponent: int) -> Limits:
    from fractions_shop.size.products import product

    return product(limits, other, exponent).resting_on(worst((limits, other)))


def _power(limits: Limits, exponent: int) -> Limits:
    from fractions_shop.size.products import power

    return power(limits, exponent).resting_on(limits.standing)


borrowed.stand_above_pint(Limits)
