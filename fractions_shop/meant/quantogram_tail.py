"""How high the best of very many cosine sums gets by luck, in closed form.

phi(tau) = sqrt(2 / N) sum cos(2 pi tau x) wanders as tau grows. Where sizes have no quantum
the N phases are as good as independent and even, and the chance that phi reaches u somewhere
is about that of being above u at the start, and how often it climbs through u on the way
(S. O. Rice, "Mathematical analysis of random noise", Bell System Tech. J. 24 (1945), 3.3):

    density of phi at u  *  mean upward slope there  *  length of the way

Both are taken for sums of N cosines and not for a normal law, whose tail is far too heavy
at u near its greatest, sqrt(2 N). The density is that of the saddlepoint (H. E. Daniels, Ann. Math.
Statist. 25 (1954), 631-650) with the cumulants log I0(t) of a cosine; there the phases are von
Mises of concentration t, so that the slopes have variance (I1/I0)(t) / t each.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import exp, log, pi, sqrt

#: No concentration is told from a perfect quantum beyond this.
_MOST = 1e7


def reached_by_luck(values: Sequence[float], u: float, first: float, last: float) -> float:
    """The chance that phi of sizes without a quantum reaches u for some 1/q from `first` to `last`."""
    count = len(values)
    mean = u / sqrt(2 * count)
    if mean <= 0:
        return 1.0
    if mean >= 1:
        return 0.0
    t = _concentration(mean)
    ratio = mean  # I1/I0 at t
    curvature = max(1e-300, 1 - ratio / t - ratio * ratio)
    density = exp(count * (_log_i0(t) - t * mean)) / sqrt(2 * pi * count * curvature) * sqrt(count / 2)
    slope = sqrt(2 / count * sum((2 * pi * x) ** 2 for x in values) * ratio / t)
    climbs = density * slope / sqrt(2 * pi) * (last - first)
    # The tail at the start by Lugannani and Rice would add little; the density over its own decay serves.
    start = density / (t * sqrt(count / 2)) if t * sqrt(count) > 1 else 0.5
    return min(1.0, 1 - exp(-(climbs + start)))


def _concentration(mean: float) -> float:
    """The t at which I1(t)/I0(t) is `mean`."""
    low, high = 0.0, 1.0
    while _ratio(high) < mean and high < _MOST:
        low, high = high, 2 * high
    for _ in range(80):
        middle = (low + high) / 2
        low, high = (middle, high) if _ratio(middle) < mean else (low, middle)
    return high


def _ratio(t: float) -> float:
    """I1(t)/I0(t), by the continued fraction of the quotient of Bessel functions."""
    # I1/I0 = 1 / (2/t + 1 / (4/t + 1 / (6/t + ...))), from the recurrence of I_n (DLMF 10.29.1).
    fraction = 0.0
    for n in range(int(t) + 30 if t < 200 else 0, 0, -1):
        fraction = 1 / (2 * n / t + fraction)
    return fraction if t < 200 else 1 - 1 / (2 * t) - 1 / (8 * t * t) - 1 / (8 * t**3)


def _log_i0(t: float) -> float:
    """The logarithm of I0(t): its series, or for large t the asymptotic one (DLMF 10.25.2, 10.40.1)."""
    if t > 30:
        inverse = 1 / t
        more = 1 + inverse / 8 + 9 * inverse**2 / 128 + 225 * inverse**3 / 3072
        return t - log(2 * pi * t) / 2 + log(more)
    term = total = 1.0
    k = 1
    while term > total * 1e-17:
        term *= (t / 2) ** 2 / (k * k)
        total += term
        k += 1
    return log(total)
