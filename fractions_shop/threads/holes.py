"""The drill to tap a thread: the printed one where a list was read, or by the share of thread it leaves.

By default a maker gets what his charts print: BS 1157 for BSW and BSF, ISO 2306 for
metric coarse, the trade's list for parallel pipe (table `thread_tap_drills`). A metric
thread that no list was read for takes its major less its pitch, the rule behind the
ISO 2306 figures; all else the drill nearest to 75 % of thread, and parallel pipe 85 %,
for its printed drills leave 79 to 95 % and 75 % would be over the greatest minor
diameter of ISO 228-1.
"""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from typing import ClassVar

from fractions_shop.errors import NoAnswer, ShopError
from fractions_shop.size.frozen import Frozen, Record, Result
from fractions_shop.size.notation import decimal, mm_text, number_value
from fractions_shop.size.quantity import Exact, Quantity, exact
from fractions_shop.size.told import Told
from fractions_shop.size.units import INCH
from fractions_shop.tables import born, rows
from fractions_shop.tables.drills import SERIES as DRILL_SERIES
from fractions_shop.tables.drills import Drill, series_drills
from fractions_shop.tables.nearest import Nearest, neighbours
from fractions_shop.threads.forms import Basis, Form, bases, basis_named
from fractions_shop.threads.record import Tapping

#: The drills to look among, by the system a thread belongs to.
SYSTEMS = {
    **{
        system: tuple(series for series, its in DRILL_SERIES.items() if its == system)
        for system in ("metric", "inch")
    },
    "any": tuple(DRILL_SERIES),
}
_USUAL = Tapping()
#: In percent of thread: a drill of another system is told beside where it is so much nearer to what was
#: asked, and taken where the thread's own system misses by more than the second (common practice, no source).
_PLAINLY_NEARER, _TOO_FAR = 3, 15


class TapChoice(Record):
    """One drill for tapping, and the percentage of thread it gives on the basis asked for."""

    drill: Drill
    engagement: Fraction


class TappingDrill(Told, Result):
    """The drill for a tapped hole.

    `size` is the hole: that of `drill`, or the printed or computed bore where no drill of
    that size is listed here (`drill` is then None). `rule` says how it was chosen, `source`
    where it is printed (empty if it was computed), and `beside` what a list that is not followed prints. `ideal` is the hole sought: the
    printed one, or the one that would leave `asked` percent of thread on `basis` (`asked`
    is None where no percentage decided). `size` leaves `engagement` percent. `on_each`
    tells that percentage on every basis, since a figure without its basis means little,
    and `others` the nearest drill of every series. For a taper thread the engagement
    changes along the hole: `asked`, `basis` and `engagement` are None. `note` says what
    is unusual.

    >>> from fractions_shop import thread
    >>> thread("6 BA").tapping()
    <TappingDrill: 2.3 mm (~0.0906 in), 79 % of the full depth of thread; chosen for 75 %>
    """

    told_as: ClassVar[str] = "tapping"

    size: Quantity
    drill: Drill | None
    ideal: Quantity
    asked: Fraction | None
    basis: Basis | None
    engagement: Fraction | None
    on_each: tuple[tuple[Basis, Fraction], ...]
    others: tuple[TapChoice, ...]
    note: str = ""
    rule: str = ""
    source: str = ""
    beside: str = ""

    @property
    def nearer(self) -> TapChoice | None:
        """The drill of another series that leaves plainly nearer to the thread asked for, if there is one."""
        if self.asked is None or self.engagement is None or not self.others:
            return None
        asked = self.asked
        best = min(self.others, key=lambda choice: abs(choice.engagement - asked))
        gain = abs(self.engagement - asked) - abs(best.engagement - asked)
        return best if gain >= _PLAINLY_NEARER else None

    @property
    def nearer_said(self) -> str:
        """That drill in words, with the thread it leaves; empty where there is none."""
        if self.nearer is None:
            return ""
        return f"the {self.nearer.drill.name} drill is nearer, {decimal(self.nearer.engagement, 0)[0]} %"


# Tapping


