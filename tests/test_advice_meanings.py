"""Advice is a size that someone will cut to: what it offers is among the sensible meanings of what was typed.

The meanings are written by hand, from what a maker may have meant (common practice, no source): lengths in
millimetres, limits as the least and the greatest size, all else as the statement. An empty list says
that no statement may be offered, because nobody can tell what was meant.
"""

from __future__ import annotations

from fractions import Fraction

from advised import answered, fault, inches, offers, placed, value
from over_all import over

FOOT = inches("12")

MEANINGS: list[tuple[str, list[object]]] = [
    # A number without its unit beside one that has it
    ("13/32 + 3 mm", [inches("13/32") + 3]),
    ("3 mm + 13/32", [inches("13/32") + 3]),
    ("1 3/8 - 3 mm", [inches("1 3/8") - 3]),
    ("3 + 2 in", [inches("5")]),
    ("5' + 3", [5 * FOOT + inches("3")]),
    ("2 - 1/32 in", [inches("2") - inches("1/32"), inches("2 1/32")]),
    ("10-32 mm", []),
    ('5-3 1/2"', [5 * FOOT + inches("3 1/2")]),
    ("5' 3 1/2", [5 * FOOT + inches("3 1/2")]),
    ("fit 1/4 H7/g6", ["fit 1/4 in H7/g6"]),
    ("fit 10 H7/g6", ["fit 10 mm H7/g6", "fit 10 in H7/g6"]),
    ("drill 1/4", ["drill 1/4 in", "drill No 1/4 drill"]),
    ("drill 43", ["drill 43 mm", "drill 43 in", "No 43 drill", inches("0.089"), Fraction(43), inches("43")]),
    ("snap 13/64 to 32nds", ["snap 13/64 in to 32nds"]),
    # Two sizes side by side
    ("2 in 3 in", []),
    ("2 in 3", []),
    ("2 1/2 1/4 in", []),
    ("2 3 in", []),
    ("10 mm 0.1 0.2", []),
    ("1 000 mm", [Fraction(1000)]),
    ("12 34 mm", []),
    ("check 2 in 50.8 mm", ["check 2 in = 50.8 mm"]),
    ("snap 2 in 32nds", ["snap 2 in to 32nds"]),
    ("recover 51.5 mm 66.7 mm", ["recover 51.5 mm, 66.7 mm"]),
    ("recover 51.5 66.7 mm", ["recover 51.5 mm, 66.7 mm"]),
    ("recover 51.5 mm, 66.7", ["recover 51.5 mm, 66.7 mm"]),
    ("x = recover 51.5 mm 66.7 mm", []),
    ("pack 1/2 in from 1/4 in 3/32 in", ["pack 1/2 in from 1/4 in, 3/32 in"]),
    ("identify 6 mm 1 mm", ["identify 6 mm, 1 mm"]),
    ("max(1/2 in 3/4 in)", [inches("3/4")]),
    ("hypot(3 in 4 in)", [inches("5"), "hypot(3 in, 4 in)"]),
    ("hypot(3 4 in)", [inches("5")]),
    # A comma, an apostrophe, several points
    ("51,5 mm", [Fraction("51.5")]),
    ("0,245 in", [inches("0.245")]),
    ("1,234 mm", [Fraction("1.234"), Fraction(1234)]),
    ("1.234,5 mm", [Fraction("1234.5")]),
    ("1,234.5 mm", [Fraction("1234.5")]),
    ("1,234,567 mm", [Fraction(1234567)]),
    ("12,34,567 mm", [Fraction(1234567)]),
    ("1,2,3 mm", []),
    ("12,34.5 mm", [Fraction("1234.5")]),
    ("1,23,4 mm", []),
    ("1.2.3 mm", []),
    ("1'234 mm", [Fraction(1234)]),
    ("1'234'567 mm", [Fraction(1234567)]),
    ("1'23 mm", []),
    ("1'234 in", []),
    ("2,5 + 3 mm", [Fraction("5.5")]),
    ("max(1,5 in, 2 in)", [inches("2")]),
    # Parts
    ("3/16ths", [inches("3/16")]),
    ("3/32nds", [inches("3/32")]),
    ("3/64 ths", [inches("3/64")]),
    ("5 rds", []),
    ("3 sixteenths", [inches("3/16")]),
    ("3 5/4 in", [inches("4 1/4")]),
    ("7 11/8 in", [inches("8 3/8")]),
    ("2 1 / 32 in", [inches("2 1/32")]),
    # Units: misspelt, parted, twice, none
    ("5 inchs", [inches("5")]),
    ("5 milimetres", [Fraction(5)]),
    ("5 milimeter", [Fraction(5)]),
    ("5 thuo", [inches("0.005")]),
    ("5 micorns", [Fraction("0.005")]),
    ("5 yrds", [15 * FOOT]),
    ("5 fet", [5 * FOOT]),
    ("5 inc", [inches("5")]),
    ("5 mms", [Fraction(5)]),
    ("5 nm", [Fraction(5), Fraction(5, 10**6)]),
    ("5 kmm", [Fraction(5)]),
    ("5 thousands", [inches("0.005")]),
    ("5 kg", []),
    ("5 m m", [Fraction(5)]),
    ("5 c m", [Fraction(50)]),
    ("2 in in", [inches("2")]),
    ("3/4-10 millimetres", [Fraction(3, 4) - 10, "3/4-10", "thread 3/4-10"]),
    ("1/4-20 inches", []),
    # Letters for figures
    ("2 1/O in", [inches("2 1/8")]),
    ("1/l6 in", [inches("1/16")]),
    ("l/4 in", [inches("1/4")]),
    ("2 l/4 in", [inches("2 1/4")]),
    ("1O mm", [Fraction(10)]),
    ("5.S mm", [Fraction("5.5")]),
    ("O.5 in", [inches("0.5")]),
    ("thread O BA", ["thread 0 BA"]),
    # Limits without their form
    ('.500" +.001 -.000', [(inches(".5"), inches(".501"))]),
    ("10 mm +0.1 -0.2", [(Fraction("9.8"), Fraction("10.1"))]),
    ("10 mm +0.1", [(Fraction("9.9"), Fraction("10.1")), Fraction("10.1")]),
    ("10 ± 0.1 mm", [(Fraction("9.9"), Fraction("10.1"))]),
    ("10 ± 5 um", [(Fraction("9.995"), Fraction("10.005"))]),
    ("1/2 ± 2 thous", [(inches(".498"), inches(".502"))]),
    ("5 feet + 3", [5 * FOOT + inches("3")]),
    ("1/2 ± 2 thou", [(inches(".498"), inches(".502"))]),
    ("10 mm ± 1/64", []),
    ("0.498-0.502 in", [(inches(".498"), inches(".502")), inches("-0.004")]),
    ("1/2 in plus or minus 2 thou", [(inches(".498"), inches(".502"))]),
    ("1/2 in + - 2 thou", [(inches(".498"), inches(".502")), inches(".498")]),
    ("1/2 in +-- 2 thou", []),
    ("1/2 in +1//-2 thou", []),
    # Feet
    ("5'-3 mm", [5 * FOOT - 3]),
    ("5ft-3in", [5 * FOOT + inches("3"), 5 * FOOT - inches("3")]),
    ("5 ft-3 1/2 in", [5 * FOOT + inches("3 1/2"), 5 * FOOT - inches("3 1/2")]),
    ("5' 14\"", [6 * FOOT + inches("2")]),
    ("5 ft 12 in", [6 * FOOT]),
    ("5 1/2' 3\"", [Fraction(11, 2) * FOOT + inches("3")]),
    ("2ft3", [2 * FOOT + inches("3")]),
    ("5ft3 1/2in", [5 * FOOT + inches("3 1/2")]),
    ("5 ft and 3 in", [5 * FOOT + inches("3")]),
    # Words beside a size
    ("3/8 in dia", [inches("3/8")]),
    ("3/8 dia", [inches("3/8")]),
    ("Ø 12", [Fraction(12), inches("12")]),
    ("R 3/16", [inches("3/16")]),
    ("4 holes", ["4"]),
    ("3/8 in (9.5 mm)", [inches("3/8"), "check 3/8 in = 9.5 mm"]),
    ("5 mm.", [Fraction(5)]),
    ("half an inch", [inches("1/2")]),
    ("three quarters of an inch", [inches("3/4")]),
    ("an inch and a half", [inches("1 1/2")]),
    ("half of 3/8 in", [inches("3/16")]),
    ("3 and 1/2 in", [inches("3 1/2")]),
    ("two inches", [inches("2")]),
    ("2 in by 3 in", []),
    ("2 in x 3 in", []),
    ("2x3 in", [inches("3"), inches("6")]),
    ("4 x 13/32 in", [inches("13/32"), inches("13/8")]),
    ("2 in and 3 in", [inches("5")]),
    ("2 in times 3", [inches("6")]),
    # Doubled signs
    ("2 ++ 3 in", []),
    ("2 in ** 3", []),
    ("2 in // 3", []),
    ("2 in +/ 3 in", []),
    # Drills, gauges and threads
    ("No 43", [inches(size) for size in ("0.089", "0.0036", "0.0022", "0.088", "0.006", "0.162")]),
    ("No. 43 drill bit", [inches("0.089")]),
    ("drill size 43", [inches("0.089")]),
    ("6BA drill", ["tapping(6BA)", "clearance(6BA)", Fraction("2.3"), Fraction("2.9")]),
    ("tap drill for M6", ["tapping(M6)", Fraction(5)]),
    ("BA 2", [Fraction("4.7")]),
    ("SWG 22", [inches("0.028")]),
    ("thread BA 2", ["thread 2 BA"]),
    ("M6x1x20", [Fraction(6)]),
    ("1/4-20 x 1", [inches("1/4")]),
    ("1/4-20 x 3/4", [inches("1/4")]),
    ("m6", [Fraction(6)]),
    # Requests with a word missing or another in its place
    ("divide 2 in 5", []),
    ("divide 2 in by 5", ["divide 2 in into 5", inches("2/5")]),
    ("divide 2 in into 5 equal parts", ["divide 2 in into 5"]),
    ("split 2 in into 5", ["divide 2 in into 5"]),
    ("2 in into 5", ["divide 2 in into 5"]),
    ("mark 2 in by 5", ["mark 2 in into 5"]),
    ("snap 3.9 in 64ths", ["snap 3.9 in to 64ths"]),
    ("round 3.9 in", ["snap 3.9 in"]),
    ("rule 64", ["rule 64ths"]),
    ("rule 1/32", ["rule 32nds"]),
    ("pack 1 in with 1/4 in, 3/32 in", ["pack 1 in from 1/4 in, 3/32 in"]),
    ("check 2 in and 50.8 mm", ["check 2 in = 50.8 mm"]),
    ("identify 6 mm x 1 mm", ["identify 6 mm, 1 mm"]),
    ("25 mm in inches", ["25 mm as in"]),
    ("tapping(M6, 65 %)", ["tapping(M6, 65)", Fraction("5.2"), Fraction("5.1"), Fraction(5)]),
    ("(2 in + 3 in", [inches("5")]),
]


@over(MEANINGS, lambda each: each[0])
def test_what_is_offered_is_among_the_sensible_meanings(typed: str, meanings: list[object]) -> None:
    error = fault(typed)
    if error is None:  # it can be read after all; then it is one of them
        assert value(typed) in meanings
        return
    for offer in offers(error):
        if offer.completes:
            continue
        lines = [line for line in placed(offer, error) if answered(line)]
        assert lines, f"{offer.text} is refused in its turn"
        assert any(value(line) in meanings for line in lines), error.advice


def test_the_examples_are_many_and_most_have_an_offer() -> None:
    offering = [typed for typed, _ in MEANINGS if (error := fault(typed)) and offers(error)]
    assert len(MEANINGS) > 120
    assert len(offering) > 60
