"""What one change of a sheet moved in the rest of it: sizes, checks that turned, parts, answers, lines undone."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from fractions_shop.sheet.changes import alike, same_feature, same_part, what_it_tells
from fractions_shop.sheet.cut_changes import same_stock
from fractions_shop.sheet.solve import Worked
from fractions_shop.sheet.worked_sheet import WorkedSheet
from fractions_shop.sheet.worked_stock import PartStock


@dataclass(frozen=True, slots=True)
class BeforeAfter:
    """One line before a change and after it."""

    old: Worked
    new: Worked


@dataclass(frozen=True, slots=True)
class MovedLines:
    """What a change moved beside the line that was entered, each in the order of the sheet.

    `sizes` are named sizes that differ, `checks` those that turned from holding to failing or
    back, `parts`, `features`, `stock` and `answers` (of no name) those that tell something else, `stopped` lines that are
    no longer worked out and `mended` those that are now.
    """

    sizes: tuple[BeforeAfter, ...] = ()
    checks: tuple[BeforeAfter, ...] = ()
    parts: tuple[BeforeAfter, ...] = ()
    features: tuple[BeforeAfter, ...] = ()
    stock: tuple[BeforeAfter, ...] = ()
    answers: tuple[BeforeAfter, ...] = ()
    stopped: tuple[BeforeAfter, ...] = ()
    mended: tuple[BeforeAfter, ...] = ()

    def __bool__(self) -> bool:
        return any(getattr(self, kind) for kind in self.__slots__)


def moved(
    before: WorkedSheet, after: WorkedSheet, where: Sequence[int | None], entered: int | None
) -> MovedLines:
    """What differs between two states of a sheet; `where` tells for each line before where it is after."""
    pairs_of: dict[str, list[BeforeAfter]] = {}
    for n, m in enumerate(where):
        if m is None or m == entered:
            continue
        pair = BeforeAfter(before.worked[n], after.worked[m])
        kind = _kind(pair)
        if kind:
            pairs_of.setdefault(kind, []).append(pair)
    return MovedLines(**{kind: tuple(pairs) for kind, pairs in pairs_of.items()})


def _kind(pair: BeforeAfter) -> str:
    old, new = pair.old, pair.new
    if old.undone or new.undone:
        return "" if old.undone == new.undone else "stopped" if new.undone else "mended"
    made = "answer", "part", "feature", "stock"
    if all(getattr(old, what) is getattr(new, what) for what in made):
        return ""  # it did not rest on the change, and was not worked out anew
    if old.check is not None and new.check is not None:
        return "" if old.check.holds == new.check.holds else "checks"
    if new.line.sets and new.value is not None:
        return "" if alike(old.value, new.value) else "sizes"
    if old.part is not None or new.part is not None:
        return "" if same_part(old.part, new.part) else "parts"
    if old.feature is not None or new.feature is not None:
        return "" if same_feature(old.feature, new.feature) else "features"
    if old.stock is not None or new.stock is not None:
        return "" if _same_cut(old.stock, new.stock) else "stock"
    if old.answer is None or new.answer is None or what_it_tells(old) == what_it_tells(new):
        return ""
    return "answers"


def _same_cut(old: PartStock | None, new: PartStock | None) -> bool:
    """Whether the same is cut from it, whichever lines the pieces stand on."""
    return old is new if old is None or new is None else same_stock(old, new)
