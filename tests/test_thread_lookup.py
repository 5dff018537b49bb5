"""What a name that is not made is answered with: the reason, and the nearest that are."""

from __future__ import annotations

import pytest

from fractions_shop import thread
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
    assert refused("3/8 x 99 BSF").message == "there is no 3/8 x 99 BSF: 3/8 BSF has 20 threads per inch"
    assert refused("M7 x 9").message == (
        "there is no M7 x 9: M7 has a pitch of 1 mm or 0.75 mm; leave out the length of a screw"
    )
    assert "leave out" not in refused("M7 x 0.9").message
