"""Slips of the pen and of print that make another size of one: none is read in silence, by whatever way it comes."""

from __future__ import annotations

import pytest

from fractions_shop import InputError, Quantity, Session, ShopError, find_sizes, read, read_column, reconcile

#: What was written, and the sizes that it may say.
SLIPS = {
    "13/32 mm": ("0.40625 mm", "13/32 in"),
    "2-1/64 mm": ("2.015625 mm", "2 1/64 in"),
    "3/8'": ("3/8 ft", "3/8 in"),
    "11/1 in": ("11 in",),
    "0193 in": ("193 in", "0.193 in"),
    "0193. mm": ("193 mm", "0.193 mm"),
    "- 5 ft": ("-5 ft", "5 ft"),
    "– 2 1/32 in": ("-2 1/32 in", "2 1/32 in"),
    "- -1/64 in": ("-(-1/64 in)", "-1/64 in"),
    "- M6": ("-M6", "M6"),
    "20 m": ("20 metres", "20 mm"),
    "51.5 m": ("51.5 metres", "51.5 mm"),
}
#: As pages and PDFs leave them: what stands between the figures cannot be seen.
PARTED = [
    "2\u00ad1/32 in",
    "2\u200b1/32 in",
    "1\u20602 mm",
    "5\u200d.5 mm",
    "2 in + 1\u00ad1/4 in",
    "½\u200b2 in",
]


@pytest.mark.parametrize("form", SLIPS)
def test_a_slip_is_doubted_by_every_way_and_told_with_what_to_write(form: str) -> None:
    answer = Session().answer(form)
    assert answer is not None
    assert [note.meanings for note in answer.doubts] == [SLIPS[form]]
    with pytest.raises(InputError, match="more than one meaning"):
        read(form)
    assert list(read_column([form], unit="in").faults) == [0]


@pytest.mark.parametrize("form", SLIPS)
def test_each_meaning_of_a_slip_is_read_without_doubt(form: str) -> None:
    for meaning in SLIPS[form]:
        assert isinstance(read(meaning), Quantity)


@pytest.mark.parametrize("cell", ["13/32", "0193", "11/1"])
def test_a_number_alone_in_a_column_is_doubted_as_its_unit_has_it(cell: str) -> None:
    assert list(read_column([cell], unit="mm").faults) == [0]
    assert not read_column(["0.193", "1/4", "11"], unit="mm").faults


@pytest.mark.parametrize("line", PARTED)
def test_figures_with_nothing_to_be_seen_between_them_are_refused(line: str) -> None:
    for text in (line, f"a = {line}", f"snap {line}", f"{line} wide"):
        with pytest.raises(InputError, match="nobody sees"):
            Session().answer(text)
    with pytest.raises(ShopError):
        read(line)
    assert list(read_column([line], unit="in").faults) == [0]
    found = [item.value for item in find_sizes(f"A bar {line}. wide")]
    assert found in ([], [Quantity("2 in")])  # the other size of the sum, and no part of the parted one


@pytest.mark.parametrize("line", ["2\u200b in", "\ufeff2 1/32 in", "2 1/32\u200bin", "51.\u20605 mm"])
def test_elsewhere_what_nobody_sees_is_not_there(line: str) -> None:
    answer = Session().answer(line)
    assert answer is not None
    assert answer.doubts == ()


@pytest.mark.parametrize("line", ["35'-- 1/2\"", "2 in --1/4 in", "2 in ++ 1 in", "--8 in", "2 in + --1 in"])
def test_two_signs_together_are_refused(line: str) -> None:
    with pytest.raises(InputError, match="stand together"):
        Session().answer(line)


@pytest.mark.parametrize("line", ["10 mm /+0.2", "2 1/3 in/-.002", "2 in ± 1 thou /-2", "2 in/-.002 in"])
def test_half_of_two_limits_is_no_division(line: str) -> None:
    with pytest.raises(InputError, match=r"half of its limits|may be limits"):
        Session().answer(line)


@pytest.mark.parametrize("line", ["' 3 1/2\"", "' 3 1/2\" wide", "'3 1/2\"", "5' \"", "a = 5' \""])
def test_a_mark_that_has_lost_its_figure_is_never_left_out(line: str) -> None:
    with pytest.raises(InputError):
        Session().answer(line)


@pytest.mark.parametrize("line", ["'3/16'", "'2 1/32'", "a = '3/16'"])
def test_a_number_in_quotation_marks_is_no_part_of_a_foot(line: str) -> None:
    with pytest.raises(InputError):
        Session().answer(line)


@pytest.mark.parametrize(
    "line",
    [
        "5/1 UNC",
        "10/2 UNC",
        "12/1-24",
        "6 in-32 UNC",
        '#6" UNC',
        "6/3 BA",
        '5" UNC',
        "7/64 in Whitworth",
        "Thury 48 in",
    ],
)
def test_a_size_with_a_bar_or_a_unit_is_no_number_of_a_screw(line: str) -> None:
    with pytest.raises(InputError, match=r"there is no|expected the name|another unit"):
        Session().answer(line)


@pytest.mark.parametrize(
    "line",
    [
        "taрping(6 BA)",
        "w1dth(2 in)",
        "26 tpi asmm",
        "3/16 in perfoot",
        "w = 25 mm ininches",
        "front (2 in) tomm",
    ],
)
def test_a_function_misspelt_and_words_run_together_are_never_left_out(line: str) -> None:
    with pytest.raises(InputError):
        Session().answer(line)


def test_an_inch_before_a_series_is_the_size_and_no_number() -> None:
    answer = Session().answer('a = 1" UNC')
    assert answer is not None
    assert answer.value == Quantity("1 in")
    assert answer.doubts == ()


@pytest.mark.parametrize("reading", ["1" + "0" * 38 + " mm", "0.0000000001 mm", "1000000 mm"])
def test_an_absurd_reading_among_tied_ones_is_accused_and_settles_nothing(reading: str) -> None:
    tied = ["b = 2 * a", "c = 3 * a", "d = 6 * a"]
    found = reconcile({"a": "30.95 mm", "b": reading, "c": "92.85 mm", "d": "185.75 mm"}, tied, work="inch")
    assert found.suspect == "b"
    assert found.verdict.name == "UNSETTLED"
