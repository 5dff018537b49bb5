"""ISO 286-1 tolerance zones to 500 mm: the limits that a letter and a grade allow.

Everything is read from the printed tables (`iso286_*` in tables): the standard's
formulas miss its own tables, which are rounded, in about one cell of five. Only the
rules that the standard itself states are computed here: the other deviation is one
grade away, and js lies half to each side.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from typing import Any, ClassVar

from fractions_shop.errors import ArgumentError, ShopError
from fractions_shop.size.arguments import SizeLike, as_length
from fractions_shop.size.cached import cached_property
from fractions_shop.size.limits import Limits
from fractions_shop.size.notation import as_meant, decimal, inch_text, readable
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.standing import worse
from fractions_shop.size.told import Told
from fractions_shop.tables import rows

#: Standard tolerance grades, finest first: IT01, IT0, IT1 to IT18.
GRADES = ("01", "0", *(str(n) for n in range(1, 19)))
#: The largest size of these tables, in mm.
LARGEST = Fraction(500)

_ZONE = re.compile(r"([A-Za-z]{1,2}) ?([0-9]{1,2})")
_COLUMN = re.compile(r"um_over_([0-9]+)_to_([0-9]+)_mm")

Step = tuple[int, int]


@dataclass(frozen=True, repr=False)
class Zone(Told):
    """One part's tolerance zone: `name` (H7), the `size` it belongs to, and its deviations.

    `upper_um` and `lower_um` are micrometres from the size, `step` the range of sizes
    (over, to and including, in mm) whose row applies, `notes` what a user must know;
    `standing` says how far to trust its row, and `source` where that is from.

    >>> str(find_zone(Quantity.millimetres(10), "H7").limits)
    '10 mm +0.015/+0 mm'
    """

    told_as: ClassVar[str] = "fit"

    #: What stands in its JSON object beside its fields.
    data_properties: ClassVar[tuple[str, ...]] = (
        "limits",
        "hole",
    )

    name: str
    size: Quantity
    grade: str
    upper_um: Fraction
    lower_um: Fraction
    step: Step
    notes: tuple[str, ...] = ()
    standing: str = "printed"
    source: str = ""

    @property
    def hole(self) -> bool:
        """Whether it is a hole's zone (capital letter) rather than a shaft's."""
        return self.name[0].isupper()

    @cached_property
    def limits(self) -> Limits:
        """The two limits of size, about the size itself; one part, however often it is asked for."""
        plus, minus = (Quantity(um / 1000, standing=self.standing) for um in (self.upper_um, -self.lower_um))
        return Limits(self.size, plus, minus).labelled(f"{'hole' if self.hole else 'shaft'} {self.name}")


def zone(size: SizeLike, name: str) -> Limits:
    """The limits of one part, by ISO 286-1: `zone("10 mm", "h9")`.

    A capital letter is a hole, a small one a shaft. `size` is over 0 up to 500 mm;
    inches are taken as they are and fall into the metric step. ShopError, saying what
    there is, for a size, letter or grade outside the tables.

    >>> g6 = zone("1/4 in", "g6")
    >>> g6.upper.mm, g6.lower.mm
    (Fraction(1269, 200), Fraction(792, 125))
    """
    return find_zone(size, name).limits


def find_zone(size: SizeLike, name: str) -> Zone:
    """As `zone`, with the deviations in micrometres, the step of sizes and the notes."""
    size = checked_size(size)
    letter, grade = read_zone(name)
    graded = _of_grade("iso286_grades", f"IT{grade}")
    tolerance = Fraction(graded[_column("iso286_grades", size)])
    standing, source = worse("rule", graded["standing"]), graded["source"]
    if letter in ("JS", "js"):
        upper, lower, notes = tolerance / 2, -tolerance / 2, _half_notes(letter, grade, tolerance)
        step = _step("iso286_shafts", size)
    else:
        row, column, step = _row(letter, grade, size)
        upper, lower = _deviations(row, column, grade, size, tolerance)
        notes = _memory_notes(row, step, letter + grade)
        standing, source = _standing(row, step), row["source"]
    if size.mm <= 1 and GRADES.index(grade) >= GRADES.index("14"):
        notes += ("grades IT14 to IT18 are not meant for sizes up to 1 mm (from memory of ISO 286-1)",)
    return Zone(letter + grade, size, f"IT{grade}", upper, lower, step, notes, standing, source)


def checked_size(size: Any) -> Quantity:
    """`size` as a length that the tables cover: over 0, up to and including 500 mm."""
    length = as_length(size)
    if not 0 < length.mm <= LARGEST:
        raise ShopError(
            f"the ISO 286 tables here run over 0 up to 500 mm (19.68 in), and this is {_mm(length)}"
        )
    return length


def checked_name(text: Any) -> str:
    """The written name of a zone or fit; ArgumentError for what is no text."""
    if not isinstance(text, str):
        raise ArgumentError(f"a fit is named by text such as 'H7/g6', not by {type(text).__name__}")
    return text


def read_zone(text: str) -> tuple[str, str]:
    """Letter and grade of a zone such as H7, js6, ZA8; ShopError if it is not one."""
    checked_name(text)
    match = _ZONE.fullmatch(as_meant(text).strip())
    if match is None:
        raise ShopError(f"{text!r} is not a tolerance zone: write a letter and a grade, such as H7 or g6")
    letter, grade = match.groups()
    if letter not in (letter.upper(), letter.lower()):
        raise ShopError(
            f"{text!r} mixes capitals and small letters: {letter.upper()}{grade} is a hole "
            f"and {letter.lower()}{grade} a shaft"
        )
    if letter not in letters(hole=letter.isupper()):
        kind = "hole" if letter.isupper() else "shaft"
        raise ShopError(f"ISO 286 has no {kind} {letter}: there are {' '.join(letters(letter.isupper()))}")
    if grade not in GRADES:
        raise ShopError(f"ISO 286 has no grade {grade}: there are IT01, IT0 and IT1 to IT18")
    return letter, grade


@cache
def letters(hole: bool) -> tuple[str, ...]:
    """The letters that the tables have, for holes or for shafts, in the standard's order."""
    tabled = tuple(dict.fromkeys(row["letter"] for row in rows(_table(hole))))
    after_h = tabled.index("H" if hole else "h") + 1
    return (*tabled[:after_h], "JS" if hole else "js", *tabled[after_h:])


