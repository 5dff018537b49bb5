"""Words about the sheet at the prompt: sheet, names, show, more, why, drop, rename, undo, redo. Each gives lines to show."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from fractions_shop.errors import ShopError
from fractions_shop.figures.plain import folded, laid_out
from fractions_shop.figures.size_words import size_line, taken_as
from fractions_shop.figures.wording import so_many
from fractions_shop.prompt.answer_rows import note_rows
from fractions_shop.prompt.lines import fault_lines
from fractions_shop.prompt.model import PromptModel
from fractions_shop.prompt.own_words import Refused
from fractions_shop.requests import READS
from fractions_shop.sheet.doubts import moved_total
from fractions_shop.sheet.last_size import LAST
from fractions_shop.sheet.session import Session
from fractions_shop.sheet.solve import Worked
from fractions_shop.sheet.states import Edit, State
from fractions_shop.show.doubt_marks import RESTS_ON_BELIEF, RESTS_ON_MOVED, believed_text, moved_text
from fractions_shop.show.feature_table import cut_words, feature_text
from fractions_shop.show.moved_words import moved_text as what_moved
from fractions_shop.show.moved_words import part_text, short_text
from fractions_shop.show.stock_table import stock_in_short, stock_lines
from fractions_shop.show.verdict import verdict_text
from fractions_shop.size.notation import places_shown, told_in

#: A sum of so many names is followed back; what it rests on beyond is counted.
_MOST_LINES = 40
_INDENT = "  "
#: A result of the sheet that is longer stands beneath its line.
_WIDEST = 16
#: What stands behind a result of the sheet that may not be the size meant.
_MARK = "*"
_MARKED = "may be another size, or rests on one that may; names and show say why"


def sheet(model: PromptModel, rest: str, width: int) -> Iterator[str]:
    """Every line with its number and, shortly, what came of it: before the line, or beneath it where that is long."""
    _nothing_after("sheet", rest)
    state = model.state
    if not state.lines:
        yield "the sheet is empty: whatever is entered here is a line of it"
        return
    results = {n: _marked(state, n) for n, worked in enumerate(state.sheet.worked) if not worked.line.also}
    most = min(_WIDEST, width // 3)
    column = max((len(result) for result in results.values() if len(result) <= most), default=0)
    digits = len(str(len(state.rows.rows)))
    indent = digits + 2 + (column + 2 if column else 0)
    for n, result in results.items():
        line, beside = state.lines[n], result if len(result) <= column else ""
        front = f"{line.number:>{digits}}  {beside:{column}}".rstrip().ljust(indent)
        first, *others = _folded(line.text.strip(), max(12, width - indent), 2)
        yield f"{front}{first}".rstrip()
        beneath = [] if beside else folded(result, max(12, width - indent - 2))
        yield from (f"{' ' * indent}{row}" for row in (*others, *(f"  {row}" for row in beneath if row)))
    name = model.file.name or "no file yet"
    unsaved = "; not saved" if model.file.unsaved else ""
    yield from folded(f"{name}{unsaved}: {verdict_text(state.sheet.verdict)}", width)
    if any(_may_differ(state, n) for n in range(len(state.lines))):
        yield from folded(f"{_MARK} {_MARKED}", width)


def names(model: PromptModel, rest: str, width: int) -> Iterator[str]:
    """What is named, with the statement that set it and what rests on it."""
    _nothing_after("names", rest)
    state, session = model.state, model.session
    if not state.homes:
        yield "nothing is named yet; write pitch = 2 1/32 in / 5"
    token = places_shown.set(model.digits)
    try:
        with told_in(session.units):
            for name, n in state.homes.items():
                size = _sized(session, name) if name in session.known else f"= {_shortly(state, n)}"
                yield from folded(f"{name} {size}{_doubt(model, name, state.sheet.worked[n])}", width)
                line = state.lines[n]
                yield from _folded(
                    f"{_INDENT}line {line.number}: {line.statement}{_rests_on_it(state, n)}", width, 4
                )
            if "ans" in session.known:
                yield from folded(f"ans {_sized(session, LAST)}{_doubt(model, LAST)}", width)
    finally:
        places_shown.reset(token)


def show(model: PromptModel, rest: str, width: int) -> Iterator[str]:
    """The answer of a line, whole."""
    if not rest:
        raise Refused("show needs a line or a name; write show 8, or show pitch")
    state = model.state
    worked = state.sheet.worked[_found(model, rest)]
    line = worked.line
    yield from _folded(f"line {line.number}: {line.text.strip()}", width, 4)
    if worked.answer is not None:
        yield from worked.answer.text(width, model.digits).splitlines()
    elif worked.fault is not None:
        yield from fault_lines(worked.fault, width)
    elif worked.waits:
        yield from folded(_waits(worked), width)
    elif worked.feature is not None:
        yield from feature_text(worked.feature, width).splitlines()
    elif worked.part is not None:
        with told_in(worked.units):
            made = part_text(worked.part)
        yield from folded(made, width)
        yield from note_rows(worked, width)
    elif worked.stock is not None:
        with told_in(worked.units):
            rows = laid_out(stock_lines(worked.stock), width).splitlines()
        yield from rows
        yield from note_rows(worked, width)


def more(model: PromptModel, rest: str, width: int) -> Iterator[str]:
    """The next windowful of what was folded away."""
    _nothing_after("more", rest)
    if not model.folded and model.shortened is not None:
        number, model.shortened = model.shortened, None
        yield from show(model, str(number), width)
        return
    if not model.folded:
        raise Refused("there is no more of the last answer; show 8 or show pitch brings an earlier one")
    room = max(6, model.rows - 4)
    now, model.folded = model.folded[:room], model.folded[room:]
    yield from now
    if model.folded:
        yield f"{so_many(len(model.folded), 'line')} more: write more"


def why(model: PromptModel, rest: str, width: int) -> Iterator[str]:
    """Where a size comes from, down to what was read or given, and what rests on it."""
    if not rest:
        raise Refused("why needs a name or a line; write why pitch")
    state = model.state
    start = _found(model, rest)
    seen: set[int] = set()
    waiting = [(start, 0)]
    while waiting and len(seen) < _MOST_LINES:
        n, depth = waiting.pop()
        line = state.lines[n]
        result = _shortly(state, n)
        said = f"{line.statement}   line {line.number}" + (f": {result}" if result else "")
        indent = _INDENT * min(depth, 8)
        if n in seen:
            yield from _folded(
                f"{indent}{line.sets or f'line {line.number}'}, as above", width, len(indent) + 2
            )
            continue
        seen.add(n)
        yield from _folded(f"{indent}{said}{_weighed_with(state, n)}", width, len(indent) + 2)
        waiting += [
            (source, depth + 1) for source in sorted(set(state.sheet.draws[n].values()), reverse=True)
        ]
    if waiting:
        yield f"and {so_many(len(waiting), 'line')} more"
    resting = _named_lines(state, state.resting_on(start))
    called = state.lines[start].sets or f"line {state.lines[start].number}"
    yield from folded(f"on {called} rests {resting}" if resting else f"nothing rests on {called}", width)


def drop(model: PromptModel, rest: str, width: int) -> Iterator[str]:
    """Drop a line, and tell what that moved."""
    if not rest:
        raise Refused("drop needs a line or a name; write drop 8, or drop pitch")
    edit = _done(model, lambda: model.file.sheet.drop(rest))
    old = edit.replaced
    assert old is not None
    yield from _folded(f"dropped line {old.line.number}: {old.line.text.strip()}", width, 4)
    yield from _told_of(edit, width)


def rename(model: PromptModel, rest: str, width: int) -> Iterator[str]:
    """Give a name another one, wherever it stands."""
    old, new = _old_and_new(model, rest)
    if not new:
        raise Refused("rename needs the old name and the new one; write rename pitch step")
    edit = _done(model, lambda: model.file.sheet.rename(old, new))
    pairs = zip(edit.before.rows.texts, edit.after.rows.texts, strict=True)
    count = sum(before != after for before, after in pairs)
    yield f"{old} is {new} now, on {so_many(count, 'line')}"


def _old_and_new(model: PromptModel, rest: str) -> tuple[str, str]:
    """The two names of `rename pitch step`, `rename back rail to front rail`: the longest that there is first."""
    words = rest.split()
    sheet = model.file.sheet
    for n in range(len(words) - 1, 0, -1):
        old = " ".join(words[:n])
        if old in sheet.state.homes or sheet.part_named(old) is not None:
            behind = words[n:]
            return old, " ".join(behind[1:] if behind[0] == "to" and len(behind) > 1 else behind)
    old, _, new = rest.partition(" ")
    return old, new.strip().removeprefix("to ").strip()


def undo(model: PromptModel, rest: str, width: int) -> Iterator[str]:
    """Take the last change back."""
    _nothing_after("undo", rest)
    edit = _there(model, model.file.sheet.undo(), "take back")
    yield from folded(f"taken back: {_said(edit)}", width)
    back = edit.turned_back()
    if edit.kind in ("replaced", "moved") and back.worked is not None and back.worked.value is None:
        yield from folded(f"line {back.worked.line.number} is again: {back.worked.line.statement}", width)
    yield from _told_of(back, width)


def redo(model: PromptModel, rest: str, width: int) -> Iterator[str]:
    """Do again what was taken back last."""
    _nothing_after("redo", rest)
    edit = _there(model, model.file.sheet.redo(), "do again")
    yield from folded(f"done again: {_said(edit)}", width)
    yield from _told_of(edit, width)


def _there(model: PromptModel, edit: Edit | None, doing: str) -> Edit:
    """The change that was unmade or made again; Refused where there was none."""
    model.forget()
    if edit is None:
        raise Refused(f"there is nothing to {doing}")
    return edit


def _done(model: PromptModel, work: Callable[[], Edit]) -> Edit:
    try:
        edit = work()
    except ShopError as error:
        raise Refused(str(error)) from None
    model.forget()
    return edit


def _said(edit: Edit) -> str:
    """What a change was, in a few words."""
    old, new = edit.replaced, edit.worked
    if edit.kind == "dropped" and old is not None:
        return f"drop of line {old.line.number}, {old.line.text.strip()}"
    if edit.kind == "renamed" and old is not None and new is not None:
        return f"rename {old.line.called} to {new.line.called}"
    assert new is not None
    return new.line.text.strip()


def _told_of(edit: Edit, width: int) -> Iterator[str]:
    moved = what_moved(edit) if edit.kind != "renamed" else ""  # nothing is of another size
    if edit.kind in ("replaced", "moved") and edit.replaced is not None and edit.worked is not None:
        old, new = edit.replaced.value, edit.worked.value
        if old is not None and new is not None and old != new:
            yield from folded(
                f"{edit.worked.line.sets}: {short_text(old, edit.worked.units)} to {short_text(new, edit.worked.units)}",
                width,
            )
    if moved:
        yield from folded(moved, width)


def _found(model: PromptModel, rest: str) -> int:
    try:
        return model.file.sheet.find(rest)
    except ShopError as error:
        raise Refused(str(error)) from None


def _shortly(state: State, n: int) -> str:
    """What came of a line, in a few words."""
    worked = state.sheet.worked[n]
    if worked.fault is not None:
        return "at fault"
    if worked.waits:
        return _waits(worked)
    if worked.check is not None:
        return "holds" if worked.check.holds else "FAILS"
    if worked.part is not None:
        return so_many(worked.part.count, "piece")
    if worked.feature is not None:
        cut = worked.feature.cut
        return so_many(len(cut.at), worked.feature.word) if cut is not None else cut_words(worked.feature)
    with told_in(worked.units):
        if worked.stock is not None:
            return stock_in_short(worked.stock)
        if worked.answer is None:
            return ""
        if worked.answer.lacks_size and worked.line.sets:
            return f"no size yet; show {worked.line.number} tells why"
        each = worked.answer.named
        if len(each) > 1:
            return ", ".join(f"{name} {short_text(value, worked.units)}" for name, value in each.items())
        return short_text(worked.value, worked.units) if worked.value is not None else ""


def _marked(state: State, n: int) -> str:
    """The same with the sign that it may be another size."""
    result = _shortly(state, n)
    return f"{result} {_MARK}" if result and _may_differ(state, n) else result


def _may_differ(state: State, n: int) -> bool:
    doubts, line = state.sheet.doubts, state.lines[n]
    return line.number in doubts.marked and line.sets not in doubts.settled


def _waits(worked: Worked) -> str:
    return "waits for " + ", ".join(f"{wait.name} (line {wait.line})" for wait in worked.waits)


def _weighed_with(state: State, n: int) -> str:
    """The names that one that reads was weighed with."""
    worked = state.sheet.worked[n]
    if worked.answer is None or worked.answer.kind != READS:
        return ""
    others = [name for name in worked.answer.result.names if name != worked.line.sets]
    return f"; weighed with {', '.join(others)}" if others else ""


def _rests_on_it(state: State, n: int) -> str:
    resting = _named_lines(state, state.resting_on(n))
    return f"; on it rests {resting}" if resting else ""


def _named_lines(state: State, numbers: tuple[int, ...]) -> str:
    said = []
    for n in numbers[:_MOST_LINES]:
        line = state.lines[n]
        what = f"part {line.part_name}" if line.part_name else line.called
        kind = "the check on " if line.is_check else "the stock on " if line.kind == "stock" else ""
        said.append(what or f"{kind}line {line.number}")
    more_of_them = [f"{len(numbers) - _MOST_LINES} more"] if len(numbers) > _MOST_LINES else []
    said = [*dict.fromkeys(said), *more_of_them]
    return f"{', '.join(said[:-1])} and {said[-1]}" if len(said) > 1 else "".join(said)


def _sized(session: Session, name: str) -> str:
    """What a named size is; one that may be another is taken as it, and not exactly that."""
    value = session.known[name]
    return f"is taken as {taken_as(value)}" if name in session.doubtful else f"= {size_line(value)}"


def _doubt(model: PromptModel, name: str, worked: Worked | None = None) -> str:
    """What must be known of a named size: that it may be another, or is that of a total that was moved."""
    said = "; it may be another size" if name in model.session.doubtful else _belief(model, name)
    moved = None if worked is None or worked.answer is None else moved_total(worked.answer, name, 0)
    if moved is None:
        return f"{said}; {RESTS_ON_MOVED}" if name in model.session.moved else said
    return f"{said}; {moved_text(moved)}"


def _belief(model: PromptModel, name: str) -> str:
    """What a named size, or the last one, rests on being believed."""
    state = model.state
    n = state.last if name == LAST else state.homes.get(name)
    if n is None or name in state.sheet.doubts.settled:
        return ""
    number, doubts = state.lines[n].number, state.sheet.doubts
    own = next((each for each in doubts.believed if each.line == number), None)
    if own is not None:
        return f"; {believed_text(own)}"
    return f"; {RESTS_ON_BELIEF}" if number in doubts.on_belief else ""


def _folded(text: str, width: int, indent: int) -> Iterator[str]:
    """A line folded, its further rows indented."""
    first, *others = folded(text, width) or [""]
    yield first
    if others:
        rest = " ".join(" ".join(others).split())
        yield from (" " * indent + row for row in folded(rest, max(12, width - indent)))


def _nothing_after(word: str, rest: str) -> None:
    if rest:
        raise Refused(f"{word} takes nothing after it; write {word}")
