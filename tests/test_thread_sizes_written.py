"""Thread sizes as decimals of an inch, and numbers that are none."""

from __future__ import annotations

import pytest

from fractions_shop import ShopError, thread


@pytest.mark.parametrize("written", ["0.312-18 UNC", "0.313-18 UNC", "0.3125-18 UNC", "5/16-18 UNC"])
def test_a_half_may_be_rounded_either_way(written: str) -> None:
    """0.3125 in to three places: published charts use both (0.312 half-even, 0.313 half-up)."""
    assert thread(written).name == "5/16-18 UNC"


@pytest.mark.parametrize("written", ["No 1/4-20", "No 1/4-20 UNC", "0.3-18 UNC", "0.314-18 UNC"])
def test_what_is_no_size_of_a_thread_is_refused(written: str) -> None:
    with pytest.raises(ShopError):
        thread(written)
