"""The tables of a sheet: named sizes, checks, parts and faults, in words for people."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from fractions import Fraction
from math import ceil, floor

from fractions_shop.figures.figure import decimal_figure, in_decimals, in_inches, in_mm
from fractions_shop.figures.limits_words import inward_ends
from fractions_shop.figures.plain import Lines
from fractions_shop.figures.size_words import difference_cell, short_cell
from fractions_shop.figures.table import Cell, Table, each_cell, in_prose, without_empty, words
from fractions_shop.figures.wording import both_cell, rule_name, signed_cell
from fractions_shop.requests.check import check_said
from fractions_shop.sheet.check_causes import Feed
from fractions_shop.sheet.doubts import NO_DOUBTS, Doubts
from fractions_shop.sheet.solve import Worked
from fractions_shop.show.doubt_marks import marked
from fractions_shop.size.limits import Limits
from fractions_shop.size.notation import (
    decimal,
    mm_leads,
    places_shown,
    units_shown,
)
from fractions_shop.size.quantity import Angle, Quantity
from fractions_shop.size.rule import Rule, mark_within, rung
from fractions_shop.size.standing import mark_of, worst
from fractions_shop.size.units import inches_of
from fractions_shop.size.value import Value

#: What stands in a list for what a line at fault, or one that waits for it, should have given.
UNDONE = "not worked out"
#: How far off a size is that the rule has a mark for.
_ON_THE_RULE = signed_cell(Quantity(0), units=False)


def sizes(worked: Iterable[Worked], doubts: Doubts = NO_DOUBTS) -> Table:
    """One row a named length: the nearest division, how far off, decimals, and the line it comes from.

    The head names the rule of most; a size that was taken on another says so. The names of
    doubtful sizes are marked.
    """
    named = [(w.line, w.taken_on, length) for w in worked if (length := _length(w)) is not None]
    rules = Counter(rule.name for _, rule, _ in named)
    usual = max(rules, key=rules.__getitem__, default="")
    rows: list[tuple[Cell | str, ...]] = []
    for line, rule, size in named:
        on = "" if rule.name == usual else f" on {rule_name(rule)}"
        name = marked(line.sets, line.number, doubts)
        rows.append((name, *_in_order(*_row(size, rule, on)), str(line.number)))
    off = "off, mm (in)" if mm_leads() else "off, in (mm)"
    heads = _in_order(f"on {rule_name(Rule(usual)) if usual else 'the rule'}", off, "inch", "mm")
    return Table(tuple(rows), ("name", *heads, "line"))


def _in_order(on: Cell | str, off: Cell | str, inch: Cell | str, mm: Cell | str) -> tuple[Cell | str, ...]:
    """The columns of sizes: the rule's own figure first, or the decimals of the unit that was asked to lead."""
    return (mm, on, off, inch) if units_shown.get().lead == "mm" else (on, off, inch, mm)


def sizes_note(worked: Iterable[Worked]) -> str:
    """How the table of sizes is to be read."""
    note = (
        "The fraction is the nearest division of the rule; off tells how far that is over (+) or under (-) "
        "the exact size."
    )
    if not any(isinstance(_length(item), Limits) for item in worked):
        return note
    return f"{note} For a size with limits, one size that lies within them is shown."


def _length(item: Worked) -> Quantity | Limits | None:
    """The length that a line names, with its limits."""
    if item.answer is None or not item.line.sets:
        return None
    value = item.answer.value
    return value if isinstance(value, (Quantity, Limits)) and value.power == 1 else None


def _row(size: Quantity | Limits, rule: Rule, on: str) -> tuple[Cell, ...]:
    """A length on its rule, how far off that is, and its decimals in inches and in mm.

    With limits it is one size that lies between them, a mark of the rule where there is one.
    """
    standing = size.standing
    if isinstance(size, Limits):
        mark = mark_within(size, rule)
        off = words("between marks" if mark is None else "within limits")
        size = near = size_within(size, rule.metric) if mark is None else mark
    elif rule.carries(size) and not size.approximate:
        near, off = size, _ON_THE_RULE
    else:
        nearest = rung(size, rule)
        near, off = nearest.size, signed_cell(nearest.error, units=False)
    # The columns say the units, so the figures stand alone.
    # Its standing is said once in a row, behind the last of them.
    above, below = size.mm.as_integer_ratio()
    shown = places_shown.get()
    inch = decimal_figure(*inches_of(above, below), "", None, shown, "", False)
    mm = decimal_figure(above, below, "", None, shown, standing, False)
    near = near.unmarked
    on_rule = in_mm(near) if rule.metric else in_inches(near)
    return Cell("size", (on_rule, on)), off, Cell("size", (inch,)), Cell("size", (mm,))


