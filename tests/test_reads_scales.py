"""Names read off prints and photographs, lists whose sizes have names each, and relations that cannot be read."""

from __future__ import annotations

import csv
import io
import itertools
import json
from fractions import Fraction

import pytest

from fractions_shop import InputError, Session, Sheet, recover
from fractions_shop.meant.readings import reading
from fractions_shop.meant.reconcile import reconcile
from fractions_shop.meant.scale import scale_from
from fractions_shop.meant.shared import Print
from fractions_shop.sheet.living import LivingSheet

OFF = (
    "a reads 14.0 mm off a print",
    "b reads 23.4 mm off a print",
    "c reads 34.3 mm off a print",
    "d reads 7.8 mm off a print",
)
READ = {"a": "14.0 mm", "b": "23.4 mm", "c": "34.3 mm", "d": "7.8 mm"}


def sheet(*lines):
    return Sheet.from_text("\n".join(lines))


def inches(job):
    return {name: value.inch for name, value in job.sizes.items()}


class TestAPrint:
    def test_is_settled_in_a_session_by_the_fourth_size_and_all_take_theirs_then(self):
        bench = Session()
        for count, line in enumerate(OFF[:3], 1):
            answer = bench.answer(line)
            assert answer.value is None
            assert answer.text(300).startswith(f"Not settled: {line[0]} has no size yet; do not cut yet")
            assert f"the scale of the print is not settled by {count} size" in answer.doubts[0].text
            assert line[0] not in bench.known
            with pytest.raises(InputError, match=f"what {line[0]} reads does not settle its size yet"):
                bench.answer(f"{line[0]} * 2")
        last = bench.answer(OFF[3])
        found = recover(list(READ.values()), scale=Print())
        assert [bench.known[name] for name in READ] == [one.size for one in found.candidates]
        assert [note.text for note in last.notes][:3] == [
            "a is 9/16 in now",
            "b is 15/16 in now",
            "c is 1 3/8 in now",
        ]
        assert last.result.scale == found.scale

    @pytest.mark.parametrize("order", [(0, 1, 2, 3), (3, 1, 0, 2)])
    def test_is_one_scale_in_a_sheet_in_any_order(self, order):
        job = sheet("twice = 2 * d", *(OFF[n] for n in order))
        assert job.ok
        assert inches(job)["twice"] == 2 * inches(job)["d"]

    def test_that_a_sheet_leaves_open_gives_no_size_and_holds_up_what_rests_on_it(self):
        job = sheet(*OFF[:3], "side reads 66.7 mm", "twice = 2 * a")
        assert [w.state for w in job.worked] == ["answered"] * 4 + ["waits"]
        assert list(job.sizes) == ["side"]
        assert not job.ok
        assert [doubt.name for doubt in job.doubts.readings] == ["a", "b", "c"]
        assert job.doubts.readings[0].notes[0].text == (
            "the scale of the print is not settled by 3 sizes: read 4 different ones, or one whose true size is known, with scale from"
        )
        first = next(csv.DictReader(io.StringIO(job.to_csv())))
        assert (first["name"], first["mm"]) == ("a", "")
        assert "is not settled by 3 sizes" in first["remark"]

    def test_two_prints_have_two_scales(self):
        others = [
            line.replace("off a print", "off print B").replace(line[0], line[0] + "2", 1) for line in OFF
        ]
        job = sheet(*OFF, *others[:3])
        assert [w.value is None for w in job.worked] == [False] * 4 + [True] * 3
        assert "the scale of print B" in job.doubts.readings[0].notes[0].text

    def test_a_print_that_has_a_name_is_told_once_and_as_one_that_has_none(self):
        listed = f"recover {', '.join(READ.values())} off a print"
        for lines in (OFF, (*OFF, "reconcile a + b = c + d - 3/16 in"), (listed,)):
            named = [line.replace("off a print", "off print B") for line in lines]
            told = [
                [line for line in sheet(*each).to_text(200).splitlines() if "times what was read" in line]
                for each in (lines, named)
            ]
            assert told[0]
            assert all("; it rests on " in line for line in told[0])
            assert told[1] == [line.replace("scale:", "print B:") for line in told[0]]

    def test_is_entered_line_by_line_in_a_sheet_being_written(self):
        written = LivingSheet(Sheet.from_text(""))
        for line in OFF:
            assert written.enter(line) is not None
        assert list(written.state.sheet.sizes) == list("abcd")

    def test_is_shared_by_names_that_are_tied_and_names_that_are_not(self):
        lines = (
            "rack reads 74.1 mm off a print", "bay reads 10.1 mm off a print", "slat reads 3.9 mm off a print",
            "base reads 49.9 mm off a print", "reconcile rack = 5 of bay + 6 of slat",
        )  # fmt: skip
        job = sheet(*lines)
        assert job.ok
        readings = {
            line.split()[0]: reading(f"{line.split()[2]} mm", shared=(Print(),)) for line in lines[:4]
        }
        assert dict(job.sizes) == reconcile(readings, ["rack = 5 * bay + 6 * slat"]).sizes

    def test_a_departure_is_told_without_the_scale(self):
        read = {"rack": "74.1 mm", "bay": "10.1 mm", "slat": "3.9 mm", "base": "49.9 mm"}
        found = reconcile(read, ["rack = 5 * bay + 6 * slat"], scale=Print())
        assert all(abs(off.mm) < Fraction(1, 20) for off in found.departures.values())
        assert found.put_right["rack"] - found.sizes["rack"] == found.departures["rack"]
        assert reconcile({"rack": "75.4 mm", "bay": "10.3 mm"}, ["rack = 7 * bay + 1/8 in"]).put_right == {}

    def test_a_known_length_in_a_relation_tells_its_scale(self):
        read = {"bay": reading("10.1 mm", shared=(Print(),)), "slat": reading("3.9 mm", shared=(Print(),))}
        found = reconcile(read, ["2 31/32 in = 5 * bay + 6 * slat"])
        assert found.common[0].readings == 2


