"""`save` and `load`: the session's statements as a sheet, and a sheet's statements in the session.

Nothing of a sheet is lost between the two: a line that is not answered here, a title, a
note, a part or one at fault, is kept as it stands, and written where it stood.
"""

from __future__ import annotations

import os
import stat
from collections.abc import Iterator
from pathlib import Path

from fractions_shop.errors import InputError, ShopError, visible
from fractions_shop.figures.plain import folded
from fractions_shop.figures.wording import so_many
from fractions_shop.files.bounded import first_bytes
from fractions_shop.files.whole import write_whole
from fractions_shop.prompt.lines import fault_lines, plain_line
from fractions_shop.prompt.model import Entry, PromptModel
from fractions_shop.prompt.own_words import Refused, own_word
from fractions_shop.sheet.lines import Line, read_lines, rows_of
from fractions_shop.sheet.part_lines import begins_a_part

#: A longer file is not a sheet that anyone wrote.
MAX_BYTES = 1_000_000


def save(model: PromptModel, rest: str, width: int) -> Iterator[str]:
    """Write the session as a sheet; Refused rather than lose what an older file says."""
    over = rest.lower().startswith("over ") and not os.path.exists(_path("save", rest))  # noqa: PTH110
    path = _path("save", rest[5:] if over else rest)
    name = visible(str(path))
    if not model.entries:
        raise Refused("there is nothing to save yet: no statement has been answered")
    written = _SheetRows(model)
    if over:
        _refuse_to_lose(path, written.rows)
    try:
        write_whole(path, ("\n".join(written.rows) + "\n").encode("utf-8"), new=not over)
    except FileExistsError:
        raise Refused(f"{name} is there already; write save over {rest} to write over it") from None
    except (OSError, ValueError) as error:
        raise Refused(f"{name} cannot be written: {getattr(error, 'strerror', None) or error}") from None
    count = len(model.entries)
    said = f"{so_many(count, 'statement')} written to {name}"
    said += ", and the rule first" if written.rule_first else ""
    others = sum(isinstance(line, str) and line.strip() != "" for line in model.lines)
    if others:
        stand = "line that was loaded stands" if others == 1 else "lines that were loaded stand"
        said += f"; {others} other {stand} where {'it' if others == 1 else 'they'} stood"
    yield from folded(said, width)
    for note in written.notes:
        yield from folded(f"note: {note}", width)


class _SheetRows:
    """The rows of the sheet that a session makes, and notes on what a sheet takes otherwise.

    A sheet lets a name be set once; a naming that was replaced and never drawn on goes.
    The working rule comes first, but for titles and notes above the first line that it
    could matter to, and unless that line sets one.
    """

    def __init__(self, model: PromptModel) -> None:
        self.rows: list[str] = []
        self.notes: list[str] = []
        self.rule_first = False
        entries = model.entries
        done = 0
        begun = False
        for line in model.lines:
            if not begun and not (isinstance(line, str) and _asks_nothing(line)):
                begun = True
                self.rule_first = isinstance(line, str) or line.answer.room.sets_rule is None
                self.rows += [f"rule {model.first_rule}"] if self.rule_first else []
            if isinstance(line, str):
                self.rows.append(line)
                continue
            done += 1
            self.rows.append(self._row(line, entries[done:]))
        self.notes = list(dict.fromkeys(self.notes))

    def _row(self, entry: Entry, later: list[Entry]) -> str:
        name = entry.answer.name
        again = next((m for m, other in enumerate(later) if name and other.answer.name == name), None)
        if again is not None:
            if not any(name in other.answer.used for other in later[: again + 1]):
                return f"# {entry.text} (named anew below)"
            self.notes.append(
                f"{name} is named more than once: load takes that as it comes, a sheet takes the first"
            )
        return entry.text


def _asks_nothing(row: str) -> bool:
    return all(line.kind in ("blank", "note", "title") for line in read_lines(row))


