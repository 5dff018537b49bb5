"""Two readers, written apart from each other, agree on whatever the program reads."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Callable
from fractions import Fraction
from pathlib import Path
from random import Random
from typing import Any

import bent_text
import hostile
import pint
import pytest
import second_reader
from hypothesis import given, settings
from hypothesis import strategies as st
from over_all import over
from strategies import WrittenLimits, written_limits, written_sizes
from trying import times

from fractions_shop.errors import InputError
from fractions_shop.language import grammar
from fractions_shop.sheet.session import Session
from fractions_shop.size.limits import Limits
from fractions_shop.size.notation import as_meant
from fractions_shop.size.quantity import Angle, Quantity

#: What the program reads and the second reader leaves alone, by decision: a mark of each, and why.
LEFT_ALONE: dict[str, Callable[[str], bool]] = {
    "functions are no written sizes": lambda text: (
        any(f"{f}(" in text.lower() for f in hostile.FUNCTIONS)
        or re.search(r"\b[a-z_]+\(|\bpi\b", text, re.I) is not None
    ),
    "a size asked for in another unit is a request": lambda text: (
        re.search(r"\bas\b", text, re.I) is not None
    ),
    "snap is a request, and gives another size": lambda text: re.match(r"\s*snap\b", text, re.I) is not None,
    "a part of so many parts, 1/5-20ths, is a form of its own": lambda text: (
        re.search(r"[0-9]/[0-9]+-[0-9]+(?:th|nd|rd|st)", text) is not None
    ),
    "a division behind a pair of deviations is beyond the second reader": lambda text: (
        re.search(r"/[-+\u2212\u2013].*/", text) is not None
    ),
    "a deviation that is a fraction before the bar, -3 1/2/+5 thou, is beyond the second reader": lambda text: (
        bool(re.search(r"[0-9]\s*/\s*[0-9]+\s*/\s*[-+\u2212\u2013]", text))
    ),
}
#: Forms that have two readings on paper, what both readers make of them, and why that one.
DECIDED = {
    "2-1/32 in": ((1, Fraction(65 * 254, 320)), "no blanks, a whole number, a proper fraction: the mixed number of old drawings; noted"),
    "5'-½\"": ((1, Fraction(121 * 254, 20)), "feet, a dash and inches, as 5'-1/2\"; a subtraction wants blanks; noted"),
    "5' - 3\"": ((1, Fraction(57 * 254, 10)), "with blanks it is a subtraction; noted, with the other form"),
    "1/2 in": ((1, Fraction(127, 10)), "a bar without blanks is a fraction"),
    "1 / 2 in": ((-1, Fraction(5, 254)), "with blanks it is a division; noted, with the other form"),
    "1÷2 in": ((-1, Fraction(5, 254)), "the sign of division is never the bar of a fraction; noted"),
    "10/2.5 in": ((-1, Fraction(40, 254)), "a decimal is no denominator, so the bar divides; noted"),
    "2 in^2": ((2, Fraction(254 * 254, 25)), "a size binds tighter than any sign, so all of it is squared; noted"),
    "-2 in^2": ((2, -Fraction(254 * 254, 25)), "the sign in front comes last, as in any algebra"),
    "1/4-20": ((1, Fraction(127, 20)), "a usual number of threads behind a fraction: the thread 1/4-20, its major; noted"),
    "1/4-3": ((0, Fraction(-11, 4)), "3 is no such number, so it is a subtraction"),
    "#6-32": ((1, Fraction("0.138") * Fraction(254, 10)), "# before a figure is the number sign"),
    "2 in # 6-32": ((1, Fraction(254, 5)), "# before anything else starts a comment"),
    "0·193 in": ((1, Fraction("0.193") * Fraction(254, 10)), "a raised point between figures is the decimal point, never a product"),
    "0 SWG": ((1, Fraction("0.324") * Fraction(254, 10)), "0 and 1/0 are one gauge"),
    "10 mm +0.1/-0": ((1, Fraction(10), Fraction(10), Fraction(101, 10)), "limits without a unit take the size's own"),
    "1/2 in +1/-2 thou": ((1, Fraction(127, 10), Fraction(63246, 5000), Fraction(127254, 10000)), "a unit written once serves both"),
    "2 in -1/-2 thou": ((1, Fraction(254, 5), Fraction(507492, 10000), Fraction(507746, 10000)), "two deviations below the size are limits too"),
    "5 Mm": ((1, Fraction(5)), "no case in a unit of two letters or more: MM and Mm are mm on drawings"),
    "12 gauge": (None, "a number without its series is refused"),
    "51,5 mm": (None, "a comma is refused: decimals, thousands or two figures"),
    "2 5/4 in": (None, "an improper part of a mixed number is refused"),
    "5 ft-3 in": (None, "feet and inches, or a subtraction: refused"),
}  # fmt: skip


def read_by_the_program(text: str) -> Any:
    """The program's value in the second reader's terms, or None.

    None too for what only the reader of sizes in words takes, which has tests of its own.
    """
    try:
        grammar.statement(text, as_meant(text))
        answer = Session().answer(text)
    except InputError:
        return None
    if answer is None or not (answer.kind in ("size", "thread") or "wood" in text) or answer.name is not None:
        return None
    if any("left out" in note.text for note in answer.notes):
        return None
    value = answer.value
    if isinstance(value, Angle):
        return ("angle", value.degrees)
    if isinstance(value, Limits):
        return (value.power, value.nominal.value, value.lower.value, value.upper.value)
    assert isinstance(value, Quantity)
    return (value.power, value.value)


def agrees(text: str) -> None:
    """Whatever the program reads, the second reader reads to the same."""
    found = read_by_the_program(text)
    if found is None or any(mark(unicodedata.normalize("NFKC", text)) for mark in LEFT_ALONE.values()):
        return
    assert second_reader.read(text) == found, text


@given(written_sizes())
def test_the_second_reader_reads_every_written_form(size: Any) -> None:
    assert second_reader.read(size.text) == (1, size.mm)


@given(written_limits())
def test_the_second_reader_reads_every_form_of_limits(size: WrittenLimits) -> None:
    assert second_reader.read(size.text) == (1, size.nominal, size.lower, size.upper)


_MADE = (
    hostile.size,
    hostile.limits,
    hostile.number,
    lambda r: hostile.pick(r, hostile.NAMED),
    lambda r: hostile.expression(r, 1),
)


@given(st.randoms(use_true_random=False), st.sampled_from(_MADE))
@settings(max_examples=times(150, 300))
def test_both_readers_agree_on_what_is_written(r: Random, make: Callable[[Random], str]) -> None:
    agrees(make(r))


@given(st.randoms(use_true_random=False), st.sampled_from(_MADE))
@settings(max_examples=times(150, 300))
def test_both_readers_agree_on_what_is_written_badly(r: Random, make: Callable[[Random], str]) -> None:
    agrees(hostile.bent(r, make(r)))


@given(st.randoms(use_true_random=False), st.sampled_from(_MADE))
@settings(max_examples=100)
def test_both_readers_agree_on_typographic_signs(r: Random, make: Callable[[Random], str]) -> None:
    agrees(hostile.disguised(r, make(r)))


def test_both_readers_agree_on_many_lines_bent_under_one_seed() -> None:
    r = Random(1883)
    for _ in range(1500):
        agrees(hostile.bent(r, hostile.pick(r, _MADE)(r)))


TEXTS = bent_text.Texts.read()
#: What the manual writes as a size is one, and nothing else than what stands in its tables of functions and requests.
_MANUAL = (Path(__file__).parents[2] / "README.md").read_text("utf-8")
_FORMS = re.findall("`([^`]+)`", _MANUAL.partition("## Writing a size")[2].partition("Blanks matter")[0])
#: Forms of that table that say no size: they are refused, and the table says so.
_REFUSED = {"3 Zoll", "yd", "hand", "mile", "angstrom"}


FORMS = [form for form in _FORMS if form not in _REFUSED]
#: The names of threads in the table of series that are seldom met.
_SERIES = re.findall(
    r"^\| [^|]+ \| (`[^|]+`) \|", _MANUAL.partition("Series that are met with on old work")[2], re.M
)
SELDOM = [name for cell in _SERIES for name in re.findall("`([^`]+)`", cell)]


@over([*FORMS, *SELDOM])
def test_both_readers_read_every_form_of_the_manual(text: str) -> None:
    found = read_by_the_program(text)
    assert found is not None
    assert second_reader.read(text) == found


#: The same as books, lists and drawings spell them.
_SPELT = """
#000-120; 0-80; 00-90; 6-32; 6-48; No 8-44; No 9-28; No 14-24 UNS; No 28-14 ASME 1907; 4-36 NS; 1 UNC; 1-14 UNS; 1/4 camera; 3/8-16 tripod; 0.16-32 UNC;
0.313-18 UNC; 1 3/8-24 BSC; 5/16-24 old BSC; 0.4 U.N.M.; 0.40 mm UNM; 0.40 unified miniature; 0.8-36 RMS; RMS objective; 4 Loewenherz; LOEWENHERZ 4 mm;
Loewenherz 4 × .7; 5 Thury; No 5 Thury; Thury #5; Thury-5; M1.7 x 0.2 old SI fine; M6 x 1 SI 1898; M8X1-6g; M5 x 0.8 pre-ISO DIN; American No 8 steel wire;
9 mm x 1.1 mm Loewenherz form; 81-in; 25 ft.; 16-32nds; .500" +.001 -.000; 10 mm +0.1 -0.2; 1.000" -.002" +.001"; 2 in +1 in -1/2 in;
1/8 in +.01 in -.005 in; 2 Paris inches 5 Paris lines; 3 Vienna lines; 25 m/m; 2.5 c/m; 5'-3 1/2"; No 12 woodscrew; UK No 8 wood screw
"""
SPELT = [text.strip() for text in _SPELT.replace("\n", " ").split(";")]


@over(SPELT)
def test_both_readers_read_it_as_it_is_spelt(text: str) -> None:
    found = read_by_the_program(text)
    assert found is not None
    assert second_reader.read(text) == found


@over(TEXTS.sizes)
def test_both_readers_agree_on_sizes_of_public_texts(text: str) -> None:
    agrees(text)


def test_both_readers_agree_on_real_sizes_spoilt_under_one_seed() -> None:
    r = Random(1824)
    for _ in range(1500):
        text, other = r.choice(TEXTS.sizes), r.choice(TEXTS.sizes)
        agrees(bent_text.spoilt(r, text, other, TEXTS.sizes)[:200])


def test_a_third_reader_has_the_same_factors() -> None:
    """pint's registry, kept in exact rationals, for every unit that it has under that name."""
    registry = pint.UnitRegistry(non_int_type=Fraction)
    differ = {
        word: factor
        for word, factor in {**second_reader.UNITS, **second_reader.FULL_NAMES}.items()
        if word in registry
        and registry.Unit(word).is_compatible_with("mm")
        and Fraction(registry.Quantity(Fraction(1), word).to("mm").magnitude) != factor
    }
    # pint's `ins` is no inch but a name made of a prefix.
    assert set(differ) <= {"ins", "fermi", "light_year"}


@pytest.mark.parametrize("text", DECIDED)
def test_what_has_two_readings_is_read_as_decided(text: str) -> None:
    value, why = DECIDED[text]
    assert read_by_the_program(text) == value, why
    assert second_reader.read(text) == value, why


@pytest.mark.parametrize("text", [text for text, (_, why) in DECIDED.items() if "noted" in why])
def test_what_may_be_read_otherwise_says_how_it_was_read(text: str) -> None:
    answer = Session().answer(text)
    assert answer is not None
    assert answer.notes


@over(hostile.NAMED)
def test_a_name_that_the_program_knows_has_the_size_of_its_table_or_formula(written: str) -> None:
    found = read_by_the_program(written)
    if found is not None:
        assert second_reader.read(written) == found
