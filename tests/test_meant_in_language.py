"""What the first maker meant, asked in the language: lines, sheets in any order, and JSON."""

from __future__ import annotations

import json
from fractions import Fraction

import pytest

from fractions_shop import InputError, Session, Sheet, reconcile, recover

BY_RULE = "38.0 mm, 25.5 mm, 12.5 mm, 6.5 mm, 51.0 mm, 19.0 mm, 9.5 mm, 44.5 mm, 28.5 mm, 16.0 mm"
SIXTEENTHS = ["3/2", "1", "1/2", "1/4", "2", "3/4", "3/8", "7/4", "9/8", "5/8"]
#: Twelve sizes in whole Paris lines, to the hundredth; the law of 19 frimaire VIII: metre = 443.296 lignes.
PARIS_LINE = Fraction(1_000_000, 443_296)
IN_LINES = {"rack": "76.70 mm", "bay": "11.28 mm", "slat": "3.38 mm"}  # 34, 5 and 1 1/2 of them
LINES = [f"{float(n * PARIS_LINE):.2f} mm" for n in (1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12)]


def answer(line, *before):
    bench = Session()
    for each in before:
        bench.answer(each)
    return bench.answer(line)


def sheet(*lines):
    return Sheet.from_text("\n".join(lines))


def read_each(readings, names="abcdefghijklmn"):
    return [f"{name} reads {text}" for name, text in zip(names, readings, strict=False)]


class TestTheReadersStep:
    def test_of_a_list_is_inferred_and_said(self):
        told = answer(f"recover {BY_RULE}")
        assert [str(c.size.inch) for c in told.result.candidates] == SIXTEENTHS
        assert (
            "all stand on 0.5 mm, so they are taken as read to 0.5 mm and trusted to half of that"
            in told.text(300)
        )
        assert told.data()["step"]["step"]["mm"] == "1/2"

    def test_of_names_that_read_is_the_same(self):
        job = sheet(*reversed(read_each(BY_RULE.split(", "))))
        assert [str(job.sizes[name].inch) for name in "abcdefghij"] == SIXTEENTHS
        assert "all stand on 0.5 mm" in job.to_text(300)

    def test_each_reading_has_a_trust_of_its_own(self):
        told = answer("recover 51.5 mm within 0.2 mm, 66.7 mm by tape, 25.4 mm within 0.01 mm").result
        assert [str(r.within.mm) for r in told.readings] == [
            "1/5",
            str(recover("66.7 mm", by="tape").readings[0].within.mm),
            "1/100",
        ]


class TestAMixedShop:
    LIST = "38.10 mm, 25.42 mm, 12.69 mm, 50.81 mm, 19.06 mm, 20.00 mm"

    def test_offers_the_metric_part_first(self):
        assert answer(f"recover {self.LIST}").result.readings[-1].candidates[0].name == "20 mm"
        job = sheet(*read_each(self.LIST.split(", ")))
        assert job.sizes["f"].mm == 20
        assert job.sizes["a"].inch == Fraction(3, 2)


class TestRepeats:
    def test_are_one_witness_however_they_are_said(self):
        for line in ("recover 51.5 mm, 51.5 mm, 51.5 mm", "recover 51.5 mm again 51.5 mm again 51.5 mm"):
            first = answer(line).result.readings[0].candidates[0]
            assert (first.name, first.odds) == ("2 1/32 in", pytest.approx(1 / 1.95, abs=0.01)), line
        told = answer("recover 51.5 mm, 51.5 mm, 51.5 mm").text(300)
        assert "51.5 mm stands 3 times and counts once: read a neighbouring size" in told

    def test_names_that_read_alike_are_told_and_count_once(self):
        last = answer("c reads 51.5 mm", "a reads 51.5 mm", "b reads 51.5 mm")
        assert last.result.odds == pytest.approx(1 / 1.95, abs=0.01)
        assert "a, b and c read alike and count once: read a neighbouring size" in last.text(300)
        assert last.data()["alike"] == ["a", "b", "c"]


class TestAMisreading:
    READ = ("25.4 mm", "50.8 mm", "12.7 mm", "38.1 mm", "19.05 mm", "32.35 mm")  # 31.75 mm misread by 0.6 mm

    def test_in_a_list_is_named_and_not_explained(self):
        assert "32.35 mm may be misread, or no round size" in answer(f"recover {', '.join(self.READ)}").text(
            300
        )
        job = sheet(*read_each(self.READ))
        assert [one.name for one in job.doubts.readings] == ["f"]


