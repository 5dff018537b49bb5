"""What is believed of a shop before anything is measured: inch work or metric."""

from __future__ import annotations

from enum import Enum

from fractions_shop.errors import ShopError
from fractions_shop.meant.priors import DECIMALS, FRACTIONS, INCH_ODDS, METRIC
from fractions_shop.size.frozen import Record


class Work(Enum):
    """What sort of work somebody said it is; `value` the odds on inches that this stands for.

    Inch or metric work may hold a part of the other kind, so neither is a certainty
    (200 to 1; a judgement, common practice, no source).
    """

    INCH = 200.0
    METRIC = 1 / 200
    EITHER = 1.0


class Belief(Record):
    """The odds on inches that were used; `said` is whether somebody asked for them, `work` in what words."""

    inch_odds: float
    said: bool = False
    work: str | None = None

    def made_even(self, system: str) -> float:
        """How many times likelier a division of that system would be if inch and metric work were equally likely."""
        half = (1 + self.inch_odds) / 2
        return {FRACTIONS: half / self.inch_odds, DECIMALS: half / self.inch_odds, METRIC: half}.get(
            system, 1.0
        )


def belief_in(work: str | Work | None = None, inch_odds: float | None = None) -> Belief:
    """From `work` ("inch", "metric" or "either") or from odds; 20 to 1 on inches if neither is given.

    ShopError for other words, and for both at once.
    """
    if work is None:
        return Belief(INCH_ODDS) if inch_odds is None else Belief(inch_odds, True)
    if inch_odds is not None:
        raise ShopError("say the work or the odds on inches, not both")
    words = {kind.name.lower(): kind for kind in Work}
    kind = work if isinstance(work, Work) else words.get(str(work).strip().lower())
    if kind is None:
        raise ShopError(f"{work!r} is no kind of work: expected one of {', '.join(words)}")
    return Belief(kind.value, True, kind.name.lower())
