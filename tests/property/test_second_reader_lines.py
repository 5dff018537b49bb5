"""Lines that say several sizes, told apart by plain arithmetic: parts, what is cut in them, bars, spacing by bodies, places, readings.

Each size is a whole number of 64ths, written here in one of the forms that a drawing has, so that what it says is known
beforehand; what the line comes to is worked out in whole numbers, by the sentence that the manual has for it.
"""

from __future__ import annotations

import unicodedata
from fractions import Fraction
from itertools import pairwise
from math import gcd

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fractions_shop import Limits, Quantity, Session, Sheet

_GLYPHS = {Fraction(unicodedata.numeric(c)).limit_denominator(10): c for c in "¼½¾⅛⅜⅝⅞"}
#: A 64th in mm, by the inch of 1959 (US Federal Register, Doc. 59-5442).
A_64TH = Fraction(254, 640)


def _parts(n: int) -> tuple[int, int, int]:
    """So many 64ths as whole inches and a fraction in its lowest terms."""
    whole, rest = divmod(n, 64)
    common = gcd(rest, 64)
    return whole, rest // common, 64 // common


def _decimal(value: Fraction) -> str:
    """A figure that ends, in full."""
    places = 0
    while (value * 10**places).denominator != 1:
        places += 1
    figures = f"{int(value * 10**places):0{places + 1}d}"
    return f"{figures[:-places]}.{figures[-places:]}" if places else figures


def writings(n: int) -> list[str]:
    """The ways in which a drawing writes so many 64ths, more than none."""
    whole, top, bottom = _parts(n)
    fraction = f"{top}/{bottom}" if top else ""
    mixed = f"{whole or ''} {fraction}".strip()
    small = fraction.translate(str.maketrans("0123456789/", "⁰¹²³⁴⁵⁶⁷⁸⁹⁄")) if top else ""
    ways = [
        f"{mixed} in", f'{mixed}"', f"{mixed} inches", f"{_decimal(Fraction(n, 64))} in", f"{_decimal(n * A_64TH)} mm",
        f"{_decimal(n * A_64TH / 10)} cm", f"{_decimal(n * Fraction(1000, 64))} thou", f"{n} 64ths", f"{mixed}″",
    ]  # fmt: skip
    if whole and top:
        ways.append(f'{whole}-{fraction}"')
    if top and Fraction(top, bottom) in _GLYPHS:
        ways.append(f"{whole or ''}{_GLYPHS[Fraction(top, bottom)]} in")
    if top and not whole:
        ways.append(f"{small[: small.index('⁄')]}⁄{bottom} in")
    if whole >= 12:
        rest = f"{whole % 12} {fraction}".strip() if whole % 12 else fraction or "0"
        ways += [f"{whole // 12} ft {rest} in", f"{whole // 12}'-{rest}\"", f"{whole // 12}' {rest}\""]
    return ways


@st.composite
def written(draw: st.DrawFn, least: int = 1, most: int = 64 * 40) -> tuple[str, Fraction]:
    """A size as it is written, and its millimetres."""
    n = draw(st.integers(least, most))
    return draw(st.sampled_from(writings(n))), n * A_64TH


def mm(size: Quantity | Limits) -> Fraction:
    assert isinstance(size, Quantity)
    assert not size.approximate
    return size.mm


def worked(text: str) -> Sheet:
    job = Sheet.from_text(text).run()
    assert isinstance(job, Sheet)
    assert job.faults == (), text
    return job


@settings(max_examples=25)
@given(st.integers(1, 64 * 40).flatmap(lambda n: st.tuples(st.just(n), st.sampled_from(writings(n)))))
def test_every_writing_of_a_size_says_it(size: tuple[int, str]) -> None:
    n, text = size
    assert Session().size(text).mm == n * A_64TH


@settings(max_examples=25)
@given(st.lists(written(), min_size=2, max_size=3), st.integers(1, 99), st.sampled_from((" by ", ", ")))
def test_the_sizes_of_a_part_are_those_written(
    sizes: list[tuple[str, Fraction]], count: int, joint: str
) -> None:
    if joint == ", ":
        sizes = sizes[:1]
    (part,) = worked(
        f"part rail: {count} of brass, {joint.join(text for text, _ in sizes)}; eased"
    ).parts.values()
    assert (part.count, part.material, part.note) == (count, "brass", "eased")
    assert [mm(size) for size in part.sizes] == [value for _, value in sizes]


@settings(max_examples=25)
@given(
    written(64, 128), written(64, 128), st.lists(written(1, 8), min_size=2, max_size=2), written(1, 3),
    st.one_of(st.none(), st.tuples(written(1, 4), written(1, 4))), st.one_of(st.none(), written(1, 2)),
)  # fmt: skip
def test_a_hole_lies_where_it_is_written(across, up, place, size, start, deep) -> None:
    line = f"hole in plate: {size[0]} at {place[0][0]} by {place[1][0]}"
    line += f" from {start[0][0]}, {start[1][0]}" if start else ""
    line += f" deep {deep[0]}" if deep else ""
    job = Sheet.from_text(f"part plate: 2 of steel, {across[0]} by {up[0]} by 1/2 in\n{line}").run()
    x, y = (value + (start[n][1] if start else 0) for n, (_, value) in enumerate(place))
    if min(x, y) < size[1] / 2:
        assert job.faults, "it would lie outside the face"
        return
    (lettered,) = job.cut_parts["plate"].cuts
    hole = lettered.feature.cut
    assert (mm(hole.diameter), [tuple(mm(one) for one in at) for at in hole.at]) == (size[1], [(x, y)])
    assert (None if hole.deep is None else mm(hole.deep)) == (deep[1] if deep else None)


