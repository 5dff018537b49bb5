"""What is asked in bench words, and requests with a slip in them: each is offered the statement that it means."""

from __future__ import annotations

from fractions import Fraction

import pytest

from fractions_shop import InputError, Quantity, Session, read
from fractions_shop.language import grammar
from fractions_shop.language.advice.bench_forms import FORMS, GOES_ON
from fractions_shop.language.advice.bench_words import request_word, statements
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
    "what metric for 6 BA": ("substitute 6 BA from metric",),
    "BSF equivalent of 1/4-28 UNF": ("substitute 1/4-28 UNF from BSF",),
    "how many slots of 1 1/4 in in 11 3/4 in": (
        "11 3/4 in / (1 1/4 in)",
        "divide 11 3/4 in into spaces of about 1 1/4 in",
    ),
    "10h7": ("fit 10 mm h7",),
    "Ø10 H7/g6": ("fit 10 mm H7/g6",),
    "devide 2 in into 5": ("divide 2 in into 5",),
    "recovr 51.5 mm": ("recover 51.5 mm",),
    "thred 6 BA": ("thread 6 BA",),
    "chekc 2 in = 50.8 mm": ("check 2 in = 50.8 mm",),
    "pitch = devide 2 in into 5": ("pitch = divide 2 in into 5",),
    "4 holes across 7 in, 3/4 in from each end": ("mark 7 in into 3 leaving 3/4 in each end",),
    "space 4 holes over 7 in": ("mark 7 in into 3", "mark 7 in into 5"),
    "6 holes on a 2 in circle": ("bolt_circle(6, 2 in)",),
    "bolt circle 2 in 6 holes": ("bolt_circle(6, 2 in)",),
    "7 in 5 equal parts": ("divide 7 in into 5",),
    "7 in / 5 on 32nds": ("divide 7 in into 5 on 32nds", "snap 7 in / 5 to 32nds"),
    "length := 7 in": ("length = 7 in",),
    "the length is 7 in": ("length = 7 in",),
    "10 mm to nearest 64th": ("snap 10 mm to 64ths",),
    "nearest 1/32 to 10 mm": ("snap 10 mm to 32nds",),
    "nearest drill 7.1 mm": ("drill 7.1 mm",),
    "letter drill F": ("letter F drill",),
    "fit H7/g6 at 6 mm": ("fit 6 mm H7/g6",),
    "what was 3.24 mm meant to be": ("recover 3.24 mm",),
    "recover 3.24 mm 3.19 mm 3.27 mm by caliper": ("recover 3.24 mm, 3.19 mm, 3.27 mm by caliper",),
    "identify thread 0.185 in 32 tpi": ("identify 0.185 in, 32 tpi",),
    "what thread is 4.7 mm dia 0.8 mm pitch": ("identify 4.7 mm, 0.8 mm",),
    "18 gauge brass": ("18 SWG", "18 AWG"),
    "1/32 short of 3/16": ("3/16 in - 1/32 in",),
    "1/4R": ("1/4 in",),
    "3/16 plus 1/32": ("3/16 in + 1/32 in",),
    "rise 1/2 in over 3 in": ("taper_per_foot(1/2 in, 0 in, 3 in)", "radius_from(3 in, 1/2 in)"),
    "taper from 1/2 in to 3/8 in over 3 in": (
        "taper_per_foot(1/2 in, 3/8 in, 3 in)",
        "taper_angle(1/2 in, 3/8 in, 3 in)",
    ),
    "arc 3 in rise 1/2 in": ("radius_from(3 in, 1/2 in)",),
    "radius of arc 3 in wide 1/2 in high": ("radius_from(3 in, 1/2 in)",),
    "divide 7 in into 5, 1/8 in between": (
        "divide 7 in into 5 between 1/8 in",
        "divide 7 in for 4 of 1/8 in",
    ),
    "circumference of 2 in circle": ("girth(2 in)",),
    "diagonal of 3 in by 4 in": ("hypot(3 in, 4 in)",),
    "max 1 in 2 in": ("max(1 in, 2 in)",),
    "least of 1 in, 2 in and 3 mm": ("min(1 in, 2 in, 3 mm)",),
    "sum 1 in 2 in 3 in": ("1 in + 2 in + 3 in",),
    "average of 1 in, 2 in": ("(1 in + 2 in) / 2",),
    "2 in * sin 30": ("2 in * sin(30 deg)",),
    "sin 30 * 2 in": ("sin(30 deg) * 2 in",),
    "1 m 20 cm": ("1 m + 20 cm",),
    "1 3\\8": ("1 3/8",),
    "1 000 mm": ("1000 mm",),
    "circumference of 2 in": ("girth(2 in)",),
    "pitch of 2 BA": ("pitch(2 BA)",),
    "clearance(M3, close)": ("thread M3", "clearance(M3)"),
    "close clearance hole for 2 BA": ("thread 2 BA", "clearance(2 BA)"),
    "free(M3)": ("thread M3", "clearance(M3)"),
    "recover 3.91 mm thread": ("recover 3.91 mm among threads",),
    "recover 3.91 mm among BA": ("recover 3.91 mm among threads",),
    "recover 0.048 in among SWG": ("recover 0.048 in among gauges",),
    "recover 38 mm outside diameter": ("recover 38 mm",),
    "identify 0.185 in x 32": ("identify 0.185 in, 32 tpi",),
    "mm first": ("units mm first",),
    "what is 10 mm": ("10 mm",),
    "what is 7/5 in": ("7/5 in",),
    "idnetify 0.108 in, 48 tpi": ("identify 0.108 in, 48 tpi",),
}


