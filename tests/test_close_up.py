"""Readings magnified: what stands where, in letters and drawn, and where no picture helps."""

from __future__ import annotations

import re
from fractions import Fraction
from itertools import combinations

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from reportlab.pdfbase.pdfmetrics import stringWidth

from fractions_shop import Session, recover
from fractions_shop.command.streams import in_letters
from fractions_shop.errors import cells
from fractions_shop.figures.close_up import (
    LEAST_COLUMNS,
    MOST_COLUMNS,
    MOST_ROWS,
    CloseUp,
    LabelledMark,
    ReadingBand,
)
from fractions_shop.figures.drawing import Box, Drawing, Stroke, Words
from fractions_shop.figures.paper import A4
from fractions_shop.requests.meant_pictures import of_list, of_one
from fractions_shop.requests.pictures.close_up import close_up
from fractions_shop.show.sheet import Sheet

ONE = "recover 51.5 mm"
THREE = "recover 51.5 mm, 66.7 mm, 10.3 mm"
FIVE = "recover 51.5 mm, 66.7 mm, 10.3 mm, 8.7 mm, 7.95 mm"
TIED = [
    "rack reads 75.4 mm",
    "bay reads 10.3 mm",
    "slat reads 4.9 mm",
    "reconcile rack = 5 of bay + 6 of slat",
]
WIDTHS = [40, 52, 60, 80, 100, 120]


def pictures(*lines: str) -> list[CloseUp]:
    """The close-ups in the answer to the last line."""
    bench = Session()
    for line in lines:
        answer = bench.answer(line)
    return [each for each in answer.lines() if isinstance(each, CloseUp)]


def picture(*lines: str) -> CloseUp:
    (found,) = pictures(*lines)
    return found


def drawings(*lines: str) -> list[Drawing]:
    bench = Session()
    for line in lines:
        answer = bench.answer(line)
    assert answer.room.pictures is not None
    return list(answer.room.pictures(answer.result, lines[-1], A4))


readings = st.integers(40, 900).map(lambda tenths: f"{tenths / 10:.1f} mm")
lists_of_readings = st.lists(readings, min_size=2, max_size=12)


class TestWhatStandsInIt:
    def test_every_size_that_is_told_at_its_own_place_inches_above_and_millimetres_below(self):
        found = recover("51.5 mm").readings[0]
        shown = of_one(found)
        named = {mark.label: mark.place for mark in (*shown.inches, *shown.millimetres) if mark.named}
        assert named == {c.name: c.size.mm for c in found.candidates if c.chance < 0.995}
        assert {mark.label for mark in shown.millimetres if mark.named} == {"51.5 mm"}

    def test_the_band_is_the_trust_and_beyond_it_the_makers_hand_the_wear_and_the_plating(self):
        (reading,) = picture("recover 51.5 mm within 0.1 mm worn 0.2 mm plated 0.03 mm made 0.04 mm").readings
        told = (reading.at, reading.low, reading.high, reading.least, reading.most)
        # 51.5 - 0.1 - 0.04 - 0.03 and 51.5 + 0.1 + 0.04 + 0.2
        assert told == tuple(map(Fraction, ("51.5", "51.4", "51.6", "51.33", "51.84")))

    def test_of_a_list_each_reading_about_its_own_mark_of_the_division_found(self):
        shown = picture(THREE)
        # 2 1/32 in is 51.59375 mm, 2 5/8 in 66.675 mm and 13/32 in 10.31875 mm (1 in is 25.4 mm).
        offs = [Fraction("-0.09375"), Fraction("0.025"), Fraction("-0.01875")]
        assert [one.at for one in shown.readings] == offs
        assert [band.meant for band in shown.readings] == ["2 1/32 in", "2 5/8 in", "13/32 in"]
        assert (shown.start, shown.end) == (-Fraction(254, 640), Fraction(254, 640))
        assert [mark.label for mark in shown.inches] == ["a mark of the 32nds", "-1/64 in", "+1/64 in"]

    def test_of_tied_sizes_each_name_about_its_size_and_a_misreading_past_the_end(self):
        shown = picture(*TIED)
        assert [band.label for band in shown.readings] == ["rack 75.4 mm", "bay 10.3 mm", "slat 4.9 mm"]
        assert shown.readings[2].at > shown.end
        assert shown.letters(80)[4].rstrip().endswith(">")

    def test_of_an_old_inch_in_its_own_words(self):
        shown = picture("recover 33.8 mm, 27.1 mm, 13.5 mm, 40.6 mm among old inches")
        assert [band.meant for band in shown.readings] == [
            c.name
            for c in recover(["33.8 mm", "27.1 mm", "13.5 mm", "40.6 mm"], among="old inches").candidates
        ]
        assert "Paris" in shown.inches[0].label

    def test_it_tells_itself_in_words(self):
        assert picture(ONE).words == (
            "51.5 mm, magnified, over the sizes that may have been meant. Read within 0.05 mm; "
            "2 1/32 in is about 0.0037 in (about 0.094 mm) above it, 2.03 in is about 0.0024 in (0.062 mm) "
            "above it and 51.5 mm is where it reads."
        )
        assert picture(*TIED).words.startswith(
            "Where each reading falls about a mark of the 32nds, one to the next 0.03125 in (0.79375 mm): "
            "rack 75.4 mm about 0.0002 in (about 0.006 mm) below its mark, "
        )


