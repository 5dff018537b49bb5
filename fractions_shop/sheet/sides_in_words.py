"""Sides as makers say them, `1/8 in dia x 1 in lg`: their sizes, the shape of the section, and the words beside them."""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction
from typing import NamedTuple

from fractions_shop.errors import ShopError
from fractions_shop.sheet.part_losses import note_behind
from fractions_shop.sheet.side_words import GAUGES, NUMBER, SERIES, SHAPES, THREAD, UNIT, known_word
from fractions_shop.size import units
from fractions_shop.size.notation import GLYPHS, number_value

#: What ends the name of a gauge or a thread, as a unit ends a size.
_BOUGHT = frozenset(word.lower() for word in (*GAUGES, *SERIES, "drill"))
_THREAD = re.compile(THREAD, re.IGNORECASE)
#: A pitch behind an x is that of a thread, and a bare number beside these may be that of a screw.
_NOT_SIDES = re.compile(
    r"\bM[0-9]+(?:\.[0-9])? ?[x×] ?[0-9]*\.[0-9]|\btpi\b|\bthreads\b|screws?\b|\bnails?\b|\btacks?\b",
    re.IGNORECASE,
)
_JOINT = re.compile(
    r"\s+(?:by|[x×])\s+|(?<=[0-9\"'″′)])\s*[x×]\s*(?=[0-9.Øø⌀])|(?<=mm|in|cm)[x×](?=[0-9.])|(?<![0-9]),\s*|,(?![0-9])\s*",
    re.IGNORECASE,
)
_FIRST_WORD = re.compile(r"(?P<word>[A-Za-z][A-Za-z./]*|[Øø⌀])\s*(?=[A-Za-z0-9.Øø⌀])")
_LAST_WORD = re.compile(r"(?:(?<=[\s\"'″′0-9])|^)[(]?(?P<word>[A-Za-z][A-Za-z./'-]*)[).,]*$")
_WORD_AND_UNIT = re.compile(rf"^({NUMBER})\s+([A-Za-z]+)\s+({UNIT})$", re.IGNORECASE)
_HAS_UNIT = re.compile(rf"[0-9{GLYPHS}]\s*(?P<unit>{UNIT}\b|[\"'″′])", re.IGNORECASE)
#: Signs of a unit stand without a blank.
_BLANK = dict.fromkeys("\"'″′", "")
_OPERATOR = re.compile(r"[-+*/(]\s*$")
_NAME = re.compile(r"[A-Za-z_]\w*")


class Side(NamedTuple):
    """One side: its size as it is to be written, what is said of it, and the words behind that say nothing of it."""

    size: str
    said: frozenset[str]
    behind: str


class Sides(NamedTuple):
    """Sides in the order in which a line says them, the shape of their section, and the words behind that are no size."""

    sizes: tuple[str, ...]
    section: str
    behind: str

    @property
    def joined(self) -> str:
        """As a line of a sheet writes them: `round 1/8 in by 1 in`."""
        first, *rest = self.sizes
        shape = f"{self.section} " if self.section else ""
        by = " by bore " if self.section == "tube" else " by "
        return f"{shape}{first}" + "".join(f"{by if not n else ' by '}{size}" for n, size in enumerate(rest))


def sides_in(text: str) -> Iterator[Sides]:
    """The sides that a text may say: one way, two where numbers without a unit may be inches or millimetres, or none.

    >>> [sides.joined for sides in sides_in('1/8 in dia x 1 in lg')], [s.joined for s in sides_in('30 x 20')]
    (['round 1/8 in by 1 in'], ['30 in by 20 in', '30 mm by 20 mm'])
    """
    end, note = note_behind(text)
    said, behind = split_sides(text[:end])
    behind = ", ".join(filter(None, (behind, note)))
    if not said or len(said) > 3:
        return
    ordered = _ordered(said)
    if ordered is None:
        return
    section, sizes = ordered
    for each in with_units(sizes):
        yield Sides(each, section, behind)


def split_sides(text: str) -> tuple[list[Side], str]:
    """Each side of a text, and the words behind the last that are none; no sides where a piece cannot be one."""
    sides: list[Side] = []
    behind: list[str] = []
    for piece in filter(str.strip, _JOINT.split(text)):
        if not re.search(rf"[0-9{GLYPHS}]", piece) and (behind or not _NAME.fullmatch(piece.strip())):
            if not sides:
                return [], ""
            behind.append(piece.strip())
            continue
        if behind:
            return [], ""  # a size behind a note is another thing
        side = side_of(piece)
        if side is None:
            return [], ""
        sides.append(side)
        behind += [side.behind] if side.behind else []
    bare = any(re.fullmatch(NUMBER, side.size) for side in sides)
    return ([], "") if bare and _NOT_SIDES.search(text) else (sides, ", ".join(behind).strip(" ."))


