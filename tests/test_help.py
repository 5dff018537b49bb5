"""Help tells of the lines of a sheet, in forms and examples that can be cut."""

from __future__ import annotations

import re

import pytest

from fractions_shop.command.cli import main
from fractions_shop.requests import help as request_help
from fractions_shop.sheet.feature_lines import WORDS
from fractions_shop.sheet.line_words import topic
from fractions_shop.show.sheet import Sheet

PART = "part label frame: 1 of brass, 2 in by 7/8 in by 1/16 in"


@pytest.mark.parametrize("word", WORDS)
def test_help_has_each_word_that_cuts_with_an_example_that_can_be_cut(word):
    about = topic(word)
    assert about is not None
    assert about.forms[0].partition(" in PART:")[0] == word
    example = about.more[0].partition("such as ")[2]
    sheet = Sheet.from_text(f"{PART}\n{example}")
    assert not sheet.faults
    assert sheet.worked[1].feature.word == word


@pytest.mark.parametrize(
    ("word", "told"),
    [
        ("within", "it is a smaller word of snap, check, recover, reads and reconcile: write fractions-shop help snap"),
        ("off a print", "it is a smaller word of recover and reads: write fractions-shop help recover"),
        ("sunk", "it is a smaller word of hole: write fractions-shop help hole"),
        ("Sheet", "it is a command: write fractions-shop sheet --help"),
        ("devide", "write fractions-shop help divide, if that was meant"),
    ],
)  # fmt: skip
def test_a_word_that_help_has_no_page_of_leads_to_one_that_tells_of_it(word, told, capsys):
    assert main(["help", *word.split()]) == 2
    assert capsys.readouterr().err == f"fractions-shop: there is no help on {word}; {told}\n"


def test_every_small_word_of_a_form_is_known_to_help(capsys):
    forms = [form for word in request_help.words() for form in request_help.topic(word).forms]
    for small in {each for form in forms for each in re.findall(r"(?<![\w/])[a-z]{3,}(?![\w(=])", form)}:
        main(["help", small])
        said = capsys.readouterr()
        assert said.out.startswith(f"{small}: ") or "smaller word of" in said.err, small


@pytest.mark.parametrize("word", ["recover", "reads"])
def test_each_choice_that_a_form_offers_can_be_typed(word):
    """The choices stand between bars, and one of them at a time is taken."""
    about = request_help.topic(word)
    (form,) = [form for form in about.forms if "off a print" in form]
    before, choices = re.fullmatch(r"(.*?) \[(.*)\]", form).groups()
    known = "a = 75.4 mm" if word == "recover" else "a reads 75.4 mm"
    for choice in choices.split(" | "):
        said = choice.replace("NAME = SIZE", "a = 2 31/32 in").replace("SIZE = SIZE", "75.4 mm = 2 31/32 in")
        readings = "75.4 mm, 51.5 mm, 10.3 mm, 66.7 mm" if word == "recover" else "10.3 mm"
        typed = before.replace("SIZE, SIZE ...", readings).replace("NAME", "b").replace("SIZE", readings)
        sheet = Sheet.from_text(f"{known}\n{typed} {said}")
        assert not sheet.faults, (typed, said)
