"""Atoms that belong together: feet and inches, limits, one size in two units, `a by b`, ranges, rates, counts.

Each step looks at the text between two neighbouring atoms and nothing else, so that no two sizes are
ever made one by what stands elsewhere.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from fractions import Fraction

from fractions_shop.language.notes import doubt, echo
from fractions_shop.language.written.dual import in_two_units, size_text
from fractions_shop.language.written.forms import Atom, is_size, quantity_of
from fractions_shop.language.written.items import Range
from fractions_shop.language.written.words import COUNTED, ROLES
from fractions_shop.size import units
from fractions_shop.size.limits import Limits
from fractions_shop.size.quantity import Quantity

_FEET = re.compile(r" ?,? ?")
_PLUS_MINUS = re.compile(r" *(?:±|\+ ?/ ?-|\+-|plus or minus) *", re.I)
_PLUS, _MINUS = re.compile(r"[ \n]*\+ *"), re.compile(r" *[/,\n]? *- *")
_WORDS = r"(?:[ ]?[A-Za-z][A-Za-z.]*){0,3}"
_BY = re.compile(rf"(?P<words>{_WORDS}) *(?:[x×X]|\bby\b) *[Ø⌀]? *")
_TIMES = re.compile(r"(?P<x>[xX×])(?P<blank> *)(?P<dia>[Ø⌀R]?) *")
_TO = re.compile(r" *(?:-|\bto\b|\bthru\b|\bthrough\b) *(?:about|approximately|~)? *", re.I)
_RATE = re.compile(
    rf" *(?:\bper\b|\bto the\b|/|\ba\b) *(?P<unit>(?:{units.alternatives('in', 'ft', letters=True)})\b\.?|side|end|pair)",
    re.I,
)
_ONE_IN = re.compile(r" +in +", re.I)
_UNDER = re.compile(r" *(?P<word>under|less than|less|over) +", re.I)
_OF_THEM = re.compile(r" +(?:of |[A-Za-z]+,? +)?")
_COUNT_BEHIND = re.compile(r" *(?P<noun>[A-Za-z]+)\b")
_COUNT_WORDS = re.compile(r"[ -]*(?P<noun>[A-Za-z]+)\b\.?[ ,:]*(?:of )?[Ø⌀]? *", re.I)


@dataclass(frozen=True, slots=True)
class Taken:
    """Atoms put together, with the stretches between and behind them that say how: no words are left there."""

    atoms: list[Atom]
    used: list[tuple[int, int]]


def put_together(atoms: list[Atom], text: str) -> Taken:
    """The atoms with those that make one thing made one, and with units that stand once for several."""
    used: list[tuple[int, int]] = []
    if len(atoms) < 2:
        return Taken(_rates(_counts(atoms, text, used), text, used), used)
    atoms = _feet_and_inches(atoms, text)
    atoms = _limits(atoms, text)
    atoms = _shared_units(atoms, text, used)
    atoms = _counts(atoms, text, used)
    atoms = _rates(atoms, text, used)
    atoms = _differences(atoms, text, used)
    atoms = _ranges(atoms, text, used)
    atoms = in_two_units(atoms, text, used)
    return Taken(atoms, used)


def _feet_and_inches(atoms: list[Atom], text: str) -> list[Atom]:
    out: list[Atom] = []
    for atom in atoms:
        if out and atom.unit == "in" and is_size(atom) and out[-1].unit == "ft" and is_size(out[-1]):
            feet = out[-1]
            whole = quantity_of(feet).value % units.BY_WORD["ft"].mm == 0
            dashed = text[feet.end - 1] == "'" and text[feet.end : atom.start] == "-"
            near = dashed or _FEET.fullmatch(text, feet.end, atom.start)
            if whole and near and quantity_of(atom).inch < 12:
                value = quantity_of(feet) + quantity_of(atom)
                written = f"{feet.written} {atom.written}"
                last = atom.last or units.INCH
                out[-1] = Atom(
                    "size", value, feet.start, atom.end, "ft", written, (*feet.notes, *atom.notes), last=last
                )
                continue
        out.append(atom)
    return out


# Limits


def _limits(atoms: list[Atom], text: str) -> list[Atom]:
    out: list[Atom] = []
    n = 0
    while n < len(atoms):
        atom = atoms[n]
        pair = atoms[n + 1] if n + 1 < len(atoms) else None
        third = atoms[n + 2] if n + 2 < len(atoms) else None
        made = None
        if is_size(atom) and pair is not None and is_size(pair):
            if _PLUS_MINUS.fullmatch(text, atom.end, pair.start):
                made, step = _made_limits(atom, pair, pair), 2
            elif third is not None and is_size(third):
                made, step = _in_two_steps(atom, pair, third, text), 3
        if made is not None:
            out.append(made)
            n += step
        else:
            out.append(atom)
            n += 1
    return out


#: Nobody prints limits as wide as this part of their size: 2 in +1 in -1/2 in is a sum.
_WIDEST = 16


def _in_two_steps(nominal: Atom, former: Atom, latter: Atom, text: str) -> Atom | None:
    """`1.000" +.001" -.002"`: limits whose deviations each have their sign, in either order."""
    if _PLUS.fullmatch(text, nominal.end, former.start) and _MINUS.fullmatch(text, former.end, latter.start):
        plus, minus = former, latter
    elif _MINUS.fullmatch(text, nominal.end, former.start) and _PLUS.fullmatch(
        text, former.end, latter.start
    ):
        plus, minus = latter, former
    else:
        return None
    made = _made_limits(nominal, plus, minus)
    if made is None or nominal.bare or former.bare or latter.bare:
        return made
    sizes = [quantity_of(atom) for atom in (nominal, plus, minus)]
    if any(size.value * _WIDEST > sizes[0].value for size in sizes[1:]):
        return None
    parts = [size_text(size, atom.unit) for size, atom in zip(sizes, (nominal, plus, minus), strict=True)]
    return made.noted(echo(f"read as limits; for the sum write ({parts[0]} + {parts[1]}) - {parts[2]}"))


def _made_limits(nominal: Atom, plus: Atom, minus: Atom) -> Atom | None:
    """Limits with the unit that stands once for all; in inches where points without a zero say so."""
    parts = [nominal, plus, minus]
    unit = plus.unit or minus.unit if nominal.bare else nominal.unit
    notes = []
    if not unit:
        if not any(part.written.startswith(".") for part in parts):
            return None
        unit = "in"
        notes.append(doubt(
            "no unit is written: taken as inches, since decimals without a zero before the point are inches"
            " (ASME Y14.5)",
        ))  # fmt: skip
    if any(part.bare and not _may_lend(part, unit) for part in parts):
        return None
    if not nominal.bare and any(part.bare and not _in_the_same(part, unit) for part in parts[1:]):
        return None
    if not nominal.bare and _lent_by_either(nominal, plus, minus):
        return None
    parts = [part.in_unit(unit) if part.bare else part for part in parts]
    sizes = [quantity_of(part) for part in parts]
    if abs(sizes[1].value) >= abs(sizes[0].value) or abs(sizes[2].value) >= abs(sizes[0].value):
        return None
    value = Limits(sizes[0], sizes[1], sizes[2])
    end = max(part.end for part in parts)
    return Atom("limits", value, nominal.start, end, unit, nominal.written, (*parts[0].notes, *notes))


def _lent_by_either(nominal: Atom, plus: Atom, minus: Atom) -> bool:
    """Whether a deviation may be in its nominal's unit or in the other's: 10 mm +0.5 -2.5 thou."""
    bare, other = (plus, minus) if plus.bare else (minus, plus)
    return bare.bare and not other.bare and other.unit != nominal.unit and quantity_of(bare).value != 0


def _in_the_same(deviation: Atom, unit: str) -> bool:
    """Whether a deviation without a unit is surely in its nominal's: 2 in ± 1 may be thou."""
    if unit == "ft":
        return False
    written = deviation.written
    return "." in written or written == "0" or (unit == "in" and "/" in written)


