"""Every form of spacing, its class named."""

from fractions import Fraction

from fractions_shop import (
    AnyBodies,
    CommonSpacing,
    HowMany,
    Marks,
    Places,
    Quantity,
    Share,
    Spacing,
    divide,
    divide_for,
    how_many,
    mark,
    places,
    share,
)

bays: Spacing = divide("2 in", 5, direction="up")
both: CommonSpacing = divide("2 in", (5, 7))
slats: AnyBodies = divide("2 1/32 in", 5, bodies="any")
rail: Spacing = divide_for("72 in", 13, Quantity("1 1/2 in"))
shelf: HowMany = how_many("109 in", about="7 in")
pieces: Share = share("2 5/8 in", (4, 2))
marks: Marks = mark("2 in", 5)
hinges: Places = places("1 1/2 in", "7 in", along="18 in")

spaces: list[Fraction] = [bays.space.inch, *(space.inch for space in both.spaces), slats.space.inch]
first: Quantity = marks[0]
distances: list[str] = [str(mark) for mark in marks]
points: list[tuple[Quantity, ...]] = list(hinges)
text: str = bays.text(width=60)
data: dict[str, object] = bays.data()
print(
    spaces,
    first,
    distances,
    points,
    len(marks),
    len(hinges),
    rail.count,
    shelf.count,
    pieces.many,
    text,
    data,
)
