"""`read`: one written size, alone."""

from __future__ import annotations

import warnings

from fractions_shop.errors import ArgumentError, DoubtfulReading, InputError, ShopError
from fractions_shop.language.nodes import Naming, ShownExpression
from fractions_shop.language.notes import Note
from fractions_shop.sheet.session import Session
from fractions_shop.size.limits import Limits
from fractions_shop.size.quantity import Quantity, exact
from fractions_shop.size.value import Value


def read(text: str, *, doubtful: str = "refuse") -> Quantity | Limits:
    """The size that one written form says: a Quantity, or Limits.

    Takes every form that the language takes as a size (and arithmetic on sizes).
    InputError, with the place and how to write it, for what cannot be read, and for a
    form with a second sensible meaning (`5' - 3"`); with `doubtful="note"` such a form is
    read as the language reads it, and a DoubtfulReading is warned of.

    >>> read("2 1/32 in").inch
    Fraction(65, 32)
    >>> read("1/2 in +1/-2 thou").upper.inch
    Fraction(501, 1000)
    """
    if doubtful not in ("refuse", "note"):
        raise ShopError(f"doubtful is 'refuse' or 'note', not {doubtful!r}")
    size, doubts = read_with_doubts(text)
    if doubts and doubtful == "refuse":
        raise in_doubt(text, doubts)
    for doubt in doubts:
        warnings.warn(f"{text.strip()}: {doubt.text}", DoubtfulReading, stacklevel=2)
    return size


def read_size(text: str) -> Quantity:
    r"""The one size that a written form says, as `read`; InputError for one with limits.

    >>> str(read_size('2-1/32"'))
    '2 1/32 in'
    """
    size = read(text)
    if isinstance(size, Limits):
        raise InputError(
            "this has limits, where one size is needed",
            text,
            0,
            len(text),
            f"write {size.nominal}, or read_limits() takes it",
        )
    return size


def read_limits(text: str) -> Limits:
    """The limits that a written form says, as `read`; of one exact size they both are that size.

    >>> str(read_limits("1/2 in +1/-2 thou").upper), str(read_limits("2 in").spread)
    ('0.501 in', '0 in')
    """
    size = read(text)
    return size if isinstance(size, Limits) else Limits(size, size * 0, size * 0)


def read_with_doubts(text: str) -> tuple[Quantity | Limits, tuple[Note, ...]]:
    """The size that one written form says, and the doubts about it; InputError as `read`."""
    if not isinstance(text, str):
        if isinstance(text, float):
            exact(text)  # refused by name
        raise ArgumentError(f"read takes a written size, not {type(text).__name__}")
    value, doubts = read_value_with_doubts(text)
    if not isinstance(value, (Quantity, Limits)):
        raise InputError("this is not a size", text, 0, len(text), "write a size such as 2 1/32 in")
    return value, doubts


def read_value(text: str) -> Value:
    """What one written form says, an angle too; InputError as `read`."""
    value, doubts = read_value_with_doubts(text)
    if doubts:
        raise in_doubt(text, doubts)
    return value


def read_value_with_doubts(text: str) -> tuple[Value, tuple[Note, ...]]:
    """What one written form says, and the doubts about it; InputError as `read`."""
    bench = Session()
    statement = bench.read(text)
    if statement is None:
        raise InputError("there is no size here", text, 0, 0, "write a size such as 2 1/32 in", ended=True)
    answer = bench.work_out(statement, text)
    if isinstance(statement, Naming) and isinstance(statement.answer, ShownExpression):
        behind = statement.answer.start
        raise InputError(
            f"this names a size {statement.name}, where a size alone is read", text, 0, behind,
            f"write {text[behind:].strip()}",
        )  # fmt: skip
    # A thread by its name alone is its major diameter here.
    if not isinstance(statement, ShownExpression) or answer.value is None:
        raise InputError("this is not a size", text, 0, len(text), "write a size such as 2 1/32 in")
    return answer.value, answer.doubts


def in_doubt(text: str, doubts: tuple[Note, ...]) -> InputError:
    """The refusal of a doubtful form, with a statement for each of its meanings where there is one."""
    whole = doubts[0].advice if len(doubts) == 1 else ""
    return InputError(f"this has more than one meaning ({doubts[0].text})", text, 0, len(text), whole)
