"""What an error advises is itself accepted: every `write X` of the cases is typed."""

from __future__ import annotations

import re
from collections.abc import Iterator

import pytest
from case_files import blocks, statements, unescaped
from over_all import over

from fractions_shop import Session
from fractions_shop.command.cli import main
from fractions_shop.errors import InputError, ShopError
from fractions_shop.language.advice import drawing_labels as labels
from fractions_shop.language.advice import typing_habits as special
from fractions_shop.language.advice import unknown_words as unknown
from fractions_shop.language.advice.fault_place import Spot
from fractions_shop.language.advice.near_words import unit_advice
from fractions_shop.prompt.own_words import WORDS
from fractions_shop.size import other_lengths
from fractions_shop.size.units import UNITS, find

#: Words behind what is to be written, which say when or why.
_WHY = re.compile(
    r"(?:,? if that (?:was meant|is what it is)| for .*| first| with blanks.*| to divide| without blanks.*"
    r"|; the root .*| or another word|, and put a blank .*|, or put blanks .*|, or give each its unit"
    r"| \(of an inch\)|; any whole number .*| \((?:about )?[0-9.]+ mm each\))$"
)


def _faults() -> Iterator[tuple[str, list[str], InputError]]:
    """Every fault of the cases, with the statements before it in its block."""
    for block in blocks("faults.txt"):
        bench, before = Session(), []
        for written in statements(block):
            statement = unescaped(written)
            try:
                bench.answer(statement)
            except InputError as error:
                yield statement, list(before), error
            else:
                before.append(statement)


def _advised(advice: str) -> str:
    """What is to be written, or nothing where the advice is in words."""
    text = re.split(r"\bwrite (?:it like this: |limits as )?", advice, maxsplit=1)
    return "" if len(text) < 2 or re.match(r"it\b|the\b|a\b|their\b|limits\b", text[1]) else text[1]


def _answers(before: list[str], line: str) -> bool:
    bench = Session()
    for statement in before:
        bench.answer(statement)
    try:
        return bench.answer(line) is not None
    except ShopError:
        return False


def _accepted(text: str, before: list[str], error: InputError) -> bool:
    """Whether `text` is answered, alone or in the place of what is marked; of several, each."""
    text = text.strip()
    front, back = error.text[: error.start], error.text[error.end :]
    word = text.split(" ")[0]  # `write within 1 thou` may repeat the word before the place
    again = front[: -len(word) - 1] if front.endswith(f"{word} ") else front
    number = re.fullmatch(r"[0-9./ ]+", text)
    if not number and _answers(before, text):
        return True
    if _answers(before, f"{front}{text}{back}") or _answers(before, f"{again}{text}{back}"):
        return True
    for cut in (", or ", " or ", ", "):
        parts = text.split(cut)
        if len(parts) > 1 and all(_accepted(part, before, error) for part in parts):
            return True
    shorter = _WHY.sub("", text)
    return shorter != text and _accepted(shorter, before, error)


FAULTS = [fault for fault in _faults() if _advised(fault[2].advice)]


def test_most_faults_advise_something_to_write() -> None:
    assert len(FAULTS) > 200


@over(FAULTS, lambda fault: fault[0])
def test_what_is_advised_is_accepted(statement: str, before: list[str], error: InputError) -> None:
    assert _accepted(_advised(error.advice), before, error), error.advice


# Each of the tables behind the advice


@pytest.mark.parametrize("word", ["nm", "mn", "mk", "kn", "M", "mc", "um.", "milimetre", "inchs", "thuo"])
def test_no_unit_is_advised_that_is_far_from_another(word: str) -> None:
    """Of one letter none is offered, nor two units between which a factor of a thousand may lie."""
    named = re.findall(r"write (\S+?),|or (\S+?),", unit_advice(word))
    offered = {find(one or other) for one, other in named}
    assert len(offered) <= 1
    assert all((unit is not None and unit.name != "m") or "met" in word for unit in offered)


@pytest.mark.parametrize(
    ("word", "meant"),
    [
        ("hnads", "hands"),
        ("hnad", "hand"),
        ("mlies", "miles"),
        ("decimters", "decimeters"),
        ("yrads", "yards"),
    ],
)
def test_a_slip_in_any_word_that_is_read_is_advised(word: str, meant: str) -> None:
    with pytest.raises(InputError) as caught:
        Session().answer(f"3 {word}")
    assert caught.value.advice == f"write {meant}, if that was meant"
    assert Session().answer(f"3 {meant}").ok


@pytest.mark.parametrize("word", ["mill", "pionts", "ilne"])
def test_a_slip_in_a_word_with_two_meanings_is_no_unit(word: str) -> None:
    assert unit_advice(word) == ""


