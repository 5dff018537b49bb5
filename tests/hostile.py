"""Lines made to break the reader: statements by the grammar, the same bent, noise, sheets and CSV.

Every maker takes its choices from one object with `randrange`, so that a seeded Random, a
hypothesis strategy and a fuzzer's bytes can all drive it. Nothing here asks the package.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Protocol, TypeVar

T = TypeVar("T")


class Chooser(Protocol):
    """Where choices come from."""

    def randrange(self, stop: int) -> int: ...


class Bytes:
    """Choices from a fuzzer's bytes; when they run out every choice is the first."""

    def __init__(self, data: bytes) -> None:
        self.data, self.at = data, 0

    def randrange(self, stop: int) -> int:
        size = 1 if stop <= 256 else 3
        piece = self.data[self.at : self.at + size]
        self.at += size
        return int.from_bytes(piece, "big") % stop


def pick(r: Chooser, things: Sequence[T]) -> T:
    return things[r.randrange(len(things))]


def chance(r: Chooser, one_in: int) -> bool:
    return r.randrange(one_in) == 0


GLYPHS = "¼½¾⅓⅔⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞⅐⅑⅒"
UNITS = (
    *("in", "mm", '"', "thou", "in", "ft", "cm") * 8, "inch", "inches", "ins", "ft", "'", "feet", "foot", "yd", "yards", "thou", "mm", "mm", "cm", "m",
    "km", "thousandths", "thousandths of an inch", "of an inch", "threads per inch", "t.p.i.", "in²", "mm³", "um", "µm", "μm", "micron", "tpi", "deg", "°", "degrees", "mil", "point", "tenths", "line", "hand", "mile",
    "parsec", "fathom", "x", "e3", "E", "IN", "Mm", "second", "kg", "angstrom", "ths", "smoot", "dir", "_", "é", "Ω",
)  # fmt: skip
RULES = (
    "64ths", "32nds", "16ths", "8ths", "100ths", "10ths", "mm", "half mm", "half-mm", "1 mm", "0.5 mm", "cm", "halves",
    "1sts", "3rds", "99999ths", "98280ths", "0ths", "64", "in", "thou", "ft", "m", "um", '"', "'", "inches", "quarter", "100000ths",
)  # fmt: skip
NAMES = (
    "a",
    "b",
    "pitch",
    "width",
    "ans",
    "radius",
    "end",
    "up",
    "r1",
    "R1",
    "M3",
    "m3",
    "bay",
    "é",
    "x",
    "e",
    "d1",
    "ба",
    "F",
    "a",
    "b",
    "pitch",
    "width",
)
NAMED = (
    "6 BA", "No. 6 B.A.", "1/4 BSW", "3/8 Whit", "1/4-20", "1/4-20 UNC", "No 6-32", "#6-32", "M3", "M3 x 0.5", "M8×1", "M10-6g",
    "G 1/4", "R 1/2", "Rp3/8", "5/16 x 40 ME", "1/8 BSP", "3/8 NPT", "0-80 UNF", "26 tpi", "18 SWG", "22 AWG", "4/0 AWG",
    "7/0 SWG", "No 8 wood screw", "British No 2 wood screw", "US 14 wood screw", "3 UK woodscrew", "#90", "16 gauge", "12 B&S", "20 ga", "No 43 drill", "#43", "letter F drill", "F drill",
    "13/64 drill", "5.1 mm drill", "0.3 drill", "No 97 drill", "#400", "M999", "99 BA", "1/0 BSW", "0/0 SWG", "25 BSC", "brass",
    "1/4-0", "3 US standard", "9 W&M", "8 US steel wire", "20 spring wire", "½-13", "1½ BSP", "M0", "M3 x 0", "1/4 x 40 t.p.i. M.E.",
)  # fmt: skip
FUNCTIONS = (
    "sqrt", "hypot", "min", "max", "abs", "sin", "cos", "tan", "asin", "acos", "atan", "major", "pitch", "effective",
    "minor", "tapping", "clearance", "sagitta", "chord", "radius_from", "step_chord", "bolt_circle", "taper_angle",
    "taper_per_foot", "taper_at", "across", "up", "eval", "__import__", "log", "SQRT",
)  # fmt: skip
ZONES = (
    "H7/g6",
    "H7",
    "g6",
    "H11/c11",
    "JS5/js5",
    "K6/h5",
    "ZC11/zc11",
    "RC5",
    "LN2",
    "FN1",
    "LT3",
    "H99/g6",
    "H7/H7",
    "x",
    "Q7",
    "01",
)
TABLES = ("drills", "gauges", "threads", "stock", "128ths", "what", "64ths", "drills gauges")
#: Signs and the ways they come from typesetting, scanners and other keyboards.
LOOKS = {
    "-": "-−–—‒‐‑﹣－", "/": "/⁄∕／", '"': '"″”“ʺ〃＂', "'": "'′’‘ʹ´＇", " ": " \u00a0\u2009\u202f\u3000\t\u2003",
    ".": ".·⋅∙．", "+": "+＋", "*": "*×✕⨯＊", "=": "=＝", "#": "#＃", "(": "(（", ")": ")）", ",": ",，",
    **{d: d + chr(0xFF10 + int(d)) + chr(0x660 + int(d)) for d in "0123456789"},
}  # fmt: skip
NOISE = (
    *"0123456789 ./-+*^=,#()'\"°±×½⅛µμ_~!?%&|\\;:<>[]{}@$", "\x00", "\x07", "\x1b", "\x7f", "\n", "\r", "\u200b", "\u2028", "\u202e",
    "\ufeff", "\ud800", "😀", "👩‍🔧", "é", "e\u0301", "ﬁ", "ﷺ", "Ⅷ", "²", "٣", "१", "Ａ", "ı", "ß", "ſ", "İ", "K", "\U000e0001", "+/-", "in", "mm",
    "thou", "BA", "drill", "SWG", "into", "to", "within", "ths",
)  # fmt: skip