class TestAStatedSize:
    LINES = ("rack reads 37.7 mm", "bay reads 5.15 mm scale from rack = 2 31/32 in", "slat reads 2.0 mm scale from rack = 2 31/32 in",
             "reconcile rack = 5 of bay + 6 of slat")  # fmt: skip

    @pytest.mark.parametrize("order", list(itertools.permutations(range(4)))[::7])
    def test_is_the_size_of_its_name_and_a_known_length_of_relations_in_any_order(self, order):
        job = sheet(*(self.LINES[n] for n in order), "check rack = 5 * bay + 6 * slat")
        assert job.ok
        assert {name: str(size) for name, size in inches(job).items()} == {
            "rack": "95/32",
            "bay": "13/32",
            "slat": "5/32",
        }

    def test_at_the_prompt_moves_the_name_and_says_so(self):
        bench = Session()
        bench.answer(self.LINES[0])
        answer = bench.answer(self.LINES[1])
        assert bench.known["rack"].inch.limit_denominator(32) == bench.known["rack"].inch
        assert "rack is 2 31/32 in now, it was 1 31/64 in" in [note.text for note in answer.notes]
        assert answer.result.scale.known == scale_from("37.7 mm", "2 31/32 in")

    def test_reading_it_again_moves_the_scale_of_the_others(self):
        bench = Session()
        for line in self.LINES[:2]:
            bench.answer(line)
        bench.answer("rack reads 37.0 mm")
        assert bench.answer("bay reads 5.15 mm scale from rack = 2 31/32 in").result.scale.known.read.mm == 37

    def test_that_is_stated_twice_otherwise_is_refused(self):
        bench = Session()
        for line in self.LINES[:2]:
            bench.answer(line)
        with pytest.raises(InputError, match="rack cannot be of two true sizes"):
            bench.answer("slat reads 2.0 mm scale from rack = 3 in")


