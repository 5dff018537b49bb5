"""What `recover` answers with: typed, and every fact in it once."""

from __future__ import annotations

from collections.abc import Sequence
from enum import Enum
from typing import TYPE_CHECKING, ClassVar

from fractions_shop.errors import NoAnswer
from fractions_shop.meant.belief import Belief
from fractions_shop.meant.priors import INCH_ODDS, METRIC
from fractions_shop.meant.readings import MADE, NOTHING, Reading
from fractions_shop.meant.scale import ScaleFound
from fractions_shop.meant.shared import CommonError
from fractions_shop.meant.steps import Read
from fractions_shop.meant.unsaid import Unsaid, allowed, rests_on
from fractions_shop.meant.verdict import SizeVerdict
from fractions_shop.size.cached import cached_property
from fractions_shop.size.frozen import Record, Result
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.told import Told
from fractions_shop.tables.old_inches import OldInch

if TYPE_CHECKING:
    from fractions_shop.meant.quantogram import Quantogram

NO_BELIEF = Belief(INCH_ODDS)
#: The system of sizes that keep to none.
NO_SYSTEM = "no system"


class Ask(Enum):
    """What would settle a size that is not settled."""

    NEIGHBOUR = "a neighbouring size"
    PITCH = "the pitch of the thread"
    AGAIN = "the same size again"


class SizeCandidate(Record):
    """A size that may have been meant.

    `off` is the reading less the size. `probability` is of this size; `odds` the same
    as so many to one on it. `chance` is how often a random size, read in the same way,
    would come as near as this to some size at least as readable. `name`, `system` and
    `division` say what the size is, the more readable way where there are two; `also`
    holds its other names.
    """

    size: Quantity
    name: str
    system: str
    division: str
    off: Quantity
    probability: float
    odds: float
    chance: float
    also: tuple[str, ...] = ()

    @property
    def metric(self) -> bool:
        """Whether it is a millimetre size by its first name."""
        return self.system == METRIC


class Weighed(Result):
    """One reading with its `candidates`, best first; `other` is the probability of anything else.

    That is: sizes too unlikely to list, divisions finer than the reading can tell, and
    no round size at all. `off_marks` is the last of these, a misreading included. `within`
    is how far the reading was trusted, by what the list shows of its instrument. `figures` are
    those of a size read again, whose mean is `asked`; `alike` the places in the list of equal
    readings, which count as one. `full` is the reading with the common errors taken out, where there are any.
    `made`, `worn` and `plated` are as in `Reading`. `written` is the reading as it was typed, where it was. `least` and `most` are the sizes between which
    what was meant lies, if reading, maker, wear and plating all keep to what was said of them.
    `even_odds` are those on the best candidate if inch and metric work were equally likely, `kept_odds` those if the part
    were as likely as not to have kept its size; where that was stated, or is witnessed, they are its own. See `unsaid`.
    """

    #: What stands in its JSON object beside its fields.
    data_properties: ClassVar[tuple[str, ...]] = ("rests_on", "rests_on_belief")
    uncompared: ClassVar[tuple[str, ...]] = ("written",)

    asked: Quantity
    within: Quantity
    least: Quantity
    most: Quantity
    candidates: tuple[SizeCandidate, ...]
    other: float
    off_marks: float
    figures: tuple[Quantity, ...]
    alike: tuple[int, ...]
    full: Quantity | None
    suspect: bool
    threads: bool
    even_odds: float
    kept_odds: float
    made: Quantity = MADE
    worn: Quantity = NOTHING
    plated: Quantity = NOTHING
    written: str = ""

    @property
    def verdict(self) -> SizeVerdict:
        """What the odds on the best candidate allow."""
        if self.suspect or not self.candidates:
            return SizeVerdict.UNSETTLED
        return allowed(self.candidates[0].odds, self.rests_on)

    @property
    def rests_on(self) -> tuple[Unsaid, ...]:
        """The beliefs that nobody said and without which the best candidate is not sure.

        A belief is no evidence: a size is not cut to on 20 to 1 that nobody measured.
        """
        if not self.candidates:
            return ()
        return rests_on(self.candidates[0].odds, self.even_odds, self.kept_odds)

    @property
    def rests_on_belief(self) -> bool:
        """Whether the best candidate is sure only by such a belief."""
        return bool(self.rests_on)

    @property
    def ask(self) -> Ask | None:
        """What to read next; None where nothing need be."""
        if self.suspect:
            return Ask.AGAIN
        if self.verdict is SizeVerdict.CUT:
            return None
        return Ask.PITCH if self.threads else Ask.NEIGHBOUR

    def best(self, metric: bool) -> SizeCandidate | None:
        """The likeliest candidate if it is metric work, or if it is not."""
        return next((candidate for candidate in self.candidates if candidate.metric == metric), None)


