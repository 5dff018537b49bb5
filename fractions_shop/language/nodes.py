"""What a statement is made of: frozen nodes, each with its place in the line."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from fractions_shop.quantity import Angle, Quantity


@dataclass(frozen=True, slots=True)
class Node:
    """Any part of a statement; `start` and `end` are characters of the line."""

    start: int
    end: int


@dataclass(frozen=True, slots=True)
class Literal(Node):
    """A written size. `read_as` says how a doubtful form was read; `unit` is its unit's word."""

    value: Quantity | Angle
    unit: str = ""
    read_as: str = ""


@dataclass(frozen=True, slots=True)
class OddUnit(Node):
    """A number with a word that is no unit of ours; it is looked up when it is worked out."""

    number: Fraction
    word: str
    word_start: int


@dataclass(frozen=True, slots=True)
class Name(Node):
    """A name, to be looked up."""

    word: str


@dataclass(frozen=True, slots=True)
class Signed(Node):
    """A minus or plus before something."""

    sign: str
    operand: Node


@dataclass(frozen=True, slots=True)
class Binary(Node):
    """One of + - * / ^ between two things; `at` is where the sign stands."""

    sign: str
    at: int
    left: Node
    right: Node


@dataclass(frozen=True, slots=True)
class Toleranced(Node):
    """A size with limits: `plus` and `minus` are signed deviations from `nominal`."""

    nominal: Node
    plus: Node
    minus: Node


@dataclass(frozen=True, slots=True)
class Call(Node):
    """A function of some arguments."""

    function: str
    arguments: tuple[Node, ...]


@dataclass(frozen=True, slots=True)
class RuleName(Node):
    """A rule or unit named after `to`, `on`, `as` or `rule`."""

    text: str


@dataclass(frozen=True, slots=True)
class Text(Node):
    """Words taken as written: a thread's name, a fit."""

    text: str


@dataclass(frozen=True, slots=True)
class Reading(Node):
    """An expression to work out and show, in the unit or parts of `target` if given."""

    expression: Node
    target: RuleName | None


@dataclass(frozen=True, slots=True)
class Option(Node):
    """A smaller word of a request, with what belongs to it (None for `up`)."""

    word: str
    value: Node | None


@dataclass(frozen=True, slots=True)
class Request(Node):
    """A request: its `word`, its `subjects` in order, and its options."""

    word: str
    subjects: tuple[Node, ...]
    options: tuple[Option, ...]


@dataclass(frozen=True, slots=True)
class Naming(Node):
    """A name given to an answer."""

    name: str
    answer: Reading | Request


Statement = Reading | Request | Naming
