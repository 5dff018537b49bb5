"""`python -m fractions_shop` is the command; the installed command begins here too."""

import gc
import sys

from fractions_shop.command.interrupts import INTERRUPTED, end_at_once

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any


def main() -> int:
    """Load the command and run it; the exit status."""
    end_at_once()
    # A sheet is many things that stay; to look through them for garbage so often takes a fifth of a long one.
    gc.set_threshold(20_000)
    from fractions_shop.command.cli import main as command

    try:
        status = command(open_prompt=_open_prompt)
    except Exception as error:
        # A library may raise an error of its own while it tidies up after an interruption.
        if not _came_of_interrupt(error):
            raise
        status = INTERRUPTED
    end_at_once()  # everything is written; the interpreter only has to shut down
    return status


def _open_prompt(**asked: "Any") -> int:
    from fractions_shop.prompt import run  # most calls give one answer, and open none

    return run(**asked)


def _came_of_interrupt(error: BaseException | None) -> bool:
    while error is not None and not isinstance(error, KeyboardInterrupt):
        error = error.__context__
    return error is not None


if __name__ == "__main__":
    sys.exit(main())
