"""What the prompt knows: its own words, undo, saving and loading, help, and lines taken apart."""

from __future__ import annotations

import io
from pathlib import Path

import pytest
from room_examples import answered_example

from fractions_shop.command.settings import Settings, read_settings, settings_path
from fractions_shop.errors import InputError
from fractions_shop.prompt import commands
from fractions_shop.prompt.history import LineStore
from fractions_shop.prompt.lines import fault_lines, joined, open_brackets, plain_line, statements
from fractions_shop.prompt.model import PromptModel
from fractions_shop.prompt.own_words import WORDS, own_word
from fractions_shop.prompt.replies import Replies
from fractions_shop.requests import help as book
from fractions_shop.requests import room
from fractions_shop.requests import words as request_words
from fractions_shop.sheet.session import Session
from fractions_shop.show.sheet import Sheet


def told(model: PromptModel, line: str, width: int = 90) -> str:
    """What one of the prompt's own words shows."""
    word = own_word(line)
    assert word is not None
    return "\n".join(commands.run(model, *word, width))


def desk_with(*lines: str) -> PromptModel:
    model = PromptModel()
    for line in lines:
        model.enter(line)
    return model


# The prompt's own words


@pytest.mark.parametrize("word", WORDS)
def test_the_prompts_own_words_cannot_be_names(word: str) -> None:
    model = PromptModel()
    with pytest.raises(
        InputError, match=f"{word} is a word of this prompt, so it cannot be a name"
    ) as caught:
        model.enter(f"{word} = 2 in")
    assert (caught.value.start, caught.value.end) == (0, len(word))
    assert model.names == {}


@pytest.mark.parametrize("word", WORDS)
def test_the_prompts_own_words_are_no_words_of_the_language(word: str) -> None:
    """They would hide a request or a function otherwise."""
    assert word not in request_words()
    assert word not in book.functions()


@pytest.mark.parametrize("word", WORDS)
def test_a_name_that_only_begins_like_one_of_them_is_free(word: str) -> None:
    model = desk_with(f"{word}_gap = 2 in", f"{word}s = 3 in" if f"{word}s" not in WORDS else "x = 3 in")
    assert own_word(f"{word}_gap * 2") is None
    assert model.settled(f"{word}_gap * 2").words.startswith("4 in")


def test_a_file_cannot_name_a_size_by_one_of_them_either(tmp_path: Path) -> None:
    path = tmp_path / "cabinet.txt"
    path.write_text("names = 2 in\nwidth = 3 in\nundo\n")
    model = PromptModel()
    said = told(model, f"load {path}")
    assert "cabinet.txt, line 1: names is a word of this prompt" in said
    assert "cabinet.txt, line 3: undo is a word of the prompt, not a statement" in said
    assert said.endswith("1 statement answered, 2 not")
    assert set(model.names) == {"width", "ans"}


@pytest.mark.parametrize(("line", "said"), [("exit", "write quit, or press Ctrl-D"), ("?", "write help")])
def test_words_from_elsewhere_are_met_with_ours(line: str, said: str) -> None:
    error = PromptModel().settled(line).error
    assert error is not None
    assert error.advice == said


@pytest.mark.parametrize("line", ["hello", "how do I", "tray height"])
def test_a_line_without_any_figure_is_told_of_help(line: str) -> None:
    error = PromptModel().settled(line).error
    assert error is not None
    assert error.advice.endswith("help lists what there is to ask")


# names and undo


def test_names_lists_what_is_named_the_last_size_at_the_end() -> None:
    model = desk_with("pitch = 13/32 in", "gap = 1/2 in ± 2 thou", "pitch * 2")
    assert told(model, "names").splitlines() == [
        "pitch = 13/32 in = 0.40625 in = 10.31875 mm exactly",
        "gap = 1/2 in (12.7 mm) ± 0.002 in (0.0508 mm)",
        "ans = 13/16 in = 0.8125 in = 20.6375 mm exactly",
    ]
    assert told(PromptModel(), "names").startswith("nothing is named yet")


def test_undo_gives_a_name_its_former_size_back_and_then_frees_it() -> None:
    model = desk_with("pitch = 2 in", "pitch = 3 in", "1 mm")
    assert told(model, "undo").splitlines() == [
        "taken back: pitch = 3 in",
        "pitch is 2 in = 50.8 mm exactly again",
    ]
    assert model.names["pitch"] == Session().answer("2 in").value  # type: ignore[union-attr]
    assert told(model, "undo").endswith("pitch is free again")
    assert "pitch" not in model.names
    assert str(model.names["ans"].mm) == "1"  # type: ignore[union-attr]
    with pytest.raises(commands.Refused, match="there is no naming to take back"):
        told(model, "undo")


def test_undo_takes_what_drew_on_the_name_out_of_what_is_saved() -> None:
    model = desk_with("a = 2 in", "b = 3 in", "b * 2", "ans + 1 in", "a * 2", "ans + 1 in")
    told(model, "undo")
    assert [entry.text for entry in model.entries] == ["a = 2 in", "3 in", "a * 2", "ans + 1 in"]


