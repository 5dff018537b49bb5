"""From the grooves of a worn cabinet side to the marks on a new one, with the library alone."""

from fractions_shop import Limits, Quantity, divide, mark, read, recover
from fractions_shop.size.notation import inch_text, mm_text


def said(size: Quantity) -> str:
    """A size in both units."""
    return f"{inch_text(size)} ({mm_text(size)})"


# Three grooves of the old side, read from the lowest one with a caliper.
readings = ["30.95 mm", "61.9 mm", "92.85 mm"]
for reading, each in zip(readings, recover(readings).readings, strict=True):
    print(f"{reading} was meant for {said(each.candidates[0].size)}")

# The new side is a little lower. Which height near it falls into twelve on the rule?
height = read("15 7/16 in")
assert isinstance(height, Quantity)
spacing = divide(height, 12, rule="64ths", ends="3/8 in")
print(f"a height of {said(spacing.total)} gives twelve spaces of {said(spacing.space)}")
if spacing.kept_total is not None:
    print(f"keeping {said(height)} leaves {said(spacing.kept_total.ends)} at each end")

# The grooves, all marked from the floor, and what stepping one space along would have cost.
first = spacing.ends or read("3/8 in")
assert isinstance(first, Quantity)
marks = mark(height - 2 * first, 12, rule="64ths", start=first)
print(f"left as it is, the worst mark is {said(marks.worst)} off")
print(f"and stepping along would end {said(abs(marks.stepping))} off")

# A runner in its groove, with the limits of both.
play = read("1/16 in +3/-0 thou") - read("0.0605 in ± 1 thou")
assert isinstance(play, Limits)
print(f"a runner has from {said(play.lower)} to {said(play.upper)} of play")
