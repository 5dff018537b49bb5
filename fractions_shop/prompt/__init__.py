"""The prompt: a line asked for, read as it is typed, and answered. The only user of prompt_toolkit."""

from __future__ import annotations

import os
import sys
from pathlib import Path

from fractions_shop.command.streams import MISUSED, is_terminal, say
from fractions_shop.errors import ShopError

#: Set to anything, this asks for the plain prompt, as the option does.
PLAIN_VARIABLE = "FRACTIONS_SHOP_PLAIN"
#: Terminals of which nothing can be asked.
_SIMPLE = ("", "dumb", "unknown")


def run(rule: str | None = None, plain: bool = False, units: str | None = None) -> int:
    """Open the prompt on the terminal; the exit status.

    `rule` is the working rule to begin with, and `units` what leads (`mm first`), in place of those in
    the settings; `plain` asks for plain lines without menu, drawing or colour. Terminals that are too
    simple get those anyway.
    """
    from fractions_shop.command.settings import read_settings
    from fractions_shop.prompt.drafts import DraftStore
    from fractions_shop.prompt.history import LineStore
    from fractions_shop.prompt.model import PromptModel
    from fractions_shop.prompt.replies import Replies

    settings, complaints = read_settings()
    for complaint in complaints:
        say(complaint)
    try:
        model = PromptModel(
            rule or settings.rule, settings.digits, DraftStore(_drafts_folder()), units or settings.units
        )
    except ShopError as error:
        say(f"fractions-shop: {error}")
        return MISUSED
    store = LineStore(_history_path())
    if store.trouble:
        say(store.trouble)
    plainly = plain or _needs_plain()
    replies = Replies(model, store, sys.stdout, settings.picture and not plainly)
    if not plainly:
        try:
            from fractions_shop.prompt.screen import Screen

            screen = Screen(replies)
        except Exception as error:  # a terminal of a kind that the full prompt does not know
            say(f"the plain prompt serves: {error or type(error).__name__}")
        else:
            return screen.run()
    from fractions_shop.prompt.plain import run as run_plain

    model.draws = False
    return run_plain(replies)


def _needs_plain() -> bool:
    if os.environ.get(PLAIN_VARIABLE):
        return True
    if not (is_terminal(sys.stdin) and is_terminal(sys.stdout)):
        return True
    return os.name != "nt" and os.environ.get("TERM", "").strip().lower() in _SIMPLE


def _history_path() -> Path | None:
    from fractions_shop.command.settings import history_path

    try:
        return history_path()
    except RuntimeError:  # no home folder is known
        return None


def _drafts_folder() -> Path | None:
    history = _history_path()
    return None if history is None else history.parent / "drafts"
