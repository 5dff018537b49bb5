"""Old inches and lines as units: every word of the table, in every form, with its source in the answer."""

from __future__ import annotations

import json
import re
from fractions import Fraction
from itertools import product

import pytest
from over_all import over

from fractions_shop import InputError, Limits, Session, read
from fractions_shop.command.column import Column
from fractions_shop.language import old_units
from fractions_shop.prompt.word_offers import word_offers
from fractions_shop.tables import rows
from fractions_shop.tables.old_inches import named

#: The laws themselves: metre = 443.296 Paris lignes (19 frimaire VIII, 10 December 1799); the Prussian foot of
#: 12 Zoll is 139.13 Paris lignes (16 May 1816); metre = 39.37 in (Mendenhall order, 5 April 1893).
PARIS_LINE = Fraction(1_000_000, 443_296)
RHENISH_INCH = PARIS_LINE * Fraction(13_913, 100) / 12
OLD_US = Fraction(100_000, 3937)


def worth(text):
    return Session().answer(text).value


def test_the_laws_give_their_sizes():
    assert worth("12 Paris lines").mm == worth("1 Paris inch").mm == 12 * PARIS_LINE
    assert float(worth("2 Rhenish inches").mm) == pytest.approx(float(2 * RHENISH_INCH), rel=1e-7)
    assert worth("1 old US inch").mm == OLD_US
    assert not worth("1 Paris inch").approximate
    assert worth("2 Rhenish inches").approximate


#: Inches of an open unit-definition data file (that of the Debian package units 2.22), as it has them: the pied of 144
#: lignes, fathoms of six feet of twelve inches (ten in Switzerland), the Swedish tum of 1739 as twelve linjer. The file
#: has the Prussian fathom as 1.88 m, which is rounded: the law of 1816 makes it 1.8831 m, so that its inch is not held.
DEFINED = {
    "Paris": Fraction(144_000_000, 443_296) / 12, "Vienna": Fraction("1896.48384") / 72, "Bavarian": Fraction("1751.155") / 72,
    "Swiss": Fraction(1800) / 60, "old Swedish": 12 * Fraction("2.0618125"),
}  # fmt: skip


@pytest.mark.parametrize("called", DEFINED)
def test_an_old_inch_agrees_with_a_second_source_to_the_last_figure_of_the_table(called):
    (row,) = (row for row in rows("old_inches") if row["called"] == called)
    last = Fraction(1, 10 ** len(row["inch_mm"].partition(".")[2]))
    assert abs(worth(f"1 {called} inch").mm - DEFINED[called]) <= max(last, Fraction(4, 10**6))


@over(sorted(named()))
def test_every_word_reads_in_every_form(words):
    inch, size = named()[words]
    half, word = size * Fraction(5, 2), words
    for text in (f"2 1/2 {word}", f"2½ {word}", f"2.5 {word.upper()}", f"5/2  {word}", f"5 {word} / 2"):
        assert worth(text) == half, text
        if not inch.disputed:
            assert read(text) == half, text
    for text in (f"2 {word} ± 1/2 {word}", f"2 {word} ± 1/2", f"2 {word} +0.5/-0.5 {word}"):
        limits = worth(text)
        assert isinstance(limits, Limits)
        assert (limits.lower, limits.upper) == (size * Fraction(3, 2), half), text
    shown = Session().answer(f"{2 * size.mm.numerator}/{size.mm.denominator} mm as {word}")
    assert shown.result.target.mm == size.mm
    assert ("exactly" in shown.text()) == (inch.exact and inch.standing == "printed")
    note = " ".join(Session().answer(f"2 {word}").data()["notes"])
    assert inch.source in note
    assert inch.standing in note
    row = list(Column("s", delimiter=";", doubtful="note").widen(["s\n", f"2.5 {word}\n"]))[1].split(";")
    assert Fraction(row[3]) == pytest.approx(float(half.mm), abs=1e-6)


def test_inches_and_lines_stand_side_by_side():
    assert worth("2 Paris inches 5 Paris lines").mm == 29 * PARIS_LINE
    for text in ("2 Paris inches 12 Paris lines", "2 1/2 Paris inches 5 Paris lines"):
        with pytest.raises(
            InputError, match="the lines after inches stop short of 12, and the inches are whole"
        ):
            worth(text)
    with pytest.raises(InputError, match="only feet and inches may stand side by side"):
        worth("2 Paris inches 5 Rhenish lines")


def test_a_unit_on_which_sources_differ_is_a_doubt_and_a_column_marks_it():
    assert Session().answer("3 Amsterdam inches").notes[0].kind == "doubt"
    assert "other sources give it another size" in Session().answer("x = 3 Amsterdam lines").text(300)
    assert (
        "more than one meaning" in list(Column("s", delimiter=";").widen(["s\n", "2 Amsterdam inches\n"]))[1]
    )


@pytest.mark.parametrize(
    ("text", "told", "offered"),
    [
        ("3 pouces", "pouces is an old unit", "write 3 Paris inches"),
        ("3 Zoll", "Zoll is an old unit of 8 sizes", "write 3 Rhenish inches"),
        ("2 in as Zoll", "Zoll is an old unit", "write as Rhenish inches or as Vienna inches"),
        ("3 lignes", "lignes has more than one meaning", "write it in Paris lines, or in mm"),
    ],
)
def test_its_own_word_is_refused_with_the_units_that_it_may_be(text, told, offered):
    with pytest.raises(InputError) as error:
        worth(text)
    assert error.value.message.startswith(told)
    assert str(error.value.advice).startswith(offered)


@over(product(["2 - 3 {}", "1/8 + 3 {}", "3 {} + 8", "5 {} - 1/64"], sorted(named())))
def test_a_bare_number_beside_it_is_a_fault_whose_advice_is_read(form, words):
    line = form.format(words)
    with pytest.raises(InputError, match="has no unit") as refused:
        Session().answer(line)
    offered = re.fullmatch("write (.+)", refused.value.advice)
    assert offered is not None, refused.value.advice
    left, sign, right = re.split(r" ([+-]) ", offered[1])
    assert worth(offered[1]) == (worth(left) + worth(right) if sign == "+" else worth(left) - worth(right))
    for old, new in zip(re.split(r" [+-] ", line), (left, right), strict=True):
        assert new.startswith(old.removesuffix(words).strip())


def test_a_reading_in_an_old_unit_is_trusted_as_finely_as_it_was_read():
    for text, share in (
        ("5 Paris lines", Fraction(1, 2)),
        ("5 1/2 Paris lines", Fraction(1, 4)),
        ("5.5 Paris lines", Fraction(1, 20)),
    ):
        assert Session().answer(f"recover {text}").result.readings[0].within.mm == share * PARIS_LINE
    last = Session().answer("recover 2 Paris inches 5 Paris lines").result.readings[0]
    assert last.within.mm == PARIS_LINE / 2


def test_they_are_offered_by_their_table_alone():
    offered = [offer.text for offer in word_offers("x = 3 Rhe", {}, True)]
    assert offered[:2] == ["Rhenish inches", "Rhenish lines"]
    assert set(old_units.meanings()) == {words for words in named() if words.endswith("s")}


def test_they_go_through_a_session_and_json():
    bench = Session()
    bench.answer("plate = 3 Paris lines")
    data = json.loads(json.dumps(bench.answer("plate * 2").data()))
    assert Fraction(data["value"]["mm"]) == 6 * PARIS_LINE
    assert json.loads(json.dumps(bench.answer("3 Paris lines").data()))["notes"][0].startswith(
        "Paris lines: about 2.255829 mm each"
    )
