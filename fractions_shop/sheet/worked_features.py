"""A feature line worked out: what it cuts, where exactly, by what name it is drilled, and what is said of it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from typing import NoReturn, TypeVar

from fractions_shop.errors import InputError, ShopError
from fractions_shop.language.advice.offers import write
from fractions_shop.language.nodes import Call, Name, Named, Node, ShownExpression, nodes_in
from fractions_shop.language.notes import Note, remark
from fractions_shop.layout.features import USUAL_SINK, Cut, Face, Hole, Size, face, hole, refuse_corner, slot
from fractions_shop.layout.notches import notch
from fractions_shop.layout.places import Places
from fractions_shop.sheet.feature_lines import CUT_HABITS, EXAMPLES, FeatureForm, read_feature
from fractions_shop.sheet.lines import Line
from fractions_shop.sheet.part_lines import Part
from fractions_shop.sheet.session import Session, places_of
from fractions_shop.sheet.whole_lines import in_whole_lines
from fractions_shop.sheet.worked_parts import behind_names, called_as, worked_out
from fractions_shop.size.limits import Limits, nominal_of
from fractions_shop.size.quantity import Angle, Quantity
from fractions_shop.size.value import Value

T = TypeVar("T")


def _is_read(line: str) -> bool:
    try:
        read_feature(line)
    except InputError:
        return False
    return True


#: The functions of threads that are drilled, and what each hole is for.
PURPOSES = ("tapping", "clearance")


@dataclass(frozen=True, slots=True)
class Feature:
    """What one line cuts in a part: `word` is hole, slot, notch, corner or wall, `part` the part's name.

    `cut` has the sizes and the exact places of holes and slots, counted from the datum of the face;
    `size` is the radius of a corner, or the least wall. `called` has for each size the name that it was
    given by (`No 29 drill`), or nothing. `from_centre` says that the datum is the centre of an end, not the lower left corner; of a hole for a `thread`, `purpose` is tapping or clearance. `thinnest` is, of
    a wall, the thinnest that there is. `sees` are the places that it draws on, named, and their lines.
    """

    word: str
    part: str
    cut: Cut | None = None
    size: Size | None = None
    called: tuple[str, ...] = ()
    thread: str = ""
    purpose: str = ""
    from_centre: bool = False
    thinnest: Quantity | None = None
    notes: tuple[Note, ...] = field(default=(), compare=False)
    sees: tuple[tuple[str, int], ...] = field(default=(), compare=False)

    @property
    def sizes(self) -> tuple[Size, ...]:
        """Every size that it tells, in the order of the line, for how far each may be trusted."""
        if self.cut is None:
            return () if self.size is None else (self.size,)
        own: tuple[Size | None, ...] = (
            (self.cut.diameter, self.cut.deep, self.cut.sunk)
            if isinstance(self.cut, Hole)
            else (self.cut.length, self.cut.width, self.cut.deep)
        )
        return tuple(size for size in own if size is not None)


def face_of(part: Part, corner: Size | None = None) -> Face | None:
    """The face of a part that is cut: of its first two sizes, or the end of stock that has a section.

    None for a part that has no such face.
    """
    sizes, section = part.sizes, part.section
    if len(sizes) < (1 if section else 2):
        return None
    behind = {"": 2, "tube": 2}.get(section, 1)
    thick = sizes[behind] if len(sizes) > behind else None
    if section == "tube":
        return face(sizes[0], thick=thick, shape="tube", bore=sizes[1]) if len(sizes) > 1 else None
    if section in ("round", "hex"):
        return face(sizes[0], thick=thick, shape=section)
    up = sizes[0] if section else sizes[1]
    return face(sizes[0], up, thick=thick, corner=corner)


def work_out_feature(
    line: Line, part: Part, session: Session, sources: Mapping[str, Line], setting: Mapping[str, Line]
) -> Feature:
    """The feature of a line, cut in `part`, with the names of `session`.

    `sources` has the line that each name comes from, `setting` the line that sets each name of the sheet.

    InputError, placed in the line, for what cannot be worked out or cannot be cut so.
    """
    return _FeatureWork(line, part, session, sources, setting).feature()


@dataclass
class _FeatureWork:
    line: Line
    part: Part
    session: Session
    sources: Mapping[str, Line]
    setting: Mapping[str, Line]
    notes: list[Note] = field(default_factory=list)

    @property
    def form(self) -> FeatureForm:
        assert self.line.feature is not None
        return self.line.feature

    def feature(self) -> Feature:
        form = self.form
        surface = self._face()
        sizes = tuple(self._size(node) for node in form.sizes)
        made = Feature(form.word, self.part.name, size=sizes[0], from_centre=surface.from_centre)
        if form.word == "corner":
            self._checked(form.sizes[0], lambda: refuse_corner(surface, sizes[0]))
        elif form.word == "hole":
            made = replace(made, cut=self._hole(sizes[0], surface), size=None)
            made = self._with_names(made)
        elif form.word == "slot":
            made = replace(made, cut=self._slot(sizes, surface), size=None)
            made = self._with_names(made)
        elif form.word == "notch":
            made = replace(made, cut=self._notch(sizes, surface), size=None)
            made = self._with_names(made)
        elif isinstance(sizes[0], Limits):
            self._refuse(form.sizes[0], "the least wall is one size, without limits")
        sees = tuple(
            (name, source.number) for name, source in self.sources.items() if name in self.session.placed
        )
        return replace(made, notes=tuple(dict.fromkeys(self.notes)), sees=sees)

    def _face(self) -> Face:
        surface = face_of(self.part)
        if surface is None:
            raise InputError(
                f"{self.part.name} has no face to cut: its line says fewer than two sizes", self.line.text,
                self.form.part_start, self.form.part_end,
                "give its sizes like this: part label frame: 3 of brass, 2 in by 7/8 in by 1/16 in", self.line.number,
            )  # fmt: skip
        return surface

    # What is cut

    def _hole(self, diameter: Size, surface: Face) -> Hole:
        form = self.form
        self._refuse_thread(form.sizes[0])
        angle = None if form.angle is None else self._angle(form.angle)
        sunk = None if form.sunk is None else self._above_zero(form.sunk)
        at, start, deep = self._places(), self._start(), self._deep()
        made = self._checked(
            form.sunk or form.sizes[0],
            lambda: hole(diameter, at, start=start, deep=deep, sunk=sunk, angle=angle),
        )
        if sunk is not None and angle is None:
            self.notes.append(
                remark(
                    f"the countersink is given no angle, so {USUAL_SINK} is taken; for another write sunk SIZE, ANGLE"
                )
            )
        self._checked(form.deep or form.sunk or form.sizes[0], lambda: surface.refuse(made))
        return made

    def _slot(self, sizes: tuple[Size, ...], surface: Face) -> Cut:
        form = self.form
        turned = None if form.angle is None else self._angle(form.angle)
        at, start, deep = self._places(), self._start(), self._deep()
        made = self._checked(
            form.sizes[0],
            lambda: slot(sizes[0], sizes[1], at, start=start, turned=turned, deep=deep, square=form.square),
        )
        if made.is_turned_off:
            self.notes.append(remark("it lies at an angle, so where its ends stand is approximate"))
        self._checked(form.deep or form.sizes[0], lambda: surface.refuse(made))
        return made

    def _notch(self, sizes: tuple[Size, ...], surface: Face) -> Cut:
        form, at = self.form, self._places()
        if len(at.axes) > 1:
            raise InputError(
                "a notch is placed by its distance along the edge, and these places are on two axes",
                self.line.text, *form.places_span, f"write it like this: {EXAMPLES['notch']}", self.line.number,
            )  # fmt: skip
        return self._checked(form.sizes[1], lambda: notch(sizes[0], sizes[1], at, edge=form.edge, of=surface))

    def _places(self) -> Places:
        form = self.form
        assert form.places is not None
        try:
            answer = self.session.work_out(form.places, form.places_text)
        except InputError as error:
            raise error.at(self.line.text, 0, self.line.number) from None
        self.notes += answer.notes
        placed: Places = places_of(answer.result)
        if form.many is not None and form.many != len(placed.points):
            raise InputError(
                f"the line says {form.many} {form.word}{'' if form.many == 1 else 'es' if form.word == 'notch' else 's'}, and its places are {len(placed.points)}",
                self.line.text, *form.places_span, "say as many places as there are, or leave the number out",
                self.line.number,
            )  # fmt: skip
        if len(placed.axes) == 1 and not form.start and form.word != "notch":
            raise InputError(
                "these places are on one axis: say where on the face they are counted from", self.line.text,
                *form.places_span, self._on_one_axis(placed), self.line.number,
            )  # fmt: skip
        return placed

    def _on_one_axis(self, placed: Places) -> str:
        """How places on two axes are written: of two sizes with a comma between, first as the one place that they may be."""
        form = self.form
        start, end = form.places_span
        across, comma, up = self.line.text[start:end].partition(",")
        if len(placed.points) != 2 or not comma or "," in up:
            return f"add how far across and up, such as from 0 in, 1/4 in: {EXAMPLES[form.word]}"
        whole = f"{self.line.text[:start]}{across.rstrip()} by {up.strip()}{self.line.text[end:]}"
        return write(
            whole, lead="for one place, across by up, write ",
            tail="; for two places along a line add how far across and up it begins, such as from 0 in, 1/4 in",
        )  # fmt: skip

    def _start(self) -> tuple[Quantity, ...] | None:
        return tuple(map(self._length, self.form.start)) or None

    def _deep(self) -> Quantity | None:
        return None if self.form.deep is None else self._above_zero(self.form.deep)

    # Sizes

    def _value(self, node: ShownExpression) -> Value | None:
        try:
            size = worked_out(node, self.line, self.session)
        except InputError as error:
            raise (self._by_habit(error) if self._is_named(node) else error) from None
        self.notes += size.notes
        return size.value

    def _is_named(self, node: Node) -> bool:
        """Whether every name in it has a size, so that its fault is in the way of writing."""
        return all(part.word in self.session.known for part in nodes_in(node) if isinstance(part, Name))

    def _by_habit(self, error: InputError) -> InputError:
        return in_whole_lines(error, _is_read, CUT_HABITS)

    def _size(self, node: ShownExpression) -> Size:
        value = self._value(node)
        if not isinstance(value, Quantity | Limits) or value.power != 1:
            self._refuse_bare(node)
        if nominal_of(value).value <= 0:
            self._refuse(node, "this must be above zero")
        return value

    def _above_zero(self, node: ShownExpression) -> Quantity:
        length = self._length(node)
        if length.value <= 0:
            self._refuse(node, "this must be above zero")
        return length

    def _length(self, node: ShownExpression) -> Quantity:
        """One length, of limits the nominal, which is said."""
        value = self._value(node)
        if isinstance(value, Limits):
            self.notes.append(remark("the nominal size is used; its limits are left aside"))
            value = value.nominal
        if not isinstance(value, Quantity) or value.power != 1:
            self._refuse_bare(node)
        return value

    def _angle(self, node: ShownExpression) -> Angle:
        value = self._value(node)
        if not isinstance(value, Angle):
            self._refuse(node, "this must be an angle", "write it in degrees, such as 82 deg")
        return value

    # Names

    def _with_names(self, made: Feature) -> Feature:
        nodes = [behind_names(node.expression, self.setting) for node in self.form.sizes]
        called = tuple(called_as(node) for node in nodes)
        first = nodes[0]
        if isinstance(first, Call) and first.function in PURPOSES and isinstance(first.arguments[0], Named):
            thread = called_as(first.arguments[0])
            return replace(made, called=called, thread=thread, purpose=first.function)
        return replace(made, called=called)

    def _refuse_thread(self, node: ShownExpression) -> None:
        """A hole for a thread is tapped or clears it: which of them is never guessed."""
        behind = behind_names(node.expression, self.setting)
        if isinstance(behind, Named) and behind.kind == "thread":
            name = called_as(behind)
            self._refuse(
                node, f"{name} is a thread, and its hole is tapped or clears it",
                f"write {', '.join(f'{each}({name})' for each in PURPOSES)} or major({name})",
            )  # fmt: skip

    # Faults

    def _checked(self, node: Node, make: Callable[[], T]) -> T:
        try:
            return make()
        except InputError:
            raise
        except ShopError as error:
            self._refuse(node, str(error))

    def _refuse_bare(self, node: Node) -> NoReturn:
        """A number alone where a length is needed: with its unit where that can be told from the rest of the line."""
        try:
            self._refuse(node, "this must be a length", "write it with its unit, such as 1/8 in")
        except InputError as error:
            raise self._by_habit(error) from None

    def _refuse(self, node: Node, message: str, advice: str = "") -> NoReturn:
        raise InputError(message, self.line.text, node.start, node.end, advice, self.line.number)
