"""What the keys do that an ordinary line of text does not have."""

from __future__ import annotations

import asyncio
from collections.abc import Callable
from typing import TYPE_CHECKING

from prompt_toolkit.buffer import ValidationState
from prompt_toolkit.filters import Condition, has_focus
from prompt_toolkit.key_binding import KeyBindings, KeyPressEvent
from prompt_toolkit.keys import Keys
from prompt_toolkit.utils import suspend_to_background_supported

from fractions_shop.prompt.lines import open_brackets, plain_line, statements
from fractions_shop.prompt.pasted_note import sorted_lines

if TYPE_CHECKING:
    from fractions_shop.prompt.screen_parts import ScreenParts

#: How often it is looked whether a search is over.
_LOOKS_EVERY = 0.002


def bindings(screen: ScreenParts) -> KeyBindings:
    """Our own keys; all others do what they do in any line."""
    keys = KeyBindings()
    buffer = screen.buffer
    here = has_focus(buffer)
    menu_open = Condition(lambda: buffer.complete_state is not None)

    @keys.add("enter", filter=here)
    def _enter(event: KeyPressEvent) -> None:
        state = buffer.complete_state
        if state is not None and state.current_completion is not None:
            buffer.complete_state = None  # the offer stands in the line; the next Enter answers it
            return
        if (offer := _offered(screen)) is not None:
            buffer.text = offer
            buffer.cursor_position = len(offer)
            return
        if _goes_on(screen):
            buffer.cursor_position = len(buffer.text)
            buffer.insert_text("\n")
            return
        buffer.validate_and_handle()
        if buffer.validation_state == ValidationState.INVALID:
            reading = screen.model.reading(buffer.text, 0.0)
            # A line that only stopped too soon goes on where it ends.
            error = None if reading is None else reading.error
            at_end = buffer.cursor_position == len(buffer.text)
            screen.refused = not (error is not None and error.ended and at_end)

    @keys.add(Keys.Any, filter=here & Condition(lambda: screen.was_refused))
    def _written(event: KeyPressEvent) -> None:
        if event.data.isprintable():
            _put_by(screen)
        buffer.insert_text(event.data * event.arg)

    @keys.add("tab", filter=here)
    def _tab(event: KeyPressEvent) -> None:
        state = buffer.complete_state
        if state is not None and state.completions:
            buffer.complete_next()
        else:
            event.app.create_background_task(_asked_for(screen))

    @keys.add("up", filter=here)
    def _up(event: KeyPressEvent) -> None:
        state = buffer.complete_state
        if state is not None and state.complete_index is None:
            buffer.cancel_completion()  # a menu that merely stands there is not in the way of earlier lines
        buffer.auto_up(count=event.arg)

    @keys.add("escape", filter=here & menu_open)
    def _close(event: KeyPressEvent) -> None:
        buffer.cancel_completion()

    @keys.add("c-c", filter=here)
    @keys.add("<sigint>")
    def _clear(event: KeyPressEvent) -> None:
        if not buffer.text:
            screen.hint = "Ctrl-D or quit leaves"
        buffer.append_to_history()  # Up brings it back
        event.app.layout.focus(buffer)
        if screen.waiting:
            event.app.exit(exception=KeyboardInterrupt())  # the rest of a paste goes on
            return
        buffer.reset()

    @keys.add("c-d", filter=here)
    def _leave(event: KeyPressEvent) -> None:
        if not buffer.text:
            event.app.exit(exception=EOFError())

    @keys.add("c-z", filter=Condition(suspend_to_background_supported))
    def _suspend(event: KeyPressEvent) -> None:
        event.app.suspend_to_background()

    @keys.add(Keys.BracketedPaste, filter=here)
    def _paste(event: KeyPressEvent) -> None:
        if screen.was_refused:
            _put_by(screen)
        _pasted(screen, event.data)

    return keys


def refusal_passes(screen: ScreenParts) -> Callable[[object], None]:
    """What every key does first: a refused line stands as one only until a key is pressed.

    What is written then is a new line, so that nobody who types on gets the old line glued to it; any
    other key (one that moves, or deletes) begins to mend the line.
    """

    def passes(_: object) -> None:
        screen.was_refused, screen.refused = screen.refused, False

    return passes


def _put_by(screen: ScreenParts) -> None:
    """Clear the line for a new one; Up brings it back."""
    screen.buffer.append_to_history()
    screen.buffer.reset()


def _offered(screen: ScreenParts) -> str | None:
    """The statement that the line means, to be put in its place; None where it stands for itself."""
    text = screen.buffer.text
    reading = screen.model.going_on(text) or screen.model.reading(text, 0.3)
    return reading.offer or None if reading is not None else None


async def _asked_for(screen: ScreenParts) -> None:
    """Look for what may stand at the cursor because Tab asks for it, behind a search that nobody asked for."""
    buffer = screen.buffer
    while screen.searching:
        buffer.cancel_completion()
        await asyncio.sleep(_LOOKS_EVERY)
    buffer.start_completion(insert_common_part=True)


def _goes_on(screen: ScreenParts) -> bool:
    """Whether a bracket is open and more may follow; a blank line in it ends the waiting."""
    text = screen.buffer.text
    if open_brackets(text) <= 0 or text.endswith("\n"):
        return False
    reading = screen.model.reading(text, 0.1)
    return reading is None or (reading.error is not None and reading.error.ended)


def _pasted(screen: ScreenParts, data: str) -> None:
    """Put a pasted line in; several are answered one after another."""
    buffer = screen.buffer
    data = data.replace("\r\n", "\n").replace("\r", "\n")
    if "\n" not in data.strip("\n"):
        buffer.insert_text(plain_line(data.strip("\n")))
        return
    before, after = buffer.document.text_before_cursor, buffer.document.text_after_cursor
    model, lines = screen.model, statements(before + data + after)
    if model.mode is None:
        lines = sorted_lines(lines, model.session, model.parts)
    first, *rest = lines or [""]
    screen.waiting.extend(rest)
    buffer.text = first
    buffer.cursor_position = len(first)
    screen.app.exit(result=first)
