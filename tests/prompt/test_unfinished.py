"""Nobody is scolded while typing: a line is at fault only when nothing typed behind it can make it right."""

from __future__ import annotations

import re
import sys
from pathlib import Path

import pytest
from emulator import Terminal

from fractions_shop.errors import InputError
from fractions_shop.prompt.model import PromptModel, _read
from fractions_shop.sheet.feature_lines import EXAMPLES
from fractions_shop.sheet.line_words import LINE_WORDS

sys.path.insert(0, str(Path(__file__).parents[1]))
from readme_blocks import INDENT, blocks
from trying import HARDER

#: Blocks of the manual whose statements are asked of one session.
BLOCKS = [block for block in blocks() if block.kind == "shop"]


def reading(model: PromptModel, text: str):
    """How a line reads, worked out here and now, without the thread that serves the screen."""
    return _read(model.state, text, 6)


#: A line of so many signs is long.
_LONG = 60


def ends(line: str) -> list[int]:
    """Where a line is looked at while it is typed: at every sign, but of long words only at their first and last letters.

    A long line is looked at at every other of these.
    """
    if HARDER:
        return list(range(1, len(line)))
    inside = {n for word in re.finditer(r"[A-Za-z]{5,}", line) for n in range(word.start() + 3, word.end())}
    every = [n for n in range(1, len(line)) if n not in inside]
    return every if len(line) < _LONG else every[::2]


@pytest.mark.parametrize("block", BLOCKS, ids=[f"line-{block.line}" for block in BLOCKS])
def test_no_beginning_of_a_right_line_of_the_manual_is_called_a_fault(block) -> None:
    model = PromptModel()
    for line in block.text.splitlines():
        if line.startswith(INDENT) or not line.strip():
            continue
        try:
            model.session.copy().answer(line)
        except InputError as error:
            last = min(error.start, len(line))
        else:
            last = len(line)
        kinds = {line[:end]: reading(model, line[:end]) for end in ends(line) if end < last}
        assert [text for text, read in kinds.items() if read.kind == "fault"] == []
        open_ones = [read.words for read in kinds.values() if read.kind == "open"]
        assert [words for words in open_ones if not ("to follow" in words or "the start of" in words)] == []
        if last == len(line):
            model.enter(line)


#: In the manner of the lines that a bench would type, none of them in the manual.
OTHERS = (
    "rack = 3' 4 1/2\" - 2-1/32\"", "rack / 7 as 32nds", "hypot(rack, 2 1/8 in) + 3 thou", "0.250 in +0.001/-0 in",
    "recover 10.3 mm, 51.6 mm within 0.1 mm in inch work", "share 2 5/8 in among 4 and 2 on 32nds", "12°30'",
    "snap 10.3 mm to half mm up", "mark 14 5/8 in into 23 on 32nds from 1/2 in", "thread M3 x 0.5", "gauge 18 SWG",
    "drill 2.36 mm", "fit 1 in RC5", "pack 9/64 in from 1/16 in, 1/64 in each once", "2 1/32 in ± 1/64 in",
    "check 2 in = 51 mm within 1 mm", "3/4 of 2 in", "1/4-20 UNC", "No 6-32",
    "US No 8 wood screw", "letter F drill", "26 threads per inch", "25 m/m", "3/16ths of an inch", "two and a half inches",
    '1.000" +.001" -.002"', "identify 0.108 in, 48 tpi", "substitute 6 BA from metric", "units inch without feet",
    "thread 1/4 in x 24 tpi Whitworth form", "substitute 9 mm x 1.1 mm metric form", "2 1/2 Rhenish inches + 3 Rhenish lines",
    "front, side = recover 51.5 mm, 66.7 mm in inch work",
    "bar reads 10.3 mm by caliper worn 0.1 mm", "2 in² / 3 1/2 in", "(2 in + 3 mm) * (4 - 1)", "major(6 BA) - 2 thou",
)  # fmt: skip


def test_nor_is_any_beginning_of_other_right_lines() -> None:
    model = PromptModel()
    for line in OTHERS:
        wrong = [line[:end] for end in ends(line) if reading(model, line[:end]).kind == "fault"]
        assert wrong == []
        model.enter(line)


