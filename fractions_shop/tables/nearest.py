"""What lies next to a size in a series of stock sizes: below, above, or exactly it."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Callable, Sequence
from typing import Generic, Protocol, TypeVar, overload, runtime_checkable

from fractions_shop.size.frozen import Record
from fractions_shop.size.quantity import Quantity


@runtime_checkable
class Stock(Protocol):
    """A thing that is made in fixed sizes."""

    @property
    def name(self) -> str:
        """What a maker calls it."""

    @property
    def size(self) -> Quantity:
        """Its size, a length."""


S = TypeVar("S", bound=Stock)
K = TypeVar("K")


class Nearest(Record, Generic[S]):
    """The neighbours of `asked` in one series.

    `below` and `above` are strictly smaller and larger, or None past either end of the
    series; `exact` is the one of precisely that size, or None. An error is the stock
    size less the size asked for, so that one below is negative.
    """

    series: str
    asked: Quantity
    below: S | None
    above: S | None
    exact: S | None

    @property
    def below_error(self) -> Quantity | None:
        """How far `below` is off; negative."""
        return self.below.size - self.asked if self.below else None

    @property
    def above_error(self) -> Quantity | None:
        """How far `above` is off; positive."""
        return self.above.size - self.asked if self.above else None

    @property
    def nearest(self) -> S:
        """The exact one, else the closer of the two; the smaller of a tie."""
        stocks = [stock for stock in (self.exact, self.below, self.above) if stock is not None]
        return min(stocks, key=lambda stock: abs(stock.size - self.asked))


class MadeWhenAsked(Sequence[S], Generic[K, S]):
    """A series whose members are made, each of its key, when they are asked for, and then kept.

    Whoever looks for the neighbours of a size asks for a few of a hundred.
    """

    def __init__(self, keys: Sequence[K], make: Callable[[K], S]) -> None:
        self._keys, self._make = keys, make
        self._made: dict[int, S] = {}

    def __len__(self) -> int:
        return len(self._keys)

    @overload
    def __getitem__(self, place: int) -> S: ...
    @overload
    def __getitem__(self, place: slice) -> tuple[S, ...]: ...
    def __getitem__(self, place: int | slice) -> S | tuple[S, ...]:
        if isinstance(place, slice):
            return tuple(self[each] for each in range(len(self))[place])
        if place not in self._made:
            self._made[place] = self._make(self._keys[place])
        return self._made[place]


def neighbours(asked: Quantity, series: str, stocks: Sequence[S]) -> Nearest[S]:
    """The neighbours of `asked` among `stocks`, which rise in size."""
    place = bisect_left(stocks, asked.mm, key=lambda stock: stock.size.mm)
    exact = stocks[place] if place < len(stocks) and stocks[place].size == asked else None
    after = place + 1 if exact else place
    return Nearest(
        series,
        asked,
        stocks[place - 1] if place else None,
        stocks[after] if after < len(stocks) else None,
        exact,
    )
