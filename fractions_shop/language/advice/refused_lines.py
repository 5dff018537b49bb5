"""Lines that ask for what is not told, or not there: words of the prompt, hardware of no table, lines that only a sheet has."""

from __future__ import annotations

import re

from fractions_shop.language.advice.fault_place import code_of
from fractions_shop.language.fault import Fault

#: What only the prompt does, with what stands behind it; a line that opens so is asked there.
_OF_PROMPT = re.compile(
    r"\s*(?P<word>help|why|undo|redo|names|readings|history|settings|rename|drop)\b(?P<rest>.*)",
    re.IGNORECASE,
)


def of_the_prompt(line: str) -> Fault | None:
    """The fault of a line that opens with a word of the prompt and is no statement; None for any other.

    >>> of_the_prompt("help by").message, of_the_prompt("help by").advice
    ('help is not a statement: it belongs to the prompt', 'open the prompt with fractions-shop alone, or type fractions-shop help by')
    """
    match = _OF_PROMPT.fullmatch(code_of(line))
    if match is None:
        return None
    word, rest = match["word"].lower(), match["rest"].strip()
    beside = (
        f"type fractions-shop help {rest}"
        if word == "help" and rest.isalnum()
        else "see fractions-shop --help"
    )
    return Fault(
        f"{word} is not a statement: it belongs to the prompt", *match.span("word"),
        f"open the prompt with fractions-shop alone, or {beside}",
    )  # fmt: skip


_UNREAD_CALLED = {"pin": "split pins", "key": "keys", "cap": "lamp caps"}
_UNREAD = re.compile(
    r"(?P<pin>\b(?:split|cotter)[ -]?pins?\b)|(?P<key>\b(?:parallel|feather|woodruff|sunk)[ -]keys?\b)"
    r"|(?P<cap>\b(?:lamp|bulb)[ -]?(?:caps?|holders?)\b|(?<=\bthread )E(?:5|10|11|12|14|17|26|27|39|40)\b)",
    re.IGNORECASE,
)


def unread_hardware(line: str) -> Fault | None:
    """The fault of a line that names hardware of which no table was read; None for any other.

    >>> unread_hardware("parallel key 6 mm").message, unread_hardware("key 6 mm")
    ('no table of keys was read, and none is guessed', None)
    """
    match = _UNREAD.search(code_of(line))
    if match is None:
        return None
    said = f"no table of {_UNREAD_CALLED[str(match.lastgroup)]} was read, and none is guessed"
    return Fault(said, match.start(), match.end(), "go by the standard, or by the part itself")


#: A cut in a part as a line of a sheet would say it: those that a sheet has, and those that it has not.
_CUT = re.compile(
    r"\s*(?P<cut>(?P<known>holes?|slots?|notch(?:es)?|corners?|walls?)|chamfers?|bevels?|fillets?|rounds?|grooves?|pockets?|recess(?:es)?"
    r"|rebates?|rabbets?|mortises?|tenons?|housings?|dado(?:e?s)?|keyways?|counterbores?|countersinks?"
    r"|spotfaces?|knurls?|threads?|tapers?|undercuts?|flats?|steps?|cuts?)\s+in\s+[^:=]+:",
    re.IGNORECASE,
)
#: Readings that were not taken off the thing itself, as they are called.
_COPY = re.compile(
    r"(?<=[A-Za-z\"'°] )off (?:an?|the|its) (?:rubbing|photo-?copy|copy|tracing|scan|(?P<photo>photo(?:graph)?))\s*$",
    re.IGNORECASE,
)
_NOTE = re.compile(r"\s*(?P<word>(?:notes?|remarks?|n\.?b\.?)\s*:)\s*(?P<words>\S.*)", re.IGNORECASE)
#: Lines that only a sheet has.
_LINE = re.compile(r"\s*(?P<word>part|stock|rev)\s+[^\W_][^:=]*:", re.IGNORECASE)


def refused_by_name(line: str) -> Fault | None:
    """The fault of a line that asks for what is not told, though a size stands in it; None for any other.

    Hardware of which no table was read, a cut in a part that no sheet has, and a line of a sheet where no sheet is.

    >>> refused_by_name("chamfer in plate: 1/32 in").message
    'no line cuts a chamfer: hole, slot, notch, corner and wall are what is cut in a part'
    """
    note = _NOTE.match(line)
    if note is not None:
        return Fault("a note stands behind a #", *note.span("word"), f"write # {note['words'].strip()}")
    copy = _COPY.search(code_of(line))
    if copy is not None:
        said = (
            "of a photograph the scale may be any"
            if copy["photo"]
            else "whatever the copy is, it is a print here"
        )
        return Fault(
            said, *copy.span(),
            "say which size is known, such as scale from 75.4 mm = 2 31/32 in" if copy["photo"]
            else "say off a print, such as recover 63.9 mm, 31.9 mm, 57.5 mm, 6.4 mm off a print",
        )  # fmt: skip
    line_of_a_sheet = _LINE.match(code_of(line))
    if line_of_a_sheet is not None:
        return Fault(
            f"a line that begins with {line_of_a_sheet['word'].lower()} belongs in a sheet",
            *line_of_a_sheet.span("word"),
            "put it in the sheet's file and run fractions-shop sheet FILE, or type it at the prompt",
        )  # fmt: skip
    match = _CUT.match(code_of(line))
    if match is None:
        return unread_hardware(line)
    cut, where = match["cut"].lower(), match.span("cut")
    if match["known"]:
        return Fault(
            f"a line that begins with {cut} belongs in a sheet, with the line of its part", *where,
            "put both in the sheet's file and run fractions-shop sheet FILE, or type both at the prompt",
        )  # fmt: skip
    return Fault(
        f"no line cuts a {cut}: hole, slot, notch, corner and wall are what is cut in a part", *where,
        "say it in the note of the part, after a semicolon",
    )  # fmt: skip
