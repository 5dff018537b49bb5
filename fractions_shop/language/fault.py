"""A fault in a statement, before it is tied to its line."""

from __future__ import annotations

from fractions_shop.errors import InputError


class Fault(Exception):
    """A fault with its place, not yet tied to the line it is in."""

    def __init__(self, message: str, start: int, end: int, advice: str = "") -> None:
        super().__init__(message)
        self.message, self.start, self.end, self.advice = message, start, end, advice

    def in_line(self, text: str) -> InputError:
        """The error to show, with the line it is in."""
        return InputError(self.message, text, self.start, self.end, self.advice)


class SideBySide(Fault):
    """Two sizes stand side by side, which the grammar takes for feet and inches."""
