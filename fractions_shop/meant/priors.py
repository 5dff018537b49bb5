"""What a maker is likely to have meant before anybody measures: the one place that says so.

The story behind the figures. A maker works to one system; in it he sets out on one
division; and he takes one of its marks, any of them alike. So a mark of a coarse
division is likelier than one of a fine division by as much as there are fewer of them,
and a mark that coarse and fine divisions share (2 1/2 in is on the halves and on the
64ths) has all their shares. That is what `readable` means here: the sum, over the
divisions that carry a size, of the division's weight times its step.

The weights are judgements about the trade (common practice, no source), and they decide
close calls, so here is the argument.

- Inches against millimetres. That a caliper reads 51.5 mm says nothing about how the
  part was made: it is the reader's unit. The parts that this package is for are old and
  come from shops that worked in inches, so unless told otherwise it holds 20 to 1
  (`INCH_ODDS`) for inches. This is a belief about the parts and not evidence from the
  reading; whoever has metric work in hand passes `inch_odds=1`, or `1/20`, and gets
  metric answers. Several readings together soon overrule it.
- Within inches, fractions against decimals: 85 to 15. Rules, patterns and bar were
  divided in halves of halves; decimals came with the micrometer and its drawings.
- Within fractions: the 8ths and 16ths of the common rule most, coarser ones because
  makers like round sizes, 32nds and 64ths for close work. 128ths only when asked for:
  no rule carries them.
- Within decimals: hundredths before thous, and the 5s of each.
- Within metric: whole millimetres most, then those that end in 5 or 0, half
  millimetres sometimes, odd tenths seldom.
- Old inches (Paris, Rhenish ...) when asked for: together as likely as today's inches and
  millimetres, each group that measuring cannot tell apart alike. Lines most, then quarters.
- A table that is asked for (`among`) is held as likely, with the other tables, as all
  plain divisions together: whoever names drills is looking at a drilled hole. In it each
  size is alike, one of a metric series at 1 to `inch_odds`; a series has the sum of its
  sizes, or else one of few sizes would win from another that is truer to the reading. Screws
  are bought, and metric ones lie in every shop's box: M threads are held like the others. One
  of a series that is met with on old work or in one trade alone counts a tenth (`RARE`).
- And the maker may have meant no round size at all (`STRAY`): 1 in 20, once and for all.
- A reading among others is wrong (`MISREAD`) 3 times in 100: a line miscounted, a figure miswritten.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Sequence
from fractions import Fraction
from math import ceil, floor, inf

from fractions_shop.errors import ShopError
from fractions_shop.meant.catalogue import TABLES, series
from fractions_shop.size.cached import cached_property
from fractions_shop.size.frozen import Record
from fractions_shop.size.notation import decimal, feet_lead, inch_text, mixed
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.rule import nths
from fractions_shop.size.standing import worst
from fractions_shop.size.units import INCH
from fractions_shop.tables.old_inches import OldInch, groups

INCH_ODDS = 20.0
STRAY = 0.05
RARE = 0.1
MISREAD = 0.03

FRACTIONS, DECIMALS, METRIC = "inch fractions", "decimal inch", "metric"
TODAYS_SYSTEMS = frozenset((FRACTIONS, DECIMALS, METRIC))

_OF_INCHES = {FRACTIONS: 0.85, DECIMALS: 0.15}
_FRACTIONS = {1: 0.05, 2: 0.10, 4: 0.15, 8: 0.20, 16: 0.25, 32: 0.15, 64: 0.10}
_128THS = 0.03
_DECIMALS = {"0.1": 0.15, "0.05": 0.15, "0.01": 0.30, "0.005": 0.15, "0.001": 0.25}
_METRIC = {"10": 0.15, "5": 0.25, "1": 0.40, "0.5": 0.15, "0.1": 0.05}

OLD = "old inches"
#: What `among` may name besides tables: a finer division, and the inches of other times.
NO_TABLES = {
    "128ths": "of an inch, finer than most rules",
    OLD: "inches of other times and countries: Paris, Rhenish and more",
}

_SPOKEN = {1: "whole inches", 2: "halves", 4: "quarters"}

_NONE = Fraction(0)
#: Inch and millimetre marks fall together again after this (5 in = 127 mm).
PERIOD = 5 * INCH


class Old(Record):
    """An old unit that a division is counted in: `mm` long, `word` behind a number of one or less, `words` of more.

    `inches` are all old inches that cannot be told from it by measuring.
    """

    mm: Fraction
    word: str
    words: str
    inches: tuple[OldInch, ...]


class Division(Record):
    """One way to set out: the multiples of `step` (mm), or a table of `marks`.

    `weight` is how likely a maker is to work to it; the weights of a scheme add up to
    1. `marks` pairs a size in mm with its name, in order of size; `under` a size with how
    far below it a bought piece may measure (screws), `standings` one of a table with how far
    to trust it. `fine` says that it is a table of fine threads.
    """

    system: str
    name: str
    weight: float
    step: Fraction | None = None
    marks: tuple[tuple[Fraction, str], ...] = ()
    under: tuple[tuple[Fraction, Fraction], ...] = ()
    old: Old | None = None
    standings: tuple[tuple[Fraction, str], ...] = ()
    fine: bool = False

    @cached_property
    def _standings(self) -> dict[Fraction, str]:
        return dict(self.standings)

    def standing(self, size: Fraction) -> str:
        """How far its mark at `size` mm may be trusted, if it is a table; empty where it is set out by a rule."""
        return worst(self.old.inches) if self.old else self._standings.get(size, "")

    def size(self, mark: Fraction) -> Quantity:
        """Its mark at so many mm as a size, approximate where its unit was never fixed against the metre."""
        approximate = self.old is not None and not all(inch.exact for inch in self.old.inches)
        return Quantity(mark, approximate=approximate, standing=self.standing(mark))

    @cached_property
    def _under(self) -> dict[Fraction, Fraction]:
        return dict(self.under)

    @cached_property
    def most_under(self) -> Fraction:
        """The most that any of its pieces measures under its size, in mm."""
        return max((under for _, under in self.under), default=_NONE)

    def undersize(self, size: Fraction) -> Fraction:
        """How far below `size` its piece may measure, in mm; 0 for what is no screw."""
        return self._under.get(size, _NONE)

    @cached_property
    def _names(self) -> dict[Fraction, str]:
        return dict(self.marks)

    @cached_property
    def _sizes(self) -> list[Fraction]:
        return sorted(self._names)

    def between(self, low: Fraction, high: Fraction) -> list[Fraction]:
        """Its marks in mm from `low` to `high`, both included, above zero."""
        if self.step is None:
            return self._sizes[bisect_left(self._sizes, low) : bisect_right(self._sizes, high)]
        return [k * self.step for k in range(max(1, ceil(low / self.step)), floor(high / self.step) + 1)]

    def nearest(self, target: Fraction, low: Fraction, high: Fraction) -> Fraction | None:
        """Its mark nearest to `target` among those `between` low and high; of two, the lower."""
        if self.step is None:
            # The sizes on either side of the target, and the ends of the stretch.
            first, last = bisect_left(self._sizes, low), bisect_right(self._sizes, high)
            at = min(max(bisect_left(self._sizes, target), first), last)
            near = self._sizes[max(first, at - 1) : min(last, at + 1)]
        else:
            least, most = max(1, ceil(low / self.step)), floor(high / self.step)
            k = floor(target / self.step)
            near = [min(max(n, least), most) * self.step for n in (k, k + 1)] if least <= most else []
        return min(near, key=lambda mark: abs(mark - target), default=None)

    def carries(self, size: Fraction) -> bool:
        """Whether it has a mark at `size` mm."""
        if self.step is None:
            return size in self._names
        # size / step is whole; asked very often, so without making a Fraction of it
        return not size.numerator * self.step.denominator % (size.denominator * self.step.numerator)

    def pitch(self, span: Fraction) -> float:
        """Its step in mm; for a table the mean step of its sizes up to `span`, infinite if none."""
        if self.step is not None:
            return float(self.step)
        inside = bisect_right(self._sizes, span)
        return float(span) / inside if inside else inf

    def called(self, size: Fraction) -> str:
        """What a maker would call its mark at `size` mm."""
        if self.step is None:
            return self._names[size]
        if self.old is not None:
            count = size / self.old.mm
            return f"{mixed(count)} {self.old.words if count > 1 else self.old.word}"
        if self.system == FRACTIONS:
            return _inches(size, mixed(size / INCH))
        return _inches(size, decimal(size / INCH)[0]) if self.system == DECIMALS else f"{decimal(size)[0]} mm"


def _inches(size: Fraction, number: str) -> str:
    """A mark at `size` mm in inches, or in feet and inches where these lead."""
    return inch_text(Quantity(size)) if feet_lead(Quantity(size)) else f"{number} in"


def scheme(among: Sequence[str] = (), inch_odds: float = INCH_ODDS) -> tuple[Division, ...]:
    """Every division that is weighed, with its weight, tables named in `among` included.

    ShopError for a table that is not known or odds that are not above zero.
    """
    if not 0 < inch_odds < inf:
        raise ShopError("the odds on inches must be a number above zero, such as 20 for 20 to 1")
    if isinstance(among, str):
        among = (among,)
    unknown = [name for name in among if name not in TABLES and name not in NO_TABLES]
    if unknown:
        known = ", ".join((*TABLES, *NO_TABLES))
        raise ShopError(f"{unknown[0]!r} is not a table to look among: expected some of {known}")
    tables = [name for name in dict.fromkeys(among) if name not in NO_TABLES]
    share = 0.5 if tables else 1.0
    aged = 0.0 if OLD not in among else share / 2
    divisions = list(_plain(share - aged, inch_odds, "128ths" in among)) + list(_old(aged))
    for name in tables:
        listed = series(name)
        weights = [
            len(bought.marks)
            * (RARE if bought.rare else 1.0)
            * (1.0 if name == "threads" or not bought.metric else 1 / inch_odds)
            for bought in listed
        ]
        for bought, weight in zip(listed, weights, strict=True):
            part = 0.5 / len(tables) * weight / sum(weights)
            divisions.append(
                Division(
                    name,
                    bought.name,
                    part,
                    marks=bought.marks,
                    under=bought.under,
                    standings=bought.standings,
                    fine=bought.fine,
                )
            )
    return tuple(divisions)


def _plain(share: float, inch_odds: float, with_128ths: bool) -> Iterator[Division]:
    inches, metric = share * inch_odds / (1 + inch_odds), share / (1 + inch_odds)
    fractions = {**_FRACTIONS, **({128: _128THS} if with_128ths else {})}
    total = sum(fractions.values())
    for parts, weight in fractions.items():
        part = inches * _OF_INCHES[FRACTIONS] * weight / total
        yield Division(FRACTIONS, _SPOKEN.get(parts, nths(parts)), part, INCH / parts)
    for text, weight in _DECIMALS.items():
        yield Division(DECIMALS, f"{text} in", inches * _OF_INCHES[DECIMALS] * weight, Fraction(text) * INCH)
    for text, weight in _METRIC.items():
        yield Division(METRIC, f"{text} mm", metric * weight, Fraction(text))


def told_of(group: Sequence[OldInch]) -> OldInch:
    """The inch in which sizes of a group are told that measuring cannot tell apart: the one nearest to their mean."""
    mean = sum((inch.size.mm for inch in group), _NONE) / len(group)
    return min(group, key=lambda inch: abs(inch.size.mm - mean))


def group_label(group: Sequence[OldInch]) -> str:
    """What the system of a group is called."""
    return " or ".join(dict.fromkeys(inch.called for inch in group)) + " inch"


def _old(share: float) -> Iterator[Division]:
    """Divisions of the old inches, every group as likely as another; none for no share."""
    for group in groups() if share else ():
        like, label = told_of(group), group_label(group)
        line = like.size.mm / like.parts
        inch_unit = Old(like.size.mm, f"{like.called} inch", f"{like.called} inches", group)
        line_unit = Old(line, f"{like.called} line", f"{like.called} lines", group)
        for name, step, weight, unit in (
            ("inches", like.size.mm, 0.10, inch_unit),
            ("halves", like.size.mm / 2, 0.15, inch_unit),
            ("quarters", like.size.mm / 4, 0.20, inch_unit),
            ("8ths", like.size.mm / 8, 0.15, inch_unit),
            ("lines", line, 0.25, line_unit),
            ("half lines", line / 2, 0.15, line_unit),
        ):
            yield Division(label, name, share * weight / len(groups()), step, old=unit)


def span_about(size: Quantity) -> Fraction:
    """From zero to what size (mm) the makers of parts about this one chose: twice it, an inch at least."""
    return max(2 * size.mm, INCH)
