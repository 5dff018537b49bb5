"""The British Association series of BS 93, in whole-number arithmetic.

Pitch of No N: 0.9^N mm; major: 6 p^1.2 mm, p not rounded; both to 2 significant
figures. The rounded pitch will not do: it gives 13, 15 and 16 BA wrong. No root is
taken: D = 6 p^(6/5) is compared through D^5 = 6^5 p^6, which is rational.
"""

from __future__ import annotations

from fractions import Fraction
from functools import cache

#: BS 93 stops at 16 BA; the same formula is quoted as far as 25.
LAST_OF_STANDARD = 16
LAST = 25
_FIGURES = 2


def pitch(number: int) -> Fraction:
    """The pitch of No `number` in millimetres.

    >>> pitch(6)
    Fraction(53, 100)
    """
    return _two_figures(Fraction(9, 10) ** number, 1)


@cache
def major(number: int) -> Fraction:
    """The major diameter of No `number` in millimetres.

    >>> major(6)
    Fraction(14, 5)
    """
    fifth_power = 6**5 * (Fraction(9, 10) ** number) ** 6
    return _two_figures(fifth_power, 5)


def _two_figures(value: Fraction, root: int) -> Fraction:
    """The `root`-th root of `value`, a root below 100, to two significant figures, a half going up."""
    above, below = value.numerator, value.denominator
    lowest, places = 10 ** (_FIGURES - 1), 0
    while lowest**root * below > above * 10 ** (places * root):
        places += 1
    # The largest whole number of steps whose lower half-way point is not above the value: (n - 1/2)^root,
    # doubled so that all of it is whole. A float comes within a step of it.
    most = above * (2 * 10**places) ** root // below
    steps = round((above / below) ** (1 / root) * 10**places) - 1
    while (2 * steps + 1) ** root <= most:
        steps += 1
    return Fraction(steps, 10**places)
