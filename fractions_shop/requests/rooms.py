"""A request's room: everything that is said of one request, in one record."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, Any

from fractions_shop.figures.plain import Lines
from fractions_shop.size.frozen import Frozen

if TYPE_CHECKING:
    from fractions_shop.figures.drawing import Drawing, NotDrawn
    from fractions_shop.figures.paper import PaperSize
    from fractions_shop.layout.curve import Crown
    from fractions_shop.requests.inputs import Inputs
    from fractions_shop.size.quantity import Quantity
    from fractions_shop.size.rule import Rule
    from fractions_shop.size.value import Value


class Room(Frozen):
    """What one kind of answer is and how it is told."""

    #: The request's word, or the kind of an answer that no word opens.
    word: str
    #: Ways to write it, capitals standing for what is filled in.
    forms: tuple[str, ...]
    #: A statement that can be answered, for help and advice.
    example: str
    #: A result in sentences and tables.
    lines: Callable[[Any], Lines]
    #: The typed result and the one size it has, if any; an expression is worked out by `expression`.
    answer: Callable[[Inputs], tuple[Any, Value | None]] | None = None
    #: Sentences for a preview, given the lines as plain text; without it the first lines serve.
    gist: Callable[[Any, list[str]], list[str]] | None = None
    #: Drawings of a result, under a title and for a paper; or why there is none.
    pictures: Callable[[Any, str, PaperSize], tuple[Drawing, ...] | NotDrawn] | None = None
    #: Statements that must stand before the example.
    before: tuple[str, ...] = ()
    #: Whether the working rule makes a difference.
    reads_rule: bool = True
    #: Whether an answer to several subjects is not to be worked out only to see whether there is one.
    takes_long: bool = False
    #: Whether a result is as it was asked to be, for a request that checks something.
    holds: Callable[[Any], bool] | None = None
    #: Examples of further forms, each behind an expression that is found in lines begun so.
    further: tuple[tuple[str, str], ...] = ()
    #: The working rule that a result leaves behind.
    sets_rule: Callable[[Any], Rule] | None = None
    #: The heights that a result gives, one by one, as they are.
    heights: Callable[[Any], Sequence[Quantity]] | None = None
    #: The crown that a result is, to be drawn with its dimensions.
    crown: Callable[[Any], Crown] | None = None
    #: The sizes that a drawn rule marks, and which rule that is.
    on_a_rule: Callable[[Any], tuple[Sequence[Quantity], Rule] | None] | None = None
    #: The odds on the one size of an answer, where it is not settled; else None.
    odds: Callable[[Any], float | None] | None = None
    #: What the one size of an answer rests on being believed, which nobody said: `if it is inch work`; else empty.
    believed: Callable[[Any], str] | None = None
    #: How many of its lines are the verdict, which stands before the size that is named.
    verdicts: Callable[[Any], int] | None = None
    #: The total asked for and what it moved by, of an answer that moves it.
    moved: Callable[[Any], tuple[Quantity, Quantity] | None] | None = None
