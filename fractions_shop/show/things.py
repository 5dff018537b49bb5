"""What no request of its own asks for, in words: holes and slots, walls, bars, rules, readings, written sizes.

A sheet's own sentences serve where a sheet tells of the same thing.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import islice
from typing import Any

from fractions_shop.figures.plain import Lines
from fractions_shop.figures.size_words import size_line
from fractions_shop.figures.table import Cell, Table, without_empty
from fractions_shop.figures.wording import as_it_ends, both, both_cell, so_many
from fractions_shop.language.written import FoundSizes, Item, Written
from fractions_shop.layout.features import Cut, Face
from fractions_shop.layout.walls import Wall, Walls
from fractions_shop.meant.readings import Reading
from fractions_shop.meant.relations import Relation
from fractions_shop.requests.meant_words import (
    as_read_of,
    in_own_unit,
    known_scale_lines,
    trusted_to,
)
from fractions_shop.requests.rooms import Room
from fractions_shop.requests.thread import clearance_lines, tapping_lines
from fractions_shop.sheet.read_column import ColumnSizes
from fractions_shop.sheet.worked_features import Feature
from fractions_shop.show.feature_table import feature_words, places_of, sized
from fractions_shop.show.item_words import flat, item_words
from fractions_shop.show.stock_table import cutting_lines
from fractions_shop.size.rule import Rule
from fractions_shop.tables.blocks import Block, BlockSet

#: So many cells of a column are told one by one.
_CELLS = 50


# Cut in a face


def _cut(made: Cut) -> Lines:
    feature = Feature(made.told_as, "", made, called=("", ""))
    return [feature_words(feature, with_places=False), places_of(made)]


def _face(made: Face) -> Lines:
    if made.from_centre:
        shape = f"the end of {made.shape} stock, {sized(made.across)} {'across flats' if made.shape == 'hex' else 'wide'}"
    else:
        shape = f"a face of {sized(made.across)} by {sized(made.up)}"
    more = [
        f"{word} {sized(size)}"
        for word, size in (("bore", made.bore), ("corner radius", made.corner), ("thickness", made.thick))
        if size is not None
    ]
    return [", ".join([shape, *more]), f"places are counted from {made.datum}"]


def _wall(made: Wall) -> Lines:
    which, to = _numbered(made.cut, made.place), _other(made)
    if made.left.value < 0:
        return [f"{which} runs {both(-made.left, 4)} into {to}"]
    return [f"{both(made.left, 4)} between {which} and {to}"]


def _other(made: Wall) -> str:
    return f"the {made.edge}" if made.other is None else _numbered(*made.other)


def _numbered(cut: int, place: int) -> str:
    """One place of one cut, both counted from 1 for people."""
    return f"cut {cut + 1} place {place + 1}"


def _walls(made: Walls) -> Lines:
    if len(made) < 2:
        return _wall(made[0]) if made else ["no wall is so thin"]
    rows = tuple((_numbered(wall.cut, wall.place), _other(wall), both_cell(wall.left, 4)) for wall in made)
    least = min(wall.left for wall in made)
    return [
        f"{so_many(len(made), 'wall')}, the thinnest {both(least, 4)}",
        Table(rows, ("cut", "to", "left")),
    ]


# What is worked with


def _rule(made: Rule) -> Lines:
    return [f"{made.name}: divisions of {as_it_ends(made.division)}"]


def _relation(made: Relation) -> Lines:
    return [str(made)]


def _reading(made: Reading) -> Lines:
    by = f" by {made.by}" if made.by else ""
    said = [f"{as_read_of(made.written, made.size)}{by}, within {trusted_to(made.within)}"]
    if made.figures:
        said.append(f"their mean is {in_own_unit(made.size)}")
    said.append(f"made within {trusted_to(made.made)} of what was meant")
    for lost, word in ((made.worn, "worn"), (made.plated, "plated")):
        if lost.value:
            said.append(f"{word} by up to {trusted_to(lost)}")
    return [*said]


def _blocks(made: BlockSet) -> Lines:
    series: dict[int, list[Block]] = {}
    for block in made:
        series.setdefault(block.series, []).append(block)
    rows = tuple(
        (str(number), str(len(own)), _block_size(own[0]), _block_size(own[-1]))
        for number, own in series.items()
    )
    ends = [_block_size(made[at]) for at in (0, -1)]
    return [
        f"{len(made)} gauge blocks, from {ends[0]} to {ends[1]}, each once",
        Table(rows, ("series", "how many", "from", "to")),
        f"source: {made.source}",
    ]


def _block_size(block: Block) -> str:
    """The size of a block; the source line says how far to trust it."""
    return as_it_ends(block.size.unmarked)


# What is written


def _item(made: Item) -> Lines:
    said = f"{made.kind} {item_words(made)}; written {flat(made)} on line {made.line}"
    return [said, *(f"note: {note.text}" for note in made.notes)]


def _items(items: Sequence[Item]) -> Lines:
    rows: list[tuple[Cell | str, ...]] = [
        (str(each.line), flat(each), each.kind, item_words(each), "; ".join(note.text for note in each.doubts))
        for each in items
    ]  # fmt: skip
    return (
        [without_empty(Table(tuple(rows), ("line", "written", "kind", "which is", "doubt")))] if rows else []
    )


def _found(made: FoundSizes) -> Lines:
    return [so_many(len(made), "size") if made else "there are no sizes", *_items(made)]


def _written(made: Written) -> Lines:
    said = [f"one size, {item_words(made.one)}" if made.one else so_many(len(made), "thing")]
    return [*said, *_items(made.items), *_left(made)]


def _left(made: Written) -> list[str]:
    return [
        f"{word}: {', '.join(each.text for each in some)}"
        for word, some in (("left out", made.left), ("not read", made.unread))
        if some
    ]


def _each(items: Sequence[Item]) -> list[str]:
    """Each thing in turn; what it is beside it, where that is no size, and that it is in doubt."""
    return [
        f"{item_words(each)}{' (count)' if each.kind == 'count' else ''}{' (in doubt)' if each.doubts else ''}"
        for each in items
    ]


def _column(made: ColumnSizes) -> Lines:
    many = len(made)
    good = sum(size is not None for size in made.sizes)
    said = f"{good:,} of {many:,} are sizes"
    rows: tuple[tuple[Cell | str, ...], ...] = tuple(
        (
            str(place),
            "" if size is None else size_line(size),
            made.faults.get(place) or made.doubts.get(place, ""),
        )
        for place, size in enumerate(islice(made.sizes, _CELLS))
    )
    table = without_empty(Table(rows, ("place", "size", "fault or doubt")))
    more = [f"and {so_many(many - _CELLS, 'cell')} more"] if many > _CELLS else []
    return [said, *([table] if rows else []), *more]


def _column_gist(made: ColumnSizes, lines: list[str]) -> list[str]:
    first = next(iter(made.faults.items()), None)
    said = [lines[0], *([f"{len(made.doubts):,} in doubt"] if made.doubts else [])]
    return [*said, *([f"the first at fault is at {first[0]}: {first[1]}"] if first else [])]


def _first(made: object, lines: list[str]) -> list[str]:
    return lines[:1]


def _thing(
    word: str, lines: Callable[[Any], Lines], gist: Callable[[Any, list[str]], list[str]] | None = None
) -> Room:
    return Room(word=word, forms=(), example="", lines=lines, gist=gist)


#: What tells each thing, by its word.
THINGS = {
    room.word: room
    for room in (
        _thing("hole", _cut, _first),
        _thing("slot", _cut, _first),
        _thing("notch", _cut, _first),
        _thing("face", _face),
        _thing("wall", _wall),
        _thing("walls", _walls, _first),
        _thing("bars", cutting_lines, _first),
        _thing("steel rule", _rule),
        _thing("relation", _relation),
        _thing("reading", _reading),
        _thing("scale", known_scale_lines),
        _thing("blocks", _blocks, _first),
        _thing("tapping", tapping_lines, _first),
        _thing("clearance", clearance_lines, _first),
        _thing("item", _item),
        _thing("sizes", _found, lambda made, lines: _each(made)),
        _thing("written", _written, lambda made, lines: [*_each(made.items), *_left(made)]),
        _thing("column", _column, _column_gist),
    )
}
