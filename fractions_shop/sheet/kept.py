"""What of an earlier working of a sheet still holds, known again by all that an answer rests on.

An answer rests on its line's text, on its working rule, and on what came of each line that it draws
on. What came of a line bears a token, one for as long as it stays the same: so two answers with equal
keys are equal, whatever has been changed between them.
"""

from __future__ import annotations

from collections.abc import Hashable
from dataclasses import dataclass, field
from typing import Any, NamedTuple

from fractions_shop.language.nodes import Call, Name, Named, Naming, ShownExpression
from fractions_shop.sheet.answer import Answer
from fractions_shop.sheet.lines import Line
from fractions_shop.sheet.order import Plan, ReadTogether
from fractions_shop.sheet.worked_features import PURPOSES
from fractions_shop.size.quantity import Angle, Quantity

#: All that an answer, or the weighing of names that read, rests on.
Key = tuple[Hashable, ...]


class Outcome(NamedTuple):
    """What came of a line: its token, what was worked out, and the doubts and moved totals it rests on."""

    token: object
    worked: Any
    doubtful: tuple[str, ...] = ()
    moved: tuple[str, ...] = ()


@dataclass
class Outcomes:
    """What came of lines in one working: by key, by line and by the name that is set; `groups` of names that read;
    `cut_parts` what came of taking a part's features together.
    """

    by_key: dict[Key, Outcome] = field(default_factory=dict)
    by_line: dict[int, Outcome] = field(default_factory=dict)
    by_name: dict[str, Outcome] = field(default_factory=dict)
    groups: dict[Key, Any] = field(default_factory=dict)
    cut_parts: dict[Any, Any] = field(default_factory=dict)

    def token(self, n: int) -> object:
        """The token of what came of a line; None while nothing has."""
        outcome = self.by_line.get(n)
        return None if outcome is None else outcome.token

    def keep(self, n: int, key: Key, outcome: Outcome, name: str) -> None:
        """Note what came of a line, which sets `name` or none."""
        self.by_line[n] = self.by_key[key] = outcome
        if name:
            self.by_name[name] = outcome

    def with_token_kept(self, outcome: Outcome, name: str) -> Outcome:
        """The same with the token that the name had here, if nothing that draws on it could tell the two apart."""
        before = self.by_name.get(name)
        return (
            outcome if before is None or not _alike(before, outcome) else outcome._replace(token=before.token)
        )


@dataclass(frozen=True)
class Keys:
    """Makes the keys of a sheet's lines; `names` are all that it sets."""

    lines: tuple[Line, ...]
    plan: Plan
    names: frozenset[str]
    kept: Outcomes
    #: What lines stand under: one key serves all that stand under the same.
    _under: dict[Key, Key] = field(default_factory=dict)

    def of_line(self, n: int, under: Key, group: ReadTogether | None) -> Key:
        """All that the answer to a line rests on; `under` is the working rule, and which figures lead."""
        line = self.lines[n]
        tied = None if group is None else self.of_group(group)
        # Advice on a name that nothing sets, and a thread or a word that may be a name, look at all names.
        names = (
            self.names if line.looks_at_names or not line.uses.keys() <= self.plan.draws[n].keys() else None
        )
        return line.text, line.sets, self._under.setdefault(under, under), self._draws(n), tied, names

    def of_group(self, group: ReadTogether) -> Key:
        """All that the weighing of names that read rests on."""
        return tuple((self.lines[n].text, self._draws(n)) for n in (*group.members, *group.ties))

    def _draws(self, n: int) -> Key:
        return tuple((name, self._source(m)) for name, m in self.plan.draws[n].items())

    def _source(self, m: int) -> Hashable:
        outcome = self.kept.by_line.get(m)
        if outcome is None or outcome.worked.value is None:
            return None if outcome is None else outcome.token, self.lines[m].number
        return outcome.token


def _alike(old: Outcome, new: Outcome) -> bool:
    """Whether what draws on one of them would be the same with the other: exact sizes that rest on the same."""
    was, now = old.worked.answer, new.worked.answer
    if not isinstance(was, Answer) or not isinstance(now, Answer):
        return False
    if (was.kind, was.name) != ("size", now.name) or now.kind != "size":
        return False
    if any(_gives_a_name(outcome.worked.line) for outcome in (old, new)):
        return False
    seen = _seen(was.value)
    return seen is not None and seen == _seen(now.value) and old[2:] == new[2:]


def _seen(value: Any) -> Hashable:
    if isinstance(value, Quantity):
        return value.value, value.power, value.approximate, value.within
    return (value.degrees, value.approximate) if isinstance(value, Angle) else None


def _gives_a_name(line: Line) -> bool:
    """Whether a size may be told by the name that it is written as, a drill's or a thread's, in lines that draw on it."""
    answer = line.node.answer if isinstance(line.node, Naming) else None
    if not isinstance(answer, ShownExpression):
        return False
    size = answer.expression
    return isinstance(size, Named | Name) or (isinstance(size, Call) and size.function in PURPOSES)
