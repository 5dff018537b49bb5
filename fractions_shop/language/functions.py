"""The functions of the language: roots, trigonometry, and the least and greatest.

Each takes values already worked out and raises ShopError with a sentence; the
evaluator places it in the line. Others are added to FUNCTIONS by their own modules.
"""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from functools import cache
from math import ceil, floor
from typing import Any

from fractions_shop.errors import ShopError
from fractions_shop.language import thread_functions
from fractions_shop.language.arithmetic import kind_name
from fractions_shop.size import approx
from fractions_shop.size.frozen import Record
from fractions_shop.size.limits import Limits, limits_of
from fractions_shop.size.products import extreme, through
from fractions_shop.size.quantity import Angle, Quantity
from fractions_shop.size.units import INCH
from fractions_shop.size.value import Value


class Function(Record):
    """A function: what it does in a few words, an example that runs, and the work itself.

    It takes from `least` to `most` arguments. With `of_thread` the first is a thread by name, with
    `of_places` several places. `remark` gives sentences that belong beside its answer.
    """

    name: str
    meaning: str
    example: str
    work: Callable[..., Any]
    least: int = 1
    most: int = 1
    of_thread: bool = False
    remark: Callable[..., tuple[str, ...]] | None = None
    of_places: bool = False


def _size(value: Value) -> Quantity | Limits:
    if isinstance(value, Angle):
        raise ShopError("this is an angle, where a size is needed")
    return value


def _alike(values: tuple[Value, ...]) -> list[Quantity | Limits]:
    sizes = [_size(v) for v in values]
    for other in sizes[1:]:
        if other.power != sizes[0].power:
            raise ShopError(
                f"a {kind_name(sizes[0])} and a {kind_name(other)} cannot be compared or joined here"
            )
    return sizes


