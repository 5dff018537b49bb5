"""What a line means that is no statement: put in its place with one Enter; words of habit; pasted notes."""

from __future__ import annotations

import io

import pytest
from emulator import ENTER, Terminal

from fractions_shop import Sheet, __version__
from fractions_shop.command.cli import main
from fractions_shop.language.advice.bench_forms import EXAMPLES
from fractions_shop.language.advice.gate import figures
from fractions_shop.prompt.commands import run
from fractions_shop.prompt.history import LineStore
from fractions_shop.prompt.model import LineReading, PromptModel, _read
from fractions_shop.prompt.own_words import WORDS
from fractions_shop.prompt.pasted_note import ProposedPart, part_line, sorted_lines
from fractions_shop.prompt.plain import run as run_plain
from fractions_shop.prompt.replies import Replies
from fractions_shop.sheet.line_words import LINE_WORDS


def reading(model: PromptModel, text: str) -> LineReading:
    return model.going_on(text) or _read(model.state, text, 6)


#: Lines that go on from the last size, 2 in, and what each comes to.
GOES_ON = {
    "/ 2": "ans / 2", "* 3": "ans * 3", "+ 2 thou": "ans + 2 thou", "- 1/64 in": "ans - 1/64 in", "in mm": "ans as mm",
    "as 32nds": "ans as 32nds", "to mm": "ans as mm", "snap to 32nds": "snap ans to 32nds", "divide into 5": "divide ans into 5",
}  # fmt: skip


@pytest.mark.parametrize("line", GOES_ON)
def test_a_line_goes_on_from_the_last_size_and_only_when_there_is_one(line: str) -> None:
    model = PromptModel()
    assert reading(model, line).kind != "offer"
    model.enter("2 in")
    assert reading(model, line).offer == GOES_ON[line]
    answer = model.enter(GOES_ON[line])
    assert answer is not None
    assert "ans" in answer.used


@pytest.mark.parametrize("line", ["-1/64 in", "+2 thou", "+ 2", "+ foo"])
def test_a_sign_that_touches_its_size_is_a_size_alone(line: str) -> None:
    model = PromptModel()
    model.enter("2 in")
    assert reading(model, line).kind != "offer"


@pytest.mark.parametrize(
    "line",
    [*EXAMPLES, "12 x 13/32 in", "2 in x 3 in", "devide 2 in into 5", "recovr 51.5 mm", "thred 6 BA", "10h7"],
)
def test_what_is_put_in_place_is_answered_and_holds_the_figures_typed(line: str) -> None:
    model = PromptModel()
    offered = reading(model, line)
    assert offered.kind == "offer"
    assert model.enter(offered.offer) is not None
    assert sorted(map(str, figures(offered.offer))) == sorted(map(str, figures(line)))


@pytest.mark.parametrize("line", ["13/32 in c/c", "3/4 of 2 in"])
def test_what_is_a_statement_is_answered_as_it_stands(line: str) -> None:
    assert PromptModel().enter(line) is not None


def test_one_enter_puts_the_statement_in_the_line_and_the_next_answers_it() -> None:
    with Terminal() as terminal:
        terminal.press("what drill for 6 BA")
        terminal.see("Enter puts here: tapping(6 BA) to tap it; or write clearance(6 BA)")
        terminal.press(ENTER)
        terminal.see_last("tapping(6 BA)")
        terminal.see(lambda: terminal.beneath().startswith("  reads 2.3 mm"))
        terminal.press(ENTER)
        terminal.see(lambda: terminal.prompts == 2)
        terminal.press("/ 2")
        terminal.see("Enter puts here: ans / 2")
        terminal.press(ENTER)
        terminal.see(lambda: terminal.typed == "ans / 2")
        terminal.press(ENTER)
        terminal.see("1.15 mm")


def test_bench_words_are_not_scolded_while_they_are_typed() -> None:
    model = PromptModel()
    for line in EXAMPLES:
        for end in range(line.index(" ") + 2, len(line)):
            assert reading(model, line[:end]).kind != "fault"


# Words of habit


@pytest.mark.parametrize(
    ("word", "said"),
    [
        ("version", f"fractions-shop {__version__}"),
        ("settings", "help settings tells what there is to set"),
        ("history", "Ctrl-R looks for one"),
        ("?", "type a size, or arithmetic on sizes"),
        ("? divide", "divide: "),
        ("help", "type a size, or arithmetic on sizes"),
    ],
)
def test_a_word_of_habit_does_what_it_says_or_says_what_does(word: str, said: str) -> None:
    with Terminal(rows=70) as terminal:
        terminal.press(word, ENTER)
        terminal.see(lambda: said in " ".join(" ".join(terminal.glass.lines()).split()))
        assert "fault" not in "\n".join(terminal.glass.lines())