def side_of(piece: str) -> Side | None:
    """One side with the words about it; None where no size is left.

    >>> side = side_of('1 in lg brass rod')
    >>> side.size, sorted(side.said), side.behind
    ('1 in', ['long', 'round'], 'brass')
    """
    text = _WORD_AND_UNIT.sub(r"\1 \3 \2", piece.strip().strip("; "))
    said: set[str] = set()
    while first := _FIRST_WORD.match(text):
        known = "round" if first["word"] in "Øø⌀" else known_word(first["word"])
        if known is None:
            break
        said.add(known)
        text = text[first.end() :]
    behind: list[str] = []
    while last := _LAST_WORD.search(text):
        word, before = last["word"], text[: last.start()]
        known = known_word(word)
        if known is None and (
            _ends_a_size(word) or _OPERATOR.search(before) or not re.search("[0-9]", before)
        ):
            break
        if known is None:
            behind.insert(0, word)
        else:
            said.add(known)
        text = (
            re.sub(r"\bacross$", "", before.rstrip(" (")).rstrip(" ,")
            if word.lower() == "flats"
            else before.rstrip(" (,")
        )
    text = text.strip()
    return Side(text, frozenset(said), " ".join(behind)) if text else None


def _ends_a_size(word: str) -> bool:
    return units.find(word.rstrip(".")) is not None or word.lower() in _BOUGHT


def _ordered(sides: list[Side]) -> tuple[str, list[str]] | None:
    """The shape of the section, and the sizes in the order in which it is told by them; None where they do not fit it."""
    said = frozenset().union(*(side.said for side in sides))
    shapes = said & SHAPES
    sizes = [side.size for side in sides]
    if not shapes:
        thread = _THREAD.fullmatch(sizes[0]) is not None and len(sizes) == 2
        return "round" if thread else "", sizes
    if shapes & {"tube", "outside", "bore", "wall"}:
        return _tube(sides) if "wall" not in shapes and not shapes & {"hex", "square"} else None
    if len(shapes) > 1 or len(sides) > 2:
        return None
    (shape,) = shapes
    across = [side for side in sides if shape in side.said and (len(sides) == 1 or "long" not in side.said)]
    if len(across) == len(sides) == 2:
        return None
    if not across or (len(sides) == 2 and shape not in sides[0].said and "long" not in sides[0].said):
        # `1/8 in x 1 in rod`: the word stands behind all of it, and the length comes last.
        return shape, sizes
    rest = [side.size for side in sides if side is not across[0]]
    return shape, [across[0].size, *rest]


def _tube(sides: list[Side]) -> tuple[str, list[str]] | None:
    outside = [
        side for side in sides if "outside" in side.said or ("round" in side.said and "bore" not in side.said)
    ]
    bore = [side for side in sides if "bore" in side.said]
    if not outside and not bore and len(sides) == 3:
        return "tube", [side.size for side in sides]  # the outside, its bore, and how long
    if len(bore) != 1 or len(outside) > 1 or len(sides) < 2:
        return None
    outer = outside[0] if outside else next(side for side in sides if side is not bore[0])
    rest = [side.size for side in sides if side is not outer and side is not bore[0]]
    return "tube", [outer.size, bore[0].size, *rest]


def with_units(sizes: list[str]) -> Iterator[tuple[str, ...]]:
    """The sizes, those that are a number alone in the one unit of the others; a fraction alone is one of an inch.

    Of whole numbers alone it may be either: both ways are given.
    """
    bare = [size for size in sizes if re.fullmatch(NUMBER, size)]
    said = [match["unit"] for size in sizes for match in _HAS_UNIT.finditer(size)]
    if not bare:
        yield tuple(sizes)
        return
    known = {unit.name for word in said if (unit := units.find(word.rstrip("."))) is not None}
    fraction = any(not re.fullmatch(r"[0-9.]+", size) for size in bare)
    if len(known) > 1 or (said and len(known) != 1) or (fraction and known and known != {"in"}):
        return
    for ending in [said[-1]] if said else ["in"] if fraction else ["in", "mm"]:
        yield tuple(f"{size}{_BLANK.get(ending, ' ')}{ending}" if size in bare else size for size in sizes)


def value_of(number: str) -> Fraction | None:
    """The value of a number; None for one that is none, such as `1/0`."""
    try:
        return number_value(" ".join(number.split()))
    except ShopError:
        return None
