"""The American wire gauge of ASTM B258, in whole-number arithmetic."""

from __future__ import annotations

from fractions import Fraction

SOURCE = "ASTM B258: 0.005 in x 92^((36 - n)/39), to four figures and no finer than 0.0001 in"
#: Sizes below 44 are rounded more finely, by a rule that was not read.
_NUMBERS = range(-3, 45)


def awg_inches(n: int) -> Fraction:
    """The diameter of AWG `n` (0 for 1/0, -3 for 4/0) in inches, rounded as ASTM B258 says.

    No root is taken: k ten-thousandths are nearest to 50 x 92^((36 - n)/39) when
    (2k - 1)^39 <= 100^39 x 92^(36 - n) < (2k + 1)^39, and all of these are whole numbers.
    A tie cannot be, since an odd number is no 39th power of an even one.

    >>> awg_inches(8) == Fraction("0.1285")
    True
    """
    goal, scale = 100**39 * 92 ** max(0, 36 - n), 92 ** max(0, n - 36)
    low, high = 0, 10_000
    while high - low > 1:
        middle = (low + high) // 2
        if (2 * middle - 1) ** 39 * scale <= goal:
            low = middle
        else:
            high = middle
    return Fraction(low, 10_000)


def numbers() -> tuple[tuple[str, Fraction], ...]:
    """Every number as it is written, with its diameter in inches."""
    return tuple((str(n) if n > 0 else f"{1 - n}/0", awg_inches(n)) for n in _NUMBERS)
