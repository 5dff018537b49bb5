"""Measuring the effective diameter over three wires.

Pure geometry of a symmetrical flank of included angle a (F.D. Jones, Turning and
Boring, 1914, and any handbook): the best wire touches at the pitch line,
w = p / (2 cos a/2); over wires M = E + w (1 + cosec a/2) - (p/2) cot a/2, with E the
effective diameter. The lead angle is left out, as the usual formulas leave it out.
"""

from __future__ import annotations

from functools import cache

from fractions_shop.errors import ShopError
from fractions_shop.size import approx
from fractions_shop.size.frozen import Record
from fractions_shop.size.notation import shown
from fractions_shop.size.quantity import Angle, Quantity
from fractions_shop.threads.forms import Form


class Flank(Record):
    """The four functions of the half angle that wires need; each approximate."""

    best: Quantity  # 1 / (2 cos), wire in pitches
    growth: Quantity  # 1 + cosec
    sunk: Quantity  # cot / 2
    sine: Quantity


@cache
def flank(angle: Angle) -> Flank:
    """The functions of half of `angle`, worked out once."""
    half = angle.degrees / 2
    sine, cosine = approx.sine(half), approx.cosine(half)

    def plain(value: object) -> Quantity:
        return Quantity(value, 0, True)  # type: ignore[arg-type]

    return Flank(plain(1 / (2 * cosine)), plain(1 + 1 / sine), plain(cosine / (2 * sine)), plain(sine))


def best_wire(pitch: Quantity, form: Form) -> Quantity:
    """The wire that touches the flanks at the pitch line."""
    return pitch * flank(form.angle).best


def over_wires(
    major: Quantity, effective: Quantity, pitch: Quantity, form: Form, wire: Quantity | None = None
) -> Quantity:
    """What a micrometer reads over three wires of size `wire` (the best one unless given).

    ShopError for a wire that sinks below the crests or rides on them.
    """
    angle = flank(form.angle)
    size = best_wire(pitch, form) if wire is None else wire
    least, most = _limits(major, effective, pitch, form)
    if not least < size < most:
        raise ShopError(
            f"a wire of {shown(size.inch, 'in', 4)} does not seat in this thread: it must be between "
            f"{shown(least.inch, 'in', 4)} and {shown(most.inch, 'in', 4)}, "
            f"best {shown(best_wire(pitch, form).inch, 'in', 4)}"
        )
    return effective + size * angle.growth - pitch * angle.sunk


def _limits(major: Quantity, effective: Quantity, pitch: Quantity, form: Form) -> tuple[Quantity, Quantity]:
    """The wires that stand above the crests and still touch the straight flank.

    A wire's centre lies at (M - w)/2 from the axis and it touches (w/2) sin(a/2) below.
    """
    angle = flank(form.angle)
    least = (major - effective + pitch * angle.sunk) / angle.growth
    # (E + w/sin - p cot/2)/2 - (w/2) sin = D/2 - rounding p, solved for w.
    reach = major - effective + pitch * angle.sunk - pitch * (2 * form.rounding)
    return least, reach / (1 / angle.sine - angle.sine)
