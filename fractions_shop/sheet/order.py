"""Which lines draw on which, the order in which they are worked out, and lines that form a ring."""

from __future__ import annotations

import re
from collections import deque
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from fractions_shop.errors import InputError
from fractions_shop.language.nodes import KnownSize, Name, Naming, Node, OffPrint, Request
from fractions_shop.requests import READS, RECONCILE
from fractions_shop.sheet.feature_lines import FeatureForm
from fractions_shop.sheet.line_nodes import has_a_size
from fractions_shop.sheet.lines import Line
from fractions_shop.sheet.part_lines import name_span
from fractions_shop.sheet.revisions import label_span
from fractions_shop.sheet.stock_lines import StockForm
from fractions_shop.sheet.worked_stock import could_be_cut_from, same_material

#: A ring longer than this is named by its beginning and its end.
_SHOWN = 8
#: A part line for advice.
ONE_PART = "part {}: 1 of brass, 2 in by 1 in"


@dataclass(frozen=True, slots=True)
class Plan:
    """How a sheet is worked through; lines are told by their index.

    `draws` gives for each line the line behind each name it uses (`ans` among them, and the part that it cuts in, as `part NAME`),
    and for a stock line those of the parts that may be cut from it and of the stock above it that may have them;
    `order` holds the lines that can be worked out, none before one that it draws on;
    `groups` are the names that read and are weighed together; `faults` what is wrong before anything is worked out; `rest` the lines that wait
    for a ring without being part of it; `cut_in` has for each line that cuts in a part the line that makes it.
    """

    draws: tuple[dict[str, int], ...]
    order: tuple[int, ...]
    faults: dict[int, InputError]
    rest: tuple[int, ...]
    groups: tuple[ReadTogether, ...] = ()
    cut_in: Mapping[int, int] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class ReadTogether:
    """Lines of names that read and are weighed together, and the lines that tie them; in order."""

    members: tuple[int, ...]
    ties: tuple[int, ...] = ()


def plan(lines: tuple[Line, ...]) -> Plan:
    """The order of working; the cost grows with the number of lines and of names used."""
    faults = {n: line.fault for n, line in enumerate(lines) if line.fault is not None}
    homes = _homes(lines, faults)
    groups = _read_together(lines, homes, faults)
    if _refuse_each_other(lines, homes, groups, faults):
        groups = _read_together(lines, homes, faults)
    cut_in = _cut_in(lines, faults)
    draws = _with_groups(_draws(lines, homes, faults, cut_in), groups)
    order, rest = _sorted(lines, draws)
    rings = _rings(rest, draws)
    for ring in rings:
        for place, n in enumerate(ring):
            faults[n] = _ring_fault(ring, place, lines, draws)
    inside = {n for ring in rings for n in ring}
    return Plan(draws, order, faults, tuple(n for n in rest if n not in inside), groups, cut_in)


def _homes(lines: tuple[Line, ...], faults: dict[int, InputError]) -> dict[str, int]:
    """The line that sets each name; setting it, making a part, or telling of a revision again is a fault."""
    homes: dict[str, int] = {}
    parts: dict[str, int] = {}
    revisions: dict[str, int] = {}
    for n, line in enumerate(lines):
        if line.sets:
            first = homes.setdefault(line.sets, n)
            if first != n:
                start = _place_of(line)
                faults.setdefault(n, InputError(
                    f"{line.sets} is already set on line {lines[first].number}",
                    line.text, start, start + len(line.sets), "choose another name", line.number,
                ))  # fmt: skip
        if line.part is not None:
            first = parts.setdefault(line.part.name.casefold(), n)
            if first != n:
                faults.setdefault(n, InputError(
                    f"the part {line.part.name} is already on line {lines[first].number}", line.text, *name_span(line.text),
                    "tell the two apart by their names", line.number,
                ))  # fmt: skip
        if line.revision is not None:
            label = line.revision.label
            first = revisions.setdefault(label.casefold(), n)
            if first != n:
                faults.setdefault(n, InputError(
                    f"revision {label} is already on line {lines[first].number}", line.text, *label_span(line.text),
                    "each revision has its own letter or number", line.number,
                ))  # fmt: skip
    _refuse_second(lines, faults)
    return homes


def _refuse_second(lines: tuple[Line, ...], faults: dict[int, InputError]) -> None:
    """A part has one corner radius and one least wall: a second is a fault."""
    first: dict[str, Line] = {}
    for n, line in enumerate(lines):
        if line.kind == "feature" and line.one_a_part and first.setdefault(line.one_a_part, line) is not line:
            faults.setdefault(n, InputError(
                f"{line.called} is already on line {first[line.one_a_part].number}",
                line.text, 0, len(line.text), "a part has one for all of it: drop one of them", line.number,
            ))  # fmt: skip


