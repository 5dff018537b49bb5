"""The tables of a sheet: named sizes, checks, parts and faults, in words for people."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from fractions import Fraction
from math import ceil, floor

from fractions_shop.language.arithmetic import Value
from fractions_shop.sheet.check_causes import Feed
from fractions_shop.sheet.doubts import NO_DOUBTS, Doubts
from fractions_shop.sheet.part_lines import Part
from fractions_shop.sheet.solve import Worked
from fractions_shop.show.doubt_marks import marked
from fractions_shop.show.requests import check_lines
from fractions_shop.show.sizes import size_line
from fractions_shop.show.words import Lines, Table, both, signed
from fractions_shop.size.limits import Limits
from fractions_shop.size.notation import READABLE_DENOMINATOR, decimal, inch_text, mixed, mm_text, shown
from fractions_shop.size.quantity import Angle, Quantity
from fractions_shop.size.rule import rung


def sizes(worked: Iterable[Worked], doubts: Doubts = NO_DOUBTS) -> Table:
    """One row a named length: the nearest division, how far off, decimals, and the line it comes from.

    The names of doubtful sizes are marked.
    """
    named = [(w, length) for w in worked if (length := _nominal(w)) is not None and length.power == 1]
    rules = {w.rule.name for w, _ in named}
    rows = []
    for item, size in named:
        near = rung(size, item.rule)
        mark = mm_text(near.size) if item.rule.metric else inch_text(near.size)
        if len(rules) > 1:
            mark = f"{mark} on {item.rule.name}"
        # The columns say the units, so the figures stand alone.
        error = signed(near.error).replace(" in", "").replace(" mm", "")
        rows.append((
            marked(item.line.sets, item.line.number, doubts), mark, error,
            shown(size.inch, ""), shown(size.mm, ""), str(item.line.number),
        ))  # fmt: skip
    on = f"on {rules.pop()}" if len(rules) == 1 else "on the rule"
    return Table(tuple(rows), ("name", on, "off, in (mm)", "inch", "mm", "line"))


def figures(worked: Iterable[Worked]) -> Table:
    """The named counts, areas, angles and the like: whatever is no length."""
    rows = []
    for item in worked:
        value = item.value
        nominal = _nominal(item)
        if not item.line.sets or value is None or (nominal is not None and nominal.power == 1):
            continue
        if isinstance(value, Quantity) and value.power == 0:
            said = shown(value.value, "") + (", approximate" if value.approximate else "")
        else:
            said = size_line(value).removesuffix(" exactly")
        rows.append((item.line.sets, said, str(item.line.number)))
    return Table(tuple(rows), ("name", "figure", "line"))


def _nominal(item: Worked) -> Quantity | None:
    """The size that a line names, without its limits; None for angles and lines that name nothing."""
    if not item.line.sets:
        return None
    value = item.value
    return value.nominal if isinstance(value, Limits) else value if isinstance(value, Quantity) else None


def limits(worked: Iterable[Worked]) -> Table:
    """The named sizes with limits: from and to, in both units, rounded inward."""
    rows = []
    for item in worked:
        value = item.value
        if item.line.sets and isinstance(value, Limits) and value.power == 1:
            inches, metric = limit_figures(value)
            rows.append((item.line.sets, inches, metric, str(item.line.number)))
    return Table(tuple(rows), ("name", "inch", "mm", "line"))


def without_empty(table: Table) -> Table:
    """The table without the columns in which no row says anything."""
    kept = [n for n in range(len(table.header)) if any(row[n] for row in table.rows)]
    return Table(
        tuple(tuple(row[n] for n in kept) for row in table.rows), tuple(table.header[n] for n in kept)
    )


def limit_figures(value: Limits) -> tuple[str, str]:
    """Lower to upper, in inches and in millimetres, rounded inward."""
    inches = " to ".join(decimal(n, 60)[0] for n in inward(value.lower.inch, value.upper.inch, 6))
    metric = " to ".join(decimal(n, 60)[0] for n in inward(value.lower.mm, value.upper.mm, 4))
    return inches, metric


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


def checks(worked: Iterable[Worked]) -> Table:
    """One row a check: what it says, whether it holds, and by how much it is off."""
    rows = []
    for item in worked:
        check = item.check
        if check is not None:
            sentences = [line for line in check_lines(check) if isinstance(line, str)]
            by = "; ".join(sentences).removeprefix("holds: ").removeprefix("FAILS: ")
            said, result = item.line.statement.split(None, 1)[1], "holds" if check.holds else "FAILS"
            rows.append((said, result, by, str(item.line.number)))
    return Table(tuple(rows), ("check", "result", "by how much", "line"))


def checks_in_brief(found: Table) -> Table:
    """The table of checks with what they say and by how much they are off in one column."""
    rows = tuple((result, line, f"{said}: {by}") for said, result, by, line in found.rows)
    return Table(rows, ("result", "line", "check"))


def parts(worked: Iterable[Worked], doubts: Doubts = NO_DOUBTS) -> Table:
    """The parts list; the names of parts whose sizes rest on a doubtful one are marked."""
    rows = []
    for item in worked:
        part = item.part
        if part is not None:
            name = marked(part.name, item.line.number, doubts)
            rows.append((name, str(part.count), part.material, part_sizes(part), part.note))
    return without_empty(Table(tuple(rows), ("part", "how many", "material", "size", "note")))


def parts_in_brief(worked: Iterable[Worked], doubts: Doubts = NO_DOUBTS) -> Table:
    """The parts list with sizes and note in one column, for a narrow screen."""
    rows = []
    for item in worked:
        part = item.part
        if part is not None:
            name = marked(part.name, item.line.number, doubts)
            last = "; ".join(word for word in (part_sizes(part), part.note) if word)
            rows.append((name, str(part.count), part.material, last))
    return without_empty(Table(tuple(rows), ("part", "how many", "material", "size; note")))


def part_sizes(part: Part) -> str:
    """A part's sizes, in both units: `1/4 in x 11 in (6.35 x 279.4 mm)`."""
    if not part.sizes:
        return ""
    if any(isinstance(size, Limits) for size in part.sizes):
        return " x ".join(part_size(size) for size in part.sizes)
    lengths = [size for size in part.sizes if isinstance(size, Quantity)]
    inches = " x ".join(inch_text(size, 4) for size in lengths)
    metric = " x ".join(mm_text(size, 3).removesuffix(" mm") for size in lengths)
    return f"{inches} ({metric} mm)"


