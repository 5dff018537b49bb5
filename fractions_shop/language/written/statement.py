"""A line that is not a statement but one written size with words around it."""

from __future__ import annotations

import re

from fractions_shop.errors import InputError
from fractions_shop.language.grammar import reads
from fractions_shop.language.grammar_tables import openers_or_names, tables
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
#: `length: 7 in`, which looks like a name being given.
_LABEL = re.compile(r"[ ]*(?P<name>[A-Za-z_]\w*)[ ]*:[ ]*")
_COMMENT = re.compile(r"#(?![0-9])")
_HAS_A_SIZE = re.compile(
    rf"[0-9{GLYPHS}⅟⁰¹²³⁴⁵⁶⁷⁸⁹]|inch|foot|feet|drill|thou|mill?imet|centimet", re.IGNORECASE
)
_NAME = re.compile(r"[^\W\d]\w*")
#: Words of the grammar that also stand beside sizes; with any other of its words a line is a mistyped
#: request.
_ALSO_SAID_WORDS = """drill gauge thread radius across within each from between end ends on rule fit about apart along
centers centres edges for made plated scale at long"""
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
    if first is not None and (_opens(first[0].lower()) or _is_misspelt(line)):
        return None
    try:
        # Blanks in front keep every place in the piece the same place in the line.
        said = written(" " * start + line[start:])
    except ValueError:
        return None
    item = said.one
    if item is None and len(said.items) == 1 and said.items[0].kind == "per" and not said.unread:
        item = said.items[0]
    if item is None or any(word.text.lower().strip(".") in _request_words() for word in said.left):
        return None
    said_words = {part for word in said.left for part in re.findall("[a-z]+", word.text.lower())}
    if said_words & _ASKED or (item.kind == "thread" and said_words & (_HOLES | _HEADS)):
        return None  # a drill, a nut or a spanner is asked for, not the thread
    if any(_OTHER_UNITS.search(word.text) for word in said.left):
        return None
    if item.kind == "thread" and (said_words & _STAND_INS or any(map(_in_a_series, said.left))):
        return None
    if said.left and _is_refused_by_name(line):
        return None
    node = _node(item)
    if node is None:
        return None
    words = tuple(
        Name(place, place + len(match[0]), match[0])
        for word in said.left
        for match in _NAME.finditer(line, word.start, word.end)
        for place in (match.start(),)
    )
    end = len(line.rstrip())
    reading = ShownExpression(
        start, end, Worded(start, end, node, words, tuple(_notes(item, said, line))), None
    )
    if item.kind == "thread" and said_words & _TAPPED:
        reading = _of_hole(reading, item)
    elif said_words & _TAPPED and _WOOD_SCREW.search(line, item.start, item.end):
        reading = _noted(
            reading,
            doubt(
                "this is the body of the screw: the hole to clear it is larger, and its pilot hole smaller"
            ),
        )
    return Naming(named.start("name"), end, named["name"], reading) if named else reading


#: Advice for a line that says several sizes.
EACH_ALONE = "put each size on a line of its own, with its unit"
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
    several = None if said is not None else _several(meant)
    if several is not None:
        raise InputError(several[0], text, several[1], several[2], EACH_ALONE)
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
    items = [item for item in said.items if item.kind != "count"]
    if (
        not items
        or not _JOINED.search(line[items[0].start : items[-1].end])
        or _MIXED.search(line)
        or any(word.text.lower() not in _JOINTS for word in said.unread)
    ):
        return None
    bare = [
        item
        for item in items
        if item.kind == "size" and isinstance(item.value, Quantity) and not item.value.power
    ]
    if bare and items[0].kind != "thread":
        return None
    texts = [
        f"{item.written} ({_KINDS[item.kind]})" if item.kind != "size" else item.written
        for item in items
        if item.kind in _KINDS
    ]
    if len(texts) != len(items):
        return None
    if len(items) == 1:
        if items[0].kind != "range" or not re.search(r"\b(?:to|thru|through)\b", items[0].written, re.I):
            return None
        message = f"{items[0].written} is a range, from one size to another"
    else:
        message = f"these are {len(items)} things, {', '.join(texts[:-1])} and {texts[-1]}, where one size is needed"
    return message, items[0].start, items[-1].end


_WOOD_SCREW = re.compile(r"wood[ -]?screw", re.IGNORECASE)
#: Beside a thread these ask for a hole, which is another size than its major diameter.
_HOLES_WORDS = "drill drills tapping clearance clear clearing core minor pitch effective"
_HOLES = frozenset(_HOLES_WORDS.split())
#: And these for what is fitted to it, whose sizes are told with the thread.
_HEADS_WORDS = "nut nuts locknut locknuts washer washers head heads"
_HEADS = frozenset(_HEADS_WORDS.split())
_TAPPED_WORDS = "tap taps tapped hole holes threaded"
_TAPPED = frozenset(_TAPPED_WORDS.split())


