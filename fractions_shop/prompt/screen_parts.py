"""The parts of a prompt on a full terminal that its keys and the rows beneath its line look at."""

from __future__ import annotations

from typing import Any, Protocol

from prompt_toolkit.application import Application
from prompt_toolkit.buffer import Buffer
from prompt_toolkit.output import Output

from fractions_shop.prompt.model import PromptModel
from fractions_shop.prompt.replies import Replies


class ScreenParts(Protocol):
    """What keys and the panel know of the screen.

    `waiting` are pasted lines still to be answered, `hint` the row shown while nothing is typed.
    """

    replies: Replies
    model: PromptModel
    waiting: list[str]
    hint: str
    output: Output
    buffer: Buffer
    app: Application[Any]