class TestWhereItHelps:
    @pytest.mark.parametrize(
        ("lines", "many"),
        [
            pytest.param([ONE], 1, id="two sizes or more"),
            pytest.param(["recover 25.4 mm"], 0, id="settled"),
            pytest.param(["recover 66.7 mm"], 0, id="nothing else it may be"),
            pytest.param(["recover 5.88 mm among threads"], 0, id="a screw lies below its size"),
            pytest.param([FIVE], 1, id="a division explains them"),
            pytest.param(["recover 13.37 mm, 29.11 mm, 41.83 mm within 0.01 mm"], 0, id="none does"),
            pytest.param(["recover 51.5 mm, 66.7 mm, 10.3 mm within 0.4 mm"], 0, id="too rough to fall anywhere"),
            pytest.param(["rack reads 75.4 mm"], 1, id="a name that is not settled"),
            pytest.param(["rack reads 75.4 mm", "bay reads 25.4 mm"], 0, id="a name that is"),
            pytest.param(TIED, 1, id="tied sizes"),
        ],
    )  # fmt: skip
    def test_it_is_drawn(self, lines, many):
        assert len(pictures(*lines)) == many

    def test_of_more_readings_than_can_be_told_apart_it_is_not(self):
        many = [f"{n * 3.175:.2f} mm" for n in range(2, 15)]
        assert of_list(recover(many[:12])) is not None
        assert of_list(recover(many)) is None