@pytest.mark.parametrize(
    "text",
    [
        "foo * 2", "foo * 2 in", "2 in + foo", "51,5", "2 % 3", "2 in 3 in", "divide foo into 5", "2 in / 0 in", "3 1 in",
        "3 5/4 in", "check 2 in = 3 = 4", "2 in)", "thread foo", "hypot(2 in, 3) + 1 in", "snap 2 in to 3 in",
    ],
)  # fmt: skip
def test_what_nothing_can_mend_is_a_fault_at_once(text: str) -> None:
    assert reading(PromptModel(), text).kind == "fault"


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("3 1", "the rest of a fraction is to follow"),
        ("divi", "the start of divide"),
        (
            "2 in + 3",
            "2 in = 50.8 mm exactly; a unit, the rest of a fraction or the rest of a number is to follow",
        ),
        ("divide 2 in i", "the start of into"),
        ("divide 2 in into 5 bet", "the start of between"),
        ("rule 3", "the start of 32nds"),
        ("three-ei", "the start of eighths"),
        ("2 1/32 in / 5 +", "13/32 in = 0.40625 in = 10.31875 mm exactly; a size is to follow"),
    ],
)
def test_what_is_told_is_the_reading_so_far_and_what_may_follow(text: str, words: str) -> None:
    assert reading(PromptModel(), text).words == words


def test_every_word_told_as_the_start_of_something_begins_as_typed() -> None:
    model = PromptModel()
    model.enter("width = 3 in")
    for text in ("w", "wi", "di", "s", "snap wi", "snap 10.3 mm w", "units in", "th", "c", "re"):
        words = reading(model, text).words
        for word in words.removeprefix("the start of ").split(" or ")[0].split(", "):
            assert word.lower().startswith(text.split()[-1])


def test_key_by_key_on_the_screen() -> None:
    """Behaviour 5, for every key of a line with a mixed number, a request's word and an option."""
    with Terminal() as terminal:
        line = "divide 3 1/4 in into 5 up"
        for end in range(1, len(line) + 1):
            terminal.press(line[end - 1])
            terminal.see_last(line[:end].rstrip())
            terminal.see(lambda: terminal.beneath().startswith(("  so far: ", "  reads ", "  does this: ")))
            assert "fault" not in "\n".join(terminal.glass.lines())


PARTS = ("part label frame: 4 of brass, 2 in by 3/4 in by 1/16 in", "part tray: 2 of oak, 12 in by 9 in by 3/8 in",
         "hinge = places 1 in by 1 in, 2 in by 1 in", "w = 2 in")  # fmt: skip


@pytest.mark.parametrize(
    "line",
    [
        *EXAMPLES.values(),
        *(row.example for row in LINE_WORDS if row.is_word),
        "hole in tray: tapping(6 BA) at hinge from 1/4 in, 1/4 in deep 1/8 in sunk 1/4 in, 82 deg",
        "hole in tray: No 43 drill at bolt_circle(6, 2 in) from 3 in, 3 in",
        "hole in tray: clearance(6 BA) at places 2 across by 1 in, 2 up by 1 in first at 1 in, 1 in",
        "slot in tray: w by 1/4 in at 3 in by 2 in turned 30 deg deep 1/8 in",
        "part peg: 2 of oak, hex 1/4 in by w; ease the edge",
        "stock oak: sheet 3/8 in, 24 in by 12 in",
        "stock brass: tube 1/2 in by bore 3/8 in, 36 in long, saw 1/32 in",
    ],
)
def test_no_beginning_of_a_line_that_is_no_statement_is_called_a_fault(line: str) -> None:
    model = PromptModel()
    for before in PARTS:
        model.enter(before)
    faults = [line[:n] for n in (*ends(line), len(line)) if reading(model, line[:n]).kind == "fault"]
    assert faults == []
    assert model.settled(line).error is None


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("hole in label frame: foo at 1 in", "nothing is named foo yet"),
        ("hole in trap", "needs a colon after the part's name"),
        ("hole in tra: 3 mm at 1 in by 1 in", "no line makes the part tra"),
        ("part peg: 2 of oak, 3 in bye 4 in", "'bye' follows a size"),
    ],
)
def test_of_a_line_that_is_no_statement_its_own_fault_is_told(line: str, said: str) -> None:
    model = PromptModel()
    for before in PARTS:
        model.enter(before)
    found = model.settled(line)
    assert (found.kind, said in found.words) == ("fault", True), found.words


def test_a_name_with_an_x_behind_it_is_not_scolded_and_a_product_is_offered_when_it_is_whole() -> None:
    model = PromptModel()
    model.enter("stay = 3 in")
    line = "stay x 2 in"
    for end in range(1, len(line)):
        read = reading(model, line[:end])
        assert read is None or read.kind != "fault", (line[:end], read.words)
    with pytest.raises(InputError) as caught:
        model.session.answer(line)
    assert [offer.text for offer in caught.value.advice.offers] == ["stay * 2 in"]
