"""What a line that can be read still lacks: a unit, or a point in place of a comma.

These are told from the line itself, so that the advice repeats what was typed. Only
literal sizes are looked at; what a name stands for is known when it is worked out.
"""

from __future__ import annotations

import re
from fractions import Fraction

from fractions_shop.language.advice.offers import Offer, write
from fractions_shop.language.fault import Fault
from fractions_shop.language.nodes import (  # fmt: skip
    Binary,
    Literal,
    Name,
    Naming,
    Node,
    OddUnit,
    Pieces,
    Request,
    RowOfPlaces,
    RuleName,
    Several,
    ShownExpression,
    Signed,
    Statement,
    Text,
    Texts,
    Toleranced,
    nodes_in,
)
from fractions_shop.size import other_lengths, units
from fractions_shop.size.quantity import Quantity

#: Tables to look among by another word.
_TABLES = {"drill": "drills", "gauge": "gauges", "thread": "threads", "stocks": "stock", "screws": "threads"}


def check(statement: Statement | None, line: str) -> None:
    """Fault when a literal of the statement lacks its unit; `line` is what was typed."""
    answer = statement.answer if isinstance(statement, Naming) else statement
    if isinstance(answer, Request):
        _check_words(answer, line)
        _check_lengths(answer, line)
    elif isinstance(answer, ShownExpression) and answer.target is not None:
        _check_rule(answer.target)
        _check_length(answer.expression, line)
    for node in nodes_in(statement):
        if isinstance(node, Toleranced):
            _check_limits(node, line)
        elif isinstance(node, Binary):
            _check_joint(node, line)


def has_odd_word(statement: Statement) -> bool:
    """Whether a word stands in the statement that is not a unit, and surely no name."""
    from fractions_shop.language.advice.drawing_labels import NO_NAMES

    return any(
        (isinstance(node, OddUnit) and not other_lengths.is_length(node.word))
        or (isinstance(node, Name) and (node.word.lower() in NO_NAMES or units.find(node.word) is not None))
        for node in nodes_in(statement)
    )


def _bare(node: Node) -> bool:
    """A literal number without a unit."""
    if isinstance(node, Signed):
        return _bare(node.operand)
    return (
        isinstance(node, Literal) and isinstance(node.value, Quantity)
        and node.value.power == 0 and not node.unit
    )  # fmt: skip


def _number(node: Node) -> Fraction | None:
    """What a literal number without a unit comes to; None for anything else."""
    return node.value.value if isinstance(node, Literal) and _bare(node) else None  # type: ignore[union-attr]


def _check_lengths(request: Request, line: str) -> None:
    for place, node in enumerate(request.subjects):
        if place in request.lengths:
            _check_length(node, line, request)
        for part in _lengths_in(node) if place not in request.lengths else ():
            _check_length(part, line)
    for option in request.options:
        if option.length and option.value is not None:
            for part in (option.value, *_lengths_in(option.value)):
                _check_length(part, line)


def _lengths_in(node: Node) -> tuple[Node, ...]:
    """What of a subject made of several must be a length: both of a pair, the pitch of a row, a body's width."""
    match node:
        case Several(lengths=True):
            return node.members
        case RowOfPlaces():
            return (node.pitch,)
        case Pieces():
            return (node.size,)
    return ()


def _check_length(node: Node, line: str, request: Request | None = None) -> None:
    if not _bare(node):
        return
    number = line[node.start : node.end]
    touching = re.match(r"[0-9.]*(?:,[0-9.]*[0-9])+", line[node.start :])
    if touching:
        from fractions_shop.language.advice.typing_habits import comma_advice

        message, advice = comma_advice(touching[0])
        raise Fault(message, node.start, node.start + touching.end(), advice)
    advice = write(f"{number} in", f"{number} mm", joint=" or ")
    if request is not None and request.word == "drill" and number.isdigit():
        drill = Offer(f"No {number} drill", " for the drill of that number")
        advice = write(f"{number} in", f"{number} mm", drill)
    if (
        request is not None
        and request.lengths == tuple(range(len(request.subjects)))
        and len(request.subjects) > 1
    ):
        unit = next((_unit(part, line) for part in request.subjects if _unit(part, line)), "")
        if unit:
            each = write(_each(request, line, unit))
            raise Fault("each size needs its own unit", node.start, node.end, each)
    raise Fault("this has no unit, where a length is needed", node.start, node.end, advice)


def _unit(node: Node, line: str) -> str:
    """The unit of a literal, as it was typed."""
    if not isinstance(node, Literal) or not node.unit:
        return ""
    return node.unit if line[node.start : node.end].endswith(node.unit) else ""


def _each(request: Request, line: str, unit: str) -> str:
    """The line with the unit behind every number of the list that has none."""
    blank = " " if unit[0].isalpha() else ""
    for node in reversed(request.subjects):
        if _bare(node):
            line = f"{line[: node.end]}{blank}{unit}{line[node.end :]}"
    return line.strip()


def _check_rule(node: RuleName) -> None:
    """`1/32 in` for a rule of 32nds."""
    match = re.fullmatch(r"1/([0-9]{1,5}) *(?:in|inch|\")", node.text)
    if match and int(match[1]):
        from fractions_shop.size.rule import nths

        raise Fault(f"{node.text} is not a rule", node.start, node.end, f"write {nths(int(match[1]))}")


def _check_words(request: Request, line: str) -> None:
    for node in (*request.subjects, *(option.value for option in request.options)):
        if isinstance(node, RuleName):
            _check_rule(node)
        elif isinstance(node, Text) and node.kind == "DESIGNATION":
            _check_thread(node, request.word, line)
    for option in request.options:
        if option.word == "among" and isinstance(option.value, Texts):
            _check_tables(option.value, line)


