"""What the prompt knows: its own words, undo, saving and loading, help, and lines taken apart."""

from __future__ import annotations

import io
from pathlib import Path

import pytest
from emulator import Terminal
from room_examples import answered_example

from fractions_shop.command.settings import Settings, read_settings, settings_path
from fractions_shop.errors import InputError
from fractions_shop.prompt import commands
from fractions_shop.prompt.history import LineStore
from fractions_shop.prompt.lines import fault_lines, joined, open_brackets, plain_line, statements
from fractions_shop.prompt.model import PromptModel
from fractions_shop.prompt.own_words import KEPT, WORDS, own_word
from fractions_shop.prompt.replies import Replies
from fractions_shop.prompt.word_offers import word_offers
from fractions_shop.requests import help as book
from fractions_shop.requests import room
from fractions_shop.requests import words as request_words
from fractions_shop.sheet.session import Session


def told(model: PromptModel, line: str, width: int = 90) -> str:
    """What one of the prompt's own words shows."""
    word = own_word(line)
    assert word is not None
    return "\n".join(commands.run(model, *word, width))


def model_with(*lines: str) -> PromptModel:
    model = PromptModel()
    for line in lines:
        model.enter(line)
    return model


# The prompt's own words


@pytest.mark.parametrize("word", sorted(KEPT))
def test_words_that_nobody_can_do_without_cannot_be_names(word: str) -> None:
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
    model = model_with(f"{word}_gap = 2 in", f"{word}s = 3 in" if f"{word}s" not in WORDS else "x = 3 in")
    assert own_word(f"{word}_gap * 2") is None
    assert model.settled(f"{word}_gap * 2").words.startswith("4 in")


@pytest.mark.parametrize("word", sorted(WORDS.keys() - KEPT))
def test_any_other_word_gives_way_to_a_size_of_that_name(word: str) -> None:
    model = model_with(f"{word} = 2 in", f"{word} * 2")
    assert model.names["ans"].inch == 4  # type: ignore[union-attr]
    assert own_word(word, model.names) is None
    assert own_word(f"{word} pitch", model.names) == (word, "pitch")
    assert own_word(word) == (word, "")


def test_an_opened_sheet_may_use_any_of_them_as_a_name(tmp_path: Path) -> None:
    path = tmp_path / "cabinet.txt"
    path.write_text("names = 2 in\nwidth = names / 2\n")
    model = PromptModel()
    told(model, f"open {path}")
    assert model.names["width"].inch == 1  # type: ignore[union-attr]


@pytest.mark.parametrize("line", ["hello", "how do I", "tray height"])
def test_a_line_without_any_figure_is_told_of_help(line: str) -> None:
    error = PromptModel().settled(line).error
    assert error is not None
    assert error.advice.endswith("help lists what can be asked")


# names and undo


def test_names_lists_what_is_named_where_it_was_set_and_what_rests_on_it() -> None:
    model = model_with(
        "pitch = 13/32 in", "gap = 1/2 in ± 2 thou", "n = 12 in / pitch", "check n = 29 7/13", "pitch * 2"
    )
    assert told(model, "names").splitlines() == [
        "pitch = 13/32 in = 0.40625 in = 10.31875 mm exactly",
        "  line 1: pitch = 13/32 in; on it rests n, the check on line 4 and line 5",
        "gap = 1/2 in (12.7 mm) ± 0.002 in (0.0508 mm)",
        "  line 2: gap = 1/2 in ± 2 thou",
        "n = 29 7/13 exactly, about 29.538462",
        "  line 3: n = 12 in / pitch; on it rests the check on line 4",
        "ans = 13/16 in = 0.8125 in = 20.6375 mm exactly",
    ]
    assert told(PromptModel(), "names").startswith("nothing is named yet")