#: Of these a figure is worked out: spaces of the holes between which they lie, a rule of a fraction, a taper's end.
WORKED = {
    line for line in ASKED
    if "holes across" in line or "holes over" in line or line.startswith(("nearest 1/", "rise", "divide 7 in into 5,", "average", "1 3\\", "1 000"))
}  # fmt: skip

#: The same of a size that has a name, here 7 in.
OF_A_NAME = {
    "length x 2": ("length * 2",),
    "2 x length": ("2 * length",),
    "twice length": ("2 * length",),
    "half length": ("length / 2",),
    "width = length x 2/3": ("width = length * 2/3",),
    "width = length / 3 rounded to 32nds": ("width = snap length / 3 to 32nds",),
    "round up length to 16ths": ("snap length to 16ths up",),
    "snap length 16ths": ("snap length to 16ths",),
    "length within 1/64 in of 7 in": ("check length = 7 in within 1/64 in",),
    "length = 7 in within 1/64 in": ("length = 7 in ± 1/64 in", "check length = 7 in within 1/64 in"),
    "is length 7 in": ("check length = 7 in",),
    "check length fits 8 in": ("check length is at most 8 in",),
    "check length between 6 in and 8 in": ("check length is at least 6 in",),
    "check length about 7 in": ("check length = 7 in within 1/64 in",),
    "length / 2 - 1/8": ("1/8 in",),
    "length - 0.5": ("1/2 in", "0.5 mm"),
    "length - 3": ("3 in", "3 mm"),
}


@pytest.mark.parametrize("line", OF_A_NAME)
def test_what_is_asked_of_a_named_size_is_offered_and_answered(line: str) -> None:
    session = Session()
    session.answer("length = 7 in")
    with pytest.raises(InputError) as caught:
        session.answer(line)
    error = caught.value
    assert isinstance(error.advice, Advice)
    assert tuple(offer.text for offer in error.advice.offers) == OF_A_NAME[line]
    for text in OF_A_NAME[line]:
        whole = text if "length" in text else f"{line[: error.start]}{text}{line[error.end :]}"
        assert session.answer(whole) is not None
    if "about" in line:
        assert str(error.advice).startswith("write it like this: ")
    if "between" in line:
        assert "check length is at most 8 in on the next" in str(error.advice)


@pytest.mark.parametrize(
    ("line", "figure"),
    [
        ("rise 1/2 in over 3 in", "3 1/2"),
        ("slope 1/8 in over 1 ft", "1 1/8"),
        ("tapers 1/8 in under 1 ft", "7/8"),
    ],
)
def test_what_rises_over_a_length_is_not_added_to_it(line: str, figure: str) -> None:
    with pytest.raises(InputError) as caught:
        Session().answer(line)
    assert figure not in str(caught.value.advice)


