"""Laws under hostile input: an answer or a fault in words, whatever is typed, and nothing else.

`tests/bench/fuzz.py` does the same by the million, and times it.
"""

from __future__ import annotations

import csv
import io
import json
import unicodedata
from random import Random

import bent_text
import hostile
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fractions_shop import Session, read
from fractions_shop.command.column import Column, HeaderError
from fractions_shop.errors import InputError, ShopError, cells, visible
from fractions_shop.layout.bulk import plain_pair
from fractions_shop.show.sheet import Sheet
from fractions_shop.size.limits import Limits
from fractions_shop.size.notation import as_meant, read_plain

randoms = st.randoms(use_true_random=False)
#: Kinds of character that a terminal acts upon, or that turn a line about.
OBEYED = {"Cc", "Cf", "Cs", "Zl", "Zp"}
#: Names that a sitting begins with, so that lines which draw on names have some.
FIRST = ("a = 2 1/32 in", "b = 10 mm ± 2 thou", "pitch = 13/32 in", "width = 3", "bay = 12 deg")


def answered(bench: Session, text: str) -> None:
    """Ask, and look at all of the answer or of the fault."""
    answer, fault = None, None
    try:
        answer = bench.answer(text)
    except InputError as error:
        fault = error
    if fault is not None:
        assert fault.message
        assert 0 <= fault.start <= len(text)
        assert not OBEYED.intersection(
            map(unicodedata.category, str(fault).translate(dict.fromkeys(b"\t\n")))
        )
    if answer is not None:
        assert answer.text()
        assert answer.data() == json.loads(json.dumps(answer.data(), allow_nan=False))


def sitting() -> Session:
    bench = Session()
    for row in FIRST:
        bench.answer(row)
    return bench


@given(randoms, st.sampled_from(sorted(hostile.KINDS)))
@settings(max_examples=400)
def test_a_line_is_answered_or_refused_in_words(r: Random, kind: str) -> None:
    answered(sitting(), hostile.KINDS[kind][1](r))


@given(randoms)
@settings(max_examples=30)
def test_a_sitting_of_many_lines_is_answered_or_refused_in_words(r: Random) -> None:
    bench = sitting()
    for _ in range(12):
        answered(bench, hostile.line(r)[1])


@given(st.text(max_size=60) | st.text(alphabet=st.characters(), max_size=12))
@settings(max_examples=300)
def test_any_text_at_all_is_answered_or_refused_in_words(text: str) -> None:
    answered(Session(), text)


@given(st.text(max_size=40) | randoms.map(lambda r: hostile.line(r)[1]))
def test_the_plain_readers_answer_or_leave_it(text: str) -> None:
    size, pair = read_plain(text), plain_pair(text)
    if pair is not None:
        assert size is not None
        assert size.power == 1
        assert size.mm * pair[1] == pair[0]


@given(randoms.map(lambda r: hostile.line(r)[1]))
def test_read_gives_a_size_or_refuses_in_words(text: str) -> None:
    try:
        size = read(text)
    except InputError:
        return
    assert isinstance(size, Limits) or size.value.denominator > 0


@given(st.text(max_size=80))
def test_the_signs_made_plain_stand_where_they_stood(text: str) -> None:
    assert len(as_meant(text)) == len(text)


@given(st.text(max_size=200), st.integers(0, 200), st.integers(0, 200))
def test_a_fault_draws_its_caret_under_some_place_of_the_line(text: str, start: int, end: int) -> None:
    *_, line, caret = str(InputError("wrong", text, start, end)).split("\n")
    assert caret.strip("^ ") == ""
    assert cells(caret) <= max(cells(line), 2) + 2


TEXTS = bent_text.Texts.read()


@given(randoms)
@settings(max_examples=40)
def test_a_real_sitting_spoilt_is_answered_or_refused_in_words(r: Random) -> None:
    bench = Session()
    for line in bent_text.Sitting(r, TEXTS).lines():
        answered(bench, line)
        try:
            read(line)
        except ShopError:
            continue


@given(randoms)
@settings(max_examples=10)
def test_a_real_sheet_spoilt_is_written_in_every_form(r: Random) -> None:
    job = Sheet.from_text(bent_text.spoilt_sheet(r, TEXTS)).run()
    for made in (job.to_text(), job.to_markdown(), job.to_csv(), job.to_html()):
        assert made == visible(made, keep="\t\n\r")
    assert json.loads(job.to_json())


@given(randoms)
@settings(max_examples=60)
def test_a_sheet_is_worked_out_whatever_stands_in_it(r: Random) -> None:
    text = hostile.sheet(r, 16)
    job = Sheet.from_text(text).run()
    assert job.ok == (not job.faults and not job.waiting and all(c.holds for c in job.checks))
    for made in (job.to_text(), job.to_markdown(), job.to_csv(), job.to_html()):
        assert not {"Cc", "Cs"}.intersection(
            map(unicodedata.category, made.translate(dict.fromkeys(b"\t\n\r")))
        )
    assert json.loads(job.to_json())


