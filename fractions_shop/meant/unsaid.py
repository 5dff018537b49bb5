"""What an answer may rest on that nobody said and no reading shows, and how far it is then allowed to go.

A belief is no evidence. What would be sure by its odds is told with the belief that it rests on (`if it is inch work`),
and less surely, where it would not be sure if the belief and its contrary were held alike. It is one law for one reading, a
list, and a set that closes. There are two such beliefs:

- the work: 20 to 1 on inches, unless somebody said what work it is. A whole shop may be of the other work, and then every
  reading of it is taken for what it is not: such a size is no more than probable;
- that the part has kept its size: wood shrinks and castings do, parts wear and are dressed again. Its contrary is that each
  has lost up to `LOST` of what it was (those of a sum all alike). Whoever has the part in hand sees what it is made of: such
  a size may be taken, if one neighbour is checked, but is not cut to unseen. Where somebody said what has befallen the parts
  (worn, plated, shrunk, off a print ...) that is what was weighed, and nothing is left unsaid. Readings of
  `WITNESSES` sizes or more bear witness to each other: shrunk ones would not stand on marks together.
"""

from __future__ import annotations

from collections.abc import Sequence
from enum import Enum
from fractions import Fraction
from math import exp

from fractions_shop.meant.readings import Reading
from fractions_shop.meant.verdict import SizeVerdict
from fractions_shop.size.quantity import Quantity

#: So many to one on is called sure.
SURE = 10.0
#: And so many if the part were as likely as not to have kept its size. Of 14,000 simulated inch parts that had all shrunk by up
#: to 3 %, and nobody said so, 97.8 % of the readings still sure are right so; 96.6 % at 15 to 1 (93 in the worst thousand), and
#: 94.6 at 12.
SURE_OF_KEPT = 20.0
#: The share of its size that a part may have lost in the years, unsaid: wood across the grain (common practice, no source).
LOST = Fraction(3, 100)
#: So many sizes tell by themselves whether they have kept to their marks.
WITNESSES = 4


class Unsaid(Enum):
    """A belief that nobody stated."""

    WORK = "the work"
    KEPT = "kept its size"


def rests_on(odds: float, even_odds: float, kept_odds: float) -> tuple[Unsaid, ...]:
    """The beliefs without which a size at such odds is not sure: its odds if either is held as likely as its contrary."""
    if odds < SURE:
        return ()
    needed = {Unsaid.WORK: even_odds < SURE, Unsaid.KEPT: kept_odds < min(odds, SURE_OF_KEPT)}
    return tuple(unsaid for unsaid, is_needed in needed.items() if is_needed)


#: The most that a size may be told as, if it rests on the belief.
MOST_ALLOWED = {Unsaid.WORK: SizeVerdict.PROBABLE, Unsaid.KEPT: SizeVerdict.CHECK}


def allowed(odds: float, unsaid: Sequence[Unsaid]) -> SizeVerdict:
    """The verdict for such odds, held down by what they rest on that nobody said."""
    verdicts = (SizeVerdict.of(odds), *(MOST_ALLOWED[each] for each in unsaid))
    return min(verdicts, key=lambda verdict: verdict.value)


def may_have_lost(readings: Sequence[Reading]) -> bool:
    """Whether nobody said what has happened to the parts, and the readings are too few to show it."""
    said = any(reading.befallen or reading.shared for reading in readings)
    return not said and len(readings) < WITNESSES


def having_lost(reading: Reading) -> Reading:
    """The same reading, of a part that has lost up to `LOST` of its size."""
    return reading.but(worn=Quantity(reading.size.mm * LOST / (1 - LOST)))


def held_alike(probability: float, if_not: float, likelier: float) -> float:
    """A probability by a belief, and `if_not` by its contrary, both equally likely.

    The contrary makes the readings e^`likelier` times as likely.
    """
    share = 1 / (1 + exp(max(-700.0, min(700.0, likelier))))
    return share * probability + (1 - share) * if_not