@settings(max_examples=25)
@given(written(40, 64), written(1, 8), written(200, 400), written(60, 100))
def test_a_slot_is_as_long_over_all_and_as_wide_as_written(length, width, across, up) -> None:
    job = worked(
        f"part plate: 1 of ply, {across[0]} by {up[0]}\nslot in plate: {length[0]} by {width[0]} at 1 1/2 in by 1/2 in"
    )
    (lettered,) = job.cut_parts["plate"].cuts
    slot = lettered.feature.cut
    assert (mm(slot.length), mm(slot.width)) == (length[1], width[1])
    assert [tuple(mm(one) for one in at) for at in slot.at] == [(Fraction(381, 10), Fraction(127, 10))]


@settings(max_examples=25)
@given(written(1, 64), written(1, 40), written(40, 120), st.sampled_from(["left", "right", "lower", "upper"]))
def test_a_notch_lies_along_its_edge_and_reaches_as_deep_as_written(width, depth, place, edge) -> None:
    job = worked(
        f"part plate: 1 of ply, 4 in by 3 in\nnotch in plate: {width[0]} by {depth[0]} at {place[0]} along {edge}"
    )
    (lettered,) = job.cut_parts["plate"].cuts
    (outline,) = lettered.feature.cut.outlines
    xs, ys = zip(*outline.corners, strict=True)
    along, inward = (ys, xs) if edge in ("left", "right") else (xs, ys)
    far = {"right": 4, "upper": 3}.get(edge, 0) * Fraction(127, 5)
    assert (min(along), max(along)) == (place[1] - width[1] / 2, place[1] + width[1] / 2)
    assert sorted({abs(each - far) for each in inward}) == [0, depth[1]]


@settings(max_examples=25)
@given(st.integers(1, 40), written(1, 64 * 5), written(64 * 10, 64 * 60), written(1, 8))
def test_bars_hold_their_pieces_and_cuts(count, piece, bar, saw) -> None:
    job = worked(
        f"part peg: {count} of oak, round 1/2 in by {piece[0]}\nstock oak: round 1/2 in, {bar[0]} long, saw {saw[0]}"
    )
    a_bar = int(
        (bar[1] + saw[1]) // (piece[1] + saw[1])
    )  # the last piece may use up the bar without a cut behind it
    (cutting,) = (row.stock.cutting for row in job.worked if row.stock is not None)
    assert cutting.many == -(-count // a_bar)


@settings(max_examples=25)
@given(st.integers(1, 30), written(1, 64), written(64 * 40, 64 * 90))
def test_bodies_inside_two_posts_leave_equal_spaces(count, body, total) -> None:
    result = Session().ask(f"divide {total[0]} for {count} of {body[0]}").result
    assert mm(result.exact) == (total[1] - count * body[1]) / (count + 1)
    marks = Session().ask(f"mark {total[0]} for {count} of {body[0]} edges").result.exact
    space = (total[1] - count * body[1]) / (count + 1)
    edges = [
        each for n in range(count) for each in (space + n * (space + body[1]), (n + 1) * (space + body[1]))
    ]
    assert [mm(each) for each in marks] == edges


@settings(max_examples=25)
@given(st.integers(2, 30), written(1, 64), written(64 * 40, 64 * 90))
def test_bodies_about_the_spaces_are_one_more(count, body, total) -> None:
    """A body outside each end space too: README, `between`."""
    result = Session().ask(f"divide {total[0]} into {count} between {body[0]}").result
    assert mm(result.exact) == (total[1] - (count + 1) * body[1]) / count


@settings(max_examples=25)
@given(st.lists(written(), min_size=2, max_size=6, unique_by=lambda size: size[1]), written(64 * 41, 64 * 60))
def test_places_are_those_written_and_their_chain_their_differences(places, along) -> None:
    result = Session().ask(f"places {', '.join(text for text, _ in places)} along {along[0]}").result
    said = sorted(value for _, value in places)
    assert sorted(mm(point[0]) for point in result.points) == said
    chain = [mm(size) for size in result.places.axes[0].chain.exact]
    assert chain == [after - before for before, after in pairwise(said)]


@settings(max_examples=25)
@given(st.integers(1, 9), st.integers(1, 5), st.lists(written(), min_size=4, max_size=4))
def test_a_grid_is_its_first_place_and_whole_pitches_from_it(across, up, sizes) -> None:
    (a, pitch_x), (b, pitch_y), (c, x), (d, y) = sizes
    result = Session().ask(f"places {across} across by {a}, {up} up by {b} first at {c}, {d}").result
    assert [tuple(mm(each) for each in point) for point in result.points] == [
        (x + i * pitch_x, y + j * pitch_y) for j in range(up) for i in range(across)
    ]


@pytest.mark.parametrize(
    ("text", "trust"),
    [("75.4 mm", "0.05"), ("75 mm", "0.5"), ("75.40 mm", "0.005"), ("2.97 in", "0.127"), ("2 31/32 in", "0.396875"), ("2 15/16 in", "0.79375")],
)  # fmt: skip
def test_a_reading_is_trusted_to_half_of_its_last_place(text: str, trust: str) -> None:
    """README: half a unit of its last written place, a fraction to half its division."""
    result = Session().ask(f"rack reads {text}").result
    (reading,) = result.found.readings
    assert mm(reading.within) == Fraction(trust)
