"""Figures and cells: typed until a writer makes them text, so that no output reads its own sentences."""

from __future__ import annotations

import random
import re
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from strategies import lengths, rationals
from trying import times

from fractions_shop import Quantity, Session, ShopError
from fractions_shop.figures.figure import (
    LEAST_TOLD,
    Figure,
    in_decimals,
    in_feet,
    in_inches,
    in_minutes,
    in_mm,
)
from fractions_shop.figures.plain import in_columns
from fractions_shop.figures.table import Cell, Same, Table, in_prose, lines_cell, lines_in, without_empty
from fractions_shop.figures.wording import off_by, over_under, signed, too_small
from fractions_shop.show.sheet import Sheet
from fractions_shop.size.limits import Limits
from fractions_shop.size.notation import decimal, feet_text, leading, mixed, places_shown, readable, told_in

EXAMPLES = Path(__file__).parents[1] / "examples"


# Figures


@pytest.mark.parametrize(
    ("figure", "bare", "exact"),
    [
        (in_inches(Quantity.inches(Fraction(65, 32))), "2 1/32 in", True),
        (in_inches(Quantity.inches(Fraction(193, 1000))), "0.193 in", True),
        (in_mm(Quantity.inches(Fraction(1, 3))), "8.467 mm", False),
        (in_decimals(Fraction(1, 3_000_000_000), "in", 4), "0.0000000003 in", False),
        (in_decimals(Fraction(0), "in", 4), "0 in", True),
        (in_feet(Quantity.inches(Fraction(127, 2))), "5 ft 3 1/2 in", True),
        (in_feet(Quantity.inches(-60)), "-5 ft", True),
        (in_feet(Quantity.inches(12 + Fraction(1, 127))), "1 ft 0.0079 in", False),
        (in_minutes(Fraction(25, 2)), "12°30'00\"", True),
        (in_minutes(Fraction(1, 7)), "0°08'34\"", False),
        (Figure.of(Fraction(1, 32), "in", 3, False, signed=True), "+0.031 in", False),
        (Figure.of(Fraction(20), "in", 0, True, "every"), "1 every 1/20 in", True),
    ],
)
def test_a_figure_says_its_digits_and_whether_they_are_the_whole_of_it(figure, bare, exact):
    assert (figure.bare, figure.exact) == (bare, exact)


def test_words_are_written_as_they_are_and_only_figures_are_marked_as_rounded():
    figure = in_decimals(Fraction(1, 3), "in")
    cell = Cell("size", ("stands about 3 mm proud, ", figure), (Same((figure, figure)),))
    assert in_prose(cell) == "stands about 3 mm proud, about 0.3333 in (about 0.3333 in = 0.3333 in)"
    table = Table((("a", cell), ("b", "about 3")))
    assert in_columns(table, 200)[0].startswith("  a  stands about 3 mm proud, ~0.3333 in (~0.3333 in")
    assert in_columns(table, 200)[1] == "  b  about 3"


def test_what_stands_beside_a_figure_goes_beneath_it_where_room_is_short():
    table = Table(
        (("(a) (b)", Cell("size", ("2 in",), ("50.8 mm",))),), ("name", Cell("words", ("on",), ("x",)))
    )
    assert in_columns(table, 20) == [
        "  name     on",
        "           (x)",
        "  (a) (b)  2 in",
        "           (50.8 mm)",
    ]


def test_columns_in_which_nothing_is_said_are_left_out():
    empty = Cell("words", ())
    assert without_empty(Table((("a", empty, ""), ("b", empty, "")), ("x", "y", "z"))).header == ("x",)


# No false precision


@given(st.fractions(min_value=-1, max_value=1, max_denominator=10**9), st.sampled_from([None, 4, 5]))
def test_no_difference_is_told_more_finely_than_a_tenth_of_a_thou_and_nought_is_exact(inch, places):
    error = Quantity.inches(inch)
    said = (over_under(error, places), off_by(error, places), signed(error))
    if not inch:
        assert set(said) == {"exact"}
    elif abs(inch) < Fraction(1, 10_000):
        assert all("0.0001 in (0.003 mm)" in each for each in said)
    else:
        assert not any("exact" in each or "under 0.0001" in each for each in said)
        assert not any(re.search(r"\.[0-9]{7}", each) for each in said)


