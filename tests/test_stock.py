"""Tables of shims, feelers and heads, and what every table must hold."""

from __future__ import annotations

import re
from fractions import Fraction
from itertools import pairwise

import pytest

from fractions_shop import Session
from fractions_shop.errors import ShopError
from fractions_shop.size.quantity import Quantity
from fractions_shop.tables import STANDINGS, names, rows
from fractions_shop.tables.heads import heads
from fractions_shop.tables.stock import items, kinds, stock, thicknesses

OURS = ("drills_", "gauge_", "screw_heads_", "thickness_stock", "woodscrews")


# Every table


@pytest.mark.parametrize("table", [name for name in names() if name.startswith(OURS)])
def test_a_table_is_whole(table):
    found = rows(table)
    assert found
    for row in found:
        assert None not in row
        assert None not in row.values()
        assert row["source"]
        assert row["standing"] in STANDINGS
        assert row["standing"] != "printed" or row["second_source"]
        for column, text in row.items():
            if re.search("_(in|mm|ft2)$", column) and text:
                assert re.fullmatch(r"[0-9]+(\.[0-9]+)?|\.[0-9]+", text)


@pytest.mark.parametrize("table", [name for name in names() if name.startswith(OURS)])
def test_a_figure_has_its_unit_in_the_header(table):
    figures = {
        column for row in rows(table) for column, text in row.items() if re.fullmatch(r"[0-9]*\.[0-9]+", text)
    }
    assert figures
    assert all(re.search("_(in|mm|ft2)$", column) for column in figures)


def test_an_unknown_table_is_refused_with_those_there_are():
    with pytest.raises(
        ShopError, match=r"there is no table 'gauge_x'; there are .*gauge_bwg, gauge_galvanised"
    ):
        rows("gauge_x")


def test_a_table_is_read_once():
    assert rows("gauge_swg") is rows("gauge_swg")


# Stock


@pytest.mark.parametrize(
    ("item", "count", "thinnest", "thickest"),
    [
        pytest.param("shims", 13, "0.001 in shim", "0.12 in shim", id="shims"),
        pytest.param("8-blade feelers", 8, "0.05 mm feeler", "0.5 mm feeler", id="8-blades"),
        pytest.param("13-blade feelers", 13, "0.05 mm feeler", "1 mm feeler", id="13-blades"),
        pytest.param("20-blade feelers", 20, "0.05 mm feeler", "1 mm feeler", id="20-blades"),
    ],
)
def test_a_kind_of_shim_is_complete_and_rises(item, count, thinnest, thickest):
    found = thicknesses(item)
    assert len(found) == count
    assert (found[0].name, found[-1].name) == (thinnest, thickest)
    assert all(one.size < two.size for one, two in pairwise(found))


def test_feelers_say_that_they_are_from_memory_and_shims_that_they_are_one_list():
    standing = {item: {one.standing for one in thicknesses(item)} for item in items()}
    assert standing.pop("shims") == {"one source"}
    assert all(each == {"from memory"} for each in standing.values())
    assert len(standing) == 3


@pytest.mark.parametrize("kind", kinds())
def test_stock_of_every_kind_rises_and_has_names(kind):
    found = stock(kind)
    assert all(one.size <= two.size for one, two in pairwise(found))
    assert all(piece.name and piece.source for piece in found)


def test_an_unknown_kind_is_refused_with_those_there_are():
    with pytest.raises(ShopError, match="'bar' is not a kind of stock: shims, 8-blade feelers"):
        stock("bar")


# Heads


def test_a_metric_screw_is_answered_with_every_head_and_washer():
    assert [head.standard for head in heads("M6")] == [
        "ISO 1207", "ISO 2009/7046", "ISO 1580", "ISO 7045", "ISO 4762", "ISO 4014", "ISO 4017", "ISO 7089", "ISO 4032",
        "ISO 4035",
    ]  # fmt: skip


@pytest.mark.parametrize("text", ["M3", "m3", "M 3", "M3x0.5", "M3 × 0.5", "M3.0"])
def test_a_metric_screw_is_read_as_written(text):
    assert {head.size for head in heads(text)} == {"M3"}


