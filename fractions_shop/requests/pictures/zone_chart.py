"""The tolerance zones of a fit: hole and shaft as bars about the line of the basic size."""

from __future__ import annotations

from fractions import Fraction

from fractions_shop.figures.drawing import Box, Drawing, Shape, Stroke, Words, hatching
from fractions_shop.figures.wording import both, play
from fractions_shop.layout.fits import Fit, signed_decimal
from fractions_shop.size.quantity import Quantity

_WIDTH, _TOP, _TALL = Fraction(150), Fraction(14), Fraction(42)
_TEXT = Fraction(26, 10)
_BAR = Fraction(26)


def zone_chart(fit: Fit, title: str) -> Drawing:
    """Both zones to one scale about the basic size; hole hatched, shaft plain, each named in words."""
    metric = fit.metric
    unit = Fraction(1, 1000) if metric else Quantity.of(1, "thou").mm
    word = "µm" if metric else "thou"
    deviations = {
        "hole": (fit.hole.plus.mm / unit, -fit.hole.minus.mm / unit),
        "shaft": (fit.shaft.plus.mm / unit, -fit.shaft.minus.mm / unit),
    }
    top = max(Fraction(0), *(d for pair in deviations.values() for d in pair))
    bottom = min(Fraction(0), *(d for pair in deviations.values() for d in pair))
    scale = _TALL / (top - bottom or 1)

    def y(deviation: Fraction) -> Fraction:
        return _TOP + (top - deviation) * scale

    basic = both(fit.basic)
    shapes: list[Shape] = [
        Words(6, 6, title[:80], 3),
        Stroke(6, y(Fraction(0)), _WIDTH - 6, y(Fraction(0)), "bar"),
    ]
    shapes.append(Words(6, y(Fraction(0)) - 1, f"0 is {basic}", _TEXT))
    for name, x, fill in (("hole", Fraction(52), "hatched"), ("shaft", Fraction(104), "light")):
        upper, lower = deviations[name]
        box = Box(x, y(upper), _BAR, max((upper - lower) * scale, Fraction(3, 10)), fill)
        shapes += [box, *(hatching(box) if fill == "hatched" else [])]
        zone = fit.hole_zone if name == "hole" else fit.shaft_zone
        shapes.append(Words(x + _BAR / 2, _TOP + _TALL + 6, f"{name} {zone}".strip(), 3, "middle"))
        shapes += _figures(x + _BAR + 1, y, upper, lower, word)
    shapes.append(Words(6, _TOP + _TALL + 12, f"{fit.kind}: {_span(fit)}", _TEXT))
    return Drawing(_WIDTH, _TOP + _TALL + 15, title, _in_words(fit, deviations, word), tuple(shapes))


def _figures(x: Fraction, y: object, upper: Fraction, lower: Fraction, word: str) -> list[Shape]:
    assert callable(y)
    # A figure of zero keeps clear of the zero line.
    top = y(upper) + (1 if upper else Fraction(-8, 10))
    bottom = y(lower) + (1 if lower else 3)
    if bottom - top < 3:
        middle = (top + bottom) / 2
        top, bottom = middle - Fraction(3, 2), middle + Fraction(3, 2)
    return [
        Words(x, top, f"{signed_decimal(upper, 3)} {word}", Fraction(24, 10)),
        Words(x, bottom, f"{signed_decimal(lower, 3)} {word}", Fraction(24, 10)),
    ]


def _span(fit: Fit) -> str:
    """The least and most clearance, called interference where it is that."""
    return f"{_play(fit.least)} to {_play(fit.most)}"


def _play(size: Quantity) -> str:
    if not size.value:
        return "no play"
    word = "clearance" if size.value > 0 else "interference"
    return f"{play(size, metric=True)} {word}"


def _in_words(fit: Fit, deviations: dict[str, tuple[Fraction, Fraction]], word: str) -> str:
    parts = [
        f"{name} from {signed_decimal(lower, 3)} to {signed_decimal(upper, 3)} {word}"
        for name, (upper, lower) in deviations.items()
    ]
    return (
        f"Tolerance zones of {fit.name} on {both(fit.basic)}: {', '.join(parts)}; {fit.kind}, {_span(fit)}."
    )