def digits(r: Chooser, most: int = 3) -> str:
    return "".join(str(r.randrange(10)) for _ in range(1 + r.randrange(most)))


def number(r: Chooser) -> str:
    kind = r.randrange(16)
    if kind < 4:
        bottom = pick(r, (2, 4, 8, 16, 32, 64, 128, 3, 10, 1000))
        return f"{digits(r, 2)} {r.randrange(bottom + bottom // 9)}/{0 if chance(r, 40) else bottom}"
    if kind == 4:
        return f"{digits(r, 2)}-{r.randrange(64)}/{pick(r, (2, 4, 8, 16, 32, 64, 7))}"
    if kind < 7:
        return f"{digits(r)}/{digits(r)}"
    if kind == 7:
        return f"{digits(r, 2) if chance(r, 2) else ''}{pick(r, ('', ' ', '-', '  '))}{pick(r, GLYPHS)}"
    if kind < 11:
        return f"{digits(r)}.{digits(r, 5)}"
    if kind == 11:
        return pick(
            r,
            (
                f".{digits(r)}",
                f"{digits(r)}.",
                f"{digits(r)},{digits(r)}",
                f"{digits(r)}e{digits(r, 2)}",
                "1O5",
                "3l",
            ),
        )
    if kind == 12 and chance(r, 4):
        return digits(r, 60) + pick(r, ("", ".", "/")) + digits(r, 60)
    return digits(r, 4)


def size(r: Chooser) -> str:
    kind = r.randrange(12)
    if kind < 7:
        return f"{number(r)}{pick(r, (' ', ' ', '', '  '))}{pick(r, UNITS)}"
    if kind == 7:
        return f"{digits(r, 2)}{pick(r, ('’ ', chr(39), chr(39) + '-', ' ft ', ' feet '))}{number(r)}{pick(r, (' in', chr(34), ' inch', ''))}"
    if kind == 8:
        return f"{number(r)} {pick(r, ('64ths', '32nds', '16th', '3rds', '1sts', '0ths', '100ths', '99999999999ths'))}{pick(r, ('', ' in', ' mm', ' of an inch'))}"
    if kind == 9:
        return pick(
            r,
            (
                f"{number(r)}°{digits(r, 2)}'{digits(r, 2)}\"",
                f"{number(r)}°",
                f"{number(r)} deg",
                f"{number(r)}°{number(r)}'",
            ),
        )
    return pick(r, NAMED)