class TestInLetters:
    @pytest.mark.parametrize("width", WIDTHS)
    @pytest.mark.parametrize("lines", [[ONE], [THREE], [FIVE], TIED], ids=str)
    def test_it_keeps_to_the_width_and_to_seven_lines(self, lines, width):
        drawn = picture(*lines).letters(width)
        assert 5 <= len(drawn) <= 7
        assert all(cells(line) <= width for line in drawn)

    def test_where_there_is_no_room_it_is_left_out(self):
        shown = picture(ONE)
        least = next(width for width in range(20, 80) if shown.letters(width))
        assert len(shown.letters(least)[1]) == least
        assert least == LEAST_COLUMNS + 2 + len("51.5 mm") + 1
        assert max(map(len, shown.letters(500))) == MOST_COLUMNS + 2 + len("51.5 mm") + 1
        assert "dense:" not in Session().answer(ONE).text(30)

    def test_what_it_looks_like(self):
        assert picture(ONE).letters(72) == [
            "                                                   2.03 in   2 1/32 in",
            "  inch    ───────────────────────────────────────────────┴───────┴──────",
            "  51.5 mm     ░░░░░░░░░░░░░▒▒▒▒▒▒▒▒▒▒▒▒▒│▒▒▒▒▒▒▒▒▒▒▒▒▒▒░░░░░░░░░░░░░",
            "  mm      ────┬─────┬────┬────┬────┬────┬─────┬────┬────┬────┬─────┬────",
            "            51.4       51.44  51.46  51.5 mm  51.52   51.56      51.6",
        ]
        assert picture(*TIED).letters(60) == [
            "               -1/64 in     a mark of the 32nds     +1/64 in",
            "  inch         ┴─────────────────────┴─────────────────────┴",
            "  rack 75.4 mm                 ░░░▒▒▒│▒▒░░░",
            "  bay 10.3 mm                 ░░░▒▒▒│▒▒▒░░░",
            "  slat 4.9 mm                                              >",
            "  mm           ┬─────────────────────┬─────────────────────┬",
            "               -0.397 mm             0             +0.397 mm",
        ]

    @given(lists_of_readings, st.sampled_from(WIDTHS))
    @settings(max_examples=15, deadline=None)
    def test_marks_stand_in_true_proportion_and_labels_keep_apart(self, read, width):
        shown = of_list(recover(read))
        if shown is None:
            return
        self.holds(shown, width)

    @given(readings, st.sampled_from(WIDTHS))
    @settings(max_examples=15, deadline=None)
    @example("51.5 mm", 60)
    def test_of_one_reading_too(self, read, width):
        shown = of_one(recover(read).readings[0])
        if shown is not None:
            self.holds(shown, width)

    def holds(self, shown: CloseUp, width: int) -> None:
        drawn = shown.letters(width)
        if not drawn:
            return
        edges = [line for line in drawn if re.match(r" *(inch|mm) ", line)]
        left = min(line.index("─") if "─" in line[:40] else len(line) for line in edges)
        left = min(left, *(min(line.index(tick) for tick in "┴┬" if tick in line) for line in edges))
        columns = len(edges[0]) - left
        for line, marks, tick in ((edges[0], shown.inches, "┴"), (edges[1], shown.millimetres, "┬")):
            places = {round(self.share(shown, mark) * (columns - 1)) for mark in marks}
            assert {n - left for n, sign in enumerate(line) if sign == tick} == places
        labels = {mark.label for mark in (*shown.inches, *shown.millimetres)}
        for line in (drawn[0], drawn[-1]):
            assert set(re.split(r"  +", line.strip())) <= labels | {"inch"}

    @staticmethod
    def share(shown: CloseUp, mark: LabelledMark) -> Fraction:
        return (mark.place - shown.start) / (shown.end - shown.start)

    def test_several_are_lettered_in_turn_and_those_at_one_place_stand_one_above_another(self):
        def at(place: str) -> ReadingBand:
            return ReadingBand(*(Fraction(place),) * 5, "x")

        shown = CloseUp(
            Fraction(0), Fraction(10), (LabelledMark(Fraction(5), "5", True),), (LabelledMark(Fraction(5), "5", True),),
            tuple(map(at, ("5", "5", "2", "5", "5"))), "", "",
        )  # fmt: skip
        assert shown.letters(48)[2:5] == [
            f"  inch {' ' * 20}+".replace("inch", "    "),
            f"       {' ' * 20}b",
            f"       {' ' * 8}c{' ' * 11}a",
        ]
        assert MOST_ROWS == 3

    def test_a_terminal_without_the_signs_is_given_plain_ones(self):
        drawn = "\n".join(
            (*picture(ONE).letters(80), *Session().answer("fit 6 mm H7/g6").text(80).splitlines())
        )
        plain = in_letters(drawn, "ascii")
        assert "?" not in plain
        assert [len(line) for line in in_letters("─┴┬│░▒█", "ascii")] == [1] * 7
        assert in_letters("½", "latin-1") == "½"