def _of_hole(reading: ShownExpression, item: Item) -> ShownExpression:
    """The reading with the doubt that a hole was meant, whose size is not the thread's major diameter."""
    worded, called = reading.expression, " ".join(item.written.split())
    assert isinstance(worded, Worded)
    thread = item.value.thread.name if isinstance(item.value, ThreadSaid) and item.value.thread else ""
    meanings = (thread, f"tapping({thread})", f"clearance({thread})") if thread else ()
    note = doubt(
        f"{called} stands for its major diameter; the hole to tap and the clearance hole are other sizes",
        *meanings,
    )
    return _noted(reading, note)


def _noted(reading: ShownExpression, note: Note) -> ShownExpression:
    """The reading with another note."""
    worded = reading.expression
    assert isinstance(worded, Worded)
    words = Worded(worded.start, worded.end, worded.size, worded.words, (*worded.notes, note))
    return ShownExpression(reading.start, reading.end, words, None)


#: Words of the grammar with which a size in a text may begin.
_MAY_BEGIN = frozenset({"within", "radius", "across", "each", "on", "about", "along", "first", "any"})


def _opens(word: str) -> bool:
    from fractions_shop.language.functions import FUNCTIONS

    return (
        word in _request_words() | _ASKED
        or word in openers_or_names().values()
        or (word in tables().words and word not in _MAY_BEGIN)
        or word in FUNCTIONS
    )


def _is_misspelt(line: str) -> bool:
    """Whether a line opens with a request's word with a slip in it: that word is never left out."""
    from fractions_shop.language.advice.bench_words import respelling  # most lines open with no word

    return respelling(line) is not None


def _is_refused_by_name(line: str) -> bool:
    """Whether a line asks for what is not told: the size in it is not the answer."""
    from fractions_shop.language.advice.refused_lines import refused_by_name

    return refused_by_name(line) is not None


#: These ask for a size in other units, or for another thread in a thread's place: they are never left out.
_OTHER_UNITS = re.compile(r"\b(?:in|into|to|as) (?:metric|imperial)\b", re.IGNORECASE)
_STAND_INS = frozenset(("equivalent", "equivalents", "substitute", "replacement"))
_IN_WHAT = re.compile(r"(?:in|into|to|as) (?P<series>.+)", re.IGNORECASE)


def _in_a_series(word: Left) -> bool:
    """Whether what was left out asks for a thread of another series by its letters: `6 BA in BSW`."""
    from fractions_shop.threads.records import BY_KEY

    match = _IN_WHAT.fullmatch(word.text)
    return match is not None and match["series"].upper() in BY_KEY


#: Beside a size these ask for another one than that, as a slope does of its rise: they are never left out.
_ASKED_WORDS = (
    "spanner wrench rise rises rising slope slopes sloping gradient incline taper tapers tapered tapering"
)
_ASKED = frozenset(_ASKED_WORDS.split())


def _request_words() -> frozenset[str]:
    return frozenset(tables().words) - _ALSO_SAID


def _node(item: Item) -> Node | None:
    """What the language makes of the item."""
    value = item.value.major if isinstance(item.value, ThreadSaid) else item.value
    if isinstance(value, Quantity):
        return (
            None if value.power not in (1, -1) else Literal(item.start, item.end, value, _unit(item, value))
        )
    if isinstance(value, Limits):
        parts = [
            Literal(item.start, item.end, part, _unit(item, part))
            for part in (value.nominal, value.plus, -value.minus)
        ]
        return Toleranced(item.start, item.end, parts[0], parts[1], parts[2])
    return None


def _unit(item: Item, value: Quantity) -> str:
    """The unit of a literal; of what a table gave, the name under which it is told how far to trust it."""
    if value.standing:
        return item.unit if item.kind == "size" and item.unit else " ".join(item.written.split())
    return "in" if value.power == 1 else ""


def _notes(item: Item, said: Written, line: str) -> list[Note]:
    counts = [Left(count.written, count.start, count.end) for count in said.items if count.kind == "count"]
    left = tuple(sorted([*said.left, *counts], key=lambda word: word.start))
    notes = [left_note(left)] if left else []
    label = _LABEL.match(line)
    if label is not None and label.end() == item.start and reads(f"{label['name']} = 1 in"):
        notes.append(echo(f"to name it, write {label['name']} = {line[item.start : item.end]}"))
    notes += item.notes
    if not notes and isinstance(item.value, Quantity):
        notes.append(echo(f"read as {_said(item.value)}"))
    return notes


def _said(value: Quantity) -> str:
    if value.power != 1:
        from fractions_shop.figures.size_words import short_cell
        from fractions_shop.figures.table import in_prose  # threads to the inch are seldom read so

        return in_prose(short_cell(value))
    inches = inch_text(value)
    return mm_text(value) if inches.startswith("about") else inches
