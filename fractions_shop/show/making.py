"""The answers to recover, crown, pack and fit in words."""

from __future__ import annotations

from collections import Counter
from typing import Any

from fractions_shop.figures.figure import in_decimals, in_inches, in_mm
from fractions_shop.figures.table import Cell, Table, in_prose
from fractions_shop.show.sizes import limits_lines, size_line
from fractions_shop.show.words import (
    OFF,
    Lines,
    both,
    both_cell,
    in_rule_cell,
    off_by,
    over_under,
    rule_word,
    signed_cell,
)
from fractions_shop.size.notation import decimal


def recover_lines(result: Any) -> Lines:
    """The candidates of each reading, and what explains several together."""
    lines: Lines = []
    several = len(result.readings) > 1
    if several:
        lines += _system_lines(result)
    for reading in result.readings:
        asked = f"{_as_read(reading.asked)} read within {_as_read(reading.within)}"
        if not reading.candidates:
            lines.append(f"no round size is near enough to be likely: {asked}")
            continue
        best = reading.candidates[0]
        lines.append(f"most likely {best.name}, {odds_text(best.odds)}: {asked}")
        # Far behind the best, the rest are only noise; two are told in any case.
        near = [
            c for n, c in enumerate(reading.candidates) if n < 2 or c.probability * 100 > best.probability
        ]
        rows = tuple(_candidate_row(c) for c in near[: 2 if several else 6])
        lines.append(Table(rows, ("meant", "", "the reading is", "odds", "by chance")))
    lines.append(
        "by chance: how often a size at random would come as near to one as readable; near 100 % proves nothing"
    )
    return lines


def _as_read(size: Any) -> str:
    """A reading in the unit that it ends in."""
    inches = in_inches(size)
    return in_prose(Cell("size", (inches if inches.exact else in_mm(size),)))


def _candidate_row(candidate: Any) -> tuple[Cell | str, ...]:
    return (
        candidate.name, _otherwise(candidate), signed_cell(candidate.off), odds_text(candidate.odds),
        _percent(candidate.chance),
    )  # fmt: skip


def _otherwise(candidate: Any) -> Cell:
    """A candidate's size in the units that its name does not say it in."""
    figures = in_inches(candidate.size), in_mm(candidate.size)
    unsaid = [figure for figure in figures if figure.bare != candidate.name]
    return Cell("size", tuple(unsaid[:1]), tuple(unsaid[1:]))


def odds_text(odds: float) -> str:
    """Odds as a maker says them: `5 to 1 on`, `2.57 to 1 against`."""
    if odds >= 10_000:
        return "over 10,000 to 1 on"
    if odds >= 1:
        return f"{_three(odds)} to 1 on"
    return f"{_three(1 / odds)} to 1 against" if odds > 1e-4 else "over 10,000 to 1 against"


def _three(odds: float) -> str:
    """About three figures: 2.57, 31, 5,220."""
    return f"{odds:,.0f}" if odds >= 100 else f"{odds:.3g}"


def _percent(share: float) -> str:
    return f"{100 * share:.2g} %" if share < 0.995 else "100 %"


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


def _system_lines(result: Any) -> Lines:
    best = result.system
    lines: Lines = []
    if best.worst is None:
        lines.append(f"no division explains all {len(result.readings)} readings better than sizes at random")
    else:
        lines.append(
            f"all {len(result.readings)} together: {best.system}, {best.division}, {odds_text(best.odds)}; "
            f"{_likelier(best.better)}; the worst is {both(best.worst)} off"
        )
    others = tuple(
        (e.system, e.division, odds_text(e.odds), _likelier(e.better)) for e in result.explanations[1:4]
    )
    if others:
        lines.append(Table(others))
    gram = result.quantogram
    if gram is not None:
        lines.append(
            f"quantogram (Kendall, 1974): best quantum about {in_decimals(gram.quantum.inch, 'in', 5).bare} "
            f"({in_mm(gram.quantum, 4).bare}), as strong by chance in "
            f"{_percent(gram.significance)} of {gram.trials} trials"
        )
    return lines


def places_lines(result: Any) -> Lines:
    """Coordinates of several points from the centre."""
    rows = tuple((str(n), both_cell(p.x, 5), both_cell(p.y, 5)) for n, p in enumerate(result.points, 1))
    return [
        Table(rows, ("", "to the right", "upward")),
        "from the centre; roots and angles make these approximate",
    ]


