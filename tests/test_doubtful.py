"""Forms that a maker may mean in two ways: refused, or read with a sentence that says how."""

from __future__ import annotations

import pytest

from fractions_shop import Session
from fractions_shop.errors import InputError

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
    "10-32": "the thread",
    "2-56": "the thread",
    "2 in ± 1 mm^2": "a square",
    "2 mm ± 1/64": "a 64th of an inch",
}


@pytest.mark.parametrize("text", DOUBTFUL)
def test_a_doubtful_form_is_refused_or_says_how_it_was_read(text: str) -> None:
    try:
        answer = Session().answer(text)
    except InputError:
        return
    assert answer is not None
    assert answer.outcome.notes, f"{text} may be {DOUBTFUL[text]}, and nothing is said"


def test_feet_and_inches_lend_the_inch_to_their_limits() -> None:
    """A spread without a unit after 5'-3\" is in inches if it is read at all."""
    for text in ("5'-3\" +- 1/8", "5 ft 3 in ± 1/8", "5' 3\" +1/8/-0"):
        try:
            answer = Session().answer(text)
        except InputError:
            continue
        assert answer is not None
        assert answer.value.plus.inch * 8 == 1, text  # type: ignore[union-attr]
