"""recover: the sizes that a maker may have meant, best first."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any, ClassVar

from fractions_shop.figures.figure import in_decimals, in_inches, in_mm
from fractions_shop.figures.plain import Lines
from fractions_shop.figures.table import Cell, Table, without_empty
from fractions_shop.figures.wording import off_by, signed_cell
from fractions_shop.language.fault import Fault
from fractions_shop.language.notes import doubt
from fractions_shop.meant.found import Ask, Recovered, SizeCandidate, Weighed
from fractions_shop.meant.priors import NO_TABLES
from fractions_shop.meant.verdict import SizeVerdict
from fractions_shop.requests.inputs import Inputs
from fractions_shop.requests.meant_pictures import as_lines, drawn, of_recovered
from fractions_shop.requests.meant_words import (
    CHANCE_MEANS,
    TOLD,
    TOLD_EACH,
    as_read,
    befallen_line,
    belief_line,
    by_chance,
    chance_words,
    common_lines,
    group_lines,
    if_other_work,
    next_reading,
    odds_on_best,
    old_lines,
    resting,
    scale_lines,
    step_lines,
    trusted_to,
    verdict_line,
    verdict_lines,
    worth_telling,
)
from fractions_shop.requests.measured import listed, scale_of, tables_of, work_of
from fractions_shop.requests.odds import odds_text
from fractions_shop.requests.rooms import Room
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.value import Value

#: What one answer can weigh while it is waited for; the library takes more.
MOST_READINGS, MOST_AMONG = 12, 3
#: More readings than these that are trusted otherwise than the rest are told each in its row.
_FEW_OTHERS = 2


class NamedSizes(Recovered):
    """A list that gives a name to each of its sizes; `name` is the one that an answer is of."""

    data_left_out: ClassVar[tuple[str, ...]] = ("name",)
    data_properties: ClassVar[tuple[str, ...]] = (*Recovered.data_properties, "each", "unsettled")

    names: tuple[str, ...] = ()
    name: str = ""

    @property
    def each(self) -> Mapping[str, Quantity]:
        """The likeliest size of each name."""
        sizes = (weighed.candidates[0].size for weighed in self.readings)
        return dict(zip(self.names, sizes, strict=True))

    @property
    def unsettled(self) -> tuple[str, ...]:
        """The names whose size is not settled."""
        return tuple(
            name for name, weighed in zip(self.names, self.readings, strict=True)
            if weighed.verdict is SizeVerdict.UNSETTLED
        )  # fmt: skip

    @property
    def mine(self) -> Weighed:
        """The reading of the name that this is of."""
        return self.readings[self.names.index(self.name)]


def _answer(given: Inputs) -> tuple[Any, Value | None]:
    from fractions_shop.meant.recover import recover

    tables = tables_of(given)
    looked_in = any(table.lower() not in NO_TABLES for table in tables)
    most = MOST_AMONG if looked_in else MOST_READINGS
    if len(given.request.subjects) > most:
        node = given.subject(most)
        raise Fault(
            f"at most {most} readings are weighed in one line{' among tables' if looked_in else ''}",
            node.start, node.end, "weigh them in groups: what holds for all shows in each",
        )  # fmt: skip
    result = recover(
        listed(given),
        among=tables,
        work=work_of(given),
        scale=scale_of(given),
    )
    if given.evaluator.naming_each:
        return _each_named(given, result)
    if len(result.readings) > 1 or not result.candidates:
        return result, None
    doubted = unsettled(result.readings[0])
    if doubted:
        given.evaluator.note(doubt(doubted))
    return result, result.candidates[0].size


def _each_named(given: Inputs, result: Recovered) -> tuple[Any, Value | None]:
    """The list with a name for each of its sizes; Fault where they are not as many, or one has no size."""
    names, node = given.evaluator.naming_each, given.request
    if len(names) != len(result.readings):
        raise Fault(
            f"{len(names)} names stand before {len(result.readings)} size{'s' if len(result.readings) > 1 else ''}",
            node.start, node.end, "give each size of the list one name, such as a, b = recover 51.5 mm, 66.7 mm",
        )  # fmt: skip
    for name, weighed in zip(names, result.readings, strict=True):
        if not weighed.candidates:
            message = f"no round size is likely near {as_read(weighed)}, so it cannot be named {name}"
            raise Fault(message, node.start, node.end, "read it again, or leave it out of the list")
    parts = {name: getattr(result, name) for name in Recovered.field_names}
    named = NamedSizes(**parts, names=names, name=given.evaluator.naming)
    for name, weighed in zip(names, result.readings, strict=True):
        if doubted := unsettled(weighed):
            given.evaluator.note(doubt(f"{name}: {doubted}"))
    return named, named.each[named.name]


def unsettled(weighed: Weighed) -> str:
    """The doubt about a size that is taken although it is not settled; empty where it is.

    What to read next the answer says by itself, where it knows that.
    """
    if weighed.verdict is not SizeVerdict.UNSETTLED or not weighed.candidates:
        return ""
    best = weighed.candidates[0]
    read = f": read {Ask.NEIGHBOUR.value}" if weighed.ask is None else ""
    return f"{best.name} is not settled, {odds_text(best.odds)}{read}"


def _open_odds(result: Recovered) -> float | None:
    weighed = result.mine if isinstance(result, NamedSizes) else result.readings[0]
    return weighed.candidates[0].odds if unsettled(weighed) else None


def _believed(result: Recovered) -> str:
    return resting(result.mine if isinstance(result, NamedSizes) else result.readings[0])


def _lines(result: Recovered | NamedSizes) -> Lines:
    """What may be done, the candidates of each reading, and what explains several together."""
    if len(result.readings) > 1:
        return list_lines(result, result.names if isinstance(result, NamedSizes) else ())
    weighed = result.readings[0]
    lines: Lines = [verdict_line(weighed)]
    said = f"{as_read(weighed)} read within {trusted_to(weighed.within)}"
    if weighed.candidates:
        best = weighed.candidates[0]
        said += f": {best.name}, {odds_on_best(weighed)}; {by_chance(best.chance)}"
    lines += [said, *next_reading(result.readings), belief_line(result.belief, if_other_work(weighed))]
    lines += _held_in_common(result)
    if weighed.candidates:
        rows = tuple(_row(c) for c in worth_telling(weighed, TOLD))
        lines += [
            Table(rows, ("meant", "", "the reading is", "odds", "by chance"), ("odds", "the reading is")),
            CHANCE_MEANS,
        ]
    return [*lines, *as_lines(of_recovered(result))]


def list_lines(result: Recovered, names: tuple[str, ...] = (), scaled: frozenset[int] = frozenset()) -> Lines:
    """Readings weighed together; `names` are theirs, where they have some, and `scaled` those not at full size."""
    lines: Lines = [*verdict_lines(result.readings, names), *old_lines(result.old)]
    lines += next_reading(result.readings)
    trusts = [trusted_to(weighed.within) for weighed in result.readings]
    by_trust = _by_trust(result.readings, trusts)
    alike = bool(by_trust)
    lines += [*together(result), *([by_trust] if by_trust else [])]
    rows: list[tuple[Cell | str, ...]] = []
    for place, weighed in enumerate(result.readings):
        first: tuple[Cell | str, ...] = (
            names[place] if names else "", as_read(weighed), "" if alike else trusts[place],
            _put_right(weighed, result.scale is not None or place in scaled),
        )  # fmt: skip
        likeliest = [_row(c) for c in worth_telling(weighed, TOLD_EACH)] or [
            ("no round size", "", "", "", "")
        ]
        for candidate in likeliest:
            rows.append((*first, *candidate))
            first = ("",) * len(first)
    header = ("", "read", "within", "put right", "meant", "", "the reading is", "odds", "by chance")
    table = without_empty(Table(tuple(rows), header, carried=4))
    return [*lines, table, CHANCE_MEANS, *as_lines(of_recovered(result))]


def _by_trust(readings: Sequence[Weighed], trusts: Sequence[str]) -> str:
    """How far all were trusted, one or two of them perhaps otherwise; empty where each must be told beside it."""
    usual = max(trusts, key=trusts.count)
    others = [place for place, trust in enumerate(trusts) if trust != usual]
    if len(others) > min(_FEW_OTHERS, (len(trusts) - 1) // 2):
        return ""
    apart = "".join(f"; {as_read(readings[place])} within {trusts[place]}" for place in others)
    return f"read within {usual}{apart}"


def _row(candidate: SizeCandidate) -> tuple[Cell | str, ...]:
    return (
        candidate.name, _otherwise(candidate), signed_cell(candidate.off), odds_text(candidate.odds),
        chance_words(candidate.chance),
    )  # fmt: skip


def _put_right(weighed: Weighed, scaled: bool) -> Cell | str:
    """The reading at full size and without what it shares with others, where that is not as it was read."""
    if weighed.full is None and not scaled:
        return ""
    return Cell("size", (in_mm(weighed.full or weighed.asked, 3),))


def _otherwise(candidate: SizeCandidate) -> Cell:
    """A candidate's size in the units that its name does not say it in."""
    figures = in_inches(candidate.size), in_mm(candidate.size)
    unsaid = [figure for figure in figures if figure.bare != candidate.name]
    return Cell("size", tuple(unsaid[:1]), tuple(unsaid[1:]))


