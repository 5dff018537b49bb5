"""What is added by the recipes of DEVELOPERS.md, file by file, to try whether they are true.

Each edit is a file, the text that it stands before (none: the file is new), and what is added.
"""

from __future__ import annotations

from typing import NamedTuple


class Edit(NamedTuple):
    """Text `added` to a file before `place`; without a place it is the whole of a new file."""

    path: str
    added: str
    place: str = ""


_LIBRARY = '''\
"""Double: a size taken twice."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from fractions_shop.size.arguments import SizeLike, as_length
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.rule import Rule, as_rule
from fractions_shop.size.told import Told


@dataclass(frozen=True, repr=False)
class Doubled(Told):
    """A size taken twice: `asked` is the size, `twice` what two of it come to.

    >>> double("2 in").twice.inch
    Fraction(4, 1)
    """

    told_as: ClassVar[str] = "double"

    asked: Quantity
    twice: Quantity
    rule: Rule


def double(size: SizeLike, rule: Rule | str = "64ths") -> Doubled:
    """Two of a size, to be marked on `rule`; ShopError for what is no length.

    >>> str(double("1 1/2 in").twice)
    '3 in'
    """
    size = as_length(size)
    return Doubled(size, size * 2, as_rule(rule))
'''
_ROOM = '''\
"""double: a size taken twice."""

from __future__ import annotations

from fractions_shop.figures.plain import Lines
from fractions_shop.figures.wording import both
from fractions_shop.layout.double import Doubled, double
from fractions_shop.requests.inputs import Inputs
from fractions_shop.requests.rooms import Room
from fractions_shop.size.quantity import Quantity


def _answer(given: Inputs) -> tuple[Doubled, Quantity]:
    result = double(given.length(0), given.rule)
    return result, result.twice


def _lines(result: Doubled) -> Lines:
    return [f"two of {both(result.asked)} make {both(result.twice)}"]


ROOM = Room(
    word="double",
    forms=("double SIZE",),
    example="double 2 in",
    answer=_answer,
    lines=_lines,
    on_a_rule=lambda result: ((result.twice,), result.rule),
)
'''
#: It opens a request only before something of its own: a sheet may have it as a name.
_WORD = r"""DOUBLE.3: /double\b(?! *(?:[-+*\/^)=,×÷]|(?:reads|as|of|is|clears)\b|#(?![0-9])|$))/i
"""
_FACE = "fractions_shop/__init__.py"
REQUEST = (
    Edit("fractions_shop/layout/double.py", _LIBRARY),
    Edit(_FACE, '    "layout.double": ("Doubled", "double"),\n', '    "layout.share": ('),
    Edit(_FACE, '    "Doubled",\n', '    "DoubtfulReading",\n    "Face"'),
    Edit(_FACE, '    "double",\n', '    "drills",\n    "face"'),
    Edit(_FACE, "    from fractions_shop.layout.double import Doubled, double\n", "    from fractions_shop.layout.features "),
    Edit("grammar/shop.lark", "        | DOUBLE length                       -> request\n", "        | RULE rule_name  "),
    Edit("grammar/shop.lark", _WORD, "SHARE.3: "),
    Edit("fractions_shop/requests/double.py", _ROOM),
    Edit("fractions_shop/requests/__init__.py", '    Row("double", "double", "a size taken twice"),\n', '    Row("rule", '),
    Edit("README.md", "| `double EXPR` | the size taken twice |\n", "| `rule RULE` "),
    Edit("tests/cases/statements.txt", "> double 2 in\ntwo of 2 in (50.8 mm) make 4 in (101.6 mm)\n\n", "> "),
)  # fmt: skip
UNIT = (
    Edit(
        "fractions_shop/size/units.py",
        '    Unit("dm", Fraction(100), "decimetre", ("dm", "decimetre", "decimetres", "dm.")),\n',
        '    Unit("tpi", ',
    ),
    Edit(
        "tests/every_form.py",
        '    **dict.fromkeys(("dm", "decimetre", "decimetres", "dm."), Fraction(100)),\n',
        '    **dict.fromkeys(("m", "metre"',
    ),
)
RULE = (
    Edit(
        "fractions_shop/size/rule.py",
        '    "quarter mm": (Fraction(1, 4), ("0.25 mm",)),\n',
        '    "half mm": (Fraction(1, 2),',
    ),
    Edit("tests/every_form.py", '    "quarter mm": Fraction(1, 4),\n', '    "half mm": Fraction(1, 2),'),
)
FUNCTION = (
    Edit(
        "fractions_shop/language/functions.py",
        '    Function("twice", "two of a size", "twice(3/8 in)", lambda size: size * 2),\n',
        '    Function("major", ',
    ),
    Edit("README.md", "| `twice(size)` | two of a size |\n", "| `1/8 in per ft`, `per_foot(gain)`"),
)
_WRITER = '''\
"""The named sizes of a sheet, one a line."""

from __future__ import annotations

from collections.abc import Iterator

from fractions_shop.figures.size_words import size_line
from fractions_shop.sheet.worked_sheet import WorkedSheet
from fractions_shop.show import own_mark
from fractions_shop.show.doubt_marks import said_of
from fractions_shop.show.size_table import UNDONE, why_undone
from fractions_shop.size.notation import told_in


def size_list(sheet: WorkedSheet) -> str:
    """Every named size: its name, the size in both units, and what is doubtful of it; or why it was not worked out."""
    with told_in(sheet.units):
        return "\\n".join([own_mark.COMMENT, *_rows(sheet)]) + "\\n"


def _rows(sheet: WorkedSheet) -> Iterator[str]:
    remarks = said_of(sheet.worked, sheet.doubts)
    for item in sheet.worked:
        if item.undone and item.line.sets:
            yield f"{item.line.sets}: {UNDONE}: {why_undone(item)}"
        elif item.line.sets and item.value is not None:
            remark = remarks.get(item.line.number, "")
            yield f"{item.line.sets}: {size_line(item.value)}{remark and f'; {remark}'}"
'''
_METHOD = '''\
    def to_list(self) -> str:
        """The named sizes, one a line."""
        from fractions_shop.show.size_list import size_list

        return size_list(self)

'''
OUTPUT = (
    Edit("fractions_shop/show/size_list.py", _WRITER),
    Edit("fractions_shop/show/sheet.py", _METHOD, "    def to_data("),
    Edit(
        "fractions_shop/command/forms.py",
        '    "list": SheetForm(".lst", "the named sizes, one a line", lambda sheet, _: sheet.to_list()),\n',
        '    "json": SheetForm(',
    ),
    Edit(
        "fractions_shop/command/overwriting.py",
        '    re.escape(own_mark.COMMENT.encode()) + rb"\\n",\n',
        '    *(re.escape(",".join(header)',
    ),
)
