"""A size with one limit behind it as drawings print it, `1.000" +.002"`: no sum in silence, and no limits either."""

from __future__ import annotations

import pytest
from doubtful_forms import ONE_LIMIT, SUMS

from fractions_shop import InputError, Session, read, read_column
from fractions_shop.language.advice.offers import Advice


def refused(line: str) -> InputError:
    with pytest.raises(InputError) as caught:
        Session().answer(line)
    return caught.value


@pytest.mark.parametrize("form", ONE_LIMIT)
def test_one_printed_limit_is_refused_with_the_sum_and_the_limits(form: str) -> None:
    fault = refused(form)
    assert "as limits are printed, and may be a sum" in fault.message
    advice = fault.advice
    assert isinstance(advice, Advice)
    wholes = [form[: fault.start] + offer.text + form[fault.end :] for offer in advice.offers]
    for whole in ONE_LIMIT[form]:
        assert whole in wholes or whole in [offer.text for offer in advice.offers], wholes


@pytest.mark.parametrize("form", [form for form in ONE_LIMIT if form != "2 in -1/64 in -1/64 in"])
def test_each_offer_is_answered_as_it_stands_and_the_two_differ(form: str) -> None:
    summed, limits = (Session().answer(each) for each in ONE_LIMIT[form])
    assert summed is not None
    assert limits is not None
    assert summed.value != limits.value
    assert not summed.doubts
    assert not limits.doubts


@pytest.mark.parametrize("form", ONE_LIMIT)
def test_no_way_of_reading_takes_one_printed_limit_for_a_sum(form: str) -> None:
    with pytest.raises(InputError):
        read(form)
    with pytest.raises(InputError):
        read(form, doubtful="note")
    for unit in (None, "in"):
        assert list(read_column([form], unit=unit).faults) == [0]
    for line in (f"wide = {form}", f"snap {form}", f"check {form} = 2 in", f"wide reads {form}"):
        refused(line)


@pytest.mark.parametrize("form", SUMS)
def test_what_is_set_as_a_sum_or_is_too_large_for_a_limit_is_answered(form: str) -> None:
    answer = Session().answer(form)
    assert answer is not None
    assert not answer.doubts
