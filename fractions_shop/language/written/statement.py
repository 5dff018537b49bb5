"""A line that is no statement as a whole, and is one written size with words around it."""

from __future__ import annotations

import re

from fractions_shop.errors import InputError
from fractions_shop.language.grammar import reads
from fractions_shop.language.grammar_tables import tables
from fractions_shop.language.nodes import (
    Literal,
    Name,
    Naming,
    Node,
    ShownExpression,
    Statement,
    Toleranced,
    Worded,
)
from fractions_shop.language.notes import Note, doubt, echo
from fractions_shop.language.written.items import Item, Left, ThreadSaid, Written
from fractions_shop.language.written.reader import left_note, written
from fractions_shop.size.limits import Limits
from fractions_shop.size.notation import GLYPHS, inch_text, mm_text
from fractions_shop.size.quantity import Quantity

_NAMING = re.compile(r"[ ]*(?P<name>[A-Za-z_]\w*)[ ]*=[ ]*(?![=>])")
_COMMENT = re.compile(r"#(?![0-9])")
_HAS_A_SIZE = re.compile(rf"[0-9{GLYPHS}]|inch|foot|feet|drill|thou|mill?imet|centimet", re.IGNORECASE)
_NAME = re.compile(r"[^\W\d]\w*")
#: Words of the grammar that also stand about sizes; with any other one a line is a mistyped request.
_ALSO_SAID_WORDS = """drill gauge thread radius across within each from between end ends on rule fit about apart along
centers centres edges for made plated scale"""
_ALSO_SAID = frozenset(_ALSO_SAID_WORDS.split())


def statement(meant: str) -> Statement | None:
    """The reading or naming of the one size that a line says among its words; None where it says none or several."""
    comment = _COMMENT.search(meant)
    line = meant[: comment.start()] if comment else meant
    named = _NAMING.match(line)
    start = named.end() if named else 0
    if line.count("(") != line.count(")") or line.count("[") != line.count("]"):
        return None
    if named and not reads(f"{named['name']} = 1 in"):
        return None
    if not _HAS_A_SIZE.search(line, start):
        return None
    first = _NAME.match(line[start:].lstrip())
    if first is not None and _opens(first[0].lower()):
        return None
    try:
        # Blanks in front keep every place in the piece the same place in the line.
        said = written(" " * start + line[start:])
    except ValueError:
        return None
    one = said.one
    if one is None and len(said.items) == 1 and said.items[0].kind == "per" and not said.unread:
        one = said.items[0]
    if one is None or any(word.text.lower().strip(".") in _request_words() for word in said.left):
        return None
    said_words = {part for word in said.left for part in re.findall("[a-z]+", word.text.lower())}
    if one.kind == "thread" and said_words & _HOLES:
        return None  # a tapping drill is asked for, not the thread
    node = _node(one)
    if node is None:
        return None
    words = tuple(
        Name(place, place + len(match[0]), match[0])
        for word in said.left
        for match in _NAME.finditer(line, word.start, word.end)
        for place in (match.start(),)
    )
    end = len(line.rstrip())
    reading = ShownExpression(start, end, Worded(start, end, node, words, tuple(_notes(one, said))), None)
    if one.kind == "thread" and said_words & _TAPPED:
        reading = _of_hole(reading, one)
    return Naming(named.start("name"), end, named["name"], reading) if named else reading


#: What may stand between several sizes, and nothing else that is unread.
_JOINED = re.compile(r"\bby\b|[x×](?![a-z])|\b(?:to|or|and|vs|through|thru)\b|,|;", re.I)
#: A mixed number with its and.
_MIXED = re.compile(r"\b[0-9]+ and [0-9]+/")
_JOINTS_WORDS = "x by to or and vs & × ,"
_JOINTS = frozenset(_JOINTS_WORDS.split())
_KINDS = {"size": "a size", "limits": "limits", "range": "a range", "thread": "a thread", "gauge": "a gauge size",
          "drill": "a drill", "per": "a rate", "rate": "a rate"}  # fmt: skip


def one_or_several(text: str, meant: str) -> Statement | None:
    """The statement of a line that says one size; InputError where it says several, or a range.

    None for any other line.
    """
    said = statement(meant)
    found = None if said is not None else _several(meant)
    if found is not None:
        raise InputError(
            found[0], text, found[1], found[2], "put each size on a line of its own, with its unit"
        )
    return said