@pytest.mark.parametrize(
    ("statement", "said"),
    [
        ("38 mm as in", "the nearest mark is 1 1/2 in (38.1 mm), about 0.0039 in (0.1 mm) over"),
        ("38 mm as thou", "the nearest mark is 1 1/2 in"),
        ("38 mm as in", "about 1.4961 in, rounded by under 0.0001 in (0.003 mm)"),
        ("check 25.4 mm = 1 in + 1/1000000 in", "FAILS: the first is less than 0.0001 in (0.003 mm) under"),
        ("check 25.4 mm = 1 in", "holds: the two are the same"),
        ("mark 25.4000001 mm into 1", "the worst mark is under 0.0001 in (0.003 mm) off"),
    ],
)
def test_answers_have_no_false_precision(statement, said):
    assert said in " ".join(Session().answer(statement).text(200).split())


def test_a_size_on_a_mark_or_asked_for_in_mm_has_no_nearest_mark():
    for statement in ("38.1 mm as in", "38 mm as mm", "1.5 in as mm"):
        assert "nearest mark" not in Session().answer(statement).text()


# Limits


def _limited(text: str) -> Limits:
    value = Sheet.from_text(text).sizes["a"]
    assert isinstance(value, Limits)
    return value


@pytest.mark.parametrize(
    "size",
    [
        '1 1/4" -.002/-.006', "2 in ± 1/64 in", "1/2 in +0/-1 thou", "1/2 in +3/+1 thou", "25 mm -0.004/-0.02 mm",
        "10 mm +0.1/-0 mm", "1 in / 3 + (0 in ± 1 thou)", "1 in -0.00002 in/-0.00003 in",
    ],
)  # fmt: skip
@pytest.mark.parametrize("rule", ["64ths", "8ths", "mm", "half mm"])
def test_a_size_with_limits_is_listed_by_one_that_lies_within_them(size, rule):
    text = f"rule {rule}\na = {size}"
    value, sheet = _limited(text), Sheet.from_text(text)
    table = next(each.table for each in sheet._document(False).listings if each.title == "Sizes")
    name, mark, off, inch, _mm, line = map(in_prose, table.rows[0])
    assert (name, line) == ("a", "2")
    assert off in ("within limits", "between marks")
    shown = Session().answer(mark.removeprefix("about ")).value
    assert shown in value or mark.startswith("about ")
    assert Quantity.of(Fraction(inch.removeprefix("about ")), "in") in value or inch.startswith("about ")
    cells = sheet.to_csv().splitlines()[1].split(",")
    assert Quantity.inches(Fraction(cells[7])) in value
    assert not cells[1] or Session().answer(cells[1]).value in value
    assert "within limits" in sheet.to_text() or "between marks" in sheet.to_text()


# Outputs read no sentence of ours


def outputs(sheet: Sheet) -> list[str]:
    """Every output of a sheet; one that it has not is left out."""
    made = [sheet.to_text(), sheet.to_markdown(), sheet.to_csv(), sheet.to_json(), sheet.to_html()]
    made.append(sheet._repr_html_())
    for write in (sheet.to_svg, sheet.to_pdf):
        try:
            made.append(str(write()))
        except ShopError:
            continue
    return made


def test_a_check_without_a_blank_is_a_check_in_every_output():
    sheet = Sheet.from_text("a = 2 in\nb = 2 in\ncheck(a)=b")
    (check,) = sheet.checks
    assert check.holds
    assert len(outputs(sheet)) >= 6  # there are no pictures
    text = sheet.to_text()
    assert "1 check, which holds" in text
    assert re.search(r"holds +3 +\(a\)=b: the two are the same", text)


def test_a_rule_that_cannot_be_read_is_waited_for_however_it_is_spaced():
    for line in ("rule 64thx", "rule\t64thx", "  Rule  nothing"):
        sheet = Sheet.from_text(f"{line}\nmark 2 in into 3")
        assert [w.waits[0].name for w in sheet.waiting] == ["the rule"], line
    assert not Sheet.from_text("rule = 3 in +\nmark 2 in into 3").waiting