@over(sorted(labels.BESIDE | labels.COUNTED | labels.VAGUE.keys()))
def test_a_word_beside_a_size_is_no_length_elsewhere(word: str) -> None:
    try:
        found = other_lengths.length_called(word)
    except ShopError:
        found = None
    assert found is None
    assert find(word) is None


def test_every_word_of_the_prompt_is_told_apart() -> None:
    assert set(WORDS) <= unknown.PROMPT_WORDS


def test_every_unit_can_be_converted_to_in_words() -> None:
    for unit in UNITS:
        for word in unit.words:
            if unit.power == 1 and word.isalpha() and word not in ("in", "mm"):
                with pytest.raises(InputError) as caught:
                    Session().answer(f"2 mm in {word}")
                assert caught.value.advice == f"write 2 mm as {unit.name}"


@pytest.mark.parametrize(
    ("figures", "advised"),
    [
        ("51,5", "write 51.5 for decimals, and put a blank behind the comma of a list"),
        ("0,245", "write 0.245 for decimals, and put a blank behind the comma of a list"),
        ("1,000", "write 1000 for thousands, or 1.000 for decimals"),
        ("1.234,5", "write 1234.5"),
        ("1,234.5", "write 1234.5"),
        ("1,234,567", "write 1234567"),
        ("1.234.567,8", "write 1234567.8"),
    ],
)
def test_a_comma_in_figures(figures: str, advised: str) -> None:
    assert special.comma_advice(figures)[1] == advised


def test_advice_that_cannot_be_read_is_not_given() -> None:
    """No phrase is offered as a statement that would be refused in its turn."""
    line = "25 mm in inches"
    spot = Spot(line, 6, "NAME", "in", "size", lambda text: False)
    said = special.special(spot)
    assert said is None or "as in" not in said[1]


def test_a_long_line_is_searched_for_no_phrase() -> None:
    line = "2 in " + "and a half " * 80
    with pytest.raises(InputError) as caught:
        Session().answer(line)
    assert "and a half" not in caught.value.advice


def test_what_is_unfinished_keeps_waiting() -> None:
    for line in ("2 in +", "identify 3.9 mm", "(3 in", "divide 2 in / 5"):
        with pytest.raises(InputError) as caught:
            Session().answer(line)
        assert caught.value.ended
        assert caught.value.advice


def test_a_name_is_no_figure_once_it_is_named() -> None:
    bench = Session()
    bench.answer("l = 3 in")
    answer = bench.answer("l/2")
    assert answer is not None
    assert answer.text(80).startswith("1 1/2 in")


@pytest.mark.parametrize(
    ("text", "limits"), [(".500/.498 in", "0.498 in +0.002/-0 in"), ('2.000/1.998"', "1.998 in +0.002/-0 in")]
)
def test_limits_one_above_the_other_are_told_of(text: str, limits: str) -> None:
    answer = Session().answer(text)
    assert answer is not None
    assert any(
        note.text.endswith(f"for limits, one above the other, write {limits}") for note in answer.notes
    )
    assert Session().answer(limits) is not None


def test_a_thread_is_advised_only_where_its_number_is_one() -> None:
    for text, advised in (("10-32", True), ("43-32", False)):
        answer = Session().answer(text)
        assert answer is not None
        assert any("No 10-32" in note.text for note in answer.notes) is advised


def test_on_is_as_good_as_to_after_snap() -> None:
    one, other = (Session().answer(f"snap 2.3 in {word} 32nds up within 1 in") for word in ("on", "to"))
    assert one is not None
    assert other is not None
    assert one.value == other.value
    assert str(one.result.rule) == str(other.result.rule)
    with pytest.raises(InputError, match="is given here twice"):
        Session().answer("snap 2.3 in on 32nds to 64ths")


# The words of one statement as several arguments


@pytest.mark.parametrize(
    ("arguments", "hint"),
    [
        (["2", "1/32", "in", "/", "5"], "put the whole statement in quotes: fractions-shop '2 1/32 in / 5'"),
        (["5'", "+", "x"], 'put the whole statement in quotes: fractions-shop "5\' + x"'),
        (["2 in", "3 foo"], ""),
        (["nothing_named"], ""),
        (["2", "3"], ""),
    ],
)
def test_a_statement_without_quotes_is_hinted_at(
    arguments: list[str], hint: str, capsys: pytest.CaptureFixture[str]
) -> None:
    status = main(arguments)
    told = capsys.readouterr().err.splitlines()
    found = [line for line in told if "in quotes" in line]
    assert found == ([f"fractions-shop: {hint}"] if hint else [])
    assert (status == 0) is (arguments == ["2", "3"])
