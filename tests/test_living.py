"""A sheet being written: names set again, what that moves, lines dropped, renamed, undone, and `ans` tied."""

from __future__ import annotations

import pytest

from fractions_shop.errors import InputError, ShopError
from fractions_shop.sheet.living import Edit, LivingSheet
from fractions_shop.sheet.moved import MovedLines
from fractions_shop.sheet.rows import Rows
from fractions_shop.show.moved_words import moved_text, was_text
from fractions_shop.show.sheet import Sheet
from fractions_shop.size.rule import Rule


def living(*lines: str, rule: str = "64ths", start: bytes = b"") -> LivingSheet:
    sheet = LivingSheet(Sheet.from_text(""), Rows.of(start), Rule(rule))
    for line in lines:
        entered(sheet, line)
    return sheet


def entered(sheet: LivingSheet, line: str) -> Edit:
    edit = sheet.enter(line)
    assert edit is not None
    return edit


def rows(sheet: LivingSheet) -> list[str]:
    return list(sheet.state.rows.texts)


def told(moved: MovedLines) -> dict[str, list[int]]:
    return {
        kind: [pair.new.line.number for pair in getattr(moved, kind)]
        for kind in moved.__slots__
        if getattr(moved, kind)
    }


BAYS = (
    "notch = 13/32 in",
    "n = 12 in / notch",
    "notch * 2",
    "check n = 29 7/13",
    "part slip: 2 of oak, notch by 1 in",
)


# Names live


def test_a_name_set_again_changes_all_that_rests_on_it_and_tells_of_it():
    sheet = living(*BAYS)
    edit = entered(sheet, "notch = 7/16 in")
    assert (edit.kind, edit.line, edit.was) == ("replaced", 0, 0)
    assert told(edit.moved) == {"sizes": [2], "checks": [4], "parts": [5], "answers": [3]}
    (n,) = edit.moved.sizes
    assert (n.old.value, n.new.value) == (12 / living("13/32").state.sheet.worked[0].value, 192 / living("7").state.sheet.worked[0].value)  # fmt: skip  # type: ignore[operator, union-attr]
    assert rows(sheet) == ["notch = 7/16 in", *BAYS[1:]]


def test_only_what_rests_on_a_change_is_worked_out_anew():
    sheet = living(*BAYS, "other = 3 in", "check other = 3 in")
    before = sheet.state.sheet.worked
    entered(sheet, "notch = 7/16 in")
    after = sheet.state.sheet.worked
    assert [n for n in range(len(before)) if before[n].answer is not after[n].answer or before[n].part is not after[n].part] == [0, 1, 2, 3, 4]  # fmt: skip


def test_a_size_that_comes_out_the_same_moves_nothing_further():
    sheet = living("a = 2 in", "b = max(a, 3 in)", "c = b * 2")
    before = sheet.state.sheet.worked[2]
    edit = entered(sheet, "a = 1 in")
    assert not edit.moved
    assert sheet.state.sheet.worked[2] is before


def test_a_line_that_others_no_longer_bear_with_is_told():
    sheet = living("a = 2 in", "b = a + 1 in")
    edit = entered(sheet, "a = 2")
    assert told(edit.moved) == {"stopped": [2]}
    assert told(entered(sheet, "a = 5 in").moved) == {"mended": [2]}


def test_a_reading_more_moves_the_others_that_it_is_weighed_with():
    sheet = living("bay reads 10.31 mm, 10.35 mm", "wide = bay * 5")
    edit = entered(sheet, "rack reads 51.9 mm")
    assert edit.kind == "added"
    fresh = Sheet.from_text(sheet.state.rows.text)
    assert sheet.state.sheet.sizes == fresh.sizes


def test_the_comment_stays_behind_a_size_set_again():
    sheet = living("a = 2 in   # over the moulding", "b = 1 in")
    entered(sheet, "a = 3 in")
    assert rows(sheet)[0] == "a = 3 in   # over the moulding"
    entered(sheet, "a = 4 in # anew")
    assert rows(sheet)[0] == "a = 4 in # anew"


def test_a_part_set_again_takes_the_place_of_the_old():
    sheet = living("part Rail: 2 of oak, 1 in", "a = 1 in")
    assert entered(sheet, "part rail: 3 of oak, a").kind == "replaced"
    assert rows(sheet) == ["part rail: 3 of oak, a", "a = 1 in"]


