"""Laws of a living sheet: whatever was entered, dropped, renamed and undone, it is what its text says."""

from __future__ import annotations

from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from fractions_shop.errors import ShopError
from fractions_shop.sheet.last_size import sources
from fractions_shop.sheet.living import LivingSheet
from fractions_shop.sheet.rows import Rows
from fractions_shop.sheet.solve import Worked
from fractions_shop.show.sheet import Sheet

NAMES = st.sampled_from(["a", "b", "c", "d"])


@st.composite
def lines(draw: st.DrawFn) -> str:
    name, one, two = draw(NAMES), draw(NAMES | st.just("ans")), draw(NAMES)
    k = draw(st.integers(1, 7))
    return draw(st.sampled_from([
        f"{name} = {k} in", f"{name} = {k}/64 in ± 2 thou", f"{name} = {one} + {k} mm", f"{name} = {one} - {two}",
        f"{name} = snap {one} * 1.1 to 32nds", f"{name} = max({one}, {k} in)", f"{one} * {k}", f"{k} in",
        f"check {one} = {two} within {k} mm", f"part p{k % 2}: {k} of oak, {one} by {two}", f"mark {one} into {k}",
        "rule mm", "rule 64ths", "# of [a] and b", "## Title", f"{name} = divide {one} into {k} up",
        f"{name} = {k} in # fitted", f"{name} reads {k * 10}.3 mm", f"{name} = M3", "R1 = 2 in", f"{one} + R1/4",
        f"hole in p{k % 2}: {one} at {k}/4 in by {two}", f"hole in p{k % 2}: {k}/8 in at spots from {one}, {k}/16 in sunk {two}",
        f"slot in p{k % 2}: {one} by {k}/8 in at 1 in by 1 in turned {k * 15} deg", f"corner in p{k % 2}: {k}/16 in",
        f"wall in p{k % 2}: {k}/32 in", f"spots = places {one}, {k} in", f"spots = places {k}/2 in by {one}, {two} by 1 in",
        f"{name} = No {k + 40} drill", f"{name} = tapping({k} BA)", f"part p{k % 2}: {k} of oak, 8 in by 6 in by {k}/2 in",
        f"{name}, {two}2 = recover {k}.1 mm, {one}",
    ]))  # fmt: skip


EDITS = st.one_of(
    lines(), lines(), lines(), lines(),
    NAMES.map(lambda name: ("drop", name)), st.integers(1, 9).map(lambda n: ("drop", str(n))),
    st.tuples(st.just("rename"), NAMES, NAMES | st.just("x")), st.just(("undo",)), st.just(("redo",)),
)  # fmt: skip


def done(sheet: LivingSheet, edit: Any) -> None:
    try:
        if isinstance(edit, str):
            sheet.enter(edit)
        else:
            getattr(sheet, edit[0])(*edit[1:])
    except ShopError:
        pass


def told(item: Worked) -> Any:
    answer = None if item.answer is None else (item.answer.text(), item.answer.name, item.answer.used)
    return (
        item.line.number,
        item.line.text,
        item.state,
        str(item.fault),
        item.waits,
        item.rule,
        item.part,
        item.feature,
        [note.text for note in item.notes],
        answer,
    )


@given(st.lists(lines(), max_size=6), st.lists(EDITS, max_size=12))
def test_a_sheet_edited_at_random_is_what_its_text_worked_out_afresh_says(
    start: list[str], edits: list[Any]
) -> None:
    sheet = LivingSheet(Sheet.from_text(""), Rows.of("\n".join(start).encode()))
    for edit in edits:
        done(sheet, edit)
    living, fresh = sheet.state.sheet, Sheet.from_text(sheet.state.rows.text)
    assert [told(item) for item in living.worked] == [told(item) for item in fresh.worked]
    assert living.doubts == fresh.doubts
    assert living.verdict == fresh.verdict


@given(st.lists(lines(), max_size=6), st.lists(EDITS, min_size=1, max_size=8))
def test_undo_gives_back_every_byte_and_redo_takes_it_again(start: list[str], edits: list[Any]) -> None:
    sheet = LivingSheet(Sheet.from_text(""), Rows.of("\r\n".join(start).encode()))
    first = sheet.state.rows.data()
    for edit in edits:
        done(sheet, edit)
    while sheet.redo() is not None:
        pass
    last = sheet.state.rows.data()
    count = 0
    while sheet.undo() is not None:
        count += 1
    assert sheet.state.rows.data() == first == "\r\n".join(start).encode()
    for _ in range(count):
        sheet.redo()
    assert sheet.state.rows.data() == last


@given(st.lists(lines(), max_size=8), lines())
def test_a_line_entered_alters_no_size_that_an_earlier_ans_stands_for(start: list[str], line: str) -> None:
    sheet = LivingSheet(Sheet.from_text(""), Rows.of("\n".join(start).encode()))
    before = sheet.state
    try:
        edit = sheet.enter(line)
    except ShopError:
        return
    assert edit is not None
    after = sources(edit.after.lines)
    for n, source in sources(before.lines).items():
        m = edit.where[n]
        if m is None or m == edit.line or source is None or edit.where[source] is None:
            continue
        by_name = before.lines[source].sets or (edit.after.lines[edit.where[source]].sets)
        assert after.get(m, edit.where[source]) == edit.where[source]
        assert m in after or by_name in edit.after.lines[m].uses
