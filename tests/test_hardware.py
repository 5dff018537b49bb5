"""Heads, nuts, lock-nuts and washers of inch screws, against their standards' printed figures and their rules.

Sources: BS 1083:1965 as Machinery's Handbook, 31st ed. pp. 1761-2, prints it; ASME B18.2.1, B18.2.2, B18.6.3 and
B18.21.1. What is from memory is no check on anything, and is only held to say so.
"""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

import pytest

from fractions_shop import InputError, Session, ShopError, read, thread
from fractions_shop.size.notation import number_value
from fractions_shop.tables import rows
from fractions_shop.tables.head_records import Measure, measure
from fractions_shop.threads.heads import Head

HEADS = rows("thread_heads_in")


def dimension(name: str, kind: str, what: str) -> Head:
    return next(head for head in thread(name).heads if (head.kind, head.dimension) == (kind, what))


def inches(name: str, kind: str, what: str) -> tuple[Fraction | None, Fraction]:
    head = dimension(name, kind, what)
    return (None if head.smallest is None else head.smallest.inch), head.largest.inch


@pytest.mark.parametrize("series", ["BSW", "BSF"])
@pytest.mark.parametrize(
    ("size", "kind", "low", "high"),
    [
        ("1/4", "hexagon head", "0.166", "0.176"),
        ("3/8", "hexagon nut", "0.302", "0.312"),
        ("1/2", "hexagon head", "0.333", "0.343"),
        ("3/4", "lock-nut", "0.448", "0.458"),
        ("1", "hexagon nut", "0.865", "0.875"),
    ],
)
def test_british_heads_and_nuts_are_as_thick_as_bs_1083_prints(
    series: str, size: str, kind: str, low: str, high: str
) -> None:
    found = inches(f"{size} {series}", f"{kind} (BS 1083)", "thickness")
    assert found == (Fraction(low), Fraction(high))
    assert dimension(f"{size} {series}", f"{kind} (BS 1083)", "thickness").standing == "printed"


DIFFER = ["1/4", "5/16", "3/8", "7/16", "1/2"]


@pytest.mark.parametrize("size", DIFFER)
def test_where_two_copies_differ_on_a_lock_nut_both_are_shown(size: str) -> None:
    first = dimension(f"{size} BSW", "lock-nut (BS 1083)", "thickness")
    second = dimension(f"{size} BSW", "lock-nut (BS 1083)", "thickness in a second copy")
    assert first.standing == second.standing == "one source"
    assert first.largest != second.largest
    text = Session().answer(f"thread {size} BSW").text()
    assert "thickness in a second copy" in text
    assert "a second copy of BS 1083 prints another thickness" in text


def test_the_second_copy_keeps_to_the_rule_of_the_larger_sizes() -> None:
    """From 9/16 in on, where the copies agree, a lock-nut is two thirds of a nut thick."""
    greatest = {
        (row["size"], row["head"], row["dimension"]): Fraction(row["max_in"])
        for row in HEADS
        if row["series"] == "BSW/BSF"
    }
    for (size, head, what), thickness in greatest.items():
        if head == "lock-nut":
            rule = greatest[size, "hexagon nut", "thickness"] * Fraction(2, 3)
            by_rule = abs(thickness - rule) <= Fraction(1, 1000)
            assert by_rule == (size not in DIFFER or what != "thickness"), size


@pytest.mark.parametrize(
    ("name", "kind", "what", "size"),
    [
        ("1/4-20 UNC", "hexagon head (ASME B18.2.1)", "across flats, nominal", "7/16"),
        ("3/8-24 UNF", "hexagon head (ASME B18.2.1)", "across flats, nominal", "9/16"),
        ("1/2-13 UNC", "hexagon head (ASME B18.2.1)", "thickness, nominal", "0.3438"),
        ("1/2-13 UNC", "square nut (ASME B18.2.2)", "across flats, nominal", "13/16"),
        ("No 4-40 UNC", "pan head (ASME B18.6.3)", "diameter", "0.219"),
        ("No 10-32 UNF", "round head (ASME B18.6.3)", "height", "0.137"),
        ("1/4-20 UNC", "plain washer, regular (ASME B18.21.1)", "outside diameter", "0.734"),
        ("1/4-20 UNC", "plain washer, narrow (ASME B18.21.1)", "hole", "0.281"),
    ],
)
def test_american_heads_nuts_and_washers(name: str, kind: str, what: str, size: str) -> None:
    head = dimension(name, kind, what)
    assert head.largest.inch == Fraction(size)
    assert head.standing == "one source"


def test_unified_series_share_their_heads() -> None:
    assert thread("1/4-20 UNC").heads == thread("1/4-28 UNF").heads == thread("1/4-32 UNEF").heads != ()


def test_an_american_hexagon_nut_is_from_memory_and_the_lead_leaves_it_out() -> None:
    assert (
        dimension("7/16-14 UNC", "hexagon nut (ASME B18.2.2)", "across flats, nominal").standing
        == "from memory"
    )
    said = Session().answer("thread 7/16-14 UNC").text()
    assert "hexagon nut (ASME B18.2.2): across flats 0.6875 in" in " ".join(said.split()) or "0.6875" in said
    assert "0.6875" not in said.split("effective")[0]


