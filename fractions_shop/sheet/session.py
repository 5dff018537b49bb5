"""Session: statements answered in turn, with the names, the working rule and the last size between them."""

from __future__ import annotations

from collections.abc import Callable, Container, Iterable, Mapping
from typing import TYPE_CHECKING, Any, TypeVar

from fractions_shop import requests
from fractions_shop.errors import InputError, ShopError
from fractions_shop.language.advice.offers import Advice
from fractions_shop.language.evaluate import Evaluator
from fractions_shop.language.fault import Fault
from fractions_shop.language.nodes import Name, Named, Naming, Request, ShownExpression, Statement, nodes_in
from fractions_shop.language.notes import standing
from fractions_shop.language.parser import worded
from fractions_shop.requests import READS, RECONCILE
from fractions_shop.requests.expression import answer_expression, note_bare, note_wide
from fractions_shop.requests.reading import statement, with_example
from fractions_shop.sheet.answer import TOLD, Answer
from fractions_shop.sheet.roots import note_roots, roots_among
from fractions_shop.size.limits import Limits, nominal_of
from fractions_shop.size.notation import AS_USUAL, UnitsShown, told_in, units_shown
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.rule import Rule
from fractions_shop.size.standing import ALONE, is_sound, rests_on
from fractions_shop.size.value import Value

if TYPE_CHECKING:
    from fractions_shop.requests.heap import Heap, Tie
    from fractions_shop.requests.read_name import AsRead

T = TypeVar("T")

#: What a size without a name is called.
_LAST = "the last size"


