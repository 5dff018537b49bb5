"""`read_column`: many written sizes at once, such as a column of a table, for programs that work with arrays."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from fractions import Fraction
from numbers import Real
from typing import TYPE_CHECKING, Any, overload

from fractions_shop.errors import ArgumentError, FloatRefused, ShopError
from fractions_shop.language.notes import Note
from fractions_shop.layout.bulk import plain_pair
from fractions_shop.sheet.column_cells import CellReader, reason
from fractions_shop.size.arguments import as_length, as_quantity
from fractions_shop.size.frozen import Result
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.told import Told

if TYPE_CHECKING:
    from numpy import float64, object_
    from numpy.typing import NDArray


class ColumnSizes(Told, Result):
    """The sizes of a column in its order, None where there is none; a sequence of them.

    `faults` says by position why there is none, `doubts` what else a size may mean or rests on.

    >>> read_column(["2 1/32 in", "oak", "51.5 mm"])
    <ColumnSizes: 2 of 3 are sizes; the first at fault is at 1: this is not a size; write one such as 2 1/32 in>
    """

    told_as = "column"

    sizes: tuple[Quantity | None, ...]
    faults: dict[int, str]
    doubts: dict[int, str]

    def exact(self, unit: str = "mm") -> NDArray[object_]:
        """How many of `unit` each size is, as a numpy array of Fractions; None where there is no size.

        A `unit` may be a rule, `64ths`. ShopError if it is none, or numpy is not installed.
        """
        values: NDArray[object_] = _numpy().empty(len(self.sizes), dtype=object)
        values[:] = self._counted(unit)
        return values

    def floats(self, unit: str = "mm") -> NDArray[float64]:
        """How many of `unit` each size is, as a numpy array of floats; not-a-number where there is no size.

        Each float is the one nearest to the exact figure. ShopError as from `exact`.
        """
        values = [float("nan") if many is None else float(many) for many in self._counted(unit)]
        array: NDArray[float64] = _numpy().array(values, dtype=float)
        return array

    def _counted(self, unit: str) -> list[Fraction | None]:
        """How many of `unit` each size is."""
        each = Quantity(Fraction(1)).to(unit)
        return [None if size is None else size.value * each for size in self.sizes]

    def __len__(self) -> int:
        return len(self.sizes)

    def __iter__(self) -> Iterator[Quantity | None]:
        return iter(self.sizes)

    @overload
    def __getitem__(self, place: int) -> Quantity | None: ...
    @overload
    def __getitem__(self, place: slice) -> tuple[Quantity | None, ...]: ...
    def __getitem__(self, place: int | slice) -> Quantity | tuple[Quantity | None, ...] | None:
        return self.sizes[place]


#: What pandas has where nothing is.
_MISSING = ("NAType", "NaTType")


def read_column(
    cells: Iterable[object],
    *,
    unit: str | None = None,
    doubtful: str = "fault",
    within: str | Quantity | None = None,
) -> ColumnSizes:
    """The sizes of a column of cells: written sizes, Quantities, whole numbers and Fractions.

    A number without a unit is in `unit`, or is at fault if that is None. A form with a second
    sensible meaning is at fault, or with `doubtful="note"` is read as the language reads it, and
    is in `doubts`. A size with limits is at fault, for it is no one size. A float is at fault unless `within` says how far to trust it, since it is no
    exact size. An empty cell and not-a-number are at fault; nothing in a cell raises.
    ShopError for a `unit` that is none of length, another word for `doubtful`, or a `within` that is no length.

    >>> found = read_column(["2 1/32 in", "10.31875 mm", 13, ""], unit="mm")
    >>> [None if size is None else str(size) for size in found.sizes], found.faults
    (['2 1/32 in', '13/32 in', '13 mm', None], {3: 'there is no size here'})
    """
    if isinstance(cells, str):
        raise ArgumentError("a column is many cells: give a list of them, or read() one")
    if isinstance(cells, Mapping) or hasattr(cells, "columns"):
        # Gone through, they give their headings.
        raise ArgumentError(
            f"a {type(cells).__name__} is several columns: give one of them, such as frame['size']"
        )
    if not isinstance(cells, Iterable):
        raise ArgumentError(f"a column is many cells: give a list of them, not {type(cells).__name__}")
    reader = CellReader(unit, doubtful)
    if within is not None:
        as_length(within)
    sizes: list[Quantity | None] = []
    faults: dict[int, str] = {}
    doubts: dict[int, str] = {}
    for place, cell in enumerate(cells):
        size = None
        try:
            size, doubted = _size_of(cell, reader, within)
            if doubted:
                doubts[place] = "; ".join(note.text for note in doubted)
        except ShopError as error:
            faults[place] = reason(error, str(cell))
        sizes.append(size)
    return ColumnSizes(tuple(sizes), faults, doubts)


def _size_of(
    cell: object, reader: CellReader, within: str | Quantity | None
) -> tuple[Quantity, tuple[Note, ...]]:
    if isinstance(cell, str):
        pair = plain_pair(cell, reader.bare)
        return (Quantity(Fraction(*pair)), ()) if pair is not None else reader.read(cell)
    if cell is None or type(cell).__name__ in _MISSING or (isinstance(cell, Real) and cell != cell):
        raise ShopError("there is no size here")
    if isinstance(cell, Real) and not hasattr(cell, "denominator"):  # a float, numpy's too
        if within is None:
            raise FloatRefused(
                f"a float ({cell!r}) is not an exact size; write it as text, or say how far to trust it with within"
            )
        if reader.unit is None:
            raise ShopError("this has no unit; say what such numbers are in")
        return Quantity.measured(cell, reader.unit, within), ()
    return reader.with_unit(as_quantity(cell)), ()


def _numpy() -> Any:
    """Numpy, which only an array needs; ShopError when it is not installed."""
    try:
        import numpy
    except ImportError:
        raise ShopError(
            "arrays need numpy, which is not installed: pip install 'fractions-shop[arrays]'"
        ) from None
    return numpy
