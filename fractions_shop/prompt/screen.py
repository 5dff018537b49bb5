"""The prompt on a full terminal: the line in colours, its reading beneath, and a menu of what may follow."""

from __future__ import annotations

import asyncio
import contextlib
import os
import signal
import threading
from collections.abc import AsyncGenerator, Iterable
from typing import Any

from prompt_toolkit.application import Application
from prompt_toolkit.buffer import Buffer
from prompt_toolkit.completion import CompleteEvent, Completer, Completion
from prompt_toolkit.document import Document
from prompt_toolkit.filters import is_done
from prompt_toolkit.formatted_text import StyleAndTextTuples
from prompt_toolkit.input import Input
from prompt_toolkit.key_binding import merge_key_bindings
from prompt_toolkit.key_binding.bindings.auto_suggest import load_auto_suggest_bindings
from prompt_toolkit.layout import ConditionalContainer, HSplit, Layout, Window
from prompt_toolkit.layout.controls import BufferControl, FormattedTextControl
from prompt_toolkit.layout.menus import CompletionsMenu
from prompt_toolkit.layout.processors import (
    AppendAutoSuggestion,
    ConditionalProcessor,
    HighlightIncrementalSearchProcessor,
    HighlightSelectionProcessor,
)
from prompt_toolkit.lexers import Lexer
from prompt_toolkit.output import ColorDepth, Output
from prompt_toolkit.output.defaults import create_output
from prompt_toolkit.output.vt100 import Vt100_Output
from prompt_toolkit.styles import Style
from prompt_toolkit.validation import ValidationError, Validator
from prompt_toolkit.widgets import SearchToolbar

from fractions_shop.errors import InputError
from fractions_shop.figures.plain import folded
from fractions_shop.prompt import colours, keys, panel
from fractions_shop.prompt.between_prompts import TERMINATED, ended_by_signal, keys_wait
from fractions_shop.prompt.earlier_lines import LineBuffer, Suggested
from fractions_shop.prompt.folds import Folds
from fractions_shop.prompt.lines import fault_lines, joined
from fractions_shop.prompt.model import LineReading
from fractions_shop.prompt.own_words import own_word
from fractions_shop.prompt.pasted_note import ProposedPart
from fractions_shop.prompt.replies import GREETING, HINT, Replies

#: How long Enter waits for a reading before the line is taken and worked out below it.
_ENTER_WAITS = 1.0
_MENU_ROWS = 8
#: How often, and how many times, a menu looks for a reading, which may be a size that needs none.
_LOOKS_EVERY, _MOST_LOOKS = 0.005, 200
#: How long the reading of the text before stands beneath a line that is not read yet.
_STAYS = 0.1

#: Sixteen colours and plain attributes; every state has a word beside its look.
_LOOKS = Style.from_dict(
    {
        "sign": "bold",
        "word": "bold",
        "function": "bold",
        "unit": "ansicyan",
        "hardware": "ansimagenta",
        "note": "italic",
        "odd": "reverse",
        "fault": "bold",
        "caret": "bold",
        "auto-suggestion": "italic ansibrightblack",
        "completion-menu": "noinherit",
        "completion-menu.completion": "noinherit",
        "completion-menu.completion.current": "noinherit reverse",
        "completion-menu.meta.completion": "noinherit italic",
        "completion-menu.meta.completion.current": "noinherit reverse",
        "scrollbar.background": "noinherit",
        "scrollbar.button": "noinherit reverse",
    }
)


