"""What a statement is made of: frozen nodes, each with its place in the line."""

from __future__ import annotations

from dataclasses import dataclass, fields
from fractions import Fraction
from typing import TypeVar, dataclass_transform

from fractions_shop.language.notes import Note
from fractions_shop.size.quantity import Angle, Quantity

T = TypeVar("T")


@dataclass_transform(frozen_default=True, eq_default=False)
def node(kind: type[T]) -> type[T]:
    """A frozen dataclass without the comparing and printing that no node needs.

    Each method that a dataclass writes costs time whenever the command starts.
    """
    return dataclass(frozen=True, eq=False, repr=False)(kind)


@node
class Node:
    """Any part of a statement; `start` and `end` are characters of the line."""

    start: int
    end: int

    def __repr__(self) -> str:
        parts = ", ".join(f"{f.name}={getattr(self, f.name)!r}" for f in fields(self))
        return f"{type(self).__name__}({parts})"


@node
class Literal(Node):
    """A written size. `read_as` says how its form was read, where that is told; `unit` is its unit's word.

    `bracketed` says that brackets stood about it, so that nobody can take it otherwise.
    """

    value: Quantity | Angle
    unit: str = ""
    read_as: Note | None = None
    bracketed: bool = False


@node
class OddUnit(Node):
    """A number with a word that is no unit of ours; it is looked up when it is worked out."""

    number: Fraction
    word: str
    word_start: int


@node
class Named(Node):
    """A thread, gauge or drill by name; `kind` is the terminal it was read as."""

    text: str
    kind: str


@node
class Name(Node):
    """A name, to be looked up."""

    word: str


@node
class Signed(Node):
    """A minus or plus before something; `bracketed` as of a Literal."""

    sign: str
    operand: Node
    bracketed: bool = False


@node
class Binary(Node):
    """One of + - * / ^ between two things; `at` is where the sign stands.

    `crossed` says that a product was written with the sign ×, which also parts the sides of a plate;
    `bracketed` that brackets stood about the whole.
    """

    sign: str
    at: int
    left: Node
    right: Node
    crossed: bool = False
    bracketed: bool = False


@node
class Toleranced(Node):
    """A size with limits: `plus` and `minus` are signed deviations from `nominal`.

    `bracketed` says that brackets stood about the whole.
    """

    nominal: Node
    plus: Node
    minus: Node
    bracketed: bool = False


@node
class Pieces(Node):
    """So many pieces of one size, or a part of one: `4 of slat`, `3/4 of 2 in`."""

    count: Node
    size: Node


@node
class Call(Node):
    """A function of some arguments."""

    function: str
    arguments: tuple[Node, ...]


@node
class RuleName(Node):
    """A rule or unit named after `to`, `on`, `as` or `rule`."""

    text: str


@node
class Text(Node):
    """Words taken as written: a thread's name, a fit."""

    text: str


@node
class Reading(Node):
    """An expression to work out and show, in the unit or parts of `target` if given."""

    expression: Node
    target: RuleName | None


@node
class Option(Node):
    """A smaller word of a request, with what belongs to it (None for `up`), which may have to be a length."""

    word: str
    value: Node | None
    length: bool = False


@node
class Request(Node):
    """A request: its `word`, its `subjects` in order, its options, and which subjects must be lengths."""

    word: str
    subjects: tuple[Node, ...]
    options: tuple[Option, ...]
    lengths: tuple[int, ...] = ()


@node
class Naming(Node):
    """A name given to an answer."""

    name: str
    answer: Reading | Request


Statement = Reading | Request | Naming


def as_written(part: Node, text: str) -> str:
    """The part of the line `text` that a node is, in brackets where another sign could cut into it."""
    written = text[part.start : part.end]
    return f"({written})" if isinstance(part, Binary | Signed) else written
