"""What a piece of text says of sizes: items in order, and the words that are no part of any."""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction
from typing import ClassVar

from fractions_shop.language.notes import Note
from fractions_shop.size.limits import Limits
from fractions_shop.size.quantity import Angle, Quantity
from fractions_shop.size.told import Told
from fractions_shop.threads.thread import Thread

#: What an item can be.
KINDS = ("size", "limits", "range", "thread", "gauge", "drill", "count", "per", "rate", "angle")
#: Kinds that stand for one size where a statement needs one.
ONE_SIZE = frozenset({"size", "limits", "thread", "gauge", "drill"})


@dataclass(frozen=True, slots=True)
class ThreadSaid:
    """A screw or thread as it was written: its `major` diameter and, where that was said, its `pitch`.

    `thread` is the one of the tables; None where the tables have none of this major and pitch.
    """

    major: Quantity
    pitch: Quantity | None
    thread: Thread | None = None


@dataclass(frozen=True, slots=True)
class Range:
    """From `lower` to `upper`, both sizes."""

    lower: Quantity
    upper: Quantity


ItemValue = Quantity | Limits | Range | ThreadSaid | Angle | Fraction | int


@dataclass(frozen=True, slots=True, repr=False)
class Item(Told):
    """One thing that a text says: its `kind` (of KINDS), its exact `value`, and where it stands.

    A `size` is a Quantity (of power 0 where no unit was written), `limits` are Limits, a
    `range` is a Range, a `thread` a ThreadSaid; a `gauge` and a `drill` are their size; a
    `count` is a whole number; `per` is a slope, or threads to the inch; a `rate` is a
    Fraction (1/48 for 1 in 48); an `angle` is an Angle. `written` is what stands there, and `notes`
    are what is said of how it was read. `unit` is the name of the unit that was written ('' where none
    was), `beside` says that the same size stands beside it in another unit. `line` is counted from 1.

    >>> from fractions_shop import find_sizes
    >>> find_sizes("runners 1/16 in. thick")[0]
    <Item: size 1/16 in (1.5875 mm); written 1/16 in. on line 1>
    """

    told_as: ClassVar[str] = "item"

    kind: str
    value: ItemValue
    start: int
    end: int
    written: str
    notes: tuple[Note, ...] = ()
    line: int = 1
    unit: str = ""
    beside: bool = False

    @property
    def span(self) -> tuple[int, int]:
        """Where it begins and ends in the text."""
        return self.start, self.end

    @property
    def size(self) -> Quantity | Limits | None:
        """The one length it stands for: of a thread its major diameter; None for a range, a rate or a count."""
        value = self.value.major if isinstance(self.value, ThreadSaid) else self.value
        return value if isinstance(value, (Quantity, Limits)) and value.power == 1 else None

    @property
    def doubts(self) -> tuple[Note, ...]:
        """The notes that tell of a second sensible meaning."""
        return tuple(note for note in self.notes if note.kind == "doubt")


@dataclass(frozen=True, slots=True)
class Left:
    """A word, or words side by side, that stand in the text and are no part of an item."""

    text: str
    start: int
    end: int


class FoundSizes(Told, tuple[Item, ...]):
    """The sizes of running text in order, each an Item.

    >>> from fractions_shop import find_sizes
    >>> find_sizes("24 runners 1/16 in. thick and 11 in. long")
    <FoundSizes: 1/16 in (1.5875 mm); 11 in (279.4 mm)>
    """

    __slots__ = ()

    told_as: ClassVar[str] = "sizes"

    def as_data(self) -> dict[str, tuple[Item, ...]]:
        """What they tell, by name."""
        return {"items": tuple(self)}


@dataclass(frozen=True, slots=True, repr=False)
class Written(Told):
    """The items of a text in order, the words `left` out, and what could not be read.

    `unread` are figures and signs that belong to no item, and words that change a size
    (`half`, `per`, `to`): while there are any, the text as a whole is not one size.

    >>> from fractions_shop import written
    >>> written("two 3/32 in holes")
    <Written: 2 (count); 3/32 in (2.38125 mm); left out: holes>
    """

    told_as: ClassVar[str] = "written"

    written: str
    items: tuple[Item, ...]
    left: tuple[Left, ...] = ()
    unread: tuple[Left, ...] = field(default=())

    @property
    def one(self) -> Item | None:
        """The one size, limits, thread, gauge or drill that the text says, or None where it says another thing.

        A count beside it (`two 3/32" holes`) is no second size.
        """
        sizes = [item for item in self.items if item.kind != "count"]
        if self.unread or len(sizes) != 1 or sizes[0].kind not in ONE_SIZE:
            return None
        return sizes[0]

    def __len__(self) -> int:
        return len(self.items)

    def __getitem__(self, place: int) -> Item:
        return self.items[place]