class Explanation(Record):
    """How one division explains all the readings.

    `better` is how many times likelier it makes them than sizes at random would; the
    prior for the division comes on top in `probability` and `odds`. `meant` holds its
    mark for each reading (None where it has none near), `worst` the largest difference
    from one. For "no system", sizes at random, `better` is 1 and the other two are empty and
    None. `inches` are the old inches that it may be, which measuring cannot tell apart.
    """

    system: str
    division: str
    better: float
    probability: float
    odds: float
    meant: tuple[Quantity | None, ...]
    worst: Quantity | None
    inches: tuple[OldInch, ...] = ()


class ShopKind(Record):
    """How likely the sizes of a list are all of one division, of one system, of several systems, or of two divisions.

    The two divisions are one of inches and one of millimetres.
    """

    one_division: float
    one_system: float
    mixed: float
    two_divisions: float


class ReaderStep(Record):
    """The step that readings stand on, to half of which they were trusted, and how likely it is that of the reader.

    `on` are the places in the list of those that stand on it, though they were written more finely; `odd` of those
    that do not: read more finely, or judged between the marks, or wrong.
    """

    step: Quantity
    probability: float
    on: tuple[int, ...]
    odd: tuple[int, ...] = ()


def reader_steps(
    read: Read, sure: float, different: Sequence[Reading], listed: Sequence[Reading]
) -> tuple[ReaderStep, ...]:
    """The steps that the readings of a list show, that of most readings first.

    Places in `read` count the `different` readings, those given back the whole list.
    """

    def places(of: Sequence[int]) -> tuple[int, ...]:
        meant = {different[place] for place in of}
        return tuple(place for place, reading in enumerate(listed) if reading in meant)

    steps = [ReaderStep(shown.step, sure, places(shown.on), places(shown.odd)) for shown in read.shown]
    return tuple(sorted(steps, key=lambda step: -len(step.on)))


class Recovered(Told, Result):
    """The answer to `recover`: each reading weighed, and what explains them together.

    `steps` are those of the reader's instruments, where the list shows them (`step` that of most readings). `shop` says how likely the sizes are of
    one division, one system or a mixed shop. `common` are the errors that they share, with
    what was found of them, `scale` what they were read at. `old` explains them by an old inch, where today's systems fail.
    `belief` is what was held of inch work before measuring.

    >>> from fractions_shop import recover
    >>> recover("66.7 mm").candidates[0].name
    '2 5/8 in'
    """

    told_as: ClassVar[str] = "recover"

    #: What stands in its JSON object beside its fields.
    data_properties: ClassVar[tuple[str, ...]] = ("candidates", "system", "step")

    readings: tuple[Weighed, ...]
    explanations: tuple[Explanation, ...] = ()
    belief: Belief = NO_BELIEF
    steps: tuple[ReaderStep, ...] = ()
    shop: ShopKind | None = None
    common: tuple[CommonError, ...] = ()
    scale: ScaleFound | None = None
    old: Explanation | None = None

    @property
    def candidates(self) -> tuple[SizeCandidate, ...]:
        """For one reading its candidates, best first; for several the best of each, in order.

        A reading that nothing fits has none, so of several there may be fewer.
        """
        if len(self.readings) == 1:
            return self.readings[0].candidates
        return tuple(reading.candidates[0] for reading in self.readings if reading.candidates)

    @property
    def system(self) -> Explanation | None:
        """What explains several readings best; None for a single one."""
        return self.explanations[0] if self.explanations else None

    @property
    def step(self) -> ReaderStep | None:
        """The step that most of the readings show, if any."""
        return self.steps[0] if self.steps else None

    @property
    def alike(self) -> tuple[tuple[int, ...], ...]:
        """Groups of equal readings, each counted as one witness."""
        return tuple(dict.fromkeys(reading.alike for reading in self.readings if reading.alike))

    @property
    def verdict(self) -> SizeVerdict:
        """What the odds on the least certain reading allow."""
        return min((reading.verdict for reading in self.readings), key=lambda verdict: verdict.value)

    @cached_property
    def quantogram(self) -> Quantogram | None:
        """Kendall's cosine quantogram of three different readings or more, made on first use.

        None for fewer, for readings trusted without limit, and where they are too small or rough
        to look for a quantum.
        """
        from fractions_shop.meant.quantogram import QUICK, quantogram  # most answers are of a reading or two

        different = {
            reading.alike or (place,): reading for place, reading in enumerate(self.readings)
        }.values()
        trust = max(reading.within for reading in different)
        if len(different) < 3 or not trust.value:
            return None  # a quantum is sought as finely as the readings are trusted
        try:
            return quantogram([reading.full or reading.asked for reading in different], trust, work=QUICK)
        except NoAnswer:
            return None
