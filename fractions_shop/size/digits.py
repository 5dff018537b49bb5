"""Rationals in figures, worked out in whole numbers: `above` over `below`, in lowest terms and `below` over zero.

Every figure that is told passes here, a dozen an answer, and a Fraction takes longer to be taken apart than the
figure takes to be written.
"""

from __future__ import annotations

#: Decimal places shown unless asked otherwise: 1/64 in ends at six, in inches and in mm.
PLACES = 6
#: A length that does not end is told to a tenth of a thou, and about as finely in millimetres, which is all that a
#: bench measures (common practice, no source).
ROUNDED_PLACES = {"in": 4, "mm": 3}
#: More decimals than this are never asked for; a number that is still zero then is told as zero.
MOST_PLACES = 60
#: A fraction of an inch with a larger denominator than this is not one a person reads.
READABLE_DENOMINATOR = 128
_RULED = frozenset({24, 32, 48, 64, READABLE_DENOMINATOR})
_TENS = tuple(10**n for n in range(MOST_PLACES + 1))


def mixed(above: int, below: int) -> str:
    """A mixed number: `2 1/32`, `-1/64`, `3`.

    >>> mixed(65, 32), mixed(-1, 64), mixed(3, 1)
    ('2 1/32', '-1/64', '3')
    """
    if below == 1:
        return str(above)
    sign = ""
    if above < 0:
        sign, above = "-", -above
    whole, rest = divmod(above, below)
    return f"{sign}{whole} {rest}/{below}" if whole else f"{sign}{rest}/{below}"


def is_readable(below: int) -> bool:
    """Whether a number of inches over `below` is a fraction that a person would read.

    A half to a 16th of any kind, and the 24ths, 32nds, 48ths, 64ths and 128ths of rules.
    The rest are: a 127th, which only says that the size was metric (1 mm is 5/127 in),
    and 20ths, 40ths, 100ths, whose decimals are shorter and more usual.
    """
    return below <= 16 or below in _RULED


def to_places(above: int, below: int, places: int) -> tuple[int, bool]:
    """How many units of the last of `places` decimals it is, a tie to even, and whether exactly so many."""
    scale = _TENS[places] if 0 <= places <= MOST_PLACES else 10**places
    digits, rest = divmod(above * scale, below)
    if not rest:
        return digits, True
    over = 2 * rest - below
    return digits + (over > 0 or (over == 0 and digits % 2)), False


def pointed(digits: int, places: int) -> str:
    """So many units of the last of `places` decimals as a decimal without zeros at its end: `0.125` for 1250 and 4."""
    if not places:
        return str(digits)
    sign, text = ("-", str(-digits)) if digits < 0 else ("", str(digits))
    if len(text) <= places:
        text = text.zfill(places + 1)
    text = f"{sign}{text[:-places]}.{text[-places:]}".rstrip("0")
    return text[:-1] if text[-1] == "." else text


def rounded_places(unit: str, asked: int | None, shown: int) -> int:
    """How many decimals of a number of `unit` are told where it does not end, if an exact one has up to `shown`.

    So many as are `asked` for; all of them where more than usual are shown.
    """
    if asked is not None:
        return asked
    finest = ROUNDED_PLACES.get(unit)
    return shown if finest is None or shown > PLACES else min(shown, finest)


def decimals(above: int, below: int, unit: str, asked: int | None, shown: int) -> tuple[str, int, bool]:
    """A number of `unit` as a decimal, in how many places at most it is that, and whether that is the whole of it.

    In those that are `asked` for, or shown; a number that does not end in fewer, and one that would read as zero in more.
    """
    places = shown if asked is None else asked
    digits, whole = to_places(above, below, places)
    if not whole:
        fewer = rounded_places(unit, asked, shown)
        if fewer < places:
            places = fewer
            digits = to_places(above, below, places)[0]
        while not digits and not whole and places < MOST_PLACES:
            places += 3
            digits, whole = to_places(above, below, places)
    return pointed(digits, places), places, whole


def in_feet(above: int, below: int, places: int, fraction: bool = False) -> tuple[str, bool]:
    """Inches in feet and inches (`8 ft 7 7/16 in`), and whether that is exactly it.

    The inches are a fraction where it is a readable one, or any with `fraction`, else decimals.
    """
    whole = exact = fraction or is_readable(below)
    sign, above = ("-", -above) if above < 0 else ("", above)
    if whole:
        feet, over = divmod(above, 12 * below)
        number = mixed(over, below)
    else:
        # Rounded before it is taken apart, so that no 11.9999 becomes 12 in.
        digits, exact = to_places(above, below, places)
        feet, over = divmod(digits, 12 * 10**places)
        number = pointed(over, places)
    return f"{sign}{feet} ft{f' {number} in' if over else ''}", exact
