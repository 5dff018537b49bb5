"""Nothing says "Cut to" of a size that rests on one which is not settled."""

from __future__ import annotations

import pytest

from fractions_shop import Session, Sheet

WINDOW = "window = recover 51.5 mm\n"
NOT_YET = "Not settled: it rests on window, which may be another size; do not cut yet"
#: What rests on the window and would else be settled by its own odds.
RESTING = {
    "frame reads 55.3 mm\nreconcile frame = window + 3.7 mm\n": (2, 3),
    "reconcile frame = window + 3.7 mm\nframe reads 55.3 mm\n": (2, 3),
    "gap = window / 2\nframe reads 29.5 mm\nreconcile frame = gap + 3.7 mm\n": (3, 4),
    "twice = recover window * 2 within 0.001 mm\n": (2,),
}


@pytest.mark.parametrize("lines", RESTING)
def test_a_verdict_waits_for_what_it_rests_on(lines: str) -> None:
    sheet = Sheet(f"{WINDOW}{lines}")
    assert not sheet.faults
    for number in RESTING[lines]:
        answer = sheet.worked[number - 1].answer
        assert answer is not None
        said = answer.text(width=200).splitlines()
        assert said[0] == NOT_YET, number
        assert said[1].startswith("If window is right: "), number
        assert answer.gist().startswith(NOT_YET)
        assert not any(line.startswith(("Cut to", "Take")) for line in said)


def test_in_a_session_too_and_what_goes_on_from_there_says_so() -> None:
    bench = Session()
    for line in ("window = recover 51.5 mm", "frame reads 55.3 mm"):
        bench.answer(line)
    assert bench.ask("reconcile frame = window + 3.7 mm").text(width=200).startswith(NOT_YET)
    assert "rests on window, which may be another size" in bench.ask("big = frame + 1 mm").text(width=200)
    assert set(bench.doubtful) >= {"window", "frame", "big"}


def test_what_rests_on_a_settled_size_keeps_its_verdict() -> None:
    sheet = Sheet("window = 2 1/32 in\nframe reads 55.3 mm\nreconcile frame = window + 3.7 mm\n")
    for item in sheet.worked[1:]:
        assert item.answer is not None
        assert item.answer.text(width=200).startswith("Cut to")
        assert not item.answer.open_roots
