"""The cosine quantogram: is there one quantum of which all these sizes are whole multiples?

D. G. Kendall, "Hunting quanta", Phil. Trans. R. Soc. London A 276 (1974), 231-266. For
N sizes x and a quantum q, with e the remainder of x by the nearest multiple of q,

    phi(q) = sqrt(2 / N) * sum(cos(2 pi e / q))

which for sizes of no quantum has mean 0 and variance 1 at any one q. The best of very
many q is large by luck alone, so its worth is worked out for twelve sizes or more
(`quantogram_tail`) and for fewer found by trial, as Kendall did: each size
is replaced by one picked evenly between half and one and a half of it, which leaves no
quantum in the range sought, and the best phi of that is set against the one observed.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from math import cos, pi, sqrt
from random import Random
from typing import Any, ClassVar

from fractions_shop.errors import NoAnswer, ShopError
from fractions_shop.meant.quantogram_tail import reached_by_luck
from fractions_shop.size.arguments import as_length
from fractions_shop.size.frozen import Result
from fractions_shop.size.quantity import Quantity

SEED = 1974
#: From so many sizes on the closed form is true to a few per cent.
CLOSED = 12
#: Trials at most and at least, and the cosines to spend on them in between.
_MOST, _FEWEST, _WORK = 999, 19, 1_500_000
#: The cosines to spend where somebody waits for the answer.
QUICK = 250_000
#: No rule is divided more finely; and no more quanta than this are sought in the largest size.
_RULE, _FINEST = Quantity.inches(Fraction(1, 64)), 256
#: Steps of 1/q to a turn of the largest size. Five keep a peak to 0.8 of its height at worst,
#: and the peaks of the sizes themselves are climbed afterwards.
_STEPS = 5
#: Sums of cosines may be rounded by so much.
_ROUNDING = 1e-9


class Quantogram(Result):
    """The best quantum between `low` and `high`, its `score` (phi) and how much that is worth.

    `quantum` is approximate, its own `within` one standard deviation. `significance` is
    how often sizes at random score as well: 0.01 is once in a hundred. For CLOSED sizes or more
    it is worked out and `trials` is 0; for fewer, `reached` of so many trials under a fixed seed did. `curve` holds (q in mm, phi) over the range.
    """

    #: What its JSON object leaves out.
    data_left_out: ClassVar[tuple[str, ...]] = ("curve",)
    unshown: ClassVar[tuple[str, ...]] = ("curve",)

    quantum: Quantity
    score: float
    significance: float
    trials: int
    low: Quantity
    high: Quantity
    reached: int
    curve: tuple[tuple[float, float], ...] = ()


def phi(sizes: Sequence[float], quantum: float) -> float:
    """Kendall's score of a quantum, sizes and quantum in one unit.

    >>> round(phi([10.0, 20.0, 25.0], 5.0) ** 2, 9)  # at most 2 N
    6.0
    """
    turn = 2 * pi / quantum
    return sqrt(2 / len(sizes)) * sum(cos(turn * x) for x in sizes)


def quantogram(
    sizes: Sequence[Any],
    within: Any,
    low: Any = None,
    high: Any = None,
    trials: int | None = None,
    work: int = _WORK,
) -> Quantogram:
    """The quantum that best explains three sizes or more, each good to plus or minus `within`.

    Sought from `low` to `high`, which is the smallest size unless given. `low` is 1/64 in,
    or 4 / sqrt(3) of `within` below which nothing can be told, whichever is larger; and
    never below a 256th of the largest size. Where a quantum and its halves or thirds do
    equally well the largest is given. `trials` is none for CLOSED sizes or more, else some twenty to
    a thousand, as many as `work` cosines allow, unless given. ShopError for fewer than three sizes; NoAnswer when the
    range is empty.
    """
    lengths = [as_length(size) for size in sizes]
    trust = as_length(within)
    if len(lengths) < 3:
        raise ShopError("a quantum is sought in three sizes or more: two always have one")
    if min(lengths).value <= 0 or trust.value <= 0:
        raise ShopError("sizes, and how far to trust them, must be above zero")
    least, most = _range(lengths, trust, low, high)
    values = [float(size.mm) for size in lengths]
    steps = _frequencies(values, float(least.mm), float(most.mm))
    scores = [phi(values, 1 / step) for step in steps]
    best, score = _refined(values, steps, scores)
    if trials is None:
        some = max(_FEWEST, min(_MOST, work // (len(values) * len(steps))))
        trials = 0 if len(values) >= CLOSED else some
    reached = _reached(values, steps, max(scores), trials)
    luck = (1 + reached) / (1 + trials) if trials else reached_by_luck(values, score, steps[0], steps[-1])
    sigma = float(trust.mm) / sqrt(3) * best / sqrt(sum(x * x for x in values))
    curve = tuple((1 / step, score) for step, score in zip(steps, scores, strict=True))
    return Quantogram(
        Quantity.measured(round(best, 5), "mm", Quantity(max(Fraction(f"{sigma:.5f}"), Fraction(1, 10**5)))),
        score,
        luck,
        trials,
        least,
        most,
        reached,
        curve,
    )


def _range(lengths: Sequence[Quantity], trust: Quantity, low: Any, high: Any) -> tuple[Quantity, Quantity]:
    finest = max(lengths) / _FINEST
    # 4 sigma: at that quantum the reading errors alone leave phi a third of its height.
    discernible = Quantity(Fraction(4 * float(trust.mm) / sqrt(3)).limit_denominator(10**6), 1, True)
    least = max(finest, _RULE, discernible) if low is None else max(finest, as_length(low))
    most = min(lengths) if high is None else as_length(high)
    if not least < most:
        raise NoAnswer("the smallest reading is too small, or too roughly read, to look for a quantum in it")
    return least, most


def _frequencies(values: Sequence[float], low: float, high: float) -> list[float]:
    """Even steps of 1/q from 1/high to 1/low, fine enough to meet every peak."""
    step = 1 / (_STEPS * max(values))
    count = int((1 / low - 1 / high) / step) + 1
    return [1 / high + k * step for k in range(count + 1)]


def _refined(values: Sequence[float], steps: Sequence[float], scores: Sequence[float]) -> tuple[float, float]:
    """The quantum at the highest peak and its score; of equal peaks, the largest quantum."""
    top = max(scores)
    width = steps[1] - steps[0]
    peaks = []
    for k, score in enumerate(scores):
        before, after = scores[max(0, k - 1)], scores[min(len(scores) - 1, k + 1)]
        if score >= before and score >= after and score >= 0.8 * top:
            peaks.append(_climbed(values, steps[k], width))
    best = max(score for _, score in peaks)
    return next((1 / step, score) for step, score in peaks if score >= best - 1e-6)


def _climbed(values: Sequence[float], step: float, width: float) -> tuple[float, float]:
    """The top of the peak about `step`, by thirds, within `width` on either side."""
    low, high = step - width, step + width
    for _ in range(60):
        third = (high - low) / 3
        if phi(values, 1 / (low + third)) < phi(values, 1 / (high - third)):
            low += third
        else:
            high -= third
    middle = (low + high) / 2
    return middle, phi(values, 1 / middle)


def _reached(values: Sequence[float], steps: Sequence[float], score: float, trials: int) -> int:
    """In how many trials sizes at random score as well."""
    random = Random(SEED)
    turns = [2 * pi * step for step in steps]
    goal = score / sqrt(2 / len(values))
    reached = 0
    # With so little from the first size the others, of 1 at most each, cannot reach it: most turns end there.
    least = goal - (len(values) - 1) - _ROUNDING
    for _ in range(trials):
        shaken = [x * (0.5 + random.random()) for x in values]
        first = shaken[0]
        able = [turn for turn in turns if cos(turn * first) >= least]
        reached += any(sum([cos(turn * x) for x in shaken]) >= goal for turn in able)
    return reached
