"""What passes between the command and the shell: streams, width, exit status."""

from __future__ import annotations

import codecs
import os
import sys
from collections.abc import Iterator

from fractions_shop.errors import InputError, ShopError, visible

TYPE_CHECKING = False  # typing itself takes a few milliseconds to import
if TYPE_CHECKING:
    from typing import BinaryIO, TextIO

#: Exit statuses: all well, a failed statement or check, wrong use, and a closed pipe.
DONE, FAILED, MISUSED, CLOSED_PIPE = 0, 1, 2, 141

#: A line of more bytes than this is not kept while it is read: no statement is so long.
LONGEST_LINE = 100_000
#: The rest of a line is passed over until it is longer than this: then it is no text that anyone wrote.
MOST_PASSED_OVER = 32_000_000

#: Signs of our answers in plain letters, for a terminal that knows no others.
_IN_LETTERS = {"±": "+-", "°": " deg", "µ": "u", "×": "x", "½": "1/2", "¼": "1/4", "¾": "3/4", "·": ".",
               "│": "|", "─": "-", "┴": "+", "┬": "+", "█": "#", "▒": "=", "░": "."}  # fmt: skip


class Stop(ShopError):
    """The command ends here: the sentence for standard error, and the exit status."""

    def __init__(self, message: str, status: int = MISUSED) -> None:
        super().__init__(message, status)
        self.message, self.status = message, status

    def __str__(self) -> str:
        return self.message


def put(text: str) -> None:
    """Write to standard output at once, so that what reads us need not wait for the end.

    Whatever the text holds, nothing but line ends and tabs is left for a terminal to act upon.
    """
    if sys.stdout is None:
        raise Stop("standard output is closed, so there is nowhere to answer", FAILED)
    sys.stdout.write(visible(text, keep="\n\r\t") + "\n")
    sys.stdout.flush()


def say(text: str) -> None:
    """Write to standard error, made safe as `put` does; one that is closed or full is left alone."""
    if sys.stdout is not None:
        sys.stdout.flush()
    try:
        if sys.stderr is not None:
            sys.stderr.write(visible(text, keep="\n\t") + "\n")
            sys.stderr.flush()
    except OSError:
        abandon(sys.stderr)


def abandon(stream: TextIO | None) -> None:
    """Point a stream at nothing, so that what it still holds cannot fail at exit."""
    try:
        nowhere = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nowhere, stream.fileno())  # type: ignore[union-attr]
        os.close(nowhere)
    except (OSError, AttributeError, ValueError):
        pass  # not a real stream, so nothing of it is written at exit


def make_forgiving() -> None:
    """Let the standard streams show any sign: in plain letters, or as a question mark.

    Standard error keeps one character for one, so that a caret stays under its place.
    """
    codecs.register_error("in letters", _in_letters)
    for stream, errors in ((sys.stdout, "in letters"), (sys.stderr, "replace")):
        reconfigure = getattr(stream, "reconfigure", None)
        if reconfigure is not None:
            reconfigure(errors=errors, newline="\n" if os.name != "nt" else None)


def in_letters(text: str, encoding: str) -> str:
    """Text as an encoding can hold it: signs that it lacks in plain letters, or as a question mark."""
    codecs.register_error("in letters", _in_letters)
    return text.encode(encoding, "in letters").decode(encoding)


def _in_letters(error: UnicodeError) -> tuple[str, int]:
    if not isinstance(error, UnicodeEncodeError):
        raise error
    signs = error.object[error.start : error.end]
    return "".join(_IN_LETTERS.get(sign, "?") for sign in signs), error.end


def shows_unicode(stream: TextIO | None) -> bool:
    """Whether a stream carries every sign."""
    return (getattr(stream, "encoding", None) or "").lower().replace("-", "").startswith("utf")


def is_terminal(stream: TextIO | None) -> bool:
    """Whether a person sits at the other end of a stream."""
    try:
        return stream is not None and stream.isatty()
    except ValueError:  # closed
        return False


