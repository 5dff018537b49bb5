"""Statements nearly such as the quick reader reads: plain sizes, names and signs, with what it must leave among them."""

from __future__ import annotations

from random import Random

import bent_text

from fractions_shop.language.grammar_tables import tables

NUMBERS = (
    "2", "5", "0", "2 1/32", "1/2", "65/32", "3.5", ".193", "0.5", "10", "12", "64ths", "32nds", "16ths", "1 5/4", "3/0", "21/2", "0193", "20", "1/32",
    "13/32", "5.", "1000000000", "2½", "1-2", "18", "6", "43", "1/4",
)  # fmt: skip
UNITS = (
    "in", "mm", "thou", "ft", '"', "m", "cm", "um", "km", "yd", "inch", "inches", "", "", "", "'", "tpi", "BA", "SWG", "°", "hand",
)  # fmt: skip
SIGNS = ("+", "-", "*", "/", "of", "±", "+-", "+/-")
JOINTS = (
    *SIGNS, "=", "as", "into", "to", "on", "within", "up", "down", "from", "between", "by", "^", "x", "×", "(", ")", ",", "#", "# note", "#6", "at",
    "is at least", "clears", "leaving", "each end", "per ft", "and", "among", "reads",
)  # fmt: skip
#: Names, some of which are a thread, a gauge or a taper with what may stand behind them.
NAMES = (
    *bent_text.NAMES, *bent_text.ODD_WORDS, *tables().words, "rms", "RMS", "a", "b1", "w1", "n1", "l2", "t3", "x2", "drill", "morse", "mt2", "brown", "us",
    "no", "nr", "number", "gauge", "form", "old", "in inch work", "is", "of an inch", "per", "foot", "deg", "cu", "feet", "first", "mm", "bay_1", "tray_wide",
    "rail", "head", "nut", "bolt", "g", "loewenherz", "thury", "camera", "american", "british", "steel", "wire", "screw", "wood", "zinc", "sheet", "spaces",
    "blocks", "off", "print", "work", "an", "last", "G", "Tr", "letter f", "1/4", "18", "stock", "hole", "slot", "corner", "rev", "part",
)  # fmt: skip


def line(r: Random) -> str:
    """One line: an expression, one of the requests, a name set; now and then with a comment behind it."""
    said = _expression(r)
    behind = r.choice(("", "", f" {r.choice(JOINTS)} {_expression(r, 2)}"))
    said = r.choice((
        said, said, said, f"check {said} = {_expression(r)}{behind}", f"divide {said} into {_expression(r, 2)}{behind}",
        f"divide {said} into 5 {_option(r)}", f"snap {said}{behind}", f"snap {said} {_option(r)} {_option(r)}", f"mark {said} into {_expression(r, 2)}{behind}",
        f"{said} as {r.choice(NUMBERS + UNITS + NAMES)}",
    ))  # fmt: skip
    if r.randrange(2):
        said = f"{r.choice(NAMES)}{r.choice((' = ', ' = ', '=', ' =', '= '))}{said}"
    return said + r.choice(("", "", "", "", "", " # note", "# 6", " #", " #6", " # 6 BA drill M3"))


def _expression(r: Random, most: int = 4) -> str:
    said = _operand(r)
    for _ in range(r.randrange(most)):
        blank = r.choice((" ", " ", " ", " ", "", "  "))
        joint = r.choice(SIGNS if r.randrange(3) else JOINTS)
        said += f"{blank}{joint}{r.choice((blank, blank, ' ', ''))}{_operand(r)}"
    return said


def _operand(r: Random) -> str:
    kind = r.randrange(10)
    if kind < 5:
        return r.choice(NUMBERS) + r.choice((" ", " ", " ", "", "  ")) + r.choice(UNITS)
    return r.choice(NAMES) if kind < 8 else f"({r.choice(('', ' '))}{_expression(r, 2)}{r.choice(('', ' '))})"


def _option(r: Random) -> str:
    return r.choice(("up", "down", f"within {_operand(r)}", f"from {_operand(r)}", f"on {r.choice(NUMBERS + UNITS)}", f"to {r.choice(NUMBERS + UNITS + NAMES)}"))  # fmt: skip