def test_undo_and_redo_go_back_and_forth_and_tell_what_that_moves() -> None:
    model = model_with("pitch = 2 in", "twice = pitch * 2", "pitch = 3 in", "# a note")
    assert told(model, "undo") == "taken back: # a note"
    assert told(model, "undo").splitlines() == [
        "taken back: pitch = 3 in", "pitch: 3 in to 2 in", "twice: 6 in to 4 in",
    ]  # fmt: skip
    assert told(model, "redo").splitlines() == [
        "done again: pitch = 3 in", "pitch: 2 in to 3 in", "twice: 4 in to 6 in",
    ]  # fmt: skip
    for _ in range(3):
        told(model, "undo")
    assert model.names == {}
    with pytest.raises(commands.Refused, match="there is nothing to take back"):
        told(model, "undo")


def test_the_sheet_is_listed_with_numbers_and_what_came_of_each_line() -> None:
    model = model_with(
        "## Tray", "a = 13/32 in", "check a = 1 in", "part slip: 2 of oak, a", "a * 2  # twice"
    )
    assert told(model, "sheet", 50).splitlines() == [
        "1            ## Tray",
        "2  13/32 in  a = 13/32 in",
        "3  FAILS     check a = 1 in",
        "4  2 pieces  part slip: 2 of oak, a",
        "5  13/16 in  a * 2  # twice",
        "no file yet; not saved: 1 check, which fails",
    ]


def test_why_goes_back_to_what_was_read_and_forth_to_what_rests_on_it() -> None:
    model = model_with(
        "bay reads 10.31 mm", "n = 5", "wide = bay * n", "check wide = 2 1/32 in", "rail reads 51.6 mm"
    )
    assert told(model, "why wide").splitlines() == [
        "wide = bay * n   line 3: 2 1/32 in",
        "  bay reads 10.31 mm   line 1: 13/32 in; weighed with rail",
        "  n = 5   line 2: 5",
        "on wide rests the check on line 4",
    ]
    assert told(model, "why 4").splitlines()[-1] == "nothing rests on line 4"


def test_show_brings_any_answer_whole() -> None:
    model = model_with("a = 2 in / 5", "mark a * 5 into 4", "part slip: 2 of oak, a", "3 in")
    assert told(model, "show a").splitlines()[:2] == [
        "line 1: a = 2 in / 5",
        "a = 2/5 in = 0.4 in = 10.16 mm exactly",
    ]
    assert told(model, "show 2").splitlines()[1:] == model.state.sheet.worked[1].answer.text(90).splitlines()  # type: ignore[union-attr]
    assert told(model, "show slip").splitlines()[1] == "2 pieces of oak: 2/5 in (10.16 mm)"
    assert "3 in" in told(model, "show ans")
    for line in ("show 9", "show zz", "show"):
        with pytest.raises(commands.Refused):
            told(model, line)


def test_drop_and_rename_tell_what_they_did() -> None:
    model = model_with("a = 2 in", "b = a * 2", "check b = 4 in")
    assert told(model, "rename a wide") == "a is wide now, on 2 lines"
    assert told(model, "drop b").splitlines() == [
        "dropped line 2: b = wide * 2",
        "line 2 cannot be worked out now: nothing is named b yet",
    ]
    for line in ("drop", "drop 7", "rename wide", "rename zz x", "rename wide wide"):
        with pytest.raises(commands.Refused):
            told(model, line)


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("names all", "names takes nothing after it"),
        ("undo 3", "undo takes nothing after it"),
        ("sheet 3", "sheet takes nothing after it"),
        ("more 3", "more takes nothing after it"),
        ("more", "there is no more of the last answer"),
        ("why", "why needs a name"),
        ("load x.txt", "write open x.txt"),
        ("help frobnicate", "there is no help on frobnicate"),
        ("help divid", "write help divide"),
    ],
)
def test_what_cannot_be_done_is_said(line: str, said: str) -> None:
    with pytest.raises(commands.Refused, match=said):
        told(model_with("2 in"), line)


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


def said_to(model: PromptModel, *lines: str, width: int = 100, rows: int = 0) -> list[str]:
    """What the last of some lines is answered."""
    for line in lines[:-1]:
        Replies(model, LineStore(None), io.StringIO()).line(line, width, rows)
    out = io.StringIO()
    Replies(model, LineStore(None), out).line(lines[-1], width, rows)
    return [row.strip() for row in out.getvalue().splitlines() if row.strip()]


