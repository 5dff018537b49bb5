"""The drill to tap a thread, and the hole to clear it."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from fractions_shop.errors import NoAnswer, ShopError
from fractions_shop.notation import mm_text, number_value
from fractions_shop.quantity import Exact, Quantity, exact
from fractions_shop.tables import rows
from fractions_shop.tables.drills import Drill, series_drills
from fractions_shop.tables.nearest import neighbours
from fractions_shop.threads.forms import Basis, Form, bases, basis_named

#: The drills to look among, by the system a thread belongs to.
SYSTEMS = {
    "metric": ("metric",),
    "inch": ("number", "letter", "fractional"),
    "any": ("number", "letter", "fractional", "metric"),
}
USUAL_ENGAGEMENT = 75
FITS = ("close", "medium", "free")
_FIT_WORDS = {"fine": "close", "normal": "medium", "coarse": "free", "loose": "free"}


@dataclass(frozen=True)
class TapChoice:
    """One drill for tapping, and the percentage of thread it gives on the basis asked for."""

    drill: Drill
    engagement: Fraction


@dataclass(frozen=True)
class TappingDrill:
    """The drill for a tapped hole.

    `size` is the hole: that of `drill`, or the computed bore where no drill is so large
    (`drill` is then None). `asked` percent of thread on `basis` would want a hole of
    `ideal`; the real drill gives `engagement` percent. `on_each` tells that percentage
    on every basis, since a figure without its basis means little, and `others` the
    nearest drill of every series. For a taper thread the engagement changes along the
    hole: `asked`, `basis` and `engagement` are None and `note` says where the drill is from.
    """

    size: Quantity
    drill: Drill | None
    ideal: Quantity
    asked: Fraction | None
    basis: Basis | None
    engagement: Fraction | None
    on_each: tuple[tuple[Basis, Fraction], ...]
    others: tuple[TapChoice, ...]
    note: str = ""


@dataclass(frozen=True)
class ClearanceHole:
    """A hole that the screw passes through.

    `size` by `rule`, and the `drill` that makes it: the smallest not under it, or None
    where no drill is so large.
    """

    size: Quantity
    fit: str
    drill: Drill | None
    rule: str
    source: str


# Tapping


def tapping(
    major: Quantity,
    pitch: Quantity,
    form: Form,
    system: str,
    engagement: Exact | Quantity | None = None,
    basis: str | None = None,
) -> TappingDrill:
    """The real drill nearest to the hole that leaves `engagement` percent of thread.

    Among the drills of `system` (SYSTEMS); a drill below the minor diameter is left out
    because the tap would have nowhere to go. ShopError for a basis the form does not
    have, or an engagement outside 1 to 100.
    """
    chosen, percent = basis_named(form, basis), _percent(engagement)
    ideal = major - Quantity(chosen.factor * percent / 100) * pitch.mm
    floor = major - form.depth_of(pitch) * 2
    if system not in SYSTEMS:
        raise ShopError(f"{system!r} is not a set of drills: {', '.join(SYSTEMS)}")

    def gives(hole: Quantity, on: Basis) -> Fraction:
        return engagement_of(major, pitch, hole, on)

    found = _nearest_in_each(ideal, floor)
    choices = tuple(TapChoice(drill, gives(drill.size, chosen)) for drill in found)
    fitting = [c.drill for c in choices if c.drill.series in SYSTEMS[system]]
    drill = min(fitting, key=lambda d: (abs(d.size - ideal), -d.size.mm)) if fitting else None
    hole = drill.size if drill else ideal
    return TappingDrill(
        hole,
        drill,
        ideal,
        percent,
        chosen,
        gives(hole, chosen),
        tuple((one, gives(hole, one)) for one in bases(form) if one.name != "forming" or one == chosen),
        choices,
        _tapping_note(drill, ideal, floor),
    )


def _tapping_note(drill: Drill | None, ideal: Quantity, floor: Quantity) -> str:
    if drill is None:
        return "no drill of this size is listed here: bore the hole"
    if ideal < floor:
        return (
            "so much thread would want a hole below the minor diameter, where a tap jams: "
            "the next drill up is given"
        )
    return ""


def engagement_of(major: Quantity, pitch: Quantity, hole: Quantity, basis: Basis) -> Fraction:
    """The percentage of thread that a plain hole leaves: 100 (major - hole) / (factor p)."""
    return (major.mm - hole.mm) / (basis.factor * pitch.mm) * 100


def taper_tapping(drill_size: Quantity | None, name: str, source: str) -> TappingDrill:
    """The printed drill for a taper pipe thread; NoAnswer where none was read."""
    if drill_size is None:
        raise NoAnswer(f"no tapping drill was read for {name}, and a taper thread has no single engagement")
    drill = next((d for d in _by_size() if d.size == drill_size), None)
    note = f"as printed ({source}); a taper thread has no single engagement, so none is computed"
    return TappingDrill(drill_size, drill, drill_size, None, None, None, (), (), note)


def _percent(engagement: Exact | Quantity | None) -> Fraction:
    if engagement is None:
        return Fraction(USUAL_ENGAGEMENT)
    if isinstance(engagement, Quantity):
        engagement = engagement.value if engagement.power == 0 else Fraction(-1)
    percent = exact(engagement)
    if not 1 <= percent <= 100:
        raise ShopError(f"the engagement is a percentage of thread from 1 to 100, such as {USUAL_ENGAGEMENT}")
    return percent


def _nearest_in_each(ideal: Quantity, floor: Quantity) -> tuple[Drill, ...]:
    """The nearest drill to `ideal` of each series, not under `floor`; none where a series ends short."""
    found = []
    for series in SYSTEMS["any"]:
        near = neighbours(max(ideal, floor), series, series_drills(series))
        sides = [d for d in (near.exact, near.below, near.above) if d is not None and d.size >= floor]
        reaches = near.exact is not None or (near.above is not None and near.below is not None)
        if sides and reaches:
            found.append(min(sides, key=lambda d: (abs(d.size - ideal), -d.size.mm)))
    return tuple(found)


@cache
def _by_size() -> tuple[Drill, ...]:
    every = (drill for series in SYSTEMS["any"] for drill in series_drills(series))
    return tuple(sorted(every, key=lambda d: d.size.mm))


# Clearance

_ISO = "ISO 273"
_RULE = "major with the allowance of ISO 273 for the next metric size up (our own rule)"


def clearance(major: Quantity, series: str, size: str, fit: str = "medium") -> ClearanceHole:
    """The clearance hole for a screw of `major` diameter; `fit` is close, medium or free.

    ISO 273 for metric sizes that it has, ASME B18.2.8 for unified sizes that it has,
    the stated rule for all else. NoAnswer above 64 mm, ShopError for another fit.
    """
    word = _FIT_WORDS.get(fit.lower(), fit.lower())
    if word not in FITS:
        raise ShopError(f"{fit!r} is not a clearance fit: write close, medium or free")
    if series.startswith("UN") and size in _unified():
        row = _unified()[size]
        hole = Quantity.inches(number_value(row[f"{word}_in"]))
        return ClearanceHole(hole, word, _drill_for(hole), "ASME B18.2.8", row["source"])
    exactly = next((r for r in rows("thread_clearance_mm") if Fraction(r["major_mm"]) == major.mm), None)
    if series.startswith("M") and series != "ME" and exactly is not None:
        hole = Quantity(Fraction(exactly[f"{word}_mm"]))
        return ClearanceHole(hole, word, _drill_for(hole), _ISO, exactly["source"])
    hole, row = _by_rule(major, word)
    return ClearanceHole(hole, word, _drill_for(hole), _RULE, row["source"])


def _by_rule(major: Quantity, fit: str) -> tuple[Quantity, dict[str, str]]:
    for row in rows("thread_clearance_mm"):
        next_up = Fraction(row["major_mm"])
        if next_up >= major.mm:
            return major + Quantity(Fraction(row[f"{fit}_mm"]) - next_up), row
    raise NoAnswer(f"clearance holes are known here up to 64 mm, not for {mm_text(major, 3)}")


@cache
def _unified() -> dict[str, dict[str, str]]:
    return {row["size"]: row for row in rows("thread_clearance_in")}


def _drill_for(hole: Quantity) -> Drill | None:
    """The smallest drill not under the hole; a preferred metric one wins a tie."""
    over = [drill for drill in _by_size() if drill.size >= hole]
    return min(over, key=lambda d: (d.size.mm, d.series != "metric")) if over else None
