"""From the parser's pieces to nodes: one method for each rule or alternative of the grammar."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import pairwise
from typing import Any, NamedTuple

from fractions_shop.language.advice.offers import write
from fractions_shop.language.build_sizes import DEGREES, SizeBuilder, checked
from fractions_shop.language.deviations import deviations, with_unit_of
from fractions_shop.language.fault import Fault
from fractions_shop.language.nodes import (  # fmt: skip
    Binary,
    Call,
    DrawnTo,
    KnownSize,
    Literal,
    Name,
    Naming,
    Node,
    OffPrint,
    Option,
    Pieces,
    Request,
    RowOfPlaces,
    RuleName,
    Several,
    ShownExpression,
    Signed,
    Text,
    Texts,
    Toleranced,
)
from fractions_shop.size import units


def _word(token: Any) -> str:
    """A word of the language in small letters."""
    return str(token).lower()


#: Options of which a request takes one.
_ONE_OF = {"up": "direction", "down": "direction"} | dict.fromkeys(("edges", "centres", "centers"), "marked")


class LengthWanted(NamedTuple):
    """A node where the grammar asks for a length."""

    node: Node


def _lengths(parts: list[Any]) -> Node:
    """The one length among some parts, or several."""
    lengths = tuple(part.node for part in parts if isinstance(part, LengthWanted))
    return lengths[0] if len(lengths) == 1 else Several(lengths[0].start, lengths[-1].end, lengths, True)


class Builder(SizeBuilder):
    """Makes the nodes: sizes as its base does, the rest by a method for each rule or alternative of shop.lark."""

    # Arithmetic

    def name(self, parts: list[Any]) -> Node:
        """A name."""
        (token,) = parts
        return Name(token.start_pos, token.end_pos, str(token))

    def binary(self, parts: list[Any]) -> Node:
        """Two operands and the sign between them."""
        left, sign, right = parts
        plain = {"×": "*", "÷": "/"}.get(sign, str(sign))
        return Binary(left.start, right.end, plain, sign.start_pos, left, right, sign == "×")

    def signed(self, parts: list[Any]) -> Node:
        """A sign and what follows it."""
        sign, operand = parts
        if isinstance(operand, Signed) and not operand.bracketed and operand.start == sign.end_pos:
            raise Fault(
                f"'{sign}' and '{operand.sign}' stand together", sign.start_pos, operand.start + 1,
                "leave one of them out, or put the second in brackets",
            )  # fmt: skip
        if sign == "-" and isinstance(operand, Toleranced) and not operand.bracketed and not _even(operand):
            raise Fault(
                "a minus before a size with two deviations may be of the size, or turn all of it over",
                sign.start_pos, operand.end, "put the size and its minus in brackets, or all that stands behind the minus",
            )  # fmt: skip
        return Signed(sign.start_pos, operand.end, str(sign), operand)

    def pieces(self, parts: list[Any]) -> Node:
        """So many pieces of a size, or a part of one."""
        count, _, size = parts
        return Pieces(count.start, size.end, count, size)

    def bracketed(self, parts: list[Any]) -> Node:
        """What stands in brackets."""
        inner: Node = parts[1]
        kinds = Literal | Signed | Binary | Toleranced
        return inner.but(bracketed=True) if isinstance(inner, kinds) else inner

    def call(self, parts: list[Any]) -> Node:
        """A function and its arguments."""
        function, *middle, close = parts
        arguments = tuple(part for part in middle if isinstance(part, Node))
        return Call(function.start_pos, close.end_pos, str(function).lower(), arguments)

    def plus_minus(self, parts: list[Any]) -> Node:
        """A size plus or minus the same."""
        nominal, sign, spread = parts
        spread = with_unit_of(spread, nominal)
        return Toleranced(
            nominal.start, spread.end, nominal, spread, Signed(sign.start_pos, spread.end, "-", spread)
        )

    def plus_and_minus(self, parts: list[Any]) -> Node:
        """A size with two deviations, +1/-2 thou."""
        nominal, pair, word = parts
        plus, minus = deviations(pair, word, nominal)
        return Toleranced(nominal.start, (word if word is not None else pair).end_pos, nominal, plus, minus)

    def per_foot(self, parts: list[Any]) -> Node:
        """So much in a foot, 1/8 in per ft, which is what the function of that name makes of it."""
        gain, word = parts
        return Call(gain.start, word.end_pos, "per_foot", (gain,))

    # Statements

    def reading(self, parts: list[Any]) -> Node:
        """An expression, and perhaps `as` something."""
        expression, _, target = parts
        return ShownExpression(expression.start, (target or expression).end, expression, target)

    def rule_name(self, parts: list[Any]) -> Node:
        """A rule or a unit after a word."""
        return RuleName(parts[0].start_pos, parts[-1].end_pos, " ".join(map(str, parts)))

    def length(self, parts: list[Any]) -> LengthWanted:
        """A part of a request that must be a length."""
        return LengthWanted(parts[0])

    def option(self, parts: list[Any]) -> Node:
        """A smaller word of a request."""
        word = parts[0]
        rest = [part.node if isinstance(part, LengthWanted) else part for part in parts[1:]]
        value = next((part for part in rest if isinstance(part, Node)), None)
        end = max([word.end_pos, *(p.end if isinstance(p, Node) else p.end_pos for p in rest)])
        length = any(isinstance(part, LengthWanted) for part in parts)
        return Option(word.start_pos, end, " ".join(_word(word).split()), value, length)

    def on_for_to(self, parts: list[Any]) -> Node:
        """`snap 2.3 in on 32nds`, which means the same as `to 32nds`."""
        word, rule = parts
        return Option(word.start_pos, rule.end, "to", rule)

    def words(self, parts: list[Any]) -> Node:
        """Words taken as they are written."""
        text = " ".join(str(part) for part in parts).rstrip()
        start = parts[0].start_pos
        end = max(parts[-1].start_pos, start) + len(str(parts[-1]).rstrip())
        return Text(start, end, text, parts[0].type)

    def among(self, parts: list[Any]) -> Node:
        """The tables to look in, as one option."""
        word, *tables = [part for part in parts if isinstance(part, Text) or part.type == "AMONG"]
        named = Texts(tables[0].start, tables[-1].end, tuple(table.text for table in tables))
        return Option(word.start_pos, tables[-1].end, "among", named)

    def from_words(self, parts: list[Any]) -> Node:
        """Words to take from, as one option."""
        word, *named = [part for part in parts if isinstance(part, Text) or part.type == "FROM"]
        text = ", ".join(each.text for each in named)
        return Option(word.start_pos, named[-1].end, "from", Text(named[0].start, named[-1].end, text))

    def taper_long(self, parts: list[Any]) -> Node:
        """A pin's length: `x 1 1/2 in`, `, 1 1/2 in long`."""
        length = next(part.node for part in parts if isinstance(part, LengthWanted))
        return Option(length.start, length.end, "long", length, True)

    def taper_at(self, parts: list[Any]) -> list[Node]:
        """`at 1 in`, `at 1 in from the small end`."""
        word, length, *end = [part for part in parts if part is not None]
        at: list[Node] = [Option(word.start_pos, length.node.end, "at", length.node, True)]
        if end:
            at.append(Option(end[0].start_pos, end[0].end_pos, " ".join(_word(end[0]).split()), None))
        return at

    def taper(self, parts: list[Any]) -> Node:
        """A taper by name, with a word before it or without."""
        named = next(part for part in parts if getattr(part, "type", "") in ("TAPER_NAMED", "TAPER_ALONE"))
        options: list[Option] = []
        for part in parts:
            options += part if isinstance(part, list) else [part] if isinstance(part, Option) else []
        _said_once(options)
        text = str(named).rstrip()
        subject = Text(named.start_pos, named.start_pos + len(text), text, named.type)
        end = max([subject.end, *(option.end for option in options)])
        return Request(parts[0].start_pos, end, "taper", (subject,), tuple(options), ())

    def off_print(self, parts: list[Any]) -> Node:
        """`off a print`, or `off print B`."""
        start, end = parts[0].start_pos, parts[-1].end_pos
        name = str(parts[1]) if len(parts) > 1 else ""
        return Option(start, end, "scale", OffPrint(start, end, name))

    def drawn_to(self, parts: list[Any]) -> Node:
        """`scale 1:2`."""
        word, ratio = parts
        both, whole = (part.strip() for part in ratio.split(":"))
        sides = checked(both, ratio), checked(whole, ratio)
        if not all(sides):
            raise Fault("a scale cannot have zero in it", ratio.start_pos, ratio.end_pos, "write scale 1:2")
        at = DrawnTo(ratio.start_pos, ratio.end_pos, *sides)
        return Option(word.start_pos, ratio.end_pos, "scale", at)

    def scale_from(self, parts: list[Any]) -> Node:
        """`scale from rack = 2 31/32 in`."""
        word, read, size = (part for part in parts if getattr(part, "type", "SCALE") == "SCALE")
        at = KnownSize(read.node.start, size.node.end, read.node, size.node)
        return Option(word.start_pos, size.node.end, "scale", at)

    def work(self, parts: list[Any]) -> Node:
        """`in inch work`."""
        (token,) = parts
        start, end = token.start_pos, token.end_pos
        return Option(start, end, "work", Text(start, end, _word(token).split()[1]))

    def counts(self, parts: list[Any]) -> Node:
        """One number, or several that `and` joins."""
        numbers = tuple(part for part in parts if isinstance(part, Node))
        return numbers[0] if len(numbers) == 1 else Several(numbers[0].start, numbers[-1].end, numbers)

    def pair(self, parts: list[Any]) -> Node:
        """Two distances that `by` joins: across, then up."""
        return _lengths(parts)

    def row(self, parts: list[Any]) -> Node:
        """How many across or up, and their pitch."""
        count, way, _, pitch = parts
        return RowOfPlaces(count.start, pitch.node.end, _word(way), count, pitch.node)

    def along(self, parts: list[Any]) -> Node:
        """A word with one distance or two behind it."""
        word, *rest = parts
        value = _lengths(rest)
        return Option(word.start_pos, value.end, " ".join(_word(word).split()), value, True)

    def request(self, parts: list[Any]) -> Node:
        """A request with its subjects and options."""
        return _request(parts, [])

    def measured(self, parts: list[Any]) -> Node:
        """`recover` with readings that may each have been read again, and have a trust of their own."""
        last = max(n for n, part in enumerate(parts) if isinstance(part, LengthWanted))
        commas = [n for n, part in enumerate(parts[:last]) if getattr(part, "type", "") == "COMMA"]
        return _request(parts, commas)

    def reads(self, parts: list[Any]) -> Node:
        """A name and what an instrument said of it."""
        name = _free_name(parts[0])
        answer = _request(parts[1:], [])
        return Naming(parts[0].start_pos, answer.end, name, answer)

    def naming(self, parts: list[Any]) -> Node:
        """A name and the answer it is to stand for."""
        name, _, answer = parts
        return Naming(name.start_pos, answer.end, _free_name(name), answer)

    def naming_each(self, parts: list[Any]) -> Node:
        """Names for the sizes of a list, one for each."""
        *front, answer = parts
        tokens = [part for part in front if part.type == "NAME"]
        each = tuple(map(_free_name, tokens))
        for place, token in enumerate(tokens):
            if str(token) in each[:place]:
                raise Fault(
                    f"{token} is given here twice", token.start_pos, token.end_pos, "choose another name"
                )
        return Naming(tokens[0].start_pos, answer.end, each[0], answer, each)

    def start(self, parts: list[Any]) -> Any:
        """The whole line; None for a blank one."""
        return parts[0]