@pytest.mark.parametrize(
    "words",
    [
        "about 3 mm proud",
        "holds: about 3 (mm) exactly",
        "FAILS: x",
        "- about 1 in over",
        "caution: note: about 1",
    ],
)
def test_words_that_a_maker_typed_are_printed_as_typed(words):
    sheet = Sheet.from_text(f"# {words}\npart peg: 2 of oak, 1 in; {words}\na = 1 in / 3   # {words}")
    assert sheet.to_text(200).count(words) == 5  # the note, the part's line, answer and row, the comment
    assert sheet.to_html().count(words) >= 4
    assert words in sheet.to_csv()


def _mutated(line: str, chance: random.Random) -> str:
    """A line with a blank or a letter put in, taken out, or doubled."""
    place = chance.randrange(len(line) + 1)
    kind = chance.randrange(4)
    if kind == 0:
        return line[:place] + chance.choice(" \t()=;:,/#~") + line[place:]
    if kind == 1:
        return line[:place] + line[place + 1 :]
    if kind == 2:
        return line.replace(" ", "", chance.randrange(1, 4))
    return line[:place] + line[place : place + 2] + line[place:]


@pytest.mark.parametrize("seed", range(times(4, 12)))
@pytest.mark.parametrize("name", ["trays-and-runners", "label-frames", "tube-rack"])
def test_every_output_of_a_sheet_with_slips_in_its_lines_is_written(name, seed):
    chance = random.Random(f"{name}{seed}")
    lines = (EXAMPLES / f"{name}.shop").read_text("utf-8").splitlines()
    slipped = [_mutated(line, chance) if chance.random() < 0.25 else line for line in lines]
    assert len(outputs(Sheet.from_text("\n".join(slipped)))) >= 6


# What every answer asks is asked in whole numbers: the same as of the sizes themselves


@given(rationals(most=400), st.integers(0, 7), st.booleans())
def test_feet_are_what_is_left_of_inches_by_twelve(inches: Fraction, places: int, fraction: bool) -> None:
    text, exact = feet_text(inches, places, fraction)
    whole = fraction or readable(inches)
    rounded = abs(inches) if whole else Fraction(round(abs(inches) * 10**places), 10**places)
    feet, rest = divmod(rounded, 12)
    number = mixed(rest) if whole else decimal(rest, places)[0]
    assert text == f"{'-' if inches < 0 else ''}{feet} ft{f' {number} in' if rest else ''}"
    assert exact == (rounded == abs(inches))


@given(st.one_of(lengths(), st.integers(-9999, 9999).map(lambda n: Quantity.inches(Fraction(n, 40_000_000)))))
def test_a_difference_is_too_small_below_the_least_that_is_told(error: Quantity) -> None:
    assert too_small(error) == (error.value != 0 and abs(error) < LEAST_TOLD)


def test_a_figure_is_told_as_is_asked_for_now_whatever_was_asked_before() -> None:
    size, odd = Quantity.inches(30), Quantity.inches(Fraction(1, 3) + 1 / Fraction(7))
    for _ in range(2):
        assert in_inches(size).bare == "2 ft 6 in"
        with told_in(leading("inch without feet")):
            assert in_inches(size).bare == "30 in"
        assert (in_inches(odd).bare, in_inches(odd, 2).bare) == ("0.4762 in", "0.48 in")
        token = places_shown.set(9)
        try:
            assert (in_inches(odd).bare, in_mm(odd).bare) == ("0.476190476 in", "12.095238095 mm")
        finally:
            places_shown.reset(token)
        about = Quantity(odd.value, 1, approximate=True, standing="from memory")
        assert (in_inches(about).exact, in_inches(about).standing) == (False, "from memory")


def test_numbers_of_lines_are_told_as_text_and_kept_as_they_are() -> None:
    cell = lines_cell([4, 12, 4])
    assert in_prose(cell) == "4, 12"
    assert lines_in(cell) == ("4", "12")
    assert in_prose(lines_cell([])) == ""
    # Words with a comma are no list of lines.
    assert lines_in("not, cut") == ("not, cut",)
