"""Laws of what is told: the quick ways, in whole numbers and found again, against the plain ways beside them."""

from __future__ import annotations

from decimal import ROUND_HALF_EVEN, Context, Decimal
from fractions import Fraction
from random import Random

import pytest
from bent_text import Texts, spoilt
from hypothesis import given
from hypothesis import strategies as st
from strategies import divisions, lengths

from fractions_shop.errors import cells
from fractions_shop.figures import figure, wording
from fractions_shop.figures.figure import Figure, in_decimal_inches, in_inches, in_mm
from fractions_shop.figures.plain import folded, in_columns
from fractions_shop.figures.table import Cell, Table, in_prose
from fractions_shop.requests.expression import SizeResult
from fractions_shop.sheet.verdict import verdict
from fractions_shop.show.sheet import Sheet
from fractions_shop.size import digits
from fractions_shop.size.limits import Limits
from fractions_shop.size.notation import AS_USUAL, LEADS, UnitsShown, places_shown, told_in
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.rule import DRAWER, Rule, first_that_carries, mark_within, multiple, rung
from fractions_shop.size.standing import STANDINGS

rationals = st.fractions(max_denominator=10**6) | st.builds(Fraction, st.integers(), st.just(10**12))
sizes = st.builds(
    Quantity, lengths().map(lambda size: size.mm) | rationals, st.just(1), st.booleans(), st.none(),
    st.sampled_from(("", *STANDINGS)),
)  # fmt: skip
units = st.sampled_from((AS_USUAL, *LEADS.values()))
places = st.none() | st.integers(0, 9)
#: More figures than any of these has.
EXACT = Context(prec=400)


def as_decimal(value: Fraction) -> Decimal | None:
    """The decimal that a rational is; None where it does not end."""
    below = value.denominator
    for factor in (2, 5):
        while below % factor == 0:
            below //= factor
    if below > 1:
        return None
    return EXACT.divide(Decimal(value.numerator), Decimal(value.denominator))


# Numbers in figures


@given(st.integers(-(10**40), 10**40), st.integers(0, 30), st.integers(0, 12))
def test_a_decimal_is_rounded_as_pythons_own_decimals_are(above, shift, places):
    """Python's `decimal` module, by Cowlishaw's General Decimal Arithmetic: a tie to the even figure."""
    value = Fraction(above, 10**shift)
    exact = as_decimal(value)
    assert exact is not None
    rounded = exact.quantize(Decimal(1).scaleb(-places), ROUND_HALF_EVEN, EXACT)
    number, whole = digits.to_places(*value.as_integer_ratio(), places)
    assert (Decimal(digits.pointed(number, places)), whole) == (rounded, rounded == exact)
    told = digits.pointed(number, places)
    assert told == "0" or not (("." in told and told.endswith(("0", "."))) or told == "-0")


@given(st.integers(-(10**9), 10**9), st.integers(0, 12))
def test_half_a_last_place_goes_to_the_even_figure(whole, places):
    number, exact = digits.to_places(*Fraction(2 * whole + 1, 2 * 10**places).as_integer_ratio(), places)
    assert not exact
    assert number % 2 == 0
    assert number in (whole, whole + 1)


@given(rationals)
def test_a_mixed_number_is_the_number(value):
    sign = -1 if (text := digits.mixed(*value.as_integer_ratio())).startswith("-") else 1
    assert sign * sum(Fraction(part) for part in text.lstrip("-").split()) == value


@given(rationals, st.sampled_from(("in", "mm", "", "deg")), places, st.integers(0, 9))
def test_a_decimal_that_is_told_never_reads_as_zero_and_is_off_by_half_a_last_place_at_most(
    value, unit, asked, shown
):
    text, told_in_places, whole = digits.decimals(*value.as_integer_ratio(), unit, asked, shown)
    told = Fraction(text)
    assert (told == value) is whole
    assert abs(told - value) <= Fraction(1, 2 * 10**told_in_places)
    assert told or not value or told_in_places >= digits.MOST_PLACES


