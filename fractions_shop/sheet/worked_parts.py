"""A part line worked out: its count and sizes, what its note names, and where what it draws on is set out."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import NamedTuple

from fractions_shop.errors import InputError
from fractions_shop.figures.wording import both
from fractions_shop.language.nodes import (
    Name,
    Named,
    Naming,
    Node,
    OddUnit,
    ShownExpression,
    Toleranced,
    nodes_in,
)
from fractions_shop.language.notes import Note, on_the_reading, remark
from fractions_shop.requests.expression import plain_size
from fractions_shop.sheet.lines import Line
from fractions_shop.sheet.part_lines import (
    OF_ADVICE,
    PART_HABITS,
    UNIT_ADVICE,
    NoteFigure,
    Part,
    PartForm,
    checked_count,
    checked_size,
    read_part,
)
from fractions_shop.sheet.part_losses import holds_sizes
from fractions_shop.sheet.session import Session
from fractions_shop.sheet.whole_lines import in_whole_lines
from fractions_shop.size.limits import Limits, limits_of
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.value import Value

#: Names that lead to names: a chain longer than this is not followed to the name of what is bought.
_LONGEST_CHAIN = 20


class SizeInLine(NamedTuple):
    """What a size of a line that is no statement comes to, and what is said beside it."""

    value: Value | None
    notes: tuple[Note, ...]


def worked_out(node: ShownExpression, line: Line, session: Session, power: int = 1) -> SizeInLine:
    """A size of a line that is no statement, worked out; InputError, placed in the line, where it cannot be.

    It is the sooner done where it has this `power`; of a plain number that it has no unit is not always said.
    """
    size = plain_size(node, session.known, power)
    if size is not None:
        named = node.expression.word if isinstance(node.expression, Name) else ""
        if not (named in session.doubtful or named in session.moved or named in session.placed):
            return SizeInLine(size, ())
    try:
        answer = session.work_out(node, line.text)
    except InputError as error:
        raise error.at(line.text, 0, line.number) from None
    return SizeInLine(answer.value, answer.notes)


def work_out_part(
    line: Line, session: Session, sources: Mapping[str, Line], setting: Mapping[str, Line]
) -> Part:
    """The part of a line, with the names of `session`.

    `sources` has the line that each name of the part comes from, `setting` the line that sets each name of the sheet.

    InputError, placed in the line, for what cannot be worked out.
    """
    form = line.part
    assert form is not None

    if form.otherwise is not None and not _known(form.count, session):
        form = replace(form, count=form.otherwise[0], material=form.otherwise[1], otherwise=None)
    counted = _counted(form, line, session)
    sized = [worked_out(node, line, session) for node in form.sizes]
    count = checked_count(counted.value, form, line.text)
    sizes = tuple(_size(each.value, node, line) for each, node in zip(sized, form.sizes, strict=True))
    _refuse_thick_bore(form, sizes, line.text)
    named = [behind_names(node.expression, setting) for node in form.sizes]
    bought = tuple(map(called_as, named))
    # That how many has no unit need not be said.
    notes = [*on_the_reading(counted.notes), *(note for each in sized for note in each.notes)]
    if not sizes and holds_sizes(form.note):
        notes.append(
            remark("what stands in the note is neither drawn nor cut from stock: sizes stand behind a comma")
        )
    return Part(
        form.name, count, form.material, sizes, form.note, tuple(dict.fromkeys(notes)), form.section,
        bought if any(bought) else (),
        tuple(_figure(name, session, sources, line.text) for name in form.figures),
        tuple((name, source.number) for name, source in sources.items() if name in session.placed),
        _screw(named),
    )  # fmt: skip


def _counted(form: PartForm, line: Line, session: Session) -> SizeInLine:
    """How many; where that is no number, what the line may mean is offered."""
    try:
        return worked_out(form.count, line, session, power=0)
    except InputError as error:
        meant = in_whole_lines(error, _is_read, PART_HABITS)
        if meant is error and any(isinstance(part, OddUnit) for part in nodes_in(form.count)):
            meant = InputError(
                "how many is a number alone", line.text, error.start, error.end, OF_ADVICE, line.number
            )
        raise meant from None


def _size(value: object, node: ShownExpression, line: Line) -> Quantity | Limits:
    """A size; of a number alone the line with its unit is offered, where the others tell it."""
    try:
        return checked_size(value, node, line.text)
    except InputError as error:
        raise in_whole_lines(error, _is_read, PART_HABITS) if error.advice == UNIT_ADVICE else error from None


def _is_read(line: str) -> bool:
    try:
        read_part(line)
    except InputError:
        return False
    return True


def _known(count: ShownExpression, session: Session) -> bool:
    """Whether every name in a count is one that has a size."""
    return all(node.word in session.known for node in nodes_in(count) if isinstance(node, Name))


def _refuse_thick_bore(form: PartForm, sizes: tuple[Quantity | Limits, ...], text: str) -> None:
    if form.section != "tube" or len(sizes) < 2:
        return
    outside, bore = limits_of(sizes[0]).lower, limits_of(sizes[1]).upper
    if bore >= outside:
        node = form.sizes[1]
        raise InputError(
            f"the bore, {both(bore)}, leaves no wall in an outside of {both(outside)}", text, node.start, node.end,
            "the outside stands first, then the bore",
        )  # fmt: skip


def behind_names(node: Node, setting: Mapping[str, Line]) -> Node:
    """What is written where a size comes from: itself, or under the names that stand for it; of limits the nominal."""
    for _ in range(_LONGEST_CHAIN):
        node = node.nominal if isinstance(node, Toleranced) else node
        line = setting.get(node.word) if isinstance(node, Name) else None
        if line is None or not isinstance(line.node, Naming):
            return node
        answer = line.node.answer
        if not isinstance(answer, ShownExpression) or answer.target is not None:
            return node
        node = answer.expression
    return node


def called_as(node: Node) -> str:
    """The name by which a size is bought or drilled: a gauge, drill or thread written as such; else empty."""
    return " ".join(node.text.split()) if isinstance(node, Named) else ""


def _screw(nodes: Sequence[Node]) -> str:
    """The name of the thread, or of the wood screw, among what the sizes are written as."""
    named = [node for node in nodes if isinstance(node, Named)]
    screws = (node for node in named if node.kind == "thread" or "screw" in node.text.casefold())
    return next(map(called_as, screws), "")


def _figure(name: Name, session: Session, sources: Mapping[str, Line], text: str) -> NoteFigure:
    """What a name in a note stands for; InputError where nothing is called so."""
    value = session.known.get(name.word)
    if name.word not in sources or (value is None and name.word not in session.placed):
        raise InputError(
            f"nothing here is called {name.word}", text, name.start, name.end,
            "square brackets in a note stand for the size of a name: round ones stay as they are written",
        )  # fmt: skip
    return NoteFigure(name.word, sources[name.word].number, value, name.word in session.doubtful)
