"""What was meant, in the words of the bench: what may be cut, on what odds, held of what work."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from typing import TYPE_CHECKING

from fractions_shop.figures.figure import in_inches, in_mm
from fractions_shop.figures.plain import Lines
from fractions_shop.figures.table import Cell, in_prose
from fractions_shop.meant.belief import Belief
from fractions_shop.meant.found import Ask, Explanation, ReaderStep, SizeCandidate, Weighed
from fractions_shop.meant.priors import TODAYS_SYSTEMS, group_label, told_of
from fractions_shop.meant.readings import MADE
from fractions_shop.meant.scale import KnownScale, ScaleFound
from fractions_shop.meant.shared import CommonError, Measured, Print, Zero
from fractions_shop.meant.unsaid import Unsaid
from fractions_shop.meant.verdict import SizeVerdict, about
from fractions_shop.requests.odds import odds_text
from fractions_shop.size.quantity import Quantity
from fractions_shop.tables.old_inches import groups

if TYPE_CHECKING:
    from fractions_shop.meant.reconciled import Reconciled
    from fractions_shop.meant.relations import Relation

#: Candidates named where nothing is settled, and how far behind the best they may be.
_NAMED, _NEAR = 3, 0.1
#: Another reading is suspect, too, at so much of the suspicion on the most suspect.
_ALIKE_SUSPECT = 0.1
#: A chance from here on proves nothing at all.
ALWAYS = 0.995

#: Candidates told of one reading alone, and of each of a list.
TOLD, TOLD_EACH = 6, 2

CHANCE_MEANS = "by chance: about how often a size at random would come as near to one as readable"


def verdict_line(weighed: Weighed, name: str = "") -> str:
    """What may be done with one size, which may have a name."""
    if weighed.verdict is SizeVerdict.UNSETTLED:
        return f"Not settled: {f'{name}: ' if name else ''}{_open(weighed)}; do not cut yet"
    return acted_on(weighed.verdict, (weighed.candidates[0].name,), weighed.ask, resting(weighed))


def resting(weighed: Weighed) -> str:
    """What the best candidate rests on being believed: `if it is inch work`; nothing where it does not."""
    return believed(weighed.rests_on, weighed.candidates[0].metric) if weighed.candidates else ""


def believed(rests_on: Sequence[Unsaid], metric: bool, several: bool = False) -> str:
    """What nobody said and a size rests on: `if it is inch work and it has kept its size`."""
    said = _beliefs(rests_on, metric, several)
    return f"if {' and '.join(said)}" if said else ""


def _beliefs(rests_on: Sequence[Unsaid], metric: bool, several: bool) -> list[str]:
    work = f"it is {'metric' if metric else 'inch'} work"
    kept = "they have kept their size" if several else "it has kept its size"
    return [{Unsaid.WORK: work, Unsaid.KEPT: kept}[each] for each in rests_on]


def odds_on_best(weighed: Weighed) -> str:
    """The odds on the best candidate, and on what belief they rest, if on one alone."""
    return f"{odds_text(weighed.candidates[0].odds)} {resting(weighed)}".rstrip()


def acted_on(verdict: SizeVerdict, names: Sequence[str], ask: Ask | None = None, resting: str = "") -> str:
    """What may be done with sizes that have the same verdict, one that is settled enough to say.

    `resting` says what they rest on being believed: `if it is inch work`.
    """
    said = in_row(names, "and") + (f", {resting}" if resting else "")
    pitch = ask is Ask.PITCH
    match verdict:
        case SizeVerdict.CUT:
            return f"Cut to {said}"
        case SizeVerdict.CHECK:
            return f"Take {said}; check {'the pitch' if pitch else 'one neighbour'}"
        case _:
            return f"Probably {said}; read {(ask or Ask.NEIGHBOUR).value}"


def believed_of_set(result: Reconciled, name: str = "") -> str:
    """What the best set, or one size of it, rests on that nobody said or that may be wrong; nothing where it does not.

    A size beside a suspect rests on the relations that make it one.
    """
    rests = result.size_rests_on(name) if name else result.rests_on
    relations = [] if result.suspect in (name, None) else [relations_of(result.in_doubt)]
    said = " and ".join(_beliefs(rests, result.sets[0].metric, several=not name))
    conditions = [*relations, *([said] if said else [])]
    return f"if {in_row(conditions, 'and')}" if conditions else ""


def relations_of(relations: Sequence[Relation]) -> str:
    """Relations as they were written, in a row."""
    return in_row([str(relation) for relation in relations], "and")


def accused(result: Reconciled) -> str:
    """What is said of the reading that disagrees with the rest: what may be wrong instead of it."""
    assert result.suspect is not None
    others = suspects(result)[1:]
    misread = f"it or {in_row(others, 'or')} is misread" if others else "it is misread"
    said = f"{result.suspect}, {reading_as_read(result, result.suspect)}, disagrees with the rest"
    return f"Not settled: {said}: {misread}, or it is not so that {relations_of(result.in_doubt)}; do not cut yet"


def suspects(result: Reconciled) -> list[str]:
    """The name whose reading disagrees with the rest, and those that may be wrong in its place."""
    most = max(result.suspicions.values())
    others = [name for name, share in result.suspicions.items() if share > most * _ALIKE_SUSPECT]
    first = [] if result.suspect is None else [result.suspect]
    return [*first, *(name for name in others if name not in first)]


def reading_as_read(result: Reconciled, name: str) -> str:
    """A tied reading as it was written, or in the unit that it ends in."""
    reading = result.readings[name]
    return reading.written or in_own_unit(reading.size)


def verdict_lines(readings: Sequence[Weighed], names: Sequence[str] = ()) -> list[str]:
    """The verdicts of a list, the surest first; what has the same in one sentence. `names` are theirs, if they have some."""
    lines = []
    named = list(zip(readings, names or [""] * len(readings), strict=True))
    for verdict in SizeVerdict:
        if verdict is SizeVerdict.UNSETTLED:
            continue
        alike: dict[tuple[Ask | None, str], dict[str, None]] = {}
        for weighed, name in named:
            if weighed.verdict is verdict:
                said = f"{name} {weighed.candidates[0].name}".lstrip()
                alike.setdefault((weighed.ask, resting(weighed)), {})[said] = None
        lines += [acted_on(verdict, tuple(sizes), ask, on) for (ask, on), sizes in alike.items()]
    open_ones = [
        verdict_line(weighed, name) for weighed, name in named if weighed.verdict is SizeVerdict.UNSETTLED
    ]
    return [*lines, *dict.fromkeys(open_ones)]


def _open(weighed: Weighed) -> str:
    if weighed.suspect:
        return f"{as_read(weighed)} may be misread, or no round size"
    if not weighed.candidates:
        return f"no round size is likely near {as_read(weighed)}"
    near = [candidate.name for candidate in _named_where_open(weighed)]
    if len(near) == 1:
        return f"{near[0]}, or none of the round sizes"
    return in_row(near, "or")


def _named_where_open(weighed: Weighed) -> Sequence[SizeCandidate]:
    """Those that the verdict of a size which is not settled names: the best, and as many as are near it."""
    best = weighed.candidates[0]
    return [c for c in weighed.candidates if c.probability > best.probability * _NEAR][:_NAMED]


def worth_telling(weighed: Weighed, most: int) -> list[SizeCandidate]:
    """The best, those near it and all that the verdict names; else what always comes as near by chance is left out."""
    if not weighed.candidates:
        return []
    best = weighed.candidates[0]
    open_ = weighed.verdict is SizeVerdict.UNSETTLED and not weighed.suspect
    named = _named_where_open(weighed) if open_ else [best]
    # Far behind the best, the rest are only noise; a second is told in any case.
    near = [
        c
        for n, c in enumerate(weighed.candidates)
        if c not in named and c.chance < ALWAYS and (n < 2 or c.probability * 100 > best.probability)
    ][: max(0, most - len(named))]
    return [c for c in weighed.candidates if c in named or c in near]


def next_reading(readings: Sequence[Weighed]) -> Lines:
    """What to read next, where something is not settled."""
    asks = dict.fromkeys(
        weighed.ask
        for weighed in readings
        if weighed.verdict is SizeVerdict.UNSETTLED and weighed.ask is not None
    )
    return [f"read next: {in_row([ask.value for ask in asks], 'and')}"] if asks else []


def as_read(weighed: Weighed) -> str:
    """A reading as it was written, or in the unit that it ends in."""
    return as_read_of(weighed.written, weighed.asked)


def as_read_of(written: str, size: Quantity) -> str:
    """What was written, if anything was; else the size in the unit that it ends in."""
    return written or in_own_unit(size)


def in_own_unit(size: Quantity) -> str:
    """A size in the unit that it ends in."""
    inches = in_inches(size)
    return in_prose(Cell("size", (inches if inches.exact else in_mm(size),)))


def trusted_to(size: Quantity) -> str:
    """How far a reading is trusted."""
    inches = in_inches(size)
    return in_prose(Cell("size", (inches if inches.exact else in_mm(size, 3),)))


def by_chance(chance: float) -> str:
    """The same in a sentence: `by chance about 3 in 10`."""
    said = chance_words(chance)
    return f"{said} as near by chance" if said in ("never", "always") else f"by chance about {said}"


def chance_words(chance: float) -> str:
    """A chance as one says it: `3 in 10`."""
    many, of = about(chance)
    return {(0, 1): "never", (1, 1): "always"}.get((many, of), f"{many:,} in {of:,}")


def belief_line(belief: Belief, others: Sequence[tuple[str, str]] = ()) -> str:
    """What was held of the work, and what would be meant otherwise: (`metric`, `51.5 mm`)."""
    if belief.inch_odds == 1:
        held = "held of the work: inch and metric alike"
    else:
        kind = "inch" if belief.inch_odds > 1 else "metric"
        odds = max(belief.inch_odds, 1 / belief.inch_odds)
        how = "said to be" if belief.work else "held to be"
        held = f"{how} {kind} work, {odds:,.3g} to 1 before measuring"
    return "; ".join([held, *(f"if {kind}, {name}" for kind, name in others)])


def if_other_work(weighed: Weighed) -> list[tuple[str, str]]:
    """The likeliest of the other kind of work, if there is one."""
    if not weighed.candidates:
        return []
    metric = weighed.candidates[0].metric
    other = weighed.best(not metric)
    return [] if other is None else [("inch" if metric else "metric", other.name)]


def if_other_set(result: Reconciled) -> list[tuple[str, str]]:
    """The likeliest set of the other kind of work, where the best one rests on the work."""
    best = result.sets[0]
    other = next((chosen for chosen in result.sets if chosen.metric != best.metric), None)
    if other is None or Unsaid.WORK not in result.rests_on:
        return []
    sizes = in_row([f"{name} {other.names[name]}" for name in other.differs], "and")
    return [("inch" if best.metric else "metric", sizes)]


def common_lines(common: Sequence[CommonError]) -> Lines:
    """What was found of each error that the readings share; what one known size tells of a scale has its own line."""
    lines: Lines = []
    for error in common:
        if isinstance(error.shared, Measured):
            continue
        if isinstance(error.shared, Print):
            name = f"print {error.shared.name}" if error.shared.name else "scale"
            lines.append(
                f"{name}: true sizes are {_factor(error.factor)} times what was read, "
                f"give or take {_percent(error.spread / error.factor)}; it rests on {_readings(error.readings)}"
            )
        elif isinstance(error.shared, Zero):
            way = "large" if error.estimate > 0 else "small"
            lines.append(
                f"not set to zero: it read about {_mm(abs(error.estimate))} mm too {way}, "
                f"give or take {_mm(error.spread)} mm; found from {_readings(error.readings)}"
            )
        else:
            lines.append(
                f"all have shrunk by about {_percent(error.estimate)}, give or take {_percent(error.spread)}; "
                f"found from {_readings(error.readings)}"
            )
    return lines


def scale_lines(scale: ScaleFound | None) -> Lines:
    """The scale of a drawing, or that one known size tells, and what it rests on; a print's is an error shared."""
    if scale is None:
        return []
    factor = f"true sizes are {_factor(float(scale.factor))} times what was read"
    if scale.known is not None:
        rests = f"on {in_own_unit(scale.known.size)}, which reads {in_own_unit(scale.known.read)}"
        spread = _percent(float(scale.spread))
        return [
            f"scale: {factor}, give or take {spread}; it rests on {_readings(scale.readings)} and {rests}"
        ]
    return [] if scale.readings else [f"a drawing to scale: {factor}"]