def test_a_name_set_again_says_what_it_was_and_what_moved() -> None:
    said = said_to(
        PromptModel(), "notch = 13/32 in", "n = 12 in / notch", "check n = 29 7/13", "notch = 7/16 in"
    )
    assert said[-2:] == [
        "notch was 13/32 in until now",
        "n: 29 7/13 to 27 3/7; the check on line 3 fails now",
    ]


def test_the_line_below_says_what_entering_would_move() -> None:
    model = model_with("notch = 13/32 in", "n = 12 in / notch", "check n = 29 7/13")
    assert model.settled("notch = 7/16 in").moves == "would move n to 27 3/7; the check on line 3 would fail"
    assert model.settled("other = 7/16 in").moves == ""
    assert model.names["n"] == Session().answer("12 in / (13/32 in)").value  # type: ignore[union-attr]


def test_what_has_no_room_is_folded_and_more_brings_it() -> None:
    model = PromptModel()
    asked = "recover 10.3 mm"
    whole = said_to(model, asked)
    first = said_to(model, asked, rows=10)
    assert first[:-1] == whole[:6]
    assert first[-1] == f"{len(whole) - 6} lines more: write more"
    rest = said_to(model, "more", rows=100)
    assert [*first[:-1], *rest] == whole
    assert said_to(model, asked, rows=60) == whole


def test_readings_are_taken_one_a_line_and_become_lines_of_the_sheet() -> None:
    model = PromptModel()
    said_to(model, "slat reads 3.9 mm by caliper", "readings in mm by caliper")
    assert Replies(model, LineStore(None), io.StringIO()).sign == "read in mm: "
    assert said_to(model, "bay 10.3")[0].startswith("Probably 13/32 in")
    said_to(model, "bay 10.4", "rack\t75.3", "slat 4", "lip 1/2 in", "7.9", "8.0")
    with pytest.raises(InputError) as caught:
        model.enter("what is this")
    assert caught.value.message == "a name and what was read of it are expected here"
    said_to(model, "")
    assert model.mode is None
    assert list(model.state.rows.texts) == [
        "slat reads 3.9 mm, 4 mm by caliper", "bay reads 10.3 mm, 10.4 mm by caliper", "rack reads 75.3 mm by caliper",
        "lip reads 1/2 in by caliper", "r1 reads 7.9 mm by caliper", "r2 reads 8.0 mm by caliper",
    ]  # fmt: skip


def test_what_is_said_of_the_instrument_behind_a_figure_serves_that_line() -> None:
    model = PromptModel()
    said_to(
        model,
        "readings in in by caliper",
        "stile 92 by rule",
        "lip 2.03 within 1/64 in",
        "edge 1/4 in inch work",
        "",
    )
    assert list(model.state.rows.texts) == [
        "stile reads 92 in by rule", "lip reads 2.03 in within 1/64 in", "edge reads 1/4 in in inch work",
    ]  # fmt: skip


@pytest.mark.parametrize(
    "line",
    ["bay 10.3", "stile 92 by rule", "lip 2 13/32", "13/32", "bay: 2.03 within 1/64 in", "edge 1/4 in worn 1/64 in"],
)  # fmt: skip
def test_no_beginning_of_a_line_of_figures_is_a_fault(line: str) -> None:
    model = PromptModel()
    said_to(model, "readings in in by caliper")
    kinds = {line[:n]: model.settled(line[:n]).kind for n in range(1, len(line) + 1)}
    assert {text for text, kind in kinds.items() if kind == "fault"} == set()


def test_a_pasted_column_of_names_and_figures_is_no_note_while_figures_are_read() -> None:
    with Terminal(rows=60) as terminal:
        terminal.press("readings in mm by caliper\r")
        terminal.see("ends the readings")
        terminal.press("\x1b[200~bay 10.3\nrack 75.3\n\x1b[201~")
        terminal.see("75.3 mm read within")
        assert list(terminal.model.state.rows.texts) == [
            "bay reads 10.3 mm by caliper",
            "rack reads 75.3 mm by caliper",
        ]