def _check_thread(node: Text, word: str, line: str) -> None:
    _refuse_wood_screw(node)
    comma = re.search(r"[0-9],[0-9]", node.text)
    if comma:
        text = node.text.replace(",", ".")
        start = node.start + comma.start()
        raise Fault(
            "a comma was written where a point belongs",
            start,
            start + 3,
            write(f"{word} {text}", hint="write a point for decimals"),
        )
    if not node.text[:1].isalpha():
        return  # what follows is of names that begin with a letter
    from fractions_shop.threads.lookup import exists
    from fractions_shop.threads.records import CAPITALS

    if node.text.upper().startswith(CAPITALS):
        turned = re.fullmatch(rf"({'|'.join(CAPITALS)}) *([0-9]+(?:/[0-9]+)?)", node.text, re.IGNORECASE)
        if turned and exists(name := f"{turned[2]} {turned[1].upper()}"):
            raise Fault("the number comes first", node.start, node.end, write(f"{word} {name}"))
    if exists(node.text):
        return
    from fractions_shop.language.advice.gate import LOOK_ALIKES
    from fractions_shop.language.advice.refused_lines import unread_hardware

    unread = unread_hardware(line)
    if unread is not None:
        raise unread
    letters = re.fullmatch(rf"([OolI]+) ?((?:{'|'.join(CAPITALS)})\b.*)", node.text, re.IGNORECASE)
    if letters and exists(text := f"{letters[1].translate(LOOK_ALIKES)} {letters[2]}"):
        message = f"{node.text} has a letter where a figure was meant"
        raise Fault(
            message, node.start, node.start + letters.end(1), write(Offer(f"{word} {text}", worked=True))
        )


def _refuse_wood_screw(node: Text) -> None:
    """Fault for a wood screw where a thread is asked for, with its name in each country."""
    match = re.fullmatch(
        r"(?:(?P<country>US|American|British|UK) +)?(?:No\b\.?|number\b|#)? *(?P<n>[0-9]{1,2}) +wood ?screws?",
        node.text.strip(), re.IGNORECASE,
    )  # fmt: skip
    if match is None:
        return
    number = match["n"]
    countries = [match["country"]] if match["country"] else ["US", "British"]
    offers = [
        Offer(f"{country} No {number} wood screw", "" if match["country"] else f" for the {called} one")
        for country, called in zip(countries, ("American", "British"), strict=False)
    ]
    raise Fault(
        "a wood screw has no thread that is told here, only its sizes and its head", node.start, node.end,
        write(*offers),
    )  # fmt: skip


def _check_tables(node: Texts, line: str) -> None:
    for match in re.finditer(r"[a-z]+", line[node.start : node.end].lower()):
        if match[0] in _TABLES:
            start = node.start + match.start()
            raise Fault(
                f"{match[0]} is not a table to look among", start, node.start + match.end(),
                f"write {_TABLES[match[0]]}",
            )  # fmt: skip


def _check_limits(node: Toleranced, line: str) -> None:
    """`10 ± 0.1 mm`: a unit at the limits and none at the size."""
    unit = node.plus.unit if isinstance(node.plus, Literal) else ""
    if not _bare(node.nominal) or units.find(unit) is None:
        return
    size = line[node.nominal.start : node.nominal.end]
    # Thous are the limits of inches, and microns of millimetres.
    known = units.find(unit)
    given = {"thou": "in", "um": "mm"}.get(known.name if known else "", unit)
    raise Fault(
        f"{size} has no unit, and its limits have one: the size needs its own",
        node.nominal.start, node.nominal.end,
        write(f"{size} {given}{line[node.nominal.end : node.end]}"),
    )  # fmt: skip


def _check_joint(node: Binary, line: str) -> None:
    if node.sign == "^":
        _check_power(node, line)
    elif node.sign == "-" and node.right.start == node.left.end + 1:
        _check_range(node, line)


def _check_power(node: Binary, line: str) -> None:
    """`2 in ^ 0.5`."""
    power = _number(node.right)
    if power is None or power.denominator == 1 or "/" in line[node.right.start : node.right.end]:
        return
    base, text = line[node.left.start : node.left.end], line[node.right.start : node.right.end]
    if isinstance(node.left, Literal) and not _bare(node.left):
        base = f"({base})"
    example = "; the root of an area is written like this: sqrt(2 in * 8 in)"
    advice = write(Offer(f"{base}^2", f" for a square{example}", completes=True))
    if _bare(node.left) and power * 2 == 1:
        advice = write(Offer(f"sqrt({base})", " for the root", worked=True))
    raise Fault(f"the power {text} is not a whole number", node.right.start, node.right.end, advice)


def _check_range(node: Binary, line: str) -> None:
    """`0.498-0.502 in`: two limits, with a dash for the word to."""
    low, unit = _number(node.left), _unit(node.right, line)
    known = units.find(unit)
    if low is None or known is None or known.power != 1 or not isinstance(node.right, Literal):
        return
    spread = node.right.value.value / known.mm - low if isinstance(node.right.value, Quantity) else low
    if not 0 < spread < low / 8:
        return
    from fractions_shop.language.arithmetic import figures

    first, second = line[node.left.start : node.left.end], line[node.right.start : node.right.end]
    raise Fault(
        f"{first}-{second} may be two limits, or a subtraction", node.left.start, node.right.end,
        write(
            Offer(f"{first} {unit} +{figures(spread)}/-0 {unit}", " for two limits", worked=True),
            f"{first} {unit} - {second}",
        ),
    )  # fmt: skip