def known_scale_lines(scale: KnownScale) -> Lines:
    """What one known size tells of a scale."""
    return [
        f"true sizes are {_factor(float(scale.factor))} times what is read, give or take {_percent(float(scale.spread))}",
        f"{in_own_unit(scale.size)} reads {in_own_unit(scale.read)}",
    ]


def step_lines(steps: Sequence[ReaderStep], names: Sequence[str]) -> Lines:
    """The steps that readings stand on, where they show one; `names` says what each reading of the list is called."""
    return [_step_line(step, names) for step in steps]


def _step_line(step: ReaderStep, names: Sequence[str]) -> str:
    said = in_own_unit(step.step)
    who = "all stand" if len(step.on) == len(names) else f"{len(step.on)} of {len(names)} stand"
    line = f"{who} on {said}, so they are taken as read to {said} and trusted to half of that"
    if step.odd:
        odd = list(dict.fromkeys(names[place] for place in step.odd))
        does, is_ = ("does", "is") if len(odd) == 1 else ("do", "are")
        line += f"; {in_row(odd, 'and')} {does} not, and {is_} read more finely, judged between the marks, or wrong"
    return line + "; say within what, if they are finer"


def old_lines(old: Explanation | None) -> Lines:
    """The old inch that explains readings which today's systems do not, and how to ask for its sizes."""
    if old is None:
        return []
    names = " or ".join(inch.called for inch in old.inches)
    sources = "; ".join(dict.fromkeys(inch.source for inch in old.inches))
    return [
        f"an old inch explains them: {names} inch, {old.division}, {odds_text(old.odds)} ({sources}); "
        "ask again among old inches"
    ]


