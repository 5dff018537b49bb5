"""Threads as written: what is read, what is left to others, and what is refused."""

from __future__ import annotations

import contextlib
import pickle
import re
import subprocess
import sys
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from over_all import over

from fractions_shop import read
from fractions_shop.errors import InputError, ShopError
from fractions_shop.size.notation import decimal
from fractions_shop.threads.lookup import SharedName, UnknownThread, thread, threads_named
from fractions_shop.threads.lookup import title as in_full
from fractions_shop.threads.names import THREAD_PATTERN, looks_like_thread, read_name
from fractions_shop.threads.records import BY_KEY, SERIES, plain
from fractions_shop.threads.series import all_threads, of_series


@pytest.mark.parametrize(
    ("written", "name"),
    [
        ("6 BA", "6 BA"),
        ("6BA", "6 BA"),
        ("No. 6 B.A.", "6 BA"),
        ("no 6 ba", "6 BA"),
        ("1/4 BSW", "1/4 BSW"),
        ('1/4" Whit', "1/4 BSW"),
        ("1/4″ Whit.", "1/4 BSW"),
        ("1/4 Whitworth", "1/4 BSW"),
        ("1/4 W", "1/4 BSW"),
        ("BSW 1/4", "1/4 BSW"),
        ("¼ BSW", "1/4 BSW"),
        ("1-1/8 BSW", "1 1/8 BSW"),
        ("1 1/8 in BSW", "1 1/8 BSW"),
        ("1½ BSW", "1 1/2 BSW"),
        ("1/4 x 26 BSF", "1/4 BSF"),
        ("1/4 × 26 BSF", "1/4 BSF"),
        ("1/4 BSF 26 tpi", "1/4 BSF"),
        ("1/4-20", "1/4-20 UNC"),
        ("1/4-20 UNC", "1/4-20 UNC"),
        ("1/4 - 20 UNC", "1/4-20 UNC"),
        ("1/4-20 UNC-2A", "1/4-20 UNC"),
        (".250-20 UNC", "1/4-20 UNC"),
        ("1/4-28 NF", "1/4-28 UNF"),
        ("1 1/8-7 UNC", "1 1/8-7 UNC"),
        ("1-8 UNC", "1-8 UNC"),
        ("2-4.5 UNC", "2-4.5 UNC"),
        ("2-4 1/2 UNC", "2-4.5 UNC"),
        ("#6-32", "No 6-32 UNC"),
        ("No 6-32 UNC", "No 6-32 UNC"),
        ("6-32", "No 6-32 UNC"),
        ("No 10-24", "No 10-24 UNC"),
        ("0.138-32", "No 6-32 UNC"),
        ("M3", "M3"),
        ("m3", "M3"),
        ("M3x0.5", "M3"),
        ("M3 × 0.5", "M3"),
        ("M8 x 1", "M8 x 1"),
        ("M8X1-6g", "M8 x 1"),
        ("M10-1.25", "M10 x 1.25"),
        ("G1/4", "G 1/4"),
        ("G 1 1/4 A", "G 1 1/4"),
        ("1/4 BSP", "G 1/4"),
        ("1/4 BSPP", "G 1/4"),
        ("1/4 BSPT", "R 1/4"),
        ("R 1/4", "R 1/4"),
        ("Rc1/4", "R 1/4"),
        ("5/16-26 BSC", "5/16-26 BSC"),
        ("5/16 CEI", "5/16-26 BSC"),
        ("5/16 x 40 ME", "5/16 x 40 ME"),
        ("1/4x40", "1/4 x 40 ME"),
        ("1/4 BSB", "1/4 BSB"),
        ("1/4 brass", "1/4 BSB"),
        ("1/8 NPT", "1/8 NPT"),
    ],
)
def test_reads(written: str, name: str) -> None:
    assert thread(written).name == name


NAMES = st.sampled_from([one.name for one in all_threads()])


@given(NAMES, st.booleans(), st.booleans())
def test_case_and_blanks_are_free(name: str, small: bool, wide: bool) -> None:
    written = name.lower() if small else name
    if wide:
        written = "  " + written.replace(" ", "   ") + " "
    assert thread(written).name == name


@given(NAMES)
def test_every_name_is_spotted_in_an_expression(name: str) -> None:
    assert looks_like_thread(name)


