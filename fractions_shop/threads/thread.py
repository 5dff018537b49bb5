"""Thread: one thread, with every figure that follows from its major, pitch and form."""

from __future__ import annotations

from fractions import Fraction
from typing import ClassVar

from fractions_shop.errors import NoAnswer
from fractions_shop.size import approx
from fractions_shop.size.arguments import SizeLike, as_length
from fractions_shop.size.cached import cached_property
from fractions_shop.size.frozen import Record, Result
from fractions_shop.size.notation import mm_text
from fractions_shop.size.quantity import Angle, Exact, Quantity
from fractions_shop.size.told import Told
from fractions_shop.size.units import INCH
from fractions_shop.size.value import AnyPower
from fractions_shop.threads import holes, wires
from fractions_shop.threads.clearance import ClearanceHole, clearance
from fractions_shop.threads.forms import Form, bases, basis_named
from fractions_shop.threads.heads import Head
from fractions_shop.threads.heads import heads as heads_of
from fractions_shop.threads.record import Series
from fractions_shop.threads.records import BY_KEY

LOAD_CAUTION = (
    "where a thread carries load, guards a person or keeps something from falling, these figures do not "
    "say what it will bear: go by the standard in force, the local code and a licensed engineer"
)
PRESSURE_CAUTION = (
    "where a thread holds gas, steam or other pressure, these figures do not make it safe or tight: "
    "go by the standard in force, the local code and a licensed fitter"
)


class Minor(Record):
    """A minor diameter, the convention by which it is one, and whether it is the `screw`'s, the `nut`'s or of `both`."""

    size: Quantity
    convention: str
    source: str
    part: str


