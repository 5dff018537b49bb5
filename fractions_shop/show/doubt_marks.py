"""How doubtful sizes are marked in lists, and what is said of them and of how forms were read."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from itertools import islice
from typing import TypeVar

from fractions_shop.figures.wording import both
from fractions_shop.requests.odds import odds_text as odds_words
from fractions_shop.sheet.doubts import BelievedSize, Doubt, Doubts, MovedTotal, called_or_kind
from fractions_shop.sheet.lacking import lacking
from fractions_shop.sheet.solve import Worked

#: Sizes told of one by one beneath a table; the rest are counted.
_TOLD = 12
RESTS = "rests on a doubtful reading"
RESTS_ON_MOVED = "rests on a total that was moved"
RESTS_ON_BELIEF = "rests on what is believed of a reading"


def marked(name: str, line: int, doubts: Doubts) -> str:
    """A name, with an asterisk when the size of its line may not be the one meant, or rests on such a one."""
    if name in doubts.settled:
        return name
    return f"{name} *" if line in doubts.marked else name


def readings(listed: Sequence[Worked]) -> str:
    """How the forms of one meaning in a table were read; `listed` are its lines."""
    said = [
        f"{called_or_kind(item.line)} (line {item.line.number}): {text}"
        for item in listed
        for text in echoes(item)
    ]
    return _few(len(said), said)


T = TypeVar("T", Doubt, MovedTotal, BelievedSize)
#: How many remarks there are, and they themselves, made as they are told: only a few are.
Remarks = tuple[int, Iterable[str]]


@dataclass
class Footnotes:
    """What the asterisks of a document's tables mean, each said in full once: the tables ask in their order."""

    doubts: Doubts
    _told: dict[str, tuple[str, frozenset[tuple[str, int]]]] = field(default_factory=dict)

    def beneath(self, title: str, listed: Sequence[Worked]) -> tuple[str, ...]:
        """What stands beneath the table of that title; `listed` are its lines."""
        doubts, numbers = self.doubts, frozenset(item.line.number for item in listed)
        kinds = [
            self._starred(title, doubts.readings, numbers & doubts.doubtful, numbers & doubts.resting, _each(_is)),
            self._starred(title, doubts.moved, numbers & doubts.of_moved, numbers & doubts.on_moved, _each(_is_of)),
            self._starred(title, doubts.believed, numbers & doubts.of_belief, numbers & doubts.on_belief, _are_believed),
        ]  # fmt: skip
        return tuple(each for each in kinds if each)

    def _starred(
        self,
        title: str,
        sources: Sequence[T],
        marked: frozenset[int],
        resting: frozenset[int],
        said: Callable[[Sequence[T]], Remarks],
    ) -> str:
        """What the asterisks of a table mean; nothing where it has none.

        It tells of the doubtful sizes in the table, and those elsewhere on which others in it may rest.
        """
        if not marked:
            return ""
        named = [each for each in sources if each.line in marked or (resting and each.feeds)]
        kind, which = type(named[0]).__name__, frozenset((each.name, each.line) for each in named)
        home, told_before = self._told.get(kind, ("", frozenset()))
        them = "it" if len(named) == 1 else "one of them"
        rest = f"; what rests on {them} is marked too" if resting else ""
        if which <= told_before and len(told_before) <= _TOLD:
            return f"* as said beneath {home}: {_listed(named)}{rest}"
        self._told[kind] = title, which
        return f"* {_few(*said(named))}{rest}"


def _listed(named: Sequence[Doubt | MovedTotal | BelievedSize]) -> str:
    """The names alone, of which all is said elsewhere."""
    return ", ".join(each.name for each in named)


def _each(said: Callable[[T], str]) -> Callable[[Sequence[T]], Remarks]:
    """What is said of sizes one by one."""
    return lambda named: (len(named), (f"{each.name} (line {each.line}) {said(each)}" for each in named))


def _few(many: int, remarks: Iterable[str]) -> str:
    more = many - _TOLD
    rest = [f"and so {'is' if more == 1 else 'are'} {more:,} more"] if more > 0 else []
    return "; ".join([*islice(remarks, _TOLD), *rest])


def echoes(item: Worked) -> Iterator[str]:
    """How the forms of a line were read that have one meaning."""
    return (note.text for note in item.notes if note.kind == "echo")


def _is_of(moved: MovedTotal) -> str:
    return f"is {moved_text(moved)}"


def _are_believed(beliefs: Sequence[BelievedSize]) -> Remarks:
    """Sizes that rest on the same belief, together."""
    from fractions_shop.requests.meant_words import in_row  # loaded by whatever read the sizes

    alike: dict[str, list[str]] = {}
    for each in beliefs:
        alike.setdefault(each.said, []).append(f"{each.name} (line {each.line})")
    groups = []
    for said, names in alike.items():
        more = len(names) - _TOLD
        listed = in_row([*names[:_TOLD], *([f"{more:,} more"] if more > 0 else [])], "and")
        taken_from = "is taken from a reading" if len(names) == 1 else "are taken from readings"
        groups.append(f"{listed} {taken_from}, {said}")
    return len(groups), groups


def believed_text(belief: BelievedSize) -> str:
    """`taken from a reading, if it is inch work`."""
    return f"taken from a reading, {belief.said}"


def _is(doubt: Doubt) -> str:
    return taken(doubt) if doubt.odds is None else f"is {taken(doubt)}"


def taken(doubt: Doubt) -> str:
    """`taken from a reading, 2.19 to 1 against: check`; `may be another size: ...`."""
    if doubt.odds is not None:
        return f"taken from a reading, {odds_words(doubt.odds)}: check"
    return f"may be another size: {'; '.join(note.text for note in doubt.notes)}"


def moved_text(moved: MovedTotal) -> str:
    """`the space of a total 1/32 in (0.79375 mm) longer than 2 in (50.8 mm)`."""
    way = "longer" if moved.change.value > 0 else "shorter"
    return f"the space of a total {both(abs(moved.change))} {way} than {both(moved.asked)}"


def said_of(worked: Sequence[Worked], doubts: Doubts) -> dict[int, str]:
    """By line number, all that is said of its size, or of a part: what it lacks, its doubt, what it rests on, how it was read."""
    remarks_of: dict[int, list[str]] = {}
    lacks = lacking(worked)
    for item in worked:
        if item.part is not None and (said := lacks.said_of(item.part.name)):
            remarks_of.setdefault(item.line.number, []).append(said)
    for doubt in doubts.readings:
        remarks_of.setdefault(doubt.line, []).append(taken(doubt))
    for number in doubts.resting:  # a part may be doubtful in one size and rest on another
        remarks_of.setdefault(number, []).append(RESTS)
    for moved in doubts.moved:
        remarks_of.setdefault(moved.line, []).append(moved_text(moved))
    for number in doubts.on_moved - {moved.line for moved in doubts.moved}:
        remarks_of.setdefault(number, []).append(RESTS_ON_MOVED)
    for belief in doubts.believed:
        remarks_of.setdefault(belief.line, []).append(believed_text(belief))
    for number in doubts.on_belief - {belief.line for belief in doubts.believed}:
        remarks_of.setdefault(number, []).append(RESTS_ON_BELIEF)
    for item in worked:
        if texts := list(echoes(item)):
            remarks_of.setdefault(item.line.number, []).extend(texts)
    return {number: "; ".join(texts) for number, texts in remarks_of.items()}