def refuse_own_output(source: BinaryIO | str | None, out: str | None, name: str) -> None:
    """Stop when what is read would be written to: it would be spoilt, or never come to its end.

    `source` is an open file or a path, `out` a path, or None for standard output. The
    files themselves are compared, so that links and the shell's `<` and `>>` are seen through.
    """
    from fractions_shop.files.bounded import are_one_file, state_of

    read = state_of(source)
    if out is not None and are_one_file(read, state_of(out)):
        raise Stop(f"{visible(out)} is {name}: write to another file", MISUSED)
    if out is None and are_one_file(read, state_of(sys.stdout)):  # type: ignore[arg-type]
        raise Stop(f"standard output is {name}: write to another file", MISUSED)


def width(asked: int | None = None) -> int:
    """Columns to write in: as asked, else COLUMNS, else the terminal's, else 80."""
    if asked:
        return asked
    named = os.environ.get("COLUMNS", "")
    if named.isdecimal() and int(named[:6]) > 0:
        return int(named[:6])
    try:
        return os.get_terminal_size(sys.stdout.fileno()).columns or 80
    except (OSError, AttributeError, ValueError):
        return 80


# Statements as they come


def statement_in_argument(text: str) -> str | InputError:
    """A statement given as an argument, or the fault when its bytes are no text."""
    try:
        text.encode("utf-8")
    except UnicodeEncodeError as error:
        shown = text.encode("utf-8", "replace").decode()
        return InputError("this is not UTF-8 text", shown, error.start, error.start + 1)
    return text


def statements_in(stream: TextIO) -> Iterator[str | InputError]:
    """The lines of a stream, each as it arrives; an InputError for one that is not text.

    UTF-8 whatever the locale says; a line that is not is read in the stream's own
    encoding where that is another one. Any line ending will do.
    """
    source: BinaryIO | None = getattr(stream, "buffer", None)
    if source is None:
        yield from (line.rstrip("\r\n") for line in stream)
        return
    encoding = getattr(stream, "encoding", None) or "utf-8"
    mark = codecs.BOM_UTF8
    while raw := _read_line(source):
        raw, mark = raw.removeprefix(mark), b""
        if len(raw) > LONGEST_LINE:
            _skip_line(source)
            text = raw[:1000].decode("utf-8", "replace")
            yield InputError(
                f"the line is longer than {LONGEST_LINE:,} bytes",
                text,
                1000,
                1000,
                "break it into named parts",
            )
            continue
        text_or_fault = _decoded(raw.rstrip(b"\r\n"), encoding)
        if isinstance(text_or_fault, InputError):
            yield text_or_fault
        else:
            yield from text_or_fault.split("\r")


def _read_line(source: BinaryIO) -> bytes:
    try:
        return source.readline(LONGEST_LINE + 1)
    except OSError as error:
        raise Stop(f"standard input cannot be read: {error.strerror or error}", FAILED) from None


def _skip_line(source: BinaryIO) -> None:
    passed = 0
    while (part := _read_line(source)) and not part.endswith(b"\n"):
        passed += len(part)
        if passed > MOST_PASSED_OVER:
            raise Stop(
                f"standard input has a line of more than {MOST_PASSED_OVER:,} bytes, so it is not a text of statements",
                FAILED,
            )


def _decoded(raw: bytes, encoding: str) -> str | InputError:
    try:
        return raw.decode("utf-8")
    except UnicodeDecodeError as error:
        place, byte = len(raw[: error.start].decode("utf-8")), raw[error.start]
    try:
        # ASCII adds nothing to UTF-8; a one-byte encoding would read anything.
        return raw.decode(encoding)
    except (UnicodeDecodeError, LookupError):
        return InputError(
            f"this is not UTF-8 text: it holds the byte {byte:02x}",
            raw.decode("utf-8", "replace"), place, place + 1, "save it as UTF-8",
        )  # fmt: skip