def part_size(size: Quantity | Limits) -> str:
    """A size in both units; limits as fractions where both of them are ones that a rule has."""
    if isinstance(size, Quantity):
        return both(size, 4)
    inches, metric = limit_figures(size)
    ends = size.lower, size.upper
    if all(_on_a_rule(end) for end in ends):
        inches = " to ".join(mixed(end.inch) for end in ends)
    return f"{inches} in ({metric} mm)"


def _on_a_rule(size: Quantity) -> bool:
    """Whether a length is a fraction as rules are divided: 1/2, 3/64, but not 119/2000."""
    parts = size.inch.denominator
    return parts <= READABLE_DENOMINATOR and parts & (parts - 1) == 0


def part_line(part: Part) -> str:
    """A part in one sentence, for the working."""
    sized = f", {part_sizes(part)}" if part.sizes else ""
    note = f"; {part.note}" if part.note else ""
    return f"{part.count} of {part.name}{f', {part.material}' if part.material else ''}{sized}{note}"


def faults(worked: Iterable[Worked]) -> Table:
    """Lines at fault, and lines that wait for them."""
    rows = []
    for item in worked:
        if item.fault is not None:
            rows.append((str(item.line.number), item.line.statement, item.fault.sentence))
        elif item.waits:
            rows.append((str(item.line.number), item.line.statement, f"waits for {waiting(item)}"))
    return Table(tuple(rows), ("line", "statement", "what is wrong"))


def waiting(item: Worked) -> str:
    """`pitch (line 3) and depth (line 7)`."""
    names = [f"{wait.name} (line {wait.line})" for wait in item.waits]
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"


# What feeds a failed check


def feed_lines(feeds: Sequence[Feed]) -> Lines:
    """Which sizes feed a failed check: what each alone would have to be moved by, and what a step of it does."""
    if not feeds:
        return ["no named size feeds this check"]
    lines: Lines = [
        f"{feed.name} (line {feed.line}) alone, {_changed(feed.closes)}, would make it hold"
        for feed in feeds
        if feed.closes is not None
    ]
    rows = tuple((_fed_by(feed), _amount(feed.step), _moves(feed), _reach(feed)) for feed in feeds)
    header = ("what feeds it", "moved by", "moves the first by", "its own limits")
    return [*lines, without_empty(Table(rows, header))]


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
    if isinstance(value, Angle):
        return shown(value.degrees, "deg")
    assert isinstance(value, Quantity)
    if value.power == 1:
        return both(value)
    return size_line(value).removesuffix(" exactly")


def _moves(feed: Feed) -> str:
    if feed.moves is None:
        return "not worked out"
    if not feed.moves.value:
        return "nothing: it is rounded away"
    way, size = ("more" if feed.moves.value > 0 else "less"), abs(feed.moves)
    if feed.moves.power == 1:
        return f"{inch_text(size)} {way} ({mm_text(size)})"
    return f"{_amount(size)} {way}"


def _reach(feed: Feed) -> str:
    return "" if feed.reach is None else f"± {_amount(feed.reach)}"