# Shared and unknown names


@pytest.mark.parametrize(
    ("written", "names"),
    [
        ("1/4-20", ["1/4-20 UNC", "1/4 BSW"]),
        ("1/4 BSP", ["G 1/4", "R 1/4"]),
        ("1/4 x 26", ["1/4 BSF", "1/4-26 BSC", "1/4 BSB"]),
        ("3/16-32", ["3/16 BSF", "3/16-32 BSC", "3/16 x 32 ME"]),
        ("1 UNC", ["No 1-64 UNC", "1-8 UNC"]),
    ],
)
def test_a_shared_name_is_answered_with_all(written: str, names: list[str]) -> None:
    assert [one.name for one in threads_named(written)] == names


def test_custom_decides_and_the_other_is_named() -> None:
    assert thread("1/4-20").notes == (
        "the same name may mean 1/4 BSW, whose angle is 55 degrees: do not mix them",
    )
    assert thread("1/4 BSP").notes[-1] == "the same name may mean R 1/4"
    assert thread("1/4-20") == thread("1/4-20 UNC")


def test_where_custom_does_not_decide_the_writer_must() -> None:
    with pytest.raises(SharedName) as caught:
        thread("1/4 x 26")
    assert str(caught.value) == "'1/4 x 26' may be 1/4 BSF, 1/4-26 BSC or 1/4 BSB: write which"


@pytest.mark.parametrize(
    ("written", "told"),
    [
        ("26 BA", "there is no 26 BA: the nearest are 25 BA, 24 BA, 23 BA and 22 BA"),
        ("1/5 BSW", "there is no 1/5 BSW: the nearest are 3/16 BSW, 7/32 BSW, 5/32 BSW and 1/4 BSW"),
        (
            "1/4-24 UNC",
            "there is no 1/4-24 UNC: 1/4-20 UNC has 20 threads per inch; "
            "one of no list is given like this: 1/4 in x 24 tpi unified form",
        ),
        ("M13", "there is no M13: the nearest are M12 x 1, M14 x 1, M12 x 1.25 and M14 x 1.25"),
        (
            "M3x0.7",
            "there is no M3x0.7: M3 has a pitch of 0.5 mm or 0.35 mm; leave out the length of a screw",
        ),
        ("G 7", "there is no G 7: the nearest are G 6, G 5 1/2, G 5 and G 4 1/2"),
        ("R 7", "there is no R 7: the nearest are R 6, R 5, R 4 and R 3"),
        ("7 NPT", "there is no 7 NPT: the nearest are 6 NPT, 5 NPT, 4 NPT and 3 1/2 NPT"),
        ("6 1/8 BSP", "there is no 6 1/8 BSP: the nearest are G 6, R 6, G 5 1/2 and G 5"),
        # No 9 is made no more.
        (
            "No 9-28",
            "there is no No 9-28: No 9-24 ASME 1907 has 24 threads per inch, No 9-30 ASME 1907 has 30 threads per "
            "inch and No 9-32 ASME 1907 has 32 threads per inch",
        ),
        (
            "9 UNC",
            "there is no 9 UNC: the nearest are No 10-24 UNC, No 8-32 UNC, No 12-24 UNC and No 6-32 UNC",
        ),
        ("1.3 BSW", "there is no 1.3 BSW: the nearest are 1 1/4 BSW, 1 3/8 BSW, 1 1/8 BSW and 1 1/2 BSW"),
        (
            "0.3-24",
            "there is no 0.3-24: the nearest are 5/16-24 UNF, 5/16 BSF, 5/16 BSW and 5/16-18 UNC; "
            "one of no list is given like this: 0.3 in x 24 tpi unified form, or 0.3 in x 24 tpi Whitworth form",
        ),
        ("M7.3", "there is no M7.3: the nearest are M7 x 0.75, M7, M8 x 0.5 and M8 x 0.75"),
        ("M10x1.4", "there is no M10x1.4: M10 has a pitch of 1.5 mm, 1.25 mm, 1 mm, 0.75 mm or 0.5 mm"),
        (
            "M3x12",
            "there is no M3x12: M3 has a pitch of 0.5 mm or 0.35 mm; leave out the length of a screw",
        ),
        (
            "No 8-44",
            "there is no No 8-44: No 8-32 UNC has 32 threads per inch and No 8-36 UNF has 36 threads per inch",
        ),
    ],
)
def test_an_unknown_size_lists_the_nearest(written: str, told: str) -> None:
    with pytest.raises(UnknownThread) as caught:
        thread(written)
    assert str(caught.value) == told
    for name in caught.value.nearest:
        assert thread(name)