def test_under_another_rule_a_line_set_again_moves_to_the_end():
    sheet = living("a = 2 in", "b = a", "rule mm", "c = 1 in")
    edit = entered(sheet, "a = 3 in")
    assert (edit.kind, edit.line, edit.was) == ("moved", 3, 0)
    assert rows(sheet) == ["b = a", "rule mm", "c = 1 in", "a = 3 in"]
    assert told(edit.moved) == {"sizes": [1]}


def test_a_row_that_sets_several_names_is_set_again_whole():
    sheet = living("a, b = recover 10.3 mm, 51.6 mm", "c = a + b", "b2 = 1 in")
    with pytest.raises(InputError) as caught:
        sheet.enter("b = 2 in")
    assert caught.value.message == "line 1 sets b together with a"
    edit = entered(sheet, "a, b = recover 10.4 mm, 51.6 mm within 0.1 mm")
    assert (edit.kind, rows(sheet)[0]) == ("replaced", "a, b = recover 10.4 mm, 51.6 mm within 0.1 mm")
    assert sheet.state.homes == {"a": 0, "b": 1, "c": 2, "b2": 3}
    entered(sheet, "a, b, b2 = recover 10.4 mm, 51.6 mm, 25.4 mm")
    assert rows(sheet) == ["a, b, b2 = recover 10.4 mm, 51.6 mm, 25.4 mm", "c = a + b"]
    sheet.rename("b", "wide")
    assert rows(sheet) == ["a, wide, b2 = recover 10.4 mm, 51.6 mm, 25.4 mm", "c = a + wide"]
    assert told(sheet.drop("wide").moved) == {"stopped": [1]}


def test_ans_in_a_row_that_sets_several_names_stands_for_the_size_above_it():
    sheet = Sheet.from_text("50.8 mm\na, b = recover ans, 25.4 mm within 0.1 mm\nans * 2\n")
    assert not sheet.faults
    assert sheet.draws == ({}, {"ans": 0}, {"ans": 0}, {"ans": 2})


# What is refused

REFUSED = [
    pytest.param(("a = 2 in",), "a = a + 1 in", "a would rest on itself; it stands as a = 2 in (line 1)", "write a = 2 in + 1 in", id="itself"),
    pytest.param(("a = 2 in - 1 mm",), "a = 2 * a # x", "a would rest on itself; it stands as a = 2 in - 1 mm (line 1)", "write a = 2 * (2 in - 1 mm)", id="brackets"),
    pytest.param(("a = 2 in",), "a = ans / 3", "a would rest on itself; it stands as a = 2 in (line 1)", "write a = 2 in / 3", id="by-ans"),
    pytest.param(("a = divide 2 in into 5 up",), "a = a * 2", "a would rest on itself; it stands as a = divide 2 in into 5 up (line 1)", "give the new size a name of its own, such as a_2 = a * 2", id="request"),
    pytest.param(("a = 2 in", "b = a * 2"), "a = b", "a depends on itself: a (line 1) needs b (line 2), which needs a", "set one of them without the others", id="ring"),
]  # fmt: skip


@pytest.mark.parametrize(("lines", "line", "message", "advice"), REFUSED)
def test_a_name_never_rests_on_itself(lines: tuple[str, ...], line: str, message: str, advice: str):
    sheet = living(*lines)
    with pytest.raises(InputError) as caught:
        sheet.enter(line)
    assert (caught.value.message, caught.value.advice) == (message, advice)
    assert rows(sheet) == list(lines)
    if advice.startswith("write "):
        entered(sheet, advice.removeprefix("write "))


def test_a_fault_leaves_the_sheet_as_it_was():
    sheet = living("a = 2 in")
    before = sheet.state
    with pytest.raises(InputError):
        sheet.enter("a = 2 in +")
    assert sheet.state is before


def test_a_line_that_would_wait_is_refused():
    sheet = living(start=b"a = 2 in +\n")
    with pytest.raises(InputError, match="a has no size, because line 1 is not worked out"):
        sheet.enter("b = a * 2")


# ans


def test_ans_goes_on_meaning_the_line_that_it_was_typed_about():
    sheet = living("a = 2 in", "b = 3 in", "a = 4 in")
    entered(sheet, "c = ans * 2")
    assert rows(sheet)[-1] == "c = a * 2"


def test_a_line_without_a_name_gets_one_where_ans_could_not_mean_it_otherwise():
    sheet = living("2 in", "mark 2 in into 5")
    edit = entered(sheet, "ans * 3")
    assert edit.called == ("size_1",)
    assert rows(sheet) == ["size_1 = 2 in", "mark 2 in into 5", "size_1 * 3"]


