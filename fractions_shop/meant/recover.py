"""Recover: the sizes that a maker may have meant, from readings of what he made.

The rule is Bayes'. `priors` says how likely each size is before measuring, `readings` how
likely a size makes the reading, `shops` how the sizes of one shop hang together, `steps` and
`shared` what readings have in common. A wrong prior gives a wrong answer that
looks like any other, so two guards come along: the belief in inch work, which decides
most close calls, can be moved (`work`, `inch_odds`), and each candidate's `chance` says how
often a size picked at random would come as near to something as readable. Every size lies within
1/128 in of a 64th: a match like that is worth nothing, and its chance says so.

Equal readings of a list are one witness: whether they are of one part or of several alike,
the second tells nothing of the shop that the first did not.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from math import log

from fractions_shop.meant.belief import belief_in
from fractions_shop.meant.candidates import Lost, explanations, taken_out, weighed
from fractions_shop.meant.found import (
    NO_SYSTEM,
    Explanation,
    Recovered,
    ShopKind,
    SizeCandidate,
    Weighed,
    reader_steps,
)
from fractions_shop.meant.priors import OLD, Division, scheme
from fractions_shop.meant.readings import MADE, Reading, take
from fractions_shop.meant.scale import Scale, as_scale, need_sizes, scale_found, scaled
from fractions_shop.meant.shared import shared_by_all
from fractions_shop.meant.shops import Kind
from fractions_shop.meant.steps import by_one_tool
from fractions_shop.meant.unsaid import having_lost, may_have_lost
from fractions_shop.meant.verdict import odds_on
from fractions_shop.meant.weighing import Weighing, weigh
from fractions_shop.size.arguments import SizeLike, options_by_name

__all__ = ["NO_SYSTEM", "Explanation", "Recovered", "SizeCandidate", "Weighed", "recover"]

#: Old inches are offered unasked from so many readings on, and believed in as often as this before measuring.
_OLD_FROM, _OLD_SHARE = 4, 0.05
#: The logarithm of how much better than sizes at random readings are explained, where they are.
_EXPLAINED = log(20)


#: One size as read, or a list of them, each read once or several times.
SizesRead = SizeLike | Reading | Sequence[SizeLike | Reading | Sequence[SizeLike]]


@options_by_name(
    "several readings are one list, recover(['51.5 mm', '66.7 mm']); a trust is recover('51.5 mm', within='0.1 mm')"
)
def recover(
    sizes: SizesRead,
    *,
    within: SizeLike | Sequence[SizeLike | None] | None = None,
    by: str | Sequence[str | None] | None = None,
    worn: SizeLike | None = None,
    plated: SizeLike | None = None,
    made: SizeLike = MADE,
    among: Sequence[str] = (),
    work: str | None = None,
    inch_odds: float | None = None,
    shrunk: Fraction | None = None,
    unzeroed: bool = False,
    scale: Scale | str | None = None,
) -> Recovered:
    """The sizes that a maker may have meant by a part that reads so; one reading or several.

    A list in the list is one size read again. `within` is how far to trust a reading, by
    default half a unit of its last written place for text, a Quantity's own `within`, or 0.05 mm;
    `by` names the instrument, which then sets the least trust. Both are one for all or a list
    with one for each. Three readings or more without either share an instrument, whose step
    is inferred (see `steps`). `made` is how near the maker worked to what he meant, `worn`
    the most that may have been lost since, `plated` the most, both faces together, that may
    have been added.

    `among` names tables to look in as well (drills, gauges, threads, stock), `128ths`, and `old
    inches`; what is in a table was bought, true to 0.02 mm whatever the maker's hand, and a screw
    measures under its nominal major as screws do (`threads.identify` says how far). `work` says that it is
    "inch", "metric" or "either" work, `inch_odds` the same in odds; see `belief`.

    Errors that the readings share: `shrunk` is the most that all have shrunk, as a share
    (Fraction(3, 100)); `unzeroed` says that the instrument was not set to zero; `scale` is "print",
    "1:2" or `scale_from` one known size.

    ShopError for a size that is not a length above zero, or a table not known; NoAnswer for
    a scale that so few readings cannot settle.

    >>> best = recover("51.5 mm").candidates[0]
    >>> best.name, float(best.off.mm)
    ('2 1/32 in', -0.09375)
    """
    believed = belief_in(work, inch_odds)
    shared = shared_by_all(shrunk, unzeroed)
    at = as_scale(scale)
    taken = by_one_tool(take(sizes, within, worn, made, by=by, plated=plated, shared=shared))
    listed = [scaled(reading, at) for reading in taken]
    need_sizes(listed)
    divisions = scheme(among, believed.inch_odds)
    different = list(dict.fromkeys(listed))
    weighing = weigh(different, divisions)
    lost = _lost(different, divisions, weighing)
    several = len(different) > 1
    true = [taken_out(reading, weighing.common) for reading in weighing.read.readings]
    answers = {
        reading: weighed(
            reading,
            full,
            weighing.masses[i],
            weighing.off[i],
            divisions,
            believed,
            weighing.stands_out(i),
            lost[i] if lost else None,
        )
        for i, (reading, full) in enumerate(zip(different, true, strict=True))
    }
    rows = tuple(
        answers[reading].but(alike=_alike(reading, listed), written=reading.written) for reading in listed
    )
    every = explanations(true, divisions, weighing.shop) if len(listed) > 1 else ()
    return Recovered(
        rows,
        tuple(_spread_out(explanation, different, listed) for explanation in every),
        believed,
        reader_steps(weighing.read, weighing.sure, different, listed),
        ShopKind(*(weighing.shop.kinds[kind] for kind in Kind)) if several else None,
        weighing.common,
        scale_found(at, weighing.common),
        None if OLD in among else _old(different, weighing, among, believed.inch_odds, listed),
    )


def _lost(
    different: Sequence[Reading], divisions: Sequence[Division], weighing: Weighing
) -> list[Lost] | None:
    """The readings as of parts that have not kept their size; None where that is said, or witnessed."""
    if not may_have_lost(different):
        return None
    lost = weigh([having_lost(reading) for reading in different], divisions)
    return [Lost(masses, lost.evidence - weighing.evidence) for masses in lost.masses]


def _alike(reading: Reading, listed: Sequence[Reading]) -> tuple[int, ...]:
    """The places of readings equal to this one, where there are others."""
    places = tuple(place for place, other in enumerate(listed) if other == reading)
    return places if len(places) > 1 else ()


def _spread_out(
    explanation: Explanation, different: Sequence[Reading], listed: Sequence[Reading]
) -> Explanation:
    """The same with a mark for each reading of the list, equal ones included."""
    if not explanation.meant or len(different) == len(listed):
        return explanation
    return explanation.but(meant=tuple(explanation.meant[different.index(each)] for each in listed))


def _old(
    different: Sequence[Reading],
    weighing: Weighing,
    among: Sequence[str],
    odds: float,
    listed: Sequence[Reading],
) -> Explanation | None:
    """The old inch that explains the readings, where today's systems do not; None where none does."""
    # A scale that is open would fit many a unit.
    if len(different) < _OLD_FROM or weighing.common or weighing.shop.evidence > _EXPLAINED:
        return None
    divisions = scheme((*([among] if isinstance(among, str) else among), OLD), odds)
    asked = weigh(different, divisions)
    every = explanations(asked.read.readings, divisions, asked.shop)
    best = next((explanation for explanation in every if explanation.inches), None)
    group = sum(
        explanation.probability
        for explanation in every
        if best is not None and explanation.system == best.system
    )
    # The scheme holds old inches as likely as today's; unasked they are seldom.
    share = group * _OLD_SHARE / (group * _OLD_SHARE + (1 - group) * (1 - _OLD_SHARE))
    if best is None or share <= 0.5:
        return None
    unasked = best.but(probability=share, odds=odds_on(share))
    return _spread_out(unasked, different, listed)