def _request(parts: list[Any], commas: list[int]) -> Request:
    """A request of its word and what follows; an option may be said once, and again behind each of `commas`."""
    word, *rest = parts
    wanted = [part for part in rest if isinstance(part, (Node, LengthWanted))]
    nodes = [part.node if isinstance(part, LengthWanted) else part for part in wanted]
    cuts = [0, *commas, len(parts)]
    for start, stop in pairwise(cuts):
        _said_once(part for part in parts[start:stop] if isinstance(part, Option))
    options = tuple(part for part in nodes if isinstance(part, Option))
    subjects = tuple(part for part in nodes if not isinstance(part, Option))
    end = max([word.end_pos, *(node.end for node in nodes)])
    kinds = [part for part in wanted if not isinstance(part, Option)]
    lengths = tuple(place for place, part in enumerate(kinds) if isinstance(part, LengthWanted))
    return Request(word.start_pos, end, _word(word), subjects, options, lengths)


def _said_once(options: Iterable[Option]) -> None:
    seen: dict[str, Option] = {}
    for option in options:
        kind = _ONE_OF.get(option.word, option.word)
        if kind in seen and kind != "again":
            if kind == "scale" and type(option.value) is not type(seen[kind].value):
                message = "two scales are said, and all is read at one"
                advice = (
                    "off a print leaves the scale open: say that alone, or the scale alone where it is known"
                )
                if not any(isinstance(each.value, OffPrint) for each in (option, seen[kind])):
                    advice = "leave one of them out"
                raise Fault(message, seen[kind].start, option.end, advice)
            raise Fault(f"{option.word} is given here twice", option.start, option.end, "say it once")
        seen[kind] = option


def _free_name(name: Any) -> str:
    """A word that may be a name; Fault for a unit and for `ans`."""
    word = str(name)
    if units.find(word) is not None or word in DEGREES:
        raise Fault(
            f"{word} is a unit, so it cannot be a name",
            name.start_pos,
            name.end_pos,
            write(f"my_{word}", tail=" or another word"),
        )
    if word == "ans":
        raise Fault("ans is always the last size", name.start_pos, name.end_pos, "choose another name")
    return word


def _even(limits: Toleranced) -> bool:
    """Whether limits are as far above as below, so that turning them over changes nothing."""
    return isinstance(limits.minus, Signed) and limits.minus.operand == limits.plus