class Session:
    """Statements answered one after another; names, `ans` and the rule last between them.

    `rule` is the working rule, `units` which figure of a size leads, and `known` what is named, `ans` among it. `placed` has
    the names of several places; `doubtful` the names whose size rests on a doubtful reading, each with
    the names (or `the last size`) that were so read; `moved` likewise those that rest on the space of a
    total that `divide` had to move.

    >>> bench = Session()
    >>> bench.answer("pitch = 2 1/32 in / 5").value.inch
    Fraction(13, 32)
    >>> print(bench.answer("pitch * 5").text())
    2 1/32 in = 2.03125 in = 51.59375 mm exactly
    a mark of the 32nds
    """

    def __init__(self, rule: Rule | str = "64ths") -> None:
        self.rule: Rule = Rule(rule)
        self.units: UnitsShown = AS_USUAL
        self.known: dict[str, Value] = {}
        self.doubtful: dict[str, tuple[str, ...]] = {}
        self.moved: dict[str, tuple[str, ...]] = {}
        self.placed: dict[str, Any] = {}
        #: The names that each name, and `ans`, rests on, directly or through others.
        self.rests: dict[str, frozenset[str]] = {}
        #: Names of the sheet that a line need not draw on, by their small letters.
        self.named_elsewhere: Mapping[str, str] = {}

        #: What was read and is weighed together with the next, and readings that are not.
        self.heap: Heap | None = None
        self.read_elsewhere: Mapping[str, AsRead] = {}

    def __repr__(self) -> str:
        return f"<Session on {self.rule.name}, names: {len(self.known.keys() - {'ans'}):,}>"

    @property
    def names(self) -> dict[str, Value]:
        """What is named, `ans` among it; a copy."""
        return dict(self.known)

    def copy(self) -> Session:
        """A session that has the same names and rule, to try a line on."""
        other = Session(self.rule)
        other.known, other.doubtful, other.moved = dict(self.known), dict(self.doubtful), dict(self.moved)
        other.placed, other.named_elsewhere = dict(self.placed), self.named_elsewhere
        other.units, other.rests = self.units, dict(self.rests)
        other.heap, other.read_elsewhere = self.heap, self.read_elsewhere
        return other

    def answer(self, text: str) -> Answer | None:
        """Read, work out and remember one statement; None for a blank or comment line.

        InputError, with the place, when it cannot be read or worked out; nothing is
        remembered then.
        """
        read = self.read(text)
        if read is None:
            return None
        answer = self.work_out(read, text)
        before = dict(self.known)
        self.remember(answer)
        return self._without_stale(answer, before)

    def _without_stale(self, answer: Answer, before: Mapping[str, Value]) -> Answer:
        """Forget every name that rests on one which is another size now; the answer with a remark on that.

        A sheet and the prompt work such names out anew; here their statements are gone.
        """
        moved = [name for name, size in before.items() if name != "ans" and self.known.get(name) != size]
        if not moved:
            return answer
        from fractions_shop.sheet.stale_names import stale_names, told_of_stale

        stale = stale_names(self.rests, moved)
        for name in stale:
            for kept in (self.known, self.placed, self.doubtful, self.moved, self.rests):
                kept.pop(name, None)
        if stale and self.heap is not None:
            self.heap = self.heap.without(stale)
        return told_of_stale(answer, stale, moved)

    def ask(self, text: str) -> Answer:
        """The answer to one statement, as `answer`; InputError for a line that holds none too."""
        answer = self.answer(text)
        if answer is None:
            raise InputError("there is no statement here", text, 0, len(text), "write a size such as 2 in")
        return answer

    def size(self, text: str) -> Quantity:
        """The one size that a statement answers, without its limits if it has some; InputError where it has none."""
        value = self.ask(text).value
        if not isinstance(value, Quantity | Limits):
            raise InputError("this is not answered by one size", text, 0, len(text))
        return nominal_of(value)

    def read(self, text: str) -> Statement | None:
        """The statement that a line says, None for a blank or comment line; InputError when it says none."""
        try:
            return statement(text)
        except InputError as error:
            raise self._passed(error) from None

    def work_out(self, statement: Statement, text: str) -> Answer:
        """The answer to a statement already read, remembering nothing."""
        if units_shown.get() == self.units:  # as usual
            return self._worked_out(statement, text)
        with told_in(self.units):
            return self._worked_out(statement, text)

    def _worked_out(self, statement: Statement, text: str) -> Answer:
        try:
            return self._worked(statement, text)
        except InputError:
            piece = text
            if not isinstance(statement, Naming):  # a part's size is a piece of its line
                piece = " " * statement.start + text[statement.start : statement.end]
            said = worded(piece) if _is_named(statement, self.known, self.named_elsewhere) else None
            if said is None:
                raise
        return self._worked(said, text)

    def _worked(self, statement: Statement, text: str) -> Answer:
        if isinstance(statement, Naming):
            name, part = statement.name, statement.answer
        else:
            name, part = None, statement
        evaluator = self._evaluator(text, name or "")
        try:
            if isinstance(statement, Naming):
                evaluator.naming_each = statement.each
                self._refuse_both(statement)
            kind, result, value = self._result(part, evaluator, text)
            if name is not None and value is None and kind != READS and places_of(result) is None:
                raise Fault(
                    f"the answer to {kind} is not one size, so it cannot be named",
                    part.start,
                    part.end,
                    "name a size, a snap or a divide",
                )
        except Fault as fault:
            raise self._passed(with_example(fault.in_line(text))) from None
        except ShopError as error:
            if isinstance(error, InputError):
                raise
            raise InputError(str(error), text, part.start, part.end) from None
        if name is None and kind == "size":
            note_bare(part, value, text, evaluator)
        if self.doubtful or self.moved:
            note_roots(evaluator, self.doubtful, self.moved)
        if evaluator.rested or (value is not None and value.standing):
            value = _resting(value, evaluator)
        if value is None:
            note_wide((getattr(result, "left", None), getattr(result, "right", None)), evaluator)
        elif isinstance(value, Limits):
            note_wide((value,), evaluator)
            value = value if name is None else value.labelled(name)
        open_roots = tuple(root for root in roots_among(evaluator.used, self.doubtful) if root != name)
        notes, used = tuple(evaluator.notes), tuple(evaluator.used)
        return Answer(text, kind, value, result, notes, name, used, self.units, open_roots)

    def _evaluator(self, text: str, naming: str) -> Evaluator:
        evaluator = Evaluator(self.known, text, self.placed)
        evaluator.naming, evaluator.heap, evaluator.named_elsewhere = naming, self.heap, self.named_elsewhere
        evaluator.readings = {**self.read_elsewhere, **self.heap.said} if self.heap else self.read_elsewhere
        return evaluator

    def _refuse_both(self, naming: Naming) -> None:
        """A name reads, or is set to a size; Fault for one that would be both."""
        reads = isinstance(naming.answer, Request) and naming.answer.word == READS
        for name in naming.each or (naming.name,):
            read = self.heap is not None and name in self.heap.said
            if read == reads or (name not in self.known and not read):
                continue
            message = (
                "reads already, so it cannot be set" if read else "is set already, so it cannot read as well"
            )
            end = naming.answer.start if naming.each else naming.start + len(naming.name)
            raise Fault(f"{name} {message}", naming.start, end, "choose another name")

    def reading_of(self, name: str, request: Request, text: str) -> AsRead:
        """What a request says that an instrument said of a name; InputError, placed, for what cannot be read."""
        from fractions_shop.requests.inputs import Inputs
        from fractions_shop.requests.measured import said_of_one

        given = Inputs(request, self._evaluator(text, name), self.rule, text)
        return self._taken(lambda: said_of_one(given), request, text)

    def tie_of(self, request: Request, text: str) -> Tie:
        """The relations that a request states; InputError, placed, for one that cannot be read."""
        from fractions_shop.requests.inputs import Inputs
        from fractions_shop.requests.reconcile import tie_of

        given = Inputs(request, self._evaluator(text, ""), self.rule, text)
        return self._taken(lambda: tie_of(given), request, text)

    def _taken(self, work_out: Callable[[], T], request: Request, text: str) -> T:
        try:
            return work_out()
        except Fault as fault:
            raise self._passed(fault.in_line(text)) from None
        except InputError:
            raise
        except ShopError as error:
            raise InputError(str(error), text, request.start, request.end) from None

    def _passed(self, error: InputError) -> InputError:
        """The error with such advice only as would be answered here."""
        from fractions_shop.language.advice.gate import passed  # few lines have a fault

        if isinstance(error.advice, Advice):
            error = passed(error, self._accepts)
        if isinstance(error.advice, Advice) and not error.advice.is_example:
            return error
        from fractions_shop.language.advice.bench_words import asked
        from fractions_shop.size.notation import as_meant

        return asked(error.text, as_meant(error.text), self._accepts, error.advice) or error

    def _accepts(self, line: str) -> bool:
        """Whether a line can be read and, unless that takes long, is answered with the names there are."""
        from fractions_shop.language import grammar

        if not grammar.reads(line):
            return False
        read = statement(line)
        part = read.answer if isinstance(read, Naming) else read
        if not isinstance(part, ShownExpression | Request):
            return True
        if isinstance(part, Request) and len(part.subjects) > 1 and requests.room(part.word).takes_long:
            known = all(node.word in self.known for node in nodes_in(part) if isinstance(node, Name))
            return known and part is read  # nor could the answer be named
        try:
            result = self._result(part, Evaluator(self.known, placed=self.placed), line)
        except (Fault, ShopError):
            return False
        return part is read or result[2] is not None or places_of(result[1]) is not None

    def remember(self, answer: Answer) -> None:
        """Keep what an answer names, sets, or leaves as the last size."""
        sets_rule = answer.room.sets_rule if answer.kind in requests.RULES else None
        if sets_rule is not None:
            self.rule = sets_rule(answer.result)
        if answer.kind == requests.UNITS:
            self.units = answer.result.units
        if answer.used or answer.name is not None:
            from fractions_shop.sheet.stale_names import rests_of  # a single answer needs none of it

            self.rests |= rests_of(answer, self.rests)
        elif answer.value is not None:
            self.rests.pop("ans", None)
        if answer.name is not None:
            self.placed.pop(answer.name, None)
            placed = places_of(answer.result)
            if placed is not None:
                self.placed[answer.name] = placed
                self.known.pop(answer.name, None)
                self._remember_of(answer, (answer.name,))
        if answer.value is not None:
            self.known["ans"] = answer.value
            self.known.update(answer.named)
            self.remember_doubts(answer)
        if answer.kind in (READS, RECONCILE):
            self._remember_read(answer)

    def _remember_read(self, answer: Answer) -> None:
        """Keep what was read, and the sizes of all that was weighed with it."""
        from fractions_shop.requests.heap import Heap

        heap = self.heap or Heap()
        if answer.kind == RECONCILE:
            self.heap = heap.tied(answer.result.tie)
        else:
            self.heap = heap.reading(answer.result.name, answer.result.said)
        sizes, unsettled = self.heap.sizes()
        for name in self.heap.said:
            self.known.pop(name, None)
            self.doubtful.pop(name, None)
            if name in sizes:
                self.known[name] = sizes[name]
            own = (name,) if name in unsettled else ()
            if roots := (*own, *roots_among(self.heap.draws_on(name), self.doubtful)):
                self.doubtful[name] = roots

    def remember_doubts(self, answer: Answer) -> None:
        """Keep which names rest on a doubtful reading, or a moved total, now that this one is answered."""
        self._remember_of(answer, tuple(dict.fromkeys(("ans", *answer.named))))

    def _remember_of(self, answer: Answer, names: tuple[str, ...]) -> None:
        for kept, roots in ((self.doubtful, self.roots_of(answer)), (self.moved, self.moved_of(answer))):
            for name in names:
                kept.pop(name, None)
                if roots and (name == "ans" or not answer.names_several):
                    kept[name] = roots
        for name in getattr(answer.result, "unsettled", ()) if answer.names_several else ():
            self.doubtful[name] = (name,)

    def forget_doubts(self) -> None:
        """Start again with names on which nothing is known to rest."""
        self.doubtful.clear()
        self.moved.clear()

    def roots_of(self, answer: Answer) -> tuple[str, ...]:
        """The doubtful readings that an answer is or rests on."""
        doubted = answer.name in answer.result.unsettled if answer.names_several else bool(answer.doubts)
        roots = roots_among(answer.used, self.doubtful)
        return (answer.name or _LAST, *roots)[: TOLD + 1] if doubted else roots

    def moved_of(self, answer: Answer) -> tuple[str, ...]:
        """The spaces of moved totals that an answer is or rests on."""
        roots = roots_among(answer.used, self.moved)
        return (answer.name or _LAST, *roots)[: TOLD + 1] if answer.moved else roots

    def _result(
        self, part: ShownExpression | Request, evaluator: Evaluator, text: str
    ) -> tuple[str, Any, Value | None]:
        if isinstance(part, Request):
            from fractions_shop.requests.answering import answer  # a plain size needs none of it

            return part.word, *answer(part, evaluator, self.rule, text)
        return answer_expression(part, evaluator, self.rule)