@pytest.mark.parametrize("word", ["exit", "quit", "bye", "EXIT"])
def test_leaving(word: str) -> None:
    with Terminal() as terminal:
        terminal.press(word, ENTER)
        terminal.thread.join(60)
        assert terminal.status == 0


def test_a_size_may_have_the_name_of_a_word_of_habit() -> None:
    with Terminal() as terminal:
        terminal.answer("history = 1/8 in", "3.175 mm")
        terminal.answer("history", "3.175 mm")
        assert terminal.model.names["history"] == terminal.model.names["ans"]


# Pasted notes

NOTE = """Fittings for the label frames
measured on Tuesday, not yet checked against the print
wide = 51.5 mm
2 off 2 BA screws 1/2 in lg
wide / 5
The bars are 5/32 in by 1/16 in, and the frames 12 in all.
"""


def test_a_pasted_note_is_no_page_of_faults() -> None:
    with Terminal(rows=60, columns=100) as terminal:
        terminal.press(f"\x1b[200~{NOTE}\x1b[201~")
        terminal.see_last("part 2 BA screws: 2, round 2 BA by 1/2 in; 2 BA screws 1/2 in lg")
        terminal.press(ENTER)
        terminal.see("# The bars are 5/32 in")
        rows = "\n".join(terminal.glass.lines())
        assert "# Fittings for the label frames" in rows
        assert "# 2 off 2 BA screws 1/2 in lg" in rows
        assert "2 ba screws" in terminal.model.state.parts
        assert "10.3 mm" in rows
        assert "^" not in rows
        assert "wide" in terminal.model.names


def test_ctrl_c_leaves_a_proposed_part_out_and_the_paste_goes_on() -> None:
    with Terminal(rows=60, columns=100) as terminal:
        terminal.press(f"\x1b[200~{NOTE}\x1b[201~")
        terminal.see_last("part 2 BA screws: 2, round 2 BA by 1/2 in; 2 BA screws 1/2 in lg")
        terminal.press("\x03")
        terminal.see("# The bars are 5/32 in")
        assert "# 2 off 2 BA screws 1/2 in lg" in "\n".join(terminal.glass.lines())
        assert not terminal.model.state.parts
        assert "  left out" in terminal.glass.lines()


@pytest.mark.parametrize(
    ("line", "offer"),
    [
        ("prat front: 1 of oak, 2 in by 3 in", "part front: 1 of oak, 2 in by 3 in"),
        ("2 off 2 BA screws 1/2 in lg", "part 2 BA screws: 2, round 2 BA by 1/2 in; 2 BA screws 1/2 in lg"),
    ],
)
def test_a_part_is_offered_for_a_slip_of_its_word_and_for_a_count_of_things(line: str, offer: str) -> None:
    model = PromptModel()
    assert reading(model, line).offer == offer
    model.enter(offer)
    assert model.state.parts


@pytest.mark.parametrize("line", ["the latch binds at first", "the lower bank was waxed"])
def test_a_sentence_is_offered_as_a_note(line: str) -> None:
    model = PromptModel()
    assert reading(model, line).offer == f"# {line}"
    model.enter(f"# {line}")
    assert model.state.rows.texts == (f"# {line}",)


@pytest.mark.parametrize(
    "line", ["devide wide int five", "2 in + foo", "half the rest", "divide wide int five of them"]
)
def test_a_line_with_a_slip_in_it_is_offered_as_no_note(line: str) -> None:
    assert not reading(PromptModel(), line).offer.startswith("#")


def test_a_size_that_is_as_it_was_is_not_told_to_have_moved() -> None:
    out = io.StringIO()
    replies = Replies(PromptModel(), LineStore(None), out)
    for line in ("pin reads 4.75 mm by caliper", "pin reads 4.75 mm, 4.8 mm by caliper", "undo"):
        replies.line(line, 80)
    assert "taken back: pin reads 4.75 mm, 4.8 mm by caliper\n\n" in out.getvalue()


def test_two_sides_are_an_area_or_a_piece() -> None:
    offered = reading(PromptModel(), "2 in x 3 in")
    assert offered.offer == "2 in * 3 in"
    assert offered.words == "2 in * 3 in for the area; or write part piece: 1, 2 in by 3 in for a piece"
    assert reading(PromptModel(), "part piece: 1, 2 in by 3 in").kind == "part"


