"""The prompt's own words at work: help, names, undo, save and load. Each gives lines to show."""

from __future__ import annotations

import stat
from collections.abc import Callable, Iterator
from pathlib import Path

from fractions_shop import requests
from fractions_shop.command.settings import settings_path
from fractions_shop.errors import InputError, ShopError
from fractions_shop.figures.plain import folded
from fractions_shop.figures.size_words import size_line
from fractions_shop.language.advice.near_words import advice
from fractions_shop.prompt.lines import fault_lines, plain_line
from fractions_shop.prompt.model import Desk
from fractions_shop.prompt.own_words import WORDS, own_word
from fractions_shop.requests import help as book
from fractions_shop.requests.check import CheckResult
from fractions_shop.sheet.doubts import moved_total
from fractions_shop.sheet.part_lines import begins_a_part
from fractions_shop.sheet.session import Session
from fractions_shop.show.doubt_marks import moved_text
from fractions_shop.size.notation import places_shown

#: A longer file is not a sheet that anyone wrote.
MAX_BYTES = 1_000_000

_KEYS = {
    "Tab": "shows what may stand here; again to go on, Enter to take one",
    "Up, Down": "earlier lines, and later ones",
    "Ctrl-R": "looks for an earlier line by any part of it",
    "Right": "takes the rest of an earlier line that is shown behind the cursor",
    "Ctrl-C": "clears the line",
    "Ctrl-D": "leaves, on an empty line",
}


_SETTINGS = {
    'rule = "64ths"': "the working rule to begin with",
    "digits = 6": "decimal places shown at most",
    "picture = true": "a rule drawn under an answer; false for none",
}


class Refused(ShopError):
    """One of the prompt's own words cannot do what it was asked; the sentence says why."""


def run(desk: Desk, word: str, rest: str, width: int) -> Iterator[str]:
    """What the word shows, line by line; Refused when it cannot be done."""
    return _WORK[word](desk, rest, width)


# help


def _help(desk: Desk, rest: str, width: int) -> Iterator[str]:
    if not rest:
        yield from _overview(width)
        return
    if rest.lower() in WORDS:
        yield from folded(f"{rest.lower()}: {WORDS[rest.lower()]}", width)
        yield from (f"  {form}" for form in _FORMS.get(rest.lower(), ()))
        return
    if rest.lower() == "keys":
        yield from _table(_KEYS, width)
        return
    if rest.lower() == "settings":
        yield from _settings(width)
        return
    found = book.topic(rest)
    if found is None:
        known = [*book.topics(), *WORDS, "keys", "settings"]
        near = advice(rest, known).replace("write ", "write help ")
        raise Refused(f"there is no help on {rest}; {near or 'help alone lists what there is'}")
    yield from folded(f"{found.word}: {found.meaning}", width)
    yield from (line for form in found.forms for line in folded(f"  {form}", width))
    yield from (line for text in found.more for line in folded(f"  {text}", width))
    if found.example:
        yield from _example(desk, found.example, width)


def _settings(width: int) -> Iterator[str]:
    yield from folded(f"settings: what is set once, in the file {settings_path()}", width)
    yield from _table(_SETTINGS, width)
    yield from folded(
        "FRACTIONS_SHOP_PLAIN=1 in the environment asks for plain lines without menu, drawing or colour, "
        "NO_COLOR=1 for no colour",
        width,
    )


def _example(desk: Desk, example: str, width: int) -> Iterator[str]:
    """The example and its answer, worked out now on a bench of its own."""
    yield ""
    yield f"  {example}"
    answer = Session(desk.rule).answer(example)
    assert answer is not None
    yield from (f"    {line}".rstrip() for line in answer.text(width - 4, desk.digits).splitlines())


def _overview(width: int) -> Iterator[str]:
    yield from folded("type a size, or arithmetic on sizes, and press Enter: 2 1/32 in / 5", width)
    yield from folded("a request is a short sentence that begins with its word:", width)
    yield from _table(requests.summaries(), width)
    yield from folded("words of this prompt:", width)
    yield from _table(WORDS, width)
    yield from folded("help WORD says more of each, with an example; so do help sizes, help units, help rules, "
                      "help functions, help keys and help settings", width)  # fmt: skip


def _table(words: dict[str, str], width: int) -> Iterator[str]:
    widest = max(map(len, words))
    for word, meaning in words.items():
        yield from folded(f"  {word:{widest}}  {meaning}", width)


# names and undo


def _names(desk: Desk, rest: str, width: int) -> Iterator[str]:
    _nothing_after("names", rest)
    token = places_shown.set(desk.digits)
    try:
        if not desk.names:
            yield "nothing is named yet; write pitch = 2 1/32 in / 5"
            return
        named = [name for name in desk.names if name != "ans"]
        for name in [*named, *(["ans"] if "ans" in desk.names else [])]:
            yield from folded(f"{name} = {size_line(desk.names[name])}{_doubt(desk, name)}", width)
    finally:
        places_shown.reset(token)


