"""Words that people type at a prompt out of habit: each does what it says, or says in one line what does."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from fractions_shop import __version__
from fractions_shop.command.settings import settings_path
from fractions_shop.figures.plain import folded
from fractions_shop.prompt.model import PromptModel


def _version(model: PromptModel, rest: str, width: int) -> Iterator[str]:
    yield f"fractions-shop {__version__}"


def _settings(model: PromptModel, rest: str, width: int) -> Iterator[str]:
    yield from folded(
        f"the settings are kept in the file {settings_path()}; help settings tells what there is to set",
        width,
    )


def _history(model: PromptModel, rest: str, width: int) -> Iterator[str]:
    yield from folded(
        "sheet lists the lines of the sheet; Up brings an earlier line back, Ctrl-R looks for one by any part of it",
        width,
    )


#: What each does when it is entered.
WORK: dict[str, Callable[[PromptModel, str, int], Iterator[str]]] = {
    "version": _version,
    "settings": _settings,
    "history": _history,
}
