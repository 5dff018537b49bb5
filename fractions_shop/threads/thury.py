"""The Thury series, the Swiss screws that British Association was made from.

Pitch of No N: 0.9^N mm; major: 6 p^1.2 mm. Neither is rounded here (British Association rounds both to
2 significant figures), so the major is a fifth root, D^5 = 6^5 p^6, taken to 30 figures.
"""

from __future__ import annotations

from fractions import Fraction
from functools import cache

from fractions_shop.size import approx

#: Sizes 0 to 25 are named in a tap maker's page.
LAST = 25


def pitch(number: int) -> Fraction:
    """The pitch of No `number` in millimetres.

    >>> pitch(5)
    Fraction(59049, 100000)
    """
    return Fraction(9, 10) ** number


@cache
def major(number: int) -> Fraction:
    """The major diameter of No `number` in millimetres, to 30 figures.

    >>> major(0), round(major(5), 3)
    (Fraction(6, 1), Fraction(3189, 1000))
    """
    return approx.root(6**5 * pitch(number) ** 6, 5)
