"""Reconcile: sizes of one thing that add up, from readings that do not quite.

Names that were read are tied by relations (`rack = 5 * bay + 6 * slat`). Sought is the set
of round sizes, one for each name, that makes every relation exact and is likeliest to have
been meant. `closing` weighs the sets by the rule of Bayes and states the model; this
module takes what is given, and says what came of it.

Nothing is rounded on the way: a set closes with Fractions, or it is no set.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from fractions import Fraction
from typing import Any

from fractions_shop.errors import NoAnswer, ShopError
from fractions_shop.meant.belief import Belief, belief_in
from fractions_shop.meant.candidates import taken_out
from fractions_shop.meant.closing import Closed, ClosedSet, closing
from fractions_shop.meant.closing_ways import closing_by_ways
from fractions_shop.meant.conflicts import conflict
from fractions_shop.meant.found import reader_steps
from fractions_shop.meant.planes import Problem
from fractions_shop.meant.priors import METRIC, NO_TABLES, Division, scheme
from fractions_shop.meant.readings import MADE, Reading, take
from fractions_shop.meant.reconciled import Reconciled, SizeSet
from fractions_shop.meant.relation_text import read_relation
from fractions_shop.meant.relations import Relation, can_hold, solve
from fractions_shop.meant.scale import Scale, as_scale, lacking, open_scales, scale_found, scaled
from fractions_shop.meant.shared import CommonError, Print, Shrunk, shared_by_all
from fractions_shop.meant.spread import common_errors
from fractions_shop.meant.steps import by_one_tool
from fractions_shop.meant.unsaid import LOST, SURE, held_alike, may_have_lost
from fractions_shop.meant.verdict import odds_on
from fractions_shop.size.arguments import SizeLike, options_by_name
from fractions_shop.size.notation import decimal
from fractions_shop.size.units import INCH

__all__ = ["Reconciled", "SizeSet", "reconcile"]

#: More than this is not settled by hand, nor here.
MOST_NAMES, MOST_RELATIONS = 12, 8
#: Sets that are told, and the least probability worth telling.
_MOST, _LEAST = 8, 1e-4
#: What is less likely than this rests on nothing, for it is not sure.
_SURE = SURE / (1 + SURE)


@options_by_name(
    "reconcile({'rack': '75.4 mm', 'bay': '10.3 mm', 'slat': '4 mm'}, ['rack = 5 * bay + 6 * slat'])"
)
def reconcile(
    readings: Mapping[str, SizeLike | Reading | Sequence[SizeLike]],
    relations: Sequence[str | Relation],
    *,
    within: SizeLike | None = None,
    by: str | None = None,
    worn: SizeLike | None = None,
    plated: SizeLike | None = None,
    made: SizeLike = MADE,
    among: Sequence[str] = (),
    work: str | None = None,
    inch_odds: float | None = None,
    shrunk: Fraction | None = None,
    unzeroed: bool = False,
    scale: Scale | str | None = None,
) -> Reconciled:
    """The likeliest set of round sizes that fulfils every relation; the sets next to it.

    `readings` gives for each name a size as read, a list of figures where it was read
    again, or a Reading with its own trust and shared errors; the options serve for those
    that are no Reading, as in `recover`, and the reader's step is inferred as there. `relations` are texts or Relations, linear in
    those names. `among` may be "old inches" or "128ths".

    NoAnswer when relations cannot all hold, with the smallest set that conflicts;
    InputError, with the place, for a relation that cannot be read or is not linear;
    ShopError for a name in them that has no reading, and for more than 12 names or 8
    relations.

    >>> rack = reconcile({"rack": "75.4 mm", "bay": "10.3 mm", "slat": "4 mm"}, ["rack = 5 * bay + 6 * slat"])
    >>> {name: size.inch for name, size in rack.sizes.items()}
    {'rack': Fraction(95, 32), 'bay': Fraction(13, 32), 'slat': Fraction(5, 32)}
    """
    read = _relations(relations)
    if not 1 <= len(readings) <= MOST_NAMES:
        raise ShopError(f"from 1 to {MOST_NAMES} names are reconciled at once, not {len(readings)}")
    options: dict[str, Any] = {"by": by, "plated": plated, "shared": shared_by_all(shrunk, unzeroed)}
    at = as_scale(scale)
    each = by_one_tool([take([value], within, worn, made, **options)[0] for value in readings.values()])
    taken = {name: scaled(reading, at) for name, reading in zip(readings, each, strict=True)}
    _need_sizes(taken, read)
    missing = [name for relation in read for name in relation.names if name not in taken]
    if missing:
        raise ShopError(f"{missing[0]} stands in a relation and has no reading")
    believed = belief_in(work, inch_odds)
    if not can_hold(read):
        raise NoAnswer(conflict(read))
    solved = solve(read, tuple(taken))
    divisions = scheme(_finer(among), believed.inch_odds)
    problem = Problem(taken, read, solved, divisions)
    by_ways = closing_by_ways(problem)
    problem = replace(problem, readings=by_ways.readings)
    if not by_ways.closed.sets and (wrong := conflict(read)):
        raise NoAnswer(wrong)
    answer = _answered(problem, by_ways.closed, believed)
    answer = _unsaid(answer, by_ways.closed, problem, by_ways.evidence)
    common = common_errors(by_ways.readings, answer.sets[0].sizes) if answer.sets else ()
    return replace(
        _put_right(answer, common),
        steps=reader_steps(by_ways.read, by_ways.sure, list(dict.fromkeys(taken.values())), list(taken.values())),
        common=common, scale=scale_found(at, common) if common or at else None,
    )  # fmt: skip


def _unsaid(answer: Reconciled, closed: Closed, problem: Problem, evidence: float) -> Reconciled:
    """The same with what becomes of the odds without what nobody said."""
    if not answer.sets:
        return answer
    best = closed.sets[0]
    belief = answer.belief
    alike = {
        system: 1.0 if belief.said else belief.made_even(system) for system in {s.system for s in closed.sets}
    }
    even = {s.marks: s.probability * alike[s.system] for s in closed.sets}
    total = sum(even.values()) + max(0.0, 1.0 - sum(s.probability for s in closed.sets))
    even_chances = {
        name: min(1.0, sum(share for marks, share in even.items() if marks[k] == best.marks[k]) / total)
        for k, name in enumerate(best.names)
    }
    kept_chances, kept = answer.chances, best.probability
    if problem.solved.free and best.probability >= _SURE and may_have_lost(tuple(problem.readings.values())):
        shared = {name: reading.but(shared=(Shrunk(LOST),)) for name, reading in problem.readings.items()}
        lost = closing(replace(problem, readings=shared))
        likelier = lost.evidence - evidence
        sizes = best.sizes
        kept_chances = {
            name: held_alike(
                chance, sum(s.probability for s in lost.sets if s.sizes[name] == sizes[name]), likelier
            )
            for name, chance in answer.chances.items()
        }
        kept = held_alike(kept, sum(s.probability for s in lost.sets if s.sizes == sizes), likelier)
    return replace(
        answer, even_chances=even_chances, kept_chances=kept_chances,
        even_odds=odds_on(even[best.marks] / total), kept_odds=odds_on(kept),
    )  # fmt: skip


def _put_right(answer: Reconciled, common: tuple[CommonError, ...]) -> Reconciled:
    """The same, each departure that of the reading without the errors that it shares with others."""
    right = {
        name: taken_out(reading, common).size
        for name, reading in answer.readings.items() if any(error.shared in reading.shared for error in common)
    }  # fmt: skip
    if not right:
        return answer
    sets = tuple(
        replace(
            closes,
            departures={
                **closes.departures,
                **{name: size - closes.sizes[name] for name, size in right.items()},
            },
        )
        for closes in answer.sets
    )
    return replace(answer, sets=sets, put_right=right)


def _called(problem: Problem, system: str, division: Division, mm: Fraction) -> str:
    """What a size of a set is called; one that is on no mark by its decimals, in the unit in which these end."""
    if problem.carries(system, mm):
        return division.called(mm)
    for unit, size in (("mm", mm), ("in", mm / INCH)):
        text, exact = decimal(size)
        if exact:
            return f"{text} {unit}"
    return f"about {decimal(mm, 3)[0]} mm"


def _finer(among: Sequence[str]) -> tuple[str, ...]:
    """What may be looked among: finer divisions and old inches; ShopError for tables, whose sizes no sum makes."""
    listed = (among,) if isinstance(among, str) else tuple(among)
    table = next((name for name in listed if name not in NO_TABLES), None)
    if table is not None:
        raise ShopError(
            f"sizes that add up are of no table, and {table!r} is asked for: expected {' or '.join(NO_TABLES)}"
        )
    return listed


def _need_sizes(taken: Mapping[str, Reading], relations: Sequence[Relation]) -> None:
    """NoAnswer for a print whose scale neither its sizes nor a relation to something of known scale can tell."""
    for print_, count in open_scales(tuple(taken.values())).items():
        if not any(_tells(relation, print_, taken) for relation in relations):
            raise NoAnswer(lacking(print_, count))


def _tells(relation: Relation, print_: Print, taken: Mapping[str, Reading]) -> bool:
    """Whether a relation ties what was read off a print to a known length, or to what was not."""
    off = [name for name in relation.names if print_ in taken[name].shared]
    return bool(off) and (bool(relation.constant.value) or len(off) < len(relation.names))


def _relations(relations: Sequence[str | Relation]) -> tuple[Relation, ...]:
    listed = [relations] if isinstance(relations, str | Relation) else list(relations)
    if not 1 <= len(listed) <= MOST_RELATIONS:
        raise ShopError(f"from 1 to {MOST_RELATIONS} relations are reconciled at once, not {len(listed)}")
    return tuple(
        relation if isinstance(relation, Relation) else read_relation(relation) for relation in listed
    )


def _worth_telling(closed: Closed) -> list[ClosedSet]:
    """The likeliest sets, that of the other kind of work among them if there is one: the answer may rest on the work."""
    likely = [chosen for chosen in closed.sets if chosen.probability >= _LEAST]
    first = likely[:_MOST]
    other = next((chosen for chosen in likely if _metric(chosen) != _metric(likely[0])), None)
    return first if other is None or other in first else [*first, other]


def _metric(chosen: ClosedSet) -> bool:
    return chosen.system == METRIC


def _answered(problem: Problem, closed: Closed, believed: Belief) -> Reconciled:
    sets: list[SizeSet] = []
    for closed_set in _worth_telling(closed):
        on = {name: problem.division(closed_set.system, mm) for name, mm in closed_set.sizes.items()}
        sizes = {name: on[name].size(mm) for name, mm in closed_set.sizes.items()}
        sets.append(
            SizeSet(
                sizes,
                {
                    name: _called(problem, closed_set.system, on[name], mm)
                    for name, mm in closed_set.sizes.items()
                },
                closed_set.system,
                closed_set.division,
                closed_set.probability,
                odds_on(closed_set.probability),
                {name: problem.readings[name].size - size for name, size in sizes.items()},
                tuple(name for name, size in sizes.items() if sets and size != sets[0].sizes[name]),
                tuple(
                    name for name, size in sizes.items() if not problem.carries(closed_set.system, size.mm)
                ),
            )
        )
    chances = {
        name: min(
            1.0, sum(s.probability for s in closed.sets if s.marks[place] == closed.sets[0].marks[place])
        )
        for place, name in enumerate(sets[0].sizes if sets else ())
    }
    return Reconciled(
        problem.readings,
        problem.relations,
        problem.solved.free,
        tuple(sets),
        max(0.0, 1.0 - sum(size_set.probability for size_set in sets)),
        chances,
        closed.suspicions,
        believed,
        closed.complete,
    )
