"""A sheet worked out: every line answered, at fault, or waiting for one that is."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import InitVar, dataclass, field
from typing import TYPE_CHECKING

from fractions_shop.errors import InputError
from fractions_shop.language.nodes import Request
from fractions_shop.language.notes import Note
from fractions_shop.requests.answering import asks_the_rule
from fractions_shop.requests.check import CheckResult
from fractions_shop.sheet.advised import NamesForAdvice
from fractions_shop.sheet.answer import Answer
from fractions_shop.sheet.cut_parts import settled_features
from fractions_shop.sheet.kept import Key, Keys, Outcome, Outcomes
from fractions_shop.sheet.lines import Line
from fractions_shop.sheet.order import Plan, plan
from fractions_shop.sheet.part_lines import Part
from fractions_shop.sheet.read_together import ReadNames, request_of
from fractions_shop.sheet.session import Session, places_of
from fractions_shop.sheet.worked_features import Feature, work_out_feature
from fractions_shop.sheet.worked_parts import work_out_part
from fractions_shop.sheet.worked_stock import PartStock, work_out_stock
from fractions_shop.size.drafts import Drafted
from fractions_shop.size.frozen import Record
from fractions_shop.size.notation import AS_USUAL, UnitsShown
from fractions_shop.size.rule import Rule
from fractions_shop.size.value import Value

if TYPE_CHECKING:
    from fractions_shop.requests.heap import Heap

#: The working rule above the first `rule` line.
FIRST_RULE = "64ths"


@dataclass(frozen=True, slots=True)
class Wait:
    """What a line waits for: a name (or `ans`, or `the rule`) and the line that should give it."""

    name: str
    line: int


class Worked(Record, metaclass=Drafted):
    """One line and what came of it: one of `answer`, `part`, `feature`, `stock`, `fault` and `waits`.

    Titles, notes and blank lines have none of them. `rule` is the working rule that the
    line stands under, `units` which figures of its sizes lead.
    """

    line: Line
    rule: Rule
    answer: Answer | None = None
    part: Part | None = None
    feature: Feature | None = None
    stock: PartStock | None = None
    fault: InputError | None = None
    waits: tuple[Wait, ...] = ()
    units: UnitsShown = AS_USUAL

    @property
    def state(self) -> str:
        """`answered`, `holds`, `fails`, `fault`, `waits`, or the kind of a line that asks for no answer."""
        if self.fault is not None:
            return "fault"
        if self.waits:
            return "waits"
        check = self.check
        if check is not None:
            return "holds" if check.holds else "fails"
        return "answered" if self.line.works else self.line.kind

    @property
    def check(self) -> CheckResult | None:
        """The result of a check, or None for other lines."""
        result = self.answer.result if self.answer is not None else None
        return result if isinstance(result, CheckResult) else None

    @property
    def undone(self) -> bool:
        """Whether the line is at fault, or waits for one that is."""
        return self.fault is not None or bool(self.waits)

    @property
    def is_listed(self) -> bool:
        """Whether one of the sheet's lists has the line: a named size, a part, what is cut in one, or a check."""
        return bool(self.line.sets) or self.line.kind in ("part", "feature") or self.line.is_check

    @property
    def notes(self) -> tuple[Note, ...]:
        """What is said beside the line's answer, or of how its part was read."""
        made = self.part or self.feature or self.stock or self.answer
        return () if made is None else made.notes

    @property
    def taken_on(self) -> Rule:
        """The rule that the line's size was taken on: the request's own, or else the working rule."""
        own = getattr(self.answer.result, "rule", None) if self.answer is not None else None
        return own if isinstance(own, Rule) else self.rule

    @property
    def lacks_size(self) -> bool:
        """Whether there is no answer, or one that names what has no size yet."""
        return self.answer is None or self.answer.lacks_size

    @property
    def lacks_size_or_part(self) -> bool:
        """Whether there is nothing that another line could draw on."""
        return self.part is None and self.stock is None and self.lacks_size

    @property
    def value(self) -> Value | None:
        """The one size of the line's answer, or None."""
        return self.answer.value if self.answer is not None else None