@given(sizes, places, units)
def test_a_figures_text_is_that_of_its_number_and_form(size, asked, leading):
    with told_in(leading):
        for told in (in_inches(size, asked), in_mm(size, asked), in_decimal_inches(size, asked)):
            again = Figure.of(
                told.value, told.unit, told.places, told.exact, told.form, standing=told.standing
            )
            assert told == again
            assert told.with_sign().bare == f"{'+' if told.value >= 0 else ''}{told.bare}"


# Lengths, found again by their whole numbers


def _plainly(size: Quantity, metric: bool, asked: int | None, leading: UnitsShown) -> Cell:
    inches, mm = in_inches(size, asked), in_mm(size, asked)
    mm_first = leading.lead == "mm" if leading.lead else metric
    return Cell("size", (mm,), (inches,)) if mm_first else Cell("size", (inches,), (mm,))


@given(st.lists(st.tuples(sizes, divisions(), places, units, st.integers(2, 9)), min_size=1, max_size=8))
def test_what_is_told_of_a_length_does_not_depend_on_what_was_told_before(asked):
    for cached in (wording._length_cell, wording._length_text, wording._off_text, figure.decimal_figure):
        cached.cache_clear()
    for size, rule, of_places, leading, shown in [*asked, *asked]:
        token = places_shown.set(shown)
        with told_in(leading):
            plainly = _plainly(size, rule.metric, of_places, leading)
            assert wording.in_rule_cell(size, rule, of_places) == plainly
            assert wording.in_rule(size, rule) == in_prose(_plainly(size, rule.metric, None, leading))
            assert wording.both(size, of_places) == in_prose(_plainly(size, False, of_places, leading))
            if size.value and not wording.too_small(size):
                off = in_prose(wording.both_decimals(size, of_places))
                assert wording.off_by(size, of_places) == off
                assert wording.off_by(-size, of_places) == off
        places_shown.reset(token)


@given(sizes, divisions())
def test_a_change_is_told_as_its_cell_is(change, rule):
    assert wording.moved(change, rule) == in_prose(wording.moved_cell(change, rule))


# Rules


@given(sizes, divisions(), st.sampled_from(("nearest", "up", "down")))
def test_a_division_and_its_error_are_those_of_the_sizes_themselves(size, rule, direction):
    found = rung(size, rule, direction)
    nearest = Quantity(multiple(size.mm, rule.division.mm, direction))
    # To the last field: what is approximate, and how far it is trusted, go with the error.
    for made, meant in ((found.size, nearest), (found.error, nearest - size)):
        for name in ("value", "power", "approximate", "within", "standing"):
            assert getattr(made, name) == getattr(meant, name)


@given(sizes, divisions() | st.sampled_from((127, 254, 635)).map(Rule))
def test_the_coarsest_rule_with_a_mark_at_a_size_is_found_as_it_is_meant(size, rule):
    drawer = [Rule(name) for name in DRAWER]
    carrying = [each for each in drawer if each.carries(size)]
    assert first_that_carries(drawer, size) == (carrying[0] if carrying else None)
    assert all(rule.has_marks_of(each) is (each in rule.coarser) for each in drawer)
    own = rule.coarsest_that_carries(size)
    first = carrying[0] if carrying else None
    of_own_kind = own is None or first in rule.coarser
    assert SizeResult(size, rule).carried_by == (
        first if first is not None and of_own_kind else None if own is None else rule
    )


@given(lengths(), divisions(), st.fractions(0, 2, max_denominator=8), st.booleans())
def test_a_mark_within_limits_is_found_wherever_there_is_one(nominal, rule, spread, on_a_mark):
    lower = rung(nominal, rule).size if on_a_mark else nominal
    size = Limits.between(lower, lower, lower + rule.division * spread)
    found = mark_within(size, rule)
    least = rung(size.lower, rule, "up").size
    assert (found is None) is (least not in size)
    assert found is None or (found in size and rule.carries(found))


