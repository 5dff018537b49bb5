"""The README says what the program does: every example in it is run."""

from __future__ import annotations

import doctest
import re

import pytest
from readme_blocks import LEFT_OUT, README, TOP, WORK, blocks, sheets, shop

RUN = [b for b in blocks() if b.kind in WORK]


@pytest.mark.parametrize("block", RUN, ids=[f"line-{b.line}" for b in RUN])
def test_an_example_answers_as_written(block):
    assert WORK[block.kind](block.text) == block.text


def test_the_python_examples_answer_as_written():
    text = "\n".join(block.text for block in blocks() if block.kind == "python")
    test = doctest.DocTestParser().get_doctest(text, {}, "README", str(README), 0)
    runner = doctest.DocTestRunner()
    runner.run(test)
    assert runner.tries > 10
    assert runner.failures == 0


def test_every_request_and_function_is_in_the_manual():
    from fractions_shop.language.functions import FUNCTIONS, more_functions
    from fractions_shop.requests import words as request_words

    text = README.read_text(encoding="utf-8")
    for word in request_words():
        assert re.search(rf"\| `{word} ", text), f"the table of requests lacks {word}"
    for name in [*FUNCTIONS, *more_functions()]:
        assert f"`{name}(" in text, f"the table of functions lacks {name}"


def test_the_first_commands_are_one_line_each_and_ci_runs_the_second():
    commands = re.findall(r"^python3 -m venv .*$", README.read_text(encoding="utf-8"), re.MULTILINE)
    assert len(commands) == 2
    assert commands[1] in (TOP / ".ci" / "run").read_text(encoding="utf-8")


def test_every_link_leads_somewhere():
    text = README.read_text(encoding="utf-8")
    prose = re.sub(r"^```.*?^```$", "", text, flags=re.MULTILINE | re.DOTALL)
    titles = re.findall(r"^#+ (.+)$", prose, re.MULTILINE)
    anchors = {re.sub(r"[^\w -]", "", title.lower()).replace(" ", "-") for title in titles}
    assert len(anchors) == len(titles)
    links = re.findall(r"\]\(([^)]+)\)", prose)
    assert len(links) > 30
    for link in links:
        assert link[1:] in anchors if link.startswith("#") else (TOP / link).exists(), link


def test_what_is_left_out_of_an_answer_is_marked_and_the_rest_is_held():
    whole = shop("mark 2 in into 5\n")
    rows = whole.splitlines()
    cut = "\n".join([*rows[:3], f"    {LEFT_OUT}", rows[-1], ""])
    assert len(rows) > 5
    assert shop(cut) == cut
    assert shop(cut.replace("the worst mark", "no mark")) == cut


def test_the_sheet_of_the_manual_holds():
    from fractions_shop import Sheet

    assert sheets()
    for text in sheets().values():
        sheet = Sheet.from_text(text)
        sheet.run()
        assert sheet.ok, sheet.faults
