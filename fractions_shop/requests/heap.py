"""All that was read: names with what was said of each, and the relations that tie some of them.

Names that no relation ties are weighed together as one list, as far as the same was said of the work
and of where to look; those that are tied, directly or through others, as one set that
closes. What was read off a print that a set shares is weighed with the set, for its scale. A name whose
true size was stated, for the scale of others, has that size.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass, field, replace
from functools import lru_cache

from fractions_shop.errors import NoAnswer, ShopError
from fractions_shop.meant.instruments import instrument
from fractions_shop.meant.priors import NO_TABLES
from fractions_shop.meant.readings import Reading
from fractions_shop.meant.reconcile import MOST_NAMES, MOST_RELATIONS, Reconciled, reconcile
from fractions_shop.meant.recover import Recovered, recover
from fractions_shop.meant.relations import Relation, names_tied
from fractions_shop.meant.scale import lacking, open_scales, scale_from
from fractions_shop.meant.shared import Print
from fractions_shop.meant.verdict import SizeVerdict
from fractions_shop.meant.weighing import MOST_COMMON
from fractions_shop.requests.read_name import AsRead, ReadName, of_list, of_set, of_stated, sizes_of
from fractions_shop.size.cached import cached_property
from fractions_shop.size.quantity import Quantity

#: To weigh more names takes longer than anyone waits.
MOST_READ, MOST_AMONG = 40, 3


@dataclass(frozen=True)
class Tie:
    """One `reconcile`: its relations, and what it says of the work and of readings of which nothing else was said.

    `draws_on` are the names in its relations that do not read, and have the sizes that these were set to.
    """

    relations: tuple[Relation, ...]
    work: str | None = None
    within: Quantity | None = None
    by: str | None = None
    among: tuple[str, ...] = ()
    draws_on: tuple[str, ...] = ()

    @property
    def names(self) -> frozenset[str]:
        """The names that it ties."""
        return frozenset(names_tied(self.relations))

    def trusted(self, reading: Reading) -> Reading:
        """A reading with the trust said here, where it has none of its own."""
        if reading.told or reading.by is not None:
            return reading
        if self.within is not None:
            return reading.but(within=self.within, told=True)
        if self.by is not None:
            return reading.but(within=instrument(self.by).trust(reading.size, reading.within), by=self.by)
        return reading


@dataclass(frozen=True)
class _Set:
    """Names that are weighed as one set, and what ties them."""

    names: frozenset[str]
    ties: tuple[Tie, ...]

    @property
    def relations(self) -> tuple[Relation, ...]:
        return tuple(relation for tie in self.ties for relation in tie.relations)


@dataclass(frozen=True)
class Heap:
    """Names with what was said of each, and each `reconcile`."""

    said: Mapping[str, AsRead] = field(default_factory=dict)
    ties: tuple[Tie, ...] = ()

    def reading(self, name: str, said: AsRead) -> Heap:
        """The same with what was read of a name."""
        return Heap({**self.said, name: said}, self.ties)

    def without(self, names: Collection[str]) -> Heap:
        """The same without what was read of some names, and without what ties them."""
        said = {name: reading for name, reading in self.said.items() if name not in names}
        return Heap(said, tuple(tie for tie in self.ties if tie.names.isdisjoint(names)))

    def tied(self, tie: Tie) -> Heap:
        """The same with one more `reconcile`; to say one again changes nothing."""
        return self if tie in self.ties else Heap(self.said, (*self.ties, tie))

    @cached_property
    def at_scale(self) -> dict[str, AsRead]:
        """What was said of each name, with the scale that another name's reading tells now.

        A name whose true size was stated tells the scale of the print that it was read off, if it was.
        """
        known = dict(said.known for said in self.said.values() if said.known is not None)
        prints = {
            self.said[name].scale: (name, size)
            for name, size in known.items()
            if name in self.said and isinstance(self.said[name].scale, Print)
        }
        result = {}
        for name, said in self.said.items():
            known_size = said.known or (prints.get(said.scale) if isinstance(said.scale, Print) else None)
            if known_size is None or (said.known is None and known_size[0] == name):
                result[name] = said
                continue
            teller = self.said.get(known_size[0])
            if teller is not None:
                scale = scale_from(teller.read.size, known_size[1], within=teller.read.within)
                said = replace(said, scale=scale)
            result[name] = said
        return result

    @cached_property
    def stated(self) -> dict[str, Quantity]:
        """The names whose true size was stated; ShopError for one that was stated twice, otherwise."""
        stated: dict[str, Quantity] = {}
        for said in self.said.values():
            if said.known is None:
                continue
            name, size = said.known
            if stated.setdefault(name, size) != size:
                raise ShopError(f"{name} cannot be of two true sizes: {stated[name]} and {size}")
        return stated

    @cached_property
    def _sets(self) -> tuple[_Set, ...]:
        """The names that relations tie, directly or through others, with those off the same print."""
        sets: list[_Set] = []
        for tie in self.ties:
            names, ties = tie.names & self._open, [tie]
            for other in [tied for tied in sets if tied.names & names]:
                sets.remove(other)
                names |= other.names
                ties = [*other.ties, *ties]
            sets.append(_Set(names, tuple(ties)))
        return self._with_prints(sets)

    def _with_prints(self, sets: list[_Set]) -> tuple[_Set, ...]:
        for print_ in {shared for name in self._open for shared in self._prints(name)}:
            sharing = [tied for tied in sets if any(print_ in self._prints(name) for name in tied.names)]
            taken = frozenset(name for tied in sets for name in tied.names)
            free = {name for name in self._open - taken if print_ in self._prints(name)}
            names = frozenset(name for tied in sharing for name in tied.names) | free
            joined = _Set(names, tuple(tie for tied in sharing for tie in tied.ties))
            if sharing and len(names) <= MOST_NAMES and len(joined.relations) <= MOST_RELATIONS:
                sets = [*(tied for tied in sets if tied not in sharing), joined]
        return tuple(sets)

    def _prints(self, name: str) -> tuple[Print, ...]:
        return tuple(shared for shared in self.at_scale[name].reading.shared if isinstance(shared, Print))

    @property
    def _open(self) -> frozenset[str]:
        """The names that are weighed."""
        return frozenset(self.said) - frozenset(self.stated)

    def _set_of(self, name: str) -> _Set | None:
        return next((tied for tied in self._sets if name in tied.names), None)

    def _list_of(self, name: str) -> tuple[str, ...]:
        """The names of one list with `name`, in order.

        Where more errors are shared than can be told apart, only the names that share none, or those that it shares.
        """
        kind = self.said[name].kind
        every = tuple(
            other for other, said in self.said.items()
            if said.kind == kind and other in self._open and self._set_of(other) is None
        )  # fmt: skip
        shared = {other: frozenset(self.at_scale[other].reading.shared) for other in every}
        if len(frozenset().union(*shared.values())) <= MOST_COMMON:
            return every
        return tuple(other for other in every if shared[other] <= shared[name])

    def weighed(self, name: str) -> ReadName:
        """What was meant by `name`; NoAnswer where no round size is likely, ShopError for too much at once."""
        said = self.at_scale[name]
        if name in self.stated:
            return of_stated(name, said, self.stated[name])
        tied = self._set_of(name)
        if tied is not None:
            return of_set(name, said, self._closed(tied))
        together = self._list_of(name)
        in_tables = any(table not in NO_TABLES for table in said.among)
        most = MOST_AMONG if in_tables else MOST_READ
        if len(together) > most:
            where = " among tables" if in_tables else ""
            raise ShopError(f"at most {most} names that read are weighed together{where}")
        lacks = open_scales([self.at_scale[member].reading for member in together])
        for print_ in self._prints(name):
            if print_ in lacks:
                return ReadName(
                    name, said, said.reading, names=together, lacks=lacking(print_, lacks[print_])
                )
        settled = tuple(member for member in together if not set(self._prints(member)) & lacks.keys())
        readings = tuple(
            (member, self.at_scale[member].reading, self.said[member].read.written) for member in settled
        )
        return of_list(name, said, settled, _recovered(readings, *said.kind))

    def draws_on(self, name: str) -> tuple[str, ...]:
        """The names that do not read and on which what ties `name` rests; none where its true size was stated."""
        tied = None if name in self.stated else self._set_of(name)
        ties = () if tied is None else tied.ties
        return tuple(dict.fromkeys(other for tie in ties for other in tie.draws_on))

    def every(self) -> dict[str, ReadName]:
        """Each name that has an answer."""
        result = {}
        for name in self.said:
            try:
                result[name] = self.weighed(name)
            except ShopError:
                continue  # it is told where that name stands
        return result

    def sizes(self) -> tuple[dict[str, Quantity], frozenset[str]]:
        """The sizes of all names that have one, and the names whose size is not settled."""
        every = self.every()
        return sizes_of(every), frozenset(
            name for name, answer in every.items() if answer.verdict is SizeVerdict.UNSETTLED
        )

    def closed(self, tie: Tie) -> Reconciled:
        """What came of all that a `reconcile` ties; ShopError as `reconcile` raises it."""
        result = next(tied for tied in self._sets if tie in tied.ties)
        if not result.names:
            raise NoAnswer("the true size of every name in it was stated: check it instead")
        return self._closed(result)

    def _closed(self, tied: _Set) -> Reconciled:
        names = tuple(name for name in self.said if name in tied.names)
        among = dict.fromkeys(
            table for tables in (*(self.said[name].among for name in names), *(tie.among for tie in tied.ties))
            for table in tables
        )  # fmt: skip
        works = {
            work
            for work in (*(self.said[name].work for name in names), *(tie.work for tie in tied.ties))
            if work
        }
        if len(works) > 1:
            raise NoAnswer(f"one set is either {' or '.join(sorted(works))} work, and both are said")
        readings = []
        for name in names:
            reading = self.at_scale[name].reading
            for tie in tied.ties:
                reading = tie.trusted(reading)
            readings.append((name, reading, reading.written))
        relations = [_put_in(relation, self.stated) for relation in tied.relations]
        left = tuple(relation for relation in relations if relation is not None)
        return _reconciled(tuple(readings), left, next(iter(works), None), tuple(among))


def _put_in(relation: Relation, stated: Mapping[str, Quantity]) -> Relation | None:
    """A relation with the stated sizes in the place of their names; None for one that these fulfil."""
    known = {name: count for name, count in relation.terms if name in stated}
    if not known:
        return relation
    constant = sum((stated[name] * count for name, count in known.items()), relation.constant)
    counts = {name: count for name, count in relation.terms if name not in known}
    if not counts and constant.value:
        raise NoAnswer(f"{relation} does not hold of the true sizes that were stated")
    return Relation.of(counts, constant, relation.written) if counts else None


_Named = tuple[tuple[str, Reading, str], ...]


@lru_cache(maxsize=32)
def _recovered(named: _Named, work: str | None, among: tuple[str, ...]) -> Recovered:
    return recover([reading for _, reading, _ in named], work=work, among=among)


@lru_cache(maxsize=32)
def _reconciled(
    named: _Named, relations: tuple[Relation, ...], work: str | None, among: tuple[str, ...]
) -> Reconciled:
    return reconcile({name: reading for name, reading, _ in named}, relations, work=work, among=among)
