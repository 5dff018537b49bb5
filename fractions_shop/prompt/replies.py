"""What is said back to an entered line, on any kind of terminal."""

from __future__ import annotations

import time
from collections.abc import Iterable
from typing import TextIO

from fractions_shop import __version__
from fractions_shop.command.streams import in_letters
from fractions_shop.errors import ShopError, visible
from fractions_shop.figures.plain import folded
from fractions_shop.figures.wording import rule_name, so_many
from fractions_shop.prompt.answer_rows import (
    Cautions,
    Window,
    answer_rows,
    in_window,
    line_rows,
    reading_rows,
)
from fractions_shop.prompt.history import LineStore
from fractions_shop.prompt.lines import joined
from fractions_shop.prompt.model import PromptModel
from fractions_shop.prompt.own_words import Refused, own_word
from fractions_shop.requests import DRAWN
from fractions_shop.sheet.answer import Answer
from fractions_shop.sheet.going_on import going_on
from fractions_shop.sheet.states import Edit
from fractions_shop.show.moved_words import moved_text, place_text, was_text
from fractions_shop.show.ruler import picture, signs_for

#: A rule is drawn only where it leaves room for the words.
_LEAST_WIDTH, _LEAST_ROWS = 30, 16
#: Rows of the window that an answer leaves to the prompt and to what stands beneath it.
_KEPT_ROWS = 4
_LEAST_SHOWN = 5
#: The words whose answers are folded away like those of statements; the others are asked for whole.
_FOLDED = frozenset({"help", "names", "why"})
GREETING = f"fractions-shop {__version__}"
HINT = "type a size such as 2 1/32 in / 5, a request (divide 2 in into 5), or help"