def _times(better: float) -> str:
    if better > 1e6:
        return "over a million times"
    return f"{better:,.0f} times" if better >= 10 else f"{better:.2g} times"


def _likelier(better: float) -> str:
    return (
        "no likelier than sizes at random"
        if better <= 1.05
        else f"{_times(better)} as likely as sizes at random"
    )


def together(result: Recovered) -> Lines:
    """What explains all of a list."""
    best = result.system
    assert best is not None
    lines: Lines = [_explained(result)]
    others = tuple(
        (e.system, e.division, odds_text(e.odds), _likelier(e.better)) for e in result.explanations[1:4]
    )
    if others:
        lines.append(Table(others))
    gram = result.quantogram
    if gram is not None:
        lines.append(
            f"quantogram (Kendall, 1974): best quantum about {in_decimals(gram.quantum.inch, 'in', 4).bare} "
            f"({in_mm(gram.quantum, 3).bare}), as strong by chance {_by_luck(gram)}"
        )
    return [*lines, belief_line(result.belief), *_held_in_common(result)]


def _explained(result: Recovered) -> str:
    best, count = result.system, len(result.readings)
    assert best is not None
    if best.worst is None:
        return f"no division explains {'both' if count == 2 else f'all {count}'} readings better than sizes at random"
    worst = f"the worst is {off_by(best.worst)} off" if best.worst.value else "every one exact"
    return (
        f"{'both' if count == 2 else f'all {count}'} together: {best.system}, {best.division}, {odds_text(best.odds)}; "
        f"{_likelier(best.better)}; {worst}"
    )


