"""Names that read, and the relations that tie them: in a session and in sheets, in any order."""

from __future__ import annotations

import itertools

import pytest

from fractions_shop import InputError, Session, Sheet, reconcile, recover

READ = ("rack reads 75.4 mm", "bay reads 10.3 mm", "slat reads 4.0 mm")
TIE = "reconcile rack = 5 of bay + 6 of slat"
READINGS = {"rack": "75.4 mm", "bay": "10.3 mm", "slat": "4.0 mm"}


def sizes(job):
    return {w.line.sets: w.value.inch for w in job.worked if w.line.sets and w.value is not None}


def sheet(*lines):
    return Sheet.from_text("\n".join(lines))


class TestASession:
    def test_weighs_all_names_that_read_as_one_list(self):
        bench = Session()
        for line in READ:
            bench.answer(line)
        found = recover(list(READINGS.values()))
        assert [bench.known[name] for name in READINGS] == [one.size for one in found.candidates]

    def test_ties_them_as_the_library_does(self):
        bench = Session()
        for line in READ:
            bench.answer(line)
        answer = bench.answer(TIE)
        same = reconcile(READINGS, ["rack = 5 * bay + 6 * slat"])
        assert answer.result.sizes == same.sizes
        assert answer.result.probability == same.probability
        assert {name: bench.known[name] for name in READINGS} == same.sizes
        told = answer.text(200).splitlines()
        assert told[0] == "Cut to rack 2 31/32 in, bay 13/32 in and slat 5/32 in"
        assert told[1] == "5 of 13/32 in + 6 of 5/32 in = 2 31/32 in"

    def test_a_name_reads_or_is_set(self):
        bench = Session()
        bench.answer("rack reads 75.4 mm")
        with pytest.raises(InputError, match="rack reads already, so it cannot be set"):
            bench.answer("rack = 3 in")
        bench.answer("top = 3 in")
        with pytest.raises(InputError, match="top is set already, so it cannot read as well"):
            bench.answer("top reads 75.4 mm")

    def test_a_reading_that_moves_another_name_says_so(self):
        bench = Session()
        for line in ("a reads 10 mm", "b reads 5 mm", "reconcile a = 2 of b"):
            bench.answer(line)
        notes = [note.text for note in bench.answer("a reads 10.1 mm").notes]
        assert notes[0] == "b is 1/5 in now, not settled, it was 3/16 in"
        assert bench.known["a"] == 2 * bench.known["b"]

    def test_figures_of_one_name_pool(self):
        reading = Session().answer("front reads 51.4 mm, 51.6 mm, 51.6 mm").result.reading
        assert len(reading.figures) == 3

    @pytest.mark.parametrize(
        ("line", "told", "place"),
        [
            ("reconcile rack = bay * slat", "a relation must be linear in the names that read", 17),
            ("reconcile rack = 2 * sqrt(bay * slat)", "a relation must be linear in the names that read", 21),
            ("reconcile bay = 5", "a number has no unit, so it is not a size", 16),
            ("reconcile 2 in = 2 in", "this relation ties no name that reads", 10),
            (
                "reconcile rack = 2 of bay, rack = 3 of bay + 1 in, bay = 3 in",
                "these cannot all hold of sizes above zero: rack = 2 of bay and rack = 3 of bay + 1 in", 10,
            ),
        ],
    )  # fmt: skip
    def test_what_cannot_be_tied_is_told_with_its_place(self, line, told, place):
        bench = Session()
        for one in READ:
            bench.answer(one)
        with pytest.raises(InputError) as error:
            bench.answer(line)
        assert (error.value.message, error.value.start) == (told, place)

    def test_the_words_are_names_elsewhere(self):
        bench = Session()
        for line, inches in (
            ("reads = 2 in", 2),
            ("reconcile = reads + 1 in", 3),
            ("reconcile * 2", 6),
            ("reads", 2),
        ):
            assert bench.answer(line).value.inch == inches
        assert bench.answer("reconcile as mm").value.inch == 3

    def test_json_has_what_was_read_and_meant(self):
        data = Session().answer("rack reads 75.4 mm").data()
        assert (data["kind"], data["value"]["inch"], data["verdict"]) == ("reads", "95/32", "probable")
        assert data["reading"]["written"] == "75.4 mm"


class TestASheet:
    @pytest.mark.parametrize("order", list(itertools.permutations(range(4)))[::5])
    def test_in_any_order(self, order):
        lines = (*READ, TIE)
        job = sheet("twice = 2 * slat", *(lines[n] for n in order), "check rack = 5 * bay + 6 * slat")
        assert job.ok
        same = reconcile(READINGS, ["rack = 5 * bay + 6 * slat"]).sizes
        assert {name: sizes(job)[name] for name in READINGS} == {name: one.inch for name, one in same.items()}
        assert sizes(job)["twice"] == 2 * same["slat"].inch

    def test_what_nothing_ties_is_one_list(self):
        job = sheet(*READ, TIE, "front reads 51.5 mm", "side reads 66.7 mm")
        found = recover(["51.5 mm", "66.7 mm"])
        assert [sizes(job)[name] for name in ("front", "side")] == [one.size.inch for one in found.candidates]

    def test_a_size_that_is_not_settled_is_a_doubt_in_every_list_and_what_rests_on_it_too(self):
        job = sheet("front reads 51.5 mm", "twice = front * 2")
        assert [(one.name, one.line) for one in job.doubts.readings] == [("front", 1)]
        assert job.doubts.resting == {2}
        told = job.to_text(100)
        assert "front *" in told
        assert "twice *" in told

    def test_a_tied_reading_that_disagrees_is_a_doubt_of_its_name_and_of_what_rests_on_it(self):
        job = sheet(
            "a reads 19.0 mm", "b reads 12.6 mm", "c reads 50 mm", "reconcile a + b = c", "2 * c", "a + b"
        )
        assert job.sizes["c"].inch * 4 == 5
        told = [worked.answer.text(200) for worked in job.worked]
        assert told[2].startswith("Not settled: ")
        assert "read the same size again" in told[2]
        assert "rests on c, which may be another size" in told[4]
        assert "may be another" not in told[5]

    def test_read_and_set_is_a_fault_and_so_is_a_reading_that_rests_on_its_own_list(self):
        job = sheet("c reads 6 mm", "c = 5 mm", "e reads 10.3 mm worn f", "f reads 8.7 mm")
        assert [w.fault and w.fault.message for w in job.worked] == [
            None,
            "c is already set on line 1",
            "f is weighed together with e, so what e reads cannot rest on it",
            None,
        ]

    def test_relations_that_conflict_are_the_fault_and_the_names_wait(self):
        job = sheet("a reads 10 mm", "b reads 5 mm", "reconcile a = 2 of b, a = 3 of b + 1 in, b = 3 in")
        assert [w.state for w in job.worked] == ["waits", "waits", "fault"]
        assert job.worked[2].fault.message.startswith(
            "these cannot all hold of sizes above zero: a = 2 of b and"
        )

    def test_a_fault_in_one_of_tied_names_holds_up_the_set_and_not_the_list(self):
        job = sheet("a reads 10 mm", "b reads 5 mm^2", "reconcile a = 2 of b", "c reads 6.35 mm")
        assert [w.state for w in job.worked] == ["waits", "fault", "waits", "answered"]

    def test_a_known_size_gives_the_scale_by_what_it_reads(self):
        job = sheet("rack reads 37.7 mm", "bay reads 5.15 mm scale from rack = 2 31/32 in")
        assert float(sizes(job)["bay"]) == pytest.approx(0.4055, abs=0.005)
