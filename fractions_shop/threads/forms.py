"""Thread forms: the angle, the depths as multiples of the pitch, and how a standard rounds them.

Every factor is the decimal constant that the standard or handbook prints, taken as an
exact fraction, so that a figure follows the published arithmetic. The constants stand
for roots (H = 0.866025 p is the square root of 3/4), so whatever is computed with
them is marked approximate. BA and ISO 228 pipe threads round the depth itself; their
figures are exact by definition.
"""

from __future__ import annotations

from fractions import Fraction

from fractions_shop.errors import ShopError
from fractions_shop.size.frozen import Record
from fractions_shop.size.notation import decimal
from fractions_shop.size.quantity import Angle, Quantity
from fractions_shop.size.standing import worse
from fractions_shop.size.units import INCH

F = Fraction


class Convention(Record):
    """One of the minor diameters in print: major less `factor` pitches.

    `part` is what it is the minor of: `screw`, `nut` or `both`; `reference` is the screw's by a further
    convention, not the one that it is cut to. `standing` says how far its factor may be trusted.
    """

    name: str
    factor: Fraction
    source: str
    part: str = "both"
    standing: str = "rule"

    @property
    def said(self) -> str:
        """What it is the minor of, and how it comes about."""
        return f"{_PARTS[self.part]}: {self.name}"


_PARTS = {"both": "screw and nut", "nut": "nut", "screw": "screw", "reference": "screw, for reference"}


class Basis(Record):
    """What a percentage of thread is a percentage of: `factor` pitches on the diameter."""

    name: str
    factor: Fraction
    meaning: str


class StressArea(Record):
    """A tensile stress area: `quarter` (None: pi/4) times the square of the major less `less` pitches."""

    less: Fraction
    source: str
    quarter: Fraction | None = None


class Form(Record):
    """A thread form.

    `depth` is the depth on one side in pitches, so that minor is major - 2 depth; it is that
    of the nut's thread where the screw is cut deeper (see `screw`).
    `step` (millimetres) is what the standard rounds it to, or None. `effective` is what
    comes off the major to give the effective diameter; it is not the depth where the
    pitch line does not halve the depth (60 degree forms). `rounding` is how far below
    the crest the straight flank begins, in pitches. `minors` are the minor diameters
    that are printed, the first being the one that `Thread.minor` gives. `bases` are what
    a percentage of thread is counted on, the customary one first, where that is not the
    depth itself. `taper` says that it lies on a taper, 1 in 16 on the diameter. `standing` says how far
    its depth may be trusted, `line` how far what comes off for the effective diameter.
    """

    name: str
    angle: Angle
    depth: Fraction
    effective: Fraction
    rounding: Fraction
    minors: tuple[Convention, ...]
    source: str
    step: Fraction | None = None
    bases: tuple[Basis, ...] = ()
    stress: StressArea | None = None
    taper: bool = False
    standing: str = "rule"
    line: str = "rule"

    @property
    def screw(self) -> Convention:
        """The minor diameter to which a screw is cut."""
        return next(convention for convention in self.minors if convention.part in ("screw", "both"))

    def screw_depth_of(self, pitch: Quantity) -> Quantity:
        """The depth on one side to which a screw of this pitch is cut."""
        if self.screw is self.minors[0]:
            return self.depth_of(pitch)
        return self._cut(self.screw.factor / 2, pitch, self.screw.standing)

    def depth_of(self, pitch: Quantity) -> Quantity:
        """The depth on one side for this pitch, rounded as the standard rounds it."""
        return self._cut(self.depth, pitch, self.standing)

    def effective_of(self, pitch: Quantity) -> Quantity:
        """How far the effective diameter lies under the major one."""
        return self._cut(self.effective, pitch, self.line)

    def _cut(self, factor: Fraction, pitch: Quantity, standing: str) -> Quantity:
        standing = worse(standing, pitch.standing)
        if self.step is None:
            return Quantity(factor * pitch.mm, 1, True, standing=standing)
        return Quantity(to_step(factor * pitch.mm, self.step), standing=standing)


def to_step(value: Fraction, step: Fraction) -> Fraction:
    """`value` to the nearest multiple of `step`, a half going up, as printed tables do."""
    return (value / step + F(1, 2)).__floor__() * step


SIXTY, FIFTY_FIVE, BA_ANGLE = Angle(F(60)), Angle(F(55)), Angle(F("47.5"))

_BA_SOURCE = "BS 93:1951 (Machinery's Handbook 31st ed. p.2115)"
_WHITWORTH_SOURCE = "BS 84 (Machinery's Handbook 31st ed. p.2087)"