def _place_of(line: Line) -> int:
    """Where a line sets its name."""
    placed = re.search(rf"\b{re.escape(line.sets)}\b", line.text)
    return placed.start() if placed else 0


def _draws(
    lines: tuple[Line, ...],
    homes: dict[str, int],
    faults: dict[int, InputError],
    cut_in: dict[int, int],
) -> tuple[dict[str, int], ...]:
    draws: list[dict[str, int]] = []
    last = last_sizes(lines)
    parts = [n for n, line in enumerate(lines) if line.kind in ("part", "stock")]
    for n, line in enumerate(lines):
        own = {name: homes[name] for name in line.uses if name in homes}
        source = last[n]
        if "ans" in line.uses and source is not None:
            own["ans"] = source
        if n in cut_in:
            own[f"part {lines[cut_in[n]].part_name}"] = cut_in[n]
        if line.stock is not None:
            own |= _cut_from(n, line.stock, lines, parts)
        draws.append(own if n not in faults else {})
    return tuple(draws)


def _cut_in(lines: tuple[Line, ...], faults: dict[int, InputError]) -> dict[int, int]:
    """For each line that cuts in a part the line that makes it; there being none is a fault."""
    parts = {
        line.part_name.casefold(): n
        for n, line in reversed(tuple(enumerate(lines)))
        if line.kind == "part" and line.part_name
    }
    cut_in = {}
    for n, line in enumerate(lines):
        if line.feature is None or n in faults:
            continue
        home = parts.get(line.feature.part.casefold())
        if home is None:
            faults[n] = _no_part(line, line.feature, lines, parts)
        else:
            cut_in[n] = home
    return cut_in


def _no_part(line: Line, form: FeatureForm, lines: tuple[Line, ...], parts: dict[str, int]) -> InputError:
    """That no line makes the part that another cuts in, with those that there are."""
    names = [lines[n].part_name for n in sorted(parts.values())][:_SHOWN]
    there = (
        f"the parts are {', '.join(names)}"
        if names
        else f"make it with a line like this: {ONE_PART.format(form.part)}"
    )
    return InputError(
        f"no line makes the part {form.part}", line.text, form.part_start, form.part_end, there, line.number
    )


def _cut_from(n: int, form: StockForm, lines: tuple[Line, ...], parts: Sequence[int]) -> dict[str, int]:
    """The lines of the parts that may be cut from a stock, and of the stock above it; called so as no name can be."""
    own: dict[str, int] = {}
    for m in parts:
        other = lines[m]
        if other.kind == "part" and could_be_cut_from(form, other):
            called = f"part {other.part_name}".strip()
        elif m < n and other.stock is not None and same_material(other.stock.material, form.material):
            called = f"stock {other.stock.material}"
        else:
            continue
        while called in own:
            called += " again"
        own[called] = m
    return own


def last_sizes(lines: Sequence[Line]) -> list[int | None]:
    """For each line the one that `ans` stands for there: the last in the rows above it that has a size."""
    sizes: list[int | None] = []
    last: int | None = None
    for n, line in enumerate(lines):
        sizes.append(sizes[-1] if line.also else last)
        if has_a_size(line):
            last = n
    return sizes


def _read_together(
    lines: tuple[Line, ...], homes: dict[str, int], faults: dict[int, InputError]
) -> tuple[ReadTogether, ...]:
    """The names that read: those that a line ties, directly or through others, and all the rest as one list.

    A line that was to tie names and cannot be read holds these up: they are not weighed without it in silence.
    """
    words = [line.request for line in lines]
    reads = {n for n, word in enumerate(words) if word == READS and n not in faults}
    groups: list[tuple[set[int], list[int]]] = []
    for n, line in enumerate(lines):
        if not (line.begins_a_tie if n in faults else words[n] == RECONCILE):
            continue
        mine, ties = {homes[name] for name in line.words_tied if homes.get(name) in reads}, [n]
        for other in [group for group in groups if group[0] & mine]:
            groups.remove(other)
            mine |= other[0]
            ties = [*other[1], *ties]
        groups.append((mine, ties))
    free = reads - {n for members, _ in groups for n in members}
    for members, _ in groups:
        while linked := {n for n in free if _share_a_scale(n, members, lines, homes)}:
            members |= linked
            free -= linked
    placed = [ReadTogether(tuple(sorted(members)), tuple(ties)) for members, ties in groups]
    return (*placed, ReadTogether(tuple(sorted(free)))) if free else tuple(placed)


def _share_a_scale(n: int, members: set[int], lines: tuple[Line, ...], homes: dict[str, int]) -> bool:
    """Whether a reading is off the same print as one of others, or one of them tells the scale of the other."""
    prints = {scale for m in members for scale in _prints(lines[m])}
    tells = {homes.get(name) for name in known_by_reading(lines[n])}
    told_by = {homes.get(name) for m in members for name in known_by_reading(lines[m])}
    return bool(_prints(lines[n]) & prints or tells & members or n in told_by)