class TestAnOldInch:
    def test_that_explains_what_no_other_does_is_offered_with_its_source(self):
        text = answer(f"recover {', '.join(LINES)}").text(300)
        assert "an old inch explains them: Paris inch, lines" in text
        assert "443.296 lignes" in text
        last = answer(read_each(LINES)[-1], *read_each(LINES)[:-1])
        assert "an old inch explains them: Paris inch, lines" in last.text(300)
        assert last.data()["old"]["inches"][0]["standing"] == "printed"

    def test_that_is_asked_for_names_the_sizes(self):
        names = [c.name for c in answer(f"recover {', '.join(LINES)} among old inches").result.candidates]
        assert names[:3] == ["1 Paris line", "2 Paris lines", "1/4 Paris inch"]
        job = sheet(*(f"{line} among old inches" for line in read_each(LINES[2:9])))
        assert job.sizes["a"].mm == 3 * PARIS_LINE


class TestErrorsInCommon:
    @pytest.mark.parametrize(
        ("said", "readings"),
        [
            ("by caliper unzeroed", ("12.89 mm", "25.59 mm", "38.29 mm", "51.0 mm", "19.24 mm")),
            ("shrunk up to 3 %", ("49.8 mm", "24.9 mm", "74.7 mm", "37.35 mm", "62.25 mm", "12.45 mm")),
        ],
    )
    def test_are_found_by_names_that_read_as_by_a_list(self, said, readings):
        lines = [f"{line} {said}" for line in read_each(readings)]
        last = answer(lines[-1], *lines[:-1])
        whole = answer(f"recover {', '.join(readings)} {said}").result
        assert last.result.common == whole.common
        assert [str(c.size.inch) for c in whole.candidates[:2]] == (
            ["1/2", "1"] if "caliper" in said else ["2", "1"]
        )
        job = sheet(*reversed(lines))
        assert [job.sizes[name] for name in "abcde"] == [c.size for c in whole.candidates[:5]]

    def test_plating_and_the_makers_own_departure(self):
        for words, options in (
            ("plated 0.05 mm", {"plated": "0.05 mm"}),
            ("made 0.1 mm", {"made": "0.1 mm"}),
        ):
            assert (
                answer(f"a reads 51.5 mm {words}").result.odds
                == recover("51.5 mm", **options).candidates[0].odds
            )


def test_a_bought_screw_is_named_and_its_pitch_is_asked():
    told = answer("recover 5.88 mm among threads")
    assert "M6" in [c.name for c in told.result.candidates[:3]]
    assert told.result.readings[0].ask.value == "the pitch of the thread"
    assert told.data()["readings"][0]["candidates"][0]["name"] == "M6"


class TestACommonScale:
    def test_is_told_with_its_spread_and_what_it_rests_on(self):
        told = answer("recover 14.0 mm, 23.4 mm, 34.3 mm, 7.8 mm off a print").text(300)
        assert (
            "scale: true sizes are 1.0183 times what was read, give or take 0.086 %; it rests on 4 readings"
            in told
        )

    @pytest.mark.parametrize("count", [1, 2, 3])
    def test_of_too_few_sizes_is_not_settled(self, count):
        with pytest.raises(InputError, match=f"the scale of the print is not settled by {count} size"):
            answer(f"recover {', '.join(['14.0 mm', '23.4 mm', '34.3 mm'][:count])} off a print")

    def test_one_known_size_settles_any(self):
        found = answer("recover 25 mm, 11 mm scale from 30.1 mm = 2 in").data()["scale"]
        assert found["known"]["size"]["inch"] == "2"
        assert answer("a reads 12.7 mm scale 1:2").value.inch == 1


