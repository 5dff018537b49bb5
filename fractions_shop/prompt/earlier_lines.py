"""The line that is typed, and earlier ones behind it: brought back by Up, searched, or shown as what may follow."""

from __future__ import annotations

from collections.abc import AsyncGenerator, Iterable
from typing import Any

from prompt_toolkit.auto_suggest import AutoSuggest, Suggestion
from prompt_toolkit.buffer import Buffer
from prompt_toolkit.document import Document
from prompt_toolkit.history import History

from fractions_shop.prompt.history import LineStore


class LineBuffer(Buffer):
    """The line that is typed, with earlier ones to go back to from its very beginning.

    prompt_toolkit loads them when it next draws, so that Up right behind Ctrl-C or Enter would find none.
    """

    def __init__(self, store: LineStore, **settings: Any) -> None:
        self._store = store
        super().__init__(history=_Recalled(store), **settings)

    def reset(self, document: Document | None = None, append_to_history: bool = False) -> None:
        """Begin a line, behind all earlier ones."""
        super().reset(document, append_to_history)
        place = self.cursor_position
        self._working_lines.extendleft(reversed(self._store.recalled))
        self.working_index = len(self._store.recalled)
        self.cursor_position = place


class _Recalled(History):
    """Where the buffer keeps a line; the earlier ones are there before it would load them."""

    def __init__(self, store: LineStore) -> None:
        super().__init__()
        self._store = store

    async def load(self) -> AsyncGenerator[str, None]:
        """Nothing more."""
        for line in self.load_history_strings():
            yield line

    def load_history_strings(self) -> Iterable[str]:
        """Nothing more."""
        return ()

    def get_strings(self) -> list[str]:
        """The earlier lines, oldest first."""
        return self._store.recalled

    def append_string(self, string: str) -> None:
        """Put a line by for this session; its file gets it when it is answered, whichever way it came in."""
        self._store.put_by(string)

    def store_string(self, string: str) -> None:
        """Nothing: see `append_string`."""


class Suggested(AutoSuggest):
    """The rest of the newest earlier line that begins like this one."""

    def __init__(self, store: LineStore) -> None:
        self._store = store

    def get_suggestion(self, buffer: Buffer, document: Document) -> Suggestion | None:
        """What is shown behind the cursor."""
        text = document.text
        if not text.strip() or "\n" in text:
            return None
        for line in reversed(self._store.lines):
            if line.startswith(text) and line != text:
                return Suggestion(line[len(text) :])
        return None
