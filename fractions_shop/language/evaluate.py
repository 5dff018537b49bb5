"""Nodes to values: names, functions, limits, and notes on how a form was read."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from types import MappingProxyType
from typing import TYPE_CHECKING, Any

from fractions_shop.errors import InputError, ShopError
from fractions_shop.language.advice.offers import Offer, write
from fractions_shop.language.applied import applied, called_otherwise, counted
from fractions_shop.language.arithmetic import bounded, combine, has_one_meaning, several
from fractions_shop.language.fault import Fault
from fractions_shop.language.nodes import (  # fmt: skip
    Binary,
    Call,
    Literal,
    Name,
    Named,
    Node,
    OddUnit,
    Pieces,
    Signed,
    Toleranced,
    Worded,
    as_written,
)
from fractions_shop.language.notes import Note, echo, remark
from fractions_shop.size import units
from fractions_shop.size.limits import Limits
from fractions_shop.size.notation import as_meant, mixed
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.standing import worse
from fractions_shop.size.units import a_power
from fractions_shop.size.value import Value

if TYPE_CHECKING:
    from fractions_shop.language.functions import Function

#: Deeper than this is refused, well before Python's own limit.
MAX_DEPTH = 150
#: Nobody reads an answer of more places than this.
MOST_POINTS = 500


class Evaluator:
    """Works out expressions against `names`.

    `text` is the line that they stand in, `placed` the names that stand for several places. `notes` gathers
    what is said of how forms were read, `used` the names that were looked up.
    """

    #: What was read of the names that an instrument gave; those weighed together here; what is being named.
    readings: Mapping[str, Any] = MappingProxyType({})
    heap: Any = None
    naming = ""
    naming_each: tuple[str, ...] = ()
    #: Other names of the same sheet, by their small letters, which no thread or word is taken for.
    named_elsewhere: Mapping[str, str] = MappingProxyType({})

    def __init__(
        self,
        names: Mapping[str, Value],
        text: str = "",
        placed: Mapping[str, Any] | None = None,
    ) -> None:
        self.names = names
        self.placed = placed or {}
        self.text = as_meant(text)
        self.notes: list[Note] = []
        self.used: list[str] = []
        #: The figures taken from tables, by what they are called, each with its standing.
        self.rested: dict[str, str] = {}

    def value(self, node: Node, depth: int = 0) -> Value:
        """What `node` comes to; Fault, placed, when it cannot be worked out."""
        if depth > MAX_DEPTH:
            raise Fault("this is nested too deeply", node.start, node.end, "name the inner parts first")
        work_out = _BY_KIND.get(type(node))
        if work_out is None:
            raise Fault("this cannot be worked out", node.start, node.end)
        return work_out(self, node, depth)

    def use(self, word: str) -> None:
        """Keep a name as one that was drawn on, once."""
        if word not in self.used:
            self.used.append(word)

    def note(self, note: Note) -> None:
        """Keep a note for the answer, once."""
        if note not in self.notes:
            self.notes.append(note)

    def rest_on(self, called: str, value: Value) -> Value:
        """`value` itself; where a table gave it, its standing is kept under what it is called."""
        if value.standing:
            self.rested[called] = worse(value.standing, self.rested.get(called, ""))
        return value

    def _literal(self, node: Literal, _depth: int) -> Value:
        if node.read_as is not None:
            self.note(node.read_as)
        if not node.value.standing:
            return node.value
        # A unit that rests on a table is named; of a gauge among words, what was written is.
        called = node.unit if units.find(node.unit) is None else self.text[node.start : node.end]
        return self.rest_on(" ".join(called.split()), node.value)

    def _signed(self, node: Signed, depth: int) -> Value:
        value = self.value(node.operand, depth + 1)
        return -value if node.sign == "-" else value

    def _chain(self, node: Binary, depth: int) -> Value:
        # `1 + 1 + 1 ...` leans to the left: its spine is walked in a loop, not by recursion.
        spine = [node]
        while isinstance(spine[-1].left, Binary):
            spine.append(spine[-1].left)
        left = self.value(spine[-1].left, depth + 1)
        while spine:
            step = spine.pop()
            if has_one_meaning(step, left):
                left = combine(step, left, self.value(step.right, depth + 1))
            else:
                left = self._of_several_meanings(step, spine[-1] if spine else None, left, depth)
        return left

    def _of_several_meanings(self, step: Binary, outer: Binary | None, left: Value, depth: int) -> Value:
        """A step of a sum or a product that paper may mean otherwise: refused, or read with a note."""
        from fractions_shop.language.advice import second_meanings  # many lines have no sign in them

        second_meanings.refuse(step, outer, self.text)
        right = self.value(step.right, depth + 1)
        second_meanings.refuse_sides(step, left, right, self.text)
        result = combine(step, left, right)
        for note in second_meanings.notes(step, left, right, self.text):
            self.note(note)
        return result

    def _worded(self, node: Worded, depth: int) -> Value:
        for word in node.words:
            if word.word in self.names or self.named_elsewhere.get(word.word.casefold()) == word.word:
                raise Fault(
                    f"{word.word} is a size named here, and stands beside a size without a sign between them",
                    word.start, word.end, "put + - * or / between them; side by side never multiplies",
                )  # fmt: skip
        for note in node.notes:
            self.note(note)
        return self.value(node.size, depth + 1)

    def _named(self, node: Named, _depth: int) -> Value:
        from fractions_shop.language.named import named_size  # tables load only when named

        self._refuse_shadowed(node)
        try:
            size, note = named_size(node)
        except ShopError as error:
            advice = error.advice if isinstance(error, InputError) else ""
            message = error.message if isinstance(error, InputError) else str(error)
            raise Fault(message, node.start, node.end, advice) from None
        if note is not None:
            self.note(note)
        return self.rest_on(" ".join(node.text.split()), size)

    def _refuse_shadowed(self, node: Named) -> None:
        """Fault for `M3` or `R1/4` where m3 or R1 is a size named here."""
        text = node.text.casefold()
        own = {name.casefold(): name for name in self.names}
        for place in (*(n for n, sign in enumerate(text) if sign in "/-"), len(text)):
            name, rest = own.get(text[:place]) or self.named_elsewhere.get(text[:place]), text[place:]
            if name is None:
                continue
            size = f"{name} {rest[0]} {node.text[-len(rest) + 1 :]}" if rest else name
            raise Fault(
                f"{node.text} is the thread, and {name} is a size named here", node.start, node.end,
                write(
                    Offer(size, " for the size"),
                    Offer(f"{node.text[:1]} {node.text[1:]}", " with a blank for the thread"),
                ),
            )  # fmt: skip

    def _name(self, node: Name, _depth: int) -> Value:
        if node.word in self.names:
            self.use(node.word)
            return self.rest_on(node.word, self.names[node.word])
        if node.word in self.placed:
            many = len(self.placed[node.word].points)
            raise Fault(
                f"{node.word} is {many} places, where one size is needed", node.start, node.end,
                f"{node.word} by itself shows them, across({node.word}, 1) is the first of them",
            )  # fmt: skip
        if node.word.lower() in ("pi", "π"):
            from fractions_shop.layout.circle import pi

            return pi()
        if node.word == "ans":
            raise Fault("there is no last size yet", node.start, node.end, "work out a size first")
        if node.word in self.readings:
            raise Fault(
                f"what {node.word} reads does not settle its size yet", node.start, node.end,
                "read more off the same print, or the same size again",
            )  # fmt: skip
        from fractions_shop.language.advice.unknown_words import unnamed  # only a fault needs it

        message, advice = unnamed(node.word, self.names)
        raise Fault(message, node.start, node.end, advice)

    def _odd_unit(self, node: OddUnit, _depth: int) -> Value:
        spot = (node.word_start, node.end)
        meanings = units.two_meanings(node.word)
        if meanings:
            raise Fault(
                f"{node.word} has more than one meaning: {meanings.split(': ')[0]}",
                *spot,
                meanings.split(": ", 1)[1],
            )
        from fractions_shop.language.advice import unknown_words
        from fractions_shop.size import other_lengths

        said = unknown_words.odd_unit(node.word, node.number)
        if said is not None:
            raise Fault(said[0], node.start, node.end, said[1])
        try:
            unit = other_lengths.length_called(node.word)
        except ShopError as error:
            raise Fault(str(error), *spot, "write it in in or mm") from None
        if unit is not None:
            self.note(echo(f"{unit.meaning}: {mixed(unit.mm)} mm"))
            return Quantity(node.number * unit.mm, unit.power)
        said = unknown_words.old_unit(node.word, node.number)
        if said is not None:
            raise Fault(said[0], *spot, said[1])
        message, advice = unknown_words.no_unit(node.word, node.number, self.text)
        raise Fault(message, *spot, advice)

    def _limits(self, node: Toleranced, depth: int) -> Value:
        sizes: list[Quantity] = []
        for part in (node.nominal, node.plus, node.minus):
            value = self.value(part, depth + 1)
            if not isinstance(value, Quantity):
                raise Fault(
                    "limits are put on a plain size, by plain sizes",
                    part.start,
                    part.end,
                    "write it like this: 1/2 in +1/-2 thou",
                )
            sizes.append(value)
            if value.power != sizes[0].power:
                kind = a_power(sizes[0].power)
                raise Fault(
                    f"limits of {kind} must be {kind} too",
                    part.start,
                    part.end,
                    "write it like this: 1/2 in +1/-2 thou",
                )
        nominal, plus, minus = sizes
        if plus < minus:
            plus, minus = minus, plus
        label = node.nominal.word if isinstance(node.nominal, Name) else ""
        return bounded(Limits(nominal, plus, -minus).labelled(label), node)

    def _pieces(self, node: Pieces, depth: int) -> Value:
        written = [as_written(part, self.text) for part in (node.count, node.size)]
        if isinstance(node.count, Name) and node.count.word not in self.names:
            from fractions_shop.language.advice.unknown_words import part_word  # only a fault needs it

            said = part_word(node.count.word, written[1])
            if said is not None:
                raise Fault(said[0], node.start, node.end, said[1])
        count, size = self.value(node.count, depth + 1), self.value(node.size, depth + 1)
        try:
            return bounded(several(count, size, written[1] if isinstance(node.size, Name) else ""), node)
        except ShopError as error:
            plain = isinstance(count, Quantity) and not count.power
            advice = write(" * ".join(written)) if plain else ""
            raise Fault(str(error), node.start, node.end, advice) from None

    def _call(self, node: Call, depth: int) -> Value:
        from fractions_shop.language.functions import FUNCTIONS, more_functions

        function = FUNCTIONS.get(node.function) or more_functions().get(node.function)
        if function is None:
            known = {name: made.example for name, made in (FUNCTIONS | more_functions()).items()}
            from fractions_shop.language.advice import near_words

            advice = near_words.function(node.function, known)
            raise Fault(
                f"{node.function} is not a function known here", node.start, node.start + len(node.function),
                advice or f"there are {', '.join(known)}",
            )  # fmt: skip
        if function.of_thread and node.arguments:
            return self._thread_part(function, node, depth)
        if function.of_places and node.arguments:
            first, *rest = node.arguments
            values = self._places(first), *(self.value(a, depth + 1) for a in rest)
            for note in called_otherwise(node, values, self.placed):
                self.note(note)
            return applied(function, node, values)
        return applied(function, node, tuple(self.value(a, depth + 1) for a in node.arguments))

    def _places(self, node: Node) -> tuple[tuple[Quantity, ...], ...]:
        """The places that a name has, or that bolt_circle gives; Fault for anything else."""
        if isinstance(node, Name) and node.word in self.placed:
            self.use(node.word)
            return tuple(self.placed[node.word].points)
        if isinstance(node, Call) and node.function == "bolt_circle":
            return tuple((point.x, point.y) for point in self.points(node))
        self.value(node)  # its own Fault, if it has one
        advice = "name them, such as hinge = places 1 1/2 in, 7 in, and write across(hinge, 2)"
        raise Fault("several places are needed here", node.start, node.end, advice)

    def points(self, node: Call) -> tuple[Any, ...]:
        """The places that a function such as bolt_circle gives."""
        from fractions_shop.language.functions import more_functions

        function = more_functions()[node.function]
        values = tuple(self.value(a, 1) for a in node.arguments)
        counted(function, node, values)
        if isinstance(values[0], Quantity) and values[0].value > MOST_POINTS:
            first = node.arguments[0]
            raise Fault(
                f"one answer sets out at most {MOST_POINTS} places", first.start, first.end,
                "give the later ones an answer of their own, with its own first angle",
            )  # fmt: skip
        try:
            result: tuple[Any, ...] = function.work(*values)
            return result
        except ShopError as error:
            raise Fault(str(error), node.start, node.end, f"write it like this: {function.example}") from None

    def _thread_part(self, function: Function, node: Call, depth: int) -> Value:
        from fractions_shop.language.named import named_thread, refuse_screw_number

        first, *rest = node.arguments
        if isinstance(first, Name) and first.word not in self.names:
            first = Named(first.start, first.end, first.word, "thread")  # m3 in small letters
        refuse_screw_number(first, self.text)
        try:
            thread = named_thread(first)
        except ShopError as error:
            message = error.message if isinstance(error, InputError) else str(error)
            raise Fault(message, first.start, first.end, f"write it like this: {function.example}") from None
        asked = [self.value(argument, depth + 1) for argument in rest]
        value = applied(function, node, (thread, *asked))
        for sentence in function.remark(thread, value, *asked) if function.remark else ():
            self.note(remark(sentence))
        return self.rest_on(thread.name, value)


#: How each kind of node is worked out.
_BY_KIND: dict[type[Node], Callable[[Evaluator, Any, int], Value]] = {
    Literal: Evaluator._literal,
    Name: Evaluator._name,
    Binary: Evaluator._chain,
    Signed: Evaluator._signed,
    Toleranced: Evaluator._limits,
    Pieces: Evaluator._pieces,
    Named: Evaluator._named,
    Call: Evaluator._call,
    OddUnit: Evaluator._odd_unit,
    Worded: Evaluator._worded,
}
