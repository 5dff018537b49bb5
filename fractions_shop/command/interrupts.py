"""What Ctrl-C does: it ends the command on the spot, until there is something to tidy up.

An exception in the midst of loading modules prints its trace, or is lost in a callback.
So the command begins with an end that needs no exception; the prompt, and whatever writes
a file, ask for the usual KeyboardInterrupt.
"""

import os

#: The exit status after Ctrl-C.
INTERRUPTED = 130

try:
    import signal
except KeyboardInterrupt:
    os._exit(INTERRUPTED)


def end_at_once() -> None:
    """From here on Ctrl-C ends the process quietly; a process told to ignore it still does."""
    if signal.getsignal(signal.SIGINT) is signal.default_int_handler:
        signal.signal(signal.SIGINT, _end)


def raise_instead() -> None:
    """From here on Ctrl-C is a KeyboardInterrupt, if it was to end the process at once."""
    if signal.getsignal(signal.SIGINT) is _end:
        signal.signal(signal.SIGINT, signal.default_int_handler)


def _end(number: int, frame: object) -> None:
    os._exit(INTERRUPTED)