def limits(r: Chooser) -> str:
    nominal = size(r)
    kind = r.randrange(5)
    if kind == 0:
        return f"{nominal} {pick(r, ('±', '+-', '+/-', '± '))}{number(r)} {pick(r, UNITS)}"
    if kind == 1:
        return f"{nominal} {pick(r, '+-')}{number(r)}/{pick(r, '+-')}{number(r)} {pick(r, UNITS)}"
    if kind == 2:
        return f"{nominal} +{digits(r, 1)}/-{digits(r, 1)} thou"
    if kind == 3:
        return f"{nominal} {pick(r, ('+0.1/0', '-0.2/0', '0/-0.2', '0/+1', '-1/64/0', '0.0/-2 thou', '+1/0.5', '0/0'))}"
    return f"{nominal} ± {digits(r, 2)} thou"


def expression(r: Chooser, depth: int = 3) -> str:
    kind = r.randrange(14)
    if depth <= 0 or kind < 4:
        return size(r)
    if kind == 4:
        return limits(r)
    if kind == 5:
        return pick(r, NAMES)
    if kind == 6:
        return number(r)
    if kind == 7:
        return f"({expression(r, depth - 1)})"
    if kind == 8:
        parts = ", ".join(expression(r, depth - 1) for _ in range(r.randrange(4)))
        return f"{pick(r, FUNCTIONS)}({pick(r, NAMED) + ', ' if chance(r, 5) else ''}{parts})"
    if kind == 9:
        return f"{pick(r, '-+')}{expression(r, depth - 1)}"
    if kind == 10:
        return f"{expression(r, depth - 1)}^{pick(r, ('2', '3', '-1', '0', '64', '-64', '65', '1/2', '99999999', '2 in'))}"
    sign = pick(r, (" + ", " - ", " + ", " - ", " * ", " / ", " ÷ ", "÷", "+", "-", "/", " x ", " × ", "*"))
    if sign.strip() in "*/×" and chance(r, 2):
        return f"{expression(r, depth - 1)}{sign}{number(r)}"
    return f"{expression(r, depth - 1)}{sign}{expression(r, depth - 1)}"


def count(r: Chooser) -> str:
    return pick(
        r,
        ("2", "3", "5", "7", "12", "64", "999", "1000", "10000", "99999999", "0", "-1", "2 1/2", "2 in", "a"),
    )


def _options(r: Chooser, makers: Sequence[Callable[[], str]]) -> str:
    return "".join(f" {pick(r, makers)()}" for _ in range(pick(r, (0, 0, 1, 1, 2, 3))))


def request(r: Chooser) -> str:
    e = lambda: expression(r, pick(r, (0, 0, 0, 1, 2)))  # noqa: E731
    many = lambda: ", ".join(e() for _ in range(pick(r, (1, 2, 3, 4, 9, 30))))  # noqa: E731
    on, way = lambda: f"on {pick(r, RULES)}", lambda: pick(r, ("up", "down"))
    within = lambda: f"within {e()}"  # noqa: E731
    kind = r.randrange(15)
    if kind == 0:
        return f"snap {e()}" + _options(r, (lambda: f"to {pick(r, RULES)}", way, within))
    if kind == 1:
        return f"divide {e()} into {count(r)}" + _options(
            r, (on, way, lambda: f"leaving {e()} each end", lambda: f"between {e()}")
        )
    if kind == 2:
        return f"mark {e()} into {count(r)}" + _options(r, (on, lambda: f"from {e()}"))
    if kind == 3:
        return f"recover {many()}" + _options(
            r, (within, lambda: f"worn {e()}", lambda: f"among {pick(r, TABLES)}, {pick(r, TABLES)}")
        )
    if kind == 4:
        return f"thread {pick(r, NAMED)}"
    if kind == 5:
        return f"identify {e()}, {pick(r, (e(), digits(r, 2) + ' tpi'))}"
    if kind == 6:
        return f"substitute {pick(r, NAMED)}{pick(r, ('', ' from metric', ' from BA', ' from UNC', ' from M', ' from x'))}"
    if kind == 7:
        return f"{pick(r, ('drill', 'gauge'))} {pick(r, (e(), pick(r, NAMED)))}"
    if kind == 8:
        return f"pack {e()} from {many()}{pick(r, ('', ' each once'))}"
    if kind == 9:
        return f"fit {e()} {pick(r, ZONES)}"
    if kind == 10:
        return f"crown {count(r)} across {e()} radius {e()}" + _options(r, (on, lambda: f"from {e()}"))
    if kind == 11:
        return f"check {e()} = {e()}{pick(r, ('', ' within ' + e()))}"
    if kind == 12:
        return f"rule {pick(r, RULES)}"
    return f"{e()} as {pick(r, RULES)}"


