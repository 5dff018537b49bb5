"""What a record of a thread series holds: its words, form, sizes, and habits at the bench."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import Literal

from fractions_shop.size.frozen import Record
from fractions_shop.threads import forms

#: What the size in a designation may say: see Series.
SizeIs = Literal["inch", "mm", "number", "bore"]


def by_number(size: str) -> bool:
    """Whether a size is the number of a screw, which the tables print as `No 6`."""
    return size.startswith("No ")


class Tapping(Record):
    """How the hole to tap is chosen where no list that was read prints it.

    `percent` of thread is aimed at; `less_pitch` takes the major less the pitch instead.
    `room` is the tolerance of the internal minor diameter in millimetres by threads to the
    inch, over which a hole is warned of; empty where none is known.
    """

    percent: int = 75
    less_pitch: bool = False
    room: tuple[tuple[int, Fraction], ...] = ()


class Numbers(Record):
    """Sizes by a rule: numbers `first` to `last`, of which the standard has those to `standard_last`.

    `major` and `pitch` give millimetres for a number, `rooted` says that the major is a root that
    ends nowhere; `beyond` is the form past the standard.
    """

    last: int
    standard_last: int
    major: Callable[[int], Fraction]
    pitch: Callable[[int], Fraction]
    source: str
    beyond: forms.Form
    beyond_note: str
    beyond_source: str
    rooted: bool = False
    standing: str = "rule"
    first: int = 0


class Flats(Record):
    """The size across flats of a hexagon head by a rule: so many times the major diameter."""

    factor: Fraction
    source: str
    note: str


class Series(Record):
    """A thread series.

    How it is called: `key` is what `Thread.series` says, `style` how a designation is put
    together from size, tpi and pitch. `words` may stand behind a size: a word in capitals is
    read with and without dots, and where it has a blank or a dot, without it too. The same
    word in two records may mean either, and the first record by custom. `alone` are words
    too short or too common to be spotted inside an expression. `letters` stand before a
    size, each with what is remarked of it. `kind` may follow such a designation. `groups`
    are words that ask for it among others, beside its `family` and its words.

    What it is: its `form`, its `family` (series of one trade, that stand in for one another
    and whose taps make each other's bushes), and what its sizes say (`size_is`): `inch`
    (the major diameter, or the No of a screw, which its row writes `No 6`), `mm` (the major diameter), `number` (made by
    the rule in `numbers`), `bore` (the bore of an old pipe). `dashed` says that a size and
    its threads to the inch with a dash and no word, 1/4-20, are of this series by custom;
    `general` that it is met with in any trade; `rare` that it is met with on old work or in one
    trade alone, so that a name without its word means it only where no other series has the
    size, and a worn screw is of it less likely. `same_as` are the series whose thread of the
    same major and pitch is the very same screw, and stands for it; `sole` says that its word
    alone names it, for it has one size.

    At the bench: `system` tells the drills it is tapped with, and `metric` is shown in
    millimetres first. `clearance` names the rule for its clearance holes (see the module of
    that name), `heads` under which words the tables of heads have its own, `flats` a rule for
    hexagons, `spanners` the system of spanners that are made for them. `pressure` says that
    it is made to hold pressure. `notes` stand before the notes of each size, `note` behind.
    """

    key: str
    title: str
    standard: str
    form: forms.Form
    family: str
    system: str
    style: str
    words: tuple[str, ...] = ()
    alone: tuple[str, ...] = ()
    letters: tuple[tuple[str, str], ...] = ()
    kind: str = ""
    groups: tuple[str, ...] = ()
    size_is: SizeIs = "inch"
    numbers: Numbers | None = None
    dashed: bool = False
    general: bool = False
    rare: bool = False
    same_as: tuple[str, ...] = ()
    sole: bool = False
    tapping: Tapping = Tapping()
    clearance: str = ""
    heads: tuple[str, ...] = ()
    flats: Flats | None = None
    spanners: str = ""
    pressure: bool = False
    notes: tuple[str, ...] = ()
    note: str = ""

    @property
    def word_first(self) -> bool:
        """Whether a word of it stands before the size: `Thury 5`."""
        return self.style.partition("{")[0].strip() in self.words