def size_within(size: Limits, metric: bool) -> Quantity:
    """A length that lies within limits: the nominal, or else one near the middle, as round as there is one."""
    if size.nominal in size:
        return size.nominal
    unit = "mm" if metric else "in"
    for places in range(13):
        near = Quantity.of(Fraction(round(size.middle.in_unit(unit) * 10**places), 10**places), unit)
        if near in size:
            return near
    return size.middle


def figures(worked: Iterable[Worked], doubts: Doubts = NO_DOUBTS) -> Table:
    """The named counts, areas, angles and the like: whatever is no length."""
    rows = []
    for item in worked:
        if not item.line.sets:
            continue
        value, nominal = item.value, _nominal(item)
        if value is None or (nominal is not None and nominal.power == 1):
            continue
        if isinstance(value, Quantity) and value.power == 0:
            number = in_decimals(value.value, "", standing=value.standing)
            said = Cell("size", (number, ", approximate" if value.approximate else ""))
        else:
            said = short_cell(value)
        rows.append((marked(item.line.sets, item.line.number, doubts), said, str(item.line.number)))
    return Table(tuple(rows), ("name", "figure", "line"))


def _nominal(item: Worked) -> Quantity | None:
    """The size that a line names, without its limits; None for angles and lines that name nothing."""
    if not item.line.sets:
        return None
    value = item.value
    return value.nominal if isinstance(value, Limits) else value if isinstance(value, Quantity) else None


def limits(worked: Iterable[Worked], doubts: Doubts = NO_DOUBTS) -> Table:
    """The named sizes with limits: from and to, in both units, rounded inward."""
    rows = []
    for item in worked:
        value = item.value
        if item.line.sets and isinstance(value, Limits) and value.power == 1:
            inches, metric = limit_figures(value)
            name = marked(item.line.sets, item.line.number, doubts)
            mark = mark_of(value.standing)
            figured = (metric, f"{inches}{mark}") if mm_leads() else (inches, f"{metric}{mark}")
            rows.append((name, *figured, str(item.line.number)))
    return Table(tuple(rows), ("name", *(("mm", "inch") if mm_leads() else ("inch", "mm")), "line"))


def limit_figures(value: Limits) -> tuple[str, str]:
    """Lower to upper, in inches and in millimetres, rounded inward as the answer to the line has them."""
    inches, metric = inward_ends(value)
    if inches[0] == inches[1]:
        inches, metric = inward(*inches, 6), inward(*metric, 4)
    return _from_to(inches), _from_to(metric)


def _from_to(ends: tuple[Fraction, Fraction]) -> str:
    return f"{decimal(ends[0], 60)[0]} to {decimal(ends[1], 60)[0]}"


def inward(lower: Fraction, upper: Fraction, places: int) -> tuple[Fraction, Fraction]:
    """Limits in at most `places` decimals, rounded so that they never leave the exact ones.

    Limits closer together than that get as many places as it takes. Inward rounding is
    that of ANSI/IEEE 268 and of ISO 370, method B.
    """
    while places < 60:
        scale = 10**places
        raised, cut = Fraction(ceil(lower * scale), scale), Fraction(floor(upper * scale), scale)
        if raised <= cut:
            return raised, cut
        places += 3
    return lower, upper


def checks(worked: Iterable[Worked], doubts: Doubts = NO_DOUBTS) -> Table:
    """One row a check: what it says, whether it holds, and by how much it is off; or why it is not worked out."""
    rows = []
    for item in worked:
        check = item.check
        if check is not None:
            mark = mark_of(worst((check.left, check.right)))
            result, said = "holds" if check.holds else "FAILS", f"{check_said(check)}{mark}"
        elif item.undone and item.line.is_check:
            result, said = UNDONE, where_told(item)
        else:
            continue
        number = item.line.number
        rows.append((marked(item.line.asked, number, doubts), result, said, str(number)))
    return Table(tuple(rows), ("check", "result", "by how much", "line"))


