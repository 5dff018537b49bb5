"""Scores the reader of written sizes over a list of texts with what they mean, class by class.

    python tests/score_written.py [FILE] [--all]

The table it prints: right, refused, wrong, and advice that leads to another size.
"""

from __future__ import annotations

import re
import sys
from collections import Counter
from fractions import Fraction
from pathlib import Path

from fractions_shop.language.written import ThreadSaid, Written, written
from fractions_shop.size.limits import Limits
from fractions_shop.size.quantity import Quantity

DATA = Path(__file__).parent / "data" / "real_sizes.tsv"


def rows(path: Path = DATA) -> list[tuple[str, str, str]]:
    """Text, meaning, class of each line."""
    found = []
    for line in path.read_text("utf-8").splitlines():
        if line.strip() and not line.startswith(("#", "text\t")):
            text, meant, kind = line.split("\t")
            found.append((text, meant, kind))
    # A line may begin with the sign of a comment: #10-24 x 1/2".
    found += [
        tuple(line.split("\t"))  # type: ignore[misc]
        for line in path.read_text("utf-8").splitlines() if line.startswith("#") and line.count("\t") == 2
    ]  # fmt: skip
    return found


def verdict(text: str, meant: str, kind: str, said: Written | None = None) -> str:
    """`right`, `refused` or `wrong`."""
    said = said or written(text)
    one = said.one
    if meant.startswith("REFUSE"):
        return "right" if one is None or one.doubts else "wrong"
    if meant.endswith("per inch"):
        items = said.items
        if len(items) == 1 and items[0].kind == "per" and isinstance(items[0].value, Quantity):
            return "right" if items[0].value.value * Fraction(127, 5) == int(meant.split()[0]) else "wrong"
        return "refused" if one is None else "wrong"
    if one is None:
        return "refused"
    return "right" if _same(one.value, one.kind, meant, kind) else "wrong"


def _same(value: object, of: str, meant: str, kind: str) -> bool:
    if meant.startswith("THREAD"):
        inches = Fraction(re.search(r"major ([0-9./]+) in", meant)[1])  # type: ignore[index]
        return isinstance(value, ThreadSaid) and abs(value.major.inch - inches) < Fraction(1, 5000)
    if meant.startswith("LIMITS"):
        figures, unit = meant.removeprefix("LIMITS ").split()
        nominal, plus, minus = map(Fraction, figures.split(","))
        mm = 1 if unit == "mm" else Fraction(127, 5)
        if not isinstance(value, Limits):
            return False
        return (value.nominal.mm, value.upper.mm, value.lower.mm) == (
            nominal * mm, (nominal + plus) * mm, (nominal - minus) * mm,
        )  # fmt: skip
    if not isinstance(value, Quantity):
        return isinstance(value, ThreadSaid) and value.major.mm == Fraction(meant)
    if value.power == 0:
        return kind == "bare figure" and value.value * Fraction(127, 5) == Fraction(meant)
    return value.mm == Fraction(meant)


def main() -> None:
    """Print the table."""
    path = Path(next((a for a in sys.argv[1:] if not a.startswith("-")), DATA))
    table: dict[str, Counter[str]] = {}
    for text, meant, kind in rows(path):
        got = verdict(text, meant, kind)
        table.setdefault(kind, Counter())[got] += 1
        if got != "right" or "--all" in sys.argv:
            said = written(text)
            print(
                f"{got:8} {kind:18} {text!r} meant {meant}: {[(i.kind, str(i.value)) for i in said.items]}"
                f" left {[w.text for w in said.left]} unread {[w.text for w in said.unread]}"
            )
    total: Counter[str] = Counter()
    for kind, counts in sorted(table.items()):
        total += counts
        print(f"{kind:20} {counts['right']:4} {counts['refused']:4} {counts['wrong']:4}")
    print(f"{'all':20} {total['right']:4} {total['refused']:4} {total['wrong']:4}")


if __name__ == "__main__":
    main()