@pytest.mark.parametrize("line", ["what is {} mm", "what's {} in", "convert {} thou", "how much is {} mm"])
@pytest.mark.parametrize("figure", ["10", "7/5", "3 1/2", "0.5", "25.4"])
def test_what_is_a_size_is_the_size_in_its_own_unit(line: str, figure: str) -> None:
    """The unit is the size's, and not the one to show another in: 10 mm was offered as 10 in once."""
    with pytest.raises(InputError) as caught:
        Session().answer(line.format(figure))
    if isinstance(caught.value.advice, Advice):
        size = line.split("{}")[1].strip()
        assert [read(offer.text) for offer in caught.value.advice.offers] == [read(f"{figure} {size}")]


@pytest.mark.parametrize(
    ("line", "meanings"),
    [
        ("1.3/8 in", ["1.3 / (8 in)", "0.1625 in", "1 3/8 in"]),
        ("2.1/32", ["2.1 / (32)", "2 1/32"]),
        ("1.5/3", []),
        ("1.9/8", []),
    ],
)
def test_a_point_may_part_a_whole_from_its_fraction(line: str, meanings: list[str]) -> None:
    """Common practice, no source: 1.3/8 is one and three eighths in some hands."""
    answer = Session().answer(line)
    assert answer is not None
    assert [meaning for note in answer.notes for meaning in note.meanings] == meanings
    values = [Session().answer(text) for text in meanings]
    assert all(values)
    assert not values or values[0].value == answer.value  # type: ignore[union-attr]


def test_a_sum_with_such_a_fraction_is_not_led_to_the_quotient_alone() -> None:
    with pytest.raises(InputError) as caught:
        Session().answer("1.3/8 in + 1/8 in")
    assert isinstance(caught.value.advice, Advice)
    assert [offer.text for offer in caught.value.advice.offers] == ["1 3/8 in", "0.1625 in"]


@pytest.mark.parametrize(
    "line",
    ["what is 10 mm", "what is 2 1/32 in", "this is 10 mm", "which is 3/8 in", "it is 3 mm", "how is 1 in"],
)
def test_no_word_of_a_question_is_made_a_name(line: str) -> None:
    """At the prompt, too, where what is offered is put in place of the line."""
    offered = [offer.text for _, offer in statements(line, FORMS, grammar.accepted)]
    assert not any("=" in text for text in offered)
    assert offered == ([line.removeprefix("what is ")] if line.startswith("what is") else [])


def test_a_label_with_a_colon_says_how_a_name_is_given() -> None:
    answer = Session().answer("height: 7 in")
    assert answer is not None
    assert "to name it, write height = 7 in" in [note.text for note in answer.notes]


def test_a_hole_for_a_wood_screw_is_not_the_body_of_it_without_a_word() -> None:
    answer = Session().answer("hole for No 6 wood screw")
    assert answer is not None
    assert any(note.kind == "doubt" and "pilot hole" in note.text for note in answer.notes)
    alone = Session().answer("a No 6 wood screw")
    assert alone is not None
    assert not any("pilot hole" in note.text for note in alone.notes)


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
        if line not in WORKED:
            assert sorted(map(str, figures(text))) == sorted(map(str, figures(line)))


