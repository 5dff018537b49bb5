"""The coordinates of what a machine is to cut, as text: in mm, with the rounding said."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from fractions_shop.figures.wording import so_many
from fractions_shop.show import own_mark
from fractions_shop.show.machine_plan import Machined, MachinePlan

#: Decimals of a millimetre that are written.
PLACES = 3


def machine_text(plan: MachinePlan) -> str:
    """Every hole, slot and place of every part, one a line, from the datum of each part."""
    head = [
        plan.title, "=" * len(plan.title), own_mark.COORDINATES,
        "mm at full size, X to the right and Y upward from the datum of each part",
        rounding(plan),
    ]  # fmt: skip
    if any(part.limited for part in plan.parts):
        head.append(
            "a size with limits is taken at one that lies within them, which stand behind it in brackets"
        )
    if any(part.from_the_face for part in plan.parts):
        head.append("what is deep or sunk is cut from the face that X and Y are measured on")
    blocks = ["\n".join(head), *("\n".join(_part(part)) for part in plan.parts)]
    if plan.left_out:
        blocks.append("\n".join(("not here:", *(f"  {name}: {why}" for name, why in plan.left_out))))
    return "\n\n".join(blocks) + "\n"


def rounding(plan: MachinePlan) -> str:
    """How far the coordinates are rounded, in words."""
    numbers = [number for part in plan.parts for row in part.rows for number in (row.x, row.y)]
    numbers += [number for part in plan.parts for number in part.told]
    approximate = "; some rest on a root or an angle" if any(part.approximate for part in plan.parts) else ""
    if all(number == _rounded(number) for number in numbers):
        return f"figures are exact to 0.001 mm{approximate}"
    return f"figures are rounded to 0.001 mm, so off by 0.0005 mm at most{approximate}"


def _part(part: Machined) -> Iterator[str]:
    yield f"{part.name}: {part.made}"
    if part.note:
        yield f"  {part.note}"
    if part.doubtful:
        yield f"  {part.doubtful}"
    if part.outline:
        yield f"  outline {part.outline}; datum: {part.datum}"
    if not part.rows:
        yield "  nothing is cut in it"
        return
    called = max(len(row.called) for row in part.rows)
    xs, ys = [
        [_fixed(number) for number in axis] for axis in ([r.x for r in part.rows], [r.y for r in part.rows])
    ]
    wide, high = max(map(len, (*xs, "X"))), max(map(len, (*ys, "Y")))
    yield f"  {so_many(len(part.rows), 'place')}"
    yield f"  {'':{called}}  {'X':>{wide}}  {'Y':>{high}}"
    for row, x, y in zip(part.rows, xs, ys, strict=True):
        yield f"  {row.called:{called}}  {x:>{wide}}  {y:>{high}}  {row.what}"


def _rounded(number: Fraction) -> Fraction:
    return Fraction(round(number * 10**PLACES), 10**PLACES)


def _fixed(number: Fraction) -> str:
    """A number with all its decimals, zero without a sign."""
    thousandths = round(number * 10**PLACES)
    whole, part = divmod(abs(thousandths), 10**PLACES)
    return f"{'-' if thousandths < 0 else ''}{whole}.{part:0{PLACES}d}"
