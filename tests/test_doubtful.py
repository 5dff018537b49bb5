"""Forms that a maker may mean in two ways: refused, or read with a sentence that says how."""

from __future__ import annotations

import csv

import pytest
from doubtful_forms import ONE_MEANING, TWO_MEANINGS
from over_all import over

from fractions_shop import DoubtfulReading, Session, ShopError, read
from fractions_shop.command.column import Column
from fractions_shop.errors import InputError
from fractions_shop.language.notes import Note

#: Each with what else it could have been meant for.
DOUBTFUL = {
    '2-1/32"': "a subtraction",
    "5'-3 1/2\"": "a subtraction",
    "2 - 1/32 in": "the mixed number",
    "5ft-3in": "feet and inches, or a subtraction",
    "5 ft-3 in": "feet and inches, or a subtraction",
    "1 / 2 in": "half an inch",
    "1 /2 in": "half an inch",
    "1/ 2 in": "half an inch",
    "2 in^2": "2 square inches",
    "1/4-20": "a subtraction",
    "6 BA": "the whole thread",
    "51,5 mm": "two figures",
    "1,000 mm": "a thousand",
    "2 tenths": "0.1 in, 0.0001 in or 0.1 mm",
    "3 mil": "a millimetre",
    "2 in 3": "feet and inches, a product",
    "2 in +1/-2": "thou",
    "2 in ± 1": "thou",
    "1/2/4 in": "an eighth of an inch",
    "1.5/2 in": "3/4 in",
    "2.5/2 in": "5/4 in",
    "1½/2 in": "3/4 in",
    "1/2.5 in": "0.4 in",
    "1.1/2 in": "1 1/2 in",
    "1/2 / 2 in": "1/4 in",
    "6 / 1/2 in": "how many halves go into 6 in",
    ".501/.499 in": "two limits, one above the other",
    "10 mm +0.1 mm / -0.2": "limits",
    "2 in +0.1 in / -0.2": "limits",
    "2 in +1/64 in / -2": "limits",
    "2 in + - 1/64 in": "limits",
    "2 in -+ 1/64 in": "limits",
    "5' - 3\"": "5 ft 3 in",
    "5'- 3\"": "5 ft 3 in",
    "5' -3\"": "5 ft 3 in",
    "5' ± 1/8": "an eighth of an inch, not of a foot",
    "1 / 2 in ± 1/64 in": "half an inch with limits",
    "1/-2 in ± 1/64 in": "minus half an inch with limits",
    "10-32": "the thread",
    "2-56": "the thread",
    "2 in ± 1 mm^2": "a square",
    "2 mm ± 1/64": "a 64th of an inch",
}


@over(DOUBTFUL)
def test_a_doubtful_form_is_refused_or_says_how_it_was_read(text: str) -> None:
    try:
        answer = Session().answer(text)
    except InputError:
        return
    assert answer is not None
    assert answer.notes, f"{text} may be {DOUBTFUL[text]}, and nothing is said"


def test_feet_and_inches_lend_the_inch_to_their_limits() -> None:
    """A spread without a unit after 5'-3\" is in inches if it is read at all."""
    for text in ("5'-3\" +- 1/8", "5 ft 3 in ± 1/8", "5' 3\" +1/8/-0"):
        try:
            answer = Session().answer(text)
        except InputError:
            continue
        assert answer is not None
        assert answer.value.plus.inch * 8 == 1, text  # type: ignore[union-attr]


# A note is an echo, a doubt or a remark, and a doubt goes wherever the size goes


def doubts(text: str) -> tuple[Note, ...]:
    answer = Session().answer(text)
    assert answer is not None
    return answer.doubts


@over(TWO_MEANINGS)
def test_a_form_of_two_meanings_has_a_doubt_with_statements_that_leave_none(text: str) -> None:
    taken, other = TWO_MEANINGS[text]
    (doubt,) = doubts(text)
    answer = Session().answer(text)
    assert answer is not None
    assert doubt.text in answer.text(1000)
    assert answer.data()["doubts"] == [doubt.text]
    assert doubt.text in answer.data()["notes"]
    values = [read(statement) for statement in doubt.meanings]  # none is refused, so none is doubtful
    assert values[0] == answer.value == read(taken)
    assert not other or read(other) in values


@over(ONE_MEANING)
def test_a_form_of_one_meaning_has_no_doubt(text: str) -> None:
    assert doubts(text) == ()
    answer = Session().answer(text)
    assert answer is not None
    assert answer.value == read(text)


@over(TWO_MEANINGS)
def test_read_refuses_a_doubtful_form_and_offers_each_meaning(text: str) -> None:
    (doubt,) = doubts(text)
    with pytest.raises(InputError, match="more than one meaning") as caught:
        read(text)
    assert doubt.text in caught.value.message
    for statement in doubt.meanings:
        assert statement in caught.value.advice


@over(TWO_MEANINGS)
def test_read_takes_a_doubtful_form_with_a_warning_when_asked_to(text: str) -> None:
    (doubt,) = doubts(text)
    with pytest.warns(DoubtfulReading) as told:
        size = read(text, doubtful="note")
    assert [str(each.message) for each in told] == [f"{text}: {doubt.text}"]
    assert size == read(TWO_MEANINGS[text][0])


