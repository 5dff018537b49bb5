"""The old hole drilled out and tapped for another thread, or bushed for it: what is cut, and what is left.

The geometry is plain; what is worth doing (half the new thread in sound metal, a wall of one pitch
in a bush) is common practice, no source.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator
from fractions import Fraction
from functools import cache

from fractions_shop.size.frozen import Result
from fractions_shop.size.notation import decimal, mm_text
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.standing import in_brackets
from fractions_shop.threads.forms import basis_named
from fractions_shop.threads.holes import TapChoice, TappingDrill, thread_left
from fractions_shop.threads.records import keys_of
from fractions_shop.threads.series import Listed, listed
from fractions_shop.threads.thread import Thread

_SOUND_ENOUGH = 50  # percent of the new thread in metal that the old one did not reach


class Retap(Result):
    """The old hole drilled out and tapped for the new thread.

    `verdict` is `clean` (nothing of the old thread is left), `partial` (at least half of
    the new thread in sound metal), `chased` (the same pitch and nearly the same size, so
    that the tap runs in the old groove), `poor` or `no`. `sound` is that percentage, `old_left`
    the percentage of the old thread's depth that the hole leaves, `engagement` the percentage of
    the new thread in the hole as it then is, as drill charts count it: an old one may be larger than
    `drill` already. Both are None where nothing is cut. `grows` is how much larger the new major diameter is.
    """

    verdict: str
    drill: TappingDrill | None
    sound: Fraction
    grows: Quantity
    happens: str
    old_left: Fraction | None = None
    engagement: Fraction | None = None


class Bush(Result):
    """A bush, tapped inside for the new thread and screwed into the cleaned-out old hole.

    `outside` is the thread cut on it, None where none was found; `wall` the metal
    between the two threads.
    """

    outside: Thread | None
    drill: TappingDrill | None
    wall: Quantity | None
    happens: str


# Re-tapping


def retapped(old: Thread, new: Thread) -> Retap:
    """What becomes of the new thread where the old hole is drilled out and tapped for it."""
    grows = new.major - old.major
    if old.taper or new.taper:
        return Retap(
            "no", None, Fraction(0), grows, "a taper thread is not re-tapped to another: fit a new part"
        )
    drill = new.tapping()
    if new.pitch == old.pitch and abs(grows.mm) <= old.pitch.mm / 5:
        easing = "and trues the flanks" if new.angle != old.angle else "and takes out the little that differs"
        why = f"the pitch is the same: a {new.name} tap run through follows the old groove {easing}"
        return Retap("chased", drill, Fraction(0), grows, why)
    if grows.mm <= 0:
        why = "the old grooves are as deep as the new thread or deeper: bush the hole"
        return Retap("no", drill, Fraction(0), grows, why)
    return _cut(old, new, drill, grows)


def _cut(old: Thread, new: Thread, drill: TappingDrill, grows: Quantity) -> Retap:
    """What a larger thread leaves of the old one; the old hole may be larger than the drill for the new."""
    hole = max(drill.size, old.minor)
    sound = min(Fraction(100), grows.mm / (new.major.mm - hole.mm) * 100)
    old_left = max(Fraction(0), (old.major.mm - hole.mm) / (old.major.mm - old.minor.mm) * 100)
    engagement = new.engagement(hole)
    first = _opened(drill, old.major) if hole == drill.size else _large_enough(new, hole)
    first += f", tap {new.name}"
    if old_left == 0:
        why = f"{first}: nothing of the old thread is left"
        return Retap("clean", drill, sound, grows, why, old_left, engagement)
    why = (
        f"{first}: {_percent(old_left)} of the old thread's depth is left, and {_percent(sound)} of the new "
        "one is in sound metal"
    )
    return Retap(
        "partial" if sound >= _SOUND_ENOUGH else "poor", drill, sound, grows, why, old_left, engagement
    )


def _opened(drill: TappingDrill, clears: Quantity) -> str:
    """How the hole is opened, with the thread that each drill leaves."""
    left = thread_left(drill.on_each[:1])
    beside = _beside(drill, clears)
    also = f", or with the {beside.drill.name} drill, for {_percent(beside.engagement)}" if beside else ""
    return f"{_first_opened(drill)}, for {left}{also}"


def _first_opened(drill: TappingDrill) -> str:
    trust = in_brackets(drill.size.standing)
    if drill.drill is None:
        return f"bore the old hole to {mm_text(drill.size, 2)}{trust}"
    return f"open the old hole with the {drill.drill.name} drill{trust}"


def _beside(drill: TappingDrill, clears: Quantity) -> TapChoice | None:
    """The drill of another series that is nearer, where it too clears what is to go, or neither does."""
    beside = drill.nearer
    return beside if beside and (beside.drill.size >= clears) == (drill.size >= clears) else None


def _large_enough(new: Thread, hole: Quantity) -> str:
    left = thread_left(((basis_named(new.form, None), new.engagement(hole)),))
    return f"the old hole, {mm_text(hole, 2)}{in_brackets(hole.standing)}, is large enough for {left}"


def _percent(part: Fraction) -> str:
    return f"{decimal(part, 0)[0]} %"


# Bushing


def bushed(old: Thread, new: Thread) -> Bush:
    """The smallest bush of the new thread's trade that clears the old one and has a wall of a pitch."""
    if old.taper or new.taper:
        return Bush(None, None, None, "a taper thread is not bushed so: fit a new part")
    # The taps of the same trade as the thread inside make the outside of the bush; of a rare one today's.
    family = keys_of(
        lambda record: record.family == new.record.family and not record.form.taper and not record.rare
    ) or keys_of(
        lambda record: (
            record.system == new.system
            and record.general == (new.system != "metric")
            and not (record.rare or record.pressure)
            and record.size_is != "number"
        )
    )
    least = new.major + new.pitch * 2
    for outside in _outsides(family, max(old.major, least)):
        root = min(minor.size for minor in outside.minors)
        drill = outside.tapping() if root >= least else None
        if drill is None or drill.size < old.major:
            continue
        wall = (root - new.major) / 2
        beside = _beside(drill, old.major)
        also = f" (the {beside.drill.name} drill comes nearer to the usual thread)" if beside else ""
        how = f"{_first_opened(drill)}{also}, tap {outside.name}, screw in a bush tapped {new.name}: its wall is"
        return Bush(outside, drill, wall, f"{how} {mm_text(wall, 2)}")
    return Bush(
        None,
        None,
        None,
        f"no outside thread of the kind leaves a wall: press in a plain bush tapped {new.name}",
    )


def _outsides(family: tuple[str, ...], least: Quantity) -> Iterator[Thread]:
    """The threads of a family whose holes, about D - p, may come out at `least` or more; smallest first."""
    rising = _rising(family)
    larger = bisect_left(rising, least.mm, key=lambda each: each.major)
    return (each.thread for each in rising[larger:] if each.major - each.pitch / 2 >= least.mm)


@cache
def _rising(family: tuple[str, ...]) -> list[Listed]:
    """The threads of some series as they are listed, smallest first, of one major the finest."""
    every = (each for key in family for each in listed(key))
    return sorted(every, key=lambda each: (each.major, each.pitch))
