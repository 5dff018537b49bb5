"""The words of `recover`: what was read, how, in what work, and what may be done with the answer."""

from __future__ import annotations

from fractions import Fraction

import pytest

from fractions_shop import InputError, Session, recover
from fractions_shop.meant.readings import reading
from fractions_shop.meant.scale import scale_from
from fractions_shop.meant.shared import Print


def answered(line):
    return Session().answer(line)


def first(line):
    return answered(line).text(200).splitlines()[0]


class TestTheVerdictComesFirst:
    @pytest.mark.parametrize(
        ("line", "told"),
        [
            ("recover 25.4 mm", "Cut to 1 in"),
            ("recover 3.2 mm", "Take 1/8 in; check one neighbour"),
            ("recover 66.7 mm", "Take 2 5/8 in, if it has kept its size; check one neighbour"),
            (
                "recover 51.5 mm in metric work",
                "Probably 51.5 mm, if it has kept its size; read a neighbouring size",
            ),
            ("recover 51.5 mm", "Not settled: 2 1/32 in, 2.03 in or 51.5 mm; do not cut yet"),
            ("recover 5.88 mm among threads", "Probably M6; read the pitch of the thread"),
        ],
    )
    def test_in_the_words_of_the_odds(self, line, told):
        assert first(line) == told

    def test_of_a_list_with_the_surest_sizes_first(self):
        assert answered("recover 51.5 mm, 66.7 mm, 10.3 mm, 8.7 mm, 7.95 mm").text(200).splitlines()[:2] == [
            "Take 2 5/8 in, 13/32 in, 11/32 in and 5/16 in; check one neighbour",
            "Probably 2 1/32 in; read a neighbouring size",
        ]

    def test_and_a_size_that_is_not_settled_is_a_doubt_wherever_it_goes(self):
        bench = Session()
        answer = bench.answer("x = recover 51.5 mm")
        assert [note.text for note in answer.doubts] == ["2 1/32 in is not settled, 1.95 to 1 against"]
        assert answer.text(200).count("a neighbouring size") == 1
        assert bench.answer("x * 2").notes[-1].text == "rests on x, which may be another size"
        assert not answered("recover 25.4 mm").doubts


class TestWhatIsTold:
    def test_a_reading_is_told_as_it_was_written(self):
        assert "25.4 mm read within 0.05 mm: 1 in," in answered("recover 25.4 mm").text(200)
        assert recover("25.40 mm").readings[0].written == "25.40 mm"

    def test_what_is_as_near_by_chance_always_is_left_out(self):
        told = answered("recover 51.5 mm").text(200)
        left_out = [c.name for c in recover("51.5 mm").candidates if c.chance >= 0.995]
        assert left_out
        assert not any(name in told for name in left_out)

    def test_the_belief_and_what_it_decides(self):
        assert "held to be inch work, 20 to 1 before measuring; if metric, 51.5 mm" in answered(
            "recover 51.5 mm"
        ).text(200)
        assert "said to be metric work, 200 to 1" in answered("recover 51.5 mm in metric work").text(200)
        assert "inch and metric alike" in answered("recover 51.5 mm in either work").text(200)

    def test_chance_as_one_says_it(self):
        assert "by chance about 1 in 30" in answered("recover 66.7 mm").text(200)


class TestTheWordsAreTheOptionsOfTheLibrary:
    @pytest.mark.parametrize(
        ("line", "same"),
        [
            ("recover 51.5 mm in metric work", lambda: recover("51.5 mm", work="metric")),
            ("recover 51.5 mm by rule", lambda: recover("51.5 mm", by="rule")),
            ("recover 51.5 mm worn 0.2 mm made 0.1 mm", lambda: recover("51.5 mm", worn="0.2 mm", made="0.1 mm")),
            ("recover 12.9 mm plated 0.3 mm", lambda: recover("12.9 mm", plated="0.3 mm")),
            (
                "recover 51.5 mm within 0.2 mm, 66.7 mm",
                lambda: recover([reading("51.5 mm", within="0.2 mm"), "66.7 mm"]),
            ),
            ("recover 51.5 mm, 66.7 mm within 0.2 mm", lambda: recover(["51.5 mm", "66.7 mm"], within="0.2 mm")),
            (
                "recover 51.5 mm by rule, 66.7 mm by caliper",
                lambda: recover(["51.5 mm", "66.7 mm"], by=["rule", "caliper"]),
            ),
            (
                "recover 51.4 mm again 51.6 mm, 66.7 mm",
                lambda: recover([["51.4 mm", "51.6 mm"], "66.7 mm"]),
            ),
            (
                "recover 50 mm, 25.1 mm, 12.5 mm shrunk up to 3 %",
                lambda: recover(["50 mm", "25.1 mm", "12.5 mm"], shrunk=Fraction(3, 100)),
            ),
            (
                "recover 50 mm, 25.1 mm, 12.5 mm by caliper unzeroed",
                lambda: recover(["50 mm", "25.1 mm", "12.5 mm"], by="caliper", unzeroed=True),
            ),
            ("recover 12.5 mm scale 1:2", lambda: recover("12.5 mm", scale="1:2")),
            (
                "recover 25 mm, 11 mm scale from 30.1 mm = 2 in",
                lambda: recover(["25 mm", "11 mm"], scale=scale_from("30.1 mm", "2 in")),
            ),
            (
                "recover 14.0 mm, 23.4 mm, 34.3 mm, 7.8 mm off a print",
                lambda: recover(["14.0 mm", "23.4 mm", "34.3 mm", "7.8 mm"], scale=Print()),
            ),
            (
                "recover 14.0 mm, 23.4 mm, 34.3 mm, 7.8 mm off print B",
                lambda: recover(["14.0 mm", "23.4 mm", "34.3 mm", "7.8 mm"], scale=Print("B")),
            ),
            (
                "recover 33.8 mm, 27.1 mm, 13.5 mm, 40.6 mm among old inches",
                lambda: recover(["33.8 mm", "27.1 mm", "13.5 mm", "40.6 mm"], among="old inches"),
            ),
        ],
    )  # fmt: skip
    def test_one_by_one(self, line, same):
        assert answered(line).result == same()


class TestWhatCannotBe:
    @pytest.mark.parametrize(
        ("line", "told"),
        [
            (
                "recover 5 mm by laser",
                "laser is not an instrument known here (column 17)\n  recover 5 mm by laser\n"
                "                  ^^^^^\nexpected one of rule, tape, caliper, micrometer",
            ),
            (
                "recover 5 mm shrunk up to 30 %",
                "a share of what it was is needed here, above zero and at most 25 % (column 27)\n"
                "  recover 5 mm shrunk up to 30 %\n                            ^^\n"
                "write it like this: shrunk up to 3 %",
            ),
            (
                "recover 5 mm scale 0:2",
                "a scale cannot have zero in it (column 20)\n  recover 5 mm scale 0:2\n"
                "                     ^^^\nwrite scale 1:2",
            ),
            (
                "recover 5 mm off a print, 6 mm",
                None,
            ),
            ("recover 5 mm by rule by tape", "by is given here twice (column 22)\n  recover 5 mm by rule by tape\n"
             "                       ^^^^^^^\nsay it once"),
        ],
    )  # fmt: skip
    def test_is_told_with_its_place(self, line, told):
        with pytest.raises(InputError) as error:
            answered(line)
        assert told is None or str(error.value) == told


def test_a_scale_from_one_known_size_keeps_a_spread():
    found = recover(["25 mm", "11 mm"], scale=scale_from("30.1 mm", "2 in")).scale
    assert found.spread > Fraction(1, 2000)