def test_read_refuses_a_naming_and_an_unknown_wish() -> None:
    with pytest.raises(InputError, match="names a size x"):
        read("x = 3")
    with pytest.raises(ShopError, match="'refuse' or 'note'"):
        read("2 in", doubtful="never")


def cells(text: str, doubtful: str) -> tuple[Column, dict[str, str]]:
    column = Column("size", unit="in", delimiter="|", doubtful=doubtful)
    written = text.replace('"', '""')
    (row,) = csv.DictReader(column.widen(["size\n", f'"{written}"\n']), delimiter="|")
    assert row["size"] == text
    return column, row


@over([*TWO_MEANINGS, "x = 3"])
def test_a_column_has_a_fault_for_a_doubtful_form(text: str) -> None:
    column, row = cells(text, "fault")
    assert row["fault"]
    assert not row["inch"]
    assert column.bad == 1


def in_inches(text: str) -> str:
    """What a column with inches for its plain numbers should say, or nothing for what is no length."""
    size = read(TWO_MEANINGS[text][0])
    return str(float(size.inch if size.power else size.value)) if size.power in (0, 1) else ""  # type: ignore[union-attr]


@over(TWO_MEANINGS)
def test_a_column_takes_a_doubtful_form_and_tells_of_it_when_asked_to(text: str) -> None:
    (doubt,) = doubts(text)
    column, row = cells(text, "note")
    if in_inches(text):
        assert doubt.text in row["doubt"]
        assert float(row["inch"]) == pytest.approx(float(in_inches(text)), abs=1e-6)
        assert (column.bad, column.doubted) == (0, 1)
    else:
        assert row["fault"]


def test_an_echo_is_no_fault_in_a_column() -> None:
    for doubtful in ("fault", "note"):
        column, row = cells('2-1/32"', doubtful)
        assert (row["inch"], row["fault"], row.get("doubt", "")) == ("2.03125", "", "")
        assert (column.bad, column.doubted) == (0, 0)


def test_a_column_that_is_asked_for_something_else_is_refused() -> None:
    with pytest.raises(ShopError, match="'fault' or 'note'"):
        Column("size", doubtful="never")


@pytest.mark.parametrize(
    ("typed", "meant"),
    {
        "1 in + (2 / -3 in)": "1 in + (-2/3 in)",
        "1 in + (2 / 3 in)": "1 in + 2/3 in",
        "1 in - 2 / 3 in": "1 in - 2/3 in",
        "1 mm - (-2 / 3 mm)": "1 mm + 2/3 mm",
        "1 in + (-2 / -3 in)": "1 in + 2/3 in",
        "1 in + (1.5 / 3 in)": "1 1/2 in",
        "10 / 2.5 in - 1 in": "3 in",
    }.items(),
)
def test_a_division_beside_a_length_offers_the_length_that_was_meant(typed: str, meant: str) -> None:
    with pytest.raises(InputError, match="number per length") as caught:
        Session().answer(typed)
    (offer,) = caught.value.advice.offers  # type: ignore[attr-defined]
    error = caught.value
    assert read(f"{typed[: error.start]}{offer.text}{typed[error.end :]}") == read(meant)


@pytest.mark.parametrize("equals", ["=", " = ", "＝", " ＝ "])
def test_a_named_size_is_refused_by_read_with_what_stands_behind_its_name(equals: str) -> None:
    with pytest.raises(InputError, match="names a size pitch") as caught:
        read(f"pitch{equals}2 1/32 in")
    assert caught.value.advice == "write 2 1/32 in"
    assert caught.value.text[: caught.value.end].strip().endswith(equals.strip())


@pytest.mark.parametrize(
    "typed",
    ["bay reads 10.3 mm", "p = divide 2 in into 5", "p = places 1 in, 2 in", "a, b = recover 10 mm, 20 mm", "p = snap 10.3 mm"],
)  # fmt: skip
def test_a_named_request_is_no_size_and_read_offers_no_request(typed: str) -> None:
    with pytest.raises(InputError) as caught:
        read(typed)
    assert (caught.value.message, caught.value.start, caught.value.end) == (
        "this is not a size",
        0,
        len(typed),
    )


@pytest.mark.parametrize(
    "front", ["1", "2", "3", "8", "10", "12", "1/4", "3/8", "0.375", ".500", "5/16", "1 1/2"]
)
@pytest.mark.parametrize("dash", ["-", " - "])
def test_what_a_dash_is_told_to_be_written_as_can_be_read(front: str, dash: str) -> None:
    for tpi in range(4, 81):
        try:
            answer = Session().answer(f"{front}{dash}{tpi}")
        except InputError:
            continue
        assert answer is not None
        for found in answer.doubts:
            assert found.meanings
            assert all(read(statement) is not None for statement in found.meanings), found
            if "write" in found.text:
                assert found.meanings[-1] in found.text


@pytest.mark.parametrize("size", ["9/0 in -19", "2 33/32 in -46"])
def test_what_is_no_fraction_is_not_taken_for_a_screw(size: str) -> None:
    with pytest.raises(InputError):
        Session().answer(f"{size}⅚/+948.9665 t.p.i.")
