"""A sheet worked out: every line answered, at fault, or waiting for one that is."""

from __future__ import annotations

from dataclasses import InitVar, dataclass, field, replace
from typing import TYPE_CHECKING

from fractions_shop import requests
from fractions_shop.errors import InputError
from fractions_shop.language.nodes import Naming, Request
from fractions_shop.language.notes import Note
from fractions_shop.requests.check import CheckResult
from fractions_shop.sheet.answer import Answer
from fractions_shop.sheet.cut_parts import settled_features
from fractions_shop.sheet.kept import Key, Keys, Outcome, Outcomes
from fractions_shop.sheet.lines import Line
from fractions_shop.sheet.order import Plan, plan
from fractions_shop.sheet.part_lines import Part
from fractions_shop.sheet.read_together import ReadNames
from fractions_shop.sheet.session import Session, places_of
from fractions_shop.sheet.worked_features import Feature, work_out_feature
from fractions_shop.sheet.worked_parts import work_out_part
from fractions_shop.sheet.worked_stock import PartStock, work_out_stock
from fractions_shop.size.notation import AS_USUAL, UnitsShown
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.rule import Rule
from fractions_shop.size.value import Value

if TYPE_CHECKING:
    from fractions_shop.requests.heap import Heap

#: The working rule above the first `rule` line.
FIRST_RULE = "64ths"
#: Faults that get advice drawn from the names of the whole sheet.
_ADVISED = 100
_NAMES_FOR_ADVICE = 300


@dataclass(frozen=True, slots=True)
class Wait:
    """What a line waits for: a name (or `ans`, or `the rule`) and the line that should give it."""

    name: str
    line: int