class TestAScaleThatAReadingTellsOfItself:
    """`rack reads 74.1 mm scale from rack = 2 31/32 in`: in one line what two lines say."""

    ONE = "rack reads 74.1 mm scale from rack = 2 31/32 in"
    REST = ("bay reads 10.1 mm scale from rack = 2 31/32 in", "slat reads 3.9 mm scale from rack = 2 31/32 in",
            "reconcile rack = 5 of bay + 6 of slat")  # fmt: skip

    @pytest.mark.parametrize("order", list(itertools.permutations(range(4)))[::5])
    def test_says_what_two_lines_say_in_any_order(self, order):
        lines = (self.ONE, *self.REST)
        job = sheet(*(lines[n] for n in order))
        assert job.ok
        apart = sheet("rack reads 74.1 mm", *self.REST)
        assert dict(job.sizes) == {name: apart.sizes[name] for name in job.sizes}

    def test_at_the_prompt(self):
        bench = Session()
        told = bench.answer(self.ONE)
        assert told.value.inch == Fraction(95, 32)
        assert bench.answer(self.REST[0]).result.scale.known == scale_from("74.1 mm", "2 31/32 in")

    def test_of_figures_read_again_rests_on_all_of_them(self):
        bench = Session()
        bench.answer("rack reads 74.0 mm, 74.2 mm scale from rack = 2 31/32 in")
        assert bench.answer(self.REST[0]).result.scale.known.read.mm == Fraction(741, 10)

    def test_again_moves_what_rests_on_it(self):
        written = LivingSheet(Sheet.from_text(""))
        for line in (self.ONE, self.REST[0], "rack reads 37.05 mm scale from rack = 2 31/32 in"):
            written.enter(line)
        assert written.state.sheet.sizes["rack"].inch == Fraction(95, 32)
        assert written.state.sheet.sizes["bay"].mm > 20

    def test_that_rests_on_its_own_true_size_is_refused(self):
        for line in (
            "rack reads 74.1 mm scale from rack = rack",
            "rack reads 74.1 mm scale from rack = 0 in",
        ):
            with pytest.raises(InputError):
                Session().answer(line)
            assert not sheet(line).ok

    def test_more_scales_than_can_be_told_apart_are_weighed_each_for_itself(self):
        job = sheet(
            "a reads 40.0 mm scale from a = 2 in", "b reads 30.0 mm scale from b = 2 in",
            "c reads 25.0 mm scale from c = 2 in", "d reads 20.0 mm scale from a = 2 in",
            "e reads 15.0 mm scale from b = 2 in", "f reads 12.5 mm scale from c = 2 in",
        )  # fmt: skip
        assert job.ok
        assert {name: job.sizes[name].inch for name in "def"} == dict.fromkeys("def", 1)


