"""The command `fractions-shop`: one answer, a stream of statements, the prompt, or a command word.

What only some calls need is imported where they need it: one answer is given often
and must come at once.
"""

from __future__ import annotations

import sys

from fractions_shop.command.interrupts import INTERRUPTED, raise_instead
from fractions_shop.command.streams import (
    CLOSED_PIPE,
    DONE,
    FAILED,
    MISUSED,
    Stop,
    abandon,
    is_terminal,
    make_forgiving,
    put,
    refuse_own_output,
    say,
    shows_unicode,
    statement_in_argument,
    statements_in,
    width,
)
from fractions_shop.errors import InputError, ShopError

#: What a line can begin with that goes on from the last size.
_GOES_ON = tuple("+-*/×÷^−iatsdmIATSDM")

TYPE_CHECKING = False  # typing itself takes a few milliseconds to import
if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Sequence

    from fractions_shop.command.options import Options
    from fractions_shop.sheet.answer import Answer
    from fractions_shop.sheet.session import Session


def main(arguments: Sequence[str] | None = None, open_prompt: Callable[..., int] | None = None) -> int:
    """Run the command and return its exit status.

    `open_prompt` is what opens the prompt on a terminal (`fractions_shop.prompt.run`); without one
    the statements typed there are read as any others are.
    """
    try:
        make_forgiving()
        status = _stopped(sys.argv[1:] if arguments is None else list(arguments), open_prompt)
        if sys.stdout is not None:
            sys.stdout.flush()
    except KeyboardInterrupt:
        abandon(sys.stdout)
        return INTERRUPTED
    except BrokenPipeError:
        # What reads us has gone; nothing more can be said, not even at exit.
        abandon(sys.stdout)
        return CLOSED_PIPE
    except OSError as error:
        abandon(sys.stdout)
        say(f"fractions-shop: the answer cannot be written: {error.strerror or error}")
        return FAILED
    return status


def _stopped(arguments: list[str], open_prompt: Callable[..., int] | None) -> int:
    """The exit status, however the command came to its end."""
    try:
        return _run(arguments, open_prompt)
    except Stop as stop:
        say(f"fractions-shop: {stop}")
        return stop.status
    except SystemExit as end:  # argparse has spoken already
        return end.code if isinstance(end.code, int) else DONE


def _run(arguments: list[str], open_prompt: Callable[..., int] | None) -> int:
    if len(arguments) == 1 and arguments[0][:1] != "-" and not arguments[0].isalpha():
        # One statement, which is most calls, needs no reader of options.
        status = _answer_all([statement_in_argument(arguments[0])], None, "")
        if status:
            _hint_file(arguments[0])
        return status
    if arguments and arguments[0].isalpha():
        from fractions_shop.command.words import COMMANDS, command

        if arguments[0] in COMMANDS:
            return command(arguments[0])(arguments[1:])
        if arguments[0] == "help" and len(arguments) > 1:
            from fractions_shop.command.help_topic import tell

            return tell(" ".join(arguments[1:]))
    from fractions_shop.command.options import read_options

    # Nothing can be named help before the first statement, so it can only mean this.
    options = read_options(["--help"] if arguments == ["help"] else arguments)
    if options.completion or options.schema:
        put(_printed(options))
        return DONE
    if options.statements:
        source = "statement" if len(options.statements) > 1 else ""
        status = _answer_all(map(statement_in_argument, options.statements), options, source)
        if status:
            _hint_quotes(options.statements)
            _hint_file(options.statements[0])
        return status
    return _without_statements(options, open_prompt)


def _hint_quotes(statements: list[str]) -> None:
    """Say how a statement reaches us whole, when several arguments look like the words of one."""
    if len(statements) > 1 and not any(" " in statement for statement in statements):
        whole = " ".join(statements)
        quoted = f"'{whole}'" if "'" not in whole else f'"{whole}"' if '"' not in whole else ""
        example = f": fractions-shop {quoted}" if quoted else ""
        say(f"fractions-shop: put the whole statement in quotes{example}")


