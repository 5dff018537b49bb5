"""The prompt in plain lines: for simple terminals, for screen readers, and for those who prefer it.

No menu, no drawing, no colour, nothing repainted: a line is asked for, and sentences answer.
"""

from __future__ import annotations

import contextlib
import sys
from types import ModuleType

from fractions_shop.command.streams import width
from fractions_shop.errors import InputError
from fractions_shop.prompt.between_prompts import ended_by_signal
from fractions_shop.prompt.lines import fault_lines, open_brackets, statements
from fractions_shop.prompt.replies import GREETING, HINT, Replies

#: Earlier lines that can be brought back; simple terminals are slow at showing them.
_RECALLED = 500


def run(replies: Replies) -> int:
    """Ask for lines and answer them until there are no more; the exit status."""
    editor = _line_editor(replies)
    replies.say(f"{GREETING}: {HINT}")
    replies.greet(width())
    offered = ""
    with ended_by_signal():
        while True:
            try:
                text = _ask(replies)
            except EOFError:
                replies.say()
                replies.leave(width())
                return 0
            except KeyboardInterrupt:
                replies.say()
                continue
            if editor is not None and text.strip():
                editor.add_history(text.replace("\n", " "))
            if not text.strip() and replies.model.mode is not None:
                replies.line("", width())
            elif not text.strip() and offered:
                replies.say(f"  {offered}")
                text = offered
            offered = ""
            for statement in statements(text):
                leaves, offered = _answered(replies, statement)
                if leaves:
                    replies.leave(width())
                    return 0


def _ask(replies: Replies) -> str:
    """One line, or several while a bracket is open; a blank one ends it."""
    text = input(replies.sign)
    while open_brackets(text) > 0 and not text.endswith("\n"):
        text += "\n" + input("...".rjust(len(replies.sign) - 2) + ": ")
    return text.rstrip("\n")


def _answered(replies: Replies, statement: str) -> tuple[bool, str]:
    """Answer one statement: whether it asks to leave, and the one that it means, where Enter alone takes that."""
    try:
        return replies.line(statement, width()), ""
    except InputError as error:
        for shown in fault_lines(error, width()):
            replies.say(shown)
        reading = replies.model.reading(statement)
        offered = "" if reading is None else reading.offer
        if offered:
            replies.say(f"Enter alone takes {offered}")
        replies.say()
        return False, offered
    except KeyboardInterrupt:
        replies.say("stopped")
    return False, ""


def _line_editor(replies: Replies) -> ModuleType | None:
    """The system's line editor with the earlier lines in it, or None where there is none."""
    if not (sys.stdin.isatty() and sys.stdout.isatty()):
        return None
    try:
        import readline
    except ImportError:
        return None
    with contextlib.suppress(AttributeError):  # not every editor has all of these
        readline.set_auto_history(False)
        readline.set_completer(None)
        readline.parse_and_bind('"\\t": self-insert')
    for line in replies.store.lines[-_RECALLED:]:
        readline.add_history(line)
    return readline
