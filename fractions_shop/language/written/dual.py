"""One size in two units, `30 3/4 in. (78 cm)`: the first is read, the second checked to its last place."""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction

from fractions_shop.language.notes import doubt, echo
from fractions_shop.language.written.forms import Atom, is_size, quantity_of
from fractions_shop.size import units
from fractions_shop.size.notation import GLYPHS, decimal, full_size, inch_text, mm_text, number_value
from fractions_shop.size.quantity import Quantity

_OPEN = re.compile(
    r"(?P<words>(?:[ ]?[A-Za-z][A-Za-z.]*){0,2},?) *[(\[] *(?:~|≈|about|approx\.?|say|or|=)? *", re.I
)
_CLOSE = re.compile(r" *[)\]]")

#: However coarse its last place, the second may be off by a twelfth at most: 20 mm (1 in) disagree.
_MOST_OFF = 12


def in_two_units(atoms: list[Atom], text: str, used: list[tuple[int, int]]) -> list[Atom]:
    """`30 3/4 in. (78 cm)`: the first is read, and the one in brackets is checked to its last place."""
    out: list[Atom] = []
    n = 0
    while n < len(atoms):
        atom = atoms[n]
        other = atoms[n + 1] if n + 1 < len(atoms) else None
        merged = None
        if other is not None and is_size(atom) and is_size(other):
            merged = _pair(atom, other, text)
        if merged is not None:
            if merged[1] is not None:
                used.append(merged[1])
            out.append(merged[0])
            n += 2
            continue
        out.append(atom)
        n += 1
    return out


def _pair(atom: Atom, other: Atom, text: str) -> tuple[Atom, tuple[int, int] | None] | None:
    closed = _CLOSE.match(text, other.end)
    if _OPEN.fullmatch(text, atom.end, other.start) and closed:
        first, second, span = atom, other, (other.start, closed.end())
        if atom.bare and re.search("[A-Za-z]", text[atom.end : other.start]):
            return None  # 18 gauge steel (0.048"): the number is something else
    elif re.fullmatch(r"[)\]] *", text[atom.end : other.start]) and re.search(
        r"[(\[] *$", text[max(0, atom.start - 3) : atom.start]
    ):
        first, second, span = other, atom, (atom.start, atom.end)
    else:
        return None
    if first.bare and second.bare:
        return None
    unit = first.unit or second.unit
    main = first.in_unit(unit) if first.bare else first
    check = second.in_unit(unit) if second.bare else second
    main_size = quantity_of(main)
    off = quantity_of(check) - main_size
    beside = text[second.start : second.end]
    if abs(off.value) > min(_last_place(check), abs(main_size.value) / _MOST_OFF):
        said = f"{beside} is beside it, which is {mm_text(abs(off))} {'more' if off.value > 0 else 'less'}"
        note = doubt(said, size_text(quantity_of(main), main.unit), size_text(quantity_of(check), check.unit))
    else:
        note = echo(f"{beside} is beside it and agrees")
    return replace(main, notes=(*main.notes, note), beside=True), span


def _last_place(atom: Atom) -> Fraction:
    """How far the size may be off and still be the one written, in mm: half its last place.

    A last figure of 5 behind the point may be a half that was rounded to: 54.5 cm stands for 54 1/4 to
    54 3/4. A fraction may be off half of its division.
    """
    number = full_size(atom.written).split()[-1] if atom.written else "1"
    unit = atom.last or (units.BY_WORD[atom.unit].mm if atom.unit in units.BY_WORD else units.INCH)
    if number[-1] in GLYPHS:
        return unit / (2 * number_value(number[-1]).denominator)
    if "/" in number:
        bottom = re.match("[1-9][0-9]*", number.rpartition("/")[2])
        return unit / (2 * int(bottom[0])) if bottom else unit / 128
    places = len(number.partition(".")[2])
    half = Fraction(1, 4) if places == 1 and number.endswith("5") else Fraction(1, 2 * 10**places)
    return unit * half


def size_text(size: Quantity, unit: str) -> str:
    """A size as a statement that can be typed, in inches or millimetres as it was written."""
    known = units.find(unit)
    if known is not None and known.metric:
        return f"{decimal(size.mm, 12)[0]} mm"
    return inch_text(size, 12)
