"""Real text spoilt as hands and copying spoil it: statements, sheets, files and keys, made of what stands in the project.

Unlike `hostile`, nothing is made from the grammar: a line is one of the manual, the cases, the examples or of
public texts, and words of it are lost, doubled, exchanged with those of another line, run together, or set in
signs that look alike. `Texts` reads them all once; every maker takes its choices from a `random.Random`.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from pathlib import Path
from random import Random

import case_files

ROOT = Path(__file__).parents[1]
#: Statements longer than this are spoilt no further, so that a line stays one that might be typed.
LONGEST = 600
TOKEN = re.compile(r"[^\W\d_]+|\d+|\s+|.", re.DOTALL)

#: Letters and signs that are taken for one another by an eye, a scanner or a keyboard of another land.
ALIKE = {
    "a": "аɑ", "e": "еɛ", "o": "оο0", "i": "іıl1", "n": "ո", "m": "rnｍ", "c": "сϲ", "p": "рρ", "x": "хх×✕", "l": "1I|", "s": "ѕ5",
    "t": "τ+", "h": "һ", "f": "ſƒ", "0": "OoО", "1": "lI|", "5": "S", "6": "б", "8": "B", "2": "Z", "/": "⁄∕⧸\\|",
    "-": "−–—‐­_~", ".": ",·․。", ",": ".،，", "'": "’‵`´ˈ", '"': "”″''“`", "=": "＝≈:", "+": "＋±†", "*": "×∗·", "±": "+-∓",
    "(": "（[{", ")": "）]}", ":": "：;∶", "#": "＃♯", "°": "ºo˚", "%": "‰", "½": "1/2", "µ": "μu", " ": "\u00a0\u2009\u200b\t",
}  # fmt: skip
#: What a line is joined to another by.
JOINTS = (
    " ",
    ", ",
    " + ",
    " of ",
    " and ",
    " by ",
    " at ",
    " = ",
    " x ",
    ";",
    " # ",
    "\t",
    " within ",
    " from ",
    "",
    " / ",
    " among ",
    ": ",
)
#: Numbers as nobody should write them.
ODD_NUMBERS = (
    "0", "00", "-0", "1e9", "1E-9", "0.0", ".0", "0/0", "1/0", "0/1", "1//2", "1/2/3", "1 1 1/2", "1/-2", "--1", "1.2.3", "1,000",
    "1.000,5", "1_000", "0x10", "١٢", "²", "½½", "1½/2", "∞", "NaN", "1e400", "9" * 30, "9" * 120, "0." + "3" * 80, "1/" + "9" * 60,
    "1/3", "1 1/3", "7/64", "999999", "1" + "0" * 38, "0." + "0" * 40 + "1", "1/1", "64/64", "2 65/64", "1-1/2", "10.5", "100", "12", "3.0",
)  # fmt: skip
ODD_WORDS = (
    "in", "mm", "ft", "thou", "m", "µm", '"', "'", "deg", "tpi", "%", "64ths", "16ths", "0ths", "half", "any", "each", "once", "up", "down", "exactly",
    "places", "reads", "reconcile", "share", "stock", "part", "hole", "slot", "notch", "corner", "wall", "rev", "rule", "units", "check", "clears", "is at least",
    "recover", "again", "off a print", "scale from", "shrunk up to 3 %", "unzeroed", "by tape", "among old inches", "in inch work", "plated", "made",
    "across(", "tapping(", "ans", "pi", "bolt_circle(", "6 BA", "M3", "18 SWG", "Paris lines", "Zoll", "sq in", "per ft", "edges", "centres", "along",
    "()", "(", ")", "[", "]", "{}", "~", "==", ">=", "->", "\x00", "\ud800", "🔧", "e\u0301", "\u202e", "\ufeff", "x" * 90,
)  # fmt: skip


@dataclass(frozen=True)
class Texts:
    """All real text that is spoilt: lines in the order of their sittings, whole sheets, sizes, and the keys of an hour."""

    sittings: list[list[str]] = field(default_factory=list)
    sheets: list[str] = field(default_factory=list)
    sizes: list[str] = field(default_factory=list)
    hour: list[str] = field(default_factory=list)

    @classmethod
    def read(cls) -> Texts:
        """Read the manual, the cases, the examples and the texts that the tests keep."""
        manual = (ROOT / "README.md").read_text("utf-8")
        sittings = [
            [row for row in block.splitlines() if row and not row.startswith((" ", "#"))]
            for block in re.findall(r"```shop\n(.*?)```", manual, re.DOTALL)
        ]
        for name in ("statements.txt", "faults.txt"):
            sittings += [
                [case_files.unescaped(row) for row in case_files.statements(block)]
                for block in case_files.blocks(name)
            ]
        sheets = [path.read_text("utf-8") for path in sorted((ROOT / "examples").glob("*.shop"))]
        sheets.append((ROOT / "tests" / "prompt" / "an_hour.shop").read_text("utf-8"))
        sheets += re.findall(r"```(?:[\w-]+\.shop)?\n(## .*?|hole in .*?)```", manual, re.DOTALL)
        data = ROOT / "tests" / "data"
        sheets += (data / "maker_sheets.txt").read_text("utf-8").split("=====\n")
        sittings += [sheet.splitlines() for sheet in sheets]
        makers = (data / "maker_lines.txt").read_text("utf-8").split("\n\n")
        sittings += [[row for row in habit.splitlines() if row[:2] != "# "] for habit in makers]
        rows = (ROOT / "tests" / "data" / "real_sizes.tsv").read_text("utf-8").splitlines()[1:]
        sizes = [row.split("\t")[0] for row in rows]
        sizes += [case_files.unescaped(text) for text, _ in case_files.sizes("sizes.txt")]
        table = re.findall(r"^\| .*? \|$", manual.partition("\n## Tests")[0], re.MULTILINE)
        sizes += [form for row in table for form in re.findall(r"`([^`]+)`", row) if "EXPR" not in form]
        hour = [
            row.removeprefix("! ")
            for row in (ROOT / "tests" / "prompt" / "an_hour.txt").read_text("utf-8").splitlines()
        ]
        return cls([s for s in sittings if s], sheets, [s for s in sizes if s.strip()], hour)


def spoilt(r: Random, line: str, other: str, sizes: list[str]) -> str:
    """The line with one to three mishaps, words of `other` or a size put into it among them."""
    for _ in range(r.choice((1, 1, 1, 2, 2, 3))):
        if len(line) > LONGEST:
            break
        line = r.choice(_MISHAPS)(r, line, other, sizes)
    return line


def _words(line: str) -> list[str]:
    return TOKEN.findall(line)


def _loses(r: Random, line: str, other: str, sizes: list[str]) -> str:
    words = _words(line)
    at = r.randrange(len(words) + 1)
    return "".join(words[:at] + words[at + r.randrange(1, 4) :])


def _doubles(r: Random, line: str, other: str, sizes: list[str]) -> str:
    words = _words(line)
    at = r.randrange(len(words) + 1)
    some = words[at : at + r.randrange(1, 12)]
    return "".join(words[:at] + some * r.choice((2, 2, 2, 3, 9)) + words[at + len(some) :])


def _swaps(r: Random, line: str, other: str, sizes: list[str]) -> str:
    words = _words(line)
    if len(words) < 2:
        return line
    one, two = r.randrange(len(words)), r.randrange(len(words))
    words[one], words[two] = words[two], words[one]
    return "".join(words)


def _grafts(r: Random, line: str, other: str, sizes: list[str]) -> str:
    words, theirs = _words(line), _words(other)
    at, there = r.randrange(len(words) + 1), r.randrange(len(theirs) + 1)
    return "".join(words[:at] + theirs[there : there + r.randrange(1, 9)] + words[at + r.randrange(5) :])


def _looks_alike(r: Random, line: str, other: str, sizes: list[str]) -> str:
    often = r.choice((3, 10, 30))
    return "".join(
        r.choice(ALIKE[sign]) if sign in ALIKE and not r.randrange(often) else sign for sign in line
    )


def _joins(r: Random, line: str, other: str, sizes: list[str]) -> str:
    one, two = (line, other) if r.randrange(2) else (other, line)
    return one + r.choice(JOINTS) + two


def _drops_blanks(r: Random, line: str, other: str, sizes: list[str]) -> str:
    often = r.choice((1, 2, 4))
    return "".join("" if sign == " " and not r.randrange(often) else sign for sign in line)


def _changes_a_figure(r: Random, line: str, other: str, sizes: list[str]) -> str:
    places = [n for n, sign in enumerate(line) if sign.isdigit()]
    if not places:
        return line
    at = r.choice(places)
    return line[:at] + r.choice("0123456789") + line[at + 1 :]


def _writes_an_odd_number(r: Random, line: str, other: str, sizes: list[str]) -> str:
    found = list(re.finditer(r"\d+(?:[./]\d+)*", line))
    if not found:
        return line + r.choice(ODD_NUMBERS)
    m = r.choice(found)
    return line[: m.start()] + r.choice(ODD_NUMBERS) + line[m.end() :]


def _puts_a_size(r: Random, line: str, other: str, sizes: list[str]) -> str:
    found = list(re.finditer(r'[-+]?\d[\d ./]* ?(?:in|mm|ft|thou|"|\')?', line))
    size = r.choice(sizes)
    if not found:
        return f"{line} {size}"
    m = r.choice(found)
    return f"{line[: m.start()]}{r.choice(('', '', '(', '-', '2 * '))}{size}{r.choice(('', '', ' ', ')'))}{line[m.end() :]}"


def _puts_a_word(r: Random, line: str, other: str, sizes: list[str]) -> str:
    words = _words(line)
    at = r.randrange(len(words) + 1)
    return "".join(
        [
            *words[:at],
            r.choice((" ", "")),
            r.choice(ODD_WORDS),
            r.choice((" ", "")),
            *words[at + r.randrange(2) :],
        ]
    )


def _pastes(r: Random, line: str, other: str, sizes: list[str]) -> str:
    """Blanks as a page, a table or a mail has them, and the signs that ends of lines leave."""
    often = r.choice((1, 2, 5))
    blanks = ("\u00a0", "\t", "\u2009", "\u202f", "  ", "\u3000", "\u200b", "\u00ad", "")
    line = "".join(r.choice(blanks) if sign == " " and not r.randrange(often) else sign for sign in line)
    return (
        r.choice(("", "", "- ", "• ", "1. ", "> ", "\ufeff", " "))
        + line
        + r.choice(("", "\r", " \\", ";", ",", "\t", " .", " …"))
    )


def _by_another_hand(r: Random, line: str, other: str, sizes: list[str]) -> str:
    """Figures and units as they are written in another land, or in a hurry."""
    kind = r.randrange(9)
    if kind == 0:
        return re.sub(r"(?<=\d)\.(?=\d)", ",", line)
    if kind == 1:
        return re.sub(
            r"\b(?:in|inch)\b", r.choice(("Zoll", "pouce", "''", '"', "inch.", "ins", "IN", "″")), line
        )
    if kind == 2:
        return re.sub(r"(?<=\d) (?=\d+/)", r.choice(("", "-", "  ", " - ", "+", " & ", "\u00a0", ".")), line)
    if kind == 3:
        return re.sub(r" (?:in|mm|thou)\b", "", line, count=r.choice((1, 1, 9)))
    if kind == 4:
        return re.sub(r"\s*([-+*/=±])\s*", r.choice((r"\1", r" \1", r"\1 ", r" \1 ")), line)
    if kind == 5:
        return re.sub(r"1/(2|4|8)\b", lambda m: {"2": "½", "4": "¼", "8": "⅛"}[m[1]], line)
    if kind == 6:
        return re.sub(r"(?<!\d)0\.(?=\d)", ".", line)
    if kind == 7:
        return re.sub(r"(\d+)/(\d+)", r"\1 / \2", line)
    return re.sub(r"\b(?:in|mm)\b", lambda m: {"in": "mm", "mm": "in"}[m[0]], line, count=1)


def _goes_deep(r: Random, line: str, other: str, sizes: list[str]) -> str:
    """Brackets in brackets, a chain of one sign, a figure without end."""
    kind, deep = r.randrange(4), r.choice((3, 39, 41, 160))
    if kind == 0:
        return "(" * deep + line + ")" * (deep - r.randrange(2))
    if kind == 1:
        return r.choice((" + ", " / ", " * ", " - ", "^", ", ", " of ")).join([line] * r.choice((3, 12, 60)))
    if kind == 2:
        return re.sub(r"\d+", lambda m: m[0] * r.choice((1, 1, 20, 200)), line)
    return line + r.choice((" ", "0", "'", '"', "(", "#", "/", ".", "-")) * r.choice((2, 300, 5000))


#: Names that are words of the language, of a unit in another land, or of the trade.
NAMES = (
    "in", "mm", "m", "M", "d", "r", "R1", "M3", "e", "E", "x", "X", "of", "at", "by", "to", "on", "up", "pi", "ans", "No", "line", "hand", "point", "pin",
    "zoll", "Zoll", "pouce", "ligne", "linie", "pied", "fod", "duim", "pulgada", "höhe", "größe", "ширина", "wall", "stock", "places", "share", "units",
    "taper", "reads", "again", "within", "half", "tap", "hole", "rev", "part", "max", "sqrt", "BA", "BSW", "thou", "tenth", "a1", "_", "_x", "l", "O", "I",
)  # fmt: skip


def _renames(r: Random, line: str, other: str, sizes: list[str]) -> str:
    """Another name in the place of one of its words, or before a sign of equality."""
    words = re.findall(r"[A-Za-z_]\w*", line)
    name = r.choice(NAMES)
    if not words or not r.randrange(4):
        return f"{name} = {line}"
    return re.sub(rf"\b{re.escape(r.choice(words))}\b", name, line)


def _breaks_off(r: Random, line: str, other: str, sizes: list[str]) -> str:
    at = r.randrange(len(line) + 1)
    return line[:at] if r.randrange(3) else line[at:]


def _other_case(r: Random, line: str, other: str, sizes: list[str]) -> str:
    return r.choice((str.upper, str.title, str.swapcase, str.casefold))(line)


def _as_an_argument(r: Random, line: str, other: str, sizes: list[str]) -> str:
    return r.choice(("({})", "abs({})", "sqrt({})", "as {}", "{} as mm", "{} as 64ths", "snap {}", "check {} = {}", "places {}, {}", "n reads {}",
                     "-{}", "{}^2", "recover {}", "{} within {}", "2 of {}", "{} per ft", "max({}, {})", "a = {}", "a, b = {}", "part a: 2 of b, {}",
                     "tapping({})", "{} ± {}", "divide {} into 5", "mark {} into {}", "stock b: {}, 36 in long", "hole in a: {} at {}",
                     "slot in a: {} by {} at {}", "notch in a: {} by {} at {} along left", "corner in a: {}", "wall in a: {}", "rev B: {}", "reconcile {} = {}", "share {} among 4 and 2", "# {}", "## {}",
                     "stock b: sheet {}, 6 in by 12 in", "check {} clears {} by {}", "crown 6 across {} radius {}", "pack {} from {}", "across({}, 1)")).replace("{}", line)  # fmt: skip


_MISHAPS = (
    _loses, _loses, _doubles, _swaps, _swaps, _grafts, _grafts, _looks_alike, _joins, _drops_blanks, _changes_a_figure, _changes_a_figure,
    _writes_an_odd_number, _pastes, _by_another_hand, _by_another_hand, _goes_deep, _renames, _puts_a_size, _puts_a_size, _puts_a_word, _breaks_off, _other_case, _as_an_argument,
)  # fmt: skip


@dataclass
class Sitting:
    """A real sitting, spoilt line by line: about one line in three stands as it was, so that names are set."""

    r: Random
    texts: Texts

    def lines(self) -> list[str]:
        """Its lines, at most thirty."""
        base = self.r.choice(self.texts.sittings)
        start = self.r.randrange(max(1, len(base) - 20))
        return [self._line(line) for line in base[start : start + self.r.randrange(4, 30)]]

    def _line(self, line: str) -> str:
        r, texts = self.r, self.texts
        kind = r.randrange(10)
        if kind < 3:
            return line
        if kind == 3:
            line = r.choice(texts.sizes)
        elif kind == 4:
            line = r.choice(r.choice(texts.sittings))
        return spoilt(r, line, r.choice(r.choice(texts.sittings)), texts.sizes)


#: Lines that change how the rest is told, or are of the sheet, wherever they come to stand.
_HALFWAY = (
    "units mm first", "units inch first", "units inch without feet", "units mm", "rule 32nds", "rule half mm", "rule mm", "rule 7ths", "rule halves", "rule",
    "rev A: as found", "rev B, 3 May 2026: wider", "rev Z", "rev 2: [bay]", "## ", "#", "# [bay] is 2 in", "", "   ", "ans", "ans / 5", "check ans = ans",
    "reconcile rack = 5 of bay + 6 of slat", "wall in lid: 1/16 in", "corner in rail: 3 mm", "stock brass: 1/16 in by 1/4 in, 36 in long", "bay = 2 in",
    "hole in runner: 3 mm at 1/2 in by 1/8 in", "part runner: 2 of brass, 6 in by 1/4 in by 1/8 in", "slot in plate: 1 in by 1/4 in at 1 in by 1 in", "notch in plate: 1 in by 1/4 in at 1 in along lower edge",
)  # fmt: skip


def spoilt_sheet(r: Random, texts: Texts) -> str:
    """A whole sheet with some lines spoilt, lost, doubled, moved, or taken from another sheet or a sitting."""
    rows = r.choice(texts.sheets).splitlines()
    if r.randrange(3) == 0:
        rows += r.choice(texts.sheets).splitlines()
    out: list[str] = []
    often = r.choice((3, 8, 20))
    for row in rows:
        kind = r.randrange(often)
        if kind == 0:
            out.append(spoilt(r, row, r.choice(r.choice(texts.sittings)), texts.sizes))
        elif kind == 1 and often == 3:
            out.append(r.choice(r.choice(texts.sittings)))
        else:
            out.append(row)
    for _ in range(r.randrange(4)):
        one, two = r.randrange(len(out)), r.randrange(len(out))
        out[one], out[two] = out[two], out[one]
    for _ in range(r.randrange(4)):
        out.insert(r.randrange(len(out) + 1), r.choice(_HALFWAY))
    if r.randrange(4) == 0:
        del out[r.randrange(len(out)) :: r.choice((2, 3, 5))]
    return r.choice(("\n", "\n", "\n", "\r\n", "\r")).join(out) + r.choice(("", "\n", "\x00", "\ufeff"))


def spoilt_table(r: Random, texts: Texts) -> list[list[str]]:
    """Rows of a table with a column headed `size`, some cells spoilt, some rows too long or too short."""
    heads = r.choice(
        (
            ["part", "size", "note"],
            ["size"],
            ["part", "size"],
            ["Size ", "size"],
            ["part", "SIZE"],
            ["a", "b"],
        )
    )
    rows = [list(heads)]
    for _ in range(r.randrange(1, 25)):
        cells = [
            r.choice(texts.sizes) if head.strip() == "size" else r.choice(("", "tray", 'a "b"', "=1+1", "é"))
            for head in heads
        ]
        for n in range(len(cells)):
            if not r.randrange(3):
                cells[n] = spoilt(r, cells[n] or "1 in", r.choice(texts.sizes), texts.sizes)
        if not r.randrange(9):
            cells = cells * r.randrange(3)
        rows.append(cells)
    return rows


KEYS = (
    "\r", "\r", "\r", "\t", "\t", "\x7f", "\x7f", "\x1b", "\x1b[A", "\x1b[B", "\x1b[C", "\x1b[D", "\x01", "\x05", "\x0b", "\x15", "\x17", "\x19",
    "\x12", "\x07", "\x03", "\x0c", "\x1b[3~", "\x1b[H", "\x1b[F", "\x1b[5~", "\x1b[6~", "\x1b[Z", "\x1bb", "\x1bf", "\x1bd", "\x1f", "\x14",
    "\x1b[200~2 in\n3 in / 5\n\x1b[201~",
)  # fmt: skip


def keys(r: Random, texts: Texts, number: int) -> list[str]:
    """So many keystrokes: lines of an hour's work or of a sitting, spoilt or not, with keys that edit between."""
    out: list[str] = []
    while len(out) < number:
        kind = r.randrange(5)
        if kind == 0:
            out += [r.choice(KEYS) for _ in range(r.randrange(1, 6))]
            continue
        line = r.choice(texts.hour) if kind < 3 else r.choice(r.choice(texts.sittings))
        if r.randrange(2):
            line = spoilt(r, line, r.choice(r.choice(texts.sittings)), texts.sizes)
        line = "".join(
            sign for sign in line if sign == "\t" or (sign.isprintable() and not "\ud800" <= sign < "\ue000")
        )
        signs: list[str] = []
        for sign in line[:120]:
            signs.append(sign)
            if not r.randrange(25):
                signs.append(r.choice(KEYS[3:]))
        out += [*signs, r.choice(("\r", "\r", "\r", "\r", "\x03", "\x15"))]
    return out[:number]
