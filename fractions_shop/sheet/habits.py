"""What is asked of makers' ways of writing a line, each loaded when a line first needs it: few sheets have a fault."""

from __future__ import annotations

from collections.abc import Iterator

from fractions_shop.errors import InputError
from fractions_shop.language.nodes import Name, ShownExpression, Worded
from fractions_shop.sheet.whole_lines import Habits, Meant

#: How lines begin that may be read as a size though they ask for something else.
_MAY_BE_LOST = (
    "saw", "kerf", "the", "allow", "radius", "round", "corner", "mat", "tool", "tol", "general", "break", "chamfer", "bevel",
    "ease", "remove", "deburr", "nts", "n.t.s", "issue", "iss", "alt", "mod", "unit",
)  # fmt: skip


def part_means(line: str) -> Iterator[Meant]:
    """What a part line may mean."""
    from fractions_shop.sheet.part_habits import part_habits

    return part_habits(line)


def stock_means(line: str) -> Iterator[Meant]:
    """What a stock line may mean."""
    from fractions_shop.sheet.stock_habits import stock_habits

    return stock_habits(line)


def cut_means(line: str) -> Iterator[Meant]:
    """What a line that cuts in a part may mean."""
    from fractions_shop.sheet.cut_habits import cut_habits

    return cut_habits(line)


def places_said(said: str, word: str) -> tuple[str, str] | None:
    """What is said of places that are told in words, and an example; None for any other."""
    from fractions_shop.sheet.cut_habits import places_in_words

    return places_in_words(said, word)


def lost_in_a_cut(word: str, sizes: tuple[ShownExpression, ...]) -> tuple[Name, str] | None:
    """The first word left out that asks for another cut, with what is said of it; None where none does."""
    if not any(isinstance(node.expression, Worded) for node in sizes):
        return None
    from fractions_shop.sheet.cut_habits import changes_the_cut

    return changes_the_cut(word, sizes)


def _line_means(line: str) -> Iterator[Meant]:
    from fractions_shop.sheet.line_habits import line_habits

    return line_habits(line)


def _revision_means(line: str) -> Iterator[Meant]:
    from fractions_shop.sheet.line_habits import revision_habits

    return revision_habits(line)


#: Of a line that begins as a revision.
REVISION_HABITS = Habits(_revision_means)
#: Of lines that are no statement that can be read.
LINE_HABITS = Habits(_line_means)


def lost_alone(row: str) -> InputError | None:
    """The fault of a line that would be read as a size alone, though it asks for what a sheet has elsewhere."""
    low = row.lstrip().lower()
    if not low.startswith(_MAY_BE_LOST) and not (":" in low and " in " in low):
        return None  # nearly every line
    from fractions_shop.sheet.line_habits import asks_elsewhere

    return asks_elsewhere(row)
