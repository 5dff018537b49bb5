"""The parts of a prompt on a full terminal that its keys and the rows beneath its line look at."""

from __future__ import annotations

from typing import Any, Protocol

from prompt_toolkit.application import Application
from prompt_toolkit.buffer import Buffer
from prompt_toolkit.formatted_text import StyleAndTextTuples
from prompt_toolkit.output import Output

from fractions_shop.prompt.model import LineReading, PromptModel
from fractions_shop.prompt.replies import Replies


class ScreenParts(Protocol):
    """What keys and the panel know of the screen.

    `waiting` are pasted lines still to be answered, `hint` the row shown while nothing is typed, `beneath`
    what was last shown beneath the line, `long_read` a line that takes long to read, and `searching` says whether offers for the menu are looked for. `refused`: the line was
    refused and no key was pressed since; `was_refused`: so it stood when the key now at work was pressed.
    """

    replies: Replies
    model: PromptModel
    waiting: list[str]
    hint: str
    output: Output
    buffer: Buffer
    app: Application[Any]
    beneath: StyleAndTextTuples
    long_read: str
    searching: bool
    refused: bool
    was_refused: bool

    def reading(self, text: str) -> LineReading | None:
        """How a line reads, if that is known; else it is begun when the key that made it so is on the screen."""
