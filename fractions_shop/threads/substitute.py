"""What can be fitted in place of a thread that is no longer made, and what happens.

Each stand-in is looked at in three ways: the new screw in the old hole as it is, the
old hole drilled and re-tapped, and a bush with the new thread inside. The geometry is
plain; the limits of what is worth doing (half the new thread in sound metal, a wall of
one pitch in a bush) are common practice, no source.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import islice
from typing import ClassVar, overload

from fractions_shop.size.arguments import options_by_name
from fractions_shop.size.notation import decimal, mm_text
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.standing import in_brackets
from fractions_shop.size.told import Told
from fractions_shop.threads.holes import TappingDrill
from fractions_shop.threads.lookup import thread
from fractions_shop.threads.records import BY_KEY, keys_of
from fractions_shop.threads.series import of_series, series_keys, threads_of
from fractions_shop.threads.thread import LOAD_CAUTION, PRESSURE_CAUTION, Thread
from fractions_shop.threads.wires import flank

#: Play on the effective diameter of an ordinary screw in an ordinary nut, in pitches
#: (BS 93 bolts 0.10p low and nuts 0.12p high at most; about half of that is met with).
_USUAL_PLAY = Fraction(1, 10)
_NEXT_SIZES = 2
_SOUND_ENOUGH = 50  # percent of the new thread in metal that the old one did not reach


@dataclass(frozen=True)
class AsItIs:
    """The new screw in the old hole, nothing altered.

    `fit` is `wedges` (a taper thread in a parallel one, or the other way about, or two tapers that are
    not alike: it jams and will not seal), `tight` (it will not start), `stiff` (its effective diameter is over the old
    one by less than the usual play, so that it may start), `near`, `loose`, `binds` (it
    would enter, but the pitch is too far off for one turn) or `falls through`. `grip` is the
    percentage of the old thread's depth that the new one still overlaps.
    `binds_after` is the number of turns after which the difference in pitch has used up
    the play; 0 means at once, None never (the same pitch, or nothing to bind on).
    """

    fit: str
    grip: Fraction
    binds_after: int | None
    happens: tuple[str, ...]


@dataclass(frozen=True)
class Retap:
    """The old hole drilled out and tapped for the new thread.

    `verdict` is `clean` (nothing of the old thread is left), `partial` (at least half of
    the new thread in sound metal), `follows` (the same pitch and nearly the same size, so
    that the tap runs in the old groove), `poor` or `no`. `sound` is that percentage, `grows`
    how much larger the new major diameter is.
    """

    verdict: str
    drill: TappingDrill | None
    sound: Fraction
    grows: Quantity
    happens: str


@dataclass(frozen=True)
class Bush:
    """A bush, tapped inside for the new thread and screwed into the cleaned-out old hole.

    `outside` is the thread cut on it, None where none was found; `wall` the metal
    between the two threads.
    """

    outside: Thread | None
    drill: TappingDrill | None
    wall: Quantity | None
    happens: str


@dataclass(frozen=True)
class StandIn:
    """A thread that may stand in for the old one; differences are the new less the old."""

    thread: Thread
    major_off: Quantity
    pitch_off: Quantity
    same_angle: bool
    as_it_is: AsItIs
    retap: Retap
    bush: Bush


@dataclass(frozen=True, repr=False)
class Substitutes(Told, Sequence[StandIn]):
    """The stand-ins for `old`, nearest first, and those best for re-tapping; a sequence of the first.

    `own_series` are the next sizes up of the old thread's own series, whose taps and screws are of
    one kind with it.

    >>> substitute("6 BA", "metric")[0].thread.name
    'M3'
    """

    told_as: ClassVar[str] = "substitute"

    #: What stands in its JSON object beside its fields.
    data_properties: ClassVar[tuple[str, ...]] = ("caution",)

    old: Thread
    candidates: tuple[StandIn, ...]
    for_retapping: tuple[StandIn, ...]
    own_series: tuple[StandIn, ...] = ()

    @overload
    def __getitem__(self, index: int) -> StandIn: ...
    @overload
    def __getitem__(self, index: slice) -> tuple[StandIn, ...]: ...
    def __getitem__(self, index: int | slice) -> StandIn | tuple[StandIn, ...]:
        return self.candidates[index]

    def __len__(self) -> int:
        return len(self.candidates)

    @property
    def caution(self) -> str:
        """What the answer must not be used for without more."""
        pressure = any(
            thread.record.pressure for thread in (self.old, *(each.thread for each in self.candidates))
        )
        return (
            "a stand-in is for parts that carry nothing and keep nobody safe; "
            f"{PRESSURE_CAUTION if pressure else LOAD_CAUTION}"
        )


@options_by_name("substitute('6 BA', 'metric', count=3)")
def substitute(name: str | Thread, series: str | None = None, *, count: int = 6) -> Substitutes:
    """What may stand in for the thread `name`, from one `series` (or `metric`, `unified` ...).

    Without a series the nearest two of every other series are compared; pipe threads
    stand in for pipe threads only, unless asked for. Errors as for `thread`, and
    ShopError for an unknown series.

    >>> [one.thread.name for one in substitute("6 BA", "metric")][:2]
    ['M3', 'M2.5']
    """
    old = thread(name)
    keys = _keys(old, series)
    pool = [thread for thread in threads_of(keys) if thread != old]
    ranked = sorted(pool, key=lambda thread: _distance(old, thread))
    if series is None:
        ranked = sorted(_two_of_each(ranked, keys), key=lambda thread: _distance(old, thread))
    nearest = tuple(_stand_in(old, thread) for thread in ranked[: max(1, count)])
    return Substitutes(old, nearest, _for_retapping(old, pool), () if series else _own_series(old))


def _own_series(old: Thread) -> tuple[StandIn, ...]:
    """The next sizes up of its own series, two at most."""
    larger = [thread for thread in of_series(old.series) if thread.major > old.major and not thread.taper]
    return tuple(_stand_in(old, thread) for thread in larger[:_NEXT_SIZES])


def _keys(old: Thread, series: str | None) -> tuple[str, ...]:
    # What is met with seldom is to be had seldom: it stands in only where nothing else was asked for.
    if series is not None:
        asked = series_keys(series)
        return tuple(key for key in asked if not BY_KEY[key].rare) or asked
    return keys_of(
        lambda series: series.key != old.series and series.pressure == old.record.pressure and not series.rare
    )


def _two_of_each(ranked: list[Thread], keys: tuple[str, ...]) -> list[Thread]:
    return [thread for key in keys for thread in [r for r in ranked if r.series == key][:2]]


def _distance(old: Thread, new: Thread) -> Fraction:
    """Nearness: a part in the major counts twice as much as a part in the pitch."""
    across = abs(new.major.mm - old.major.mm) / old.major.mm
    return 2 * across + abs(new.pitch.mm - old.pitch.mm) / old.pitch.mm


def _for_retapping(old: Thread, pool: list[Thread]) -> tuple[StandIn, ...]:
    """The smallest sizes up that re-tap cleanly or nearly, at most three, least growth first."""
    larger = [thread for thread in pool if old.major < thread.major <= old.major * 2 and not thread.taper]
    larger.sort(key=lambda thread: (thread.major.mm, -thread.pitch.mm))
    good = islice((thread for thread in larger if _retap(old, thread).verdict in ("clean", "partial")), 3)
    return tuple(_stand_in(old, thread) for thread in good)


def _stand_in(old: Thread, new: Thread) -> StandIn:
    return StandIn(
        new,
        new.major - old.major,
        new.pitch - old.pitch,
        new.angle == old.angle,
        _as_it_is(old, new),
        _retap(old, new),
        _bush(old, new),
    )


# The new screw in the old hole


def _as_it_is(old: Thread, new: Thread) -> AsItIs:
    gap = old.effective - new.effective
    usual = old.pitch * _USUAL_PLAY
    overlap = (new.major.mm - old.minor.mm) / (old.major.mm - old.minor.mm) * 100
    grip = max(Fraction(0), min(Fraction(100), overlap))
    fit = _fit(gap, usual, grip)
    wedges = _wedges(old, new)
    if wedges and fit not in ("tight", "falls through"):
        return AsItIs("wedges", grip, None, (wedges,))
    turns = None if fit == "falls through" else _turns(old, new, gap + usual)
    if fit in ("stiff", "near", "loose") and turns == 0:
        fit = "binds"
    happens = [_told(fit, gap, usual, grip, old, new)]
    if fit in ("stiff", "near", "loose"):
        happens.append(_about_pitch(old, new, turns))
        if new.angle != old.angle:
            happens.append(_about_angle(old, new))
    return AsItIs(fit, grip, turns, tuple(happens))


def _wedges(old: Thread, new: Thread) -> str:
    """Why a taper thread jams where the other is not its own mate; empty where neither tapers, or both alike."""
    if old.taper and new.taper:
        alike = old.angle == new.angle and old.pitch == new.pitch
        return "" if alike else "two tapers of different angle or pitch: it wedges and will not seal"
    if new.taper:
        return "a taper thread in a parallel one: it wedges and will not seal"
    return "a parallel thread in a taper one: it wedges and will not seal" if old.taper else ""


def _fit(gap: Quantity, usual: Quantity, grip: Fraction) -> str:
    """By the room on the effective diameter alone; `gap` is without the usual play."""
    if gap < -usual:
        return "tight"
    if grip == 0:
        return "falls through"
    if gap.value < 0:
        return "stiff"
    return "loose" if gap > usual * 2 else "near"


def _told(fit: str, gap: Quantity, usual: Quantity, grip: Fraction, old: Thread, new: Thread) -> str:
    if fit == "tight":
        return "its effective diameter is too large: it will not start in the old thread"
    if fit == "falls through":
        return "it passes through the old hole without touching the thread"
    if fit == "binds":
        return f"the diameters would let it in, but the pitch is {_pitch_off(old, new)}: it binds at once"
    if fit == "stiff":
        over = mm_text(abs(gap), 3)
        return f"its effective diameter is {over} over: it starts only if the screw is thin or the nut slack"
    if fit == "loose":
        return f"too loose: {decimal(grip, 0)[0]} % of the old thread's depth still bears"
    if gap * 2 <= usual:
        return "it enters with about the usual play"
    return f"it enters with {mm_text(gap, 3)} more play than usual"


def _turns(old: Thread, new: Thread, play: Quantity) -> int | None:
    """Turns until the pitch error fills the axial play, which is play x tan(a/2)."""
    error = abs(new.pitch.mm - old.pitch.mm)
    if error == 0:
        return None
    tangent = 1 / (2 * flank(old.angle).sunk.value)
    return max(0, int(max(Fraction(0), play.mm) * tangent / error))


def _about_pitch(old: Thread, new: Thread, turns: int | None) -> str:
    if turns is None:
        return "the pitch is the same"
    return f"the pitch is {_pitch_off(old, new)}: it binds after about {turns} turn{'s' if turns > 1 else ''}"


def _pitch_off(old: Thread, new: Thread) -> str:
    part = (new.pitch.mm - old.pitch.mm) / old.pitch.mm * 100
    return f"{decimal(abs(part), 1)[0]} % {'coarser' if part > 0 else 'finer'}"


def _about_angle(old: Thread, new: Thread) -> str:
    here, there = decimal(new.angle.degrees)[0], decimal(old.angle.degrees)[0]
    return f"the angle is {here} degrees against {there}: the flanks bear on a line and will wear"


# Re-tapping


def _retap(old: Thread, new: Thread) -> Retap:
    grows = new.major - old.major
    if old.taper or new.taper:
        return Retap(
            "no", None, Fraction(0), grows, "a taper thread is not re-tapped to another: fit a new part"
        )
    drill = new.tapping()
    if new.pitch == old.pitch and abs(grows.mm) <= old.pitch.mm / 5:
        easing = "and trues the flanks" if new.angle != old.angle else "and takes out the little that differs"
        why = f"the pitch is the same: a {new.name} tap run through follows the old groove {easing}"
        return Retap("follows", drill, Fraction(0), grows, why)
    if grows.mm <= 0:
        why = "the old grooves are as deep as the new thread or deeper: bush the hole"
        return Retap("no", drill, Fraction(0), grows, why)
    hole = max(drill.size, old.minor)
    sound = min(Fraction(100), grows.mm / (new.major.mm - hole.mm) * 100)
    first = f"{_opened(drill)}, tap {new.name}"
    if drill.size >= old.major:
        return Retap("clean", drill, Fraction(100), grows, f"{first}: nothing of the old thread is left")
    if drill.size <= old.minor:
        first = f"the old hole is large enough without drilling, tap {new.name}"
    part = decimal(sound, 0)[0]
    remark = f"{first}: {part} % of the new depth is in sound metal, the rest meets old grooves"
    return Retap("partial" if sound >= _SOUND_ENOUGH else "poor", drill, sound, grows, remark)


def _opened(drill: TappingDrill) -> str:
    trust = in_brackets(drill.size.standing)
    if drill.drill is None:
        return f"bore the old hole to {mm_text(drill.size, 2)}{trust}"
    beside = drill.nearer
    also = (
        f", or the {beside.drill.name} drill, which leaves {decimal(beside.engagement, 0)[0]} %"
        if beside
        else ""
    )
    return f"open the old hole with the {drill.drill.name} drill{trust}{also}"


# Bushing


def _bush(old: Thread, new: Thread) -> Bush:
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
        how = f"{_opened(drill)}, tap {outside.name}, screw in a bush tapped {new.name}: its wall is"
        return Bush(outside, drill, wall, f"{how} {mm_text(wall, 2)}")
    return Bush(
        None,
        None,
        None,
        f"no outside thread of the kind leaves a wall: press in a plain bush tapped {new.name}",
    )


def _outsides(family: tuple[str, ...], least: Quantity) -> list[Thread]:
    """The threads of a family whose holes, about D - p, may come out at `least` or more; smallest first."""
    able = [
        thread
        for key in family
        for thread in of_series(key)
        if thread.major.mm - thread.pitch.mm * Fraction(1, 2) >= least.mm
    ]
    return sorted(able, key=lambda thread: (thread.major.mm, thread.pitch.mm))