class Screen:
    """The prompt as an application of prompt_toolkit, run once for every line."""

    def __init__(self, replies: Replies, source: Input | None = None, output: Output | None = None) -> None:
        self.replies = replies
        self.model = replies.model
        self.waiting: list[str] = []
        self.hint = HINT
        self.output = output if output is not None else create_output(stdout=replies.out)
        if hasattr(self.output, "enable_cpr"):
            # The layout takes the rows it needs, so nobody has to ask the terminal where the cursor is;
            # a terminal that never answers would cost a second with every line.
            self.output.enable_cpr = False
        if isinstance(self.output, Vt100_Output):
            replies.strong = ("\x1b[1m", "\x1b[0m")
        self.plain_colours = bool(os.environ.get("NO_COLOR"))
        self.buffer = self._buffer()
        self.app = self._application(source)
        self.model.when_read = self._show_reading
        self.beneath: StyleAndTextTuples = []
        self.long_read = ""
        self.searching = False
        self.refused = self.was_refused = False
        self._unread = ""
        self._when_drawn: list[asyncio.Future[None]] = []
        self._warm = False

    def run(self) -> int:
        """Ask for lines and answer them until the user leaves; the exit status."""
        with keys_wait(self.app.input.fileno()):
            return self._run()

    def _run(self) -> int:
        self.replies.say(GREETING)
        self.replies.greet(self.output.get_size().columns)
        start = Document()
        while True:
            try:
                text = self._next(start)
            except EOFError:
                return self._left()
            except KeyboardInterrupt:
                self.replies.say("  left out")
                continue
            except SystemExit as end:
                return end.code if isinstance(end.code, int) else TERMINATED
            start = Document()
            if text.strip():
                self.hint = ""
            size = self.output.get_size()
            try:
                if own_word(text) == ("clear", ""):
                    self.app.renderer.clear()
                    continue
                with ended_by_signal():
                    leaves = self.replies.line(text, size.columns, size.rows)
                if leaves:
                    return self._left()
            except InputError as error:
                for shown in fault_lines(error, size.columns):
                    self.replies.say(shown)
                if not self.waiting:
                    start = Document(text, min(error.start, len(text)))
                    self.refused = True
            except KeyboardInterrupt:
                self.waiting.clear()
                self.replies.say("stopped")

    def _left(self) -> int:
        self.replies.leave(self.output.get_size().columns)
        return 0

    def _show_reading(self) -> None:
        """Draw a reading that came late, from the thread that worked it out."""
        # The prompt may have ended since it was last asked: then there is nothing to draw.
        with contextlib.suppress(RuntimeError):
            self.app.invalidate()

    def reading(self, text: str) -> LineReading | None:
        """How a line reads, if that is known; else it is begun when the key that made it so is on the screen."""
        reading = self.model.going_on(text) or self.model.reading(text, None)
        self._unread = text if reading is None else ""
        return reading

    def _drawn(self, application: Application[Any]) -> None:
        """What waits until a key is on the screen: the reading of the line, and the menu."""
        text, self._unread = self._unread, ""
        if text and self.model.reading(text, 0.0) is not None:
            application.invalidate()
        elif text:
            asyncio.get_running_loop().call_later(_STAYS, self._takes_long, text)
        waiting, self._when_drawn = self._when_drawn, []
        for future in waiting:
            if not future.done():
                future.set_result(None)

    def _takes_long(self, text: str) -> None:
        if self.buffer.text == text and self.model.reading(text, None) is None:
            self.long_read = text
            self.app.invalidate()

    async def until_drawn(self) -> None:
        """Wait until the keys typed so far are on the screen."""
        future = asyncio.get_running_loop().create_future()
        self._when_drawn.append(future)
        await future

    def _next(self, start: Document) -> str:
        """The next line: from a paste of several, or asked for."""
        if self.waiting:
            text = self.waiting.pop(0)
            if not isinstance(text, ProposedPart):
                for row in folded(f"{self.replies.sign}{text}", self.output.get_size().columns):
                    self.replies.say(row)
                return text
            said = "  a part line for that: Enter takes it, Ctrl-C leaves it out"
            for row in folded(said, self.output.get_size().columns):
                self.replies.say(row)
            start, self.refused = Document(text), False
        self.buffer.reset(start)
        self.beneath = []
        return self.app.run(pre_run=self._begin)

    def _begin(self) -> None:
        loop = asyncio.get_running_loop()
        with contextlib.suppress(NotImplementedError, RuntimeError, ValueError):  # no signals here
            loop.add_signal_handler(signal.SIGTERM, self._terminated)
        if not self._warm:
            self._warm = True
            # When the first prompt stands, and before anybody has typed much.
            loop.call_later(0.05, threading.Thread(target=self._warm_up, daemon=True).start)

    def _terminated(self) -> None:
        if self.app.is_running and self.app.future is not None and not self.app.future.done():
            self.app.exit(exception=SystemExit(TERMINATED))

    def _warm_up(self) -> None:
        """Load the grammar and the thread tables, so that no key has to wait for them."""
        from fractions_shop.prompt import thread_names
        from fractions_shop.prompt.word_offers import word_offers

        colours.pieces("2 in")
        self.model.reading("2 in 3", 0.0)  # a fault, which needs most: advice, offers and what may follow
        word_offers("2 in + di", {})
        thread_names.known()

    def _buffer(self) -> Buffer:
        return LineBuffer(
            self.replies.store,
            name="line",
            completer=_Offers(self),
            complete_while_typing=True,
            enable_history_search=True,
            # Without colour a suggestion would look like text that has been typed.
            auto_suggest=None if self.plain_colours else Suggested(self.replies.store),
            validator=_FaultValidator(self),
            validate_while_typing=False,
            accept_handler=self._accepted,
            multiline=True,
        )

    def _accepted(self, buffer: Buffer) -> bool:
        self.app.exit(result=buffer.text)
        return True

    def _application(self, source: Input | None) -> Application[str]:
        search = SearchToolbar(
            backward_search_prompt="an earlier line with: ", forward_search_prompt="a later line with: ", ignore_case=True,
        )  # fmt: skip
        line = Window(
            BufferControl(
                self.buffer,
                lexer=_Colours(),
                search_buffer_control=search.control,
                preview_search=True,
                include_default_input_processors=False,
                input_processors=[
                    HighlightIncrementalSearchProcessor(),
                    HighlightSelectionProcessor(),
                    ConditionalProcessor(AppendAutoSuggestion(), ~is_done),
                ],
            ),
            get_line_prefix=self._prefix,
            wrap_lines=True,
            dont_extend_height=True,
        )
        reading = Window(FormattedTextControl(lambda: panel.fragments(self)), dont_extend_height=True)
        beneath = HSplit([reading, search, CompletionsMenu(max_height=_MENU_ROWS, scroll_offset=1)])
        application: Application[str] = Application(
            layout=Layout(HSplit([line, ConditionalContainer(beneath, ~is_done)]), line),
            style=_LOOKS,
            include_default_pygments_style=False,
            key_bindings=merge_key_bindings([load_auto_suggest_bindings(), keys.bindings(self)]),
            color_depth=ColorDepth.DEPTH_1_BIT if self.plain_colours else None,
            input=source,
            output=self.output,
        )
        # Escape alone is told from a key that begins with it after this long.
        application.ttimeoutlen, application.timeoutlen = 0.05, 0.3
        folds = Folds()
        application.before_render += folds.make_good
        application.after_render += folds.remember
        application.after_render += self._drawn
        application.key_processor.before_key_press += keys.refusal_passes(self)
        return application

    def _prefix(self, number: int, wrapped: int) -> StyleAndTextTuples:
        if wrapped:
            return []
        sign = self.replies.sign
        return [("class:sign", sign if number == 0 else "...".rjust(len(sign) - 2) + ": ")]