def inch_note(size: Quantity, step: Step) -> tuple[str, ...]:
    """What to say of a size that comes out in inches, as no odd metric size does."""
    if not in_inches(size):
        return ()
    over, to = step
    return (
        f"ISO 286 is metric: {inch_text(size)} is {_mm(size)}, which takes the step over {over} to {to} mm",
    )


def in_inches(size: Quantity) -> bool:
    """Whether a length is one that inches write short: a readable fraction or five decimals.

    A millimetre is 5/127 in, so a metric size has 127 below the line, and never passes.
    """
    inch = size.inch
    return (readable(inch) and inch.denominator != 127) or (inch * 100_000).denominator == 1


# The tables


def _table(hole: bool) -> str:
    return "iso286_holes" if hole else "iso286_shafts"


@cache
def _steps(table: str) -> tuple[tuple[int, int, str], ...]:
    """The size columns of a table: over, to, and the header."""
    matches = (_COLUMN.fullmatch(header) for header in rows(table)[0])
    return tuple((int(m[1]), int(m[2]), m[0]) for m in matches if m)


def _column(table: str, size: Quantity) -> str:
    return _steps(table)[_place(table, size)][2]


def _step(table: str, size: Quantity) -> Step:
    return _steps(table)[_place(table, size)][:2]


def _place(table: str, size: Quantity) -> int:
    """Which step a size lies in: they follow one another without a gap."""
    return next(n for n, (_, to, _) in enumerate(_steps(table)) if size.mm <= to)


def _figure(table: str, size: Quantity, grade: str) -> Fraction:
    return Fraction(_of_grade(table, grade)[_column(table, size)])


def _of_grade(table: str, grade: str) -> dict[str, str]:
    return next(row for row in rows(table) if row["grade"] == grade)


