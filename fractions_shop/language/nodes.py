"""What a statement is made of: frozen nodes, each with its place in the line."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import Any, ClassVar

from fractions_shop.language.notes import Note
from fractions_shop.size.drafts import Drafted
from fractions_shop.size.frozen import Frozen
from fractions_shop.size.quantity import Angle, Quantity

#: Fields annotated so hold no further nodes.
_PLAIN = frozenset({
    "int", "str", "bool", "Fraction", "Quantity | Angle", "Note | None", "tuple[Note, ...]", "tuple[int, ...]",
    "tuple[str, ...]",
})  # fmt: skip


class Node(Frozen, metaclass=Drafted):
    """Any part of a statement; `start` and `end` are characters of the line."""

    #: The fields that may hold further nodes, the last one first.
    inner: ClassVar[tuple[str, ...]] = ()

    start: int
    end: int

    def __init_subclass__(cls) -> None:
        super().__init_subclass__()
        own = cls.__dict__.get("__annotations__", {})  # noqa: RUF063 - as of Frozen
        cls.inner = (*reversed([name for name, kind in own.items() if kind not in _PLAIN]), *cls.inner)


class Literal(Node):
    """A written size. `read_as` says how its form was read, where that is told; `unit` is its unit's word.

    `bracketed` says that brackets stood about it, so that nobody can take it otherwise.
    """

    value: Quantity | Angle
    unit: str = ""
    read_as: Note | None = None
    bracketed: bool = False


class OddUnit(Node):
    """A number with a word that is not a unit of ours; it is looked up when it is worked out."""

    number: Fraction
    word: str
    word_start: int


class Named(Node):
    """A thread, gauge or drill by name; `kind` is the terminal it was read as."""

    text: str
    kind: str


class Name(Node):
    """A name, to be looked up."""

    word: str


class Signed(Node):
    """A minus or plus before something; `bracketed` as of a Literal."""

    sign: str
    operand: Node
    bracketed: bool = False


class Binary(Node):
    """One of + - * / ^ between two things; `at` is where the sign stands.

    `crossed` says that a product was written with the sign ×, which also stands between the sides of a plate;
    `bracketed` that brackets stood about the whole.
    """

    sign: str
    at: int
    left: Node
    right: Node
    crossed: bool = False
    bracketed: bool = False


class Toleranced(Node):
    """A size with limits: `plus` and `minus` are signed deviations from `nominal`.

    `bracketed` says that brackets stood about the whole.
    """

    nominal: Node
    plus: Node
    minus: Node
    bracketed: bool = False


class Pieces(Node):
    """So many pieces of one size, or a part of one: `4 of slat`, `3/4 of 2 in`."""

    count: Node
    size: Node


class Several(Node):
    """Numbers that `and` joins (into 5 and 7), or distances that `by` joins, across and up.

    `lengths` says that each must be a length.
    """

    members: tuple[Node, ...]
    lengths: bool = False


class RowOfPlaces(Node):
    """So many `across`, or `up`, at a pitch."""

    way: str
    count: Node
    pitch: Node


class Call(Node):
    """A function of some arguments."""

    function: str
    arguments: tuple[Node, ...]


class Worded(Node):
    """One written size with words around it: the `words` that were left out, and what is said of it.

    The words are kept as names: what is named on the sheet is never taken for a word.
    """

    size: Node
    words: tuple[Name, ...]
    notes: tuple[Note, ...]


class RuleName(Node):
    """A rule or unit named after `to`, `on`, `as` or `rule`."""

    text: str


class Text(Node):
    """Words taken as written: a thread's name, a fit; `kind` is the terminal of the first of them."""

    text: str
    kind: str = ""


class Texts(Node):
    """Several words taken as written: the tables to look among."""

    texts: tuple[str, ...]


class OffPrint(Node):
    """The readings were taken off a print, of that name where there are several."""

    name: str


class DrawnTo(Node):
    """The readings were taken off a drawing to the scale `parts` to `whole`."""

    parts: Fraction
    whole: Fraction


class KnownSize(Node):
    """The readings are at the scale at which `read`, a name or a size as read, is really `size`."""

    read: Node
    size: Node


class ShownExpression(Node):
    """An expression to work out and show, in the unit or parts of `target` if given."""

    expression: Node
    target: RuleName | None


class Option(Node):
    """A smaller word of a request, with what belongs to it (None for `up`), which may have to be a length."""

    word: str
    value: Node | None
    length: bool = False


class Request(Node):
    """A request: its `word`, its `subjects` in order, its options, and which subjects must be lengths."""

    word: str
    subjects: tuple[Node, ...]
    options: tuple[Option, ...]
    lengths: tuple[int, ...] = ()


class Naming(Node):
    """A name given to an answer; or, with `each`, the names given to the sizes of one, of which `name` is one."""

    name: str
    answer: ShownExpression | Request
    each: tuple[str, ...] = ()


Statement = ShownExpression | Request | Naming


def as_written(part: Node, text: str) -> str:
    """The part of the line `text` that a node is, in brackets where another sign could cut into it."""
    written = text[part.start : part.end]
    return f"({written})" if isinstance(part, Binary | Signed) else written


def nodes_in(node: Any) -> Iterator[Node]:
    """A node and all that it is made of, in the order of the line."""
    # A stack of our own: `1 + 1 + 1 ...` is as deep as it is long.
    waiting = [node]
    while waiting:
        part = waiting.pop()
        if isinstance(part, Node):
            yield part
            for name in part.inner:
                field = getattr(part, name)
                if isinstance(field, (Node, tuple)):
                    waiting.append(field)
        elif isinstance(part, tuple):
            waiting += reversed(part)
