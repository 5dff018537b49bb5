"""Which spanner goes on a hexagon, in every system that spanners are made in, and how loose.

A spanner is taken at the size across flats that its mark means; a real jaw is a little wider, by how much was
not read. How loose is too loose is our own rule: a jaw up to 2 % wider than the hexagon fits, up to 4 % is
loose, and more rounds the corners; one that is up to 1 % too small may still go on, since jaws are made
over and hexagons under their size. Past 10 % nothing is told: at 15 % a hexagon turns in the jaw.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from typing import ClassVar

from fractions_shop.errors import ShopError
from fractions_shop.size.arguments import SizeLike, above_zero, as_length, options_by_name
from fractions_shop.size.notation import as_meant, read_plain
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.told import Told
from fractions_shop.tables import born, rows
from fractions_shop.threads.heads import Head
from fractions_shop.threads.lookup import exists, thread
from fractions_shop.threads.records import SERIES, plain
from fractions_shop.threads.series import of_series
from fractions_shop.threads.thread import Thread

#: How much wider than the hexagon a jaw may be to fit, and to be merely loose; and how much smaller it
#: may be and perhaps go on; further off nothing is told. Our own rule.
FITS, LOOSE, TIGHT, NEAR = Fraction(2, 100), Fraction(4, 100), Fraction(1, 100), Fraction(10, 100)
#: Words for inch spanners that are marked with the size across flats.
_ACROSS_FLATS = ("a/f", "inch")


def _words() -> dict[str, tuple[str, ...]]:
    """The systems of spanners, each with the words that ask for it: those of the threads that it is made for."""
    words: dict[str, tuple[str, ...]] = {}
    for series in SERIES:
        if series.spanners:
            own = (series.spanners, series.key, *map(plain, series.words), *series.alone)
            also = _ACROSS_FLATS if series.dashed else ("mm",) if series.size_is == "mm" else ()
            known = words.get(series.spanners, ())
            words[series.spanners] = (*known, *(word.lower() for word in own), *also)
    return words


SYSTEMS = _words()
#: The words behind a thread's name that say which of its hexagons is meant.
PARTS = {"nut": "nut", "lock-nut": "nut", "locknut": "nut", "head": "head", "bolt": "head", "screw": "head"}


@dataclass(frozen=True)
class Spanner:
    """A spanner: its `system`, its `mark` and its `jaw`, which is what the mark means across flats."""

    system: str
    mark: str
    jaw: Quantity
    source: str
    standing: str


@dataclass(frozen=True)
class SpannerFit:
    """A spanner on a hexagon: `least` and `most` are how much wider its jaw is, negative where it is smaller.

    They are the same where no limits of the hexagon were read. `verdict` is `fits`, `loose`, `too loose`,
    `may go on` or `too small`.
    """

    spanner: Spanner
    least: Quantity
    most: Quantity
    verdict: str

    @property
    def usable(self) -> bool:
        """Whether it fits, or is no more than loose."""
        return self.verdict in ("fits", "loose")


@dataclass(frozen=True)
class Hexagon:
    """A hexagon (or a square) that a spanner is wanted for, `largest` and `smallest` across flats.

    `spanners` are, system by system, the largest that is smaller and the smallest that goes on, where they
    are near and of use. `own` is the system that it was made for, where that is known, and `metric` says
    that its table is in millimetres.
    """

    kind: str
    largest: Quantity
    smallest: Quantity
    source: str
    standing: str
    note: str
    own: str
    metric: bool
    spanners: tuple[SpannerFit, ...]

    @property
    def best(self) -> SpannerFit | None:
        """What to take: one that fits, of its `own` system if there is one, or else the least loose."""
        usable = [fit for fit in self.spanners if fit.usable]
        return min(usable, key=self._order, default=None)

    def _order(self, fit: SpannerFit) -> tuple[bool, bool, Fraction]:
        return fit.verdict != "fits", fit.spanner.system != self.own, fit.least.mm


@dataclass(frozen=True, repr=False)
class Spanners(Told):
    """The spanners for the hexagons that a thread's `name` stands for, or for one size across flats.

    >>> spanner("M10", systems="AF").hexagons[0].spanners[0].spanner.mark
    '5/8 AF'
    """

    told_as: ClassVar[str] = "spanner"

    #: What stands in its JSON object beside its fields.
    data_properties: ClassVar[tuple[str, ...]] = ("size", "caution")

    name: str
    systems: tuple[str, ...]
    hexagons: tuple[Hexagon, ...]

    @property
    def size(self) -> Quantity:
        """What the first hexagon is at most across its flats."""
        return self.hexagons[0].largest

    @property
    def caution(self) -> str:
        """What a loose spanner does."""
        return "a loose spanner rounds the corners and slips, and a hand is hurt: push it so that a slip is harmless"


@cache
def all_spanners() -> tuple[Spanner, ...]:
    """Every spanner, system by system, each rising."""
    known = [
        Spanner(
            row["system"],
            row["mark"],
            born(row, Fraction(row["jaw"]), row["unit"]),
            row["source"],
            row["standing"],
        )
        for row in rows("spanners")
    ]
    # Where hexagons go by a rule, a spanner is called by its screw; past a number none is met with.
    known += [
        Spanner(
            series.spanners, screw.name, screw.heads[0].largest, series.flats.source, screw.heads[0].standing
        )
        for series in SERIES
        if series.flats is not None and series.spanners
        for screw in of_series(series.key)
        if int(screw.size) <= _LAST_NUMBER
    ]
    order = tuple(SYSTEMS)
    return tuple(sorted(known, key=lambda each: (order.index(each.system), each.jaw.mm)))


_LAST_NUMBER = 12


@options_by_name("spanner('3/8 BSW', systems='AF')")
def spanner(head: SizeLike, *, systems: str = "", part: str = "") -> Spanners:
    """The spanners for a head or nut: `spanner("3/8 BSW")`, `spanner("M10", systems="AF")`, `spanner("14 mm")`.

    `head` is a thread by name, whose hexagons are looked up, or a size across flats. `systems` names those
    to take one from (all, if it names none), `part` may be `nut` or `head`. ShopError for a thread whose hexagon was not
    read, and for words that name no system.

    >>> spanner("3/8 BSW").hexagons[0].best.spanner.mark
    '5/16 W or 3/8 BSF'
    """
    asked = read_systems(systems)
    text = as_meant(head).strip() if isinstance(head, str) else ""
    if text and read_plain(text) is None and exists(text):
        return for_thread(thread(text), asked, part)
    return for_size(as_length(head), asked)


def for_thread(screw: Thread, systems: tuple[str, ...], part: str = "") -> Spanners:
    """The spanners for a thread's hexagons; ShopError where none was read."""
    # Without a hexagon of its own a nut has that of the head.
    shared = not any(head.of_nut for head in screw.spanners)
    flats: dict[Quantity, Head] = {}
    for head in screw.spanners:
        known = head.standing == "from memory" and any(_alike(head.largest, other) for other in flats)
        if not known and (not part or shared or head.of_nut == (part == "nut")):
            flats.setdefault(head.largest, head)
    if not flats:
        wanted = f"{part} of {screw.name}" if part and screw.spanners else f"hexagon of {screw.name}"
        raise ShopError(
            f"no {wanted} was read: measure it across the flats and ask for that, such as spanner 0.6 in"
        )
    hexagons = tuple(_hexagon(head, systems, screw.record.spanners) for head in flats.values())
    return Spanners(screw.name, systems, hexagons)


