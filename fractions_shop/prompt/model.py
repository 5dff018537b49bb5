"""What a prompt knows, whatever it looks like.

It reads a line as it is typed without remembering anything, answers one that is
entered from that same reading, and keeps what was entered for undo and for saving.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import Any, NamedTuple

from fractions_shop.errors import InputError
from fractions_shop.language.nodes import Naming, OddUnit, Statement, nodes_in
from fractions_shop.prompt.lines import joined
from fractions_shop.prompt.own_words import WORDS, own_word, own_word_fault
from fractions_shop.prompt.worker import Task, Worker
from fractions_shop.sheet.answer import Answer
from fractions_shop.sheet.session import Session
from fractions_shop.size import units
from fractions_shop.size.notation import after_name
from fractions_shop.size.rule import Rule
from fractions_shop.size.value import Value

#: What people are used to typing to leave, or for help.
_ALIKE = {"exit": "quit", "bye": "quit", "?": "help", "/help": "help"}
_HELPS = "help lists what there is to ask"
#: How many readings are kept; more than a line has keys.
_KEPT = 512
#: A key waits no longer than this for its reading; what takes longer is shown when it is there.
PATIENCE = 0.003


class LineReading(NamedTuple):
    """A line as it was read, worked out or not.

    `kind` is blank, word (one of the prompt's own), size or a request's word, `open`
    (more must follow, or may mend it) or fault. `words` is the answer in one line.
    """

    kind: str
    words: str
    statement: Statement | None = None
    answer: Answer | None = None
    error: InputError | None = None
    look_up: bool = False


class Entry(NamedTuple):
    """A statement that was answered: what it was named, drew on, and whether it left a size."""

    text: str
    answer: Answer
    before: Value | None = None
    placed: Any = None


class PromptModel:
    """Names, the rule, readings and what was entered, for one session at a prompt."""

    def __init__(self, rule: Rule | str = "64ths", digits: int = 6) -> None:
        self.session = Session(Rule(rule))
        self.first_rule = self.session.rule
        self.digits = digits
        #: What `save` writes, in order: answered statements, and lines of loaded files as they stood.
        self.lines: list[Entry | str] = []
        self.worker = Worker()
        self.when_read: Callable[[], None] = lambda: None
        self._tasks: dict[str, Task[LineReading]] = {}

    @property
    def names(self) -> dict[str, Value]:
        """What is named, `ans` among it."""
        return self.session.known

    @property
    def entries(self) -> list[Entry]:
        """The statements that were answered, in order."""
        return [line for line in self.lines if isinstance(line, Entry)]

    def keep(self, line: str) -> None:
        """Keep a line of a loaded file that is not answered here: a title, a note, a part, a fault."""
        self.lines.append(line)

    @property
    def rule(self) -> Rule:
        """The working rule."""
        return self.session.rule

    def reading(self, text: str, patience: float = PATIENCE) -> LineReading | None:
        """How a line reads now, remembering nothing; None if that is still being worked out.

        Each text is worked out once, here and by `enter` together.
        """
        if not text.strip():
            return LineReading("blank", "")
        task = self._tasks.get(text)
        if task is None or task.dropped:
            if len(self._tasks) >= _KEPT:
                self._tasks.clear()
            session = self.session.copy(lookups=False)
            task = self._tasks[text] = Task(lambda: _read(session, text, self.digits))
            self.worker.submit(task, self.when_read)
        return task.wait(patience)

    def settled(self, text: str) -> LineReading:
        """How a line reads, however long it takes; a KeyboardInterrupt leaves it be."""
        try:
            while (reading := self.reading(text, 0.2)) is None:
                pass
        except KeyboardInterrupt:
            self.worker.abandon()
            self.forget()
            raise
        if reading.look_up and reading.statement is not None:
            # A word that is no unit of ours is looked up only now: that takes a library to load.
            session = self.session.copy(lookups=True)
            return _worked_out(session, reading.statement, joined(text), self.digits)
        return reading

    def enter(self, text: str) -> Answer | None:
        """Answer a line and remember it; None for a blank one or a note, InputError for a fault."""
        reading = self.settled(text)
        if reading.error is not None:
            raise reading.error
        if reading.answer is None:
            return None
        answer = reading.answer
        before = self.names.get(answer.name) if answer.name else None
        placed = self.session.placed.get(answer.name) if answer.name else None
        self.session.remember(answer)
        self.lines.append(Entry(joined(text).strip(), answer, before, placed))
        self.forget()
        return answer

    def undo(self) -> Entry | None:
        """Take back the last naming that still stands; None when there is none.

        The name has its former value again, or is free. The size stays the last size.
        What was worked out with the name since goes from the statements that are saved.
        """
        named = [
            (n, line) for n, line in enumerate(self.lines) if isinstance(line, Entry) and line.answer.name
        ]
        if not named:
            return None
        place, entry = named[-1]
        name = entry.answer.name
        assert name is not None
        if entry.before is None:
            self.names.pop(name, None)
        else:
            self.names[name] = entry.before
        self.session.placed.pop(name, None)
        if entry.placed is not None:
            self.session.placed[name] = entry.placed
        statement = entry.answer.statement
        bare = statement[after_name(statement) :].strip()
        unnamed = entry._replace(text=bare, answer=_without_name(entry.answer), before=None)
        self.lines[place:] = [unnamed, *_not_drawing_on(name, self.lines[place + 1 :])]
        self.session.forget_doubts()
        for each in self.entries:
            self.session.remember_doubts(each.answer)
        self.forget()
        return entry

    def forget(self) -> None:
        """Drop the readings kept: a name or the rule has changed."""
        self._tasks.clear()


def _read(session: Session, text: str, digits: int) -> LineReading:
    word = own_word(text)
    if word is not None:
        return LineReading("word", WORDS[word[0]])
    line = joined(text)
    try:
        statement = session.read(line)
    except InputError as error:
        return _fault(error, text, session)
    if statement is None:
        return LineReading("blank", "")
    if isinstance(statement, Naming) and statement.name.lower() in WORDS:
        start = line.index(statement.name)
        return _fault(own_word_fault(statement.name, line, start), text, session)
    return _worked_out(session, statement, line, digits)


def _worked_out(session: Session, statement: Statement, line: str, digits: int) -> LineReading:
    try:
        answer = session.work_out(statement, line)
        words = answer.gist(digits)
    except InputError as error:
        odd = None if session.lookups else _odd_word(statement, error)
        if odd is None:
            return _fault(error, line, session)._replace(statement=statement)
        from fractions_shop.prompt.unfinished import standing

        begun = _begun(error, line, session.known)
        words = standing(error, line, session, begun) if begun else ""
        words = words or f"{odd} is not one of our units; Enter looks it up"
        return LineReading("open", words, statement, None, error, look_up=True)
    except Exception as error:  # an error of our own must not end the session
        message = f"this cannot be worked out, by a fault of this program ({type(error).__name__}: {error})"
        return _fault(InputError(message, line, 0, len(line)), line, session)
    return LineReading(answer.kind, words, statement, answer)


def _fault(error: InputError, text: str, session: Session) -> LineReading:
    """A fault, or `open` where what is typed next may mend it: at the very end of the line."""
    word = text.strip().lower()
    if word in _ALIKE:
        advice = f"write {_ALIKE[word]}" + (", or press Ctrl-D" if _ALIKE[word] == "quit" else "")
        error = error.with_advice(advice)
    elif not error.ended and not any(sign.isdigit() for sign in text):
        # Nothing in the line is a size: whoever typed it may not know what can be asked.
        advice = f"{error.advice}; {_HELPS}" if error.advice else _HELPS
        error = error.with_advice(advice)
    from fractions_shop.prompt.unfinished import standing  # only a line that cannot be read needs it

    begun = () if error.ended else _begun(error, text, session.known)
    words = standing(error, text, session, begun)
    if words:
        return LineReading("open", words, error=error)
    return LineReading("fault", error.sentence, error=error)


def _begun(error: InputError, text: str, names: Mapping[str, Value]) -> tuple[str, ...]:
    """What the end of a line may be the start of, where it is that end which is at fault."""
    from fractions_shop.prompt.word_offers import word_offers  # only a fault needs it

    return tuple(
        offer.text.rstrip("(")
        for offer in word_offers(text, names)
        if offer.start <= error.end and _begins(offer.text, text[offer.start :])
    )


def _begins(word: str, typed: str) -> bool:
    """Whether a word begins as typed; a thread has several ways to begin, all of them offered."""
    return word.lower().startswith(typed.lower()) or not typed.isidentifier()


def _odd_word(node: Any, error: InputError) -> str | None:
    """The word at fault, if it is one that could be a unit known elsewhere."""
    for part in nodes_in(node):
        if isinstance(part, OddUnit) and part.word_start == error.start:
            return part.word if units.two_meanings(part.word) is None else None
    return None


def _without_name(answer: Answer) -> Answer:
    return replace(answer, name=None)


def _not_drawing_on(name: str, lines: list[Entry | str]) -> list[Entry | str]:
    """The lines without the entries that draw on a name, or on the last size of one that did."""
    kept: list[Entry | str] = []
    lost_size = False
    for entry in lines:
        if isinstance(entry, str):
            kept.append(entry)
            continue
        draws = name in entry.answer.used or (lost_size and "ans" in entry.answer.used)
        if not draws:
            kept.append(entry)
        if entry.answer.value is not None:
            lost_size = draws
    return kept
