"""Relations: what sizes of one thing add up to, as exact linear equations.

`rack = 5 * bay + 6 * slat` ties three names. A relation is linear: whole or fractional
counts of names, and known sizes. It is held as `terms` and a `constant` that together
come to zero, so that no side is the better one. `solve` turns relations about into names that
are free and names that follow from them, with Fractions, so that what closes closes
exactly; of those that cannot all hold `conflicts` tells the smallest set.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import ClassVar, TypedDict

from fractions_shop.errors import ArgumentError, NoAnswer, ShopError
from fractions_shop.size.arguments import as_length
from fractions_shop.size.quantity import Quantity, exact
from fractions_shop.size.told import Told

_ZERO = Fraction(0)
_NOTHING = Quantity(_ZERO)


class RelationData(TypedDict):
    """A relation: its terms and the constant come to zero; as it was written."""

    terms: tuple[tuple[str, Fraction], ...]
    constant: Quantity
    text: str


@dataclass(frozen=True, repr=False)
class Relation(Told):
    """`terms`, each a name and how many of it, and the length `constant` come to zero.

    `written` is the relation as it was written. ShopError for one that ties no name.

    >>> tie = Relation.of({"rack": 1, "bay": -5}, "-1/2 in")
    >>> str(tie), tie.names
    ('rack = 5 * bay + 1/2 in', ('rack', 'bay'))
    """

    told_as: ClassVar[str] = "relation"

    terms: tuple[tuple[str, Fraction], ...]
    constant: Quantity = _NOTHING
    written: str = ""

    def __post_init__(self) -> None:
        if not isinstance(self.terms, tuple):
            raise ArgumentError(
                "a relation is made of counts, Relation.of({'rack': 1, 'bay': -5}), or written where it is asked"
            )
        if not self.terms:
            raise ShopError(f"{self.written or 'this relation'} ties no name: {self._state()}")

    @classmethod
    def of(
        cls, counts: Mapping[str, int | Fraction], constant: object = _NOTHING, written: str = ""
    ) -> Relation:
        """From how many there are of each name, to the left of `... + constant = 0`."""
        terms = tuple((name, exact(count)) for name, count in counts.items() if count)
        return cls(terms, as_length(constant), written)

    def as_data(self) -> RelationData:
        """What it tells, by name."""
        return {"terms": self.terms, "constant": self.constant, "text": self.written}

    @property
    def names(self) -> tuple[str, ...]:
        """The names that it ties, as they were met."""
        return tuple(name for name, _ in self.terms)

    def __str__(self) -> str:
        """As it was written, or as it could be: what is counted on one side, what is taken away on the other."""
        if self.written:
            return self.written
        sides = (
            " + ".join([
                *(_counted(name, sign * count) for name, count in self.terms if sign * count > 0),
                *([str(self.constant * sign)] if self.constant.value * sign > 0 else []),
            ])
            for sign in (1, -1)
        )  # fmt: skip
        return " = ".join(side or "0 in" for side in sides)

    def _state(self) -> str:
        return (
            "its two sides are equal whatever the sizes" if not self.constant.value else "it can never hold"
        )


def names_tied(relations: Iterable[Relation]) -> tuple[str, ...]:
    """The names that some relations tie, each once, as they are met."""
    return tuple(dict.fromkeys(name for relation in relations for name in relation.names))


def _counted(name: str, count: Fraction) -> str:
    return name if count == 1 else f"{count} * {name}"


@dataclass(frozen=True, eq=False)
class Solved:
    """Names that are `free`, and what each of the others follows from.

    `rows` gives, for a name that follows, how many of each free name it takes (in the order of
    `free`) and a constant in mm.
    """

    free: tuple[str, ...]
    rows: Mapping[str, tuple[tuple[Fraction, ...], Fraction]]

    def sizes(self, chosen: Sequence[Fraction]) -> dict[str, Fraction]:
        """Every name's size in mm, from those of the free names."""
        sizes = dict(zip(self.free, chosen, strict=True))
        for name, (counts, constant) in self.rows.items():
            sizes[name] = sum((c * x for c, x in zip(counts, chosen, strict=True) if c), constant)
        return sizes

    def row(self, name: str) -> tuple[tuple[Fraction, ...], Fraction]:
        """What `name` is made of, for a free name itself alone."""
        if name in self.rows:
            return self.rows[name]
        return tuple(Fraction(name == free_name) for free_name in self.free), _ZERO


def solve(relations: Sequence[Relation], names: Sequence[str], following: Iterable[str] = ()) -> Solved:
    """Which of `names` are free and how the rest follow; each name in `following` follows if it can.

    A name that stands once rather than several times follows first, so that the rest make
    it in whole counts. NoAnswer when they cannot all hold.
    """
    following_rows = _eliminated(relations, tuple(following))
    if following_rows is None:
        raise NoAnswer("these relations cannot all hold")
    free = tuple(name for name in names if name not in following_rows)
    rows = {}
    for name in names:
        if name in following_rows:
            counts, constant = following_rows[name]
            rows[name] = (tuple(counts.get(free_name, _ZERO) for free_name in free), constant)
    return Solved(free, rows)


def can_hold(relations: Sequence[Relation]) -> bool:
    """Whether any sizes at all, of zero and below as well, fulfil them all."""
    return _eliminated(relations, ()) is not None


_Row = tuple[dict[str, Fraction], Fraction]


def _eliminated(relations: Sequence[Relation], following: tuple[str, ...]) -> dict[str, _Row] | None:
    """The names that follow, each as counts of free names and a constant; None for a conflict."""
    rows: dict[str, _Row] = {}
    for relation in relations:
        counts, constant = _put_in(dict(relation.terms), relation.constant.mm, rows)
        if not counts:
            if constant:
                return None
            continue  # it says again what the others say
        name = min(counts, key=lambda candidate: (candidate not in following, _awkward(counts, candidate)))
        own = counts.pop(name)
        row = ({other: -count / own for other, count in counts.items()}, -constant / own)
        rows = {candidate: _put_in(*old, {name: row}) for candidate, old in rows.items()}
        rows[name] = row
    return rows


def _put_in(counts: dict[str, Fraction], constant: Fraction, known: Mapping[str, _Row]) -> _Row:
    """The same sum with each known name written out."""
    total: dict[str, Fraction] = {}
    for name, count in counts.items():
        parts, more = known.get(name, ({name: Fraction(1)}, _ZERO))
        constant += count * more
        for part, times in parts.items():
            total[part] = total.get(part, _ZERO) + count * times
    return {name: count for name, count in total.items() if count}, constant


def _awkward(counts: Mapping[str, Fraction], name: str) -> tuple[int, Fraction]:
    """How large the denominators are that the others take when `name` is made to follow."""
    return max(((other / counts[name]).denominator for other in counts.values()), default=1), abs(
        counts[name]
    )
