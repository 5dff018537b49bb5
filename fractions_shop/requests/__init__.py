"""The requests of the language: one room each, under one table.

A request is its rule in `grammar/shop.lark`, its room (a module here that holds a `Room`
called `ROOM`) and its row in `TABLE`. The table is plain text, so that start-up loads no
room; a room loads when its word is used.
"""

from __future__ import annotations

from functools import cache
from importlib import import_module
from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from fractions_shop.requests.rooms import Room


class Row(NamedTuple):
    """A request's word, the module of its room, and what it does in a few words.

    `checks` says that it asks whether something holds, `sets_rule` that it sets the working
    rule: a sheet must know that of a line that cannot be read, too.
    """

    word: str
    module: str
    summary: str
    checks: bool = False
    sets_rule: bool = False


#: Every request, in the order in which help tells of them.
TABLE = (
    Row("snap", "snap", "nearest mark of a rule"),
    Row("divide", "divide", "totals that fall into equal spaces on the rule"),
    Row("share", "share", "so many of one size and so many of another that make a total"),
    Row("mark", "mark", "every mark from one datum"),
    Row("places", "places", "unequal marks, pairs, rows and grids from one datum"),
    Row("check", "check", "whether two sizes agree", checks=True),
    Row("rule", "rule", "sets the working rule", sets_rule=True),
    Row("units", "units", "which figure of a size leads in what is told"),
    Row("recover", "recover", "sizes that a worn or rough reading may have meant"),
    Row("reads", "reads", "what an instrument said of a name, and what was meant"),
    Row("reconcile", "reconcile", "round sizes that make sums of readings close"),
    Row("crown", "crown", "heights of supports that follow an arc"),
    Row("pack", "pack", "fewest shims that make a height"),
    Row("fit", "fit", "limits of a hole and a shaft"),
    Row("thread", "thread", "the figures of a thread"),
    Row("identify", "identify", "threads that a measured screw may be"),
    Row("substitute", "substitute", "threads that may stand in for another"),
    Row("spanner", "spanner", "which spanner goes on a head or nut, and how loose"),
    Row("taper", "taper", "the figures of a machine taper or a taper pin"),
    Row("drill", "drill", "nearest drills, below and above"),
    Row("gauge", "gauge", "nearest gauges of wire and sheet"),
)
#: The answer that no word opens: an expression's size.
_NOT_REQUESTS = {"size": "size"}
_MODULES = {row.word: row.module for row in TABLE} | _NOT_REQUESTS


def words() -> tuple[str, ...]:
    """The word of every request."""
    return tuple(row.word for row in TABLE)


#: The words of those that check something, and of those that set the working rule.
CHECKS = tuple(row.word for row in TABLE if row.checks)
RULES = tuple(row.word for row in TABLE if row.sets_rule)
#: The words of the one that says what was read of a name, and of the one that ties such names.
READS, RECONCILE = "reads", "reconcile"
#: The words of those whose answers are clearer with a rule drawn under them.
DRAWN = ("mark", "divide", "places")
#: The word of the one that says which figures lead, in what stands below it.
UNITS = "units"


def summaries() -> dict[str, str]:
    """Every request's word, and what it does in a few words."""
    return {row.word: row.summary for row in TABLE}


@cache
def room(kind: str) -> Room:
    """The room of a kind of answer: a request's word, or `size`."""
    record: Room = import_module(f"{__name__}.{_MODULES[kind]}").ROOM
    return record


def kinds() -> tuple[str, ...]:
    """Every kind of answer: the requests' words, and `size`."""
    return tuple(_MODULES)
