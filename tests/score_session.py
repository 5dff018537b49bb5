"""Scores the session (and every advice it prints) over texts with what they mean.

python tests/score_session.py [FILE]
"""

from __future__ import annotations

import sys
from collections import Counter
from fractions import Fraction
from pathlib import Path

from score_written import DATA, rows

from fractions_shop import InputError, Session
from fractions_shop.language.advice.offers import Advice
from fractions_shop.size.limits import Limits
from fractions_shop.size.quantity import Quantity


def wanted(meant: str) -> tuple[Fraction, ...] | None:
    """The size in mm, or the three figures of limits; None where it is not one size."""
    if meant.startswith("REFUSE") or meant.endswith("per inch"):
        return None
    if meant.startswith("THREAD"):
        return (Fraction(meant.split("major ")[1].split(" in")[0]) * Fraction(127, 5),)
    if meant.startswith("LIMITS"):
        figures, unit = meant.removeprefix("LIMITS ").split()
        mm = 1 if unit == "mm" else Fraction(127, 5)
        nominal, plus, minus = (Fraction(one) * mm for one in figures.split(","))
        return nominal, nominal + plus, nominal - minus
    return (Fraction(meant),)


def is_right(value: object, meant: str, kind: str) -> bool:
    """Whether a value is what was meant."""
    want = wanted(meant)
    if want is None:
        if isinstance(value, Quantity) and value.power == 0 and kind == "taper or rate":
            return True  # the language's own slope, which is no size
        return meant.endswith("per inch") and isinstance(value, Quantity) and value.power == -1
    if isinstance(value, Limits) and value.power == 0:
        return False
    if isinstance(value, Limits):
        return (value.nominal.mm, value.upper.mm, value.lower.mm) == want
    if not isinstance(value, Quantity):
        return False
    if value.power == 0:
        return kind == "bare figure" and value.value * Fraction(127, 5) == want[0]
    return (
        value.power == 1
        and len(want) == 1
        and abs(value.mm - want[0]) <= (Fraction(1, 100) if meant.startswith("THREAD") else 0)
    )


def verdict(text: str, meant: str, kind: str) -> str:
    """`right`, `refused`, `wrong`, or `misleads` where advice leads to another size than was meant."""
    try:
        answer = Session().answer(text)
    except InputError as error:
        offers = error.advice.offers if isinstance(error.advice, Advice) else ()
        for offer in offers:
            try:
                value = Session().answer(offer.text)
            except InputError:
                return "misleads"
            want = wanted(meant)
            if (
                value is not None
                and value.kind == "size"
                and want is not None
                and len(offers) == 1
                and not is_right(value.value, meant, kind)
            ):
                return "misleads"
            if (
                want is None
                and value is not None
                and value.kind == "size"
                and len(offers) == 1
                and not offer.completes
            ):
                return "misleads"
        return "right" if meant.startswith("REFUSE") else "refused"
    if answer is None:
        return "refused"  # a comment
    if is_right(answer.value, meant, kind):
        return "right"
    if answer.doubts:
        return "right" if meant.startswith("REFUSE") else "doubt"
    return "wrong"


def main() -> None:
    """Print the table."""
    path = Path(sys.argv[1]) if len(sys.argv) > 1 else DATA
    table: dict[str, Counter[str]] = {}
    for text, meant, kind in rows(path):
        got = verdict(text, meant, kind)
        table.setdefault(kind, Counter())[got] += 1
        if got != "right":
            try:
                answer = Session().answer(text)
                told = f"{answer.value} {[str(n) for n in answer.notes]}" if answer else "comment"
            except InputError as error:
                told = f"!! {error.message} // {error.advice}"
            print(f"{got:8} {kind:18} {text!r} meant {meant}: {told}")
    total: Counter[str] = Counter()
    columns = ("right", "refused", "doubt", "wrong", "misleads")
    print(f"{'':20} " + " ".join(f"{c:>8}" for c in columns))
    for kind, counts in [*sorted(table.items()), ("all", total)]:
        total += counts if kind != "all" else Counter()
        print(f"{kind:20} " + " ".join(f"{counts[c]:8}" for c in columns))


if __name__ == "__main__":
    main()