def group_lines(systems: Collection[str]) -> Lines:
    """Which other old inches a size may be of, where measuring cannot tell several apart."""
    lines: Lines = []
    if TODAYS_SYSTEMS.issuperset(systems):
        return lines
    for group in groups():
        if len(group) > 1 and group_label(group) in systems:
            like = told_of(group)
            others = in_row([inch.called for inch in group if inch is not like], "or")
            lines.append(
                f"{like.called} may as well be {others}: these inches lie so near to each other that measuring does not tell which"
            )
    return lines


def befallen_line(made: Quantity, worn: Quantity, plated: Quantity) -> str:
    """What is allowed for besides the reading's own error, where that is not as usual; empty where it is."""
    said = [
        *([f"made within {in_own_unit(made)}"] if made != MADE else []),
        *([f"worn by up to {in_own_unit(worn)}"] if worn.value else []),
        *([f"plated by up to {in_own_unit(plated)}"] if plated.value else []),
    ]
    return f"allowed for: {in_row(said, 'and')}" if said else ""


def likely(name: str, odds: float) -> str:
    """A size with the odds on it."""
    return f"{name}, {odds_text(odds)}"


def in_row(words: Sequence[str], joint: str) -> str:
    """`a`, `a or b`, `a, b or c`."""
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} {joint} {words[-1]}"


def _readings(count: int) -> str:
    return f"{count} reading{'' if count == 1 else 's'}"


def _factor(factor: float) -> str:
    return f"{factor:.5g}"


def _mm(size: float) -> str:
    return f"{size:.2g}"


def _percent(share: float) -> str:
    return f"{100 * share:.2g} %"
