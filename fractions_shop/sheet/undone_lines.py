"""What the lines of a sheet that were not worked out would have named, made, cut or laid in stock.

A comparison tells so what is at fault from what is not there.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from fractions_shop.sheet.solve import Worked
from fractions_shop.sheet.stock_lines import material_of

#: What a line is known by: its kind, then the name that it sets, its part, its word and part, or its material.
Key = tuple[str, ...]


@dataclass(frozen=True, slots=True)
class UndoneLines:
    """The numbers of the lines at fault, or that wait for one, by what they would have given."""

    numbers: Mapping[Key, tuple[int, ...]] = field(default_factory=dict)

    def size(self, name: str, nth: int = 0) -> int:
        """The line that should set a name; zero where none does."""
        return self._of(("size", name), nth)

    def part(self, name: str, nth: int = 0) -> int:
        """The line that should make a part."""
        return self._of(("part", name.casefold()), nth)

    def cut(self, word: str, part: str, nth: int = 0) -> int:
        """The `nth` line that should cut such in a part."""
        return self._of(("feature", word, part.casefold()), nth)

    def stock(self, material: str, nth: int = 0) -> int:
        """The `nth` line of stock of a material."""
        return self._of(("stock", material.casefold()), nth)

    def _of(self, key: Key, nth: int) -> int:
        lines = self.numbers.get(key, ())
        return lines[nth] if nth < len(lines) else 0


def undone_lines(worked: Iterable[Worked]) -> UndoneLines:
    """What the lines that were not worked out would have given."""
    numbers: dict[Key, tuple[int, ...]] = {}
    for item in worked:
        if item.undone and (key := _key(item)):
            numbers[key] = (*numbers.get(key, ()), item.line.number)
    return UndoneLines(numbers)


def _key(item: Worked) -> Key:
    line = item.line
    if line.sets:
        return "size", line.sets
    match line.kind:
        case "part":
            return "part", line.part_name.casefold()
        case "feature":
            return "feature", line.feature_word, line.cut_in.casefold()
        case "stock":
            material = material_of(line.text) if line.stock is None else line.stock.material
            return "stock", material.casefold()
    return ()
