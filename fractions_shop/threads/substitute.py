"""What can be fitted in place of a thread that is no longer made, and what happens.

Each stand-in is looked at in three ways: the new screw in the old hole as it is, the
old hole drilled and re-tapped, and a bush with the new thread inside. The geometry is
plain; the limits of what is worth doing (half the new thread in sound metal, a wall of
one pitch in a bush) are common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from fractions import Fraction
from itertools import islice
from typing import ClassVar, overload

from fractions_shop.size.arguments import options_by_name
from fractions_shop.size.frozen import Result
from fractions_shop.size.notation import decimal, mm_text
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.told import Told
from fractions_shop.threads.lookup import thread
from fractions_shop.threads.records import BY_KEY, keys_of
from fractions_shop.threads.retapping import Bush, Retap, bushed, retapped
from fractions_shop.threads.series import Listed, listed, listed_of, series_keys
from fractions_shop.threads.thread import LOAD_CAUTION, PRESSURE_CAUTION, Thread
from fractions_shop.threads.wires import flank

#: Play on the effective diameter of an ordinary screw in an ordinary nut, in pitches
#: (BS 93 bolts 0.10p low and nuts 0.12p high at most; about half of that is met with).
_USUAL_PLAY = Fraction(1, 10)
_NEXT_SIZES, _SMALLEST = 2, 3


class AsItIs(Result):
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


class StandIn(Result):
    """A thread that may stand in for the old one; differences are the new less the old."""

    thread: Thread
    major_off: Quantity
    pitch_off: Quantity
    same_angle: bool
    as_it_is: AsItIs
    retap: Retap
    bush: Bush

    def __repr__(self) -> str:
        return f"<StandIn: {self.thread.name}, as it is {self.as_it_is.fit}, re-tapped {self.retap.verdict}>"


class Substitutes(Told, Result, Sequence[StandIn]):
    """The stand-ins for `old`, nearest first, and those best for re-tapping; a sequence of the first.

    `for_retapping` are those that leave at least half of the new thread in sound metal, least growth
    first: the smallest three, the smallest that leaves nothing of the old one, and the next sizes of its
    own series. `own_series` are these next sizes, good or poor, since their taps and screws are of one
    kind with the old ones: two, and the first that leaves nothing of the old thread.

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
    pool = [each for each in listed_of(keys) if each.series != old.series or each.thread != old]
    ranked = sorted(pool, key=lambda each: _distance(old, each))
    if series is None:
        ranked = sorted(_two_of_each(ranked, keys), key=lambda each: _distance(old, each))
    nearest = tuple(_stand_in(old, each.thread) for each in ranked[: max(1, count)])
    own = [] if series else _own_series(old)
    best = _by_growth({*_for_retapping(old, pool), *(size for size in own if _is_good(old, size))})
    return Substitutes(
        old,
        nearest,
        tuple(_stand_in(old, thread) for thread in best),
        tuple(_stand_in(old, thread) for thread in own),
    )


def _own_series(old: Thread) -> list[Thread]:
    """The next sizes up of its own series: two, and the first that leaves nothing of the old thread."""
    larger = _sizes_up(old, listed(old.series))
    return _with_a_clean_one(old, larger, larger[:_NEXT_SIZES])


def _keys(old: Thread, series: str | None) -> tuple[str, ...]:
    # What is met with seldom is to be had seldom: it stands in only where nothing else was asked for.
    if series is not None:
        asked = series_keys(series)
        return tuple(key for key in asked if not BY_KEY[key].rare) or asked
    return keys_of(
        lambda series: series.key != old.series and series.pressure == old.record.pressure and not series.rare
    )


def _two_of_each(ranked: list[Listed], keys: tuple[str, ...]) -> list[Listed]:
    of_key: dict[str, list[Listed]] = {key: [] for key in keys}
    for each in ranked:
        of_key[each.series].append(each)
    return [each for several in of_key.values() for each in several[:2]]


def _distance(old: Thread, new: Listed) -> float:
    """Nearness: a part in the major counts twice as much as a part in the pitch. Of whole numbers, so that equals are equal."""
    (a, b), (c, d) = old.major.mm.as_integer_ratio(), old.pitch.mm.as_integer_ratio()
    e, f, g, h = new.exactly
    return (2 * abs(e * b - a * f) * c * h + abs(g * d - c * h) * a * f) / (a * f * c * h)


def _for_retapping(old: Thread, pool: Sequence[Listed]) -> list[Thread]:
    """The smallest sizes up that re-tap cleanly or nearly: three, and one at least that does so cleanly."""
    larger = _sizes_up(old, pool)
    good = [*islice((thread for thread in larger if _is_good(old, thread)), _SMALLEST)]
    return _with_a_clean_one(old, larger, good)


def _sizes_up(old: Thread, pool: Sequence[Listed]) -> list[Thread]:
    size = old.major.mm
    larger = (each.thread for each in pool if size < each.major <= 2 * size)
    return _by_growth(thread for thread in larger if not thread.taper)


def _by_growth(threads: Iterable[Thread]) -> list[Thread]:
    """The least major first, of one major the coarsest."""
    return sorted(threads, key=lambda thread: (thread.major.mm, -thread.pitch.mm, thread.name))


def _is_good(old: Thread, new: Thread) -> bool:
    return retapped(old, new).verdict in ("clean", "partial")


def _with_a_clean_one(old: Thread, larger: list[Thread], taken: list[Thread]) -> list[Thread]:
    """Those taken, and the first of all that leaves nothing of the old thread where none of them does."""
    clean = next((thread for thread in larger if retapped(old, thread).verdict == "clean"), None)
    return taken if clean is None or clean in taken else _by_growth([*taken, clean])


def _stand_in(old: Thread, new: Thread) -> StandIn:
    return StandIn(
        new,
        new.major - old.major,
        new.pitch - old.pitch,
        new.angle == old.angle,
        _as_it_is(old, new),
        retapped(old, new),
        bushed(old, new),
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
