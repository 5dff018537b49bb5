"""What the functions of threads do: parts, holes, and whose minor and depth they give."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from fractions_shop.errors import ShopError
from fractions_shop.size.notation import decimal, mm_text
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.value import Value


def tapping(thread: Any, engagement: Value | None = None) -> Value:
    """The hole to tap, for so many percent of thread if that was said."""
    if engagement is not None and (not isinstance(engagement, Quantity) or engagement.power != 0):
        raise ShopError("how much thread is a plain number of percent, such as 65")
    size: Quantity = thread.tapping(engagement).size
    return size


def tapping_remark(thread: Any, value: Any, engagement: Any = None) -> tuple[str, ...]:
    """How the drill was chosen, how much thread it really leaves, and which drill of another series is nearer."""
    hole = thread.tapping(engagement)
    if thread.taper:
        return (f"{hole.rule}: {hole.note}",)
    left = f"for {thread.name} {thread.thread_left(value)}"
    said = "; ".join(filter(None, (left, hole.rule, hole.nearer_said)))
    return (said, *filter(None, (hole.note, hole.beside)))


def clearance_remark(thread: Any, value: Any) -> tuple[str, ...]:
    """Which fit it is, by what rule, and what the other two would be."""
    hole = thread.clearance()
    close, free = (mm_text(thread.clearance(fit).size, 3) for fit in ("close", "free"))
    said = f"a medium hole, {hole.rule}; close would be {close}, free {free}"
    return (said, hole.beside) if hole.beside else (said,)


def clearance(thread: Any) -> Value:
    """The medium clearance hole."""
    size: Quantity = thread.clearance().size
    return size


def minor_remark(thread: Any, value: Any) -> tuple[str, ...]:
    """Whose minor diameter it is, and what the other part's is."""
    return _either_remark(thread, thread.minor_convention, "screw_minor", thread.screw_minor)


def depth_remark(thread: Any, value: Any) -> tuple[str, ...]:
    """Whose depth it is, and what the other part's is."""
    part = "both screw and nut" if thread.minor_part == "both" else "the nut"
    return _either_remark(thread, f"of {part}, on one side", "screw_depth", thread.screw_depth)


def _either_remark(thread: Any, said: str, function: str, screw: Quantity) -> tuple[str, ...]:
    if thread.minor_part == "both":
        return (said,)
    inches, mm = decimal(screw.inch, 4)[0], mm_text(screw, 3)
    return (f"{said}; the screw's is {inches} in ({mm}): {function}({thread.name})",)


def screw_remark(thread: Any, value: Any) -> tuple[str, ...]:
    """By which convention a screw is cut so deep."""
    return (thread.form.screw.said,)


def nut_remark(thread: Any, value: Any) -> tuple[str, ...]:
    """By which convention a nut is bored so wide."""
    return (thread.minor_convention,)


def thread_part(name: str) -> Callable[[Any], Value]:
    """A function that gives the size of that name of a thread."""

    def work(thread: Any) -> Value:
        value: Quantity = getattr(thread, name)
        return value

    return work
