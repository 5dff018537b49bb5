"""What can go wrong, and the one place that draws a caret under a fault."""

from __future__ import annotations

import re
import unicodedata

#: A pattern of control characters, line breaks, orders to write backwards, and halves of surrogate pairs.
OBEYED = "[\x00-\x1f\x7f-\x9f\u2028-\u202e\u2066-\u2069\ud800-\udfff]"
#: Kinds of character that are not shown as they are: a terminal would act upon them.
_UNSEEN = ("Cc", "Cf", "Cs", "Zl", "Zp")
#: A longer line is shown as a window around the fault, so that it stays readable.
_WINDOW = 72


class ShopError(ValueError):
    """Base of every error that this package raises on purpose; a ValueError.

    >>> from fractions_shop import Rule
    >>> try:
    ...     Rule("7 whole")
    ... except ShopError as error:
    ...     print(str(error).partition(":")[0])
    '7 whole' is not a rule
    """


class FloatRefused(ShopError, TypeError):
    """A float was offered as a size without saying how far to trust it; a TypeError too.

    >>> from fractions_shop import Quantity
    >>> try:
    ...     Quantity.inches(0.1)
    ... except FloatRefused as error:
    ...     print(str(error).partition(";")[0])
    a float (0.1) is not an exact size
    """


class ArgumentError(ShopError, TypeError):
    """Something was given that is neither a size nor what else is taken there; a TypeError too.

    >>> from fractions_shop import thread
    >>> try:
    ...     thread(None)
    ... except ArgumentError as error:
    ...     print(error)
    a thread is named by text such as '6 BA', not by NoneType
    """


class DimensionError(ShopError, TypeError):
    """Lengths, areas and plain numbers were mixed where they cannot be; a TypeError too.

    >>> from fractions_shop import Quantity
    >>> try:
    ...     Quantity.inches(2) + Quantity.number(2)
    ... except DimensionError as error:
    ...     print(error)
    cannot add a length and a plain number
    """


class NoAnswer(ShopError):
    """The question is well put and has no answer.

    >>> from fractions_shop import snap
    >>> try:
    ...     snap("2/5 in", within="1 thou")
    ... except NoAnswer as error:
    ...     print(error)
    no division of 64ths lies within that: the best is off by 0.00625 in (0.15875 mm)
    """


class DoubtfulReading(UserWarning):
    """A written form with a second sensible meaning was read, as the caller asked.

    >>> import warnings
    >>> from fractions_shop import read
    >>> with warnings.catch_warnings(record=True) as told:
    ...     warnings.simplefilter("always")
    ...     size = read("10-32", doubtful="note")
    >>> str(told[0].message)
    '10-32: taken for the screw No 10-32; for the difference write 10 - (32)'
    """


class InputError(ShopError):
    """A line that cannot be read, with the place of the fault.

    `message` says what was expected, `advice` how to write it, `text` is the line
    as typed and `start`, `end` the characters at fault. `line` counts from 1 in a
    file or stream. `ended` is true when the text stops too soon rather than wrongly;
    then `expected` says what is to follow, where that is known.

    >>> from fractions_shop import read
    >>> try:
    ...     read("2 5/4 in")
    ... except InputError as error:
    ...     print(error)
    5/4 is not a proper fraction, so 2 5/4 is not a mixed number (column 1)
      2 5/4 in
      ^^^^^
    write 3 1/4, if that is what it is
    """

    def __init__(
        self,
        message: str,
        text: str,
        start: int,
        end: int,
        advice: str = "",
        line: int = 1,
        ended: bool = False,
        expected: str = "",
    ) -> None:
        super().__init__(message, text, start, end, advice, line, ended, expected)
        self.message = message
        self.text = text
        self.start: int = max(0, min(start, len(text)))
        self.end: int = max(self.start, end)
        self.advice = advice
        self.line = line
        self.ended = ended
        self.expected = expected

    @property
    def column(self) -> int:
        """The place of the fault, counted in characters from 1."""
        return self.start + 1

    @property
    def sentence(self) -> str:
        """Message and advice in one line, without the drawing."""
        return _printable(f"{self.message}; {self.advice}" if self.advice else self.message)

    def at(self, text: str, offset: int, line: int = 1) -> InputError:
        """The same fault, placed in a longer `text` that holds this one at `offset`."""
        return InputError(
            self.message, text, self.start + offset, self.end + offset,
            self.advice, line, self.ended, self.expected,
        )  # fmt: skip

    def with_advice(self, advice: str) -> InputError:
        """The same fault with other advice."""
        return InputError(
            self.message, self.text, self.start, self.end, advice, self.line, self.ended, self.expected
        )

    def __str__(self) -> str:
        shown, start, end = _window(self.text, self.start, self.end)
        lines = [
            f"{_printable(self.message)} (column {self.column})",
            f"  {shown}",
            f"  {' ' * cells(shown[:start])}{'^' * max(1, cells(shown[start:end]))}",
        ]
        if self.advice:
            lines.append(_printable(self.advice))
        return "\n".join(lines)


def visible(text: str, keep: str = "") -> str:
    r"""Foreign text made safe to show: each sign that a terminal would act upon becomes U+FFFD.

    Names of files, titles, settings, cells: whatever was not written by us and is told
    on a terminal goes through here. `keep` holds such signs that stay, as line ends.

    >>> visible("trays\x1b[31m.shop") == "trays\ufffd[31m.shop"
    True
    """
    if text.isprintable():
        return text
    return re.sub(OBEYED, lambda match: match[0] if match[0] in keep else "\ufffd", text)


#: Before the first combining mark every character takes one cell.
_FIRST_MARK = "\u0300"


def cells(text: str) -> int:
    """How many terminal cells `text` takes: full-width characters two, marks none."""
    if text.isascii() or max(text) < _FIRST_MARK:
        return len(text)
    return sum(map(_cell, text))


def _cell(character: str) -> int:
    if unicodedata.combining(character):
        return 0
    return 2 if unicodedata.east_asian_width(character) in "WF" else 1


def _printable(text: str) -> str:
    """The text with tabs as one blank and control characters visible, cell for cell."""
    return "".join(" " if c == "\t" else "\ufffd" if unicodedata.category(c) in _UNSEEN else c for c in text)


def _window(text: str, start: int, end: int) -> tuple[str, int, int]:
    text = _printable(text)
    if len(text) <= _WINDOW:
        return text, start, min(end, len(text)) if end > start else start
    first = max(0, min(start - _WINDOW // 2, len(text) - _WINDOW))
    last = min(len(text), first + _WINDOW)
    head = "..." if first else ""
    tail = "..." if last < len(text) else ""
    shift = len(head) - first
    return head + text[first:last] + tail, start + shift, min(end, last) + shift
