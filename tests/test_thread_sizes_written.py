"""Thread sizes as decimals of an inch, and numbers that are none."""

from __future__ import annotations

from fractions import Fraction
from itertools import product

import pytest
from over_all import over

from fractions_shop import InputError, Session, ShopError, thread
from fractions_shop.tables import rows
from fractions_shop.threads.records import SERIES


@pytest.mark.parametrize("written", ["0.312-18 UNC", "0.313-18 UNC", "0.3125-18 UNC", "5/16-18 UNC"])
def test_a_half_may_be_rounded_either_way(written: str) -> None:
    """0.3125 in to three places: published charts use both (0.312 half-even, 0.313 half-up)."""
    assert thread(written).name == "5/16-18 UNC"


@pytest.mark.parametrize("written", ["No 1/4-20", "No 1/4-20 UNC", "0.3-18 UNC", "0.314-18 UNC"])
def test_what_is_no_size_of_a_thread_is_refused(written: str) -> None:
    with pytest.raises(ShopError):
        thread(written)
    if written.startswith("No"):  # a number and a size are two things
        with pytest.raises(InputError):
            Session().answer(written)


@pytest.mark.parametrize(
    ("written", "exists"),
    [
        # Half a unit of the last place, and no more: 3/8 in is 0.375, 5 thousandths from 0.37 and 0.38.
        pytest.param("0.38-16 UNC", "3/8-16 UNC", id="half a hundredth over"),
        pytest.param("0.37-16 UNC", "3/8-16 UNC", id="half a hundredth under"),
        # No 8 is 0.164 in (0.060 + 0.013 N): 4 thousandths from 0.16 and 6 from 0.17.
        pytest.param("0.16-32 UNC", "No 8-32 UNC", id="four thousandths"),
        pytest.param("0.17-32 UNC", None, id="six thousandths"),
        # To four places 5/16 in is exact; one unit off is another size.
        pytest.param("0.3124-18 UNC", None, id="a ten-thousandth under"),
        pytest.param("0.3126-18 UNC", None, id="a ten-thousandth over"),
        # One place fits too many sizes to be read, unless it is the size itself.
        pytest.param("1.4-6 UNC", None, id="one place"),
        pytest.param("0.5-13 UNC", "1/2-13 UNC", id="one place, exact"),
    ],
)
def test_a_decimal_size_is_good_to_half_its_last_place(written: str, exists: str | None) -> None:
    if exists is None:
        with pytest.raises(ShopError):
            thread(written)
    else:
        assert thread(written).name == exists


#: Sizes with threads to the inch that few series have, in the ways of lists.
_ODD = {
    "6-48": None,
    "#4-40": None,
    "1/4-26": Fraction(1, 4),
    "3/8-40": Fraction(3, 8),
    "5/16-17": Fraction(5, 16),
}
#: American screws by number: 0.060 in and 0.013 in a number (ASME B1.1).
_NUMBERED = {"6-48": Fraction("0.138"), "#4-40": Fraction("0.112")}


@over(product(sorted({word for series in SERIES for word in series.words if not word.islower()}), _ODD))
def test_a_size_is_never_read_in_another_series_than_its_word(word: str, size: str) -> None:
    """What stands before NPT is the name of a pipe, before BA a number: neither is a major diameter in inches."""
    among = [series for series in SERIES if word in series.words]
    try:
        answer = Session().answer(f"{size} {word}")
    except InputError:
        return
    assert answer is not None
    assert any(series.size_is == "inch" and not series.sole for series in among)
    if _ODD[size] is None:
        assert {series.family for series in among} <= {"unified", "old american"}
    assert answer.value is not None
    assert answer.value.inch == (_ODD[size] or _NUMBERED[size])


@pytest.mark.parametrize("text", ["1-24 UNC", "3-24 UNF-2A", "2-24 UN"])
def test_a_numbered_screw_far_coarser_than_any_is_refused(text: str) -> None:
    """None of the tables' has fewer than three threads in a length of its own diameter."""
    screws = [row for row in rows("thread_inch") if row["size"].startswith("No ")]
    assert min(Fraction(row["major_in"]) * Fraction(row["threads_per_inch"]) for row in screws) > 3
    with pytest.raises(InputError, match="there is no"):
        Session().answer(text)