@dataclass(frozen=True, slots=True)
class Worked:
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
        self.kept = Outcomes()
        self._earlier = Outcomes() if earlier is None else earlier.kept
        self._keys = Keys(self.lines, self.plan, frozenset(names), self.kept)
        self._read = ReadNames(self.lines, self.plan.groups)
        self._advised = 0
        self._setting = {line.sets: line for line in reversed(self.lines) if line.sets}
        self._some_names = names[:_NAMES_FOR_ADVICE]
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
            self.kept.cut_parts[key] = said
            for n, as_it_is in zip(every, settled, strict=True):
                if isinstance(as_it_is, InputError):
                    self.done[n] = replace(self.done[n], feature=None, fault=as_it_is)
                elif as_it_is is not self.done[n].feature:
                    self.done[n] = replace(self.done[n], feature=as_it_is)

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
            if line.is_rule or line.begins_a_rule:
                item = self._work_out(n)
                self.done[n] = item
                sets_rule = item.answer.room.sets_rule if item.answer is not None else None
                waiting = Wait("the rule", line.number) if sets_rule is None else None
                if item.answer is not None and sets_rule is not None:
                    rule = sets_rule(item.answer.result)
            elif line.is_units:
                self.done[n] = item = self._work_out(n)
                units = units if item.answer is None else item.answer.result.units
            elif waiting is not None and _asks_the_rule(line):
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
            waits = tuple(self._wait_for(other) for other in self._read.hinders(n))
        if waits:
            return Worked(line, rule, waits=waits, units=units)
        key = self._keys.of_line(n, (rule, units), self._read.group_of.get(n))
        outcome = self._earlier.by_key.get(key)
        if outcome is not None:
            return self._as_before(n, key, outcome)
        try:
            worked = self.again(n, {}, rule)
        except InputError as error:
            advised = self._advised_fault(n, error).at(line.text, 0, line.number)
            worked = Worked(line, rule, fault=advised, units=units)
        outcome = Outcome(object(), worked, self.doubtful.get(n, ()), self.moved.get(n, ()))
        self.kept.keep(n, key, self._earlier.with_token_kept(outcome, line.sets), line.sets)
        return worked

    def _as_before(self, n: int, key: Key, outcome: Outcome) -> Worked:
        """What the earlier working found, on the line where it stands now."""
        line = self.lines[n]
        worked: Worked = outcome.worked
        if worked.line is not line:
            fault = None if worked.fault is None else worked.fault.at(line.text, 0, line.number)
            worked = replace(worked, line=line, fault=fault)
        for kept, roots in ((self.doubtful, outcome.doubtful), (self.moved, outcome.moved)):
            if roots:
                kept[n] = roots
        self.kept.keep(n, key, outcome._replace(worked=worked), line.sets)
        return worked

    def _weigh(self, n: int) -> None:
        """Weigh the names that read with this line, unless the earlier working has done so."""
        group = self._read.group_of[n]
        key = self._keys.of_group(group)
        weighed = self.kept.groups.get(key) or self._earlier.groups.get(key)
        if weighed is not None:
            self._read.take(group, weighed)
        else:
            self._read.make(n, self.session, self._drawn_on(n))
            weighed = self._read.made(group)
        self.kept.groups[key] = weighed

    def _fault_of_reading(self, n: int) -> InputError | None:
        error = self._read.faults.get(n)
        line = self.lines[n]
        return None if error is None else self._advised_fault(n, error).at(line.text, 0, line.number)

    def _wait_for(self, n: int) -> Wait:
        line = self.lines[n]
        return Wait(line.sets or "the relations", line.number)

    def _drawn_on(self, n: int) -> dict[str, Value]:
        """The sizes of the names that a line draws on, as far as they have one."""
        values = {
            name: self.done[source].value
            for name, source in self.plan.draws[n].items()
            if source in self.done
        }
        return {name: value for name, value in values.items() if value is not None}

    def _waits(self, n: int) -> tuple[Wait, ...]:
        waits = [
            Wait(name, self.lines[source].number)
            for name, source in self.plan.draws[n].items()
            if source not in self.done or self.done[source].lacks_size_or_part
        ]
        if n in getattr(self, "_rule_waits", {}):
            waits.append(self._rule_waits[n])
        return tuple(waits)

    def _waits_for_first(self, n: int) -> tuple[Wait, ...]:
        """Of a row that sets several names, every line waits for the first: what is wrong is told once."""
        first = n
        while self.lines[first].also:
            first -= 1
        if first == n or (first in self.done and self.done[first].answer is not None):
            return ()
        return (Wait(self.lines[first].sets, self.lines[first].number),)

    def again(self, n: int, instead: dict[int, Value], rule: Rule | None = None) -> Worked:
        """Line `n` worked out with other values for some of the lines that it draws on.

        InputError, placed in the line, when it cannot be worked out so.
        """
        line = self.lines[n]
        self.session.rule, self.session.units = rule or self.rules[n], self._units_of(n)
        self.session.known = {}
        self.session.heap, self.session.read_elsewhere = self._read.heap(n), self._read.readings
        self.session.forget_doubts()
        self.session.placed = {}
        for name, source in self.plan.draws[n].items():
            if self.lines[source].kind in ("part", "stock"):
                continue
            value = instead.get(source, self.done[source].value)
            own = self.done[source].answer
            placed = None if own is None or own.name != name else places_of(own.result)
            if roots := self.doubtful.get(source):
                self.session.doubtful[name] = roots
            if roots := self.moved.get(source):
                self.session.moved[name] = roots
            if placed is not None:
                self.session.placed[name] = placed
                continue
            if value is None:
                node = line.uses.get(name, line.node)
                assert node is not None
                raise InputError(
                    f"line {self.lines[source].number} above has no one size for ans to stand for",
                    line.text, node.start, node.end, "name the size that is meant", line.number,
                )  # fmt: skip
            self.session.known[name] = value
        for name, source in self._read.tied_by(n, self.plan.draws):
            if roots := self.doubtful.get(source):
                self.session.doubtful.setdefault(name, roots)
        if line.part is not None or line.feature is not None:
            return self._worked_part(n)
        if line.stock is not None:
            return Worked(line, self.session.rule, stock=self._stock(n), units=self.session.units)
        assert line.node is not None
        answer = self.session.work_out(line.node, line.text)
        if not instead:
            for kept, roots in (
                (self.doubtful, self.session.roots_of(answer)),
                (self.moved, self.session.moved_of(answer)),
            ):
                if roots:
                    kept[n] = roots
        return Worked(line, self.session.rule, answer=answer, units=self.session.units)

    def _worked_part(self, n: int) -> Worked:
        """A part line, or a line that cuts in a part, worked out with the names of the session."""
        line, session = self.lines[n], self.session
        home = self.plan.cut_in.get(n, n)
        sources = {name: self.lines[m] for name, m in self.plan.draws[n].items() if m != home}
        made = Worked(line, session.rule, units=session.units)
        if line.part is not None:
            return replace(made, part=work_out_part(line, session, sources, self._setting))
        cut_in = self.done[home].part
        assert cut_in is not None
        return replace(made, feature=work_out_feature(line, cut_in, session, sources, self._setting))

    def _stock(self, n: int) -> PartStock:
        """The stock of a line, of which its parts are cut that no stock above it has."""
        items = [self.done[source] for source in sorted(set(self.plan.draws[n].values()))]
        parts = [(item.line.number, item.part) for item in items if item.part is not None]
        stocks = [(item.line.number, item.stock) for item in items if item.stock is not None]
        return work_out_stock(self.lines[n], self.session, self._setting, parts, stocks)

    def _advised_fault(self, n: int, error: InputError) -> InputError:
        """The same fault, found again with the sheet's other names at hand for advice."""
        line = self.lines[n]
        unknown = [name for name in line.uses if name not in self.plan.draws[n]]
        if not (unknown or line.looks_at_names) or line.node is None or self._advised >= _ADVISED:
            return error
        self._advised += 1
        # None of these is used by the line, so none of them can change its answer.
        nothing = Quantity.number(0)
        self.session.known = {**dict.fromkeys(self._some_names, nothing), **self.session.known}
        for name in (*unknown, line.sets):
            self.session.known.pop(name, None)
        try:
            self.session.work_out(line.node, line.text)
        except InputError as advised:
            return advised
        return error


def _asks_the_rule(line: Line) -> bool:
    """Whether the answer to a line depends on the working rule, as none does that names its own."""
    word = line.request
    if not word or not requests.room(word).reads_rule:
        return False
    part = line.node.answer if isinstance(line.node, Naming) else line.node
    assert isinstance(part, Request)
    return all(option.word not in ("to", "on") for option in part.options)