def _alike(size: Quantity, other: Quantity) -> bool:
    return abs(size.mm - other.mm) <= other.mm / 100


def for_size(across: Quantity, systems: tuple[str, ...]) -> Spanners:
    """The spanners for one size across flats."""
    across = above_zero(across, "the size across flats")
    head = Head("hexagon as given", "across flats", across, across, "in", across.standing or "rule", "", "")
    return Spanners("", systems, (_hexagon(head, systems, ""),))


def read_systems(text: str) -> tuple[str, ...]:
    """The systems that words name, joined by commas; all of them for no words. ShopError for other words."""
    if not text.strip():
        return tuple(SYSTEMS)
    asked = []
    for word in text.split(","):
        plain = " ".join(word.lower().replace(".", "").split()).removesuffix(" spanners")
        system = next((name for name, words in SYSTEMS.items() if plain in words), None)
        if system is None:
            raise ShopError(f"{word.strip()!r} is no system of spanners: there are {', '.join(SYSTEMS)}")
        asked.append(system)
    return tuple(dict.fromkeys(asked))


def _hexagon(head: Head, systems: tuple[str, ...], own: str) -> Hexagon:
    smallest = head.largest if head.smallest is None else head.smallest
    fits = tuple(fit for system in systems for fit in _of_system(head.largest, smallest, system))
    return Hexagon(
        head.kind, head.largest, smallest, head.source, head.standing, head.note, own, head.unit == "mm", fits
    )


def _of_system(largest: Quantity, smallest: Quantity, system: str) -> Iterator[SpannerFit]:
    """The smallest that goes on; and the largest that is smaller, where that may go on or nothing else does."""
    known = [each for each in all_spanners() if each.system == system]
    near = [each for each in known if abs(each.jaw.mm - largest.mm) <= NEAR * largest.mm]
    below = [_on(each, largest, smallest) for each in near if each.jaw < largest][-1:]
    above = [_on(each, largest, smallest) for each in near if each.jaw >= largest][:1]
    if not any(fit.usable for fit in above) or any(fit.verdict == "may go on" for fit in below):
        yield from below
    yield from above


def _on(each: Spanner, largest: Quantity, smallest: Quantity) -> SpannerFit:
    return SpannerFit(each, each.jaw - largest, each.jaw - smallest, _verdict(each.jaw, largest, smallest))


def _verdict(jaw: Quantity, largest: Quantity, smallest: Quantity) -> str:
    over = (jaw.mm - largest.mm) / largest.mm
    if over < 0:
        return "may go on" if jaw >= smallest or -over <= TIGHT else "too small"
    return "fits" if over <= FITS else "loose" if over <= LOOSE else "too loose"
