"""The step that a reader's instrument shows, inferred from readings that share it.

Readings of one list that name no instrument were read with one. If all of ten stand on half
millimetres, though written to the tenth, they were hardly read to the tenth. A step that
they stand on is weighed against reading as finely as was written: coarser steps leave
fewer figures to choose from, so that each reading is as many times likelier as the step
is coarser; but it is trusted less, to half the step. Whether the shop's own sizes make the
readings stand so (a metric shop's do) is weighed along with it, by `weighing`.

One reading off the step does not undo it. A reader now and then puts down what lies between two
marks, or takes up a finer instrument, or slips: each reading is off the step of the others at
`ODD`, and up to a third of a list may be. What is off is then, alike likely, read as finely as it was
written, judged by eye between the marks, no better than the others, or a slip that tells nothing.

Figures that are written to different places, 12.7 and 55.55 mm, were still read with one instrument. Either its step is one on
which all stand, and last zeros were left out; or the reader took more pains over some (`UNLIKE`), and each is trusted
as it was written. As every step leaves so many figures to choose from, many left-out zeros soon speak against it. Readings by
one named instrument are all trusted as finely as the finest of them shows that it reads (`by_one_tool`).

Millimetres, decimals of an inch and fractions of one are read off different instruments, and each of these
shows its own step. Fractions lose their step in writing (1/2 in on a rule of 32nds is 16/32), so
that they are held to stand on one of the rules' divisions.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from itertools import product
from math import log, sqrt

from fractions_shop.meant.instruments import fraction_of_inch
from fractions_shop.meant.likelihood import trusted
from fractions_shop.meant.readings import MADE, Reading
from fractions_shop.size.frozen import Record
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.units import INCH

#: Fewer readings do not show a step.
FEWEST = 3
#: How likely a reading is off the step of the others (a judgement), and what part of them at most.
ODD, _MOST_ODD = 0.08, Fraction(1, 3)
#: What instruments show, in mm and in decimals of an inch, and how often one of them (a judgement: half a
#: millimetre makes a reader write the tenth, a whole one hardly). Of those coarser than was written, together 1 in 5.
_MM = {"1": 0.3, "0.5": 0.4, "0.2": 0.1, "0.1": 0.1, "0.05": 0.05, "0.02": 0.05}
_INCH = {"0.1": 0.1, "0.05": 0.2, "0.01": 0.2, "0.005": 0.2, "0.001": 0.3}
_COARSER = 0.2
#: How likely figures that are written to different places were read to them, and not with zeros left out (a judgement);
#: and, where zeros were left out, that the finest place written is the step.
UNLIKE, _FINEST = 0.05, 0.7
#: Work truer than is taken for granted shows in the same way, figures that stand on marks, and must
#: not be taken for a coarse reader: so near to what was meant, as likely as this.
TRUER, _TRUER = Quantity(Fraction(1, 100)), 0.15
#: The divisions of rules and how likely one is read to.
_RULES = {8: 0.1, 16: 0.3, 32: 0.3, 64: 0.3}


class StepShown(Record):
    """A step that readings stand on: `on` are their places in the list, `odd` those of the readings that do not."""

    step: Quantity
    on: tuple[int, ...]
    odd: tuple[int, ...]


class Read(Record):
    """A way in which the readings were taken: `shown` are the steps, none where each was read as written.

    `slips` are the places of readings that are wrong and tell nothing. `prior` is the logarithm of how likely it is and of how much likelier it makes such figures.
    """

    shown: tuple[StepShown, ...]
    readings: tuple[Reading, ...]
    prior: float
    slips: tuple[int, ...] = ()

    @property
    def steps(self) -> tuple[Fraction, ...]:
        """The steps in mm that were read to."""
        return tuple(shown.step.mm for shown in self.shown)


class _TakenByOne(Record):
    """How the readings of one instrument were taken: what it shows, the trust in mm by place, and the logarithm."""

    shown: StepShown | None
    trusts: dict[int, Fraction]
    prior: float
    slips: tuple[int, ...] = ()


def ways(readings: Sequence[Reading]) -> tuple[Read, ...]:
    """Every way in which the readings may have been taken; one alone where nothing can be inferred."""
    as_written = Read((), tuple(readings), 0.0)
    free = [
        place for place, r in enumerate(readings)
        if r.by is None and not r.told and not r.figures and r.within.value
    ]  # fmt: skip
    groups = [
        [place for place in free if of_unit(readings[place])]
        for of_unit in (_in_mm, _in_inches, _in_fractions)
    ]
    instruments = [
        list(shows(readings, group))
        for group, shows in zip(groups, (_millimetres, _inches, _rule), strict=True)
        if len(group) >= FEWEST or (shows is not _rule and _unlike(readings, group))
    ]  # fmt: skip
    if not instruments:
        return (as_written,)
    every = [_together(readings, parts) for parts in product(*instruments)]
    if all(len(group) < FEWEST for group in groups[:2]):
        return tuple(every)
    truer = tuple(r.but(made=TRUER) if r.made == MADE else r for r in readings)
    plain = [read.but(prior=read.prior + log(1 - _TRUER)) if not read.shown else read for read in every]
    apart = sum(log(UNLIKE) for group in groups[:2] if _unlike(readings, group))
    return (*plain, Read((), truer, log(_TRUER) + apart))


def told_way(every: Sequence[Read], shares: Sequence[float]) -> tuple[int, float]:
    """The place of the way that is shown, the likeliest by its step, and how likely that step is.

    A step is told when it is likelier than not; else the readings pass as they were written.
    """
    steps: dict[tuple[Fraction, ...], float] = {}
    for read, share in zip(every, shares, strict=True):
        steps[read.steps] = steps.get(read.steps, 0.0) + share
    step = max(steps, key=lambda each: (steps[each] > 0.5, not each, steps[each]))
    best = max((k for k, read in enumerate(every) if read.steps == step), key=lambda k: shares[k])
    return best, steps[step]


def by_one_tool(readings: Sequence[Reading]) -> tuple[Reading, ...]:
    """The same, those by one named instrument trusted alike: as finely as the finest of them shows that it reads."""
    shared = list(readings)
    groups: dict[str, list[int]] = {}
    for place, reading in enumerate(readings):
        free = not (reading.told or reading.figures or _in_fractions(reading) or _halved(reading.within))
        if reading.by is not None and free:
            groups.setdefault(reading.by, []).append(place)
    for group in groups.values():
        finest = min(readings[place].within.mm for place in group)
        for place in group:
            if readings[place].within.mm > finest:
                shared[place] = trusted(readings[place], finest)
    return tuple(shared)


def _halved(within: Quantity) -> bool:
    """Whether a trust is half a division of the inch, as an instrument gives to what is written as a fraction."""
    inches = within.inch
    return inches.numerator == 1 and inches.denominator & (inches.denominator - 1) == 0


def _unlike(readings: Sequence[Reading], group: Sequence[int]) -> bool:
    """Whether readings are written to different places."""
    return len({readings[place].within.mm for place in group}) > 1


def _together(readings: Sequence[Reading], parts: Sequence[_TakenByOne]) -> Read:
    """One way for each instrument; readings taken again stand on a step, too, if every figure of theirs does."""
    shown = tuple(part.shown for part in parts if part.shown)
    trusts = {place: trust for part in parts for place, trust in part.trusts.items()}
    for place, reading in enumerate(readings):
        if reading.figures and not reading.told and reading.by is None:
            looks = sqrt(len(set(reading.figures)))
            steps = [
                s.step.mm for s in shown if all(_stands(figure, s.step.mm) for figure in reading.figures)
            ]
            if steps:
                each = Fraction(float(max(steps)) / 2 / looks).limit_denominator(10**6)
                trusts[place] = max(reading.within.mm, each)
    taken = tuple(trusted(r, trusts[place]) if place in trusts else r for place, r in enumerate(readings))
    slips = tuple(place for part in parts for place in part.slips)
    return Read(shown, taken, sum(part.prior for part in parts), slips)


def _in_mm(reading: Reading) -> bool:
    return not _in_fractions(reading) and _power_of_ten(reading.within.mm * 2)


def _in_inches(reading: Reading) -> bool:
    return not _in_fractions(reading) and not _in_mm(reading) and _power_of_ten(reading.within.inch * 2)


def _in_fractions(reading: Reading) -> bool:
    return fraction_of_inch(reading.size, reading.within) is not None


def _power_of_ten(place: Fraction) -> bool:
    return any(place * 10**n == 1 for n in range(-1, 6))


def _stands(size: Quantity, step: Fraction) -> bool:
    return (size.mm / step).denominator == 1


def _millimetres(readings: Sequence[Reading], group: Sequence[int]) -> Iterator[_TakenByOne]:
    return _decimals(readings, group, {Fraction(step): often for step, often in _MM.items()})


def _inches(readings: Sequence[Reading], group: Sequence[int]) -> Iterator[_TakenByOne]:
    return _decimals(readings, group, {Fraction(step) * INCH: often for step, often in _INCH.items()})


def _decimals(
    readings: Sequence[Reading], group: Sequence[int], steps: Mapping[Fraction, float]
) -> Iterator[_TakenByOne]:
    unlike = _unlike(readings, group)
    apart = log(UNLIKE) if unlike else 0.0
    yield _TakenByOne(None, {}, log(1 - _COARSER) + apart)
    finest, coarsest = (of(readings[place].within.mm * 2 for place in group) for of in (min, max))
    coarser = {step: often for step, often in steps.items() if step > finest}
    before = {step: log(_COARSER * often / sum(coarser.values())) for step, often in coarser.items()}
    if len(group) >= FEWEST:
        for step, prior in before.items():
            finer = [place for place in group if readings[place].within.mm * 2 < step]
            yield from _standing(readings, finer, step, prior + (apart if step < coarsest else 0.0))
    if unlike:
        between = [step for step in coarser if step < coarsest]
        shares = dict.fromkeys(between, (1 - _FINEST) / max(1, len(between)))
        for step, share in {finest: _FINEST, **shares}.items():
            if all(_stands(readings[place].size, step) for place in group):
                yield from _standing(readings, group, step, log((1 - _COARSER) * (1 - UNLIKE) * share))


def _rule(readings: Sequence[Reading], group: Sequence[int]) -> Iterator[_TakenByOne]:
    """Rules, by a division of the inch; how each was written tells nothing of it."""
    ruled = [
        way
        for parts, weight in _RULES.items()
        for way in _standing(readings, group, INCH / parts, log(weight))
    ]
    yield from ruled or [_TakenByOne(None, {}, 0.0)]


def _standing(
    readings: Sequence[Reading], group: Sequence[int], step: Fraction, before: float
) -> Iterator[_TakenByOne]:
    """The ways in which readings stand on a step, all or all but a few."""
    on = tuple(place for place in group if _stands(readings[place].size, step))
    odd = tuple(place for place in group if place not in on)
    if len(on) < FEWEST - 1 or len(odd) > _MOST_ODD * len(group):
        return
    shown = StepShown(Quantity(step), on, odd)
    # As many times likelier as there are fewer figures to choose from than were written.
    fewer = sum(log(float(step / (readings[place].within.mm * 2))) for place in on)
    prior = before + fewer + len(on) * log(1 - ODD) + len(odd) * log(ODD)
    trusts = dict.fromkeys(on, step / 2)
    if not odd:
        yield _TakenByOne(shown, trusts, prior)
        return
    prior -= log(3)
    yield _TakenByOne(shown, trusts, prior)
    yield _TakenByOne(shown, {**trusts, **dict.fromkeys(odd, step / 2)}, prior)
    yield _TakenByOne(shown, trusts, prior, odd)
