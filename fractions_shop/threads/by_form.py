"""A thread that no table has, given by its major diameter, its pitch and its form."""

from __future__ import annotations

import re
from fractions import Fraction

from fractions_shop.errors import ShopError
from fractions_shop.size.notation import as_meant, mm_text, number_value
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.units import INCH
from fractions_shop.threads.names import BY_FORM
from fractions_shop.threads.records import FORM_WORDS, SERIES
from fractions_shop.threads.thread import Thread

#: No screw is finer or coarser than this: its pitch as a part of its major diameter, at least and at most.
_LEAST_PITCH, _MOST_PITCH = Fraction(1, 200), Fraction(1, 2)


def by_form(text: str) -> Thread | None:
    """The thread that a text gives by major, pitch and form (`9 mm x 1.1 mm metric form`); None if it gives none.

    Its drills and its clearance are those of the first series of that form. ShopError for a
    pitch that no screw of its size has.

    >>> made = by_form("0.3 in x 30 tpi Whitworth form")
    >>> made.name, float(made.pitch.mm * 30), made.minor.standing
    ('0.3 in x 30 tpi Whitworth form', 25.4, 'rule')
    """
    plain = " ".join(as_meant(text).split())
    match = re.fullmatch(BY_FORM, plain) if plain.lower().endswith("form") else None
    if match is None:
        return None
    word = next(word for word in FORM_WORDS if word.lower() == match["form"].lower())
    form = FORM_WORDS[word]
    series = next(series for series in SERIES if series.form.angle == form.angle and not series.pressure)
    inch = match["unit"].lower() != "mm"
    number = number_value(match["size"].strip())
    major = Quantity.inches(number) if inch else Quantity(number)
    pitch = _pitch(number_value(match["pitch"]), match["per"].lower())
    if not major.mm * _LEAST_PITCH <= pitch.mm <= major.mm * _MOST_PITCH:
        raise ShopError(f"no screw of {mm_text(major, 3)} has a pitch of {mm_text(pitch, 3)}")
    size = f"{match['size']} {'in' if inch else 'mm'}"
    per = f"{match['pitch']} {match['per'].lower()}"
    return Thread(
        series.key, f"{size} x {per} {word} form", "", major, pitch, form, "any" if inch else "metric",
        f"its major and pitch as given; {form.source}", "rule",
        ("no table has it: it is worked out from the major, the pitch and the form given",),
    )  # fmt: skip


def _pitch(number: Fraction, per: str) -> Quantity:
    if number == 0:
        raise ShopError("the pitch must be above zero")
    return Quantity(INCH / number) if per == "tpi" else Quantity(number)