def test_names_calls_no_size_exact_that_may_be_another() -> None:
    model = model_with("front = recover 51.5 mm", "half = front / 2", "lip = 1/2 in")
    listed = said_to(model, "names")
    assert listed[0] == "front is taken as 2 1/32 in = 2.03125 in = 51.59375 mm; it may be another size"
    assert "half is taken as 1 1/64 in = 1.015625 in = 25.796875 mm; it may be another size" in listed
    assert "lip = 1/2 in = 0.5 in = 12.7 mm exactly" in listed
    assert not any("exactly; it may be another size" in row for row in listed)


def test_sheet_marks_and_names_tells_what_rests_on_a_belief() -> None:
    model = model_with("stay reads 190.6 mm by caliper", "half = stay / 2", "lip = 1/2 in")
    listed = said_to(model, "sheet")
    assert listed[0] == "1  7 1/2 in *  stay reads 190.6 mm by caliper"
    assert listed[1] == "2  3 3/4 in *  half = stay / 2"
    assert listed[2] == "3  1/2 in      lip = 1/2 in"
    assert listed[-1].endswith("may be another size, or rests on one that may; names and show say why")
    told_of = {row.partition(" =")[0]: row for row in said_to(model, "names")}
    assert "exactly; taken from a reading, if it is inch work" in told_of["stay"]
    assert told_of["half"].endswith("exactly; rests on what is believed of a reading")
    assert told_of["lip"].endswith("exactly")


def test_a_size_set_in_place_of_a_reading_says_that_the_reading_is_gone_and_what_is_doubtful_now() -> None:
    model = model_with(
        "bay reads 10.3 mm, 10.35 mm by caliper", "rack reads 75.3 mm by caliper", "slat reads 3.95 mm by caliper",
        "reconcile rack = 5 * bay + 6 * slat",
    )  # fmt: skip
    said = "\n".join(said_to(model, "bay = 7/16 in"))
    assert (
        "bay was 13/32 in until now; what was read of it is no longer in the sheet: undo brings it back"
        in said
    )
    assert "rack: 2 31/32 in to 3 1/8 in, which may be another size" in said
    assert "bay reads 10.3 mm, 10.35 mm by caliper" in "\n".join(said_to(model, "undo", "sheet"))


def test_a_line_that_a_new_name_stops_says_why() -> None:
    model = model_with("pivot dia 3/16")
    said = " ".join(said_to(model, "dia = 1/4 in"))
    assert "line 1 cannot be worked out now: dia is a size named here, and stands beside a size" in said


def test_more_brings_the_whole_of_an_answer_that_was_shortened() -> None:
    model = PromptModel()
    out = io.StringIO()
    replies = Replies(model, LineStore(None), out, pictures=False)
    replies.line("mark 7 1/2 in into 6", 40, 40)
    assert "shortened to the window" in out.getvalue()
    out.truncate(0)
    replies.line("more", 40, 40)
    assert "exact place" in out.getvalue()


@pytest.mark.parametrize(
    "line",
    ["part screw: 4, round No 6 wood screw by 3/4 in", "stock brass: round No 6 wood screw, 36 in long",
     "hole in lid: No 6 wood screw at 1 in by 1 in"],
)  # fmt: skip
def test_a_line_that_is_no_statement_tells_its_doubt_when_it_is_typed_entered_and_shown(line: str) -> None:
    model = model_with("part lid: 1 of oak, 2 in by 3 in")
    doubt = "read as US No 6 wood screw, 0.138 in; British No 6 wood screw is 0.136 in"
    assert doubt in model.settled(line).words
    assert f"note: {doubt}" in " ".join(said_to(model, line))
    assert f"note: {doubt}" in " ".join(said_to(model, "show 2"))


