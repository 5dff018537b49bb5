"""A request's room: everything that is said of one request, in one record."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from fractions_shop.figures.plain import Lines

if TYPE_CHECKING:
    from fractions_shop.figures.drawing import Drawing
    from fractions_shop.requests.inputs import Inputs
    from fractions_shop.size.quantity import Quantity
    from fractions_shop.size.rule import Rule
    from fractions_shop.size.value import Value


@dataclass(frozen=True)
class Room:
    """What one kind of answer is and how it is told.

    `forms` are ways to write the request, capitals standing for what is filled in, and
    `example` a statement that can be answered. `answer` works out the typed result and the
    one size it has, if it has one (an expression is worked out by `expression`); `lines` puts a result into sentences and tables; `gist`
    into one line, for a preview, and is given the lines as plain text (without it the first of
    them serve); `pictures`
    draws it under a title. `reads_rule` says whether the working rule makes a difference, `takes_long` that an
    answer to several subjects is not to be worked out only to see whether there is one.
    `further` are examples of further forms, each behind an expression that is found in lines begun so.
    `holds` is whether a result is as it was asked to be, for a request that checks something;
    `sets_rule` is the working rule that a result leaves behind. `on_a_rule` gives the sizes that a
    drawn rule marks, and which rule that is. `odds` are those on the one size of an answer where it
    is not settled, else None; `moved` is the total asked for and what it moved by, of an answer that moves it.
    """

    word: str
    forms: tuple[str, ...]
    example: str
    lines: Callable[[Any], Lines]
    answer: Callable[[Inputs], tuple[Any, Value | None]] | None = None
    gist: Callable[[Any, list[str]], list[str]] | None = None
    pictures: Callable[[Any, str], tuple[Drawing, ...]] | None = None
    reads_rule: bool = True
    takes_long: bool = False
    holds: Callable[[Any], bool] | None = None
    further: tuple[tuple[str, str], ...] = ()
    sets_rule: Callable[[Any], Rule] | None = None
    on_a_rule: Callable[[Any], tuple[Sequence[Quantity], Rule] | None] | None = None
    odds: Callable[[Any], float | None] | None = None
    moved: Callable[[Any], tuple[Quantity, Quantity] | None] | None = None
