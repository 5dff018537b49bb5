"""What advice offers to write, found in its words and compared with what was typed, by rules of its own.

Nothing here asks the gate of the advice: the figures are those that stand in the two texts.
"""

from __future__ import annotations

import re
import unicodedata
from collections import Counter
from fractions import Fraction

from fractions_shop import Limits, Quantity, Session
from fractions_shop.errors import InputError, ShopError
from fractions_shop.language.advice.offers import Advice, Offer

#: Words that say that what follows is an example, whose figures were never typed.
EXAMPLE = re.compile(
    r"such as|like this|write it like|for the figure|of what|in the hundred|more than|at most"
)
#: Figures that a word may stand for.
_SPOKEN = {
    "half": "12", "third": "13", "quarter": "14", "eighth": "18", "tenth": "110", "sixteenth": "116", "second": "132",
    "fourth": "164", "one": "1", "two": "2", "three": "3", "four": "4", "five": "5", "six": "6", "seven": "7",
    "eight": "8", "nine": "9", "ten": "10", "an": "1", "a": "1",
}  # fmt: skip
_LIKE = str.maketrans("OolISZ", "001152")


def digits(text: str) -> Counter[str]:
    """How often each figure stands in a text."""
    return Counter(sign for sign in unicodedata.normalize("NFKC", text) if sign.isdecimal())


def spoken(text: str) -> Counter[str]:
    """The figures for which words of a text may stand."""
    words = re.findall(r"[a-z]+", text.lower())
    return Counter("".join(_SPOKEN.get(word.removesuffix("s"), "") for word in words))


def same_figures(one: str, typed: str) -> bool:
    """Whether a line has each figure that was typed, and no other; a letter or a word may stand for one.

    A nought that says nothing does not count: .50 and 0.5 are the same figures, and so are 1/03 and 1/3.
    """
    one, typed = (re.sub(r"#(?![0-9]).*", "", text) for text in (one, typed))
    for now, then in ((one, typed), (_bare(one), _bare(typed))):
        for letters in (then, then.translate(_LIKE)):
            had, has = digits(letters), digits(now)
            if not had - has and not has - had - spoken(typed):
                return True
    return False


def _bare(text: str) -> str:
    text = re.sub(r"(?<![0-9.])0+(?=\.[0-9])", "", text)
    text = re.sub(r"(?<![0-9.])0+(?=[1-9])", "", text)
    return re.sub(r"(\.[0-9]*?)0+(?![0-9])", r"\1", text)


def fault(line: str, session: Session | None = None) -> InputError | None:
    """The fault of a line, or None where it is answered."""
    try:
        (session or Session()).answer(line)
    except InputError as error:
        return error
    return None


def placed(offer: Offer, error: InputError) -> list[str]:
    """The lines that an offer may stand for: itself, and the typed line with it in the marked place."""
    whole = error.text[: error.start] + offer.text + error.text[max(error.start, error.end) :]
    return [offer.text, whole]


def offers(error: InputError) -> tuple[Offer, ...]:
    """What the advice of a fault offers to write."""
    return error.advice.offers if isinstance(error.advice, Advice) else ()


def answered(line: str) -> bool:
    """Whether a line is answered by itself."""
    try:
        return Session().answer(line) is not None
    except ShopError:
        return False


def value(line: str) -> object:
    """What a line comes to: millimetres, a pair of limits in millimetres, a plain number, or its own text."""
    answer = Session().answer(line)
    sized = answer is not None and (answer.kind == "size" or not line.startswith(answer.kind))
    found = answer.value if answer is not None and sized else None
    if isinstance(found, Limits):
        return found.lower.value, found.upper.value
    if isinstance(found, Quantity) and found.power == 1 and " as " not in line:
        return found.mm
    if isinstance(found, Quantity) and found.power == 0:
        return f"{found.value}"
    return line


def inches(number: str) -> Fraction:
    """A number of inches in millimetres, for the tables of tests: the inch is exactly 25.4 mm."""
    return sum((Fraction(part) for part in number.split()), Fraction(0)) * Fraction(254, 10)