def _several(meant: str) -> tuple[str, int, int] | None:
    comment = _COMMENT.search(meant)
    line = (meant[: comment.start()] if comment else meant).rstrip()
    named = _NAMING.match(line)
    start = named.end() if named else 0
    first = _NAME.match(line[start:].lstrip())
    if first is not None and _opens(first[0].lower()):
        return None
    said = written(" " * start + line[start:])
    things = [item for item in said.items if item.kind != "count"]
    if (
        not things
        or not _JOINED.search(line[things[0].start : things[-1].end])
        or _MIXED.search(line)
        or any(word.text.lower() not in _JOINTS for word in said.unread)
    ):
        return None
    bare = [
        item
        for item in things
        if item.kind == "size" and isinstance(item.value, Quantity) and not item.value.power
    ]
    if bare and things[0].kind != "thread":
        return None
    told = [
        f"{item.text} ({_KINDS[item.kind]})" if item.kind != "size" else item.text
        for item in things
        if item.kind in _KINDS
    ]
    if len(told) != len(things):
        return None
    if len(things) == 1:
        if things[0].kind != "range" or not re.search(r"\b(?:to|thru|through)\b", things[0].text, re.I):
            return None
        message = f"{things[0].text} is a range, from one size to another"
    else:
        message = (
            f"these are {len(things)} things, {', '.join(told[:-1])} and {told[-1]}, where one size is needed"
        )
    return message, things[0].start, things[-1].end


#: Beside a thread these ask for a hole, which is another size than its major diameter.
_HOLES_WORDS = "drill drills tapping clearance clear clearing core minor pitch effective"
_HOLES = frozenset(_HOLES_WORDS.split())
_TAPPED_WORDS = "tap taps tapped hole holes threaded"
_TAPPED = frozenset(_TAPPED_WORDS.split())


def _of_hole(reading: ShownExpression, one: Item) -> ShownExpression:
    """The reading with the doubt that a hole was meant, whose size is not the thread's major diameter."""
    worded, called = reading.expression, " ".join(one.text.split())
    assert isinstance(worded, Worded)
    thread = one.value.thread.name if isinstance(one.value, ThreadSaid) and one.value.thread else ""
    meanings = (thread, f"tapping({thread})", f"clearance({thread})") if thread else ()
    note = doubt(
        f"{called} stands for its major diameter; the hole to tap and the clearance hole are other sizes",
        *meanings,
    )
    words = Worded(worded.start, worded.end, worded.size, worded.words, (*worded.notes, note))
    return ShownExpression(reading.start, reading.end, words, None)


#: Words of the grammar with which a size in a text may begin.
_MAY_BEGIN = frozenset({"within", "radius", "across", "each", "on", "about", "along", "first", "any"})


def _opens(word: str) -> bool:
    from fractions_shop.language.functions import FUNCTIONS

    return (
        word in _request_words() or (word in tables().words and word not in _MAY_BEGIN) or word in FUNCTIONS
    )


def _request_words() -> frozenset[str]:
    return frozenset(tables().words) - _ALSO_SAID


def _node(one: Item) -> Node | None:
    """What the language makes of the item."""
    value = one.value.major if isinstance(one.value, ThreadSaid) else one.value
    if isinstance(value, Quantity):
        return None if value.power not in (1, -1) else Literal(one.start, one.end, value, _unit(value))
    if isinstance(value, Limits):
        parts = [
            Literal(one.start, one.end, part, _unit(part))
            for part in (value.nominal, value.plus, -value.minus)
        ]
        return Toleranced(one.start, one.end, parts[0], parts[1], parts[2])
    return None


def _unit(value: Quantity) -> str:
    return "in" if value.power == 1 else ""


def _notes(one: Item, said: Written) -> list[Note]:
    counts = [Left(item.text, item.start, item.end) for item in said.items if item.kind == "count"]
    left = tuple(sorted([*said.left, *counts], key=lambda word: word.start))
    notes = [left_note(left)] if left else []
    notes += one.notes
    if not notes and isinstance(one.value, Quantity):
        notes.append(echo(f"read as {_said(one.value)}"))
    return notes


def _said(value: Quantity) -> str:
    if value.power != 1:
        from fractions_shop.figures.size_words import short_cell
        from fractions_shop.figures.table import in_prose  # threads to the inch are seldom read so

        return in_prose(short_cell(value))
    inches = inch_text(value)
    return mm_text(value) if inches.startswith("about") else inches