@pytest.mark.parametrize(
    "written", ["", "hello", "6 BAX", "1/0 BSW", "2 5/4 BSW", "1/4 BA", "M", "x" * 200, "6 BA 3"]
)
def test_what_is_no_name_is_refused_with_advice(written: str) -> None:
    with pytest.raises(InputError, match="expected the name of a thread") as caught:
        thread(written)
    assert "6 BA" in caught.value.advice


@given(st.text(max_size=80))
def test_any_text_is_a_thread_or_a_clear_error(text: str) -> None:
    with contextlib.suppress(ShopError):
        assert thread(text).name


def test_errors_survive_pickling() -> None:
    for written in ("26 BA", "1/4 x 26", "hello"):
        with pytest.raises(ShopError) as caught:
            thread(written)
        copy = pickle.loads(pickle.dumps(caught.value))
        assert str(copy) == str(caught.value)


def test_what_is_read_past_is_told() -> None:
    assert thread("M8x1-6g").notes == ("the tolerance class 6g was read past: figures are basic sizes",)
    assert "left hand" in thread("9/16-20 BSC LH").notes
    assert read_name("Rp 3/8").remarks == (
        "Rp is the parallel internal thread that an R taper thread enters",
    )


@pytest.mark.parametrize(
    ("name", "title"),
    [("6 BA", "British Association (BS 93)"), ("M8 x 1", "ISO metric, fine (ISO 261 and 724)")],
)
def test_the_series_in_full(name: str, title: str) -> None:
    assert in_full(thread(name)) == title


def test_a_name_read_is_told_part_by_part() -> None:
    found = read_name(".250-20 UNC-2A LH")
    assert (found.series, found.size, found.places, found.pitch) == (("UNC",), Fraction(1, 4), 3, 20)
    assert (found.numbered, found.metric, found.dashed) == (False, False, True)
    assert found.remarks == (
        "the tolerance class 2A was read past: figures are basic sizes",
        "left hand",
    )
    found = read_name("No 6 x 32")
    assert (found.series, found.size, found.places, found.pitch) == ((), 6, None, 32)
    assert (found.numbered, found.metric, found.dashed) == (True, False, False)
    found = read_name("M8 x 1.25 fine")
    assert (found.series, found.size, found.pitch, found.metric) == (
        ("M fine", "old SI fine", "old DIN fine"), 8, Fraction(5, 4), True,
    )  # fmt: skip
    assert read_name("M8 coarse").series == ("M", "old SI", "old DIN")
    assert read_name("M8").series[:2] == ("M", "M fine")
    assert read_name("M8 x 1 old SI").series == ("old SI", "old SI fine")
    assert read_name("G 1 1/4 - 11").pitch == 11
    assert read_name("1/4 x 26").dashed is False


def test_a_size_given_as_a_thread_comes_back_as_it_is() -> None:
    one = thread("6 BA")
    assert thread(one) is one


@pytest.mark.parametrize("length", [80, 81, 200])
def test_blanks_count_for_nothing_in_a_name(length: int) -> None:

    text = "6" + " " * (length - 3) + "BA"
    assert thread(text).name == "6 BA"


def test_a_name_has_sixty_signs_at_most() -> None:
    # The number of the first is too long by its own rule, that of the second is not looked at.
    for figures, told in ((50, True), (51, False)):
        written = "0.25" + "0" * (figures - 1) + "-20 UNC"
        assert len(written) == (60 if told else 61)
        with pytest.raises(InputError, match="expected the name of a thread") as caught:
            thread(written)
        assert ("a number of more than 40 characters" in str(caught.value)) == told
    assert [looks_like_thread("6 BA" + " " * n) for n in (0, 56, 57)] == [True, True, False]


