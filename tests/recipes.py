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


_ROOM = '''\
"""double: a size taken twice."""

from __future__ import annotations

from dataclasses import dataclass

from fractions_shop.figures.plain import Lines
from fractions_shop.figures.wording import both
from fractions_shop.requests.inputs import Inputs
from fractions_shop.requests.rooms import Room
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.rule import Rule


@dataclass(frozen=True)
class Doubled:
    """A size taken twice: `asked` is the size, `twice` what two of it come to."""

    asked: Quantity
    twice: Quantity
    rule: Rule


def _answer(given: Inputs) -> tuple[Doubled, Quantity]:
    size = given.length(0)
    return Doubled(size, size * 2, given.rule), size * 2


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
REQUEST = (
    Edit("grammar/shop.lark", "        | DOUBLE length                       -> request\n", "        | RULE rule_name  "),
    Edit("grammar/shop.lark", "DOUBLE.2: /double\\b/i\n", "RULE.2: "),
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

from fractions_shop.figures.size_words import size_line
from fractions_shop.sheet.worked_sheet import WorkedSheet
from fractions_shop.show import own_mark


def size_list(sheet: WorkedSheet) -> str:
    """Every named size: its name and the size in both units."""
    rows = [f"{name}: {size_line(size)}" for name, size in sheet.sizes.items()]
    return "\\n".join([own_mark.COMMENT, *rows]) + "\\n"
'''
OUTPUT = (
    Edit("fractions_shop/show/size_list.py", _WRITER),
    Edit(
        "fractions_shop/command/forms.py",
        '    "list": SheetForm(".lst", "the named sizes, one a line", lambda sheet, *_: size_list(sheet)),\n',
        '    "json": SheetForm(',
    ),
    Edit(
        "fractions_shop/command/forms.py",
        "from fractions_shop.show.size_list import size_list\n",
        "\n\nclass SheetForm(",
    ),
    Edit(
        "fractions_shop/command/overwriting.py",
        '    re.escape(own_mark.COMMENT.encode()) + rb"\\n",\n',
        '    *(re.escape(",".join(header)',
    ),
)