def test_sizes_of_a_kind_rise_with_the_screw() -> None:
    kinds: dict[tuple[str, ...], list[tuple[Fraction, Fraction]]] = {}
    for row in HEADS:
        number = row["size"].removeprefix("No ")
        major = (
            Fraction("0.06") + int(number) * Fraction("0.013")
            if row["size"] != number
            else number_value(number)
        )
        assert major is not None
        key = row["series"], row["standard"], row["head"], row["dimension"]
        kinds.setdefault(key, []).append((major, Fraction(row["max_in"])))
    falling = set()
    for key, sizes in kinds.items():
        for (_, one), (_, two) in pairwise(sorted(sizes)):
            if two < one:
                falling.add(key[2:])
    # A head of 1/2 in and less has the flat head of ASME B18.6.3, and its slot, in a lower form from 7/16 in.
    assert falling == {
        ("flat countersunk head", "height"),
        ("flat countersunk head", "slot depth, mean"),
        ("oval countersunk head", "height of the cone"),
    }


def test_a_ba_cheese_head_is_common_practice_and_says_so() -> None:
    across = dimension("6 BA", "cheese head (no standard read)", "diameter")
    deep = dimension("6 BA", "cheese head (no standard read)", "depth")
    assert (across.largest.inch, deep.largest.inch) == (Fraction("0.193"), Fraction(5, 64))
    assert across.source == deep.source == "common practice, no source"
    said = " ".join(Session().answer("thread 6 BA").text().split())
    assert "cheese head (no standard read)" in said
    assert "heads, common practice, no source (from memory)" in said


def test_what_is_odd_about_a_head_is_said_with_the_head() -> None:
    said = " ".join(Session().answer("thread No 4-40 UNC").text().split())
    assert "other lists have a larger sharp edge, 0.225 in for No 4" in said


@pytest.mark.parametrize("name", ["3/8 BSW", "1/4-20 UNC", "M6", "M16", "6 BA", "No 4-40 UNC"])
def test_every_source_of_a_heads_figures_is_in_the_source_line(name: str) -> None:
    """Printed figures are told by their standard, which stands with the head."""
    said = " ".join(Session().answer(f"thread {name}").text().split())
    for head in thread(name).heads:
        assert head.standing == "printed" or head.source in said


@pytest.mark.parametrize(
    ("line", "name"),
    [
        ("3/8 BSW nut", "3/8 BSW"),
        ("lock-nut 3/8 BSW", "3/8 BSW"),
        ("M6 washer", "M6"),
        ("6 BA cheese head", "6 BA"),
    ],
)
def test_a_nut_or_washer_is_never_answered_with_the_major_diameter_of_its_screw(line: str, name: str) -> None:
    with pytest.raises(ShopError) as caught:
        Session().answer(line)
    assert f"write thread {name} for all of them" in str(caught.value)
    assert Session().answer(f"thread {name}").result.heads


@pytest.mark.parametrize(
    ("line", "called"),
    [
        ("split pin for 3/8 bolt", "split pins"),
        ("what split pin for a 3/8 BSW bolt", "split pins"),
        ("cotter pin 2 mm", "split pins"),
        ("parallel key 6 mm", "keys"),
        ("6 mm feather key", "keys"),
        ("k = Woodruff key 1/8 in", "keys"),
        ("thread E27", "lamp caps"),
        ("thread E14 lamp cap", "lamp caps"),
        ("lamp cap 27 mm", "lamp caps"),
    ],
)
def test_hardware_of_which_no_table_was_read_is_refused_by_name(line: str, called: str) -> None:
    """Its name is never left out beside a size, at the prompt or in the library."""
    with pytest.raises(ShopError, match=f"no table of {called} was read, and none is guessed"):
        Session().answer(line)
    if not line.startswith("thread"):
        with pytest.raises(ShopError):
            read(line)


@pytest.mark.parametrize(
    ("line", "meant"),
    [
        ("US steel wire 8", "8 US steel wire"),
        ("us steel wire No 8", "8 US steel wire"),
        ("gauge US steel wire 8", "gauge 8 US steel wire"),
        ("spring wire 12", "12 spring wire"),
        ("Stubs steel 19", "19 Stubs steel"),
        ("zinc 9", "9 zinc"),
        ("swg 18", "18 SWG"),
    ],
)
def test_a_gauge_with_its_number_behind_is_offered_with_it_before(line: str, meant: str) -> None:
    with pytest.raises(InputError, match="the number comes first") as caught:
        Session().answer(line)
    assert caught.value.advice == f"write {meant}"
    assert Session().answer(meant).ok


def test_steel_wire_without_a_country_is_two_gauges_whichever_way_round() -> None:
    for line in ("8 steel wire", "steel wire 8"):
        with pytest.raises(InputError, match="steel wire goes by two gauges"):
            Session().answer(line)


def test_every_row_of_the_table_of_heads_has_the_columns_of_its_header() -> None:
    assert all(None not in row for row in HEADS)


@pytest.mark.parametrize("table", ["thread_heads_in", "screw_heads_metric"])
def test_what_a_figure_is_of_is_told_by_no_word_of_the_table_cut_in_two(table: str) -> None:
    """A dimension that says which figure it is has its row of measures; any other is told as it stands."""
    for words in {row["dimension"] for row in rows(table)}:
        told = measure(words)
        assert (told == Measure(words)) == ("," not in words and words != "across flats"), words
        assert told.mean == ("mean" in words)
        assert told.across_flats == (words.partition(",")[0] == "across flats")