@pytest.mark.parametrize("word", [row.word for row in LINE_WORDS])
def test_every_kind_of_line_has_help_and_an_example_that_a_sheet_takes(word: str) -> None:
    row = next(row for row in LINE_WORDS if row.word == word)
    said = "\n".join(run(PromptModel(), "help", word, 100))
    assert row.example in said
    assert all(form in said for form in row.forms)
    frame = "part label frame: 1 of brass, 2 in by 1 in"
    assert not Sheet(f"{frame}\n{row.example}\n").run().faults
    model = PromptModel()
    model.enter(frame)
    assert reading(model, row.example).kind not in ("fault", "open", "offer")


def test_what_is_piped_goes_on_from_the_last_size_and_says_so(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    typed = "2 in / 5\n+ 2 thou\nin mm\nas 32nds\n/ 2\n-1/64 in\n/ 2 x\n"
    monkeypatch.setattr("sys.stdin", io.TextIOWrapper(io.BytesIO(typed.encode())))
    assert main([]) == 1
    told = capsys.readouterr()
    for line in ("ans + 2 thou", "ans as mm", "ans as 32nds", "ans / 2"):
        assert f"note: this goes on from the last size: {line}\n" in told.out + "\n"
    assert "-1/64 in" in told.out
    assert told.out.count("goes on") == 4
    assert "line 7: " in told.err


def test_a_line_that_goes_on_is_kept_as_what_it_means() -> None:
    out = io.StringIO()
    replies = Replies(PromptModel(), LineStore(None), out)
    for line in ("2 in / 5", "/ 2", "+ 2 thou"):
        replies.line(line, 80)
    assert replies.model.state.rows.texts == ("2 in / 5", "ans / 2", "ans + 2 thou")
    assert "\n  ans + 2 thou\n" in out.getvalue()


def test_enter_alone_takes_what_the_plain_prompt_offers(monkeypatch: pytest.MonkeyPatch) -> None:
    out = io.StringIO()
    replies = Replies(PromptModel(), LineStore(None), out)
    typed = iter(["prat f: 2 of oak, 1 in by 2 in", "", "2 in x 3 in", "4 in", "", "quit"])
    monkeypatch.setattr("builtins.input", lambda sign: next(typed))
    assert run_plain(replies) == 0
    assert "Enter alone takes part f: 2 of oak, 1 in by 2 in" in out.getvalue()
    assert replies.model.state.rows.texts == ("part f: 2 of oak, 1 in by 2 in", "4 in")


def test_a_statement_with_a_slip_in_it_is_not_hidden_among_notes() -> None:
    lines = ["wide = 51.5 mm", "bay = wied / 5", "divide wide int 5", "half the rest of it", "exit"]
    sorted_out = sorted_lines(lines, PromptModel().session)
    assert sorted_out == [*lines[:3], "# half the rest of it", "exit"]


@pytest.mark.parametrize(
    "line",
    [
        "brass strip 9/32 x 1/16", "Strip: 9/32 x 1/16 brass", 'Strip 9/32" wide x 1/16" thick', "finish: shellac", "Brass",
        "see p. 12", "drawn 3 May 1911", "scale 1:2", "check the slot against the old one", "mark from the left",
        "divide evenly", "depth 10.5mm", "holes at 1/2, 1 1/2, 2 1/2 in", "open end towards the wall", "save the offcuts",
        "drop handle, brass", "print label", "show face planed", "clear varnish", "rename the drawers in ink",
    ],
)  # fmt: skip
def test_a_remark_of_a_pasted_note_is_a_note_whatever_word_it_begins_with(line: str) -> None:
    assert sorted_lines([line, "wide = 2 in"], PromptModel().session) == [f"# {line}", "wide = 2 in"]


@pytest.mark.parametrize("line", ["show wide", "drop 1", "open trays.shop", "readings in mm", "sheet"])
def test_a_word_of_the_prompt_in_a_paste_is_one_where_it_can_be_meant(line: str) -> None:
    session = PromptModel().session
    session.remember(session.answer("wide = 2 in"))  # type: ignore[arg-type]
    assert sorted_lines([line, "2 in"], session) == [line, "2 in"]


def test_the_sign_before_an_item_of_a_pasted_list_is_left_out() -> None:
    lines = ["1. bore 1/4 in", "- hinge 3/4 in", "* pin = 1/8 in"]
    assert sorted_lines(lines, PromptModel().session) == ["bore 1/4 in", "hinge 3/4 in", "pin = 1/8 in"]


def test_no_two_proposed_parts_have_one_name_nor_that_of_a_part_that_is_there() -> None:
    """A part line of the same name would take the place of the other."""
    lines = [
        "2 off knobs 5/8 in",
        "3 off knobs 3/4 in",
        "4 off 2 BA screws 1/2 in",
        "6 off 2 BA screws 3/8 in",
    ]
    parts = [
        line
        for line in sorted_lines(lines, PromptModel().session, ["Knobs"])
        if isinstance(line, ProposedPart)
    ]
    names = [line.partition(":")[0] for line in parts]
    assert names == ["part knobs 2", "part knobs 3", "part 2 BA screws", "part 2 BA screws 2"]


def test_a_screw_of_a_pasted_note_is_bought_by_its_name() -> None:
    """A wood screw of a number is of two sizes, and the sheet says so."""
    lines = ["2 off 2 BA screws 1/2 in lg", "4 off No 6 wood screws 3/4 in"]
    parts = [line for line in sorted_lines(lines, PromptModel().session) if isinstance(line, ProposedPart)]
    sheet = Sheet("\n".join(parts)).run()
    assert [part.count for part in sheet.parts.values()] == [2, 4]
    bought = sheet.to_text().partition("What to buy")[2]
    assert "2 BA (" in bought
    assert "No 6 wood screw" in bought
    assert "* as said beneath Parts to make: No 6 wood screws" in bought
    assert "No 6 wood screws (line 2) may be another size" in " ".join(sheet.to_text().split())


@pytest.mark.parametrize("line", ["Strip: 9/32 x 1/16 brass", "brass strip 9/32 x 1/16", "finish: shellac"])
def test_a_remark_that_no_ending_mends_is_offered_as_a_note(line: str) -> None:
    """`finish: shellac 2 in` would be a size: it is offered all the same, when Enter asks for it."""
    assert PromptModel().settled(line).offer == f"# {line}"


@pytest.mark.parametrize("line", ["1/4 in x 3 in", "12 x 13/32 in", "2 in x 3 mm"])
def test_no_beginning_of_two_sides_is_a_fault(line: str) -> None:
    model = PromptModel()
    assert {model.settled(line[:n]).kind for n in range(1, len(line) + 1)} <= {"size", "open", "offer"}


def test_behind_a_size_and_x_the_other_side_or_a_pitch_is_to_follow() -> None:
    assert reading(PromptModel(), "1/4 in x").words.endswith("the other side or a pitch is to follow")


@pytest.mark.parametrize(
    "line",
    [
        "2 off 2 BA screws 1/2 in lg",
        "24 off brass runners 1/16 in by 1/4 in by 11 in",
        "4 pcs plywood 1/8 in thick",
    ],
)
def test_a_proposed_part_line_is_taken_by_a_sheet(line: str) -> None:
    part = part_line(line)
    sheet = Sheet(f"{part}\n").run()
    assert sheet.faults == ()
    (made,) = sheet.parts.values()
    assert made.count == int(line.split()[0])


def test_what_is_no_count_of_things_is_no_part() -> None:
    for line in ("2 in", "2 x 3 in", "12 trays", "3 off", "2 off 1/2 under 3/8"):
        assert part_line(line) == ""


@pytest.mark.parametrize(
    ("typed", "meant"),
    [("shet", "sheet"), ("renmae a b", "rename a b"), ("redings in mm by caliper", "readings in mm by caliper"),
     ("dorp 3", "drop 3"), ("prnit frame.html", "print frame.html")],
)  # fmt: skip
def test_a_word_of_the_prompt_with_a_slip_in_it_is_found(typed: str, meant: str) -> None:
    assert PromptModel().settled(typed).offer == meant


@pytest.mark.parametrize("word", sorted(WORDS))
def test_no_beginning_of_a_word_of_the_prompt_is_taken_for_another(word: str) -> None:
    model = PromptModel()
    assert {model.settled(word[:n]).offer for n in range(1, len(word) + 1)} == {""}


@pytest.mark.parametrize(
    ("line", "offer"),
    [
        ("what is 10 mm", "10 mm"),
        ("is length 7 in", "check length = 7 in"),
        # Not the statement that is meant as it stands: an error allowed that nobody typed, and one check of two.
        ("check length about 7 in", ""),
        ("check length between 6 in and 8 in", ""),
        ("recover 38 mm metric", ""),
        ("1 and 3/8", ""),
        ("this is 10 mm", "# this is 10 mm"),
    ],
)  # fmt: skip
def test_what_is_not_wholly_the_makers_is_told_and_not_put_in_place(line: str, offer: str) -> None:
    model = PromptModel()
    model.enter("length = 7 in")
    made = reading(model, line)
    assert (made.offer if made.kind == "offer" else "") == offer