@dataclass
class Working:
    """A sheet's lines worked out in the order in which they draw on one another."""

    lines: tuple[Line, ...]
    #: The working of the sheet before a change: what it found that still holds is not worked out again.
    earlier: InitVar[Working | None] = None
    plan: Plan = field(init=False)
    done: dict[int, Worked] = field(init=False, default_factory=dict)
    rules: list[Rule] = field(init=False, default_factory=list)
    units: list[UnitsShown] = field(init=False, default_factory=list)
    #: By line, the doubtful readings that its size is or rests on.
    doubtful: dict[int, tuple[str, ...]] = field(init=False, default_factory=dict)
    #: By line, the spaces of moved totals that its size is or rests on.
    moved: dict[int, tuple[str, ...]] = field(init=False, default_factory=dict)

    def __post_init__(self, earlier: Working | None) -> None:
        self.plan = plan(self.lines)
        self.session = Session(Rule(FIRST_RULE))
        names = [line.sets for line in self.lines if line.sets]
        self.session.named_elsewhere = {name.casefold(): name for name in reversed(names)}
        self._read = ReadNames(self.lines, self.plan.groups)
        self._setting = {line.sets: line for line in reversed(self.lines) if line.sets}
        self._advice = NamesForAdvice(names)
        self._kept = Outcomes()
        self._earlier = Outcomes() if earlier is None else earlier.kept
        self._keys = Keys(self.lines, self.plan, frozenset(names), self._kept)
        #: Whether what came of each line is noted at once. Most sheets are never changed, and read and cut nothing.
        self._notes = earlier is not None or bool(self._read.group_of or self.plan.cut_in)
        #: The lines that were worked out without that, in order.
        self._unnoted: list[int] = []
        self._rule_waits: dict[int, Wait] = {}
        self._rule_waits = self._set_rules()
        for n in self.plan.order:
            if n not in self.done:
                self.done[n] = self._work_out(n)
        self._settle_features()
        for n in self.plan.rest:
            self.done[n] = Worked(self.lines[n], self.rules[n], waits=self._waits(n), units=self.units[n])

    def _settle_features(self) -> None:
        """Take what is cut in each part together: what has no room there is at fault."""
        by_part: dict[int, list[int]] = {}
        for n, item in self.done.items():
            if item.feature is not None:
                by_part.setdefault(self.plan.cut_in[n], []).append(n)
        for home, unsorted in by_part.items():
            part, every = self.done[home].part, sorted(unsorted)
            features = [feature for n in every if (feature := self.done[n].feature) is not None]
            assert part is not None
            lines = [self.lines[n] for n in every]
            settled, (key, said) = settled_features(part, features, lines, self._earlier.cut_parts)
            self._kept.cut_parts[key] = said
            for n, as_it_is in zip(every, settled, strict=True):
                if isinstance(as_it_is, InputError):
                    self.done[n] = self.done[n].but(feature=None, fault=as_it_is)
                elif as_it_is is not self.done[n].feature:
                    self.done[n] = self.done[n].but(feature=as_it_is)

    @property
    def kept(self) -> Outcomes:
        """What came of each line, for the sheet after a change."""
        unnoted, self._unnoted = self._unnoted, []
        for n in unnoted:
            item = self.done[n]
            self._note(n, self._keys.of_line(n, (item.rule, item.units), None), item)
        return self._kept

    def _note(self, n: int, key: Key, worked: Worked) -> None:
        outcome = Outcome(object(), worked, self.doubtful.get(n, ()), self.moved.get(n, ()))
        name = self.lines[n].sets
        self._kept.keep(n, key, self._earlier.with_token_kept(outcome, name), name)

    @property
    def worked(self) -> tuple[Worked, ...]:
        """Every line with what came of it, in the order of the file."""
        return tuple(
            self.done.get(n)
            or Worked(line, self.rules[n], fault=self.plan.faults.get(n), units=self.units[n])
            for n, line in enumerate(self.lines)
        )

    def heap_of_all(self) -> Heap | None:
        """Whatever was read in the sheet, as one heap; None where nothing was."""
        return self._read.all()

    def _set_rules(self) -> dict[int, Wait]:
        """Note the rule and the units that every line stands under; the lines whose own rule is at fault."""
        rule, waiting, waits = Rule(FIRST_RULE), None, {}
        units = AS_USUAL
        for n, line in enumerate(self.lines):
            may_set = line.fault is not None or isinstance(line.node, Request)
            if may_set and (line.is_rule or line.begins_a_rule):
                item = self._work_out(n)
                self.done[n] = item
                sets_rule = item.answer.room.sets_rule if item.answer is not None else None
                waiting = Wait("the rule", line.number) if sets_rule is None else None
                if item.answer is not None and sets_rule is not None:
                    rule = sets_rule(item.answer.result)
            elif may_set and line.is_units:
                self.done[n] = item = self._work_out(n)
                units = units if item.answer is None else item.answer.result.units
            elif waiting is not None and line.request and asks_the_rule(request_of(line)):
                waits[n] = waiting
            self.rules.append(rule)
            self.units.append(units)
        return waits

    def _units_of(self, n: int) -> UnitsShown:
        """Which figures lead at a line; one that sets it is told as before."""
        return self.units[n] if n < len(self.units) else AS_USUAL

    def _work_out(self, n: int) -> Worked:
        line, fault = self.lines[n], self.plan.faults.get(n)
        fault = fault or self._fault_of_reading(n)
        rule = self.rules[n] if n < len(self.rules) else Rule(FIRST_RULE)
        units = self._units_of(n)
        if fault is not None:
            return Worked(line, rule, fault=fault, units=units)
        waits = self._waits(n) or self._waits_for_first(n)
        if not waits and n in self._read.group_of:
            self._weigh(n)
            fault = self._fault_of_reading(n)
            if fault is not None:
                return Worked(line, rule, fault=fault, units=units)
            hinders = [self.lines[other] for other in self._read.hinders(n)]
            waits = tuple(Wait(other.sets or "the relations", other.number) for other in hinders)
        if waits:
            return Worked(line, rule, waits=waits, units=units)
        if not self._notes:
            self._unnoted.append(n)
            return self._worked_anew(n, rule)
        key = self._keys.of_line(n, (rule, units), self._read.group_of.get(n))
        outcome = self._earlier.by_key.get(key)
        if outcome is not None:
            return self._as_before(n, key, outcome)
        worked = self._worked_anew(n, rule)
        self._note(n, key, worked)
        return worked

    def _worked_anew(self, n: int, rule: Rule) -> Worked:
        try:
            return self.again(n, {}, rule)
        except InputError as error:
            return Worked(self.lines[n], rule, fault=self._told_of(n, error), units=self._units_of(n))

    def _told_of(self, n: int, error: InputError) -> InputError:
        return self._advice.advised(error, self.lines[n], self.plan.draws[n], self.session)

    def _as_before(self, n: int, key: Key, outcome: Outcome) -> Worked:
        """What the earlier working found, on the line where it stands now."""
        line = self.lines[n]
        worked: Worked = outcome.worked
        if worked.line is not line:
            fault = None if worked.fault is None else worked.fault.at(line.text, 0, line.number)
            worked = worked.but(line=line, fault=fault)
        for kept, roots in ((self.doubtful, outcome.doubtful), (self.moved, outcome.moved)):
            if roots:
                kept[n] = roots
        self._kept.keep(n, key, outcome._replace(worked=worked), line.sets)
        return worked

    def _weigh(self, n: int) -> None:
        """Weigh the names that read with this line, unless the earlier working has done so."""
        group = self._read.group_of[n]
        key = self._keys.of_group(group)
        weighed = self._kept.groups.get(key) or self._earlier.groups.get(key)
        if weighed is not None:
            self._read.take(group, weighed)
        else:
            self._read.make(n, self.session, self._drawn_on(n))
            weighed = self._read.made(group)
        self._kept.groups[key] = weighed

    def _fault_of_reading(self, n: int) -> InputError | None:
        error = self._read.faults.get(n)
        return None if error is None else self._told_of(n, error)

    def _drawn_on(self, n: int) -> dict[str, Value]:
        """The sizes of the names that a line draws on, as far as they have one."""
        values = {
            name: self.done[source].value
            for name, source in self.plan.draws[n].items()
            if source in self.done
        }
        return {name: value for name, value in values.items() if value is not None}

    def _waits(self, n: int) -> tuple[Wait, ...]:
        waits: list[Wait] = []
        for name, source in self.plan.draws[n].items():
            item = self.done.get(source)
            if item is None or (item.value is None and item.lacks_size_or_part):
                waits.append(Wait(name, self.lines[source].number))
        if n in self._rule_waits:
            waits.append(self._rule_waits[n])
        return tuple(waits)

    def _waits_for_first(self, n: int) -> tuple[Wait, ...]:
        """Of a row that sets several names, every line waits for the first: what is wrong is told once."""
        if not self.lines[n].also:
            return ()
        first = n
        while self.lines[first].also:
            first -= 1
        if first in self.done and self.done[first].answer is not None:
            return ()
        return (Wait(self.lines[first].sets, self.lines[first].number),)

    def again(self, n: int, instead: dict[int, Value], rule: Rule | None = None) -> Worked:
        """Line `n` worked out with other values for some of the lines that it draws on.

        InputError, placed in the line, when it cannot be worked out so.
        """
        line, session = self.lines[n], self.session
        session.rule, session.units = rule or self.rules[n], self._units_of(n)
        session.known, session.placed = {}, {}
        session.heap, session.read_elsewhere = self._read.heap(n), self._read.readings
        session.forget_doubts()
        for name, source in self.plan.draws[n].items():
            self._draw(name, source, line, instead)
        for name, source in self._read.tied_by(n, self.plan.draws):
            if roots := self.doubtful.get(source):
                session.doubtful.setdefault(name, roots)
        if line.part is not None or line.feature is not None:
            return self._worked_part(n)
        if line.stock is not None:
            return Worked(line, session.rule, stock=self._stock(n), units=session.units)
        assert line.node is not None
        answer = session.work_out(line.node, line.text)
        if not instead:
            if roots := session.roots_of(answer):
                self.doubtful[n] = roots
            if roots := session.moved_of(answer):
                self.moved[n] = roots
        return Worked(line, session.rule, answer, units=session.units)

    def _draw(self, name: str, source: int, line: Line, instead: Mapping[int, Value]) -> None:
        """Let the session know what a line draws on: the size or the places of a name, and what they rest on."""
        session, own = self.session, self.done[source].answer
        if own is None and self.lines[source].kind in ("part", "stock"):
            return
        if roots := self.doubtful.get(source):
            session.doubtful[name] = roots
        if roots := self.moved.get(source):
            session.moved[name] = roots
        value = instead.get(source, None if own is None else own.value)
        placed = None if own is None or own.name != name else places_of(own.result)
        if placed is not None:
            session.placed[name] = placed
        elif value is not None:
            session.known[name] = value
        else:
            node = line.uses.get(name, line.node)
            assert node is not None
            raise InputError(
                f"line {self.lines[source].number} above has no one size for ans to stand for",
                line.text, node.start, node.end, "name the size that is meant", line.number,
            )  # fmt: skip

    def _worked_part(self, n: int) -> Worked:
        """A part line, or a line that cuts in a part, worked out with the names of the session."""
        line, session = self.lines[n], self.session
        home = self.plan.cut_in.get(n, n)
        sources = {name: self.lines[m] for name, m in self.plan.draws[n].items() if m != home}
        if line.part is not None:
            part = work_out_part(line, session, sources, self._setting)
            return Worked(line, session.rule, part=part, units=session.units)
        cut_in = self.done[home].part
        assert cut_in is not None
        feature = work_out_feature(line, cut_in, session, sources, self._setting)
        return Worked(line, session.rule, feature=feature, units=session.units)

    def _stock(self, n: int) -> PartStock:
        """The stock of a line, of which its parts are cut that no stock above it has."""
        items = [self.done[source] for source in sorted(set(self.plan.draws[n].values()))]
        parts = [(item.line.number, item.part) for item in items if item.part is not None]
        stocks = [(item.line.number, item.stock) for item in items if item.stock is not None]
        return work_out_stock(self.lines[n], self.session, self._setting, parts, stocks)