class TestDrawn:
    @staticmethod
    def boxes(drawing: Drawing) -> list[tuple[float, float, float, float, str]]:
        """Each text as left, right, top and bottom in mm, as wide as Helvetica is (Adobe's own metrics)."""
        found = []
        for shape in drawing.shapes:
            if isinstance(shape, Words):
                wide, size = stringWidth(shape.text, "Helvetica", float(shape.size)), float(shape.size)
                left = float(shape.x) - {"start": 0, "middle": wide / 2, "end": wide}[shape.anchor]
                found.append(
                    (
                        left,
                        left + wide,
                        float(shape.y) - 0.72 * size,
                        float(shape.y) + 0.21 * size,
                        shape.text,
                    )
                )
        return found

    def clear(self, drawing: Drawing) -> None:
        boxes = self.boxes(drawing)
        for one, other in combinations(boxes, 2):
            apart = one[1] < other[0] or other[1] < one[0] or one[3] < other[2] or other[3] < one[2]
            assert apart, (one, other)
        for left, right, top, bottom, text in boxes:
            assert left >= 0, text
            assert right <= drawing.width, text
            assert top >= 0, text
            assert bottom <= drawing.height, text
        for shape in drawing.shapes:
            if isinstance(shape, Box):
                inside = [text for left, right, top, bottom, text in boxes
                          if left < shape.x + shape.width and right > shape.x
                          and top < shape.y + shape.height and bottom > shape.y]  # fmt: skip
                assert not inside

    @pytest.mark.parametrize("lines", [[ONE], [THREE], [FIVE], TIED, ["rack reads 75.4 mm"]], ids=str)
    def test_no_words_touch_others_or_a_band(self, lines):
        (drawing,) = drawings(*lines)
        self.clear(drawing)

    @given(lists_of_readings)
    @settings(max_examples=15, deadline=None)
    def test_of_any_list(self, read):
        shown = of_list(recover(read))
        if shown is not None:
            self.clear(close_up(shown, "a statement " * 20))

    @given(readings, st.sampled_from(["0.002 mm", "0.05 mm", "0.5 mm"]))
    @settings(max_examples=15, deadline=None)
    def test_of_any_reading(self, read, within):
        shown = of_one(recover(read, within=within).readings[0])
        if shown is not None:
            self.clear(close_up(shown, read))

    def test_bands_and_marks_stand_to_one_scale(self):
        shown = picture(ONE)
        (drawing,) = drawings(ONE)
        pale, hatched = (shape for shape in drawing.shapes if isinstance(shape, Box))
        # 0.05 mm of trust and as much again of the maker's hand, both ways.
        assert float(pale.width / hatched.width) == pytest.approx(2, abs=1e-5)
        scale = hatched.width * 10
        middle = hatched.x + hatched.width / 2
        ticks = {float(s.x1) for s in drawing.shapes if isinstance(s, Stroke) and s.kind in ("mark", "tick")}
        for mark in (*shown.inches, *shown.millimetres):
            assert min(abs(float(middle + (mark.place - Fraction("51.5")) * scale) - x) for x in ticks) < 1e-4

    def test_each_reading_of_a_list_has_its_words_at_the_sides(self):
        (drawing,) = drawings(FIVE)
        said = [shape.text for shape in drawing.shapes if isinstance(shape, Words)]
        for read, meant in zip(FIVE.removeprefix("recover ").split(", "),
                               ("2 1/32 in", "2 5/8 in", "13/32 in", "11/32 in", "5/16 in"), strict=True):  # fmt: skip
            assert said.count(read) == 1
            assert said.count(meant) == 1

    def test_a_misreading_is_an_arrow_past_the_end_and_no_band(self):
        (drawing,) = drawings(*TIED)
        assert len([shape for shape in drawing.shapes if isinstance(shape, Box)]) == 2 * 2


class TestEveryOutput:
    SHEET = "\n".join((*TIED, ONE, FIVE))

    def test_letters_in_text_and_drawings_elsewhere_never_both(self):
        made = Sheet.from_text(self.SHEET)
        assert made.to_text().count("░") > 20
        page = made.to_html()
        assert "░" not in page
        assert page.count("<figure") == 3
        assert made.to_svg().count('<g id="drawing-') == 3

    def test_markdown_tells_them_in_words(self):
        told = Sheet.from_text(self.SHEET).to_markdown()
        assert "░" not in told
        assert told.count("Picture: ") == 3

    def test_a_notebook_has_the_letters_set_as_they_stand_with_their_words(self):
        told = Session().answer(ONE)._repr_html_()
        assert '<pre role="img" aria-label="51.5 mm, magnified' in told
        assert "▒" in told

    def test_whoever_wants_no_pictures_has_none(self):
        for line in (ONE, FIVE, "fit 6 mm H7/g6"):
            plain = Session().answer(line).text(80, pictures=False)
            assert not set("░▒█│─") & set(plain)
            assert "dense" not in plain
            assert Session().answer(line).text(80).startswith(plain.splitlines()[0])

    def test_a_preview_is_not_drawn(self):
        assert not set("░▒│─") & set(Session().answer(FIVE).gist())