class Replies:
    """Answers lines and writes what there is to say to `out`.

    `strong` stands about the first row of an answer, on a terminal that can show it so.
    """

    def __init__(self, model: PromptModel, store: LineStore, out: TextIO, pictures: bool = True) -> None:
        self.model = model
        self.store = store
        self.out = out
        self.model.draws = self.model.draws and pictures
        self.strong = ("", "")
        self.cautions = Cautions()

    @property
    def sign(self) -> str:
        """What stands before a line: the working rule, or the unit of what is read."""
        if self.model.mode is not None:
            return f"read in {self.model.mode.unit}: "
        return f"{rule_name(self.model.rule)}: "

    def greet(self, width: int) -> None:
        """Say of a sheet that was left unfinished."""
        broken_off = [draft for draft in self.model.file.drafts.waiting() if not draft.left]
        if not broken_off:
            return
        draft = broken_off[0]
        count = so_many(draft.data.count(b"\n") + (draft.data[-1:] not in (b"", b"\n")), "line")
        what = visible(draft.file.rpartition("/")[2]) or "a sheet without a file"
        others = f", and {len(broken_off) - 1} more" if len(broken_off) > 1 else ""
        for row in folded(
            f"left unfinished {_ago(time.time() - draft.written)}: {what}, {count}{others}; open draft brings it back",
            width,
        ):
            self.say(row)

    def line(self, text: str, width: int, rows: int = 0) -> bool:
        """Answer one line; True when it asks to leave. InputError for one that cannot be answered.

        `rows` are those of the window, 0 where it has no end; what does not fit is folded away.
        """
        self.store.add(joined(text))
        if self.model.mode is not None and not text.strip():
            self._end_readings()
            return False
        own = own_word(text, self.model.state.homes)
        if own is not None:
            return self._own_word(*own, width, rows)
        whole = None if self.model.mode is not None else going_on(text, self.model.session)
        if whole is not None:
            self.say(f"  {whole}")
        edit = self.model.edit(whole or text)
        if edit is not None:
            self._edited(edit, width, rows)
        return False

    def leave(self, width: int) -> None:
        """Say what becomes of a sheet that is not saved."""
        if self.model.file.leave():
            for row in folded("what is not saved is kept: open draft brings it back", width):
                self.say(row)

    def say(self, text: str = "", strong: bool = False) -> None:
        """Write a line; a sign that the terminal would act upon, or cannot show, gives way to a mark."""
        text = visible(text, keep="\t")
        before, after = self.strong if strong else ("", "")
        try:
            self.out.write(f"{before}{text}{after}\n")
        except UnicodeEncodeError:
            self.out.write(f"{before}{in_letters(text, self.out.encoding or 'ascii')}{after}\n")
        self.out.flush()

    def _own_word(self, word: str, rest: str, width: int, rows: int) -> bool:
        if word == "quit" and not rest:
            return True
        from fractions_shop.prompt import commands  # what help tells is loaded when it is asked

        self.model.rows = rows or 24
        before = self.model.state
        try:
            if word == "quit":
                raise Refused("quit takes nothing after it; write quit")
            if word == "draw":
                self._draw(rest, width)
            else:
                self._told(word, commands.run(self.model, word, rest, width - 2), rows)
        except Refused as refusal:
            for shown in folded(str(refusal), width - 2):
                self.say(f"  {shown}")
        if self.model.state is not before:
            self._keep_draft(width)
        self.say()
        return False

    def _edited(self, edit: Edit, width: int, rows: int) -> None:
        """The answer of a line, as far as it has room, and what entering it moved."""
        worked = edit.worked
        answer = None if worked is None else worked.answer
        texts = (was_text(edit), moved_text(edit), place_text(edit))
        moved = [row for text in texts if text for row in folded(text, width - 2)]
        room = max(_LEAST_SHOWN, rows - _KEPT_ROWS - len(moved)) if rows else None
        window = Window(width - 2, room, self.model.digits, self.model.draws)
        if worked is not None and answer is not None:
            fitted = answer_rows(answer, worked.line.number, self.cautions, window)
        else:
            fitted = in_window(line_rows(edit, width - 2), room)
        shown, self.model.folded, shortened = fitted
        self.model.shortened = worked.line.number if shortened and worked is not None else None
        drawn = [] if answer is None else self._picture(answer, width, rows)
        if self.model.mode is not None and answer is not None:
            # The next figure is waiting; show brings the rest.
            shown, self.model.folded, drawn = reading_rows(answer, window), [], []
        for n, row in enumerate(shown):
            self.say(f"  {row}".rstrip(), strong=n == 0)
        for row in moved:
            self.say(f"  {row}")
        if self.model.folded:
            self._say_more()
        elif not rows or len(shown) + len(drawn) + len(moved) + _KEPT_ROWS <= rows:
            for row in drawn:
                self.say(row)
        if shown or moved:
            self.say()
        self._keep_draft(width)

    def _told(self, word: str, lines: Iterable[str], rows: int) -> None:
        if word in _FOLDED:
            room = max(_LEAST_SHOWN, rows - _KEPT_ROWS) if rows else None
            lines, self.model.folded, _ = in_window(list(lines), room)
            self.model.shortened = None
        for shown in lines:
            self.say(f"  {shown}".rstrip())
        if word in _FOLDED:
            self._say_more()

    def _say_more(self) -> None:
        if self.model.folded:
            self.say(f"  {so_many(len(self.model.folded), 'line')} more: write more")

    def _end_readings(self) -> None:
        self.model.mode = None
        self.model.forget()
        self.say("  the readings are lines of the sheet; sheet lists them")
        self.say()

    def _keep_draft(self, width: int) -> None:
        trouble = self.model.file.keep_draft()
        for row in folded(trouble, width - 2) if trouble else ():
            self.say(f"  {row}")

    def _picture(self, answer: Answer, width: int, rows: int) -> list[str]:
        if not self.model.draws or answer.kind not in DRAWN or width < _LEAST_WIDTH or 0 < rows < _LEAST_ROWS:
            return []
        return self._drawn(answer, width)

    def _drawn(self, answer: Answer, width: int) -> list[str]:
        # The words beneath the rule may be longer than it.
        rows = picture(answer, width - 1, signs_for(self.out))
        return [shown for row in rows for shown in folded(row, width - 1)]

    def _draw(self, rest: str, width: int) -> None:
        if rest in ("on", "off"):
            self.model.draws = rest == "on"
            self.say(f"  rules are {'drawn' if rest == 'on' else 'not drawn'} under answers from now on")
            return
        if not rest:
            raise Refused("draw needs a size by its name or line; write draw ans, or draw on or draw off")
        try:
            n = self.model.file.sheet.find(rest)
        except ShopError as error:
            raise Refused(str(error)) from None
        answer = self.model.state.sheet.worked[n].answer
        rows = [] if answer is None else self._drawn(answer, width)
        if not rows:
            raise Refused(f"{rest} cannot be shown on a rule of this width")
        for row in rows:
            self.say(row)


def _ago(seconds: float) -> str:
    """How long ago, in words."""
    for unit, length in (("day", 86400), ("hour", 3600), ("minute", 60)):
        if seconds >= length:
            return f"{so_many(int(seconds // length), unit)} ago"
    return "just now"
