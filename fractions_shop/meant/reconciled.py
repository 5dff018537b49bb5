"""What `reconcile` answers with: the sets that close, how sure each is, and which reading disagrees."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import ClassVar

from fractions_shop.errors import NoAnswer
from fractions_shop.meant.belief import Belief
from fractions_shop.meant.found import ReaderStep
from fractions_shop.meant.priors import METRIC
from fractions_shop.meant.readings import Reading
from fractions_shop.meant.relations import Relation
from fractions_shop.meant.scale import ScaleFound
from fractions_shop.meant.shared import CommonError
from fractions_shop.meant.unsaid import Unsaid, allowed, rests_on
from fractions_shop.meant.verdict import SizeVerdict, odds_on
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.told import Told

#: A misreading is named when it is likelier than this, or when it is so likely that there is one somewhere.
NAMED, SOMEWHERE = 0.3, 0.7
#: Or when the best set is so many standard deviations from a reading.
STRAINED = 4.0
#: Where a reading disagrees, either it is wrong or a relation that ties it: a relation holds as likely as not. Readings are
#: miswritten as seldom as parts are miscounted (a judgement, common practice, no source).
HOLDS = 0.5
#: What is said where there is no answer.
NO_SET = "no set of round sizes that closes is near these readings"


@dataclass(frozen=True)
class SizeSet:
    """One set of sizes that closes: `probability` of the whole set, `odds` to one on it.

    `names` says what each size would be called, `departures` the reading less the size, without the errors that it
    shares with others.
    `differs` are the names whose sizes are not those of the best set, `off_marks` those that
    follow from the others and are on no mark of the system.
    """

    sizes: Mapping[str, Quantity]
    names: Mapping[str, str]
    system: str
    division: str
    probability: float
    odds: float
    departures: Mapping[str, Quantity]
    differs: tuple[str, ...] = ()
    off_marks: tuple[str, ...] = ()

    @property
    def metric(self) -> bool:
        """Whether it is a set of millimetre sizes."""
        return self.system == METRIC


@dataclass(frozen=True, repr=False)
class Reconciled(Told):
    """The answer to `reconcile`.

    `sets` come best first; `other` is the probability of all that is not among them, no
    round sizes included. `suspicions` says of each name how likely its reading is a
    misreading, `suspect` which one is named as that. `chances` is the probability of each size of
    the best set by itself. `step`, `common` and `scale` are as in `Recovered`; `put_right` has the readings that share errors, without these. `free` are the names that the relations leave open.
    `even_chances` and `kept_chances` are the `chances` were inch and metric work held alike, or whether the parts have
    kept their size, `even_odds` and `kept_odds` the odds on the best set; see `unsaid`.

    >>> from fractions_shop import reconcile
    >>> found = reconcile({"rack": "51.6 mm", "bay": "10.3 mm"}, ["rack = 5 * bay"])
    >>> {name: str(size) for name, size in found.sizes.items()}
    {'rack': '2 1/32 in', 'bay': '13/32 in'}
    """

    told_as: ClassVar[str] = "reconcile"

    #: What stands in its JSON object beside its fields.
    data_properties: ClassVar[tuple[str, ...]] = (
        "sizes",
        "probability",
        "odds",
        "suspect",
        "in_doubt",
        "verdict",
        "rests_on",
        "step",
    )

    readings: Mapping[str, Reading]
    relations: tuple[Relation, ...]
    free: tuple[str, ...]
    sets: tuple[SizeSet, ...]
    other: float
    chances: Mapping[str, float]
    suspicions: Mapping[str, float]
    belief: Belief
    complete: bool = True
    steps: tuple[ReaderStep, ...] = ()
    common: tuple[CommonError, ...] = ()
    scale: ScaleFound | None = None
    put_right: Mapping[str, Quantity] = field(default_factory=dict)
    even_chances: Mapping[str, float] = field(default_factory=dict)
    kept_chances: Mapping[str, float] = field(default_factory=dict)
    even_odds: float = 0.0
    kept_odds: float = 0.0

    @property
    def sizes(self) -> Mapping[str, Quantity]:
        """The likeliest size of each name; NoAnswer where no set of round sizes is near."""
        if not self.sets:
            raise NoAnswer(NO_SET)
        return self.sets[0].sizes

    @property
    def step(self) -> ReaderStep | None:
        """The step that most of the readings show, if any."""
        return self.steps[0] if self.steps else None

    @property
    def probability(self) -> float:
        """How likely the whole of the best set is; zero without one."""
        return self.sets[0].probability if self.sets else 0.0

    @property
    def departures(self) -> Mapping[str, Quantity]:
        """How far each reading is from the best set; empty without one."""
        return self.sets[0].departures if self.sets else {}

    @property
    def suspect(self) -> str | None:
        """The name whose reading disagrees with the rest, if one does."""
        name = max(self.suspicions, key=lambda suspected: self.suspicions[suspected], default=None)
        if name is None:
            return None
        somewhere = sum(self.suspicions.values())
        named = self.suspicions[name] > NAMED or somewhere > SOMEWHERE or self._strained
        return name if named else None

    @property
    def _strained(self) -> bool:
        """Whether a reading is farther from the best set than its error can account for."""
        if not self.sets:
            return False
        for name, size in self.sizes.items():
            reading = self.readings[name]
            right = self.put_right.get(name, reading.size) - reading.size
            off = abs(reading.middle + right.mm - size.mm)
            if off > STRAINED * reading.sigma + (reading.worn.mm + reading.plated.mm) / 2:
                return True
        return False

    @property
    def in_doubt(self) -> tuple[Relation, ...]:
        """The relations that tie the suspect: they may be wrong as well as its reading. All odds on sets take them to hold."""
        return tuple(relation for relation in self.relations if self.suspect in relation.names)

    @property
    def odds(self) -> float:
        """So many to one on the whole of the best set, its suspect included."""
        return odds_on(self.probability * (HOLDS if self.suspect else 1.0))

    @property
    def verdict(self) -> SizeVerdict:
        """What the odds on the whole set allow."""
        return self._verdict(self.odds, self.rests_on)

    @property
    def rest_verdict(self) -> SizeVerdict:
        """What the odds allow of all but the suspect, if the relations hold; never more than a check."""
        return self._verdict(odds_on(self.probability), self.rests_on)

    @property
    def rests_on(self) -> tuple[Unsaid, ...]:
        """The beliefs that nobody said and without which the best set is not sure."""
        return rests_on(odds_on(self.probability), self.even_odds, self.kept_odds)

    def size_rests_on(self, name: str) -> tuple[Unsaid, ...]:
        """The beliefs that nobody said and without which that size of the best set is not sure."""
        return rests_on(
            self.size_odds(name), odds_on(self.even_chances[name]), odds_on(self.kept_chances[name])
        )

    def size_odds(self, name: str) -> float:
        """So many to one on that size of the best set.

        What is said of a suspect rests on the others and on a relation that may be as wrong as its reading.
        """
        return odds_on(self.chances[name] * (HOLDS if self.suspect == name else 1.0))

    def size_verdict(self, name: str) -> SizeVerdict:
        """What the odds on that size of the best set allow."""
        return self._verdict(self.size_odds(name), self.size_rests_on(name))

    def _verdict(self, odds: float, unsaid: tuple[Unsaid, ...]) -> SizeVerdict:
        verdict = allowed(odds, unsaid) if self.complete else SizeVerdict.UNSETTLED
        return SizeVerdict.CHECK if verdict is SizeVerdict.CUT and self.suspect else verdict