class TestNamesForEach:
    LINE = "a, b, c = recover 51.5 mm, 66.6 mm, 10.3 mm"

    def test_size_of_a_list_in_a_session(self):
        bench = Session()
        answer = bench.answer(self.LINE)
        found = recover(["51.5 mm", "66.6 mm", "10.3 mm"])
        assert answer.named == {name: one.size for name, one in zip("abc", found.candidates, strict=True)}
        assert {name: bench.known[name] for name in "abc"} == answer.named
        assert set(bench.doubtful) == {"a", "ans"}
        assert answer.text(200).splitlines()[:3] == [
            "Probably b 2 5/8 in and c 13/32 in; read a neighbouring size",
            "Not settled: a: 2 1/32 in, or none of the round sizes; do not cut yet",
            "a is taken as 2 1/32 in = 2.03125 in = 51.59375 mm, which is not settled",
        ]
        data = answer.data()
        assert data["each"]["b"]["inch"] == "21/8"
        assert (data["names"], data["unsettled"]) == (["a", "b", "c"], ["a"])

    def test_in_a_sheet_in_any_order_with_doubts_where_they_belong(self):
        job = sheet("twice = b * 2", "thrice = a * 3", self.LINE)
        assert job.ok
        assert list(job.sizes) == ["twice", "thrice", "a", "b", "c"]
        assert job.sizes["twice"] == job.sizes["b"] * 2
        assert [one.name for one in job.doubts.readings] == ["a"]
        assert job.doubts.resting == {2}
        told = job.to_text(200)
        assert told.count("all 3 together") == 1
        assert "  a *" in told
        assert "  b *" not in told
        assert len(json.loads(job.to_json())["lines"]) == 3

    @pytest.mark.parametrize(
        ("line", "told"),
        [
            ("a, b = recover 51.5 mm, 66.7 mm, 10.3 mm", "2 names stand before 3 sizes"),
            ("a, a = recover 51.5 mm, 66.7 mm", "a is given here twice"),
            ("a, in = recover 51.5 mm, 66.7 mm", "in is a unit, so it cannot be a name"),
        ],
    )
    def test_is_refused_with_its_place(self, line, told):
        with pytest.raises(InputError) as error:
            Session().answer(line)
        assert error.value.message == told

    def test_a_name_that_is_set_elsewhere_is_a_fault_and_what_is_wrong_is_told_once(self):
        job = sheet("b = 2 in", self.LINE, "p, q = recover 2 mm^2, 3 mm", "r = q")
        assert str(job.faults[0]).startswith("b is already set on line 1 (column 4)")
        assert len(job.faults) == 2
        assert [w.line.number for w in job.waiting] == [4]

    def test_of_which_one_reads_is_a_fault(self):
        bench = Session()
        bench.answer("b reads 5 mm")
        with pytest.raises(InputError, match="b reads already, so it cannot be set"):
            bench.answer(self.LINE)

    def test_a_name_again_counts_as_one_size(self):
        answer = Session().answer("a, b = recover 51.4 mm again 51.6 mm, 66.7 mm")
        assert list(answer.named) == ["a", "b"]


class TestARelationThatCannotBeRead:
    def test_holds_up_the_names_that_stand_in_it(self):
        job = sheet(
            "d reads 10 mm", "e reads 5 mm", "side reads 66.7 mm", "reconcile d = 2 of of e", "f = d + 1 in"
        )
        assert [w.state for w in job.worked] == ["waits", "waits", "answered", "fault", "waits"]
        assert job.worked[0].waits[0].line == 4


class TestWhatIsSaidOfAName:
    @pytest.mark.parametrize(
        ("line", "same"),
        [
            ("a reads 51.5 mm in metric work", lambda: recover("51.5 mm", work="metric")),
            ("a reads 51.5 mm in either work", lambda: recover("51.5 mm", work="either")),
            ("a reads 5.88 mm among threads", lambda: recover("5.88 mm", among=("threads",))),
            ("a reads 33.8 mm among old inches", lambda: recover("33.8 mm", among=("old inches",))),
            ("a reads 51.5 mm by rule worn 0.1 mm", lambda: recover("51.5 mm", by="rule", worn="0.1 mm")),
        ],
    )  # fmt: skip
    def test_is_the_option_of_the_library(self, line, same):
        found = Session().answer(line).result
        assert (found.size, found.odds) == (same().candidates[0].size, same().candidates[0].odds)

    def test_names_of_other_work_are_another_list(self):
        bench = Session()
        bench.answer("a reads 51.5 mm")
        assert bench.answer("b reads 66.7 mm in metric work").result.names == ("b",)

    def test_a_reconcile_says_the_work_and_the_trust_of_those_that_have_none(self):
        bench = Session()
        for line in ("whole reads 60.1 mm", "end reads 12.0 mm within 0.01 mm", "middle reads 36.0 mm"):
            bench.answer(line)
        answer = bench.answer("reconcile whole = 2 of end + middle within 0.2 mm in metric work")
        same = reconcile(
            {
                "whole": reading("60.1 mm", within="0.2 mm"), "end": reading("12.0 mm", within="0.01 mm"),
                "middle": reading("36.0 mm", within="0.2 mm"),
            },
            ["whole = 2 * end + middle"], work="metric",
        )  # fmt: skip
        assert answer.result.sets == same.sets
        assert bench.known["whole"].mm == 60

    def test_two_beliefs_about_one_set_are_refused(self):
        bench = Session()
        bench.answer("a reads 10 mm in metric work")
        bench.answer("b reads 5 mm")
        with pytest.raises(InputError, match="one set is either inch or metric work, and both are said"):
            bench.answer("reconcile a = 2 of b in inch work")