def _prints(line: Line) -> set[str]:
    """The print that a reading was taken off, if it was."""
    return {scale.name for scale in _scales(line) if isinstance(scale, OffPrint)}


def _scales(line: Line) -> list[Node | None]:
    part = line.node.answer if isinstance(line.node, Naming) else line.node
    return [option.value for option in part.options] if isinstance(part, Request) else []


def _refuse_each_other(
    lines: tuple[Line, ...],
    homes: dict[str, int],
    groups: tuple[ReadTogether, ...],
    faults: dict[int, InputError],
) -> bool:
    """Fault each reading that rests on the size of a name that is weighed together with it; whether one does."""
    before = len(faults)
    for group in groups:
        for n in group.members:
            line, known = lines[n], known_by_reading(lines[n])
            for name, node in line.uses.items():
                if homes.get(name) in group.members and name not in known:
                    faults.setdefault(n, InputError(
                        f"{name} is weighed together with {line.sets}, so what {line.sets} reads cannot rest on it",
                        line.text, node.start, node.end, "write the size itself", line.number,
                    ))  # fmt: skip
    return len(faults) > before


def known_by_reading(line: Line) -> set[str]:
    """The other names of which a reading takes only what was read of them."""
    known = [scale for scale in _scales(line) if isinstance(scale, KnownSize)]
    return {scale.read.word for scale in known if isinstance(scale.read, Name)} - {line.sets}


def _with_groups(
    draws: tuple[dict[str, int], ...], groups: tuple[ReadTogether, ...]
) -> tuple[dict[str, int], ...]:
    """The same where each name of a group draws on all that the group rests on."""
    widened = list(draws)
    for group in groups:
        inside = set(group.members)
        rests_on = {
            name: source
            for n in (*group.members, *group.ties)
            for name, source in draws[n].items()
            if source not in inside
        }
        for n in group.members:
            widened[n] = rests_on
    return tuple(widened)


def _sorted(
    lines: tuple[Line, ...], draws: tuple[dict[str, int], ...]
) -> tuple[tuple[int, ...], tuple[int, ...]]:
    """The lines in working order, and those left over because they wait for a ring."""
    sources = [set(own.values()) for own in draws]
    lacking = list(map(len, sources))
    feeds: list[list[int]] = [[] for _ in lines]
    for n, drawn_on in enumerate(sources):
        for source in drawn_on:
            feeds[source].append(n)
    ready = deque(n for n, line in enumerate(lines) if line.works and not lacking[n])
    order: list[int] = []
    while ready:
        n = ready.popleft()
        order.append(n)
        for other in feeds[n]:
            lacking[other] -= 1
            if not lacking[other]:
                ready.append(other)
    return tuple(order), tuple(n for n, line in enumerate(lines) if line.works and lacking[n])


def _rings(rest: tuple[int, ...], draws: tuple[dict[str, int], ...]) -> list[list[int]]:
    """Rings among the lines left over, each once, as lines in the order in which they draw.

    Every line left over draws on another one left over, so following the first such
    from anywhere must come round.
    """
    left = set(rest)
    follows = {n: next(m for m in draws[n].values() if m in left) for n in rest}
    seen: dict[int, int] = {}
    rings = []
    for start in rest:
        path: list[int] = []
        n = start
        while n not in seen:
            seen[n] = start
            path.append(n)
            n = follows[n]
        if seen[n] == start and n in path:
            rings.append(path[path.index(n) :])
    return rings


def _ring_fault(
    ring: list[int], place: int, lines: tuple[Line, ...], draws: tuple[dict[str, int], ...]
) -> InputError:
    """What is said of one line of a ring; of a long ring only the lines next to it are looked at."""

    def turned(n: int) -> int:
        return ring[(place + n) % len(ring)]

    first, second = lines[turned(0)], turned(1)
    if len(ring) > _SHOWN:
        words = [_called(lines[turned(n)]) for n in range(_SHOWN // 2)]
        words.append(f"{len(ring) - _SHOWN + 1} more")
        words += [_called(lines[turned(n)]) for n in range(1 - _SHOWN // 2, 0)]
    else:
        words = [_called(lines[turned(n)]) for n in range(len(ring))]
    way = ", which needs ".join([*words[1:], first.sets or "it"])
    name = next(word for word, n in draws[turned(0)].items() if n == second)
    node = first.uses.get(name)  # what a name that is weighed with it draws on stands in another line
    start, end = (node.start, node.end) if node else (0, len(first.text))
    return InputError(
        f"{first.sets or 'this'} depends on itself: {words[0]} needs {way}",
        first.text, start, end, "set one of them without the others", first.number,
    )  # fmt: skip


def _called(line: Line) -> str:
    return f"{line.sets or 'the size'} (line {line.number})"
