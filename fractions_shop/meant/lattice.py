"""All whole-number points inside an ellipsoid, found depth first.

With G = U'U (Cholesky) the points n with (n - c)' G (n - c) <= T are found one coordinate
at a time from the last: each lies between two bounds that what is left of T allows
(U. Fincke and M. Pohst, "Improved methods for calculating vectors of short length in a
lattice", Math. Comp. 44 (1985), 463-471). `most` bounds the work, whatever is asked.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil, floor, gamma, pi, sqrt

Matrix = Sequence[Sequence[float]]


class TooMany(Exception):
    """More points than were allowed; those found before are no fair part of them."""


def cholesky(matrix: Matrix) -> list[list[float]] | None:
    """The upper triangle U with U'U = `matrix`; None for one that is not positive definite."""
    size = len(matrix)
    upper = [[0.0] * size for _ in range(size)]
    for i in range(size):
        rest = matrix[i][i] - sum(upper[k][i] ** 2 for k in range(i))
        if rest <= 1e-12 * abs(matrix[i][i]) or rest <= 0:
            return None
        upper[i][i] = sqrt(rest)
        for j in range(i + 1, size):
            upper[i][j] = (matrix[i][j] - sum(upper[k][i] * upper[k][j] for k in range(i))) / upper[i][i]
    return upper


def determinant_root(upper: Matrix) -> float:
    """The root of the determinant of U'U."""
    product = 1.0
    for k, row in enumerate(upper):
        product *= row[k]
    return product


def solved(upper: Matrix, right: Sequence[float]) -> list[float]:
    """The x with U'U x = `right`."""
    size = len(upper)
    half = [0.0] * size
    for i in range(size):
        half[i] = (right[i] - sum(upper[k][i] * half[k] for k in range(i))) / upper[i][i]
    solution = [0.0] * size
    for i in reversed(range(size)):
        solution[i] = (half[i] - sum(upper[i][k] * solution[k] for k in range(i + 1, size))) / upper[i][i]
    return solution


def expected_count(upper: Matrix, bound: float) -> float:
    """How many points there are inside on average: the volume of the ellipsoid."""
    size = len(upper)
    ball: float = pi ** (size / 2) / gamma(size / 2 + 1)
    return ball * float(bound ** (size / 2)) / determinant_root(upper)


def points(
    upper: Matrix, centre: Sequence[float], bound: float, most: int
) -> list[tuple[tuple[int, ...], float]]:
    """Each point with its squared distance; TooMany when the search takes more than `most` steps."""
    size = len(upper)
    if not size:
        return [((), 0.0)]
    inside: list[tuple[tuple[int, ...], float]] = []
    chosen = [0] * size
    steps = 0

    def below(k: int, left: float) -> None:
        nonlocal steps
        row = upper[k]
        own, middle = row[k], centre[k]
        for j in range(k + 1, size):
            middle -= row[j] * (chosen[j] - centre[j]) / own
        reach = sqrt(left) / own
        first, last = ceil(middle - reach), floor(middle + reach)
        steps += last - first + 1
        if steps > most:
            raise TooMany
        if not k:
            # Most of the time is spent here, so the last coordinate takes no call of its own.
            others, nearer = tuple(chosen[1:]), bound - left
            for n in range(first, last + 1):
                off = own * (n - middle)
                inside.append(((n, *others), nearer + off * off))
            return
        for n in range(first, last + 1):
            rest = left - (own * (n - middle)) ** 2
            if rest >= 0:
                chosen[k] = n
                below(k - 1, rest)

    below(size - 1, bound)
    return inside
