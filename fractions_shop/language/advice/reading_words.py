"""What is said behind a reading in the words of the bench: a size bare or full, one between two marks."""

from __future__ import annotations

import re
from fractions import Fraction

from fractions_shop.errors import ShopError
from fractions_shop.language.advice.drawing_labels import VAGUE
from fractions_shop.language.advice.fault_place import Said, Spot
from fractions_shop.language.advice.offers import Offer, write
from fractions_shop.size import units
from fractions_shop.size.notation import decimal, mixed, number_value

_OPENS = r"(?:recover|[^\W\d]\w*(?: *\[[^\]]*\])? +reads|identify)\b"
_NUMBER = r"(?:(?:[0-9]+[ -])?[0-9]+/[0-9]+|[0-9]*\.?[0-9]+)"
_UNIT = units.alternatives(letters=True, powers=(1, -1))
_VAGUE = re.compile(
    rf"(?P<head> *{_OPENS}.+?) +(?P<at>{'|'.join(VAGUE)})\.?(?P<rest>(?:[ ,].*)?)", re.IGNORECASE
)
_BETWEEN = re.compile(
    rf"(?P<head> *{_OPENS} (?:.*, *)?)(?P<at>(?P<low>{_NUMBER})(?: *(?P<own>{_UNIT}))? *(?:\bto\b|\band\b|-|–) *"
    rf"(?P<high>{_NUMBER}) *(?P<unit>{_UNIT}))(?P<rest>\b.*)",
    re.IGNORECASE,
)


def vague(spot: Spot) -> Said | None:
    """`recover 25.4 mm bare`: of a reading it is said how far it may be out, and not with limits."""
    match = _VAGUE.fullmatch(spot.code)
    if match is None or not spot.reads(f"{match['head']}{match['rest']}"):
        return None
    much = "0.1 mm" if re.search(r"[0-9] *[mc]m\b", match["head"]) else "1/128 in"
    offer = Offer(f"{match['head'].strip()} within {much}{match['rest']}", completes=True)
    return (
        f"{match['at']} is not a figure",
        write(offer, lead="say how far the reading may be out, like this: "),
        match.start("at"),
        match.end("at"),
    )


def between(spot: Spot) -> Said | None:
    """`identify 0.108 in, 47 to 48 tpi`, `recover 51 to 52 mm`: the middle, and half of what lies between."""
    match = _BETWEEN.fullmatch(spot.code)
    if match is None or (match["own"] and units.find(match["own"]) != units.find(match["unit"])):
        return None
    try:
        low, high = number_value(match["low"]), number_value(match["high"])
    except ShopError:
        return None
    head, rest, unit = match["head"].lstrip(), match["rest"], match["unit"]
    if not low < high:
        return None
    written = mixed if "/" in match["low"] + match["high"] else _decimal
    text = f"{head}{written((low + high) / 2)} {unit}"
    said = "a reading between two figures is written as their middle"
    if not head.lower().startswith("identify"):
        text += f" within {written((high - low) / 2)} {unit}"
        said += ", trusted to half of what lies between"
    if not spot.reads(f"{text}{rest}"):
        return None
    return said, write(Offer(f"{text}{rest}", worked=True)), match.start("at"), match.end("at")


def _decimal(number: Fraction) -> str:
    return decimal(number)[0]