def _resting(value: Value | None, evaluator: Evaluator) -> Value | None:
    """The value, trusted no further than what it was worked out from; where that needs a word, it is said."""
    for sentence in rests_on(evaluator.rested):
        evaluator.note(standing(sentence))
    if value is None:
        return None
    if not evaluator.rested and not is_sound(value.standing):
        evaluator.note(standing(f"this figure is {ALONE[value.standing]}"))
    for least in evaluator.rested.values():
        value = value.resting_on(least)
    return value


def _is_named(statement: Statement, known: Iterable[str], elsewhere: Container[str]) -> bool:
    """Whether a statement is the name of a thread, gauge or drill, which other words may say too.

    Not where it begins as a name of the sheet does: R1/4 where R1 is a size.
    """
    part = statement.answer if isinstance(statement, Naming) else statement
    if not isinstance(part, ShownExpression) or not isinstance(part.expression, Named):
        return False
    text = part.expression.text.casefold()
    named_elsewhere = any(text[:place] in elsewhere for place in range(1, len(text) + 1))
    return not named_elsewhere and not any(text.startswith(name.casefold()) for name in known)


def places_of(result: Any) -> Any:
    """The places that an answer gives, to be named; None for an answer that gives none."""
    if getattr(result, "points", None) is None:
        return None
    from fractions_shop.layout.places import Places, places  # most sheets have none

    placed = getattr(result, "placed", None) or getattr(result, "places", result)
    return placed if isinstance(placed, Places) else places(placed)
