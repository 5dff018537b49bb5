"""Counts parted by commas, functions by other words of the trade, help as an argument, and strips of many pieces."""

from __future__ import annotations

import pytest

from fractions_shop import InputError, Session, places
from fractions_shop.command.cli import main
from fractions_shop.show.sheet import Sheet


@pytest.mark.parametrize("counts", ["3, 5 and 7", "3, 5, 7", "3, 5, and 7"])
def test_counts_may_be_parted_by_commas(counts: str) -> None:
    plain, typed = (Session().answer(f"divide 2 in into {said}") for said in ("3 and 5 and 7", counts))
    assert plain is not None
    assert typed is not None
    assert typed.result == plain.result


@pytest.mark.parametrize(("word", "called"), [("circumference", "girth"), ("ceiling", "ceil")])
def test_a_function_by_another_word_of_the_trade_is_named(word: str, called: str) -> None:
    with pytest.raises(InputError) as fault:
        Session().answer(f"{word}(4 in)")
    assert fault.value.advice == f"the function is called {called} here"


def test_one_pair_is_one_place() -> None:
    assert repr(places(["1 in", "2 in"])).startswith("<Places: 1 place;")


def test_help_of_a_word_is_told_on_the_command_line(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["help", "places"]) == 0
    out = capsys.readouterr().out
    assert out.startswith("places: ")
    assert "every figure is exact" in out, "its example is answered"
    assert main(["help", "reads"]) == 0, "one that needs something before it too"
    assert main(["help", "nothing_of_the_kind"]) == 2
    assert "there is no help on nothing_of_the_kind" in capsys.readouterr().err


def test_a_strip_of_many_pieces_offers_paper_on_its_side() -> None:
    long, short = (Sheet.from_text(f"mark {size} into 3") for size in ("9 m", "300 mm"))
    upright, lying = long.to_svg(), long.to_svg("A4 landscape")
    assert upright.count("59 pieces; with --landscape 38") == 1
    assert "Piece 38 of 38" in lying
    assert "--landscape" not in lying
    assert "--landscape" not in short.to_svg()
