"""All that was read: names with their readings, and the relations that tie some of them.

Names that no relation ties are weighed together as one list; those that are tied, directly or through
others, as one set that closes.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from typing import ClassVar

from fractions_shop.errors import NoAnswer
from fractions_shop.meant.found import Ask, Recovered
from fractions_shop.meant.readings import Reading
from fractions_shop.meant.reconcile import Reconciled, reconcile
from fractions_shop.meant.recover import recover
from fractions_shop.meant.relations import Relation
from fractions_shop.meant.verdict import SizeVerdict, odds_on
from fractions_shop.size.quantity import Quantity

#: More names are no list that is weighed while one waits.
MOST_READ = 40


@dataclass(frozen=True)
class ReadName:
    """What was probably meant by a name that was read: its `size`, the `odds` on it and the `verdict`.

    `names` are those weighed with it, itself among them: as a list (`together`), or tied by relations
    (`tied`). `ask` is what to read next. `sizes` are those of all the names, `unsettled` the names
    whose size is not settled.
    """

    data_left_out: ClassVar[tuple[str, ...]] = ("together", "tied")

    name: str
    reading: Reading
    size: Quantity
    called: str
    odds: float
    verdict: SizeVerdict
    ask: Ask | None
    names: tuple[str, ...]
    sizes: Mapping[str, Quantity]
    unsettled: tuple[str, ...]
    together: Recovered | None = None
    tied: Reconciled | None = None


_Named = tuple[tuple[str, Reading, str], ...]


@dataclass(frozen=True)
class Heap:
    """Names with their readings, and each `reconcile` as its relations."""

    readings: Mapping[str, Reading]
    ties: tuple[tuple[Relation, ...], ...] = ()

    def reading(self, name: str, reading: Reading) -> Heap:
        """The same with what was read of a name."""
        return Heap({**self.readings, name: reading}, self.ties)

    def tied(self, relations: tuple[Relation, ...]) -> Heap:
        """The same with a `reconcile` more; said again it changes nothing."""
        return self if relations in self.ties else Heap(self.readings, (*self.ties, relations))

    def with_it(self, name: str) -> tuple[frozenset[str], tuple[Relation, ...]]:
        """The names tied to `name`, and the relations among them; none where nothing ties it."""
        names, relations = {name}, list[Relation]()
        left = list(self.ties)
        while True:
            near = [tie for tie in left if any(names & set(relation.names) for relation in tie)]
            if not near:
                return (frozenset(names), tuple(relations)) if relations else (frozenset(), ())
            for tie in near:
                left.remove(tie)
                relations += tie
                names.update(tied for relation in tie for tied in relation.names)

    def weighed(self, name: str) -> ReadName:
        """What was meant by `name`; NoAnswer where no round size is likely."""
        names, relations = self.with_it(name)
        if relations:
            return of_set(name, self.reconciled(relations, names))
        free = tuple(other for other in self.readings if not self.with_it(other)[1])
        return of_list(name, self.readings[name], free, _recovered(self._named(free)))

    def reconciled(self, relations: tuple[Relation, ...], names: frozenset[str]) -> Reconciled:
        """The set of sizes that closes; ShopError as `reconcile` raises it."""
        return _reconciled(self._named(tuple(other for other in self.readings if other in names)), relations)

    def _named(self, names: tuple[str, ...]) -> _Named:
        return tuple((name, self.readings[name], self.readings[name].written) for name in names)


@lru_cache(maxsize=16)
def _recovered(named: _Named) -> Recovered:
    return recover([reading for _, reading, _ in named])


@lru_cache(maxsize=16)
def _reconciled(named: _Named, relations: tuple[Relation, ...]) -> Reconciled:
    return reconcile({name: reading for name, reading, _ in named}, relations)


def of_list(name: str, reading: Reading, names: tuple[str, ...], recovered: Recovered) -> ReadName:
    """One name of a list."""
    weighed = dict(zip(names, recovered.readings, strict=True))
    mine = weighed[name]
    if not mine.candidates:
        raise NoAnswer(f"no round size is likely near what {name} reads")
    best = mine.candidates[0]
    return ReadName(
        name,
        reading, best.size, best.name,
        best.odds, mine.verdict, mine.ask, names,
        {other: each.candidates[0].size for other, each in weighed.items() if each.candidates},
        tuple(other for other, each in weighed.items() if each.verdict is SizeVerdict.UNSETTLED),
        together=recovered,
    )  # fmt: skip


def of_set(name: str, reconciled: Reconciled) -> ReadName:
    """One name of a set that closes; NoAnswer where there is none."""
    sizes = reconciled.sizes
    odds = {other: odds_on(chance) for other, chance in reconciled.chances.items()}
    verdicts = {
        other: SizeVerdict.of(each) if reconciled.complete else SizeVerdict.UNSETTLED
        for other, each in odds.items()
    }
    mine = verdicts[name]
    ask = None if mine is SizeVerdict.CUT else Ask.AGAIN if reconciled.suspect == name else Ask.NEIGHBOUR
    return ReadName(
        name, reconciled.readings[name], sizes[name], reconciled.sets[0].names[name], odds[name], mine, ask,
        tuple(reconciled.readings), sizes,
        tuple(other for other, each in verdicts.items() if each is SizeVerdict.UNSETTLED),
        tied=reconciled,
    )  # fmt: skip