@cache
def _grades(text: str) -> tuple[str, ...]:
    """The grades that a table row is for: `01-3 8-18`, `6`."""
    grades: list[str] = []
    for part in text.split():
        first, _, last = part.partition("-")
        grades += GRADES[GRADES.index(first) : GRADES.index(last or first) + 1]
    return tuple(grades)


def _row(letter: str, grade: str, size: Quantity) -> tuple[dict[str, str], str, Step]:
    """The row that gives this letter and grade a deviation at this size."""
    table = _table(letter.isupper())
    _refuse_up_to_1_mm(letter, grade, size)
    of_letter = [row for row in rows(table) if row["letter"] == letter]
    of_grade = [row for row in of_letter if grade in _grades(row["grades"])]
    if not of_grade:
        known = dict.fromkeys(g for row in of_letter for g in _grades(row["grades"]))
        raise ShopError(
            f"there is no {letter}{grade}: the table has {letter} in {_spoken(sorted(known, key=GRADES.index))}"
        )
    column = _column(table, size)
    for row in of_grade:
        if row[column]:
            return row, column, _step(table, size)
    filled = [(over, to) for over, to, c in _steps(table) if any(row[c] for row in of_grade)]
    raise ShopError(
        f"there is no {letter}{grade} at {_mm(size)}: "
        f"the table has it over {filled[0][0]} to {filled[-1][1]} mm"
    )


def _refuse_up_to_1_mm(letter: str, grade: str, size: Quantity) -> None:
    """ISO 286-1 keeps A, B (and N coarser than IT8, from memory) from sizes up to 1 mm."""
    if size.mm > 1:
        return
    if letter in ("A", "B", "a", "b") or (letter == "N" and GRADES.index(grade) > GRADES.index("8")):
        raise ShopError(f"ISO 286 has no {letter}{grade} for sizes up to 1 mm, and this is {_mm(size)}")


def _deviations(
    row: dict[str, str], column: str, grade: str, size: Quantity, tolerance: Fraction
) -> tuple[Fraction, Fraction]:
    """Upper and lower deviation in micrometres; the other one is a grade away.

    Holes K, M, N to IT8 and P to ZC to IT7 add delta, one grade less the next finer,
    so that a hole-basis fit and its shaft-basis twin come out alike.
    """
    value = Fraction(row[column])
    coarsest = row.get("delta_to_grade")
    if coarsest and GRADES.index(grade) <= GRADES.index(coarsest):
        value += _figure("iso286_delta", size, grade=f"IT{grade}")
    if row["deviation"] in ("es", "ES"):
        return value, value - tolerance
    return value + tolerance, value


def _half_notes(letter: str, grade: str, tolerance: Fraction) -> tuple[str, ...]:
    """The rule for js: half of the grade to each side, exactly, even when the grade is odd."""
    if tolerance % 2 != 1 or grade not in ("7", "8", "9", "10", "11"):
        return ()
    half, _ = decimal(tolerance / 2)
    return (
        f"{letter}{grade} is kept at half the grade, {half} um to each side; "
        f"some tables print {(tolerance - 1) / 2} um",
    )


def _standing(row: dict[str, str], step: Step) -> str:
    """How far to trust a row at one step of sizes."""
    if f"{step[0]}-{step[1]}" in row["from_memory"].split():
        return "from memory"
    return "one source" if row["standing"] == "from memory" else row["standing"]


def _memory_notes(row: dict[str, str], step: Step, name: str) -> tuple[str, ...]:
    if _standing(row, step) != "from memory":
        return ()
    note = f"the deviation of {name} in this step is from memory of ISO 286-1: check it before use"
    return (f"{note} ({row['note']})",) if row["note"] else (note,)


def _mm(size: Quantity) -> str:
    return f"{decimal(size.mm)[0]} mm"


def _spoken(grades: list[str]) -> str:
    """`grades 6, 7 and 8`; a long run as `grades 3 to 18`."""
    places = [GRADES.index(g) for g in grades]
    if len(grades) > 4 and places == list(range(places[0], places[-1] + 1)):
        return f"grades {grades[0]} to {grades[-1]}"
    return f"grades {', '.join(grades[:-1])} and {grades[-1]}"