class TestReconciled:
    LINES = ("rack reads 75.4 mm", "bay reads 10.3 mm", "slat reads 4.0 mm")
    TIE = "reconcile rack = 5 of bay + 6 of slat"

    def test_is_told_whole_in_json(self):
        data = json.loads(json.dumps(answer(self.TIE, *self.LINES).data()))
        same = reconcile(
            {"rack": "75.4 mm", "bay": "10.3 mm", "slat": "4.0 mm"}, ["rack = 5 * bay + 6 * slat"]
        )
        assert data["sizes"] == {
            name: {"inch": str(size.inch), "mm": str(size.mm), "approximate": False}
            for name, size in same.sizes.items()
        }
        assert (data["verdict"], data["suspect"], data["complete"]) == ("cut", None, True)
        assert data["probability"] == f"{same.probability:.6g}"
        assert len(data["sets"]) == len(same.sets)
        assert data["relations"][0]["text"] == "rack = 5 of bay + 6 of slat"
        tied = answer("bay", *self.LINES, self.TIE).value
        assert tied.inch == Fraction(13, 32)

    def test_names_the_reading_that_disagrees(self):
        told = answer(self.TIE, "rack reads 75.4 mm", "bay reads 10.3 mm", "slat reads 4.9 mm")
        relation = "rack = 5 of bay + 6 of slat"
        assert told.text(300).splitlines()[:3] == [
            f"Take rack 2 31/32 in and bay 13/32 in, if {relation}; check one neighbour",
            "Not settled: slat, 4.9 mm, disagrees with the rest: it is misread, or it is not so that "
            f"{relation}; do not cut yet",
            "read next: slat again; if slat was misread, it is 5/32 in",
        ]
        assert told.data()["suspect"] == "slat"

    def test_others_that_may_be_the_misread_one_are_named_beside_it_and_none_is_to_be_cut_to(self):
        told = answer(
            "reconcile h = a + b + c",
            "h reads 100.0 mm",
            "a reads 20.6 mm",
            "b reads 30.2 mm",
            "c reads 47.6 mm",
        )
        lines = told.text(300).splitlines()
        assert lines[0] == (
            "Not settled: h 3 15/16 in, a 13/16 in and c 1 7/8 in, or another set; do not cut yet"
        )
        assert lines[1] == (
            "Not settled: b, 30.2 mm, disagrees with the rest: it or h, a or c is misread, "
            "or it is not so that h = a + b + c; do not cut yet"
        )

    @pytest.mark.parametrize("wrong", ["rack", "bay", "slat"])
    def test_no_name_that_is_accused_stands_in_a_line_that_one_may_cut_to(self, wrong):
        read = {"rack": 75.4, "bay": 10.3, "slat": 4.0}
        read[wrong] += 0.9
        told = answer(self.TIE, *(f"{name} reads {size:.1f} mm" for name, size in read.items()))
        accused = told.data()["suspect"]
        acting = [
            line for line in told.text(300).splitlines() if line.startswith(("Cut", "Take", "Probably"))
        ]
        assert accused is not None
        assert not any(
            line.startswith("Cut") or f"{accused} " in line.partition(", if")[0] for line in acting
        )

    def test_relations_of_two_lines_that_conflict_are_named(self):
        with pytest.raises(
            InputError, match="these cannot all hold: rack = 2 of bay and 2 of rack = 4 of bay \\+ 1 in"
        ):
            answer("reconcile 2 of rack = 4 of bay + 1 in", *self.LINES, "reconcile rack = 2 of bay")
        job = sheet(*self.LINES, "reconcile rack = 2 of bay", "reconcile 2 of rack = 4 of bay + 1 in")
        assert [fault.message for fault in job.faults] == [
            "these cannot all hold: rack = 2 of bay and 2 of rack = 4 of bay + 1 in"
        ]
        assert len(job.waiting) == 3

    def test_what_is_not_linear_is_refused_with_its_place_in_a_sheet(self):
        job = sheet(*self.LINES, "reconcile rack = bay * slat")
        (fault,) = job.faults
        assert (fault.message, fault.line, fault.column) == (
            "a relation must be linear in the names that read",
            4,
            18,
        )


class TestReconciledAmongOldInches:
    def test_finds_the_set_of_their_lines_and_closes_in_them(self):
        lines = [f"{name} reads {text}" for name, text in IN_LINES.items()]
        told = answer("reconcile rack = 5 of bay + 6 of slat among old inches", *lines)
        same = reconcile(IN_LINES, ["rack = 5 * bay + 6 * slat"], among="old inches")
        assert told.result.sets == same.sets
        assert [size.mm / PARIS_LINE for size in same.sizes.values()] == [34, 5, Fraction(3, 2)]
        assert "5 of 5 Paris lines + 6 of 1/8 Paris inch = 34 Paris lines" in told.text(300)
        job = sheet(*(f"{line} among old inches" for line in lines), "reconcile rack = 5 of bay + 6 of slat")
        assert job.sizes["rack"] == same.sizes["rack"]

    def test_an_old_size_that_no_law_fixed_is_approximate(self):
        rhenish = Fraction(13_913, 100) * PARIS_LINE / 144
        read = {
            "a": f"{float(20 * rhenish):.2f} mm",
            "b": f"{float(5 * rhenish):.2f} mm",
            "c": f"{float(15 * rhenish):.2f} mm",
        }
        found = reconcile(read, ["a = b + c"], among=("old inches",))
        assert "Rhenish" in found.sets[0].system
        assert all(size.approximate for size in found.sizes.values())

    def test_tables_have_no_sums(self):
        with pytest.raises(InputError, match="sizes that add up are of no table, and 'threads' is asked for"):
            answer("reconcile rack = 5 of bay among threads", "rack reads 50 mm", "bay reads 10 mm")


class TestTheVerdict:
    @pytest.mark.parametrize(
        ("line", "told"),
        [
            ("recover 25.4 mm", "Cut to 1 in"),
            ("recover 66.7 mm", "2 5/8 in"),
            ("recover 51.5 mm", "Not settled: 2 1/32 in, 2.03 in or 51.5 mm; do not cut yet"),
        ],
    )
    def test_comes_first_and_the_reading_as_it_was_written(self, line, told):
        text = answer(line).text(300).splitlines()
        assert told in text[0]
        assert any(row.startswith(f"{line.removeprefix('recover ')} read within") for row in text[:3])