class _Colours(Lexer):
    """The line in colours."""

    def lex_document(self, document: Document) -> Any:
        lines = document.lines

        def line(number: int) -> StyleAndTextTuples:
            return [(f"class:{kind}", text) for kind, text in colours.pieces(lines[number])]

        return line


class _Offers(Completer):
    """What may stand at the cursor."""

    def __init__(self, screen: Screen) -> None:
        self._screen = screen

    async def get_completions_async(
        self, document: Document, complete_event: CompleteEvent
    ) -> AsyncGenerator[Completion, None]:
        """The offers, looked for when the key is on the screen; none unasked behind a size that is complete."""
        self._screen.searching = True
        try:
            await self._screen.until_drawn()
            if not complete_event.completion_requested and await self._is_complete(document):
                return
            for completion in self.get_completions(document, complete_event):
                yield completion
        finally:
            self._screen.searching = False

    def get_completions(self, document: Document, complete_event: CompleteEvent) -> Iterable[Completion]:
        """What may stand at the cursor."""
        from fractions_shop.prompt.word_offers import (  # the first prompt need not wait for it
            names_begun,
            word_offers,
        )

        text = joined(document.text_before_cursor)
        model = self._screen.model
        asked = complete_event.completion_requested
        reads = model.mode is not None and own_word(text, model.state.homes) is None
        for offer in (
            names_begun(text, model.names) if reads else word_offers(text, model.names, asked, model.parts)
        ):
            yield Completion(
                offer.text,
                offer.start - len(text),
                display=offer.text.rstrip("("),
                display_meta=offer.meaning,
            )

    async def _is_complete(self, document: Document) -> bool:
        """Whether a size stands there that needs nothing more, so that no menu is wanted over it."""
        text = joined(document.text_before_cursor)
        for _ in range(_MOST_LOOKS):
            reading = self._screen.model.reading(text, 0.0)
            if reading is not None:
                return reading.error is None and reading.kind == "size"
            await asyncio.sleep(_LOOKS_EVERY)
        return False


class _FaultValidator(Validator):
    """Keeps a line that cannot be answered, with the cursor on the fault."""

    def __init__(self, screen: Screen) -> None:
        self._screen = screen

    def validate(self, document: Document) -> None:
        reading = self._screen.model.reading(document.text, _ENTER_WAITS)
        if reading is not None and reading.error is not None:
            raise ValidationError(min(reading.error.start, len(document.text)), reading.error.message)
