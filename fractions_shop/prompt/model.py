"""What a prompt knows, whatever it looks like: a sheet that every line typed is a line of.

It reads a line as it is typed without changing anything, and enters it from that same reading.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import partial
from typing import NamedTuple

from fractions_shop.errors import InputError
from fractions_shop.language.nodes import Naming, Statement
from fractions_shop.prompt.costly import is_costly
from fractions_shop.prompt.drafts import DraftStore
from fractions_shop.prompt.lines import joined
from fractions_shop.prompt.own_words import HABITS, KEPT, WORDS, own_word, own_word_fault
from fractions_shop.prompt.reading_mode import ReadingMode, words_begun
from fractions_shop.prompt.sheet_file import SheetFile
from fractions_shop.prompt.worker import Task, Worker
from fractions_shop.sheet.answer import Answer
from fractions_shop.sheet.entering import entered
from fractions_shop.sheet.lines import Line, read_lines
from fractions_shop.sheet.session import Session
from fractions_shop.sheet.states import Edit, State
from fractions_shop.show.feature_table import feature_words
from fractions_shop.show.moved_words import moved_text, part_text
from fractions_shop.show.stock_table import stock_in_short
from fractions_shop.size.notation import AS_USUAL, leading, told_in
from fractions_shop.size.rule import Rule
from fractions_shop.size.value import Value

_HELPS = "help lists what can be asked"
#: How many readings are kept; more than a line has keys.
_KEPT = 512
#: A key waits no longer than this for its reading; what takes longer is shown when it is there.
PATIENCE = 0.003
#: A reading that takes long is begun only when no key has come for so many seconds.
_PAUSE = 0.25


class LineReading(NamedTuple):
    """A line as it was read, worked out or not.

    `kind` is blank, word (one of the prompt's own), part, size or a request's word, `open`
    (more must follow, or may mend it), offer (it means the statement `offer`, which Enter puts in
    its place, also in that of an open one) or fault. `words` is the answer in one line, `moves` what entering it would move in the
    sheet, `edit` the change that entering it makes.
    """

    kind: str
    words: str
    statement: Statement | None = None
    answer: Answer | None = None
    error: InputError | None = None
    edit: Edit | None = None
    moves: str = ""
    offer: str = ""


class PromptModel:
    """The sheet, readings of the line that is typed, and what was folded away, for one session at a prompt."""

    def __init__(
        self,
        rule: Rule | str = "64ths",
        digits: int = 6,
        drafts: DraftStore | None = None,
        units: str = "",
    ) -> None:
        self.file = SheetFile(Rule(rule), drafts, leading(units) if units else AS_USUAL)
        self.digits = digits
        #: The rest of the last answer, which had no room, and how many rows the window has.
        self.folded: list[str] = []
        #: The line whose answer was shortened to the window last, by its number.
        self.shortened: int | None = None
        #: What is read off an instrument now, one figure a line; None while statements are typed.
        self.mode: ReadingMode | None = None
        self.rows = 24
        #: Whether rules are drawn under answers.
        self.draws = True
        self.worker = Worker()
        self.when_read: Callable[[], None] = lambda: None
        self._tasks: dict[str, Task[LineReading]] = {}

    @property
    def state(self) -> State:
        """The sheet as it stands."""
        return self.file.sheet.state

    @property
    def session(self) -> Session:
        """What the sheet knows."""
        return self.state.session

    @property
    def names(self) -> dict[str, Value]:
        """What is named, `ans` among it."""
        return self.session.known

    @property
    def parts(self) -> dict[str, str]:
        """The parts of the sheet as they are called, each as it is read."""
        made = (self.state.sheet.worked[n] for n in self.state.parts.values())
        return {item.line.part_name: "" if item.part is None else part_text(item.part) for item in made}

    @property
    def rule(self) -> Rule:
        """The working rule."""
        return self.state.rule

    def reading(self, text: str, patience: float | None = PATIENCE) -> LineReading | None:
        """How a line reads now, changing nothing; None if that is still being worked out.

        Without patience only what is known already is told, and nothing is begun. Each text is worked out once, here and by `enter` together.
        """
        if not text.strip():
            return LineReading("blank", "")
        if self.mode is not None and own_word(text, self.state.homes) is None:
            return self._reading_of_figures(self.mode, text, patience)
        return self._reading_of(text, patience)

    def _reading_of_figures(self, mode: ReadingMode, text: str, patience: float | None) -> LineReading | None:
        try:
            line = mode.statement(text, self.state)
        except InputError as error:
            words = f"{error.expected} is to follow" if error.ended else words_begun(text)
            return LineReading("open" if words else "fault", words or error.sentence, error=error)
        reading = self._reading_of(line, patience)
        if reading is None or reading.error is None:
            return reading
        placed = InputError(reading.error.message, text, 0, len(text), reading.error.advice)
        if reading.kind == "open":
            return reading._replace(error=placed)
        if words := words_begun(text):
            return reading._replace(kind="open", words=words, error=placed)
        return reading._replace(kind="fault", words=placed.sentence, error=placed)

    def _reading_of(self, text: str, patience: float | None) -> LineReading | None:
        task = self._tasks.get(text)
        if patience is None:
            return task.wait(0.0) if task is not None and not task.dropped else None
        if task is None or task.dropped:
            if len(self._tasks) >= _KEPT:
                self._tasks.clear()
            state = self.state
            pause = _PAUSE if is_costly(state, joined(text)) else 0.0
            task = self._tasks[text] = Task(lambda: _read(state, text, self.digits), pause)
            self.worker.submit(task, self.when_read)
        return task.wait(patience)

    def settled(self, text: str) -> LineReading:
        """How a line reads, however long it takes; a KeyboardInterrupt leaves it be."""
        try:
            reading = self.reading(text, 0.0)
            while reading is None:
                self.worker.hurry()
                reading = self.reading(text, 0.2)
        except KeyboardInterrupt:
            self.worker.abandon()
            self.forget()
            raise
        return reading

    def enter(self, text: str) -> Answer | None:
        """Enter a line; its answer, None for one that has none. InputError for a fault, and nothing is changed."""
        edit = self.edit(text)
        worked = None if edit is None else edit.worked
        return None if worked is None else worked.answer

    def edit(self, text: str) -> Edit | None:
        """Enter a line; what that changed, None for a blank one. InputError for a fault."""
        reading = self.settled(text)
        if reading.error is not None:
            raise reading.error
        if reading.edit is not None:
            self.file.sheet.take(reading.edit)
            self.forget()
        return reading.edit

    def going_on(self, text: str) -> LineReading | None:
        """How `+ 2 thou` reads where it may go on from the last size: as an offer; None for any other line."""
        if text.lstrip()[:1] not in ("+", "-"):
            return None
        from fractions_shop.prompt.proposals import going_on

        proposed = going_on(text, self.session)
        if proposed is None:
            return None
        return LineReading("offer", proposed.said, error=proposed.error, offer=proposed.statement)

    def forget(self) -> None:
        """Drop the readings that were kept: the sheet has changed."""
        self._tasks.clear()


def _read(state: State, text: str, digits: int) -> LineReading:
    word = own_word(text, state.homes)
    if word is not None:
        return LineReading("word", {**WORDS, **HABITS}[word[0]])
    try:
        return _entered(state, joined(text), digits, text)
    except Exception as error:  # an error of our own must not end the session
        message = f"this cannot be worked out, by a fault of this program ({type(error).__name__}: {error})"
        placed = InputError(message, text, 0, len(text))
        return LineReading("fault", placed.sentence, error=placed)


def _entered(state: State, line: str, digits: int, text: str = "") -> LineReading:
    """How a line reads, unless it is one of the prompt's own words."""
    session = state.session
    read = next(iter(read_lines(line)), None)
    if read is None:
        return LineReading("blank", "")
    try:
        edit = entered(state, line, read)
        worked = None if edit is None else edit.worked
        if edit is None or worked is None:
            return LineReading("blank", "")
        name = worked.line.sets
        if name.lower() in KEPT and edit.kind == "added":
            return _fault(own_word_fault(name, line, line.index(name)), text or line, session)
        words = "" if worked.answer is None else worked.answer.gist(digits)
        with told_in(worked.units):
            words = words if worked.part is None else part_text(worked.part)
            words = words if worked.feature is None else feature_words(worked.feature)
            words = words if worked.stock is None else stock_in_short(worked.stock)
        if worked.answer is None:
            words = "; ".join([words, *(note.text for note in worked.notes if note.kind == "doubt")])
        moves = moved_text(edit, would=True)
    except InputError as error:
        return _at_fault(error, session, line, read, text or line, state)
    kind = worked.answer.kind if worked.answer is not None else worked.line.kind
    return LineReading(kind, words, worked.line.node, worked.answer, None, edit, moves)


def _at_fault(
    error: InputError, session: Session, line: str, read: Line, text: str, state: State
) -> LineReading:
    """A line that the sheet does not take, with such advice as a session has that knows all its names."""
    if read.kind != "statement":
        return _other_fault(error, text, state)
    if any(name in state.homes and name not in _named(session) for name in read.uses):
        return _fault(
            error, line, session
        )  # the session knows no name whose line is at fault; the sheet does
    try:
        statement = session.read(line)
    except InputError as unread:
        return _fault(unread, text, session, state)
    if statement is None or (isinstance(statement, Naming) and statement.name in state.homes):
        return _fault(error, line, session)
    try:
        session.work_out(statement, line)
    except InputError as undone:
        return _fault(undone, line, session)._replace(statement=statement)
    return _fault(error, line, session)


def _named(session: Session) -> dict[str, Value | None]:
    """What is named, with those that have places and no size."""
    return {**session.known, **dict.fromkeys(session.placed)}


def _fault_of(state: State, line: str) -> InputError | None:
    """Why the sheet does not take a line; None for one that it takes."""
    try:
        entered(state, line)
    except InputError as error:
        return error
    return None


def _other_fault(error: InputError, text: str, state: State) -> LineReading:
    """A part, a hole or the like that the sheet does not take, or `open` where what is typed next may mend it."""
    from fractions_shop.prompt.unfinished_lines import line_standing

    words = line_standing(error, text, _named(state.session), state.parts, partial(_fault_of, state))
    return (
        LineReading("open", words, error=error)
        if words
        else LineReading("fault", error.sentence, error=error)
    )


def _fault(error: InputError, text: str, session: Session, state: State | None = None) -> LineReading:
    """A fault, or `open` where what is typed next may mend it: at the very end of the line."""
    if not error.ended and not any(sign.isdigit() for sign in text):
        # Nothing in the line is a size: whoever typed it may not know what can be asked.
        advice = f"{error.advice}; {_HELPS}" if error.advice else _HELPS
        error = error.with_advice(advice)
    # Only a line that cannot be read needs them.
    from fractions_shop.prompt.proposals import noted, proposal, side_begun
    from fractions_shop.prompt.unfinished import standing
    from fractions_shop.prompt.unfinished_lines import line_standing

    if state is not None and (
        words := line_standing(error, text, _named(session), state.parts, partial(_fault_of, state))
    ):
        return LineReading("open", words, error=error)
    begun = () if error.ended else _begun(error, text, session.known)
    if proposed := proposal(text, session):
        return LineReading("offer", proposed.said, error=proposed.error, offer=proposed.statement)
    words = standing(error, text, session, begun) or side_begun(text, session)
    proposed = noted(text, session)
    if words:
        return LineReading("open", words, error=error, offer=proposed.statement if proposed else "")
    if proposed:
        return LineReading("offer", proposed.said, error=proposed.error, offer=proposed.statement)
    return LineReading("fault", error.sentence, error=error)


def _begun(error: InputError, text: str, names: Mapping[str, Value]) -> tuple[str, ...]:
    """What the end of a line may be the start of, where it is that end which is at fault."""
    # Only a fault needs them.
    from fractions_shop.prompt.word_offers import word_offers
    from fractions_shop.size.other_lengths import beginning

    return beginning(text[error.start :]) or tuple(
        offer.text.rstrip("(")
        for offer in word_offers(text, names)
        if offer.start <= error.end and _begins(offer.text, text[offer.start :])
    )


def _begins(word: str, typed: str) -> bool:
    """Whether a word begins as typed; a thread has several ways to begin, all of them offered."""
    return word.lower().startswith(typed.lower()) or not typed.isidentifier()
