"""One cell of a column as a length: what a number without a unit is in, and what a doubtful form counts as."""

from __future__ import annotations

from fractions_shop.errors import ArgumentError, InputError, ShopError
from fractions_shop.language.notes import Note, misprint
from fractions_shop.layout.bulk import Pair
from fractions_shop.size import units
from fractions_shop.size.limits import Limits
from fractions_shop.size.notation import as_meant
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.slips import unit_slipped
from fractions_shop.size.units import power_name


class CellReader:
    """Reads cells in which a number without a unit is in `unit`, or is a fault if that is None.

    A size with a second sensible meaning is a fault, or with `doubtful="note"` is read as the
    language reads it. ShopError for another word, or for a unit that is none of length.
    """

    def __init__(self, unit: str | None = None, doubtful: str = "fault") -> None:
        if doubtful not in ("fault", "note"):
            raise ShopError(f"doubtful is 'fault' or 'note', not {doubtful!r}")
        self.unit, self.doubtful = unit, doubtful
        #: Millimetres in one of a number without a unit, as two whole numbers.
        self.bare = None if unit is None else _bare_unit(unit)

    def read(self, cell: str) -> tuple[Quantity, tuple[Note, ...]]:
        """The length that a cell says, by the full reader, and the doubts; ShopError with the reason when it says none."""
        if not cell.strip():
            raise ShopError("there is no size here")
        if not cell.isascii() and any("\ud800" <= sign <= "\udfff" for sign in cell):
            raise ShopError("this is not UTF-8 text")
        from fractions_shop.sheet.read import (
            in_doubt,
            read_with_doubts,
        )  # a column of plain sizes needs no reader

        size, doubts = read_with_doubts(cell)
        if doubts and self.doubtful == "fault":
            raise in_doubt(cell, doubts)
        if isinstance(size, Limits):
            raise ShopError("this has limits, where one size is needed")
        if size.power != 0 or self.unit is None:
            return self.with_unit(size), doubts
        lost = misprint(as_meant(cell).strip(" +-"), abs(size.value), unit_slipped("", self.unit))
        if lost is not None:
            doubts = (*doubts, lost)
            if self.doubtful == "fault":
                raise in_doubt(cell, doubts)
        return self.with_unit(size), doubts

    def with_unit(self, size: Quantity) -> Quantity:
        """A length as it is, and a plain number in the unit; ShopError for an area and the like."""
        if size.power == 1:
            return size
        if size.power != 0:
            kind = power_name(size.power)
            article = "an" if kind[0] in "aeiou" else "a"
            raise ShopError(f"this is {article} {kind}, where a length is needed")
        if self.bare is None:
            raise ShopError("this has no unit; write it with one, or say what such numbers are in")
        bare = Quantity(size.value * self.bare[0] / self.bare[1], 1, size.approximate)
        return bare.resting_on(size.standing)


def reason(error: ShopError, cell: str) -> str:
    """Why a cell is no size, on one line."""
    sentence = error.sentence if isinstance(error, InputError) else str(error)
    if isinstance(error, InputError) and not any(sign.isnumeric() for sign in cell):
        # The reader of statements would say how to name it; here it is only a word.
        sentence = "this is not a size; write one such as 2 1/32 in"
    return " ".join(sentence.encode("utf-8", "replace").decode().split())


def _bare_unit(word: str) -> Pair:
    if not isinstance(word, str):
        raise ArgumentError(f"a unit is named by text such as 'mm', not by {type(word).__name__}")
    unit = units.find(word)
    if unit is None or unit.power != 1:
        raise ShopError(f"{word!r} is not a unit of length known here; write in, thou, ft, mm, cm or m")
    return unit.mm.numerator, unit.mm.denominator
