"""A size that rests on a root is told as approximate also where it falls on a mark, at every exit."""

from __future__ import annotations

import re

import pytest

from fractions_shop.sheet.session import Session

_TWO = "sqrt(2) * sqrt(2) * 1 in"  # 2 in and some 10**-30


@pytest.mark.parametrize(
    "statement",
    [
        _TWO,
        f"snap {_TWO}",
        f"divide {_TWO} into 4",
        f"divide {_TWO} into 4 and 2",
        f"divide {_TWO} for 3 of 1/4 in",
        f"divide {_TWO} into spaces of about 1/2 in",
        f"share {_TWO} among 4 and 2",
        f"mark {_TWO} into 4",
        f"p = places 0 in, {_TWO}",
        f"pack {_TWO} from 1 in, 1/2 in, 1/2 in",
        f"recover {_TWO}",
        f"drill {_TWO} / 8",
    ],
)
def test_a_size_on_a_mark_that_rests_on_a_root_is_never_told_as_exact(statement: str) -> None:
    plain = statement.replace(_TWO, "2 in")
    approximate, exact = Session().answer(statement), Session().answer(plain)
    for told in (approximate.text(), approximate._repr_html_()):
        assert "approximate" in told or "about" in told or "~" in told, told
    assert "approximate" not in exact.text()


def test_no_difference_from_a_root_is_not_called_exact() -> None:
    marks = Session().answer(f"mark {_TWO} into 4").text()
    assert "every mark is approximate" in marks
    assert "exact " not in marks.replace("exact place", "")
    assert "every mark is exact" in Session().answer("mark 2 in into 4").text()


@pytest.mark.parametrize("name", ["Loewenherz 4", "Loewenherz 5", "Loewenherz 20", "M8", "1/4 BSW"])
def test_an_approximate_size_is_told_in_decimals_and_as_no_fraction_of_a_millimetre(name: str) -> None:
    """1.5 pitches of 0.7 mm off 4 mm are 2.95 mm, about: no bench reads 2 19/20 mm."""
    answer = Session().answer(f"minor({name})")
    assert answer is not None
    first = answer.text(300).splitlines()[0]
    assert " approximate" in first
    assert not re.search(r"[0-9]/[0-9]+ mm", first)