def _hint_file(statement: str) -> None:
    """Say which command takes a file, when the first statement is the name of one that is there."""
    if "." not in statement:
        return
    import shlex
    from pathlib import Path

    try:
        if not Path(statement).is_file():
            return
    except (OSError, ValueError):  # too long for a name, or with a sign that none has
        return
    from fractions_shop.errors import visible

    word = "column" if statement.lower().endswith(".csv") else "sheet"
    say(
        f"fractions-shop: {visible(statement)} is a file: fractions-shop {word} {visible(shlex.quote(statement))}"
    )


def _printed(options: Options) -> str:
    """A text that comes with the package."""
    if options.completion:
        from fractions_shop.command.completion import script

        return script(options.completion).rstrip("\n")
    from fractions_shop.show.schemas import schema

    return schema(options.schema or "answer")


def _without_statements(options: Options, open_prompt: Callable[..., int] | None) -> int:
    if sys.stdin is None:
        raise Stop("there is no statement to answer and standard input is closed; try --help")
    if open_prompt is not None and is_terminal(sys.stdin) and is_terminal(sys.stdout) and not options.json:
        from fractions_shop.size.notation import AS_USUAL, words_of

        raise_instead()
        given = {} if options.rule is None else {"rule": options.rule}
        if options.units != AS_USUAL:
            given["units"] = words_of(options.units)
        return open_prompt(plain=options.plain, **given)
    source = getattr(sys.stdin, "buffer", None)
    refuse_own_output(source, None, "what is read")
    return _answer_all(statements_in(sys.stdin), options, "line")


def _answer_all(statements: Iterable[str | InputError], options: Options | None, source: str) -> int:
    """Answer each statement as it comes; a fault is told, with its place, and the rest goes on."""
    from fractions_shop.sheet.session import Session

    try:
        session = Session(options.rule) if options and options.rule else Session()
    except ShopError as error:
        raise Stop(f"--rule: {error}", MISUSED) from None
    if options:
        session.units = options.units
    show = _Show(options, source)
    for number, statement in enumerate(statements, 1):
        try:
            if isinstance(statement, InputError):
                raise statement
            answer = _answered(session, statement)
        except InputError as error:
            show.fault(error, number)
        else:
            if answer is not None:
                show.answer(answer)
        if show.status and options and options.strict:
            break
    return show.status


def _answered(session: Session, statement: str) -> Answer | None:
    """The answer to a statement, or to the one that goes on from the last size, which is said."""
    if statement[:1] in _GOES_ON and "ans" in session.known:
        from dataclasses import replace

        from fractions_shop.language.notes import Note
        from fractions_shop.sheet.going_on import going_on

        whole = going_on(statement, session)
        answer = None if whole is None else session.answer(whole)
        if answer is not None:
            said = Note("echo", f"this goes on from the last size: {whole}")
            return replace(answer, notes=(said, *answer.notes))
    return session.answer(statement)


class _Show:
    """Writes answers and faults as sentences, or as JSON objects; keeps the exit status."""

    def __init__(self, options: Options | None, source: str) -> None:
        self.json = options is not None and options.json
        self.width = options.width if options else None
        self.source = source
        self.status = DONE
        self.first = True

    def answer(self, answer: Answer) -> None:
        """Write an answer; a check that does not hold counts as failed."""
        if not answer.ok:
            self.status = FAILED
        if self.json:
            self._object(answer.data())
            return
        text = answer.text(width(self.width))
        # Answers take several lines, so a blank one stands between two of them.
        put(text if self.first else f"\n{text}")
        self.first = False

    def fault(self, error: InputError, number: int) -> None:
        """Tell a fault: in sentences on standard error, or as an object among the answers."""
        self.status = FAILED
        if self.json:
            from fractions_shop.requests.data import fault

            self._object(fault(error.at(error.text, 0, number)))
            return
        say(f"{self.source} {number}: {error}" if self.source else str(error))

    def _object(self, fields: dict[str, object]) -> None:
        from fractions_shop.requests.data import json_text

        put(json_text(fields, letters=not shows_unicode(sys.stdout)))
