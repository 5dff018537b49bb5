"""units: which figure of a size leads in what is told from here on."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from fractions_shop.figures.plain import Lines
from fractions_shop.figures.wording import both
from fractions_shop.requests.inputs import Inputs
from fractions_shop.requests.rooms import Room
from fractions_shop.size.notation import FEET_FROM, UnitsShown, told_in
from fractions_shop.size.quantity import Quantity


@dataclass(frozen=True)
class UnitsResult:
    """Which figure of a size leads: `lead` is inch or mm; `feet` whether from 2 ft up these lead the inches."""

    lead: Literal["inch", "mm"]
    feet: bool

    @property
    def units(self) -> UnitsShown:
        """The same, as those take it who write."""
        return UnitsShown(self.lead, self.feet)


def _answer(given: Inputs) -> tuple[UnitsResult, None]:
    unit, *how = given.word(0).lower().split()
    return UnitsResult("mm" if unit.startswith("m") else "inch", "without" not in how), None


def _lines(result: UnitsResult) -> Lines:
    """Which figure leads, and two sizes told so."""
    first = "millimetres" if result.lead == "mm" else "inches"
    feet = ", feet and inches from 2 ft up" if result.feet else ", without feet"
    with told_in(result.units):
        such = f"{both(Quantity.inches(1) / 2)}, {both(Quantity.inches(FEET_FROM) * 2)}"
    return [f"{first} stand first now{feet}: {such}"]


ROOM = Room(
    word="units",
    forms=("units inch first", "units mm first", "units inch without feet"),
    example="units mm first",
    answer=_answer,
    lines=_lines,
    reads_rule=False,
    further=(
        (r"\bwithout\b", "units inch without feet"),
        (r"\b(?:mm|milli|metric)", "units mm first"),
        (r"\b(?:in\b|inch|ft\b|feet|foot|imperial)|\"", "units inch first"),
    ),
)