@pytest.mark.parametrize(
    ("line", "offered"),
    [
        # An angle of two ends and a length, with an end of nought put in: 2 atan(1/24) is 4 deg 46 min 19 s.
        ("taper 1 in 12", ["taper_angle(1 in, 0 in, 12 in)", "taper_per_foot(1 in, 0 in, 12 in)"]),
        ("what is the taper of 1:20", ["taper_angle(1 in, 0 in, 20 in)", "taper_per_foot(1 in, 0 in, 20 in)"]),
        ("taper 1/2 in per ft", ["1/2 in per ft", "taper_angle(1/2 in, 0 in, 1 ft)"]),
        ("divide 12 in into 7 slots of 1 1/4 in", ["divide 12 in for 7 of 1 1/4 in", "divide 12 in into 7"]),
        ("divide 12 in into 6 with bars of 1/4 in", ["divide 12 in into 6 between 1/4 in", "divide 12 in for 5 of 1/4 in"]),
        ("tapping(9 mm x 1.1 mm)", ["tapping(9 mm x 1.1 mm metric form)"]),
        (
            "minor(5/16 x 27 tpi)",
            ["minor(5/16 in x 27 tpi unified form)", "minor(5/16 in x 27 tpi Whitworth form)"],
        ),
        ("divide 12 in into 7 slots", ["7"]),
        ("mark 12 in into 7 bays on 32nds", ["7"]),
        ("recover 2.03 in by vernier caliper", ["recover 2.03 in by caliper"]),
        ("a reads 2.03 in with a digital calliper", ["a reads 2.03 in by calliper"]),
    ],
)  # fmt: skip
def test_what_is_offered_for_other_words_is_answered(line: str, offered: list[str]) -> None:
    with pytest.raises(InputError) as caught:
        Session().answer(line)
    error = caught.value
    assert isinstance(error.advice, Advice)
    assert [offer.text for offer in error.advice.offers] == offered
    for text in offered:
        whole = f"{line[: error.start]}{text}{line[error.end :]}" if text.isdigit() else text
        assert Session().answer(whole) is not None


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("what metric for breakfast", "not 'metric'"),
        ("tapper_angle(1, 12)", "the function is called taper_angle here, and is written like this: taper_angle("),
        ("help readings", "help is not a statement: it belongs to the prompt"),
        ("help by", "type fractions-shop help by"),
        ("slat by", "expected a sign such as + or /, as, '=', reads or the end of the line, not 'by'"),
        ("stock brass: 1/16 in x 13/16 in, 3 ft long", "begins with stock belongs in a sheet"),
        ("part plate: 1, 2 in by 3 in", "begins with part belongs in a sheet"),
    ],
)  # fmt: skip
def test_a_refusal_says_what_is_wrong_and_no_more(line: str, said: str) -> None:
    with pytest.raises(InputError) as caught:
        Session().answer(line)
    assert said in str(caught.value)
    assert "write each size with its unit" not in str(caught.value)


@pytest.mark.parametrize("word", ["calliper", "vernier", "callipers", "caliper"])
def test_an_instrument_has_its_other_words(word: str) -> None:
    readings = [Session().answer(f"recover 2.031 in by {tool}") for tool in (word, "caliper")]
    assert readings[0] is not None
    assert readings[1] is not None
    assert readings[0].text() == readings[1].text()


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


@pytest.mark.parametrize("request_of", ["thread", "substitute"])
def test_a_wood_screw_asked_for_as_a_thread_is_offered_by_its_country(request_of: str) -> None:
    for written, names in (
        ("No 8 wood screw", ["US No 8 wood screw", "British No 8 wood screw"]),
        ("British No 8 woodscrew", ["British No 8 wood screw"]),
    ):
        with pytest.raises(InputError) as caught:
            Session().answer(f"{request_of} {written}")
        assert isinstance(caught.value.advice, Advice)
        assert [offer.text for offer in caught.value.advice.offers] == names


@pytest.mark.parametrize(
    ("line", "meant"),
    [
        ("recover 51.5 mm, within 0.1 mm", "recover 51.5 mm within 0.1 mm"),
        ("recover 51.5 mm, 66.7 mm, scale 1:2", "recover 51.5 mm, 66.7 mm scale 1:2"),
        ("recover 51.5 mm, 66.7 mm, by caliper, in inch work", "recover 51.5 mm, 66.7 mm by caliper in inch work"),
        ("rack reads 51.5 mm, scale 1:2", "rack reads 51.5 mm scale 1:2"),
        ("mark 2 in into 5, from 1/8 in", "mark 2 in into 5 from 1/8 in"),
        ("places 1 in, 2 in, along 3 in", "places 1 in, 2 in along 3 in"),
        ("check 1 in = 2 in, within 1/64 in", "check 1 in = 2 in within 1/64 in"),
        ("divide 2 in into 5, on 32nds", "divide 2 in into 5 on 32nds"),
    ],
)  # fmt: skip
def test_a_comma_before_a_smaller_word_is_one_too_many(line: str, meant: str) -> None:
    """It was told that the sizes of a list are parted by commas."""
    with pytest.raises(InputError) as caught:
        Session().answer(line)
    assert caught.value.message == "the smaller words of a request stand behind it without a comma"
    assert caught.value.advice == f"write {meant}"