# save and load


def test_what_is_saved_loads_to_the_same_names_and_rule(tmp_path: Path) -> None:
    path = tmp_path / "tray.txt"
    model = PromptModel("32nds")
    for line in ("pitch = divide 2 in into 5 up", "rule half mm", "gap = (1 in\n+ 3 mm)", "snap pitch * 3"):
        model.enter(line)
    assert told(model, f"save {path}", 300) == f"4 statements written to {path}, and the rule first"
    again = PromptModel()
    assert told(again, f"load {path}").endswith("5 statements answered")
    assert (again.names, again.rule) == (model.names, model.rule)


def test_a_saved_session_is_a_sheet(tmp_path: Path) -> None:
    model = desk_with("pitch = 2 in / 5", "pitch = 13/32 in", "total = pitch * 5", "check total = 2 1/32 in")
    path = tmp_path / "tray.txt"
    told(model, f"save {path}")
    assert path.read_text().splitlines() == [
        "rule 64ths",
        "# pitch = 2 in / 5 (named anew below)",
        "pitch = 13/32 in",
        "total = pitch * 5",
        "check total = 2 1/32 in",
    ]
    job = Sheet.read(path)
    assert job.ok
    assert job.sizes["pitch"] == model.names["pitch"]


def test_a_name_used_and_then_named_anew_is_noted_when_it_is_saved(tmp_path: Path) -> None:
    model = desk_with("a = 2 in", "b = a * 2", "a = 3 in")
    said = told(model, f"save {tmp_path / 'x.txt'}")
    assert "note: a is named more than once" in said


def test_a_file_that_is_there_is_not_written_over_unless_asked(tmp_path: Path) -> None:
    path = tmp_path / "tray.txt"
    path.write_text("3 in\n")
    model = desk_with("2 in")
    with pytest.raises(commands.Refused, match="is there already; write save over"):
        told(model, f"save {path}")
    assert path.read_text() == "3 in\n"
    told(model, f"save over {path}")
    assert path.read_text() == "rule 64ths\n2 in\n"


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("save", "save needs the name of a file"),
        ("load", "load needs the name of a file"),
        ("load nowhere.txt", "nowhere.txt cannot be read: No such file"),
        ("load .", "is not a file of statements"),
        ("save nowhere/x.txt", "cannot be written: No such file"),
        ("load bad.txt", "bad.txt, line 2: this is not UTF-8 text"),
        ("load long.txt", "is longer than a file of statements"),
        ("names all", "names stands alone"),
        ("undo 3", "undo stands alone"),
        ("help frobnicate", "there is no help on frobnicate"),
        ("help divid", "write help divide"),
    ],
)
def test_what_cannot_be_done_is_said(
    line: str, said: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "bad.txt").write_bytes(b"2 in\n\xff\n")
    (tmp_path / "long.txt").write_bytes(b"2 in\n" * 300_000)
    with pytest.raises(commands.Refused, match=said):
        told(desk_with("2 in"), line)


def test_nothing_answered_is_nothing_to_save(tmp_path: Path) -> None:
    with pytest.raises(commands.Refused, match="there is nothing to save yet"):
        told(PromptModel(), f"save {tmp_path / 'x.txt'}")
    assert not (tmp_path / "x.txt").exists()


def test_part_lines_of_a_sheet_are_left_to_it(tmp_path: Path) -> None:
    path = tmp_path / "sheet.txt"
    path.write_text("## Tray\nwidth = 2 in\npart runner: 24 of brass\nwidth / 2\n")
    assert told(PromptModel(), f"load {path}").endswith(
        "2 statements answered; 1 part line left to the sheet command"
    )


# help


@pytest.mark.parametrize("word", request_words())
def test_every_request_has_help_with_an_example_that_runs(word: str) -> None:
    topic = book.topic(word)
    assert topic is not None
    assert topic.meaning, f"add {word} to the help"
    assert topic.forms
    assert topic.example == room(word).example
    assert answered_example(word).kind == word
    assert f"  {topic.example}" in told(PromptModel(), f"help {word}")


@pytest.mark.parametrize("name", book.functions())
def test_every_function_has_help_with_an_example_that_runs(name: str) -> None:
    topic = book.topic(name)
    assert topic is not None
    assert topic.meaning
    assert f"{name}(" in topic.example
    assert Session().answer(topic.example) is not None


@pytest.mark.parametrize("name", ["sizes", "units", "rules", "functions"])
def test_the_general_topics_have_an_example_that_runs(name: str) -> None:
    topic = book.topic(name)
    assert topic is not None
    assert Session().answer(topic.example) is not None


def test_every_way_to_write_a_size_in_the_help_is_read() -> None:
    topic = book.topic("sizes")
    assert topic is not None
    for form in topic.forms:
        for text in form.split("   "):
            assert Session().answer(text) is not None, text