@pytest.mark.parametrize(
    ("line", "first", "second"),
    [
        ("bay = recover 25.4 mm", "Cut to 1 in", "bay = 1 in = 25.4 mm exactly"),
        ("bay reads 25.4 mm", "Cut to 1 in", "bay = 1 in = 25.4 mm exactly"),
        ("bay = recover 3.2 mm", "Take 1/8 in; check one neighbour", "bay = 1/8 in = 0.125 in = 3.175 mm exactly"),
    ],
)  # fmt: skip
def test_the_answer_to_a_named_line_opens_with_its_verdict(line, first, second):
    assert Session().answer(line).text(200).splitlines()[:2] == [first, second]


class TestWhatTellsAScale:
    def test_may_have_a_scale_of_its_own_told_by_another(self):
        lines = (
            "c reads 12.7 mm",
            "b reads 6.35 mm scale from c = 1 in",
            "a reads 3.2 mm scale from b = 2 in",
        )
        for order in itertools.permutations(lines):
            job = sheet(*order)
            assert job.ok
            assert {name: size.inch for name, size in job.sizes.items()} == {"a": 1, "b": 2, "c": 1}

    @pytest.mark.parametrize(
        "line",
        ["bay reads 5.15 mm scale from rack = 2 31/32 in", "recover 5.15 mm scale from rack = 2 31/32 in"],
    )
    def test_is_not_the_true_size_itself_under_a_name(self, line):
        bench = Session()
        bench.answer("rack = 2 31/32 in")
        with pytest.raises(InputError, match="rack is set to its true size, which is no") as told:
            bench.answer(line)
        assert told.value.column == line.index("rack") + 1
        bench.answer("drawn = 37.7 mm")
        assert bench.answer(line.replace("rack", "drawn")).result

    def test_is_not_one_that_rests_on_it(self):
        job = sheet("a reads 10 mm scale from b = 2 in", "b reads 5 mm scale from a = 3 in")
        assert [w.state for w in job.worked] == ["fault", "fault"]


def test_a_name_tied_to_known_sizes_alone_is_told_without_others():
    job = sheet("a reads 10.2 mm", "b = 2 in", "reconcile a = b / 5")
    assert job.sizes["a"].inch * 5 == 2
    assert "Cut to 0.4 in" in job.to_text(200)
    assert "tied to" not in job.to_text(200)


def test_one_reading_that_disagrees_with_known_sizes_alone_is_told_without_any_other() -> None:
    session = Session()
    for line in ("rack reads 37.7 mm", "bay reads 5.15 mm scale from rack = 2 31/32 in"):
        session.answer(line)
    answer = session.answer("reconcile rack = 5 of bay")
    assert answer is not None
    said = answer.text(200).splitlines()
    assert said[0] == (
        "Not settled: bay, 5.15 mm, disagrees with the rest: it is misread, or it is not so that rack = 5 of bay; do not cut yet"
    )
    assert said[1] == "read next: bay again; if bay was misread, it is 19/32 in"


@pytest.mark.parametrize("read", ["1" + "0" * 38 + " mm", "37.7 mm within 0.0000000000000000000000000001 mm"])
def test_a_scale_known_more_finely_than_anything_divides_by_no_nought(read: str) -> None:
    session = Session()
    session.answer(f"rack reads {read}")
    answer = session.answer("slat reads 12 mm scale from rack = 2 15/16 in")
    assert answer is not None
    assert answer.text().startswith("Not settled: ")