def tapping(
    name: str,
    major: Quantity,
    pitch: Quantity,
    form: Form,
    drills: str,
    engagement: Exact | Quantity | None = None,
    basis: str | None = None,
    habit: Tapping = _USUAL,
    alone: bool = True,
) -> TappingDrill:
    """The drill for the thread `name`: as printed, or nearest to `engagement` percent of thread.

    A percentage or a basis asked for is computed, whatever the lists print. Among the
    `drills` of SYSTEMS; a drill below the minor diameter is left out because the tap would
    have nowhere to go. Where all of these leave far too much or too little
    thread, a drill of another system is taken, unless they `alone` are wanted. ShopError for a basis the form does not have, or an engagement
    outside 1 to 100.
    """
    if drills not in SYSTEMS:
        raise ShopError(f"{drills!r} is not a set of drills: {', '.join(SYSTEMS)}")
    chosen, floor = basis_named(form, basis), major - form.depth_of(pitch) * 2
    sought = _sought(name, major, pitch, chosen, _percent(engagement, basis, habit), habit)
    near = _nearest_in_each(sought.ideal, floor)
    choices = tuple(TapChoice(d, engagement_of(major, pitch, d.size, chosen)) for d in near)
    drill = _best(choices, drills, sought.ideal)
    if not alone:
        drill = _of_any_system(drill, choices, sought)
    if sought.asked is None and drill is not None and drill.size != sought.ideal:
        drill = None  # a hole that is printed, or is a rule's, is given as it is
    hole = drill.size.resting_on(sought.ideal.standing) if drill else sought.ideal
    each = tuple(basis for basis in bases(form) if basis.name != "forming" or basis == chosen)
    return TappingDrill(
        hole,
        drill,
        sought.ideal,
        sought.asked,
        chosen,
        engagement_of(major, pitch, hole, chosen),
        tuple((basis, engagement_of(major, pitch, hole, basis)) for basis in each),
        choices,
        _tapping_note(drill, sought, floor, too_large(hole, major, pitch, form, habit), drills),
        sought.rule,
        sought.source,
        _beside(name),
    )


def _of_any_system(drill: Drill | None, choices: tuple[TapChoice, ...], sought: _Sought) -> Drill | None:
    """The drill, or that of another system where it leaves far from the percentage sought."""
    own = next((choice for choice in choices if choice.drill == drill), None)
    asked = sought.asked
    if own is None or asked is None or abs(own.engagement - asked) <= _TOO_FAR:
        return drill
    return min(choices, key=lambda choice: abs(choice.engagement - asked)).drill


class _Sought(Frozen):
    """The hole wanted, the percentage that decided (None: none did) and the rule in words."""

    ideal: Quantity
    asked: Fraction | None
    rule: str
    source: str = ""


def _sought(
    name: str, major: Quantity, pitch: Quantity, basis: Basis, percent: Fraction | None, habit: Tapping
) -> _Sought:
    row = _listed().get(name)
    if percent is None and row is not None and row["use"] == "default":
        return _Sought(_hole(row), None, "as printed", row["source"])
    if percent is None and habit.less_pitch:
        return _Sought(major - pitch, None, "the major less the pitch, the rule of ISO 2306")
    if percent is None:
        percent = Fraction(habit.percent)
    ideal = major - Quantity(basis.factor * percent / 100) * pitch.mm
    return _Sought(ideal, percent, f"chosen for {decimal(percent, 1)[0]} %")


@cache
def _listed() -> dict[str, dict[str, str]]:
    return {row["name"]: row for row in rows("thread_tap_drills")}


def _hole(row: dict[str, str]) -> Quantity:
    number, unit = row["drill"].rsplit(" ", 1)
    return born(row, number_value(number), unit)


def _beside(name: str) -> str:
    """What a list prints that is not followed, with where; empty where none was read."""
    row = _listed().get(name)
    if row is None:
        return ""
    return f"a bench list has {row['drill']}" if row["use"] == "beside" else row["note"]


def _best(choices: tuple[TapChoice, ...], drills: str, ideal: Quantity) -> Drill | None:
    fitting = [c.drill for c in choices if c.drill.series in SYSTEMS[drills]]
    return min(fitting, key=lambda d: (abs(d.size - ideal), -d.size.mm)) if fitting else None


def _tapping_note(drill: Drill | None, sought: _Sought, floor: Quantity, too_large: str, drills: str) -> str:
    if too_large:
        return too_large
    if drill is None and not sought.source:
        return _beside_listed(sought.ideal, drills)
    if sought.ideal < floor:
        return (
            "so much thread would want a hole below the minor diameter, where a tap jams: "
            "the next drill up is given"
        )
    return ""


