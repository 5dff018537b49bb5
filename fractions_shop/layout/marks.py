"""Marks set out from one datum, and what reading them on a rule costs."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import ClassVar, overload

from fractions_shop.layout.room import NOTHING, Fixed, errors_of, largest, stations
from fractions_shop.size.arguments import SizeLike, above_zero, as_count, as_length, options_by_name
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.rule import Rule, as_rule, rung
from fractions_shop.size.told import Told


@dataclass(frozen=True, repr=False)
class Marks(Told):
    """Marks set out from one datum: `exact` distances, and as `read` on the rule.

    Without bodies they are the count + 1 beginnings and ends of the spaces; with them
    `of` is `edges` (both edges of each body) or `centres`. `space` is the exact space.
    `worst` is the largest error of a mark so read; `stepping` is what stepping one
    snapped space along builds up by the last mark (above zero: too long). It is a sequence
    of the exact distances.

    >>> [str(place) for place in mark("2 in", 4)]
    ['0 in', '1/2 in', '1 in', '1 1/2 in', '2 in']
    """

    told_as: ClassVar[str] = "mark"

    #: What stands in its JSON object beside its fields.
    data_properties: ClassVar[tuple[str, ...]] = (
        "step",
        "stepping",
        "worst",
        "errors",
    )

    total: Quantity
    count: int
    rule: Rule
    start: Quantity
    exact: tuple[Quantity, ...]
    read: tuple[Quantity, ...]
    space: Quantity
    ends: Quantity | None = None
    bodies: Quantity | None = None
    outer: bool = True
    of: str = ""

    def __len__(self) -> int:
        return len(self.exact)

    def __iter__(self) -> Iterator[Quantity]:
        return iter(self.exact)

    @overload
    def __getitem__(self, place: int) -> Quantity: ...
    @overload
    def __getitem__(self, place: slice) -> tuple[Quantity, ...]: ...
    def __getitem__(self, place: int | slice) -> Quantity | tuple[Quantity, ...]:
        return self.exact[place]

    @property
    def points(self) -> tuple[tuple[Quantity], ...]:
        """The exact marks as places of one axis."""
        return tuple((exact,) for exact in self.exact)

    @property
    def names(self) -> tuple[str, ...]:
        """What each mark is called: its number from 0, or of a body its number from 1 and which edge."""
        if self.of == "edges":
            return tuple(f"{n // 2 + 1} {'right' if n % 2 else 'left'}" for n in range(len(self.exact)))
        first = 1 if self.of == "centres" else 0
        return tuple(str(n + first) for n in range(len(self.exact)))

    @property
    def errors(self) -> tuple[Quantity, ...]:
        """Each mark as read, less its exact place."""
        return errors_of(self.read, self.exact)

    @property
    def worst(self) -> Quantity:
        """The largest error of any mark, without its sign."""
        return largest(self.errors)

    @property
    def step(self) -> Quantity:
        """One space, as read on the rule; from centre to centre where those are marked."""
        return rung(self._stepped, self.rule).size

    @property
    def stepping(self) -> Quantity:
        """What stepping that along builds up by the last mark; bodies laid between count as exact."""
        steps = len(self.exact) - 1 if self.of == "centres" else self.count
        return (self.step - self._stepped) * steps

    @property
    def _stepped(self) -> Quantity:
        return self.space + (self.bodies or NOTHING) if self.of == "centres" else self.space


@options_by_name("mark('2 in', 5, start='1/4 in')")
def mark(
    size: SizeLike,
    count: int,
    rule: Rule | str = "64ths",
    *,
    start: SizeLike | None = None,
    ends: SizeLike | None = None,
    bodies: SizeLike | None = None,
    outer: bool = True,
    of: str = "",
) -> Marks:
    """The distances of the marks that divide `size` into `count`, all from one datum.

    `start` is where the left end stands from the datum, zero if not given. Each is
    read on `rule` to the nearest division. `ends`, `bodies` and `outer` are as in
    `divide`; with bodies, `of` says what is marked of each: its `edges` (both, if
    nothing is said) or its `centres`. ShopError if `size` is not above zero, NoRoom if
    nothing is left of it.

    >>> [str(m.inch) for m in mark("2 in", 5).read]
    ['0', '13/32', '51/64', '77/64', '51/32', '2']
    >>> [str(m.inch) for m in mark("10 13/16 in", 4, bodies="3 5/16 in", outer=False).exact]
    ['7/32', '113/32', '15/4', '113/16', '233/32', '339/32']
    """
    size, rule, count = as_length(size), as_rule(rule), as_count(count)
    above_zero(size, "the length to mark out")
    fixed = Fixed.given(ends, bodies, outer)
    space = fixed.room(size, count) / count
    datum = NOTHING if start is None else as_length(start)
    exact = tuple(datum + place for place in stations(space, count, fixed, of))
    read = tuple(rung(m, rule).size for m in exact)
    shown = of or ("" if bodies is None else "edges")
    return Marks(
        size, count, rule, datum, exact, read, space, fixed.ends, fixed.bodies, fixed.outer, shown
    )  # fmt: skip
