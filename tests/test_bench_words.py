"""What is asked in bench words, and requests with a slip in them: each is offered the statement that it means."""

from __future__ import annotations

from fractions import Fraction

import pytest

from fractions_shop import InputError, Quantity, Session, read
from fractions_shop.language import grammar
from fractions_shop.language.advice.bench_words import FORMS, GOES_ON, request_word, statements
from fractions_shop.language.advice.gate import figures
from fractions_shop.language.advice.offers import Advice

#: A line of each form, and the statements that it may mean, likeliest first.
ASKED = {
    "what drill for 6 BA": ("tapping(6 BA)", "clearance(6 BA)"),
    "which drill for M3?": ("tapping(M3)", "clearance(M3)"),
    "tap drill for 1/4 BSW": ("tapping(1/4 BSW)",),
    "tapping size for 2 BA": ("tapping(2 BA)",),
    "clearance hole for 4 BA": ("clearance(4 BA)",),
    "what is the pitch of 6 BA": ("pitch(6 BA)",),
    "major diameter of 1/4 BSW": ("major(1/4 BSW)",),
    "nearest drill to 2.36 mm": ("drill 2.36 mm",),
    "what gauge is 0.048 in": ("gauge 0.048 in",),
    "what thread is 0.108 in, 48 tpi": ("identify 0.108 in, 48 tpi",),
    "how many 1/8 shims in 1 in": ("pack 1 in from 1/8 in",),
    "how many 1/16 in shims in 1 in": ("pack 1 in from 1/16 in",),
    "how many 13/32 in in 2 in": ("2 in / (13/32 in)",),
    "12 @ 13/32 in": ("12 of 13/32 in", "12 * 13/32 in"),
    "12 x 13/32 in": ("12 of 13/32 in", "12 * 13/32 in"),
    "2 x 3 1/2 in": ("2 of 3 1/2 in", "2 * 3 1/2 in"),
    "mark 2 in every 13/32 in": ("divide 2 in into spaces of about 13/32 in",),
    "divide 40 in into 5 leaving 1 in and 2 in": ("divide 40 in - (1 in) - (2 in) into 5",),
    "mark 40 in for 3 of 1 in leaving 1 1/2 in, 2 in": ("mark 40 in - (1 1/2 in) - (2 in) for 3 of 1 in",),
    "divide 40 in into 5 leaving 1 in at one end": (
        "divide 40 in into 5 leaving 1 in each end",
        "divide 40 in - (1 in) into 5",
    ),
    "10h7": ("fit 10 mm h7",),
    "Ø10 H7/g6": ("fit 10 mm H7/g6",),
    "devide 2 in into 5": ("divide 2 in into 5",),
    "recovr 51.5 mm": ("recover 51.5 mm",),
    "thred 6 BA": ("thread 6 BA",),
    "chekc 2 in = 50.8 mm": ("check 2 in = 50.8 mm",),
    "pitch = devide 2 in into 5": ("pitch = divide 2 in into 5",),
    "idnetify 0.108 in, 48 tpi": ("identify 0.108 in, 48 tpi",),
}


@pytest.mark.parametrize("line", ASKED)
def test_a_plain_form_is_a_fault_that_offers_what_it_means(line: str) -> None:
    with pytest.raises(InputError) as caught:
        Session().answer(line)
    advice = caught.value.advice
    assert isinstance(advice, Advice)
    assert tuple(offer.text for offer in advice.offers) == ASKED[line]
    with pytest.raises(InputError):
        read(line)


@pytest.mark.parametrize("line", ASKED)
def test_every_statement_offered_is_answered_and_holds_the_figures_typed(line: str) -> None:
    for text in ASKED[line]:
        assert Session().answer(text) is not None
        assert sorted(map(str, figures(text))) == sorted(map(str, figures(line)))


@pytest.mark.parametrize(
    ("line", "mm"),
    [("what drill for 6 BA", "2.3"), ("12 @ 13/32 in", "123.825"), ("how many 13/32 in in 2 in", "")],
)
def test_what_is_offered_first_comes_to_what_was_meant(line: str, mm: str) -> None:
    """The 2.3 mm drill for 6 BA is the usual one of workshop tables: from memory. The rest is arithmetic."""
    answer = Session().answer(ASKED[line][0])
    assert answer is not None
    value = answer.value
    assert isinstance(value, Quantity) or mm
    if mm:
        nominal = value if isinstance(value, Quantity) else value.nominal  # type: ignore[union-attr]
        assert nominal.mm == Fraction(mm)
    else:
        assert isinstance(value, Quantity)
        assert value.value == Fraction(64, 13)


def test_no_form_is_answered_by_itself_and_each_is_tried_here() -> None:
    tried = set()
    for line in ASKED:
        for form in FORMS:
            if next(iter(statements(line, (form,), grammar.accepted)), None) is not None:
                tried.add(form.pattern)
                break
    assert len(tried) >= 12
    assert all(len(form.statements) >= 1 for form in (*FORMS, *GOES_ON))


def test_a_number_without_a_unit_is_given_none_but_for_a_fraction_of_an_inch() -> None:
    assert next(statements("how many 0.5 shims in 10 mm", FORMS, grammar.accepted), None) is None


@pytest.mark.parametrize(
    "line",
    ["rack 3/8 in", "back 3/8 in", "plates 1/16 in", "gouge 3/8 in", "drills 3/8 in", "tread 1 in", "shape 2 in", "dark 3/8 in",
     "cheek 3/8 in thick", "parts 1/2 in"],
)  # fmt: skip
def test_a_word_of_the_trade_is_no_slip_of_a_request(line: str) -> None:
    assert request_word(line.split()[0]) is None
    answer = Session().answer(line)
    assert answer is not None
    assert isinstance(answer.value, Quantity)


@pytest.mark.parametrize("word", ["divide", "into", "fit", "xyzzy", "width", "pitch", "of", "drill"])
def test_a_right_word_and_one_that_is_none_are_left_alone(word: str) -> None:
    assert request_word(word) is None


def test_a_name_that_looks_like_a_slip_goes_on_working() -> None:
    session = Session()
    session.answer("devide = 2 in")
    answer = session.answer("devide / 4")
    assert answer is not None
    assert answer.value == Quantity.inches(Fraction(1, 2))
