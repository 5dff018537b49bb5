"""Machine tapers and taper pins: the printed ends and the taper itself, and the diameter at any length.

The taper is taken from its printed inches per foot, never from the two ends, whose length is printed to
0.01 in. An inch pin is called by its large end and tapers 1/4 in per foot; a metric pin is called by its
small end and tapers 1 in 50.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cache
from typing import ClassVar

from fractions_shop.errors import ShopError
from fractions_shop.size import approx
from fractions_shop.size.arguments import SizeLike, above_zero, as_length, options_by_name
from fractions_shop.size.notation import as_meant, decimal
from fractions_shop.size.quantity import Angle, Quantity
from fractions_shop.size.told import Told
from fractions_shop.size.units import INCH
from fractions_shop.size.value import AnyPower
from fractions_shop.tables import born, rows
from fractions_shop.tables.taper_words import WrittenTaper, read_taper

METRIC_PIN = "metric pin"
_PIN_CAUTION = (
    "these figures do not say what a pin will bear: where it carries load, turns a shaft or guards a person, go by "
    "the standard in force and someone qualified"
)
#: A difference of ends that is smaller than this is rounding of the last printed place.
_ROUNDING = Fraction(1, 20_000) * INCH


@dataclass(frozen=True, repr=False)
class Taper(Told):
    """A machine taper or taper pin by its `name`.

    `rate` is what is gained on the diameter for each unit of length, a plain number. `large_end`, `small_end`
    and `length` are those of the table, or of a pin of the length asked for; None where they are not known.
    `at` is a distance at which the diameter was asked for.

    >>> taper("Morse 2").large_end.inch, taper("Morse 2").per_foot.inch
    (Fraction(7, 10), Fraction(59941, 100000))
    """

    told_as: ClassVar[str] = "taper"

    #: What stands in its JSON object beside its fields.
    data_properties: ClassVar[tuple[str, ...]] = (
        "per_foot", "included", "half", "computed_small_end", "from_large", "from_small", "size", "caution",
    )  # fmt: skip

    name: str
    kind: str
    number: str
    rate: AnyPower
    large_end: Quantity | None
    small_end: Quantity | None
    length: Quantity | None
    metric: bool
    source: str
    standing: str
    note: str = ""
    at: Quantity | None = None

    @property
    def pin(self) -> bool:
        """Whether it is a pin, and no shank or socket."""
        return self.kind in ("pin", METRIC_PIN)

    @property
    def size(self) -> Quantity:
        """The end by which it is called: the large one, of a metric pin the small one."""
        end = self.small_end if self.kind == METRIC_PIN else self.large_end
        assert end is not None
        return end

    @property
    def per_foot(self) -> Quantity:
        """What is gained on the diameter in a foot."""
        return Quantity(12 * INCH) * self.rate

    @property
    def included(self) -> Angle:
        """The whole angle: twice the arc tangent of half the rate."""
        return Angle(2 * approx.arc_tangent(self.rate.value / 2), True)

    @property
    def half(self) -> Angle:
        """The angle of one side to the axis, to which a top slide is set."""
        return Angle(approx.arc_tangent(self.rate.value / 2), True)

    @property
    def computed_small_end(self) -> Quantity | None:
        """The small end that the taper gives at the printed length, where both ends are printed."""
        if self.large_end is None or self.small_end is None or self.length is None:
            return None
        return self.large_end - self.length * self.rate

    @property
    def ends_differ(self) -> bool:
        """Whether the printed small end is not the one that the taper gives at the printed length."""
        computed = self.computed_small_end
        return computed is not None and abs(computed.mm - self.small_end.mm) > _ROUNDING  # type: ignore[union-attr]

    def diameter(self, at: SizeLike, *, from_small: bool = False) -> Quantity:
        """The diameter at a distance from the large end, or from the small one; ShopError where there is none.

        >>> taper("Jarno 10").diameter("1 in").inch
        Fraction(6, 5)
        """
        distance = as_length(at)
        end = self.small_end if from_small else self.large_end
        if end is None:
            raise ShopError(
                f"the {'small' if from_small else 'large'} end of {self.name} is not known without a length"
            )
        across = end + distance * self.rate if from_small else end - distance * self.rate
        return above_zero(across, f"the diameter of {self.name} at that distance")

    @property
    def from_large(self) -> Quantity | None:
        """The diameter at the distance asked for from the large end."""
        return None if self.at is None or self.large_end is None else self.diameter(self.at)

    @property
    def from_small(self) -> Quantity | None:
        """The diameter at the distance asked for from the small end."""
        return None if self.at is None or self.small_end is None else self.diameter(self.at, from_small=True)

    @property
    def caution(self) -> str:
        """What the figures of a pin do not say; empty for a shank."""
        return _PIN_CAUTION if self.pin else ""


@options_by_name("taper('Morse 2')")
def taper(name: str, *, length: SizeLike | None = None, at: SizeLike | None = None) -> Taper:
    """A taper by name: `taper("Morse 2")`, `taper("MT2")`, `taper("B&S 7")`, `taper("pin No 4", length="1 1/2 in")`.

    `length` is a pin's, and gives its other end; `at` a distance at which the diameter is wanted. ShopError
    for what is no taper, for a number that its kind has not, and for a pin called by a number alone.

    >>> taper("pin No 4", length="1 1/2 in").small_end.inch
    Fraction(7, 32)
    """
    written = read_taper(as_meant(name))
    if written is None:
        raise ShopError(
            f"{name!r} is no taper known here: write Morse 2, Jacobs 33, B&S 7, Jarno 10 or pin No 4"
        )
    result = _named(written)
    if length is not None:
        result = of_length(result, as_length(length))
    return result if at is None else replace(result, at=above_zero(at, "a distance along a taper"))


def of_length(result: Taper, length: Quantity) -> Taper:
    """A pin of that length, with its other end; ShopError for a taper that is no pin."""
    if not result.pin:
        raise ShopError(
            f"{result.name} has its own length; ask for the diameter at a distance: taper {result.name} at 1 in"
        )
    length = above_zero(length, "a pin's length")
    if result.kind == METRIC_PIN:
        assert result.small_end is not None
        return replace(result, length=length, large_end=result.small_end + length * result.rate)
    assert result.large_end is not None
    small = result.large_end - length * result.rate
    if small.value <= 0:
        raise ShopError(f"{result.name} tapers to nothing before it is so long")
    return replace(result, length=length, small_end=small)


@cache
def tapers() -> dict[tuple[str, str], Taper]:
    """Every taper by its kind and number."""
    return {(row["kind"], row["number"]): _made(row) for row in rows("tapers")}


def _made(row: dict[str, str]) -> Taper:
    def end(column: str) -> Quantity | None:
        return born(row, Fraction(row[column]), row["unit"]) if row[column] else None

    rate = Fraction(row["in_per_foot"]) / 12 if row["in_per_foot"] else Fraction(1, 50)
    return Taper(
        _called(row["kind"], row["number"]), row["kind"], row["number"], Quantity(rate, 0, standing=row["standing"]),
        end("large_end"), end("small_end"), end("length"), row["unit"] == "mm", row["source"], row["standing"], row["note"],
    )  # fmt: skip


def _called(kind: str, number: str) -> str:
    if kind == METRIC_PIN:
        return f"taper pin {number} mm"
    return f"taper pin No {number}" if kind == "pin" else f"{kind} {number}"


def _named(written: WrittenTaper) -> Taper:
    kind = written.kind
    if kind == "pin":
        either = ("pin", written.number), (METRIC_PIN, written.number)
        both = [tapers()[key] for key in either if key in tapers()]
        if not written.numbered and not written.millimetres and len(both) > 1:
            raise AmbiguousPin(written.number, *both)
        metric = written.millimetres or (not written.numbered and either[0] not in tapers())
        kind = METRIC_PIN if metric else "pin"
    known = tapers().get((kind, written.number))
    if known is None:
        numbers = [number for of, number in tapers() if of == kind]
        raise ShopError(
            f"there is no {_called(kind, written.number)} in the tables: there are {', '.join(numbers)}"
        )
    return known


class AmbiguousPin(ShopError):
    """A pin called by a number alone, which may be an inch pin's number or a metric pin's millimetres."""

    def __init__(self, number: str, inch: Taper, metric: Taper) -> None:
        super().__init__(
            f"taper pin {number} may be {inch.name}, {decimal(inch.size.inch)[0]} in at the large end, or {metric.name}, by "
            "its small end"
        )
        self.names = (inch.name, metric.name)