def _root_of(size: Quantity) -> Quantity:
    if size.value < 0:
        raise ShopError("a negative size has no square root")
    root = approx.square_root(size.value)
    return Quantity(root, size.power // 2, size.approximate or root * root != size.value)


def _root_slope(size: Quantity) -> tuple[Fraction | None]:
    root = approx.square_root(size.value)
    return (1 / (2 * root) if root else None,)


def square_root(value: Value) -> Value:
    """The square root of a plain number, an area, or any even power."""
    size = _size(value)
    if size.power % 2:
        raise ShopError(f"a {kind_name(size)} has no square root that is a size; an area has")
    if isinstance(size, Quantity):
        return _root_of(size)
    return through(_root_of, (size,), _root_slope)


def hypotenuse(*values: Value) -> Value:
    """The root of the sum of the squares: the long side of a right angle."""
    sizes = _alike(values)
    if all(isinstance(s, Quantity) for s in sizes):
        total = sum((s.value**2 for s in sizes), Fraction(0))  # type: ignore[union-attr]
        given = any(s.approximate for s in sizes)
        return _root_of(Quantity(total, 2 * sizes[0].power, given))
    squares = [limits_of(s) ** 2 for s in sizes]
    total_limits = squares[0]
    for square in squares[1:]:
        total_limits = total_limits + square
    return square_root(total_limits)


def _extreme(which: Callable[..., Any]) -> Callable[..., Value]:
    def work(*values: Value) -> Value:
        if all(isinstance(v, Angle) for v in values):
            angle: Angle = which(values)
            return angle
        sizes = _alike(values)
        if any(isinstance(s, Limits) for s in sizes):
            return extreme(map(limits_of, sizes), which)
        size: Quantity = which(sizes)
        return size

    return work


def absolute(value: Value) -> Value:
    """Without its sign."""
    return value.__abs__()


def _to_whole(work: Callable[[Fraction], int], name: str) -> Callable[[Value], Value]:
    """A plain number made whole; one that misses it in its last figures alone is not rounded past it."""

    def function(value: Value) -> Value:
        size = _size(value)
        if size.power != 0:
            raise ShopError(
                f"{name} takes a plain number, such as the ratio of two lengths; a length is put on a rule by snap"
            )
        if isinstance(size, Limits):
            raise ShopError(f"{name} does not carry limits on: work out each end")
        number = approx.simple_fraction(size.value) if size.approximate else size.value
        return Quantity(Fraction(work(number)), 0, size.approximate)

    return function


def _nearest_whole(value: Fraction) -> int:
    """The nearest whole number; a half goes away from zero, as on paper."""
    whole = int(abs(value) + Fraction(1, 2))
    return -whole if value < 0 else whole


def _of_angle(work: Callable[[Fraction], Fraction], name: str) -> Callable[[Value], Value]:
    def function(value: Value) -> Value:
        if not isinstance(value, Angle):
            raise ShopError(f"{name} takes an angle, such as 30 deg")
        try:
            return Quantity(work(value.degrees), 0, True)
        except ZeroDivisionError as error:
            raise ShopError(str(error)) from None

    return function


def _to_angle(work: Callable[[Fraction], Fraction], name: str) -> Callable[[Value], Value]:
    def function(value: Value) -> Value:
        size = _size(value)
        if size.power != 0:
            raise ShopError(f"{name} takes a plain number, such as the ratio of two lengths")
        if isinstance(size, Limits):
            raise ShopError(f"{name} does not carry limits on: work out each end")
        try:
            return Angle(work(size.value), True)
        except ValueError as error:
            raise ShopError(str(error)) from None

    return function


def _coordinate(axis: int) -> Callable[..., Value]:
    def work(points: tuple[tuple[Quantity, ...], ...], which: Value) -> Value:
        if not isinstance(which, Quantity) or which.power or which.value.denominator != 1:
            raise ShopError("which of the places is a whole number, the first being 1")
        if not 1 <= which.value <= len(points):
            raise ShopError(f"there are {len(points)} places, the first being 1, and no {which.value}")
        point = points[int(which.value) - 1]
        if len(point) <= axis:
            raise ShopError("these places have one axis, across")
        return point[axis]

    return work


@cache
def more_functions() -> dict[str, Function]:
    """The functions of arcs, circles and tapers, loaded when one is first asked for."""
    from inspect import Parameter, signature

    from fractions_shop.layout.circle import FUNCTIONS as CIRCLE

    functions = {}
    for name, (work, meaning, example) in CIRCLE.items():
        takes = signature(work).parameters.values()
        least = sum(p.default is Parameter.empty for p in takes)
        functions[name] = Function(name, meaning, example, _through_limits(name, work), least, len(takes))
    return functions


_FOOT = 12 * INCH
#: How much each function of arcs and tapers grows with each of its sizes, for exact values;
#: every such slope itself rises or falls throughout in each.
_SLOPES: dict[str, Callable[..., tuple[Fraction | None, ...]]] = {
    "sagitta": lambda c, r: _sagitta_slopes(c, r),
    "chord": lambda r, angle: (2 * approx.sine(angle.degrees / 2), None),
    "radius_from": lambda c, h: (
        c.value / (4 * h.value), Fraction(1, 2) - c.value**2 / (8 * h.value**2),
    ),
    "girth": lambda d: (approx.pi(),),
    "arc": lambda r, angle: (approx.pi() * angle.degrees / 180, None),
    "per_foot": lambda gain: (1 / _FOOT,),
    "set_over": lambda taper, length: (length.value / 2, taper.value / 2),
    "step_chord": lambda d, n: (approx.sine(180 / n.value), None),
    "taper_per_foot": lambda large, small, length: (
        _FOOT / length.value, -_FOOT / length.value, -_FOOT * (large - small).value / length.value**2,
    ),
}  # fmt: skip


def _sagitta_slopes(c: Quantity, r: Quantity) -> tuple[Fraction | None, Fraction | None]:
    root = approx.square_root(r.value**2 - c.value**2 / 4)
    return (c.value / 4 / root, 1 - r.value / root) if root else (None, None)


def _through_limits(name: str, work: Callable[..., Any]) -> Callable[..., Any]:
    """`work` for sizes with limits too.

    Each of these rises or falls throughout in each of its sizes; only the radius of an
    arc turns round, at the half circle.
    """

    def carried(*values: Value) -> Value:
        if not any(isinstance(v, Limits) for v in values):
            return work(*values)  # type: ignore[no-any-return]
        if name not in _SLOPES:
            raise ShopError(f"{name} does not carry limits on: work out each end")
        if name == "radius_from":
            chord, height = (limits_of(v) for v in values)
            if height.upper * 2 > chord.lower and height.lower * 2 < chord.upper:
                raise ShopError("these limits reach across the half circle, where the radius is least")
        return through(work, values, _SLOPES[name])

    return carried


_LIST = (
    Function("sqrt", "square root", "sqrt(2 in * 8 in)", square_root),
    Function("hypot", "long side of a right angle", "hypot(3 in, 4 in)", hypotenuse, 1, 20),
    Function("min", "least of several", "min(1/2 in, 12 mm)", _extreme(min), 1, 100),
    Function("max", "greatest of several", "max(1/2 in, 12 mm)", _extreme(max), 1, 100),
    Function("abs", "without its sign", "abs(1/4 in - 3/8 in)", absolute),
    Function("ceil", "next whole number up", "ceil(109 in / 7 in)", _to_whole(ceil, "ceil")),
    Function("floor", "next whole number down", "floor(109 in / 7 in)", _to_whole(floor, "floor")),
    Function(
        "round",
        "nearest whole number, a half going up in size",
        "round(109 in / 7 in)",
        _to_whole(_nearest_whole, "round"),
    ),
    Function("sin", "sine of an angle", "2 in * sin(30 deg)", _of_angle(approx.sine, "sin")),
    Function("cos", "cosine of an angle", "2 in * cos(60 deg)", _of_angle(approx.cosine, "cos")),
    Function("tan", "tangent of an angle", "2 in * tan(45 deg)", _of_angle(approx.tangent, "tan")),
    Function("asin", "angle of a sine", "asin(1 in / 2 in)", _to_angle(approx.arc_sine, "asin")),
    Function("acos", "angle of a cosine", "acos(1 in / 2 in)", _to_angle(approx.arc_cosine, "acos")),
    Function("atan", "angle of a tangent", "atan(1 in / 4 in)", _to_angle(approx.arc_tangent, "atan")),
    Function("major", "major diameter of a thread", "major(6 BA)", thread_functions.thread_part("major"), of_thread=True),
    Function("pitch", "pitch of a thread", "pitch(6 BA)", thread_functions.thread_part("pitch"), of_thread=True),
    Function(
        "effective", "effective diameter of a thread", "effective(6 BA)", thread_functions.thread_part("effective"), of_thread=True
    ),
    Function(
        "minor",
        "minor diameter of a thread; the nut's where screw and nut differ",
        "minor(6 BA)",
        thread_functions.thread_part("minor"),
        of_thread=True,
        remark=thread_functions.minor_remark,
    ),
    Function(
        "screw_minor",
        "minor diameter of a screw: its core",
        "screw_minor(1/4-20 UNC)",
        thread_functions.thread_part("screw_minor"),
        of_thread=True,
        remark=thread_functions.screw_remark,
    ),
    Function(
        "nut_minor",
        "minor diameter of a nut: its bore",
        "nut_minor(1/4-20 UNC)",
        thread_functions.thread_part("nut_minor"),
        of_thread=True,
        remark=thread_functions.nut_remark,
    ),
    Function(
        "depth",
        "depth of a thread on one side; the nut's where screw and nut differ",
        "depth(6 BA)",
        thread_functions.thread_part("depth"),
        of_thread=True,
        remark=thread_functions.depth_remark,
    ),
    Function(
        "screw_depth",
        "depth to which a screw is cut, on one side",
        "screw_depth(1/4-20 UNC)",
        thread_functions.thread_part("screw_depth"),
        of_thread=True,
        remark=thread_functions.screw_remark,
    ),
    Function(
        "nut_depth",
        "depth of the thread in a nut, on one side",
        "nut_depth(1/4-20 UNC)",
        thread_functions.thread_part("nut_depth"),
        of_thread=True,
        remark=thread_functions.nut_remark,
    ),
    Function("tapping", "tapping drill of a thread", "tapping(6 BA)", thread_functions.tapping, 1, 2, True, thread_functions.tapping_remark),
    Function(
        "clearance",
        "clearance hole of a thread",
        "clearance(6 BA)",
        thread_functions.clearance,
        1,
        1,
        True,
        thread_functions.clearance_remark,
    ),
    Function(
        "across", "how far along one of several places lies: places, which of them",
        "across(bolt_circle(6, 3 in, 30 deg), 2)", _coordinate(0), 2, 2, of_places=True,
    ),
    Function(
        "up", "how far up one of several places lies: places of two axes, which of them",
        "up(bolt_circle(6, 3 in, 30 deg), 2)", _coordinate(1), 2, 2, of_places=True,
    ),
)  # fmt: skip
FUNCTIONS: dict[str, Function] = {f.name: f for f in _LIST}