def statement(r: Chooser) -> str:
    """A statement by the grammar, mostly sound."""
    line = request(r) if chance(r, 2) else expression(r)
    if chance(r, 4):
        line = f"{pick(r, NAMES)} = {line}"
    if chance(r, 20):
        line += pick(r, (" # a note", " #6-32", "#", " ## x"))
    return line


def disguised(r: Chooser, text: str) -> str:
    """The same text, its signs as type or a scanner gives them."""
    return "".join(pick(r, LOOKS[c]) if c in LOOKS and chance(r, 3) else c for c in text)


def bent(r: Chooser, text: str) -> str:
    """The text with a few of its characters lost, doubled, swapped or replaced."""
    for _ in range(1 + r.randrange(4)):
        kind, at = r.randrange(7), r.randrange(len(text) + 1)
        end = min(len(text), at + 1 + r.randrange(6))
        if kind == 0:
            text = text[:at] + text[at + 1 :]
        elif kind == 1:
            text = text[:at] + pick(r, NOISE) + text[at:]
        elif kind == 2:
            text = text[:at] + text[at:end] * 2 + text[end:]
        elif kind == 3:
            text = text[:at] + text[at:end][::-1] + text[end:]
        elif kind == 4:
            text = text[:at] + pick(r, NOISE) + text[at + 1 :]
        elif kind == 5:
            text = disguised(r, text)
        else:
            text = text.replace(" ", "", 1 + r.randrange(3)) if chance(r, 2) else text[:at] + " " + text[at:]
    return text


def noise(r: Chooser) -> str:
    """Signs, figures and words in no order; now and then any character that there is."""
    return "".join(
        chr(r.randrange(0x3100)) if chance(r, 12) else pick(r, NOISE) for _ in range(r.randrange(24))
    )


def long(r: Chooser) -> str:
    """A line of some thousand characters: one piece many times over, a chain, or a deep nest."""
    kind = r.randrange(8)
    if kind < 3:
        piece = "".join(pick(r, (*NOISE, number(r), size(r))) for _ in range(1 + r.randrange(3)))
        text = pick(r, ("", "1", "1 ", "x = ", "snap ", "recover ", "(", "2 in ")) + piece * (
            1000 // max(1, len(piece))
        )
    elif kind == 3:
        sign = pick(r, (" + ", " * ", "-", "/", " - ", ", ", "^", " "))
        text = pick(r, ("", "max(", "recover ", "pack 1 in from ", "hypot(")) + sign.join(
            size(r) for _ in range(120)
        )
    elif kind == 4:
        opener = pick(r, ("(", "sqrt(", "-", "abs(", "max(1 in, ", "+(", "sin("))
        depth = 1 + r.randrange(90)
        text = opener * depth + size(r) + ")" * (depth * opener.count("("))
    elif kind == 5:
        sign = pick(r, (" + ", " * ", " / ", " - "))
        text = sign.join(f"({limits(r)})" for _ in range(60))
    elif kind == 6:
        text = pick(r, ("recover ", "pack 3 in from ")) + ", ".join(
            f"{1 + r.randrange(90)}.{r.randrange(100)} mm" for _ in range(110)
        )
    else:
        text = statement(r) + pick(r, (" ", "#", "0", "9", "\u200b", ")", "'")) * 900
    return text[: pick(r, (1000, 1000, 1000, 1001, 999))]