def test_a_fault_is_placed_in_the_line_as_it_was_typed():
    sheet = living("total_length = 2 in", "mark 2 in into 5")
    with pytest.raises(InputError) as caught:
        sheet.enter("ans + ans + 3")
    assert (caught.value.text, caught.value.start, caught.value.end) == ("ans + ans + 3", 12, 13)


def test_ans_of_an_opened_sheet_is_tied_to_its_line_when_lines_move():
    sheet = living(start=b"a = 2 in\nans * 2\nrule mm\n")
    entered(sheet, "a = 3 in")
    assert rows(sheet) == ["a * 2", "rule mm", "a = 3 in"]


def test_a_line_that_ans_stands_for_is_not_dropped():
    sheet = living("2 in", "ans * 2")
    with pytest.raises(ShopError, match="ans on line 2 stands for the size of line 1; drop line 2 first"):
        sheet.drop("1")


# drop, rename, undo


def test_a_line_is_dropped_by_name_number_or_part_and_the_rest_is_told():
    sheet = living(*BAYS)
    assert told(sheet.drop("n").moved) == {"stopped": [3]}
    sheet.drop("slip")
    sheet.drop("line 3")
    assert rows(sheet) == ["notch = 13/32 in", "notch * 2"]
    for word in ("9", "zz", ""):
        with pytest.raises(ShopError):
            sheet.drop(word)


def test_a_note_or_a_name_that_nothing_rests_on_is_dropped_and_nothing_moves():
    """Stock among them, whose pieces stand on other lines then."""
    sheet = living(
        "# a note", "spare = 3 in", "pin = 1/8 in", "part arm: 2 of brass, 7 in by 9/32 in by 1/16 in",
        "hole in arm: pin at 1 in by 9/64 in", "wall in arm: 1/32 in", "check pin = 1/8 in", "mark 2 in into 5",
        "stock brass: 1/16 in by 9/32 in, 36 in long, saw 1/32 in", "part lid: 1 of oak, 2 in by 3 in",
    )  # fmt: skip
    for what in ("1", "spare", "part lid"):
        assert not sheet.drop(what).moved


def test_a_stock_that_is_cut_otherwise_says_what_it_was():
    sheet = living(
        "part arm: 2 of brass, 7 in by 9/32 in by 1/16 in", "stock brass: 1/16 in by 9/32 in, 36 in long, saw 1/32 in"
    )  # fmt: skip
    edit = entered(sheet, "part arm: 2 of brass, 7 in by 5/16 in by 1/16 in")
    assert moved_text(edit) == (
        "stock on line 2: no part of the sheet has this material and section (it was: 1 bar, no fewer will do)"
    )


def test_a_name_is_changed_wherever_it_stands_and_nowhere_else():
    sheet = living(
        "## The [bay] and the bays", "bay = 2 in # bay as found, [ bay ]", "bayonet = bay * 2 + bay",
        "# bay stays, [bay] goes", "part bay: 2 of oak, bay by 1 in; [bay] long", "check bay = 2 in",
    )  # fmt: skip
    sheet.rename("bay", "edit")
    assert rows(sheet) == [
        "## The [edit] and the bays", "edit = 2 in # bay as found, [ edit ]", "bayonet = edit * 2 + edit",
        "# bay stays, [edit] goes", "part bay: 2 of oak, edit by 1 in; [edit] long", "check edit = 2 in",
    ]  # fmt: skip


@pytest.mark.parametrize("new", ["b", "2x", "mm", "ans", "in", "M3", "a b", ""])
def test_a_name_that_cannot_be_one_is_refused(new: str):
    sheet = living("a = 2 in", "b = 3 in", "c = 3 * a")
    with pytest.raises(ShopError):
        sheet.rename("a", new)
    assert rows(sheet) == ["a = 2 in", "b = 3 in", "c = 3 * a"]


def test_undo_and_redo_go_through_every_state():
    sheet = living()
    states = [sheet.state]
    for line in ("a = 2 in", "# a note", "a = 3 in", "b = a"):
        entered(sheet, line)
        states.append(sheet.state)
    sheet.drop("a")
    sheet.undo()
    for state in reversed(states):
        assert sheet.state is state
        sheet.undo()
    assert sheet.undo() is None
    for state in states[1:]:
        sheet.redo()
        assert sheet.state is state
    entered(sheet, "c = 1 in")
    assert sheet.redo() is None


def test_the_rule_begun_with_stands_before_the_first_line_that_it_matters_to():
    sheet = living("## Tray", "# a note", "a = 2 in", "b = 3 in", rule="32nds")
    assert rows(sheet) == ["## Tray", "# a note", "rule 32nds", "a = 2 in", "b = 3 in"]
    assert rows(living("rule mm", "a = 2 in", rule="32nds")) == ["rule mm", "a = 2 in"]
    assert rows(living("a = 2 in")) == ["a = 2 in"]


