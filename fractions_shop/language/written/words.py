"""The words that stand about sizes: which may be left out, which never, and numbers in words."""

from __future__ import annotations

import re

_NEVER_LEFT = """half halves twice double treble triple thrice less minus plus over under per of dozen dozens gross score not
    to and in by times divided multiplied more than least most max maximum up down oversize undersize third thirds
    quarter quarters squared cubed hundred thousand million sq cu square_inch cubic into as is are equals equal equally evenly reads set off
    without except split cut round nearest convert what how many until till versus ratio percent
    minutes hours pounds ounces lbs lb oz kg grams no nos nr number hg wg
    divide snap mark recover reconcile crown identify substitute share leaving worn among again snapped x"""
_ROLES = """od id dia diam diameter diameters bore bored stroke thick thickness wide width long length lengths deep depth
    high height tall drill drilled ream reamed reamer hole holes thru radius rad wall outside inside within pin
    pins plate sheet ply plywood shim gap"""
_COUNTED = """hole holes off pieces piece pcs plcs places part parts spaces space screws bolts rivets pins nails studs drawers
    shelves divisions gaps nuts washers rods bars reqd required"""
#: Words that change a size or join two: a text that holds one beside its size is not that size.
NEVER_LEFT = frozenset(_NEVER_LEFT.split())
#: What is said of a size by its side: with one of these even a number without a unit is a size.
ROLES = frozenset(_ROLES.split())
#: What is called by its bore, and not by a size of its own, unless a word says which size it is.
PIPES = frozenset({"pipe", "gas"})
_OF_A_PIPE = "od id bore bored wall dia diam diameter outside inside long length"
OF_A_PIPE = frozenset(_OF_A_PIPE.split())
#: How many of a thing: `4 holes 3/8 in`, `two 5/16 in. screws`.
COUNTED = frozenset(_COUNTED.split())
#: A little over, and a little under: no figure.
VAGUE = {
    "full": "+2/-0 thou", "strong": "+2/-0 thou", "bare": "+0/-2 thou", "scant": "+0/-2 thou", "shy": "+0/-2 thou",
    "barely": "+0/-2 thou",
}  # fmt: skip
#: Signs that may stand beside a size without changing it.
HARMLESS = frozenset(" \t\r\n.,;:()[]\"'-?!")
#: Signs that are left out as a word is: of a diameter, and of about so much.
SIGN_WORDS = frozenset("Øø⌀Φφ~≈@")

_COUNTS = (
    "one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen "
    "eighteen nineteen twenty"
)
WHOLES = {word: number for number, word in enumerate(_COUNTS.split(), 1)}
WHOLES |= {"thirty": 30, "forty": 40, "fifty": 50, "sixty": 60, "a": 1, "an": 1}
PARTS = {
    "half": 2, "halves": 2, "third": 3, "quarter": 4, "fourth": 4, "eighth": 8, "tenth": 10, "twelfth": 12,
    "sixteenth": 16, "thirtysecond": 32, "sixtyfourth": 64, "hundredth": 100, "thousandth": 1000,
}  # fmt: skip
PART = (
    r"(?:halves|half|(?:third|quarter|fourth|eighth|tenth|twelfth|sixteenth|thirty[ -]?second|sixty[ -]?fourth"
    r"|hundredth|thousandth)s?)"
)
_PLAIN = "|".join(sorted((word for word in WHOLES if len(word) > 2), key=len, reverse=True))
#: A whole number in words, `a` and `an` apart; never the `two` of `twenty-two`.
WHOLE = (
    r"(?:(?<!ty[ -])(?:twenty|thirty|forty|fifty|sixty)[ -](?:one|two|three|four|five|six|seven|eight|nine)"
    rf"|(?<!ty[ -])(?:{_PLAIN}))"
)


def whole_value(words: str) -> int:
    """The 22 of `twenty-two`."""
    return sum(WHOLES[word] for word in re.split("[ -]", words.lower()))


def part_value(word: str) -> int:
    """The 8 of `eighths`."""
    plain = re.sub("[ -]", "", word.lower())
    return PARTS.get(plain) or PARTS[plain.removesuffix("s")]