def _by_luck(gram: Any) -> str:
    """How often sizes at random score as well: worked out, or tried."""
    if not gram.trials:
        often = 1 / max(gram.significance, 1e-9)
        return f"once in {often:,.0f}" if often < 1e6 else "less than once in a million"
    if not gram.reached:
        return f"in none of {gram.trials} trials"
    return f"in about {chance_words(gram.significance)}, of {gram.trials} trials"


def _held_in_common(result: Recovered) -> Lines:
    """What was taken of all readings: the reader's step, what they share, equal ones as one."""
    echoes = [as_read(reading) for reading in result.readings]
    lines = [*step_lines(result.steps, echoes), *common_lines(result.common), *scale_lines(result.scale)]
    besides = dict.fromkeys(befallen_line(read.made, read.worn, read.plated) for read in result.readings)
    lines += filter(None, besides)
    lines += group_lines({candidate.system for candidate in result.candidates})
    for places in result.alike:
        same = as_read(result.readings[places[0]])
        lines.append(f"{same} stands {len(places)} times and counts once: read a neighbouring size")
    return lines


def _gist(result: Recovered, lines: list[str]) -> list[str]:
    if len(result.readings) < 2:
        return []
    return [", ".join(map(_meant, result.readings)), _explained(result)]


def _meant(weighed: Weighed) -> str:
    """What a reading probably meant, and that this is not settled where it is not."""
    if not weighed.candidates:
        return "no round size"
    open_still = weighed.verdict is SizeVerdict.UNSETTLED
    return f"{weighed.candidates[0].name}{' (not settled)' if open_still else ''}"


ROOM = Room(
    word="recover",
    forms=(
        "recover SIZE, SIZE ... [within SIZE] [by INSTRUMENT] [worn SIZE] [among TABLE, TABLE ...]",
        "recover SIZE again SIZE, SIZE within SIZE ... [in inch work] [shrunk up to N %] [plated SIZE]",
        "recover SIZE, SIZE ... [off a print | scale 1:2 | scale from SIZE = SIZE]",
    ),
    example="recover 51.5 mm, 66.7 mm within 0.05 mm",
    answer=_answer,
    lines=_lines,
    pictures=drawn(of_recovered),
    gist=_gist,
    reads_rule=False,
    takes_long=True,
    odds=_open_odds,
    believed=_believed,
    verdicts=lambda result: len(verdict_lines(result.readings)) if len(result.readings) > 1 else 1,
)