def test_a_name_of_the_sheet_is_never_taken_for_a_thread():
    """Where R1 is a size, `R1/4` was read as a pipe thread in a sheet, though not at the prompt."""
    sheet = Sheet.from_text("R1 = 2 in\nx = R1/4\n")
    (fault,) = sheet.faults
    assert fault.message == "R1/4 is the thread, and R1 is a size named here"
    assert fault.advice == "write R1 / 4 for the size, or R 1/4 with a blank for the thread"


def test_what_moved_is_told_in_the_units_of_its_place():
    sheet = living("w = 50.8 mm", "h = w * 2", "units mm first", "d = w / 2")
    edit = entered(sheet, "w = 3 in")
    assert was_text(edit) == "w was 2 in until now"
    assert moved_text(edit) == "h: 4 in to 6 in; d: 25.4 mm to 38.1 mm"


def test_a_part_is_renamed_where_it_is_made_and_where_it_is_cut_in():
    sheet = living(
        "bay = 2 in", "part Back  Rail : 2 of oak, bay by 1 in by 1/4 in; the back rail # back rail",
        "hole in back rail: 3 mm at 1/2 in by 1/2 in", "corner in Back Rail: 1/8 in", "part bay: 1 of oak, bay by 1 in",
    )  # fmt: skip
    sheet.rename("back rail", "front lip")
    assert rows(sheet) == [
        "bay = 2 in", "part front lip : 2 of oak, bay by 1 in by 1/4 in; the back rail # back rail",
        "hole in front lip: 3 mm at 1/2 in by 1/2 in", "corner in front lip: 1/8 in", "part bay: 1 of oak, bay by 1 in",
    ]  # fmt: skip
    sheet.rename("part bay", "tray")
    assert rows(sheet)[-1] == "part tray: 1 of oak, bay by 1 in"
    sheet.undo()
    for new in ("bay", "a: b", "", "# x"):
        before = rows(sheet)
        with pytest.raises(ShopError):
            sheet.rename("front lip", new)
        assert rows(sheet) == before


def test_a_name_in_a_line_that_cannot_be_read_is_not_renamed_elsewhere_alone():
    sheet = living(start=b"a = 2 in\nb = a /\nc = a * 2\n")
    with pytest.raises(ShopError, match="line 2 cannot be read, and says a: set it right first, or drop it"):
        sheet.rename("a", "tray")
    assert rows(sheet) == ["a = 2 in", "b = a /", "c = a * 2"]
    sheet.rename("c", "tray")  # the line at fault says nothing of it
    assert rows(sheet) == ["a = 2 in", "b = a /", "tray = a * 2"]


@pytest.mark.parametrize(
    "line", ["hole in rail 1/8 in at 1/4 in by 1/4 in", "corner in  Rail 1/8 in", "part rail 2 of oak"]
)
def test_a_part_in_a_line_that_cannot_be_read_is_not_renamed_elsewhere_alone(line):
    """A line without its colon kept the old name, silently."""
    start = (
        f"part rail: 1 of oak, 2 in by 1 in by 1/4 in\n{line}\npart lip: 1 of oak, 1 in by 1 in by 1/4 in\n"
    )
    sheet = living(start=start.encode())
    with pytest.raises(
        ShopError, match="line 2 cannot be read, and says rail: set it right first, or drop it"
    ):
        sheet.rename("rail", "front rail")
    assert "\n".join(rows(sheet)) + "\n" == start
    sheet.rename("lip", "edge")  # of which the line at fault says nothing
    assert rows(sheet)[2] == "part edge: 1 of oak, 1 in by 1 in by 1/4 in"


def test_a_size_without_a_name_is_called_by_the_first_number_that_is_free():
    sheet = living("size_1 = 5 in", "2 in", "mark 2 in into 5", "ans * 3")
    assert rows(sheet) == ["size_1 = 5 in", "size_2 = 2 in", "mark 2 in into 5", "size_2 * 3"]


@pytest.mark.parametrize(
    ("line", "place"), [("ans / 0 in", (6, 10)), ("1 in + ans + 3", (13, 14)), ("ans * nothing", (6, 13))]
)
def test_a_fault_in_a_line_tied_to_the_last_size_stands_where_it_was_typed(line, place):
    sheet = living("2 in", "mark 2 in into 5")
    with pytest.raises(InputError) as refused:
        sheet.enter(line)
    assert (refused.value.text, refused.value.start, refused.value.end) == (line, *place)