#: Each kind of line, and how many of so many are of it.
KINDS: dict[str, tuple[int, Callable[[Chooser], str]]] = {
    "by the grammar": (44, statement),
    "bent": (34, lambda r: bent(r, statement(r))),
    "disguised": (6, lambda r: disguised(r, statement(r))),
    "noise": (14, noise),
    "long": (2, long),
}
_KINDS = tuple(kind for kind, (share, _) in KINDS.items() for _ in range(share))


def line(r: Chooser) -> tuple[str, str]:
    """One line for the reader of statements, and its kind."""
    kind = pick(r, _KINDS)
    return kind, KINDS[kind][1](r)


# Sheets and columns


def _part(r: Chooser) -> str:
    sizes = pick(r, (" by ", " BY ", ", ", " x ")).join(expression(r, 1) for _ in range(r.randrange(5)))
    return (
        f"part {pick(r, (*NAMES, 'peg rail', ''))}{pick(r, (':', ': ', '', ' = '))}{pick(r, (count(r), expression(r, 1)))}"
        + (
            f"{pick(r, (' of brass', ' of', '', ' of ' + noise(r)))}{', ' + sizes if sizes else ''}{pick(r, ('', '; ease it', ';'))}"
        )
    )


def sheet(r: Chooser, most: int = 40) -> str:
    """A sheet: statements, titles, parts, names that go round in a ring, and rows of noise."""
    rows = []
    for n in range(1 + r.randrange(most)):
        kind = r.randrange(12)
        if kind < 3:
            rows.append(line(r)[1])
        elif kind < 6:
            rows.append(
                f"n{r.randrange(8)} = {pick(r, (size(r), limits(r)))}{pick(r, (' + ', ' - ', ' * ', ' / '))}n{r.randrange(12)}"
            )
        elif kind == 6:
            rows.append(f"n{n} = {pick(r, (size(r), limits(r), request(r)))}")
        elif kind == 7:
            rows.append(_part(r))
        elif kind == 8:
            rows.append(
                f"check n{r.randrange(9)} {pick(r, '+-*/')} ans = {pick(r, ('n1', size(r)))}{pick(r, ('', ' within 1 thou'))}"
            )
        elif kind == 9:
            rows.append(
                pick(
                    r,
                    (
                        "## Runner",
                        "# a note",
                        "##",
                        "#",
                        "",
                        "   ",
                        "rule 32nds",
                        "rule nonsense",
                        "rule mm",
                        "## " + noise(r),
                    ),
                )
            )
        elif kind == 10:
            rows.append(bent(r, _part(r)))
        else:
            rows.append(
                f"{pick(r, ('', 'n2 = '))}{pick(r, ('mark', 'divide'))} n{r.randrange(9)} into {1 + r.randrange(9)}"
            )
    return pick(r, ("\n", "\n", "\r\n", "\r")).join(rows)


def column(r: Chooser, most: int = 30) -> list[str]:
    """Lines of CSV with a column headed `size`, and cells right, wrong and badly quoted."""
    comma = pick(r, (",", ",", ";", "\t"))
    rows = [
        pick(
            r,
            (
                "part,size,note",
                "part,size,note",
                "part,size,note",
                "size",
                "\ufeffpart,size",
                '"part","size"',
                "a,size,inch,fault",
                "size,size",
                "part",
                "",
            ),
        ).replace(",", comma)
    ]
    for _ in range(r.randrange(most)):
        cell = pick(r, (size, size, size, limits, number, noise, statement, long))(r)
        cells = [pick(r, ("tray", "", "é", noise(r))), cell, pick(r, ("", '"quoted, and more"', '"'))]
        text = comma.join(f'"{c}"' if chance(r, 5) else c for c in cells[: pick(r, (1, 2, 3, 3, 3, 3, 3))])
        rows.append(text)
    ending = pick(r, ("\n", "\n", "\r\n"))
    return [row + (pick(r, ("\r", "", "\n\n")) if chance(r, 30) else ending) for row in rows]