def crown_lines(result: Any) -> Lines:
    """The heights of the supports, left to right, and the radius that the steps really fit."""
    rows = tuple(
        (str(n), in_rule_cell(read, result.rule), signed_cell(off), both_cell(exact, 4))
        for n, (read, off, exact) in enumerate(
            zip(result.read, result.residual, result.exact, strict=True), 1
        )
    )
    lines: Lines = [
        f"{result.count} supports {both(result.across)} apart on a radius of {both(result.radius)}, "
        f"the tallest {both(result.tallest)}",
        Table(rows, ("", f"height on the {rule_word(result.rule)}", OFF, "exact height")),
        f"they stand at {_places(result.places)} from the middle",
    ]
    if result.fitted_radius is None:
        lines.append("as read, the heights are all alike and follow no arc")
    else:
        lines.append(f"as read, the heights really fit a radius of {both(result.fitted_radius, 4)}")
    lines.append(f"the worst height is {off_by(result.worst, 5)} off")
    return lines


def _places(places: Any) -> str:
    """The distances of supports from the middle, each once: the two sides are alike."""
    found = [place for place in places if place.value >= 0]
    text = ", ".join(both(place) for place in found if place.value)
    return text if found[0].value else f"nought and {text}" if text else "nought"


def pack_lines(result: Any) -> Lines:
    """The shims that make the height, or the nearest below and above."""
    if result.exact:
        return [f"{both(result.height)} from {pieces_said(result.nearest)}, exact"]
    lines: Lines = [f"{both(result.height)} cannot be made exactly from these shims"]
    for name, stack in (("below", result.below), ("above", result.above)):
        if stack is not None:
            mark = " (the nearer)" if stack == result.nearest else ""
            lines.append(
                f"{name}{mark}: {both(stack.total)}, {over_under(stack.error)}, from {pieces_said(stack)}"
            )
    return lines


def pieces_said(stack: Any) -> str:
    """The shims of a stack, each thickness once, and how many pieces they are."""
    if not stack.pieces:
        return "no shim at all"
    counted = Counter(stack.pieces)
    parts = [both(size) if n == 1 else f"{n} of {both(size)}" for size, n in counted.items()]
    total = len(stack.pieces)
    return f"{' + '.join(parts)} ({total} piece{'' if total == 1 else 's'})"


def fit_lines(result: Any) -> Lines:
    """The limits of both parts, the clearance between them, and a picture of the zones."""
    if not hasattr(result, "hole_zone"):
        return _zone_lines(result)
    lines: Lines = [
        f"{both(result.basic)} {result.name}, {result.kind} fit ({result.standard})",
        Table(
            (
                ("hole", *_zone_row(result.hole, result.hole_um)),
                ("shaft", *_zone_row(result.shaft, result.shaft_um)),
            ),
            ("", "least", "most", "deviations"),
        ),
        _clearance(result),
        *result.picture(60).splitlines(),
    ]
    return lines + [f"note: {note}" for note in result.notes]


def _zone_row(limits: Any, um: Any) -> tuple[Cell | str, ...]:
    upper, lower = um
    deviations = f"{_um(lower)} to {_um(upper)} µm"
    return both_cell(limits.lower), both_cell(limits.upper), deviations


def _um(value: Any) -> str:
    text, _ = decimal(value, 3)
    return f"{'+' if value > 0 else ''}{text}"


def _clearance(result: Any) -> str:
    if result.kind == "interference":
        return f"interference from {both(-result.most)} to {both(-result.least)}"
    if result.kind == "transition":
        return f"from {both(-result.least)} interference to {both(result.most)} clearance"
    return f"clearance from {both(result.least)} to {both(result.most)}"


def _zone_lines(result: Any) -> Lines:
    part = "hole" if result.hole else "shaft"
    lines: Lines = [
        f"{result.name} {part}: {size_line(result.limits)}",
        f"{_um(result.lower_um)} to {_um(result.upper_um)} µm (ISO 286-1, sizes over {result.step[0]} to {result.step[1]} mm)",
        *limits_lines(result.limits),
    ]
    return lines + [f"note: {note}" for note in result.notes]