def _may_lend(bare: Atom, unit: str) -> bool:
    """Whether a number may be in the unit that stands behind another: never 1/2 in mm or thou, nor .500 in mm."""
    inches = "/" in bare.written or bare.written.startswith(".") or not bare.written.isascii()
    known = units.BY_WORD[unit]
    return unit not in ("thou", "um") and not (inches and known.metric)


# Several sizes


def _shared_units(atoms: list[Atom], text: str, used: list[tuple[int, int]]) -> list[Atom]:
    """`9 7/16 × 7 5/16 in.`: the unit behind the last stands for all that `by`, `to` or a comma ties to it.

    A whole number before `x` is left as it is: it may be a count.
    """
    out = list(atoms)
    for n in range(len(out) - 2, -1, -1):
        atom, other = out[n], out[n + 1]
        if not is_size(atom):
            if atom.kind == "thread" and other.bare and _BY.fullmatch(text, atom.end, other.start):
                out[n + 1] = _screw_length(atom, other)
            continue
        if other.kind not in ("size", "limits") or not atom.bare or not other.unit:
            continue
        if not _may_lend(atom, other.unit) and not _TO.fullmatch(text, atom.end, other.start):
            continue
        gap = text[atom.end : other.start]
        by = _BY.fullmatch(gap)
        if by is not None and not by["words"].strip():
            times = "x" in gap.lower() or "×" in gap
            if _TIMES.fullmatch(gap) and "Ø" in gap:
                continue
            if (
                atom.written.isdigit()
                and times
                and not (n and _ties(text, out[n - 1], atom))
                and not _several(out, n, text)
            ):
                continue
            out[n] = atom.in_unit(other.unit)
        elif _TO.fullmatch(gap) or re.fullmatch(r" *,? *(?:or|and|vs\.?|,|to|&) *(?:about )?", gap):
            out[n] = atom.in_unit(other.unit)
    return out