@given(sizes, units)
def test_an_error_in_a_table_is_its_figures_with_their_sign(error, leading):
    if not error.value or wording.too_small(error):
        return
    with told_in(leading):
        inch = in_decimal_inches(error.unmarked, 4).with_sign()
        mm = in_mm(error.unmarked, 3).with_sign()
        first, second = (mm, inch) if leading.lead == "mm" else (inch, mm)
        assert wording.signed_cell(error) == Cell("difference", (first,), (second,))
        bare = wording.signed_cell(error, units=False)
        figures = [figure for figure in (*bare.pieces, *bare.beside) if isinstance(figure, Figure)]
        assert len(figures) == 2
        # What rests on a root is not exact in either unit, under a heading that says the units as well.
        assert not error.approximate or not any(figure.exact for figure in figures)


# Text in columns


def _word_by_word(line: str, width: int) -> list[str]:
    lead, (first, *words) = line[: len(line) - len(line.lstrip())], line.split()
    rows, row = [], lead + first
    for word in words:
        if len(row) + 1 + len(word) > max(width, 12):
            rows.append(row)
            row = f"{lead}    {word}"
        else:
            row = f"{row} {word}"
    return [*rows, row]


words = st.lists(
    st.text("abc1/±°é\u0301界", min_size=1, max_size=9) | st.text("x", min_size=1, max_size=40),
    min_size=1,
    max_size=20,
).map(" ".join)


@given(st.integers(0, 6), words, st.integers(1, 50))
def test_a_line_is_cut_where_the_next_word_has_no_room(indent, said, width):
    line = " " * indent + said
    assert folded(line, width) == ([line] if cells(line) <= width else _word_by_word(line, width))


@given(st.integers(1, 4).flatmap(lambda many: st.lists(st.tuples(*[words] * many), min_size=1, max_size=5)))
def test_columns_stand_one_below_another_whatever_signs_are_in_them(rows):
    widths = [max(map(cells, column)) for column in zip(*rows, strict=True)]
    meant = [
        "".join(
            f"  {cell}{' ' * (width - cells(cell))}" for cell, width in zip(row, widths, strict=True)
        ).rstrip()
        for row in rows
    ]
    assert in_columns(Table(tuple(rows)), sum(widths) + 2 * len(widths)) == meant


# Sheets


@pytest.mark.parametrize("seed", range(12))
def test_the_verdict_counts_what_its_lines_say_of_themselves(seed):
    texts, r = Texts.read(), Random(seed)
    rows = r.choice(texts.sheets).splitlines()
    for _ in range(4):
        at = r.randrange(len(rows))
        rows[at] = spoilt(r, rows[at], r.choice(rows), texts.sizes).replace("\n", " ")
    sheet = Sheet.from_text("\n".join(rows))
    worked, doubts = sheet.worked, sheet.doubts
    found, states = verdict(worked, doubts), [item.state for item in worked]
    checks = [item for item in worked if item.line.is_check]
    sizes_listed = [
        item.line.number for item in worked
        if item.is_listed and not item.undone and not item.line.is_check and item.line.sets not in doubts.settled
    ]  # fmt: skip
    assert (found.holds, found.fails, found.faults) == tuple(map(states.count, ("holds", "fails", "fault")))
    assert found.answered == sum(
        item.state == "answered" and not item.line.also and not item.line.is_units and not item.line.is_rule
        for item in worked
    )
    assert found.checks == len(checks)
    assert found.unchecked == sum(item.undone for item in checks)
    assert found.unmade == sum(item.undone and item.line.kind == "part" for item in worked)
    assert found.waits == len(sheet.waiting)
    assert found.doubtful_sizes == sum(number in doubts.doubtful for number in sizes_listed)
    assert found.moved_sizes == sum(number in doubts.of_moved for number in sizes_listed)
    assert found.off_checks == sum(item.check is not None and item.check.off for item in worked)
    assert found.wide_checks == sum(item.check is not None and item.check.wide for item in worked)
