"""How far a reading is to be trusted, by what it was read with.

A reading is never trusted more finely than its instrument can show. Each row says how
far at best, plus or minus, for readings in millimetres (and decimals of an inch) and for
fractions of an inch, in whose writing the instrument's divisions are lost: `1/2 in` on a
rule of 32nds is 16/32.

Rule: half of the half-millimetre, or of the 32nd, unless finer is written (common
practice, no source). Tape: half of its millimetre or 16th (common practice, no source; the
hook's own error is as much again). Caliper: 0.03 mm, the permissible error of a
150 mm caliper that shows hundredths (ISO 13385-1, from memory). Micrometer: 0.004 mm, of
a 0 to 25 mm micrometer (ISO 3611, from memory).

Nobody reads whole millimetres with a caliper or a micrometer: `5 mm` by caliper is 5.0 mm with its zero
left out, and is trusted to half of the coarsest step that such a tool shows (common practice, no source).
"""

from __future__ import annotations

from fractions import Fraction

from fractions_shop.errors import ShopError
from fractions_shop.size.frozen import Record
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.units import INCH

#: Rules and scales divide the inch no more finely.
_FINEST_FRACTION = 128
_HALF_MM = Quantity(Fraction(1, 2))


class Instrument(Record):
    """What something was read with: good to `within` at best, fractions of an inch to half a `division`.

    `fine` tells of one that shows parts of a millimetre whatever is written.
    """

    name: str
    within: Quantity
    division: Quantity
    source: str
    fine: bool = False

    def trust(self, size: Quantity, written: Quantity) -> Quantity:
        """How far to trust `size`, whose writing alone would be trusted to `written`."""
        parts = fraction_of_inch(size, written)
        if parts is None:
            return max(self.within, self.division / 2 if self.is_shortened(size, written) else written)
        return min(self.division, Quantity.inches(Fraction(1, parts))) / 2

    def is_shortened(self, size: Quantity, written: Quantity) -> bool:
        """Whether a figure written so coarsely, in whole millimetres, leaves out the decimals that it shows."""
        return self.fine and written >= _HALF_MM and fraction_of_inch(size, written) is None


INSTRUMENTS = {
    tool.name: tool
    for tool in (
        Instrument("rule", Quantity(Fraction(1, 4)), Quantity(INCH / 32), "common practice, no source"),
        Instrument("tape", Quantity(Fraction(1, 2)), Quantity(INCH / 16), "common practice, no source"),
        Instrument("caliper", Quantity(Fraction(3, 100)), Quantity(Fraction(1, 10)), "ISO 13385-1, from memory", fine=True),
        Instrument("micrometer", Quantity(Fraction(4, 1000)), Quantity(Fraction(1, 100)), "ISO 3611, from memory", fine=True),
    )
}  # fmt: skip


#: Other words for them.
_CALLED_ALSO = {
    "calliper": "caliper", "calipers": "caliper", "callipers": "caliper", "vernier": "caliper", "ruler": "rule",
    "mic": "micrometer", "mike": "micrometer",
}  # fmt: skip


def instrument_called(word: str) -> Instrument | None:
    """The instrument that a word names, such as calliper or vernier for the caliper; None for another word."""
    word = word.strip().lower()
    return INSTRUMENTS.get(_CALLED_ALSO.get(word, word))


def instrument(name: str) -> Instrument:
    """The instrument of that name; ShopError, naming those known, for another."""
    tool = instrument_called(name)
    if tool is None:
        raise ShopError(f"{name!r} is not an instrument known here: expected one of {', '.join(INSTRUMENTS)}")
    return tool


def fraction_of_inch(size: Quantity, within: Quantity) -> int | None:
    """The denominator of a size read as halves of halves of an inch, trusted to half of that; None otherwise.

    >>> fraction_of_inch(Quantity.inches(Fraction(3, 8)), Quantity.inches(Fraction(1, 16)))
    8
    """
    parts = size.inch.denominator
    binary = parts <= _FINEST_FRACTION and parts & (parts - 1) == 0
    return parts if binary and within.inch * 2 * parts == 1 else None
