"""What an edit of a sheet moved, in words: `n: 29 7/13 to 27 3/7; the check on line 8 fails now`."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from fractions_shop.figures.size_words import figures_of, short_cell
from fractions_shop.figures.table import Cell, Same, in_prose
from fractions_shop.figures.wording import so_many
from fractions_shop.requests import READS
from fractions_shop.sheet.moved import BeforeAfter, MovedLines
from fractions_shop.sheet.part_lines import Part
from fractions_shop.sheet.solve import Worked
from fractions_shop.sheet.states import Edit
from fractions_shop.show.feature_table import cut_words, places_words
from fractions_shop.show.part_table import part_sizes
from fractions_shop.show.stock_table import stock_in_short
from fractions_shop.size.limits import Limits
from fractions_shop.size.notation import AS_USUAL, UnitsShown, told_in
from fractions_shop.size.value import Value

#: So many lines of each kind are told; the rest are counted.
_MOST = 5


def moved_text(edit: Edit, *, would: bool = False) -> str:
    """What an edit moved in the rest of the sheet, empty if nothing; `would` tells of one that is only typed."""
    moved = edit.moved
    doubtful = frozenset() if would or not moved.sizes else edit.after.sheet.doubts.doubtful
    kinds = [_sizes(moved, would, doubtful), _turns(moved, would), *([] if would else [_others(moved)])]
    said = [item for kind in kinds for item in _first(list(kind))]
    text = "; ".join(said)
    return f"would move {text}" if would and moved.sizes else text


def _first(items: list[str]) -> list[str]:
    more = [f"and {len(items) - _MOST} more"] if len(items) > _MOST else []
    return [*items[:_MOST], *more]


def was_text(edit: Edit) -> str:
    """What the line that gave way said, where the new one says something else; empty otherwise."""
    old, new = edit.replaced, edit.worked
    if edit.kind not in ("replaced", "moved") or old is None or new is None:
        return ""
    if new.part is not None or new.feature is not None or new.stock is not None:
        return f"in place of {old.line.statement}"
    name = new.line.sets
    if old.value is None or new.value is None:
        return f"in place of {old.line.statement}"
    was, now = short_text(old.value, new.units), short_text(new.value, new.units)
    said = f"{name} was {was} until now" if was != now else f"{name} is as it was"
    if old.line.request == READS != new.line.request:
        return f"{said}; what was read of it is no longer in the sheet: undo brings it back"
    return said


def place_text(edit: Edit) -> str:
    """That the line stands elsewhere than where it was set before, or that others were given names."""
    said = []
    if edit.kind == "moved" and edit.line is not None and edit.replaced is not None:
        line, old = edit.after.lines[edit.line], edit.replaced
        said.append(
            f"it stands on line {line.number}, at the end, because the rule on line {old.line.number} was {old.rule}"
        )
    for name in edit.called:
        number = edit.after.lines[edit.after.homes[name]].number
        said.append(f"line {number} is called {name} from now on, so that ans goes on meaning it")
    return "; ".join(said)


def part_text(part: Part) -> str:
    """A part as it was read: `24 of brass: 1/16 in x 1/4 in x 11 in (1.588 x 6.35 x 279.4 mm)`."""
    sizes = part_sizes(part)
    made = f"{so_many(part.count, 'piece')}{f' of {part.material}' if part.material else ''}"
    return f"{made}: {sizes}" if sizes else made


def short_text(value: Value, units: UnitsShown = AS_USUAL) -> str:
    """A value by its first exact figure in `units`, those of the place where it stands, else by its first; limits whole."""
    with told_in(units):
        return _short_text(value)


def _short_text(value: Value) -> str:
    if isinstance(value, Limits):
        return in_prose(short_cell(value))
    figures = figures_of(value)
    shown = next((figure for figure in figures if figure.exact), figures[0])
    return in_prose(Cell("size", (Same((shown,)),)))


def _sizes(moved: MovedLines, would: bool, doubtful: frozenset[int]) -> Iterator[str]:
    """`doubtful` are the numbers of the lines whose size may be another."""
    for pair in moved.sizes:
        new, line = pair.new.value, pair.new.line
        if new is None:
            continue
        now = short_text(new, pair.new.units)
        doubt = ", which may be another size" if line.number in doubtful else ""
        yield f"{line.sets} to {now}" if would else f"{line.sets}: {_before(pair)}{now}{doubt}"


def _others(moved: MovedLines) -> Iterator[str]:
    for pair in moved.parts:
        if pair.old.part is not None and pair.new.part is not None:
            with told_in(pair.new.units):
                was, now = _part(pair.old), _part(pair.new)
            yield f"part {pair.new.part.name}: {was} to {now}"
    for pair in moved.features:
        with told_in(pair.new.units):
            said = _feature(pair)
        yield said
    for pair in moved.stock:
        if pair.old.stock is not None and pair.new.stock is not None:
            with told_in(pair.new.units):
                was, now = stock_in_short(pair.old.stock), stock_in_short(pair.new.stock)
            number = pair.new.line.number
            moves = _instead(was, now) if was != now else f"{now}, cut otherwise; show {number} tells how"
            yield f"stock on line {number}: {moves}"
    for pair in moved.answers:
        yield _answer(pair)


def _feature(pair: BeforeAfter) -> str:
    """Where a hole or slot goes, or else what it is now."""
    old, new, line = pair.old.feature, pair.new.feature, pair.new.line
    assert old is not None
    assert new is not None
    called = f"{line.called} (line {line.number})"
    if old.cut is not None and new.cut is not None and replace(old.cut, at=()) == replace(new.cut, at=()):
        return f"{called}: {places_words(old.cut.at)} to {places_words(new.cut.at)}"
    return f"{called}: {_instead(cut_words(old), cut_words(new))}"


def _instead(was: str, now: str) -> str:
    """What is told now of what was told in a sentence before."""
    return f"{now} (it was: {was})"


def _before(pair: BeforeAfter) -> str:
    old = pair.old.value
    return f"{short_text(old, pair.new.units)} to " if old is not None else ""


def _answer(pair: BeforeAfter) -> str:
    old, new, units = pair.old.value, pair.new.value, pair.new.units
    number = pair.new.line.number
    if old is not None and new is None and pair.new.line.sets:
        return f"{pair.new.line.sets} (line {number}) has no size now (it was: {short_text(old, units)}); show {number} tells why"
    if old is not None and new is not None and short_text(old, units) != short_text(new, units):
        return f"line {number}: {short_text(old, units)} to {short_text(new, units)}"
    return f"line {number} answers otherwise; show {number} tells how"


def _turns(moved: MovedLines, would: bool) -> Iterator[str]:
    for pair in moved.checks:
        holds = pair.new.check is not None and pair.new.check.holds
        verb = ("would hold" if holds else "would fail") if would else ("holds now" if holds else "fails now")
        yield f"the check on line {pair.new.line.number} {verb}"
    for pair in moved.stopped:
        verb = "could not be worked out" if would else "cannot be worked out now"
        fault = pair.new.fault
        yield f"{_called(pair.new)} {verb}{f': {fault.message}' if fault is not None and not would else ''}"
    for pair in moved.mended:
        verb = "would be" if would else "is"
        now = pair.new.value
        size = f"{verb} {short_text(now, pair.new.units)}" if now is not None else f"{verb} worked out"
        yield f"{_called(pair.new)} {size}{'' if would else ' now'}"


def _called(worked: Worked) -> str:
    line = worked.line
    name = f"part {line.part_name}" if line.part_name else line.called
    return f"{name} (line {line.number})" if name else f"line {line.number}"


def _part(worked: Worked) -> str:
    assert worked.part is not None
    sizes = part_sizes(worked.part)
    return f"{worked.part.count} of {sizes}" if sizes else str(worked.part.count)
