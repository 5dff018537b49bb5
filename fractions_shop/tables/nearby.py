"""Nearby: what lies next to a size in every series of drills, or of gauges."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import ClassVar, Generic

from fractions_shop.size.quantity import Quantity
from fractions_shop.size.told import Told
from fractions_shop.tables.nearest import Nearest, S


@dataclass(frozen=True, repr=False)
class Nearby(Told, Mapping[str, Nearest[S]], Generic[S]):
    """The neighbours of `asked` in every series, by the series' name.

    A mapping: `nearby["number"].below`. `sources` says where each series' figures come
    from. `nearest` is the closest of all, or where `of` names a series the closest in that
    one: a series that nobody stocks must not be chosen for a hair's breadth.

    >>> from fractions_shop import drills
    >>> drills("5.2 mm")["number"].below.name
    'No 6'
    """

    asked: Quantity
    by_series: tuple[Nearest[S], ...]
    sources: tuple[tuple[str, str], ...] = ()
    of: str = ""
    kind: str = "drill"

    #: `kind`, what they are of, is told by the answer's own.
    data_left_out: ClassVar[tuple[str, ...]] = ("kind",)

    @property
    def told_as(self) -> str:  # type: ignore[override]
        """The word of the request that tells it: drill or gauge."""
        return self.kind

    def __getitem__(self, series: str) -> Nearest[S]:
        for near in self.by_series:
            if near.series == series:
                return near
        raise KeyError(series)

    def __iter__(self) -> Iterator[str]:
        return (near.series for near in self.by_series)

    def __len__(self) -> int:
        return len(self.by_series)

    @property
    def nearest(self) -> S:
        """The closest of every series, or of the series `of`; the first series of a tie."""
        if self.of:
            return self[self.of].nearest
        return min((near.nearest for near in self.by_series), key=lambda stock: abs(stock.size - self.asked))
