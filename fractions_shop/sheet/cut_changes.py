"""What is cut in the parts of one sheet and not so in another, and what parts are cut from."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from itertools import zip_longest
from typing import TypeVar

from fractions_shop.sheet.changes import alike, same_feature
from fractions_shop.sheet.solve import Worked
from fractions_shop.sheet.undone_lines import undone_lines
from fractions_shop.sheet.worked_features import Feature
from fractions_shop.sheet.worked_stock import PartStock, Sized

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class CutChange:
    """What one line cuts in a part, and what it cut before: `old` is None for a new one, `new` for one that is gone.

    Where one is missing, `old_undone` or `new_undone` is the line that may have been to cut it and was not worked out.
    """

    part: str
    old: Feature | None
    new: Feature | None
    old_undone: int
    new_undone: int


def cut_changes(old: Iterable[Worked], new: Iterable[Worked]) -> tuple[CutChange, ...]:
    """What differs, part by part in the order of the old sheet; of one kind it is taken together in its order."""
    old, new = tuple(old), tuple(new)
    before, after = undone_lines(old), undone_lines(new)
    missing: Counter[tuple[str, str, str]] = Counter()
    changes = []
    for (part, word), was, now in _what_differs(_by_part(old), _by_part(new), same_feature):
        lines = [
            0 if made is not None else undone.cut(word, part, _next(missing, side, word, part))
            for side, made, undone in (("old", was, before), ("new", now, after))
        ]
        changes.append(CutChange(part, was, now, *lines))
    return tuple(changes)


def _next(missing: Counter[tuple[str, str, str]], *key: str) -> int:
    """How many such were missing before this one, which is counted with them."""
    side, word, part = key
    missing[side, word, part] += 1
    return missing[side, word, part] - 1


def _what_differs(
    before: dict[tuple[str, str], list[T]],
    after: dict[tuple[str, str], list[T]],
    same: Callable[[T, T], bool],
) -> Iterator[tuple[tuple[str, str], T | None, T | None]]:
    """What stands under each key before and after, in pairs, but for what is the same there."""
    for key in dict.fromkeys((*before, *after)):
        gone, come = list(before.get(key, ())), list(after.get(key, ()))
        for each in tuple(gone):
            other = next((other for other in come if same(each, other)), None)
            if other is not None:
                gone.remove(each)
                come.remove(other)
        yield from ((key, was, now) for was, now in zip_longest(gone, come))


def _by_part(worked: Iterable[Worked]) -> dict[tuple[str, str], list[Feature]]:
    features: dict[tuple[str, str], list[Feature]] = {}
    for item in worked:
        if item.feature is not None:
            features.setdefault((item.feature.part, item.feature.word), []).append(item.feature)
    return features


@dataclass(frozen=True, slots=True)
class StockChange:
    """A stock and what is cut from it, as it was and is; missing and undone as of a CutChange."""

    old: PartStock | None
    new: PartStock | None
    old_undone: int
    new_undone: int


def stock_changes(old: Iterable[Worked], new: Iterable[Worked]) -> tuple[StockChange, ...]:
    """What differs of each stock, in the order of the old sheet; of one material and section it is taken in its order."""
    old, new = tuple(old), tuple(new)
    before, after = undone_lines(old), undone_lines(new)
    missing: Counter[tuple[str, str, str]] = Counter()
    changes = []
    for (material, _), was, now in _what_differs(_by_material(old), _by_material(new), same_stock):
        lines = [
            0 if made is not None else undone.stock(material, _next(missing, side, "stock", material))
            for side, made, undone in (("old", was, before), ("new", now, after))
        ]
        changes.append(StockChange(was, now, *lines))
    return tuple(changes)


def _by_material(worked: Iterable[Worked]) -> dict[tuple[str, str], list[PartStock]]:
    kept: dict[tuple[str, str], list[PartStock]] = {}
    for item in worked:
        if item.stock is not None:
            kept.setdefault((item.stock.material.casefold(), item.stock.section), []).append(item.stock)
    return kept


def same_stock(old: PartStock, new: PartStock) -> bool:
    """Whether two are the same in section, length, saw, note, and in every piece that is cut from them."""
    same = "material", "section", "bought", "note"
    if any(getattr(old, name) != getattr(new, name) for name in same):
        return False
    if [(each.name, each.count) for each in old.pieces] != [(each.name, each.count) for each in new.pieces]:
        return False
    sizes, others = _sizes(old), _sizes(new)
    return len(sizes) == len(others) and all(map(alike, sizes, others))


def _sizes(stock: PartStock) -> list[Sized | None]:
    pieces = [size for each in stock.pieces for size in (each.size, each.across)]
    return [*stock.sizes, *stock.measures, stock.saw, *pieces]
