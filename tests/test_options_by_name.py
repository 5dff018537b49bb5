"""A second size is never taken for an option: options of the library are given by name."""

from __future__ import annotations

from typing import Any

import pytest

import fractions_shop as shop
from fractions_shop import Quantity


@pytest.mark.parametrize(
    ("call", "message"),
    [
        pytest.param(
            lambda: shop.recover("51.5 mm", "66.7 mm"),
            "recover takes one thing and its options by name: several readings are one list, "
            "recover(['51.5 mm', '66.7 mm']); a trust is recover('51.5 mm', within='0.1 mm')",
            id="recover",
        ),
        pytest.param(
            lambda: shop.snap("10.3 mm", "64ths", "0.1 mm"),
            "snap takes 2 things and its options by name: snap('10.3 mm', '64ths', within='0.1 mm')",
            id="snap",
        ),
        pytest.param(
            lambda: shop.snap("51.5 mm", "66.7 mm"),
            "'66.7 mm' is a size, where a rule such as '64ths' or 'mm' is named",
            id="snap-a-second-size",
        ),
        pytest.param(
            lambda: shop.divide("2 in", 5, "3 in"),
            "'3 in' is a size, where a rule such as '64ths' or 'mm' is named",
            id="divide-a-second-size",
        ),
        pytest.param(
            lambda: shop.divide("2 in", 5, "64ths", "1/4 in"),
            "divide takes 3 things and its options by name: divide('2 in', 5, direction='up', ends='1/4 in')",
            id="divide",
        ),
        pytest.param(
            lambda: shop.mark("2 in", 5, "64ths", "1/4 in"),
            "mark takes 3 things and its options by name: mark('2 in', 5, start='1/4 in')",
            id="mark",
        ),
        pytest.param(
            lambda: shop.mark("2 in", 5, Quantity.inches(1)),
            "a rule is named by text such as '64ths' or 'half mm'",
            id="mark-from-a-quantity",
        ),
        pytest.param(
            lambda: shop.crown(6, "13/32 in", "7 1/4 in"),
            "crown takes one thing and its options by name: crown(6, across='13/32 in', radius='7 1/4 in')",
            id="crown",
        ),
        pytest.param(
            lambda: shop.pack("1/2 in", "1/4 in", "3/32 in"),
            "pack takes 2 things and its options by name: "
            "pack('1/2 in', ['1/4 in', '3/32 in'], each_once=True)",
            id="pack",
        ),
        pytest.param(
            lambda: shop.fit("10 mm", "H7/g6", "12 mm"),
            "fit takes 2 things and its options by name: fit('10 mm', 'H7/g6'), each size by itself",
            id="fit",
        ),
        pytest.param(
            lambda: shop.drills("5 mm", "6 mm"),
            "drills takes one thing and its options by name: drills('5.1 mm'), each size by itself",
            id="drills",
        ),
        pytest.param(
            lambda: shop.gauges("1 mm", "2 mm"),
            "gauges takes one thing and its options by name: gauges('0.048 in'), each size by itself",
            id="gauges",
        ),
        pytest.param(
            lambda: shop.identify("3 mm", "0.5 mm", "4 mm"),
            "identify takes 2 things and its options by name: identify('2.75 mm', '0.53 mm', series='BA')",
            id="identify",
        ),
    ],
)
def test_one_size_too_many_is_refused_and_told_how_to_write_it(call: Any, message: str) -> None:
    with pytest.raises(TypeError) as error:
        call()
    assert str(error.value) == message


def test_what_is_named_still_goes_by_place() -> None:
    assert shop.divide("2 in", 5).space == shop.divide("2 in", 5, shop.Rule("64ths")).space
    assert shop.snap("10.3 mm", shop.Rule("32nds")).size == Quantity.inches(1) * 13 / 32
    assert shop.crown(6, across="13/32 in", radius="7 1/4 in").count == 6
    assert shop.recover(["51.5 mm", "66.7 mm"], within="0.1 mm").readings[1].within.mm * 10 == 1