class TestScalesThatClash:
    @pytest.mark.parametrize(
        ("line", "advice"),
        [
            (
                "recover 12.7 mm, 19 mm off a print scale from 25 mm = 1 in",
                "off a print leaves the scale open",
            ),
            ("recover 12.7 mm, 19 mm scale 1:2 off a print", "off a print leaves the scale open"),
            ("bay reads 10.1 mm off a print scale from 25 mm = 1 in", "off a print leaves the scale open"),
            ("recover 12.7 mm, 19 mm scale 1:2 scale from 25 mm = 1 in", "leave one of them out"),
        ],
    )
    def test_are_named_as_two_and_shown_with_what_to_leave_out(self, line, advice):
        with pytest.raises(InputError, match="two scales are said, and all is read at one") as raised:
            Session().answer(line)
        assert raised.value.advice.startswith(advice)
        assert line[raised.value.start :].startswith(("off a print", "scale 1:2"))

    def test_are_not_one_said_twice(self):
        with pytest.raises(InputError, match="scale is given here twice"):
            Session().answer("recover 12.7 mm, 19 mm scale 1:2 scale 1:4")


class TestAPrintOffWhichOneTrueSizeIsKnown:
    LINES = (
        "rack reads 74.1 mm off a print",
        "bay reads 10.1 mm scale from rack = 2 31/32 in",
        "slat reads 3.9 mm off a print",
    )

    def test_has_its_scale_by_that_for_all_that_was_read_off_it(self):
        bench = Session()
        *_, last = [bench.answer(line) for line in self.LINES]
        assert last.value.inch == Fraction(5, 32)
        assert "it rests on 2 readings and on 2 31/32 in, which reads 74.1 mm" in last.text(300)
        assert bench.known["rack"].inch == Fraction(95, 32)
        assert not last.doubts

    @pytest.mark.parametrize("order", list(itertools.permutations(range(3))))
    def test_in_a_sheet_in_any_order(self, order):
        job = sheet(*(self.LINES[place] for place in order))
        assert inches(job) == {"rack": Fraction(95, 32), "bay": Fraction(13, 32), "slat": Fraction(5, 32)}

    def test_but_not_for_what_was_read_off_another(self):
        bench = Session()
        for line in self.LINES[:2]:
            bench.answer(line)
        assert bench.answer("slat reads 3.9 mm off print B").value is None


def test_a_size_that_is_not_settled_is_not_said_to_be_exactly_so():
    for line in ("window = recover 18.5 mm", "window reads 18.5 mm"):
        told = Session().answer(line).text(300).splitlines()
        assert told[1] == "window is taken as 0.73 in = 18.542 mm, which is not settled"
        assert not any("exactly" in row for row in told)
    told = Session().answer("a, b = recover 18.5 mm, 12.7 mm").text(300).splitlines()
    assert "a is taken as 18.5 mm, which is not settled" in told
    assert "b = 1/2 in = 0.5 in = 12.7 mm exactly" in told


def test_a_tied_size_on_no_mark_is_called_by_its_decimals():
    bench = Session()
    for line in ("window reads 18.5 mm", "frame reads 22.2 mm"):
        bench.answer(line)
    told = bench.answer("reconcile frame = window + 3.7 mm").text(300)
    assert told.startswith("Probably window 18.525 mm and frame 7/8 in")
    assert "741/1016" not in told


def test_a_size_that_moved_and_is_not_settled_says_so():
    bench = Session()
    for line in ("a reads 12.7 mm", "b reads 19.1 mm"):
        bench.answer(line)
    moved = [note.text for note in bench.answer("reconcile a + b = 32 mm").notes]
    assert not any(text.startswith(("a is", "b is")) for text in moved)  # it tells of both itself
    bench.answer("c reads 6.4 mm")
    told = bench.answer("reconcile c = 1/4 in").text(300)
    assert told.startswith("Cut to c 1/4 in")


def test_the_best_set_of_the_other_kind_of_work_is_among_those_told():
    found = reconcile(
        {"wide": "51.5 mm", "opening": "43.7 mm", "bar": "4.0 mm"}, ["wide = opening + 2 * bar"]
    )
    assert not found.sets[0].metric
    assert any(each.metric for each in found.sets)
    assert [each.probability for each in found.sets] == sorted(
        (each.probability for each in found.sets), reverse=True
    )