def checks_in_brief(checks: Table) -> Table:
    """The table of checks with what they say and by how much they are off in one column."""
    rows = tuple((result, line, f"{said}: {by}") for said, result, by, line in each_cell(checks))
    return Table(rows, ("result", "line", "check"))


def faults(worked: Iterable[Worked]) -> Table:
    """Lines at fault, and lines that wait for them."""
    rows = [
        (str(w.line.number), w.line.statement, why_undone(w))
        for w in worked
        if w.undone and not (w.line.also and w.waits)
    ]
    return Table(tuple(rows), ("line", "statement", "what is wrong"))


def faults_in_brief(worked: Iterable[Worked]) -> Table:
    """The same in two columns: under each line what is wrong with it, and then how to write it."""
    rows: list[tuple[str, str]] = []
    for item in worked:
        if item.undone and not (item.line.also and item.waits):
            fault = item.fault
            sentences = (why_undone(item),) if fault is None else (fault.message, fault.advice)
            rows.append((str(item.line.number), item.line.statement))
            rows += [("", said) for said in sentences if said]
    return Table(tuple(rows), ("line", "what it says, and what is wrong"))


def where_told(item: Worked) -> str:
    """What a line that was not worked out waits for; of its fault, which is told whole once, where that is."""
    return why_undone(item) if item.fault is None else f"see Faults, line {item.line.number}"


def why_undone(item: Worked) -> str:
    """What is wrong with a line that was not worked out, or what it waits for."""
    return item.fault.sentence if item.fault is not None else f"waits for {waiting(item)}"


def waiting(item: Worked) -> str:
    """`pitch (line 3) and depth (line 7)`."""
    names = [f"{wait.name} (line {wait.line})" for wait in item.waits]
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"


# What feeds a failed check


def feed_lines(feeds: Sequence[Feed]) -> Lines:
    """Which sizes feed a failed check: what each alone would have to be moved by, and what a step of it does."""
    if not feeds:
        return ["no named size feeds this check"]
    lines: Lines = [_would_hold(feed) for feed in feeds if feed.closes is not None or feed.least is not None]
    rows = tuple((_fed_by(feed), _amount_cell(feed.step), _moves(feed), _reach(feed)) for feed in feeds)
    header = ("what feeds it", "moved by", "moves the first by", "its own limits")
    return [*lines, without_empty(Table(rows, header))]


def _would_hold(feed: Feed) -> str:
    """What of one size alone would make the check hold: the least, and what makes its sides the same."""
    alone = f"{feed.name} (line {feed.line}) alone"
    if feed.least is None:
        assert feed.closes is not None
        return f"{alone}, {_changed(feed.closes)}, would make it hold"
    same = "" if feed.closes is None else f"; {_changed(feed.closes)}, the two are the same"
    return f"{alone}, at least {_changed(feed.least)}, would make it hold{same}"


def _fed_by(feed: Feed) -> str:
    return f"{feed.name}, line {feed.line}"


def _changed(change: Value) -> str:
    """A change in words: `1/64 in (0.396875 mm) longer`, `2 more`."""
    number = _number(change)
    if isinstance(change, Quantity) and change.power == 1:
        return f"{_amount(abs(change))} {'longer' if number > 0 else 'shorter'}"
    return f"{_amount(change if number > 0 else -change)} {'more' if number > 0 else 'less'}"


def _number(value: Value) -> Fraction:
    assert not isinstance(value, Limits)
    return value.degrees if isinstance(value, Angle) else value.value


def _amount(value: Value) -> str:
    return in_prose(_amount_cell(value))


def _amount_cell(value: Value) -> Cell:
    if isinstance(value, Angle):
        return Cell("size", (in_decimals(value.degrees, "deg"),))
    assert isinstance(value, Quantity)
    return both_cell(value) if value.power == 1 else short_cell(value)


def _moves(feed: Feed) -> Cell:
    if feed.moves is None:
        return words("not worked out")
    if not feed.moves.value:
        return words("nothing: it is rounded away")
    way = "more" if feed.moves.value > 0 else "less"
    cell = difference_cell(feed.moves)
    return Cell("difference", (*cell.pieces, f" {way}"), cell.beside)


def _reach(feed: Feed) -> Cell | str:
    if feed.reach is None:
        return ""
    cell = _amount_cell(feed.reach)
    return Cell("size", ("± ", *cell.pieces), cell.beside)