def _beside_listed(hole: Quantity, drills: str) -> str:
    """What to do where no drill of just this size is listed: those next to it, or bore it."""
    near = _beside_in_each(hole, drills)
    below = [each.below for each in near if each.below is not None]
    above = [each.above for each in near if each.above is not None]
    if not below or not above:
        return "no drill of this size is listed here: bore the hole"
    lower = max(reversed(below), key=lambda drill: drill.size.mm)
    upper = min(above, key=lambda drill: drill.size.mm)
    return f"not among the drills listed here: next to it are {lower.name} and {upper.name}"


def _beside_in_each(size: Quantity, drills: str) -> list[Nearest[Drill]]:
    """What lies next to a size in each series of these `drills` of SYSTEMS."""
    return [neighbours(size, series, series_drills(series)) for series in SYSTEMS[drills]]


def too_large(hole: Quantity, major: Quantity, pitch: Quantity, form: Form, habit: Tapping) -> str:
    """A warning where the hole is over the greatest minor diameter, where that is known, else empty."""
    room = dict(habit.room).get(int(INCH / pitch.mm))
    if room is None:
        return ""
    most = major - form.depth_of(pitch) * 2 + Quantity(room)
    if hole <= most:
        return ""
    return f"larger than the greatest minor diameter of ISO 228-1, {mm_text(most, 3)} (tolerance: one source)"


def thread_left(shares: tuple[tuple[Basis, Fraction], ...]) -> str:
    """How much thread a hole leaves, in bench words, from the share on each basis.

    >>> from fractions_shop.threads.lookup import thread
    >>> thread_left(thread("6 BA").tapping().on_each)
    '79 % of the full depth of thread'
    """
    first, *others = shares
    said = f"{decimal(first[1], 0)[0]} % {_COUNTED[first[0].name]}"
    more = "; ".join(f"{decimal(part, 0)[0]} % {_COUNTED[basis.name]}" for basis, part in others)
    return f"{said} ({more})" if more else said


#: How a percentage on each basis is said at the bench.
_COUNTED = {
    "full": "of the full depth of thread",
    "3H/4": "of thread as drill charts count it",
    "basic": "of the basic depth",
    "forming": "as forming taps count it",
}


def engagement_of(major: Quantity, pitch: Quantity, hole: Quantity, basis: Basis) -> Fraction:
    """The percentage of thread that a plain hole leaves: 100 (major - hole) / (factor p)."""
    return (major.mm - hole.mm) / (basis.factor * pitch.mm) * 100


def taper_tapping(drill_size: Quantity | None, name: str, source: str) -> TappingDrill:
    """The printed drill for a taper pipe thread; NoAnswer where none was read."""
    if drill_size is None:
        raise NoAnswer(f"no tapping drill was read for {name}, and a taper thread has no single engagement")
    drill = drill_of(drill_size, "any")
    note = "a taper thread has no single engagement, so none is computed"
    return TappingDrill(drill_size, drill, drill_size, None, None, None, (), (), note, "as printed", source)


def _percent(engagement: Exact | Quantity | None, basis: str | None, habit: Tapping) -> Fraction | None:
    """The percentage asked for; naming a basis alone asks for the usual one; None if neither was."""
    if engagement is None:
        return None if basis is None else Fraction(habit.percent)
    if isinstance(engagement, Quantity):
        engagement = engagement.value if engagement.power == 0 else Fraction(-1)
    percent = exact(engagement)
    if not 1 <= percent <= 100:
        raise ShopError(f"the engagement is a percentage of thread from 1 to 100, such as {_USUAL.percent}")
    return percent


def _nearest_in_each(ideal: Quantity, floor: Quantity) -> tuple[Drill, ...]:
    """The nearest drill to `ideal` of each series, not under `floor`; none where a series ends short."""
    nearest_drills = []
    for near in _beside_in_each(max(ideal, floor), "any"):
        sides = [d for d in (near.exact, near.below, near.above) if d is not None and d.size >= floor]
        reaches = near.exact is not None or (near.above is not None and near.below is not None)
        if sides and reaches:
            nearest_drills.append(min(sides, key=lambda d: (abs(d.size - ideal), -d.size.mm)))
    return tuple(nearest_drills)


def drill_of(size: Quantity, drills: str) -> Drill | None:
    """The drill of just that size, of those `drills` (of SYSTEMS) if it can be; else None."""
    same = [each.exact for each in _beside_in_each(size, "any") if each.exact is not None]
    return min(same, key=lambda drill: drill.series not in SYSTEMS[drills], default=None)
