"""The rows beneath the line: how it reads so far, or what is wrong and where."""

from __future__ import annotations

from typing import TYPE_CHECKING

from prompt_toolkit.formatted_text import StyleAndTextTuples
from prompt_toolkit.utils import get_cwidth

from fractions_shop.errors import InputError
from fractions_shop.figures.plain import folded
from fractions_shop.prompt.model import LineReading
from fractions_shop.show.ruler import PLAIN, signs_for

if TYPE_CHECKING:
    from fractions_shop.prompt.screen_parts import ScreenParts

_INDENT = "  "
#: What the keys do while a refused line stands.
_STANDS = f"{_INDENT}Backspace or an arrow mends it; writing begins a new line; Up brings it back"


def fragments(screen: ScreenParts) -> StyleAndTextTuples:
    """What stands beneath the line now: for a moment still what stood there, until the line is read."""
    shown = _fragments(screen)
    if shown is not None:
        screen.beneath = shown
    return screen.beneath


def _fragments(screen: ScreenParts) -> StyleAndTextTuples | None:
    """What is to stand beneath the line; None while that is not known."""
    columns = screen.output.get_size().columns - 1
    text = screen.buffer.text
    if screen.app.layout.is_searching:
        return [("", shortened(f"{_INDENT}{_nothing_like_it(screen)}", columns, _dots(screen)))]
    if not text.strip():
        return [("", "\n".join(folded(f"{_INDENT}{screen.hint}", columns)) if screen.hint else "")]
    reading = screen.reading(text)
    if screen.refused:
        return [
            *_of_refused(reading, screen, columns),
            ("", "\n" + "\n".join(folded(_STANDS, columns))),
        ]
    if screen.buffer.validation_error is not None and reading is not None and reading.error is not None:
        return _placed(reading.error, screen, columns)
    if reading is None:
        return [("", f"{_INDENT}working it out ...")] if screen.long_read == text else None
    label, style = _label(reading)
    first = (
        shortened(f"{_INDENT}{label}{reading.words}", columns, _dots(screen))
        if label or reading.words
        else ""
    )
    if not reading.moves:
        return [(style, first)]
    moves = shortened(f"{_INDENT}{reading.moves}", columns, _dots(screen))
    return [(style, first), ("", f"\n{moves}" if first else moves)]


def _of_refused(reading: LineReading | None, screen: ScreenParts, columns: int) -> StyleAndTextTuples:
    """The fault of a line that was refused."""
    if screen.buffer.validation_error is not None and reading is not None and reading.error is not None:
        return _placed(reading.error, screen, columns)
    return [("class:fault", f"{_INDENT}not taken")]  # the fault itself stands above the line


def _nothing_like_it(screen: ScreenParts) -> str:
    """That no earlier line holds what is searched for; empty while one does."""
    sought = screen.app.current_buffer.text  # what the search before was for stands in the search's own state
    if not sought or any(sought.lower() in line.lower() for line in screen.replies.store.recalled):
        return ""
    return f"no earlier line has {sought}"


def _label(reading: LineReading) -> tuple[str, str]:
    """The word that says what state the line is in, and its look."""
    if reading.kind in ("blank", "note", "title", "revision"):
        return "", ""
    if reading.kind == "part":
        return "part: ", ""
    if reading.kind == "feature":
        return "cuts ", ""
    if reading.kind == "stock":
        return "stock: ", ""
    if reading.kind == "word":
        return "", ""
    if reading.kind == "open":
        return "so far: ", ""
    if reading.kind == "offer":
        return "Enter puts here: ", ""
    if reading.kind == "fault":
        column = reading.error.column if reading.error is not None else 1
        return f"fault at column {column}: ", "class:fault"
    return "reads ", ""


def _placed(error: InputError, screen: ScreenParts, columns: int) -> StyleAndTextTuples:
    """A caret under the very place, the fault and how to write it."""
    text = screen.buffer.text
    sign = get_cwidth(screen.replies.sign)
    if "\n" in text or sign + get_cwidth(text) >= columns:
        # The line takes several rows, so a piece of it is repeated, with the caret under that.
        piece, start = _piece(text.replace("\n", " "), error.start, columns - 8, _dots(screen))
        above, sign = f"{_INDENT}{piece}\n", len(_INDENT)
    else:
        above, start = "", get_cwidth(text[: error.start])
    width = max(1, min(get_cwidth(text[error.start : error.end]), columns - sign - start))
    rows = folded(f"{_INDENT}{error.message} (column {error.column})", columns)
    rows += folded(f"{_INDENT}{error.advice}", columns) if error.advice else []
    caret = " " * (sign + start) + "^" * width
    return [("", above), ("class:caret", caret), ("class:fault", "\n" + "\n".join(rows))]


def _piece(text: str, place: int, room: int, dots: str) -> tuple[str, int]:
    """A piece of a line around a place, and the cells before the place in it."""
    first = max(0, place - room // 2)
    head = dots if first else ""
    before = head + text[first:place]
    rest = shortened(text[place:], max(room - get_cwidth(before), len(dots) + 1), dots)
    return before + rest, get_cwidth(before)


def _dots(screen: ScreenParts) -> str:
    return "..." if signs_for(screen.replies.out) is PLAIN else "…"


def shortened(text: str, columns: int, dots: str = "…") -> str:
    """A text in one row: cut, with a sign that it was, where it is too long."""
    if get_cwidth(text) <= columns:
        return text
    room = max(0, columns - get_cwidth(dots))
    kept = text[:room]
    while get_cwidth(kept) > room:
        kept = kept[:-1]
    return f"{kept.rstrip()}{dots}"
