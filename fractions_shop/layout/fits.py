"""Fits of a hole and a shaft: ISO 286 by zones, ANSI B4.1 by class, with a small picture."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import ClassVar

from fractions_shop.errors import ShopError
from fractions_shop.layout.zones import (
    Zone,
    checked_name,
    checked_size,
    find_zone,
    in_inches,
    inch_note,
    read_zone,
)
from fractions_shop.size.arguments import SizeLike, as_length, options_by_name
from fractions_shop.size.limits import Limits
from fractions_shop.size.notation import as_meant, decimal
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.standing import worse, worst
from fractions_shop.size.told import Told
from fractions_shop.tables import ansi_b41, born

#: Said of every interference fit: limits of size are not a calculation of strength.
STRENGTH = (
    "these limits say nothing of strength: a press fit that carries load or turns anything "
    "needs its own calculation by someone qualified"
)
#: The narrowest picture that still has room for its figures.
NARROWEST = 40

#: The standard of fits by zones.
ISO_286 = "ISO 286-1"


@dataclass(frozen=True)
class PartSource:
    """Where the figures of the `part` (hole or shaft) are from, and how far to trust them."""

    part: str
    source: str
    standing: str


@dataclass(frozen=True, repr=False)
class Fit(Told):
    """A hole and a shaft of one basic size.

    `hole` and `shaft` are Limits about `basic`; `hole_zone` and `shaft_zone` name
    their zones (empty where the standard's table has no name), `grades` their grades.
    `standard` says whose figures they are and `notes` what a user must know; `sources`
    says for each part where its figures are from, and how far to trust them.

    >>> fit("10 mm", "H7/g6").kind
    'clearance'
    """

    told_as: ClassVar[str] = "fit"

    #: What stands in its JSON object beside its fields.
    data_properties: ClassVar[tuple[str, ...]] = (
        "least",
        "most",
        "kind",
        "clearance",
        "hole_um",
        "shaft_um",
        "standing",
    )

    basic: Quantity
    name: str
    standard: str
    hole_zone: str
    shaft_zone: str
    hole: Limits
    shaft: Limits
    grades: tuple[str, str]
    notes: tuple[str, ...] = ()
    sources: tuple[PartSource, ...] = ()

    @property
    def standing(self) -> str:
        """How far the less trusted of the two parts may be trusted."""
        return worst(self.sources)

    @property
    def metric(self) -> bool:
        """Whether its standard is metric: ISO 286 is, ANSI B4.1 is not."""
        return self.standard == ISO_286

    @property
    def clearance(self) -> Limits:
        """Hole less shaft; negative is interference."""
        return self.hole - self.shaft

    @property
    def least(self) -> Quantity:
        """The least clearance: smallest hole less largest shaft; negative is interference."""
        return self.hole.lower - self.shaft.upper

    @property
    def most(self) -> Quantity:
        """The most clearance: largest hole less smallest shaft; negative is interference."""
        return self.hole.upper - self.shaft.lower

    @property
    def kind(self) -> str:
        """`clearance`, `interference` (neither ever the other), or `transition`.

        As ISO 286-1 draws the line: limits that only touch still count as clearance
        when the hole is never smaller, and as interference when it is never larger.
        """
        if self.least.value >= 0:
            return "clearance"
        return "interference" if self.most.value <= 0 else "transition"

    @property
    def hole_um(self) -> tuple[Fraction, Fraction]:
        """Upper and lower deviation of the hole from the basic size, in micrometres."""
        return _in_um(self.hole)

    @property
    def shaft_um(self) -> tuple[Fraction, Fraction]:
        """Upper and lower deviation of the shaft from the basic size, in micrometres."""
        return _in_um(self.shaft)

    def picture(self, width: int = 72, ascii_only: bool = False) -> str:
        """The two zones drawn to one scale about the basic size, in three lines of text.

        No line is longer than `width` (40 at least). Hole and shaft are told apart by
        their names and by the fill.

        >>> print(fit("6 mm", "H7/g6").picture(50, ascii_only=True))
        hole H7                |############# 0 to +12 um
        shaft g6 =========     |              -12 to -4 um
                               0 is 6 mm
        """
        return _picture(self, max(width, NARROWEST), ascii_only)


@options_by_name("fit('10 mm', 'H7/g6'), each size by itself")
def fit(size: SizeLike, zones: str) -> Fit | Zone:
    """The fit of a hole and a shaft by ISO 286-1, hole first: `fit("10 mm", "H7/g6")`.

    One zone alone (`H7`) gives that part's Zone, and a class such as `RC5` the fit of
    ANSI B4.1 (see `ansi_fit`).

    `size` is over 0 up to 500 mm; one in inches is worked from as it is, and a note
    says that the standard is metric. `H7/g6`, `H7 g6` and `H7-g6` all read. ShopError
    for sizes, letters and grades outside the tables, and for two holes or two shafts.

    >>> loose = fit("1/4 in", "H7/g6")
    >>> loose.kind, loose.least.mm, loose.most.mm
    ('clearance', Fraction(1, 200), Fraction(29, 1000))
    """
    name = as_meant(checked_name(zones)).strip()
    if ansi_b41.class_of(name):
        return ansi_fit(size, name)
    size = checked_size(size)
    if name and not any(sign in name for sign in "/ -"):
        return find_zone(size, "".join(read_zone(name)))
    return _iso_fit(size, name)


def _iso_fit(size: Quantity, zones: str) -> Fit:
    hole_name, shaft_name = _pair(zones)
    hole, shaft = find_zone(size, hole_name), find_zone(size, shaft_name)
    fit = Fit(
        size, f"{hole.name}/{shaft.name}", ISO_286, hole.name, shaft.name,
        hole.limits, shaft.limits, (hole.grade, shaft.grade),
        tuple(dict.fromkeys(inch_note(size, shaft.step) + hole.notes + shaft.notes)),
        (
            PartSource(f"hole {hole.name}", hole.source, hole.standing),
            PartSource(f"shaft {shaft.name}", shaft.source, shaft.standing),
        ),
    )  # fmt: skip
    return _with_strength(fit)


def _pair(text: str) -> tuple[str, str]:
    """The two zone names of a fit, hole and shaft, or a sentence on what is wrong."""
    parts = re.findall(r"[A-Za-z]+ ?[0-9]+|[^\s/-]+", as_meant(text))
    if len(parts) != 2:
        raise ShopError(
            f"{text!r} is not a fit: write a hole and a shaft such as H7/g6 (for one part alone, a zone: H7)"
        )
    names = ["".join(read_zone(part)) for part in parts]
    holes = [name[0].isupper() for name in names]
    if holes == [False, True]:
        raise ShopError(f"the hole comes first in a fit: write {names[1]}/{names[0]}")
    if holes[0] == holes[1]:
        kind, other = ("holes", "shaft") if holes[0] else ("shafts", "hole")
        raise ShopError(
            f"{names[0]} and {names[1]} are both {kind}: a capital letter is a hole, a small one "
            f"a shaft, and a fit needs a {other} too, as in H7/g6"
        )
    return names[0], names[1]


def _with_strength(fit: Fit) -> Fit:
    if fit.kind != "interference":
        return fit
    return replace(fit, notes=(*fit.notes, STRENGTH))


# ANSI B4.1


def ansi_classes() -> tuple[str, ...]:
    """The classes of ANSI B4.1 that have figures here."""
    return ansi_b41.classes()


def ansi_fit(size: SizeLike, name: str) -> Fit:
    """The fit of a class of ANSI B4.1-1967, in inches: `ansi_fit("1/2 in", "RC5")`.

    The table here is not the whole standard: it has the classes of `ansi_classes`, to
    3.15 in at most. A note says where a limit was not read but inferred. ShopError for
    a class or size that it lacks.

    >>> running = ansi_fit("1/2 in", "RC5")
    >>> running.hole.upper.inch, running.shaft.lower.inch
    (Fraction(501, 1000), Fraction(4981, 10000))
    """
    size = as_length(size)
    wanted = ansi_b41.class_of(as_meant(name))
    of_class = ansi_b41.rows_of(wanted)
    if not of_class:
        raise ShopError(_no_class(name, wanted))
    for row in of_class:
        if Fraction(row["over_in"]) < size.inch <= Fraction(row["to_in"]):
            return _ansi(size, row)
    raise ShopError(
        f"the ANSI B4.1 table here has {wanted} over {of_class[0]['over_in']} to "
        f"{of_class[-1]['to_in']} in, and this is {decimal(size.inch)[0]} in"
    )


def _no_class(name: str, wanted: str) -> str:
    """Why a class has no figures here: it is none, the standard does not have it, or its table was not read."""
    if not wanted:
        return f"{name!r} is no class of ANSI B4.1: write RC5 or FN2"
    what, last = ansi_b41.KINDS[wanted[:2]]
    if not ansi_b41.in_standard(wanted):
        return f"ANSI B4.1 has no {wanted}: its {what} are {wanted[:2]}1 to {wanted[:2]}{last}"
    have = [known for known in ansi_classes() if known[:2] == wanted[:2]]
    return (
        f"{wanted} is one of the {what} of ANSI B4.1, and its figures were not read: "
        f"here there are those of {', '.join(have)}"
    )


def _ansi(size: Quantity, row: dict[str, str]) -> Fit:
    hole_zone, shaft_zone = (part.strip("-") for part in row["zones"].split("/"))
    notes = []
    if row["standing"] == "rule":
        notes.append(f"not read but inferred here: {row['note']}")
    elif row["note"]:
        notes.append(row["note"])
    if not in_inches(size):
        notes.append(
            f"ANSI B4.1 is in inches: this takes the step over {row['over_in']} to {row['to_in']} in"
        )
    fit = Fit(
        size, row["class"], "ANSI B4.1-1967", hole_zone, shaft_zone,
        _from_thou(size, row, "hole").labelled(f"hole {row['class']}"),
        _from_thou(size, row, "shaft").labelled(f"shaft {row['class']}"),
        (_ansi_grade(hole_zone), _ansi_grade(shaft_zone)),
        tuple(notes),
        (PartSource("both", row["source"], _ansi_standing(row)),),
    )  # fmt: skip
    return _with_strength(fit)


def _ansi_standing(row: dict[str, str]) -> str:
    """A row of one source; a limit inferred from such rows is trusted no further."""
    return worse(row["standing"], "one source")


def _ansi_grade(zone_name: str) -> str:
    digits = re.sub("[^0-9]", "", zone_name)
    return f"grade {digits}" if digits else ""


def _from_thou(size: Quantity, row: dict[str, str], part: str) -> Limits:
    standing = _ansi_standing(row)
    upper, lower = (
        born(row, Fraction(row[f"{part}_{end}_thou"]), "thou", standing) for end in ("max", "min")
    )
    return Limits(size, upper, -lower)


# The picture


def _in_um(part: Limits) -> tuple[Fraction, Fraction]:
    return part.plus.mm * 1000, -part.minus.mm * 1000


def _picture(shown: Fit, width: int, ascii_only: bool) -> str:
    unit = ("um" if ascii_only else "µm") if shown.metric else "thou"
    scale = Fraction(1) if shown.metric else Quantity.of(1, "thou").mm * 1000
    parts = [
        (f"hole {shown.hole_zone}".rstrip(), shown.hole_um, "#" if ascii_only else "█"),
        (f"shaft {shown.shaft_zone}".rstrip(), shown.shaft_um, "=" if ascii_only else "▒"),
    ]
    figures = [
        f"{signed_decimal(lower / scale, 3)} to {signed_decimal(upper / scale, 3)} {unit}"
        for _, (upper, lower), _ in parts
    ]
    margin = max(len(label) for label, _, _ in parts) + 1
    cells = width - margin - max(map(len, figures)) - 2
    bottom = min(Fraction(0), *(lower for _, (_, lower), _ in parts))
    top = max(Fraction(0), *(upper for _, (upper, _), _ in parts))
    below = _share(-bottom, top - bottom, cells)
    line = "|" if ascii_only else "│"
    lines = []
    for (label, (upper, lower), fill), figure in zip(parts, figures, strict=True):
        left = _bar(lower, upper, bottom, Fraction(0), below, fill)
        right = _bar(lower, upper, Fraction(0), top, cells - below, fill)
        lines.append(f"{label:<{margin}}{left}{line}{right} {figure}")
    foot = f"0 is {_mm_or_inch(shown)}"
    lines.append(" " * min(margin + below, width - len(foot)) + foot)
    return "\n".join(lines)


def _share(part: Fraction, whole: Fraction, cells: int) -> int:
    """The cells below the zero line: none if nothing lies there, else at least one."""
    if part == 0:
        return 0
    return max(1, min(cells - 1, round(part / whole * cells))) if part != whole else cells


def _bar(lower: Fraction, upper: Fraction, start: Fraction, end: Fraction, cells: int, fill: str) -> str:
    """The part of a zone between `start` and `end`, in so many cells; never drawn as nothing."""
    low, high = max(lower, start), min(upper, end)
    if cells == 0 or low >= high:
        return " " * cells
    first = min(cells - 1, round((low - start) / (end - start) * cells))
    last = max(first + 1, round((high - start) / (end - start) * cells))
    return " " * first + fill * (last - first) + " " * (cells - last)


def _mm_or_inch(shown: Fit) -> str:
    if shown.metric:
        return f"{decimal(shown.basic.mm)[0]} mm"
    return f"{decimal(shown.basic.inch)[0]} in"


def signed_decimal(value: Fraction, places: int) -> str:
    """A deviation as tables of fits print it: a decimal with its sign, zero without one."""
    return ("+" if value > 0 else "") + decimal(value, places)[0]