@pytest.mark.parametrize("written", ["1/4 BA", "6 x 40 BA", "6.0 BA", "6 BA 20 tpi"])
def test_what_is_wrong_with_a_name_is_told_over_the_whole_of_it(written: str) -> None:
    with pytest.raises(InputError) as caught:
        thread(written)
    assert caught.value.message == (
        "expected the name of a thread: a BA thread is a whole number and BA, such as 6 BA"
    )
    assert (caught.value.start, caught.value.end) == (0, len(written))


def test_nothing_more_is_said_where_nothing_more_is_known() -> None:
    with pytest.raises(InputError) as caught:
        thread("hello")
    assert caught.value.message == "expected the name of a thread"


@pytest.mark.parametrize("written", ["R 3/8", "Rc 3/8", "G 3/8", "M8", "1/4 x 20", "6 BA"])
def test_only_what_was_read_past_is_remarked_on(written: str) -> None:
    assert read_name(written).remarks == ()
    assert not read_name(written).dashed


@pytest.mark.parametrize(
    ("written", "names"),
    [
        # Custom decides by a dash, and only where one unified thread is meant.
        ("1/4 x 20", "1/4-20 UNC or 1/4 BSW"),
        ("1/4-26", "1/4 BSF, 1/4-26 BSC or 1/4 BSB"),
        # There is no coarse M15 (ISO 261).
        ("M15", "M15 x 1.5 or M15 x 1"),
    ],
)
def test_a_shared_name_is_not_decided_without_custom(written: str, names: str) -> None:
    with pytest.raises(SharedName) as caught:
        thread(written)
    assert str(caught.value) == f"{written!r} may be {names}: write which"


@pytest.mark.parametrize(
    ("written", "name"),
    [
        # 5/16 in is 0.3125 in: two places and more may be rounded, one must be the size itself.
        ("0.31-18 UNC", "5/16-18 UNC"),
        ("0.3125-18 UNC", "5/16-18 UNC"),
        ("0.25 BSW", "1/4 BSW"),
        ("1.0 BSW", "1 BSW"),
        ("0.5 BSW", "1/2 BSW"),
    ],
)
def test_decimal_sizes(written: str, name: str) -> None:
    assert thread(written).name == name


@pytest.mark.parametrize("written", ["No 13-24", "No 13", "#15-24", "No 100"])
def test_numbered_screws_stop_at_twelve(written: str) -> None:
    with pytest.raises(UnknownThread) as caught:
        thread(written)
    assert (
        str(caught.value)
        == f"there is no {written}: numbered screws run from 0 to 12, and on old lists from 0000 to 30"
    )


@pytest.mark.parametrize(
    ("written", "nearest"),
    [
        ("1.4 BSW", "1 3/8 BSW, 1 1/2 BSW, 1 1/4 BSW and 1 5/8 BSW"),
        # Whole numbers are numbered sizes in unified threads alone: No 11 would be 0.203 in.
        ("1.3 UNC", "1 1/4-7 UNC, 1 3/8-6 UNC, 1 1/8-7 UNC and 1 1/2-6 UNC"),
        ("7 BSW", "6 BSW, 5 1/2 BSW, 5 BSW and 4 1/2 BSW"),
        ("11-24", "No 10-24 UNC, No 12-24 UNC, No 12-28 UNF and No 10-32 UNF"),
        ("No 6.5-32", "No 6-32 UNC, No 6-40 UNF, No 8-32 UNC and No 8-36 UNF"),
        ("1 3/7 UNC", "1 3/8-6 UNC, 1 1/2-6 UNC, 1 1/4-7 UNC and 1 1/8-7 UNC"),
        ("7.0 UNC", "4-4 UNC, 3 3/4-4 UNC, 3 1/2-4 UNC and 3 1/4-4 UNC"),
    ],
)
def test_the_nearest_of_a_number_and_of_a_size_in_inches(written: str, nearest: str) -> None:
    with pytest.raises(UnknownThread) as caught:
        thread(written)
    assert str(caught.value) == f"there is no {written}: the nearest are {nearest}"


# In an expression