@pytest.mark.parametrize("width", [40, 80, 200])
def test_help_keeps_to_the_width(width: int) -> None:
    for line in (
        "help",
        "help divide",
        "help sizes",
        "help keys",
        "help settings",
        "help save",
        "help functions",
    ):
        rows = told(PromptModel(), line, width).splitlines()
        # The path of a file is not broken.
        assert max(len(row) for row in rows if str(settings_path()) not in row) <= width


def test_help_names_every_word_that_it_knows() -> None:
    overview = told(PromptModel(), "help")
    assert all(f"  {word}" in overview for word in (*request_words(), *WORDS))


def test_help_on_the_settings_names_the_file_and_only_what_can_be_set(tmp_path: Path) -> None:
    said = told(PromptModel(), "help settings", 300)
    assert str(settings_path()) in said
    text = "\n".join(line.split("  ")[1] for line in said.splitlines() if " = " in line)
    path = tmp_path / "settings.toml"
    path.write_text(text)
    assert read_settings(path) == (Settings(), ())


# Replies


def test_a_name_that_is_taken_again_says_what_it_was() -> None:
    out = io.StringIO()
    replies = Replies(PromptModel(), LineStore(None), out)
    replies.line("pitch = 3/8 in", 80)
    replies.line("pitch = 13/32 in", 80)
    assert "pitch was 3/8 in (9.525 mm) until now; undo brings it back" in out.getvalue()


def test_digits_are_those_of_the_settings() -> None:
    out = io.StringIO()
    Replies(PromptModel(digits=3), LineStore(None), out).line("10.3 mm", 80)
    assert "about 0.406 in" in out.getvalue()
    assert PromptModel(digits=3).settled("10.3 mm").words.startswith("10.3 mm exactly, about 0.406 in")


# Lines


@pytest.mark.parametrize(
    ("text", "open_ones"),
    [
        ("(1 in", 1),
        ("((1 in)", 1),
        ("1 in)", -1),
        ("(1 in # )", 1),
        ("（1 in", 1),
        ("#6-32 (", 1),
        ("# (", 0),
    ],
)
def test_open_brackets_are_counted_outside_notes(text: str, open_ones: int) -> None:
    assert open_brackets(text) == open_ones


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("a\nb\r\n\n c", ["a", "b", " c"]),
        ("(1 in\n+ 2 in)\n3 in", ["(1 in + 2 in)", "3 in"]),
        ("(1 in\n2 in\n3 in", ["(1 in", "2 in", "3 in"]),
        ("", []),
        ("\n\n", []),
        ("x\ty\x1b[2J", ["x y[2J"]),
    ],
)
def test_a_text_is_taken_apart_into_statements(text: str, expected: list[str]) -> None:
    assert statements(text) == expected


def test_joining_keeps_every_character_in_its_place() -> None:
    text = "(1 in # wide )\n+ foo)"
    assert joined(text).index("foo") == text.index("foo")
    assert len(joined(text)) == len(text)
    assert plain_line("a\u00a0b\x07c") == "a\u00a0bc"


# What is said keeps to the width


def test_load_tells_the_answer_of_a_mark_and_not_the_heading_of_its_table(tmp_path: Path) -> None:
    path = tmp_path / "marks.txt"
    path.write_text("mark 2 in into 4\ncrown 3 across 1 in radius 40 in from 1 in\n")
    said = told(PromptModel(), f"load {path}", 120).splitlines()
    assert said[1] == "    0, 1/2, 1, 1 1/2, 2 in; every one exact"
    assert said[3].startswith("    heights 63/64, 1, 63/64 in; the worst ")


@pytest.mark.parametrize("width", [34, 40, 60])
def test_no_word_is_broken_by_the_edge_of_the_screen(width: int, tmp_path: Path) -> None:
    out = io.StringIO()
    replies = Replies(desk_with(), LineStore(None), out)
    replies.line("2 in / 5", width)
    assert "stands between" in " ".join(out.getvalue().split())
    path = tmp_path / "a.txt"
    path.write_text("2 in\n1 bogle + 3 in\n")
    replies.line(f"load {path}", width)
    with pytest.raises(InputError) as caught:
        replies.line("1/2 in + 7 bogle", width)
    rows = [*out.getvalue().splitlines(), *fault_lines(caught.value, width)]
    assert all(len(row) <= width for row in rows if " " in row.strip()), rows


def test_a_folded_fault_keeps_its_caret_under_the_place() -> None:
    with pytest.raises(InputError) as caught:
        PromptModel().enter("1/2 in + 7 bogle")
    rows = fault_lines(caught.value, 24)
    piece = rows.index("  1/2 in + 7 bogle")
    assert rows[piece + 1].index("^") == rows[piece].index("bogle")
    assert " ".join(" ".join(rows).split()) == " ".join(str(caught.value).split())