def test_a_name_whose_line_is_at_fault_is_not_said_to_be_unknown() -> None:
    model = model_with("gap = 1/2 in", "slot = gap / 2")
    said_to(model, "drop gap")
    error = model.settled("slot + 1 in").error
    assert error is not None
    assert error.message == "slot has no size, because line 1 is not worked out"
    assert error.advice == "set line 1 right first, or drop it"


def test_undo_says_what_stands_again_where_that_has_no_size() -> None:
    model = model_with("part arm: 1 of oak, 7 in by 1 in", "part arm: 2 of oak, 7 in by 1 in")
    assert "line 1 is again: part arm: 1 of oak, 7 in by 1 in" in said_to(model, "undo")


def test_a_line_that_is_not_there_is_told_with_the_last_that_is() -> None:
    with pytest.raises(commands.Refused, match="there is no line 9: the sheet is empty"):
        told(PromptModel(), "drop 9")
    with pytest.raises(commands.Refused, match="there is no line 9: the last is line 1"):
        told(model_with("2 in"), "drop 9")


@pytest.mark.parametrize(
    "line", ["readings", "readings in ells", "readings in mm by eye", "readings by caliper"]
)
def test_readings_without_a_unit_or_by_no_instrument_are_refused(line: str) -> None:
    model = PromptModel()
    with pytest.raises(commands.Refused, match="write readings in mm by caliper"):
        told(model, line)
    assert model.mode is None


def test_a_rule_is_drawn_where_it_helps_and_on_request() -> None:
    model = PromptModel()
    assert not any("▼" in row or "V" in row for row in said_to(model, "13/32 in"))
    assert any("V" in row for row in said_to(model, "draw ans"))
    assert any("V" in row for row in said_to(model, "mark 2 in into 4"))
    said_to(model, "draw off")
    assert not any(" V" in row for row in said_to(model, "mark 2 in into 4"))


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


@pytest.mark.parametrize("width", [34, 40, 60])
def test_no_word_is_broken_by_the_edge_of_the_screen(width: int, tmp_path: Path) -> None:
    out = io.StringIO()
    replies = Replies(model_with(), LineStore(None), out)
    replies.line("2 in / 5", width)
    assert "does divide by 5" in " ".join(out.getvalue().split())
    path = tmp_path / "a.txt"
    path.write_text("2 in\n1 bogle + 3 in\n")
    replies.line(f"open {path}", width)
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


def test_a_part_renamed_and_its_renaming_undone_moves_nothing() -> None:
    model = PromptModel()
    made = said_to(model, "units mm first", "part front rail: 1 of oak, 3 in by 2 in by 1/4 in")
    assert made[0].startswith("1 piece of oak: 76.2 x 50.8 x 6.35 mm")
    said_to(model, "hole in front rail: 3 mm at 1 in by 1 in")
    assert said_to(model, "rename front rail to back rail") == ["front rail is back rail now, on 2 lines"]
    assert said_to(model, "undo") == ["taken back: rename front rail to back rail"]
    assert said_to(model, "redo") == ["done again: rename front rail to back rail"]
    assert model.parts == {"back rail": model.parts["back rail"]}


@pytest.mark.parametrize(
    ("typed", "offered"),
    [
        ("rename fr", "front rail"),
        ("rename front r", "front rail"),
        ("drop front", "front rail"),
        ("hole in fr", "front rail:"),
        ("corner in ", "front rail:"),
        ("hole in front rail: 3 mm at 1 in by 1 in de", "deep"),
        ("part lip: 2 of oak, rou", "round"),
    ],
)
def test_parts_and_the_small_words_of_their_lines_are_offered(typed: str, offered: str) -> None:
    model = PromptModel()
    model.enter("part front rail: 1 of oak, 3 in by 2 in by 1/4 in")
    offer = next(
        offer for offer in word_offers(typed, model.names, parts=model.parts) if offer.text == offered
    )
    assert f"{typed[: offer.start]}{offered}".endswith(("front rail", "front rail:", " deep", " round"))