def _ties(text: str, atom: Atom, other: Atom) -> bool:
    return is_size(atom) and _BY.fullmatch(text, atom.end, other.start) is not None


def _several(atoms: list[Atom], n: int, text: str) -> bool:
    """Whether a third size follows by another `x`, or the one that follows is a whole number too."""
    other = atoms[n + 1]
    third = atoms[n + 2] if n + 2 < len(atoms) else None
    return other.written.isdigit() or (third is not None and _ties(text, other, third))


def _screw_length(screw: Atom, length: Atom) -> Atom:
    """The length behind a screw, in its unit where that is sure: a fraction in inches, or of a metric screw."""
    if screw.unit == "mm":
        return length.in_unit("mm")
    if (
        "/" in length.written
        or length.written.startswith(".")
        or not length.written.isascii()
        or len(length.written) == 1
    ):
        return length.in_unit("in").noted(echo("the length of an inch screw, in inches"))
    return length


def _counts(atoms: list[Atom], text: str, used: list[tuple[int, int]]) -> list[Atom]:
    """`4X Ø12 mm`, `4 holes 3/8 in`, `two 3/32" holes`: how many, beside one size."""
    out = list(atoms)
    for n, atom in enumerate(out[:-1]):
        other = out[n + 1]
        gap = text[atom.end : other.start]
        if atom.kind == "count":
            of_them = other.kind in ("size", "thread", "gauge", "drill") and _OF_THEM.fullmatch(gap)
            if not of_them or (is_size(other) and _may_be_mixed(atom, other, text, gap)):
                out[n] = replace(atom, kind="unread")
            continue
        if not atom.bare or not atom.written.isdigit() or other.kind not in ("size", "limits", "thread"):
            continue
        times = _TIMES.fullmatch(gap)
        noun = _COUNT_WORDS.fullmatch(gap)
        counted = times is not None and (
            bool(times["dia"]) or (times["x"] == "X" and bool(times["blank"]))
        )  # fmt: skip
        if counted or (noun is not None and noun["noun"].lower() in COUNTED and not other.bare):
            out[n] = replace(atom, kind="count", value=int(atom.written))
            if noun is not None and noun["noun"].lower() == "off":
                out[n] = replace(out[n], end=atom.end + noun.end("noun"))
            if counted:
                used.append((atom.end, other.start))
    for n, atom in enumerate(out):
        noun = _COUNT_BEHIND.match(text, atom.end) if n and atom.bare and atom.written.isdigit() else None
        if (
            noun is not None
            and noun["noun"].lower() in COUNTED
            and re.search(r"[(,] *$", text[max(0, atom.start - 3) : atom.start])
        ):
            out[n] = replace(atom, kind="count", value=int(atom.written))
    if (
        out
        and out[-1].kind == "count"
        and out[-1].value is not None
        and not isinstance(atoms[-1].value, Quantity)
    ):
        out[-1] = replace(out[-1], kind="unread")
    return out


