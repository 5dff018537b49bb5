"""The names of a sheet that read and are weighed together, and what hinders it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import TYPE_CHECKING, NamedTuple

from fractions_shop.errors import InputError, ShopError
from fractions_shop.language.nodes import Naming, Request
from fractions_shop.sheet.lines import Line
from fractions_shop.sheet.order import ReadTogether, known_by_reading
from fractions_shop.sheet.session import Session
from fractions_shop.size.value import Value

if TYPE_CHECKING:
    from fractions_shop.requests.heap import Heap
    from fractions_shop.requests.read_name import AsRead


class WeighedGroup(NamedTuple):
    """A group weighed: its heap, its readings by name, and its faults by place in the group."""

    heap: Heap
    readings: Mapping[str, AsRead | None]
    faults: Mapping[int, InputError]


class ReadNames:
    """The heaps of a sheet, each made when the first of its lines is worked out.

    `readings` are those found so far; `faults` what is wrong with a line of a group, by line.
    """

    def __init__(self, lines: tuple[Line, ...], groups: tuple[ReadTogether, ...]) -> None:
        self.lines = lines
        self.group_of = {n: group for group in groups for n in (*group.members, *group.ties)}
        self.readings: dict[str, AsRead] = {}
        self.faults: dict[int, InputError] = {}
        self._heaps: dict[ReadTogether, Heap] = {}

    def made(self, group: ReadTogether) -> WeighedGroup:
        """What making a group has found, for the same group in another sheet."""
        places = (*group.members, *group.ties)
        readings = {self.lines[m].sets: self.readings.get(self.lines[m].sets) for m in group.members}
        return WeighedGroup(
            self._heaps[group],
            readings,
            {k: self.faults[m] for k, m in enumerate(places) if m in self.faults},
        )

    def take(self, group: ReadTogether, weighed: WeighedGroup) -> None:
        """Take what the same group in another sheet has found."""
        self._heaps[group] = weighed.heap
        self.readings |= {name: reading for name, reading in weighed.readings.items() if reading is not None}
        places = (*group.members, *group.ties)
        self.faults |= {places[k]: error for k, error in weighed.faults.items()}

    def all(self) -> Heap | None:
        """What every group has read, as one heap; None where nothing was read."""
        if not self._heaps:
            return None
        from fractions_shop.requests.heap import Heap

        said = {name: reading for heap in self._heaps.values() for name, reading in heap.said.items()}
        return Heap(said, tuple(tie for heap in self._heaps.values() for tie in heap.ties))

    def heap(self, n: int) -> Heap | None:
        """The heap that a line belongs to, where it was made."""
        group = self.group_of.get(n)
        return None if group is None else self._heaps.get(group)

    def tied_by(self, n: int, draws: Sequence[Mapping[str, int]]) -> Iterator[tuple[str, int]]:
        """The names that the relations of a line's group draw on, each with its line."""
        group = self.group_of.get(n)
        for tie in () if group is None else group.ties:
            yield from draws[tie].items()

    def make(self, n: int, session: Session, known: Mapping[str, Value]) -> None:
        """Make the heap of a line out of what the group's lines say; `known` are the names that they draw on."""
        group = self.group_of.get(n)
        if group is None or group in self._heaps:
            return
        from fractions_shop.requests.heap import Heap

        session.known, session.heap = dict(known), Heap()
        for member in self._in_order(group):
            line, request = self.lines[member], request_of(self.lines[member])
            session.read_elsewhere = self.readings
            try:
                self.readings[line.sets] = session.reading_of(line.sets, request, line.text)
            except InputError as error:
                self.faults[member] = error
        heap = Heap({
            self.lines[m].sets: self.readings[self.lines[m].sets] for m in group.members if m not in self.faults
        })  # fmt: skip
        for tie in group.ties:
            heap = self._tied(tie, heap, session, not any(m in self.faults for m in group.members))
        self._heaps[group] = heap

    def hinders(self, n: int) -> tuple[int, ...]:
        """The lines that a line's group waits for: of tied names every one must do."""
        group = self.group_of.get(n)
        if group is None or not group.ties:
            return ()
        return tuple(other for other in (*group.members, *group.ties) if other in self.faults and other != n)

    def _in_order(self, group: ReadTogether) -> list[int]:
        """Each behind those whose reading tells its scale; those that tell each other's stay as they stand."""
        homes = {self.lines[n].sets: n for n in group.members}
        tellers = {
            n: {homes[name] for name in known_by_reading(self.lines[n]) if name in homes}
            for n in group.members
        }
        ordered: list[int] = []
        waiting = list(group.members)
        while waiting:
            ready = [n for n in waiting if not tellers[n] - set(ordered)] or waiting
            ordered += ready
            waiting = [n for n in waiting if n not in ready]
        return ordered

    def _tied(self, n: int, heap: Heap, session: Session, whole: bool) -> Heap:
        line = self.lines[n]
        if line.fault is not None:
            self.faults[n] = line.fault
        session.heap = heap
        if not whole or line.fault is not None:
            return heap  # the line waits for the reading that is at fault, or is itself
        request = request_of(line)
        try:
            tie = session.tie_of(request, line.text)
            tied = heap.tied(tie)
            _ = tied.closed(tie).sizes
        except InputError as error:
            self.faults[n] = error
            return heap
        except ShopError as error:
            self.faults[n] = InputError(str(error), line.text, request.start, request.end)
            return heap
        return tied


def request_of(line: Line) -> Request:
    """The request that a line makes, under a name or none."""
    part = line.node.answer if isinstance(line.node, Naming) else line.node
    assert isinstance(part, Request)
    return part
