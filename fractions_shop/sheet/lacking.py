"""What a part lacks: lines that would cut in it, and could not be worked out."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from fractions_shop.language.notes import remark
from fractions_shop.sheet.lines import Line
from fractions_shop.sheet.solve import Worked


@dataclass(frozen=True, slots=True)
class Lacking:
    """The lines at fault of a sheet that cut in its parts."""

    lines: tuple[Line, ...] = ()

    def of(self, part: str) -> tuple[int, ...]:
        """The numbers of those that a part lacks; a line that says no part that can be read may be of any."""
        called = part.casefold()
        return tuple(line.number for line in self.lines if line.cut_in.casefold() in ("", called))

    def said_of(self, part: str) -> str:
        """`INCOMPLETE, line 4 not worked out`; empty for a part that lacks nothing."""
        return incomplete(self.of(part))


def lacking(worked: Iterable[Worked]) -> Lacking:
    """What the parts of these lines lack."""
    return Lacking(tuple(item.line for item in worked if item.undone and item.line.kind == "feature"))


def incomplete(lines: Iterable[int]) -> str:
    """`INCOMPLETE, lines 4 and 7 not worked out`; empty where there are none."""
    numbers = set(lines)
    return f"INCOMPLETE, {numbered(numbers)} not worked out" if numbers else ""


def lacked_by_tools(worked: Iterable[Worked]) -> tuple[int, ...]:
    """The lines that might ask for a tool and were not worked out."""
    return tuple(line.number for line in lacking(worked).lines if line.feature_word not in ("corner", "wall"))


def lacked_to_buy(worked: Iterable[Worked]) -> tuple[int, ...]:
    """The lines that might ask for something to be bought and were not worked out: of parts and of stock."""
    return tuple(item.line.number for item in worked if item.undone and item.line.kind in ("part", "stock"))


def walls_told(worked: Sequence[Worked]) -> tuple[Worked, ...]:
    """The same lines, each wall with a note on what it does not count: lines that cut in its part and were not worked out."""
    lacks = lacking(worked)
    return tuple(_wall_told(item, lacks) if lacks.lines else item for item in worked)


def _wall_told(item: Worked, lacks: Lacking) -> Worked:
    made = item.feature
    lines = lacks.of(made.part) if made is not None and made.word == "wall" else ()
    if made is None or not lines:
        return item
    which = "it" if len(lines) == 1 else "they"
    uncounted = remark(f"{numbered(lines)} not worked out: what {which} would cut is not counted here")
    return item.but(feature=replace(made, notes=(*made.notes, uncounted)))


def numbered(lines: Iterable[int]) -> str:
    """`line 4`, `lines 4 and 7`."""
    numbers = sorted(lines)
    return f"line{'s' if len(numbers) > 1 else ''} {' and '.join(map(str, numbers))}"