def _refuse_to_lose(path: Path, rows: list[str]) -> None:
    """Refused when the file that is there says something, other than statements, that the new one does not."""
    try:
        if not stat.S_ISREG(path.stat().st_mode):
            return
    except (OSError, ValueError):
        return  # there is nothing, or writing will say what is wrong
    try:
        old = read_lines(_text(path))
    except ShopError as error:
        raise Refused(f"{error}; save to another file") from None
    text = "\n".join(rows)
    kept = {row.text.strip() for row in read_lines(text)}
    lost = [line for line in old if _is_lost(line, kept, text)]
    if lost:
        others = f" and {len(lost) - 1} more" if len(lost) > 1 else ""
        raise Refused(
            f"{visible(str(path))} has what this session has not, and it would be lost: "
            f"line {lost[0].number}, {lost[0].text.strip()[:60]}{others}; load it first, or save to another file"
        )


def _is_lost(line: Line, kept: set[str], text: str) -> bool:
    """Whether a line is more than a statement that can be typed again, and is not in the new text."""
    if line.kind == "statement" and line.fault is None:
        return line.words not in text
    says_something = line.words or line.kind == "part" or line.fault is not None
    return bool(says_something) and line.text.strip() not in kept


def load(model: PromptModel, rest: str, width: int) -> Iterator[str]:
    """Answer the statements of a file; all its other lines are kept for `save`."""
    path = _path("load", rest)
    rows = rows_of(_text(path))
    name = visible(path.name)
    answered = faults = parts = done = 0
    try:
        for number, row in enumerate(rows, 1):
            statement = plain_line(row)
            try:
                if begins_a_part(statement):
                    parts += 1
                    model.keep(row)
                    continue
                _refuse_own_word(statement)
                answer = model.enter(statement)
            except InputError as error:
                faults += 1
                model.keep(row)
                yield from fault_lines(error, width, f"{name}, line {number}: ")
                continue
            finally:
                done = number
            if answer is None:
                model.keep(row)
                continue
            answered += 1
            first = answer.gist(model.digits)
            yield from folded(f"{statement.strip()}", width)
            yield from folded(f"    {first}" if answer.ok else f"    {first} (line {number})", width)
    finally:
        for row in rows[done:]:  # after Ctrl-C
            model.keep(row)
    said = f"{so_many(answered, 'statement')} answered"
    said += f", {faults} not" if faults else ""
    said += f"; {so_many(parts, 'part line')} left to the sheet command" if parts else ""
    yield from folded(said, width)


def _refuse_own_word(statement: str) -> None:
    word = own_word(statement)
    if word is not None:
        raise InputError(f"{word[0]} is a word of the prompt, not a statement", statement, 0, len(word[0]))


def _text(path: Path) -> str:
    """The text of a file of statements; Refused, with the reason, when it is none."""
    name = visible(str(path))
    try:
        if not stat.S_ISREG(path.stat().st_mode):
            raise Refused(f"{name} is not a file of statements")
        data = first_bytes(path, MAX_BYTES + 1)
        if len(data) > MAX_BYTES:
            raise Refused(f"{name} is longer than a file of statements can be ({MAX_BYTES:,} bytes)")
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = data[: error.start].count(b"\n") + 1
        raise Refused(f"{name}, line {line}: this is not UTF-8 text") from None
    except (OSError, ValueError) as error:
        if isinstance(error, Refused):
            raise
        raise Refused(f"{name} cannot be read: {getattr(error, 'strerror', None) or error}") from None


def _path(word: str, rest: str) -> Path:
    name = rest.strip()
    if len(name) > 1 and name[0] == name[-1] and name[0] in "'\"":
        name = name[1:-1]
    if not name:
        raise Refused(f"{word} needs the name of a file; write {word} cabinet.txt")
    try:
        return Path(name).expanduser()
    except RuntimeError:
        return Path(name)
