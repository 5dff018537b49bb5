"""The drills, taps, countersinks and cutters that the holes and slots of a sheet ask for, each once, in one list."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from fractions_shop.layout.features import Hole, Size
from fractions_shop.sheet.cut_parts import CutPart, Lettered
from fractions_shop.size.limits import Limits, limits_of
from fractions_shop.size.quantity import Angle, Quantity

if TYPE_CHECKING:
    from fractions_shop.tables.drills import Drill
    from fractions_shop.tables.nearby import Nearby


@dataclass(frozen=True, slots=True)
class Tool:
    """A tool: its `kind` (drill, tap, countersink or slot cutter) and size, or the thread that it taps.

    `name` is what its size was called in the sheet (`No 29 drill`), empty for a bare size. A countersink opens by
    `angle`, and its size is the diameter at the surface. `many` is how many holes or slots it makes in all pieces,
    `parts` those that they are in, with the lines.
    """

    kind: str
    size: Size | None
    name: str = ""
    angle: Angle | None = None
    many: int = 0
    parts: tuple[tuple[str, int], ...] = ()

    @property
    def standing(self) -> str:
        """How far its size may be trusted, of a tap the size and pitch of its thread; empty where no table gave it."""
        if self.kind != "tap":
            return getattr(self.size, "standing", "")
        from fractions_shop.threads.lookup import exists, thread  # few sheets tap a hole

        return thread(self.name).standing if exists(self.name) else ""

    @property
    def stocked(self) -> Nearby[Drill] | None:
        """The drills of and about the size of a drill that was not named; None for other tools."""
        from fractions_shop.errors import ShopError
        from fractions_shop.tables.drills import drills

        if self.kind != "drill" or self.size is None:
            return None
        try:
            return drills(limits_of(self.size).nominal)
        except ShopError:
            return None

    @property
    def fits(self) -> Drill | None:
        """A drill that is made of this very size, or that lies within its limits; None where none does."""
        near = self.stocked
        if near is None or self.size is None:
            return None
        if isinstance(self.size, Limits):
            return near.nearest if near.nearest.size in self.size else None
        # Of 1/4 in and letter E, which are of one size, the fraction is in every drawer.
        fraction = near["fractional"].exact
        exact = near.nearest if near.nearest.size == self.size else None
        return fraction or exact

    @property
    def made_exactly(self) -> Drill | None:
        """The drill that is made of this very size, where it was given no name and no limits; None where none is."""
        return self.fits if not self.name and isinstance(self.size, Quantity) else None


def tools(parts: Iterable[CutPart]) -> tuple[Tool, ...]:
    """The tools for what is cut in these parts, drills first, then taps, countersinks and cutters, each by its size."""
    kept: dict[tuple[object, ...], Tool] = {}
    for part in parts:
        for lettered in part.cuts:
            for tool in _tools(lettered):
                key = tool_key(tool)
                known = kept.get(key, tool)
                where = (part.part.name, lettered.line)
                kept[key] = replace(
                    known,
                    many=known.many + len(lettered.cut.at) * part.part.count,
                    parts=known.parts if where in known.parts else (*known.parts, where),
                )
    return tuple(sorted(kept.values(), key=lambda tool: (_KINDS.index(tool.kind), _nominal(tool.size))))


_KINDS = ("drill", "tap", "countersink", "slot cutter")


def _tools(lettered: Lettered) -> Iterator[Tool]:
    cut, feature = lettered.cut, lettered.feature
    if not isinstance(cut, Hole):
        if cut.square:  # sawn out, chiselled or filed: no cutter of a width leaves square corners
            return
        yield Tool("slot cutter", cut.width, feature.called[1] if len(feature.called) > 1 else "")
        return
    yield Tool("drill", cut.diameter, feature.called[0] if feature.called else "")
    if feature.purpose == "tapping":
        yield Tool("tap", None, feature.thread)
    if cut.sunk is not None:
        yield Tool("countersink", cut.sunk, angle=cut.angle)


def tool_key(tool: Tool) -> tuple[object, ...]:
    """What makes two tools the same one, however many holes each makes."""
    return tool.kind, _key(tool.size), tool.name.casefold(), tool.angle


def _key(size: Size | None) -> object:
    return (size.nominal, size.plus, size.minus) if isinstance(size, Limits) else size


def _nominal(size: Size | None) -> Quantity:
    return Quantity(0, 1) if size is None else limits_of(size).nominal
