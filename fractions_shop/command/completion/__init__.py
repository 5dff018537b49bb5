"""Scripts that teach a shell to complete the command; once made, they run without the command."""

from __future__ import annotations

import os

#: The shells there is a script for.
SHELLS = ("bash", "zsh", "fish")


def script(shell: str) -> str:
    """The completion script of a shell in `SHELLS`, as text to be loaded by it."""
    path = os.path.join(os.path.dirname(__file__), f"fractions-shop.{shell}")  # noqa: PTH118, PTH120
    from fractions_shop.command.forms import FORMS
    from fractions_shop.show.columns import WHAT

    with open(path, encoding="utf-8") as file:  # noqa: PTH123 (pathlib takes as long as the answer)
        text = file.read().replace("FORMS_OF_A_SHEET", " ".join(FORMS))
    return text.replace("ROWS_OF_A_CSV", " ".join(("all", *WHAT)))
