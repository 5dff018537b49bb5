"""How doubtful sizes are marked, and what is said of them beneath a table."""

from __future__ import annotations

from collections.abc import Iterable

from fractions_shop.sheet.doubts import Doubt, Doubts
from fractions_shop.sheet.solve import Worked
from fractions_shop.show.making import odds_text as odds_words

#: Readings told one by one beneath a table; the rest are counted.
_TOLD = 12


def marked(name: str, line: int, doubts: Doubts) -> str:
    """A name, with an asterisk when the size of its line is doubtful or rests on one that is."""
    return f"{name} *" if line in doubts.resting or line in doubts.lines else name


def remark(doubts: Doubts, worked: Iterable[Worked], kind: str) -> str:
    """What the asterisks of a table mean; nothing where it has none.

    `kind` is that of the lines in the table, statement or part.
    """
    numbers = {w.line.number for w in worked if w.line.kind == kind and (kind == "part" or w.line.sets)}
    resting = bool(numbers & doubts.resting)
    if not resting and not numbers & doubts.lines:
        return ""
    told = [f"{doubt.name} (line {doubt.line}) is {taken(doubt)}" for doubt in doubts.readings[:_TOLD]]
    more = len(doubts.readings) - len(told)
    told += [f"and so {'is' if more == 1 else 'are'} {more:,} more"] if more else []
    if resting:
        which = "it" if len(doubts.readings) == 1 else "one of them"
        told.append(f"what rests on {which} is marked too")
    return f"* {'; '.join(told)}"


def taken(doubt: Doubt) -> str:
    """`taken from a reading, 2.19 to 1 against: check`."""
    return f"taken from a reading, {odds_words(doubt.odds)}: check"
