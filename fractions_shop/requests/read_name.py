"""One name that reads: what was said of it, and what was probably meant by it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import ClassVar

from fractions_shop.errors import NoAnswer
from fractions_shop.meant.belief import Belief
from fractions_shop.meant.found import Ask, Explanation, ReaderStep, Recovered, SizeCandidate, Weighed
from fractions_shop.meant.readings import Reading
from fractions_shop.meant.reconciled import Reconciled
from fractions_shop.meant.scale import Scale, ScaleFound, scale_found, scaled
from fractions_shop.meant.shared import CommonError
from fractions_shop.meant.unsaid import Unsaid
from fractions_shop.meant.verdict import SizeVerdict
from fractions_shop.size.cached import cached_property
from fractions_shop.size.quantity import Quantity


@dataclass(frozen=True)
class AsRead:
    """What was said of a name.

    `read` is what the instrument said, `scale` what it was read off, `known` a name whose true size tells that scale,
    with the size. `work` and `among` are the belief and the tables that were said.
    """

    read: Reading
    scale: Scale | None = None
    known: tuple[str, Quantity] | None = None
    work: str | None = None
    among: tuple[str, ...] = ()

    @cached_property
    def reading(self) -> Reading:
        """The reading at full size, as far as its scale is known."""
        return scaled(self.read, self.scale)

    @property
    def kind(self) -> tuple[str | None, tuple[str, ...]]:
        """What must be alike for names to be weighed as one list."""
        return self.work, self.among


@dataclass(frozen=True)
class ReadName:
    """What was probably meant by a name that was read: its `size`, the `odds` on it and the `verdict`.

    `names` are those weighed with it, itself among them: as a list, or tied by relations (`tied`).
    `ask` is what to read next. `scale` is what it was read off, and `common` the errors that it shares. A name whose
    true size was stated has that `size` and is weighed with none (`stated`). One whose scale is still open
    has no size, and `lacks` says what it wants.
    """

    data_left_out: ClassVar[tuple[str, ...]] = ("name", "said", "weighed", "found")
    data_properties: ClassVar[tuple[str, ...]] = (
        "candidates", "chance", "belief", "rests_on", "tied", "whole_set", "step", "alike", "old",
    )  # fmt: skip

    name: str
    said: AsRead
    reading: Reading
    size: Quantity | None = None
    called: str = ""
    odds: float | None = None
    verdict: SizeVerdict = SizeVerdict.UNSETTLED
    ask: Ask | None = None
    names: tuple[str, ...] = ()
    scale: ScaleFound | None = None
    common: tuple[CommonError, ...] = ()
    stated: bool = False
    lacks: str = ""
    weighed: Weighed | None = None
    found: Recovered | Reconciled | None = None

    @property
    def candidates(self) -> tuple[SizeCandidate, ...]:
        """The sizes that it may have been, best first; of a tied name they are those of the sets."""
        return () if self.weighed is None else self.weighed.candidates

    @property
    def chance(self) -> float | None:
        """How often a random size would come as near; None for a tied name, which nothing else would close."""
        return self.candidates[0].chance if self.candidates else None

    @property
    def belief(self) -> Belief | None:
        """What was held of the work."""
        return None if self.found is None else self.found.belief

    @property
    def rests_on(self) -> tuple[Unsaid, ...]:
        """The beliefs that nobody said and without which its size is not sure."""
        if isinstance(self.found, Reconciled):
            return self.found.size_rests_on(self.name)
        return () if self.weighed is None else self.weighed.rests_on

    @property
    def step(self) -> ReaderStep | None:
        """The step that all readings weighed with it show."""
        return None if self.found is None else self.found.step

    @property
    def alike(self) -> tuple[str, ...]:
        """The names that read the same, itself among them, which count as one witness; none where it stands alone."""
        return () if self.weighed is None else tuple(self.names[place] for place in self.weighed.alike)

    @property
    def old(self) -> Explanation | None:
        """The old inch that explains the list, where today's systems do not."""
        return self.found.old if isinstance(self.found, Recovered) else None

    @property
    def tied(self) -> bool:
        """Whether relations tie it."""
        return isinstance(self.found, Reconciled)

    @property
    def whole_set(self) -> float | None:
        """The odds on the whole set of a tied name."""
        return self.found.odds if isinstance(self.found, Reconciled) else None


def of_list(name: str, said: AsRead, names: tuple[str, ...], recovered: Recovered) -> ReadName:
    """One name of a list; NoAnswer where no round size is likely near it."""
    mine = recovered.readings[names.index(name)]
    if not mine.candidates:
        raise NoAnswer(f"no round size is likely near what {name} reads")
    best = mine.candidates[0]
    common = own_errors(said, recovered.common)
    return ReadName(
        name, said, said.reading.but(within=mine.within), best.size, best.name, best.odds, mine.verdict, mine.ask,
        names, scale_found(said.scale, common), common, weighed=mine, found=recovered,
    )  # fmt: skip


def of_set(name: str, said: AsRead, reconciled: Reconciled) -> ReadName:
    """One name of a set that closes; NoAnswer where there is none."""
    size, odds = reconciled.sizes[name], reconciled.size_odds(name)
    verdict = reconciled.size_verdict(name)
    ask = None if verdict is SizeVerdict.CUT else Ask.AGAIN if reconciled.suspect == name else Ask.NEIGHBOUR
    common = own_errors(said, reconciled.common)
    return ReadName(
        name, said, reconciled.readings[name], size, reconciled.sets[0].names[name], odds, verdict, ask,
        tuple(reconciled.readings), scale_found(said.scale, common), common, found=reconciled,
    )  # fmt: skip


def of_stated(name: str, said: AsRead, size: Quantity) -> ReadName:
    """A name whose true size was stated, for the scale of others."""
    return ReadName(name, said, said.read, size, verdict=SizeVerdict.CUT, stated=True)


def sizes_of(answers: Mapping[str, ReadName]) -> dict[str, Quantity]:
    """The sizes of those that have one."""
    return {name: read_name.size for name, read_name in answers.items() if read_name.size is not None}


def own_errors(said: AsRead, common: tuple[CommonError, ...]) -> tuple[CommonError, ...]:
    """The common errors that a reading carries."""
    return tuple(error for error in common if error.shared in said.reading.shared)
