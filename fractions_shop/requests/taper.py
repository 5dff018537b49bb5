"""taper: the figures of a machine taper or a taper pin, and its diameter at any length."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from fractions_shop.errors import ShopError
from fractions_shop.figures.figure import in_decimals, in_minutes
from fractions_shop.figures.plain import Lines
from fractions_shop.figures.table import Cell, Table, in_prose
from fractions_shop.language.advice.offers import Offer, write
from fractions_shop.language.fault import Fault
from fractions_shop.language.kinds import as_length
from fractions_shop.requests.inputs import Inputs
from fractions_shop.requests.rooms import Room
from fractions_shop.requests.stock_rows import source_line
from fractions_shop.requests.thread_figures import in_both
from fractions_shop.size.notation import decimal
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.standing import mark_of
from fractions_shop.tables.tapers import AmbiguousPin, Taper, of_length, taper


def _answer(given: Inputs) -> tuple[Taper, Quantity | None]:
    node = given.subject(0)
    if given.request.start == node.start and given.word(0) in given.evaluator.names:
        raise Fault(
            f"{given.word(0)} is a size named here, and a taper", node.start, node.end,
            f"write taper {given.word(0)} for the taper, or {given.word(0)} + 0 in for the size",
        )  # fmt: skip
    try:
        result = taper(given.word(0))
    except AmbiguousPin as error:
        offers = (Offer(name) for name in error.names)
        raise Fault(str(error), node.start, node.end, write(*offers)) from None
    long, at = given.option("long"), given.option("at")
    if long is not None and long.value is not None:
        try:
            result = of_length(result, given.length_of(long.value))
        except ShopError as error:
            raise Fault(str(error), long.start, long.end) from None
    if at is None or at.value is None:
        computed = result.large_end if result.metric else result.small_end
        return result, computed if long is not None else result.size
    distance = as_length(given.length_of(at.value), at.value)
    result = replace(result, at=distance)
    ends = [end for end in (result.from_large, result.from_small) if end is not None]
    for small in (False, True):
        if given.option(f"from the {'small' if small else 'large'} end") is not None:
            return result, result.diameter(distance, from_small=small)
    return result, ends[0] if len(ends) == 1 else None


def _lines(result: Taper) -> Lines:
    """Its ends and length, its taper and angle; the diameter asked for; what the printed figures disagree in."""
    lines: Lines = [_ends(result), *_at(result), _rate(result), Table(tuple(_rest(result)))]
    lines += [f"note: {note}" for note in _notes(result)]
    lines.append(source_line(result.source, result.standing))
    return lines + ([f"caution: {result.caution}"] if result.caution else [])


def _said(size: Quantity, metric: bool) -> str:
    return in_prose(in_both(size.unmarked, metric), "~")


def _ends(result: Taper) -> str:
    said = []
    for end, name in ((result.large_end, "large"), (result.small_end, "small")):
        if end is not None:
            said.append(f"{_said(end, result.metric)} at the {name} end")
    if result.length is not None:
        said.append(f"{_said(result.length, result.metric)} long")
    return f"{result.name}: {', '.join(said)}{mark_of(result.standing)}"


def _at(result: Taper) -> list[str]:
    """The diameter at the distance asked for, from each end that is known."""
    if result.at is None:
        return []
    distance = _said(result.at, result.metric)
    return [
        f"{distance} from the {name} end: {_said(across, result.metric)} across"
        for across, name in ((result.from_large, "large"), (result.from_small, "small"))
        if across is not None
    ]


def _rate(result: Taper) -> str:
    inches = f"{decimal(result.per_foot.inch, 5)[0]} in per foot"
    one_in = decimal(1 / result.rate.value, 3)[0]
    return f"taper {inches} on the diameter, 1 in {one_in}"


def _rest(result: Taper) -> list[tuple[Cell | str, Cell | str]]:
    half = result.half.degrees
    rows: list[tuple[Cell | str, Cell | str]] = [
        ("included angle", _angle(result.included.degrees)),
        ("one side, for a top slide", _angle(half)),
        ("set over, an inch between centres", in_both(Quantity.inches(result.rate.value / 2))),
    ]
    if result.pin and result.small_end is not None:
        rows += _drill(result)
    return rows


def _angle(degrees: Fraction) -> Cell:
    return Cell("words", (in_decimals(degrees, "deg", 4), ", ", in_minutes(degrees)))


def _drill(result: Taper) -> list[tuple[Cell | str, Cell | str]]:
    """The largest drill that is no larger than the small end, as a hole is drilled before it is reamed."""
    from fractions_shop.tables.drills import drills

    assert result.small_end is not None
    near = drills(result.small_end)
    smaller = [
        drill
        for neighbours in near.values()
        for drill in (neighbours.exact or neighbours.below,)
        if drill is not None and (drill.series == "metric") == result.metric
    ]
    if not smaller:
        return []
    drill = max(smaller, key=lambda each: each.size.mm)
    size = in_both(drill.size.resting_on(result.standing), result.metric)
    what = "drill before reaming, no larger than the small end"
    return [(what, Cell("size", (f"{drill.name} drill, ", *size.pieces), size.beside))]


def _notes(result: Taper) -> list[str]:
    said = [result.note] if result.note else []
    if result.ends_differ and not result.pin:
        computed = result.computed_small_end
        assert computed is not None
        said.append(
            f"by its taper the small end at that length is {_said(computed, False)}: lengths are printed to 0.01 in, "
            "so work from one end and the taper"
        )
    if result.pin:
        end = "small" if result.metric else "large"
        said.append("the ends of reamers were not read; a reamer cuts the pin's own taper")
        said.append(f"a{' metric' if result.metric else 'n inch'} pin is called by its {end} end")
        if result.length is None:
            said.append(
                f"the other end goes by the length: {result.name} x {'40 mm' if result.metric else '1 1/2 in'}"
            )
    if result.at is not None and result.length is not None and result.at > result.length:
        said.append("that is further than it is long")
    return said


def _gist(result: Taper, lines: list[str]) -> list[str]:
    return lines[:2]


ROOM = Room(
    word="taper",
    forms=("taper KIND NUMBER [at SIZE]", "taper pin No NUMBER [x LENGTH]", "taper pin SIZE mm [x LENGTH]"),
    example="taper Morse 2",
    answer=_answer,
    lines=_lines,
    gist=_gist,
    reads_rule=False,
)