_NOUN_BEHIND = re.compile(r" *-? *(?P<noun>[A-Za-z]+)")


def _may_be_mixed(count: Atom, size: Atom, text: str, gap: str) -> bool:
    """Whether `two 1/2 inches wide` may be 2 1/2: no noun says what there are two of."""
    if gap.strip() or not count.end or quantity_of(size).value >= units.BY_WORD[size.unit or "in"].mm:
        return False
    noun = _NOUN_BEHIND.match(text, size.end)
    word = noun["noun"].lower() if noun else ""
    return not word or (word in ROLES and word not in COUNTED)


def _rates(atoms: list[Atom], text: str, used: list[tuple[int, int]]) -> list[Atom]:
    """`5/32" per foot`, and `1 in 48`."""
    out: list[Atom] = []
    n = 0
    while n < len(atoms):
        atom = atoms[n]
        other = atoms[n + 1] if n + 1 < len(atoms) else None
        if (
            other is not None and atom.bare and other.bare and atom.written.isdigit() and other.written.isdigit()
            and int(other.written) and _ONE_IN.fullmatch(text, atom.end, other.start)
        ):  # fmt: skip
            rate = Fraction(int(atom.written), int(other.written))
            out.append(Atom("rate", rate, atom.start, other.end, "in", atom.written))
            n += 2
            continue
        per = _RATE.match(text, atom.end) if is_size(atom) else None
        if per is not None:
            unit = units.find(per["unit"].rstrip("."))
            value: object = quantity_of(atom)
            if unit is not None:
                value = quantity_of(atom) / Quantity(unit.mm) if atom.unit else None
            kind = "per" if value is not None else "unread"
            atom = replace(atom, kind=kind, value=value, end=per.end())
        out.append(atom)
        n += 1
    return out


def _differences(atoms: list[Atom], text: str, used: list[tuple[int, int]]) -> list[Atom]:
    """`1/64 under 1/4`: the size that is so much off another."""
    out: list[Atom] = []
    for atom in atoms:
        last = out[-1] if out else None
        if last is not None and is_size(last) and is_size(atom) and atom.unit:
            match = _UNDER.fullmatch(text, last.end, atom.start)
            if match is not None:
                off = last.in_unit(atom.unit) if last.bare else last
                word = match["word"].lower()
                size, much = quantity_of(atom), quantity_of(off)
                if word == "less":
                    size, much = much, size
                if much.value * 4 < size.value:
                    under = word != "over"
                    value = size - much if under else size + much
                    said = echo(
                        f"{size_text(size, atom.unit)} {'less' if under else 'and'} {size_text(much, atom.unit)}"
                    )
                    out[-1] = Atom(
                        "size", value, last.start, atom.end, atom.unit, atom.written, (*atom.notes, said)
                    )
                    continue
        out.append(atom)
    return out


def _ranges(atoms: list[Atom], text: str, used: list[tuple[int, int]]) -> list[Atom]:
    """`1.624 to 1.625 inches`, `6"-10"`, `12-15 ft`: from a smaller size to a larger."""
    out: list[Atom] = []
    for atom in atoms:
        last = out[-1] if out else None
        if last is not None and is_size(last) and is_size(atom) and last.unit and atom.unit:
            lower, upper = quantity_of(last), quantity_of(atom)
            if lower.value < upper.value and _TO.fullmatch(text, last.end, atom.start):
                notes = (*last.notes, *atom.notes)
                out[-1] = Atom(
                    "range", Range(lower, upper), last.start, atom.end, atom.unit, last.written, notes
                )
                continue
        out.append(atom)
    return out
