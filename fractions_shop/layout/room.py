"""What margins and bodies leave of a total: the one sum that every way of spacing rests on.

Bodies are equal things of a width (bars, posts, slats) that stand between the spaces.
Of n spaces, n + 1 bodies stand about them with one outside each end space too, or n - 1
stand inside, with a space at each end.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Any, Protocol, TypeVar

from fractions_shop.errors import NoAnswer, ShopError
from fractions_shop.size.arguments import as_count, not_negative
from fractions_shop.size.quantity import Quantity

NOTHING = Quantity(Fraction(0))
#: What of a body is marked.
PARTS = ("edges", "centres")
_Layout = TypeVar("_Layout")


def errors_of(read: Iterable[Quantity], exact: Iterable[Quantity]) -> tuple[Quantity, ...]:
    """Each figure as read on a rule, less what it is."""
    return tuple(r - e for r, e in zip(read, exact, strict=True))


def largest(errors: Iterable[Quantity]) -> Quantity:
    """The largest error, without its sign: zero of none, and of zeros alone one that is approximate if any is."""
    return max(map(abs, errors), key=lambda error: (error.value, error.approximate), default=NOTHING)


class NoRoom(ShopError):
    """Margins and bodies take up the whole total.

    `other` is the same number of spaces with no body outside the end ones, where that
    has room (what `divide` gives with `outer=False`); else None.

    >>> from fractions_shop import divide
    >>> try:
    ...     divide("10 13/16 in", 4, bodies="3 5/16 in")
    ... except NoRoom as error:
    ...     print(error.other.space.inch)
    7/32
    """

    def __init__(self, message: str, other: Any = None) -> None:
        super().__init__(message, other)
        self.message = message
        self.other = other

    def __str__(self) -> str:
        return self.message


@dataclass(frozen=True)
class Fixed:
    """What stands beside the spaces: a margin at each end, and bodies of one width.

    `outer` says whether a body stands outside each end space too. None for `ends` or
    `bodies` is that nothing was said of them.
    """

    ends: Quantity | None = None
    bodies: Quantity | None = None
    outer: bool = True

    @classmethod
    def given(cls, ends: Any, bodies: Any, outer: bool) -> Fixed:
        """From what a caller gave; ShopError for a negative length."""
        if not isinstance(outer, bool):
            raise ShopError("outer is True or False: whether a body stands outside each end space")
        return cls(
            None if ends is None else not_negative(ends, "the margin at each end"),
            None if bodies is None else not_negative(bodies, "the width of a body"),
            outer,
        )

    @property
    def end(self) -> Quantity:
        """The margin at each end, zero if none was given."""
        return self.ends or NOTHING

    @property
    def body(self) -> Quantity:
        """The width of a body, zero if none was given."""
        return self.bodies or NOTHING

    @property
    def nothing(self) -> bool:
        """Whether nothing stands beside the spaces."""
        return self.ends is None and self.bodies is None

    def count(self, spaces: int) -> int:
        """How many bodies stand about so many spaces; 0 where none was given."""
        return 0 if self.bodies is None else bodies_about(spaces, self.outer)

    def taken(self, spaces: int) -> Quantity:
        """What they take up beside so many spaces."""
        if self.nothing:
            return NOTHING
        return 2 * self.end + self.count(spaces) * self.body

    def room(self, total: Quantity, spaces: int) -> Quantity:
        """What they leave of `total`; NoRoom when that is nothing."""
        left = total - self.taken(spaces)
        if left.value <= 0:
            raise NoRoom("the ends and bodies take up the whole total: no room is left for spaces")
        return left


def bodies_about(spaces: int, outer: bool) -> int:
    """How many bodies stand about so many spaces, with or without one outside each end space."""
    return spaces + 1 if outer else spaces - 1


def as_counts(count: Any, what: str = "the numbers of spaces") -> tuple[int, ...] | None:
    """Several counts as a tuple, or None where `count` is one."""
    if isinstance(count, (str, Quantity)) or not isinstance(count, Sequence):
        return None
    if not 1 <= len(count) <= 12:
        raise ShopError(f"{what} are 1 to 12 whole numbers, not {len(count)}")
    return tuple(as_count(n) for n in count)


class Moving(Protocol):
    """A way to make a total, and what the total moves by for it."""

    @property
    def total(self) -> Quantity:
        """The total that it makes."""

    @property
    def change(self) -> Quantity:
        """Above zero when the total grows."""


class OneOfSeveral:
    """An answer that gives several ways, of which one is chosen: its total, and how far that lies off."""

    @property
    def chosen(self) -> Moving:
        """The way chosen."""
        raise NotImplementedError

    @property
    def total(self) -> Quantity:
        """The total that the way chosen makes."""
        return self.chosen.total

    @property
    def change(self) -> Quantity:
        """What the total asked for moves by; above zero when it grows, zero when it is kept."""
        return self.chosen.change


def in_direction(direction: str, nearest: _Layout, below: _Layout | None, above: _Layout) -> _Layout:
    """The layout whose total lies in the direction asked for; NoAnswer where no smaller one has room."""
    if direction == "up":
        return above
    if direction == "down":
        if below is None:
            raise NoAnswer("a smaller total leaves no space at all")
        return below
    return nearest


def stations(space: Quantity, spaces: int, fixed: Fixed, of: str) -> tuple[Quantity, ...]:
    """Where bodies stand from the left end of the total: both edges of each, or its centre.

    Without bodies, where the spaces begin and end. ShopError for another word.
    """
    if fixed.bodies is None:
        if of:
            raise ShopError(f"{of} are those of bodies: give their width as bodies")
        return tuple(fixed.end + space * k for k in range(spaces + 1))
    if (of or "edges") not in PARTS:
        raise ShopError(f"what is marked of a body is its edges or its centres, not {of!r}")
    body = fixed.bodies
    first = fixed.end if fixed.outer else fixed.end + space
    lefts = [first + (body + space) * k for k in range(fixed.count(spaces))]
    if not lefts:
        raise ShopError("one space has no body inside it: there is nothing to mark")
    if of == "centres":
        return tuple(left + body * Fraction(1, 2) for left in lefts)
    return tuple(edge for left in lefts for edge in (left, left + body))
