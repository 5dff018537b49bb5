"""What a name that is not made is answered with: the reason, and the nearest that are."""

from __future__ import annotations

from fractions import Fraction

import pytest

from fractions_shop import ShopError, thread
from fractions_shop.threads.lookup import UnknownThread

#: ASME B1.1 has numbered sizes 0 to 12; BS 93 numbers BA sizes, carried on here to 25.
LAST_AMERICAN = "numbered screws run from 0 to 12"


def refused(name: str) -> UnknownThread:
    with pytest.raises(UnknownThread) as caught:
        thread(name)
    return caught.value


@pytest.mark.parametrize("name", ["No 13-24", "No 13-24 UNC", "No 14-20 UNF", "#43-32"])
def test_an_american_number_past_twelve_says_where_the_numbers_end(name: str) -> None:
    older = "" if " UN" in name else ", and on old lists from 0000 to 30"
    assert refused(name).message == f"there is no {name}: {LAST_AMERICAN}{older}"


@pytest.mark.parametrize("name", ["No 30 BA", "No. 26 BA", "30 BA"])
def test_a_british_association_number_past_the_last_names_the_last_ones(name: str) -> None:
    fault = refused(name)
    assert LAST_AMERICAN not in fault.message
    assert fault.nearest == ("25 BA", "24 BA", "23 BA", "22 BA")


def test_a_number_before_a_series_that_has_none_is_not_told_of_american_numbers() -> None:
    assert LAST_AMERICAN not in refused("No 43 BSW").message


def test_a_missing_number_up_to_twelve_names_its_neighbours() -> None:
    """0.060 + 0.013 N: No 11 would be 0.203 in, midway between No 10 (0.190) and No 12 (0.216)."""
    fault = refused("No 11-32")
    assert LAST_AMERICAN not in fault.message
    assert fault.nearest[:2] == ("No 10-32 UNF", "No 12-32 UNEF")
    assert refused("11-24 UNC").nearest[:2] == ("No 10-24 UNC", "No 12-24 UNC")


@pytest.mark.parametrize("name", ["No 1/4-80", "No 1/2-80 UNF", "No 6.0-32"])
def test_a_fraction_or_a_decimal_is_no_number_of_a_screw(name: str) -> None:
    """Read as whole numbers these would be No 0-80, No 0-80 and No 6-32, which exist."""
    refused(name)


def test_a_decimal_size_is_in_inches_though_a_whole_number_would_be_a_number() -> None:
    assert refused("11.0-24 UNC").nearest[0] == "4-4 UNC"


def test_a_mixed_size_between_two_is_in_inches() -> None:
    """1 1/7 in is 0.018 in over 1 1/8; as a number it would lie near No 1."""
    assert refused("1 1/7-8 UNC").nearest[0] == "1 1/8-7 UNC"


def test_a_size_that_is_made_with_other_pitches_tells_them() -> None:
    assert refused("3/8 x 99 BSF").message == (
        "there is no 3/8 x 99 BSF: 3/8 BSF has 20 threads per inch; "
        "one of no list is given like this: 3/8 in x 99 tpi Whitworth form"
    )
    assert refused("M7 x 9").message == (
        "there is no M7 x 9: M7 has a pitch of 1 mm or 0.75 mm; leave out the length of a screw"
    )
    assert "leave out" not in refused("M7 x 0.9").message


@pytest.mark.parametrize(
    ("written", "name"),
    [
        ("1-14 special", "1-14 UNS"),
        ("4-36 ASME", "No 4-36 ASME 1907"),
        ("No 4-36 ASME machine screw", "No 4-36 ASME 1907"),
        ("6-32 machine screw", "No 6-32 UNC"),
        ("6 BA screw", "6 BA"),
        ("1/4 Whitworth bolt", "1/4 BSW"),
        ("No 2 cheese screw", ""),
    ],
)
def test_a_name_may_have_the_trade_s_words_behind_it(written: str, name: str) -> None:
    if name:
        assert thread(written).name == name
    else:
        with pytest.raises(ShopError):
            thread(written)


def test_a_size_and_pitch_in_millimetres_want_a_form() -> None:
    with pytest.raises(ShopError) as caught:
        thread("9 mm x 1.1 mm")
    form = str(caught.value).split("like this: ")[1].split(" (column")[0]
    assert form == "9 mm x 1.1 mm metric form"
    assert (thread(form).major.mm, thread(form).pitch.mm) == (9, Fraction("1.1"))


def test_a_wood_screw_is_no_thread() -> None:
    for written in ("No 8 wood screw", "No 8 woodscrew", "6 BA wood screw"):
        with pytest.raises(ShopError):
            thread(written)


@pytest.mark.parametrize(
    ("asked", "given"),
    [
        ("1/4-24", ["1/4 in x 24 tpi unified form", "1/4 in x 24 tpi Whitworth form"]),
        ("1/4-24 BSC", ["1/4 in x 24 tpi cycle form"]),
        ("1/4-24 UNS", ["1/4 in x 24 tpi unified form"]),
        ("1/4-24 BSF", ["1/4 in x 24 tpi Whitworth form"]),
    ],
)
def test_a_pitch_of_no_list_is_refused_with_the_forms_by_which_it_is_given(
    asked: str, given: list[str]
) -> None:
    with pytest.raises(UnknownThread) as caught:
        thread(asked)
    told = ", or ".join(given)
    assert str(caught.value).endswith(f"; one of no list is given like this: {told}")
    for text in given:
        made = thread(text)
        assert made.major.inch == Fraction(1, 4)
        assert made.tpi == 24


def test_a_refusal_tells_of_the_six_that_are_nearest_in_pitch_and_of_pipe_last() -> None:
    with pytest.raises(UnknownThread) as caught:
        thread("1/4-24")
    assert str(caught.value).count("threads per inch") == 6
    assert "NPT" not in str(caught.value)
    # As many that are finer than all, and as many that are coarser.
    for asked, told, untold in (
        ("1/4-90", "1/4 x 40 ME", "1/4-20 UNC"),
        ("1/4-10", "1/4-20 UNC", "1/4 x 40 ME"),
    ):
        with pytest.raises(UnknownThread) as caught:
            thread(asked)
        assert f"{told} has" in str(caught.value)
        assert f"{untold} has" not in str(caught.value)