class Thread(Told, Result):
    """A thread of a known series; lengths are Quantities.

    `major` is the basic major diameter (for a taper thread at the gauge plane, for NPT
    the outside of the pipe), `pitch` the basic pitch. `size` is the size alone
    (`6`, `1/4`, `No 6`), `standing` how far the size list may be trusted (STANDINGS of
    the tables), `source` where it is from. Two threads are equal if series and name are.

    >>> from fractions_shop import thread
    >>> str(thread("6 BA").major), str(thread("6 BA").pitch)
    ('2.8 mm', '0.53 mm')
    """

    told_as: ClassVar[str] = "thread"

    #: What stands in its JSON object beside its fields.
    data_properties: ClassVar[tuple[str, ...]] = (
        "tpi",
        "effective",
        "minor",
        "minor_convention",
        "screw_minor",
        "nut_minor",
        "depth",
        "screw_depth",
        "nut_depth",
        "angle",
        "best_wire",
        "stress_area",
        "heads",
        "caution",
    )
    #: What its JSON object leaves out.
    data_left_out: ClassVar[tuple[str, ...]] = ("form",)
    uncompared: ClassVar[tuple[str, ...]] = (
        "size", "major", "pitch", "form", "system", "source", "standing", "notes", "gauge_effective", "tap_drill",
    )  # fmt: skip

    series: str
    name: str
    size: str
    major: Quantity
    pitch: Quantity
    form: Form
    system: str
    source: str
    standing: str = "rule"
    notes: tuple[str, ...] = ()
    gauge_effective: Quantity | None = None
    tap_drill: Quantity | None = None

    @property
    def record(self) -> Series:
        """All that is particular to its series."""
        return BY_KEY[self.series]

    @property
    def tpi(self) -> Fraction:
        """Threads per inch, a plain number; exact also where it is no whole number."""
        return INCH / self.pitch.mm

    @property
    def angle(self) -> Angle:
        """The included angle of the flanks."""
        return self.form.angle

    @property
    def taper(self) -> bool:
        """Whether it is a taper thread, 1 in 16 on the diameter."""
        return self.form.taper

    @cached_property
    def depth(self) -> Quantity:
        """Depth on one side, of the form that `minor` goes with: the nut's (5H/8) for 60 degree threads."""
        return self.form.depth_of(self.pitch)

    @property
    def nut_depth(self) -> Quantity:
        """Depth on one side of the thread in a nut."""
        return self.depth

    @cached_property
    def screw_depth(self) -> Quantity:
        """Depth on one side to which the thread of a screw is cut."""
        return self.form.screw_depth_of(self.pitch)

    @cached_property
    def effective(self) -> Quantity:
        """Effective (pitch) diameter; of a taper thread at the gauge plane."""
        if self.gauge_effective is not None:
            return self.gauge_effective
        return self.major - self.form.effective_of(self.pitch)

    @cached_property
    def minor(self) -> Quantity:
        """Minor diameter by `minor_convention`; `minors` has the others in print."""
        if self.gauge_effective is not None:
            return self.gauge_effective - self.depth
        return self.major - self.depth * 2

    @property
    def nut_minor(self) -> Quantity:
        """Minor diameter of the nut: its bore."""
        return self.minor

    @cached_property
    def screw_minor(self) -> Quantity:
        """Minor diameter of the screw: its core, by the first convention of `minors` for a screw."""
        if self.gauge_effective is not None:
            return self.minor
        return self.major - self.screw_depth * 2

    @property
    def minor_part(self) -> str:
        """What `minor` and `depth` belong to: the `nut`, or `both` where screw and nut are alike."""
        return self.form.minors[0].part

    @property
    def minor_convention(self) -> str:
        """Which minor diameter `minor` is."""
        return self.form.minors[0].said

    @property
    def minors(self) -> tuple[Minor, ...]:
        """Every minor diameter that is printed for the form, `minor` first."""
        first, *rest = self.form.minors
        others = (
            Minor(
                self.major - Quantity(c.factor, 0, True, standing=c.standing) * self.pitch,
                c.said,
                c.source,
                c.part,
            )
            for c in rest
        )
        return (Minor(self.minor, first.said, first.source, first.part), *others)

    # Holes

    def tapping(
        self,
        engagement: Exact | Quantity | None = None,
        basis: str | None = None,
        drills: str | None = None,
    ) -> holes.TappingDrill:
        """The drill for tapping: the printed one, or nearest to `engagement` percent on a `basis`.

        With neither given it is the drill that the trade's lists print, where one was read
        (`rule` says which), else by the rules of `holes`. `basis` is `full`/`basic` (the form's own depth), and for 60 degree threads
        `3H/4` (their default, as on drill charts) or `forming`. `drills` looks among
        `metric`, `inch` or `any` drills; by default the thread's own system, unless it has none
        that leaves a fair share of thread. Taper pipe
        threads have the printed drill only; NoAnswer where none was read.
        """
        if engagement is None and basis is None and drills is None:
            return self._usual_tapping
        if self.taper:
            if engagement is not None or basis is not None:
                raise NoAnswer("a taper thread has no single engagement: ask for its tapping drill alone")
            return self._usual_tapping
        among = drills or self.system
        return holes.tapping(
            self.name, self.major, self.pitch, self.form, among, engagement, basis, self.record.tapping
        )

    @cached_property
    def _usual_tapping(self) -> holes.TappingDrill:
        """Asked for many times over, where one thread is weighed against others."""
        if self.taper:
            return holes.taper_tapping(self.tap_drill, self.name, self.source)
        habit = self.record.tapping
        return holes.tapping(
            self.name, self.major, self.pitch, self.form, self.system, habit=habit, alone=False
        )

    def engagement(self, hole: SizeLike, basis: str | None = None) -> Fraction:
        """The percentage of thread that a plain hole of size `hole` leaves, on a `basis`.

        Over 100 is a hole below the minor diameter, where a tap jams. ShopError for a
        basis the form does not have; NoAnswer for a taper thread.
        """
        if self.taper:
            raise NoAnswer("a taper thread has no single engagement")
        return holes.engagement_of(self.major, self.pitch, as_length(hole), basis_named(self.form, basis))

    def thread_left(self, hole: SizeLike) -> str:
        """How much thread a plain hole leaves, in words, on every usual basis; errors as `engagement`.

        >>> from fractions_shop.threads.lookup import thread
        >>> thread("M6").thread_left("5 mm")
        'the 5 mm drill leaves 77 % of thread as drill charts count it (92 % of the basic depth)'
        """
        size = as_length(hole)
        usual = [basis for basis in bases(self.form) if basis.name != "forming"]
        left = holes.thread_left(tuple((basis, self.engagement(size, basis.name)) for basis in usual))
        drill = holes.drill_of(size, self.system)
        what = f"the {drill.name} drill" if drill else f"a hole of {mm_text(size, 3)}"
        over = holes.too_large(size, self.major, self.pitch, self.form, self.record.tapping)
        return f"{what} leaves {left}" + (f"; it is {over}" if over else "")

    def clearance(self, fit: str = "medium") -> ClearanceHole:
        """The hole that clears it: `close`, `medium` or `free`. NoAnswer above 64 mm."""
        return clearance(self.major, self.record.clearance, self.size, fit, self.name)

    # Measuring and strength

    @property
    def best_wire(self) -> Quantity:
        """The wire that touches the flanks at the pitch line."""
        return wires.best_wire(self.pitch, self.form)

    def over_wires(self, wire: SizeLike | None = None) -> Quantity:
        """The reading over three wires, best ones unless given.

        ShopError for a wire that does not seat; NoAnswer for a taper thread, which needs
        another method.
        """
        if self.taper:
            raise NoAnswer("three wires do not measure a taper thread: use its gauge")
        size = None if wire is None else as_length(wire)
        return wires.over_wires(self.major, self.effective, self.pitch, self.form, size)

    @cached_property
    def stress_area(self) -> AnyPower | None:
        """Tensile stress area where a standard gives it, else None.

        ISO 898-1 for metric, pi/4 (d - 0.938194p)^2; for unified the handbook's
        0.7854 (D - 0.9743/n)^2 (Machinery's Handbook 31st ed. p.1978).
        """
        by = self.form.stress
        if by is None:
            return None
        across = self.major - self.pitch * by.less
        return across**2 * Quantity(approx.pi() / 4 if by.quarter is None else by.quarter, 0, True)

    @cached_property
    def heads(self) -> tuple[Head, ...]:
        """Head sizes, where a table of them was read; else empty."""
        return heads_of(self.record, self.size, self.major)

    @property
    def spanners(self) -> tuple[Head, ...]:
        """The sizes across flats of its hexagon heads, where a table or a rule gives them."""
        return tuple(head for head in self.heads if head.measure.across_flats)

    @property
    def caution(self) -> str:
        """What the figures must not be taken for."""
        return PRESSURE_CAUTION if self.record.pressure else LOAD_CAUTION