@given(randoms)
@settings(max_examples=100)
def test_a_column_keeps_every_row_or_says_what_is_wrong_with_its_header(r: Random) -> None:
    lines = hostile.column(r)
    comma = next((sign for sign in ";\t" if sign in lines[0]), ",")
    column = Column("size", unit="mm", delimiter=comma)
    try:
        done = list(column.widen(lines))
    except HeaderError:
        return
    assert column.bad <= column.rows
    assert (column.first_fault is None) == (column.bad == 0)
    # What is bad is marked so, and what is widened can be read as CSV again.
    assert list(
        csv.reader(io.StringIO("".join(done).replace("\r", "\n"), newline=None), delimiter=column.delimiter)
    )


#: What once came out as Python's own error, hung, or took a blink: each is answered or refused now.
ONCE_BROKE = (
    "taper_angle(1 in, 3 deg, 2 in)",
    "tapping(6 BA, 30 deg)",
    "tapping(6 BA, 2 in)",
    "radius_from(3 deg, b)",
    "sagitta(b, 3 deg)",
    "3 cm ± 1/8 in^-1 as mm",
    "1/(3 cm ± 1/8 in) as mm",
    "ſnap 1 in",
    "3 16thſ",
    "3 16thſ ± 1 64thſ",
    "3 1" + "0" * 60 + "ths",
    "dıvıde 2 in İnto 5 up",
    "mar\u212a 2 in into 2",
    "7 ft -5/-3 mm / (3 in)",
    "(3 cm ± 1/8 in) / (2 in ± 1/8 in)",
    "crown 3 across 0.00000000000000000000000000000000000001 mm radius 9999999999999999999999999999999999999999 km",
    "recover 9999999999999999999999999999999999999999 km within 0.00000000000000000000000000000000000001 mm",
    "1 " + "9" * 998,
    "1 " + "1." * 499,
    "2 in 1" + "0" * 990,
    "mark 2 in into 10000",
    "bolt_circle(1000, 2 in)",
    "crown 1000 across 1 mm radius 10 m",
    "recover " + ", ".join(f"{n}.5 mm" for n in range(1, 90)),
    "snap 1.2345 in to 98280ths within 0.00001 in",
    "pack 7 544/1000 m from 2/140ft",
    "pack 1 in from 0.0000000000000000000001 mm, 1/3 mm, 1/7 in",
    "recover 1/3 in, 2/7 in, 1000000 in within 10 in",
    "divide 1" + "0" * 38 + " in into 4 between any",
    "share 1" + "0" * 38 + " in among 4 and 2",
)


@pytest.mark.parametrize("text", ONCE_BROKE, ids=lambda text: text[:30])
def test_what_once_broke_is_answered_or_refused_in_words(text: str) -> None:
    answered(sitting(), text)


def test_figures_that_grow_step_by_step_are_refused_before_they_are_too_long_to_show() -> None:
    bench = sitting()
    long = ["9" * 38 + end for end in ("61", "87", "33", "73")]
    for name, one, two in zip("pqrs", long, long[1:] + long[:1], strict=True):
        answered(bench, f"{name} = 1 in*({one})^4/({two})^4")
        answered(bench, f"{name}{name} = 1 in/{one}")
    for text in (
        "t = p ± q/1000000", "u = q ± r/1000000", "check p = q", "check p = q within r", "pack 1 in from p, q, r, s", "t + u",
        "t * u", "t / u", "hypot(t, u)", "abs(-t)", "divide q into 3 leaving pp each end between rr", "mark p into 300 from q",
        "crown 3 across pp radius q", "recover p, q, pp", "recover p worn q", "identify p, qq", "t as mm", "1 in ± pp",
    ):  # fmt: skip
        answered(bench, text)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("mark 2 in into 501", "one answer sets out at most 500 spaces"),
        ("crown 101 across 1 mm radius 10 m", "one answer sets out at most 100 supports"),
        ("bolt_circle(501, 2 in)", "one answer sets out at most 500 places"),
        ("recover " + ", ".join(["1 mm"] * 13), "at most 12 readings are weighed in one line"),
        ("1 in / (9999999999^30) * 1 in", "a length of this size is nothing that can be made"),
        (
            "recover 1 mm, 2 mm, 3 mm, 4 mm among drills",
            "at most 3 readings are weighed in one line among tables",
        ),
        ("tapping(6 BA, 30 deg)", "how much thread is a plain number of percent, such as 65"),
    ],
)
def test_what_no_answer_can_show_is_refused(text: str, said: str) -> None:
    with pytest.raises(ShopError) as caught:
        Session().answer(text)
    assert isinstance(caught.value, InputError)
    assert caught.value.message == said