# Published head sizes of ISO 1207, 4762 and 4014, as two open CAD data files give them.
@pytest.mark.parametrize(
    ("screw", "standard", "dimension", "mm"),
    [
        pytest.param("M3", "ISO 1207", "head diameter, maximum", "5.5", id="cheese"),
        pytest.param("M6", "ISO 4762", "head diameter, maximum", "10", id="cap"),
        pytest.param("M6", "ISO 4762", "key across flats", "5", id="cap-key"),
        pytest.param("M10", "ISO 4014", "across flats", "16", id="hexagon"),
        pytest.param("M3.5", "ISO 4017", "across flats", "6", id="hexagon-where-one-file-errs"),
        pytest.param("M8", "ISO 7089", "outside diameter, maximum", "16", id="washer"),
    ],
)
def test_a_head_has_its_published_size(screw, standard, dimension, mm):
    head = next(head for head in heads(screw) if head.standard == standard)
    assert head[dimension].size == Quantity(Fraction(mm))
    assert head[dimension].standing == "printed"


def test_the_sizes_of_a_head_rise_with_the_screw():
    series: dict[tuple[str, str], list[Fraction]] = {}
    for row in rows("screw_heads_metric"):
        series.setdefault((row["standard"], row["dimension"]), []).append(Fraction(row["value_mm"]))
    assert len(series) == 30
    assert all(one <= two for sizes in series.values() for one, two in pairwise(sizes))


def test_countersunk_diameters_are_marked_from_memory_and_nothing_else_is():
    marked = {
        (head.kind, dimension.name)
        for size in ("M1.6", "M3", "M10")
        for head in heads(size)
        for dimension in head.dimensions
        if dimension.standing == "from memory"
    }
    assert marked == {
        ("countersunk head", "head diameter, maximum"),
        ("countersunk head", "head diameter, minimum"),
    }


def test_a_wood_screw_head_is_about_twice_its_body():
    # The rule of thumb of the trade: common practice, no source.
    (head,) = heads("No 8 wood screw")
    assert head["head diameter, maximum"].size.inch == Fraction("0.332")
    for row in rows("woodscrews"):
        if row["flat_head_max_in"]:
            ratio = Fraction(row["flat_head_max_in"]) / Fraction(row["body_max_in"])
            assert Fraction(3, 2) < ratio < Fraction(11, 5)


def test_a_british_wood_screw_head_is_twice_its_shank():
    # By the same handbook's rule that gives the shank; the figures of the table are as it prints them.
    for row in rows("woodscrews_british"):
        (head,) = heads(f"British No {row['number']} wood screw")
        assert head["head diameter"].size.inch == 2 * Fraction(row["size_in"])


@pytest.mark.parametrize(
    ("text", "message"),
    [
        pytest.param("M7", "there is no table of heads for M7: the nearest is M6", id="size-without-a-table"),
        pytest.param("6 BA", "'6 BA' is not a screw with a table of heads here: write M3 or US No 8 wood screw", id="other-thread"),
        pytest.param("No 11 wood screw", "there is no head size for a US No 11 wood screw: it is not in the ASME B18.6.1 list of sizes", id="unlisted-number"),
        pytest.param("18 SWG", "'18 SWG' is not a screw with a table of heads here: write M3 or US No 8 wood screw", id="gauge"),
    ],
)  # fmt: skip
def test_what_has_no_head_is_refused(text, message):
    with pytest.raises(ShopError) as caught:
        heads(text)
    assert str(caught.value) == message


@pytest.mark.parametrize(
    ("name", "told"),
    [
        ("British No 8", ("0.328 in (8.3312 mm)", "11/32 in (8.73125 mm), one source", "computed by rule")),
        ("US No 8", ("0.332 in (8.4328 mm), one source", "0.292 in", "ASME B18.6.1", "0.054 in")),
        ("US No 11", ("no size of its head was read", "not in the ASME B18.6.1 list of sizes")),
    ],
)
def test_a_wood_screw_is_told_with_its_head(name: str, told: tuple[str, ...]) -> None:
    """A cabinet-making handbook's two rules for British heads; open CAD data after ASME B18.6.1 for American."""
    answer = Session().answer(f"gauge {name} wood screw")
    assert answer is not None
    text = answer.text(300)
    assert all(part in text for part in told), text