def _doubt(desk: Desk, name: str) -> str:
    """What must be known of a named size: that it may be another, or is that of a total that was moved."""
    said = "; it may be another size" if name in desk.bench.doubtful else ""
    answer = next((e.answer for e in reversed(desk.entries) if e.answer.name == name), None)
    moved = None if answer is None else moved_total(answer, name, 0)
    return said if moved is None else f"{said}; {moved_text(moved)}"


def _undo(desk: Desk, rest: str, width: int) -> Iterator[str]:
    _nothing_after("undo", rest)
    entry = desk.undo()
    if entry is None:
        raise Refused("there is no naming to take back")
    name = entry.answer.name or ""
    token = places_shown.set(desk.digits)
    try:
        after = "is free again" if entry.before is None else f"is {size_line(entry.before)} again"
        yield from folded(f"taken back: {entry.text}", width)
        yield from folded(f"{name} {after}", width)
    finally:
        places_shown.reset(token)


def _nothing_after(word: str, rest: str) -> None:
    if rest:
        raise Refused(f"{word} stands alone; write {word}")


# save and load


def _save(desk: Desk, rest: str, width: int) -> Iterator[str]:
    over = rest.lower().startswith("over ") and not _path("save", rest).exists()
    path = _path("save", rest[5:] if over else rest)
    kept, left_out = _sheet(desk)
    if not desk.entries:
        raise Refused("there is nothing to save yet: no statement has been answered")
    text = "\n".join(kept) + "\n"
    try:
        if over:
            beside = path.with_name(f"{path.name}.new")
            beside.write_text(text, encoding="utf-8")
            beside.replace(path)
        else:
            with path.open("x", encoding="utf-8") as file:
                file.write(text)
    except FileExistsError:
        raise Refused(f"{path} is there already; write save over {rest} to write over it") from None
    except (OSError, ValueError) as error:
        raise Refused(f"{path} cannot be written: {getattr(error, 'strerror', None) or error}") from None
    count = len(kept) - 1
    yield from folded(
        f"{count} statement{'' if count == 1 else 's'} written to {path}, and the rule first", width
    )
    for note in left_out:
        yield from folded(f"note: {note}", width)


def _sheet(desk: Desk) -> tuple[list[str], list[str]]:
    """The session's statements as the lines of a sheet, and notes on what a sheet takes otherwise.

    A sheet lets a name be set once; a naming that was replaced and never drawn on goes.
    """
    lines = [f"rule {desk.first_rule}"]
    notes: list[str] = []
    for n, entry in enumerate(desk.entries):
        name = entry.answer.name
        later = desk.entries[n + 1 :]
        again = next((m for m, other in enumerate(later) if name and other.answer.name == name), None)
        if again is not None:
            used = any(name in other.answer.used for other in later[: again + 1])
            if not used:
                lines.append(f"# {entry.text} (named anew below)")
                continue
            notes.append(
                f"{name} is named more than once: load takes that as it comes, a sheet takes the first"
            )
        lines.append(entry.text)
    return lines, list(dict.fromkeys(notes))


def _load(desk: Desk, rest: str, width: int) -> Iterator[str]:
    path = _path("load", rest)
    lines = _read(path)
    answered = faults = parts = 0
    for number, line in enumerate(lines, 1):
        statement = plain_line(line)
        if begins_a_part(statement):
            parts += 1
            continue
        try:
            word = own_word(statement)
            if word is not None:
                raise InputError(
                    f"{word[0]} is a word of the prompt, not a statement", statement, 0, len(word[0])
                )
            answer = desk.enter(statement)
        except InputError as error:
            faults += 1
            yield from fault_lines(error, width, f"{path.name}, line {number}: ")
            continue
        if answer is None:
            continue
        answered += 1
        held = not isinstance(answer.result, CheckResult) or answer.result.holds
        first = answer.gist(desk.digits)
        yield from folded(f"{statement.strip()}", width)
        yield from folded(f"    {first}" if held else f"    {first} (line {number})", width)
    said = f"{answered} statement{'' if answered == 1 else 's'} answered"
    said += f", {faults} not" if faults else ""
    said += f"; {parts} part line{'' if parts == 1 else 's'} left to the sheet command" if parts else ""
    yield from folded(said, width)


def _read(path: Path) -> list[str]:
    try:
        if not stat.S_ISREG(path.stat().st_mode):
            raise Refused(f"{path} is not a file of statements")
        data = path.read_bytes()
        if len(data) > MAX_BYTES:
            raise Refused(f"{path} is longer than a file of statements can be ({MAX_BYTES:,} bytes)")
        return data.decode("utf-8-sig").splitlines()
    except UnicodeDecodeError as error:
        line = data[: error.start].count(b"\n") + 1
        raise Refused(f"{path}, line {line}: this is not UTF-8 text") from None
    except (OSError, ValueError) as error:
        if isinstance(error, Refused):
            raise
        raise Refused(f"{path} cannot be read: {getattr(error, 'strerror', None) or error}") from None


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


_FORMS = {
    "help": ("help", "help divide", "help sizes"),
    "save": ("save FILE", "save over FILE"),
    "load": ("load FILE",),
}
_WORK: dict[str, Callable[[Desk, str, int], Iterator[str]]] = {
    "help": _help,
    "names": _names,
    "undo": _undo,
    "save": _save,
    "load": _load,
}