#: BS 93: h = 0.6 p, tabulated to 0.005 mm; crest radius 0.1808346 p, so that the flank
#: begins r (1 - sin 23.75 deg) = 0.1080 p below the crest.
BA = Form(
    "British Association, 47 1/2 degrees, rounded",
    BA_ANGLE,
    F("0.6"),
    F("0.6"),
    F("0.1080"),
    (Convention("D - 2h, h rounded to 0.005 mm", F("1.2"), _BA_SOURCE),),
    _BA_SOURCE,
    F("0.005"),
)
#: The same beyond the standard, where no table rounds the depth.
BA_BEYOND = Form(
    BA.name,
    BA_ANGLE,
    F("0.6"),
    F("0.6"),
    F("0.1080"),
    (Convention("D - 1.2p, not rounded", F("1.2"), "formula of BS 93 carried on"),),
    "formula of BS 93 carried on beyond 16 BA",
)
#: H = 0.960491 p, h = 2H/3 = 0.640327 p, depth of rounding 0.0739176 p.
WHITWORTH = Form(
    "Whitworth, 55 degrees, rounded",
    FIFTY_FIVE,
    F("0.640327"),
    F("0.640327"),
    F("0.0739176"),
    (Convention("D - 1.280654p", F("1.280654"), _WHITWORTH_SOURCE),),
    _WHITWORTH_SOURCE,
)
_PIPE_MINOR = Convention("D - 2h, h rounded to 0.001 mm", F("1.280654"), "ISO 228-1")
PIPE = Form(
    "Whitworth pipe, 55 degrees, rounded",
    FIFTY_FIVE,
    F("0.640327"),
    F("0.640327"),
    F("0.0739176"),
    (_PIPE_MINOR,),
    "ISO 228-1",
    F("0.001"),
)
PIPE_TAPER = Form(
    "Whitworth pipe, 55 degrees, rounded, taper 1 in 16 on the diameter",
    FIFTY_FIVE,
    F("0.640327"),
    F("0.640327"),
    F("0.0739176"),
    (Convention("at the gauge plane: D - 2h, h rounded to 0.001 mm", F("1.280654"), "ISO 7-1"),),
    "ISO 7-1",
    F("0.001"),
    taper=True,
)
#: Names under which a percentage of thread may be asked for.
BASES = {
    "full": "the whole depth of the form itself",
    "basic": "the whole depth of the form itself; for 60 degree threads 5H/8 a side, 1.082532p",
    "3H/4": "American trade practice, 60 degree threads: 3H/4 a side, 1.299038p",
    "forming": "forming taps, 60 degree threads: 0.68p",
}
#: Drill charts for unified and metric threads count 75 % on 3H/4, which is 90 % of
#: the basic depth: the ratio of the two is exactly 1.2 in H and so in the holes.
_CHART_BASES = (
    Basis("3H/4", F("1.299038"), BASES["3H/4"]),
    Basis("basic", F("1.082532"), "the basic depth, 5H/8 a side: 1.082532p"),
    Basis("forming", F("0.68"), BASES["forming"]),
)
#: H = 0.866025 p; 3H/8 = 0.324760 p a side to the pitch line, 5H/8 = 0.541266 p to the minor.
_INTERNAL = Convention("D1 = D - 1.082532p, 5H/8 a side", F("1.082532"), "ASME B1.1; ISO 724", "nut")
_DESIGN = Convention(
    "d3 = D - 1.226869p, 17H/24 a side, as on most drill charts",
    F("1.226869"),
    "ISO 68-1",
    "screw",
)
UNIFIED = Form(
    "unified, 60 degrees",
    SIXTY,
    F("0.541266"),
    F("0.649519"),
    F(0),
    (
        _INTERNAL,
        Convention(
            "UNR thread d3, rounded root: D - 1.190785p",
            F("1.190785"),
            "Machinery's Handbook 31st ed. p.1978",
            "reference",
        ),
        _DESIGN,
        Convention("American National before 1948: D - 1.299038p, 3H/4 a side", F("1.299038"), "3H/4"),
    ),
    "ASME B1.1 (Machinery's Handbook 31st ed. p.1978)",
    bases=_CHART_BASES,
    stress=StressArea(F("0.9743"), "Machinery's Handbook 31st ed. p.1978", F("0.7854")),
)
METRIC = Form(
    "ISO metric, 60 degrees", SIXTY, F("0.541266"), F("0.649519"), F(0), (_INTERNAL, _DESIGN),
    "ISO 68-1 and ISO 724", bases=_CHART_BASES, stress=StressArea(F("0.938194"), "ISO 898-1"),
)  # fmt: skip
_MINIATURE_SOURCE = "ASME B1.10 (Machinery's Handbook 31st ed. table 5)"
MINIATURE = Form(
    "unified miniature, 60 degrees",
    SIXTY,
    F("0.52"),
    F("0.649519"),
    F(0),
    (
        Convention("D1 = D - 1.04p", F("1.04"), _MINIATURE_SOURCE, "nut", "one source"),
        Convention(
            "D - 1.28p, the deeper of two in print for reference (the other is D - 1.25p)",
            F("1.28"), _MINIATURE_SOURCE, "screw", "one source",
        ),
    ),
    _MINIATURE_SOURCE,
    standing="one source",
)  # fmt: skip
#: Crest and root flats an eighth of the pitch, as the sharp triangle is as high as the pitch.
LOEWENHERZ = Form(
    "Loewenherz, 53 degrees 8 minutes, flat",
    Angle(F(53) + F(8, 60)),
    F("0.75"),
    F("0.75"),
    F(0),
    (Convention("D - 1.5p", F("1.5"), "handbook table of the Loewenherz thread", "both", "one source"),),
    "the printed form of the Loewenherz thread",
    standing="one source",
    line="one source",
)
#: The angle and the whole depth of British Association, which was made from it.
THURY = Form(
    "Thury, 47 1/2 degrees, rounded",
    BA_ANGLE,
    F("0.6"),
    F("0.6"),
    F("0.1080"),
    (Convention("D - 1.2p, not rounded", F("1.2"), "from memory", "both", "from memory"),),
    "the depth of 0.6 p from memory",
    standing="from memory",
    line="from memory",
)
#: The crest is that of ISO 68-1, H/8, and so is the pitch line; the root was rounded and deeper.
OLD_METRIC = Form(
    "metric before ISO, 60 degrees, flat crest and rounded root",
    SIXTY,
    F("0.541266"),
    F("0.649519"),
    F(0),
    (
        Convention(
            "by the ISO formula, D - 1.082532p: the old one was not read",
            F("1.082532"), "ISO 724", "nut", "one source",
        ),
        Convention(
            "D - 1.389p, 0.6945p a side, the old German depth",
            F("1.389"), "DIN 13 before ISO, from memory", "screw", "from memory",
        ),
    ),
    "60 degrees and a flat crest of H/8, by the ISO formula",
    bases=_CHART_BASES,
    standing="one source",
)  # fmt: skip
#: The United States Standard form: flats p/8 at crest and root of screw and nut alike.
AMERICAN = Form(
    "American before 1948, 60 degrees, flats of an eighth",
    SIXTY,
    F("0.649519"),
    F("0.649519"),
    F(0),
    (Convention("D - 1.299038p, 3H/4 a side", F("1.299038"), "3H/4"),),
    "United States Standard form, flats p/8",
)
#: r = p/6 at both ends, so each truncation is p/6 and h = H - p/3 = 0.5327 p.
CYCLE = Form(
    "British Standard Cycle, 60 degrees, rounded",
    SIXTY,
    F("0.5327"),
    F("0.5327"),
    F(1, 12),
    (Convention("D - 1.0654p", F("1.0654"), "BS 811:1950"),),
    "BS 811:1950 (copies of its tables)",
)
#: h = 0.8 p at most (sharp crests and roots); the diameters lie on a taper.
NPT = Form(
    "American taper pipe, 60 degrees, taper 1 in 16 on the diameter",
    SIXTY,
    F("0.8"),
    F("0.8"),
    F(0),
    (Convention("at the gauge plane, deepest: E1 - 0.8p", F("0.8"), "ASME B1.20.1"),),
    "ASME B1.20.1",
    taper=True,
)


def bases(form: Form) -> tuple[Basis, ...]:
    """The bases that make sense for a form, the customary one first."""
    if form.bases:
        return form.bases
    factor = 2 * form.depth
    return (Basis("full", factor, f"the whole depth of the form: {decimal(factor)[0]}p"),)


def basis_named(form: Form, name: str | None) -> Basis:
    """The basis called `name`, or the customary one; ShopError names those there are."""
    known = bases(form)
    if name is None:
        return known[0]
    wanted = {"full": "basic"}.get(name, name) if len(known) > 1 else {"basic": "full"}.get(name, name)
    for basis in known:
        if basis.name.lower() == wanted.lower():
            return basis
    raise ShopError(
        f"{name!r} is not a basis for {form.name} threads: "
        + ", ".join(f"{basis.name} ({basis.meaning})" for basis in known)
    )


def pitch_of(tpi: Fraction) -> Quantity:
    """The pitch of so many threads to the inch."""
    return Quantity(INCH / tpi)