@pytest.mark.parametrize(
    "text",
    [
        "6 BA", "6BA", "No. 6 B.A.", "2 ba", '1/4" Whit', "1/4 BSW", "1 1/8-7 UNC", "1-1/8 BSW", "1/4-20",
        "1/4 x 26", "1/4 x 26 BSF", "5/16 × 40 ME", "#6-32", "No 6-32 UNC", "No 10-24", "M3", "M3x0.5",
        "M3 × 0.5", "M8 x 1", "M10-1.25", "G1/4", "G 1 1/4", "R 1/4", "Rp 1/2", "1/8 NPT", "1/4 brass", "1/2 BSP",
        "1/4-20 UNC-2A", "M8x1-6g", "1 1/4-7", "2-4.5 UNC", "M1.6",
    ],
)  # fmt: skip
def test_spotted(text: str) -> None:
    assert looks_like_thread(text)


@pytest.mark.parametrize(
    "text",
    [
        "2 1/32 in", "2-1/32 in", "1/4 - 20", "10 mm", "10 - 24", "10-24", "1-8", "1/4", "m3", "g1", "r1", "m3x0.5",
        "1/2-1/4 in", "3/4-5 in", "1/2-20 mm", "1/4-20/3", "1/4-20*2", "1/4-20.5", "1/2-3", "1/4 × 20", "#43",
        "No 43 drill", "18 SWG", "M3_hole", "M3a", "Gap", "G", "Radius", "R", "6", "BA", "2 in", "5 me too",
        "1/2 in - 1 BSW", "10 - 6 BA", "letter F drill", "64ths", "6 tpi", "1/4-20 in",
    ],
)  # fmt: skip
def test_left_alone(text: str) -> None:
    assert not looks_like_thread(text)


@pytest.mark.parametrize(
    ("text", "start", "spotted"),
    [
        ("tapping(6 BA) + 2 thou", 8, "6 BA"),
        ("6 BA + 2 thou", 0, "6 BA"),
        ("10 - 6 BA", 5, "6 BA"),
        ("2 in - 1/4 BSW", 7, "1/4 BSW"),
        ("major(M3 x 0.5) * 2", 6, "M3 x 0.5"),
        ("pitch(1/4-20)", 6, "1/4-20"),
        ("clearance(#6-32) - 1 thou", 10, "#6-32"),
        ("minor(G 1/4)", 6, "G 1/4"),
    ],
)
def test_spotted_inside_an_expression(text: str, start: int, spotted: str) -> None:
    match = re.compile(THREAD_PATTERN).match(text, start)
    assert match is not None
    assert match[0] == spotted


@pytest.mark.parametrize("text", ["10 - 6 BA", "1/2 in - 1 BSW", "2 1/32 in / 5", "1/4 - 20", "3/4-5 in"])
def test_nothing_is_swallowed_at_the_start(text: str) -> None:
    assert re.compile(THREAD_PATTERN).match(text) is None


@given(st.from_regex(r"[0-9]{1,2}(/[0-9]{1,2})?( ?[-+*/] ?[0-9]{1,2}){1,3} (in|mm)", fullmatch=True))
def test_a_sum_with_a_unit_is_never_a_thread(text: str) -> None:
    assert not looks_like_thread(text)


def test_the_pattern_captures_nothing() -> None:
    assert re.compile(THREAD_PATTERN).groups == 0


def test_spotting_loads_no_table() -> None:
    code = (
        "import sys; from fractions_shop.threads.names import looks_like_thread;"
        "assert looks_like_thread('6 BA');"
        "assert not any(m.startswith(('fractions_shop.tables', 'fractions_shop.threads.series')) for m in sys.modules)"
    )
    subprocess.run([sys.executable, "-c", code], check=True)


@over((word, series.key) for series in SERIES for word in series.words)
def test_every_word_of_every_record_is_spotted_and_read_in_a_sum(word: str, key: str) -> None:
    """In full and short, with dots and without: 6 British Association is 6 BA."""
    one = next((one for one in of_series(key) if one.size[0].isdigit()), of_series(key)[-1])
    own = one.pitch.mm if BY_KEY[key].size_is == "mm" else one.tpi
    pitch = "" if one.size.isdigit() and not BY_KEY[key].kind else f"-{decimal(own)[0]}"
    dotted = re.sub(r"(?<=[A-Z])(?=[A-Z ]|$)", ".", word)
    for said in {word, plain(word), dotted, word.lower()}:
        text = f"{one.size}{pitch} {said}"
        assert key in {each.series for each in threads_named(text)}
        assert looks_like_thread(text)
        assert read(f"{text} + 1 mm").mm == one.major.mm + 1
