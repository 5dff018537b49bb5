"""Screws, threads, gauges and drills as lists and drawings name them, to what the tables hold.

Which series, gauges and drills there are is for the tables to say: here are only the wordings that the
names of the language do not have (`5/16"-24`, `8x32`, `"R" drill`, `letter O size drill`).
"""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction

from fractions_shop.errors import ShopError
from fractions_shop.language.advice.dashes import NUMBER_TPI
from fractions_shop.language.named import named_size
from fractions_shop.language.nodes import Named
from fractions_shop.language.notes import Note, doubt, echo, misprint
from fractions_shop.language.written.forms import Atom
from fractions_shop.language.written.items import ThreadSaid
from fractions_shop.size import units
from fractions_shop.size.notation import GLYPHS, decimal, mixed, number_value
from fractions_shop.size.quantity import Quantity
from fractions_shop.tables.patterns import GAUGE_PATTERN
from fractions_shop.threads.lookup import matching, thread
from fractions_shop.threads.names import (
    ANY_SERIES,
    FIRST_WORD,
    ORDINARY_WORDS,
    PLAIN_WORDS,
    SHARED_WORDS,
    SOLE,
    THREAD_PATTERN,
    series_called,
)
from fractions_shop.threads.records import METRIC_FAMILIES
from fractions_shop.threads.thread import Thread

_NO = r"(?:(?i:No|Nr|number)\b\.?[ ]?|\#[ ]?)"
_FRACTION = (
    rf"(?:[0-9]{{1,2}}(?:[ ]|-)[0-9]{{1,2}}/[0-9]{{1,2}}|[0-9]{{1,2}}/[0-9]{{1,2}}|[0-9]?[ -]?[{GLYPHS}])"
)
_TPI_WORD = r"(?:[ ]?(?i:t\.?p\.?i\b\.?|threads?[ ](?:per|to[ ]the)[ ]inch\b|thd\b\.?))"
_UNIT = rf"[ ]?-?[ ]?(?:(?i:{units.alternatives(letters=True)})\b|[\"'])"
#: Behind threads to the inch stands no further figure and no unit: 1/4-3/8 in is a range.
_END = rf"(?![0-9/]|\.[0-9]|[A-WYZa-wyz]|{_UNIT})"
_SERIES = rf"(?:[ ]?-?(?P<series>(?i:{PLAIN_WORDS}|{SHARED_WORDS}))\b\.?)"
#: American lists put these before a screw, too.
_FIRST = rf"(?:(?P<first>(?i:{PLAIN_WORDS}|US|USS|SAE))[ ])?"

#: An inch screw by its size and its threads to the inch.
_SCREW = re.compile(
    rf"{_FIRST}(?P<no>{_NO})?(?P<size>{_FRACTION}|0{{3,4}}|[0-9]{{1,2}}|0?\.[0-9]{{2,4}})(?P<mark>[ ]?(?:\"|(?i:in|inch)\b\.?))?"
    rf"(?:(?P<join>[ ]?-|[ ]?[xX×][ ]?|/)(?P<tpi>1[26]0|[0-9]{{1,2}})(?P<word>{_TPI_WORD})?|(?P<blank>[ ]+)(?P<tpi2>[0-9]{{1,2}}){_TPI_WORD})"
    rf"{_SERIES}?(?P<class>[ ]?-[ ]?[123][AB]\b)?{_END}",
)
#: Behind a screw's two whole numbers these say that it is one.
_SCREW_NOUN = re.compile(
    r"[ ]+(?:machine[ ]|cap[ ]|set[ ]|tapped[ ])?(?:taps?|dies?|screws?|bolts?|nuts?|studs?|threads?|tapped|holes?)\b",
    re.I,
)
_METRIC = re.compile(
    r"M[ ]?(?P<size>[0-9]{1,3}(?:\.[0-9]{1,2})?)(?:(?P<join>[ ]?[xX×-][ ]?)(?P<pitch>[0-9]\.[0-9]{1,2}|\.[0-9]{1,2}|[0-9](?![0-9.])))?"
    r"(?P<class>[ ]?-[ ]?[3-9][a-hA-H](?:[3-9][a-hA-H])?\b)?(?![0-9.]*[0-9])"
)
_MM_SCREW = re.compile(
    r"(?P<size>[0-9]{1,2}(?:\.[0-9])?)[ ]?mm[ ]?[xX×][ ]?(?P<pitch>[0-3]?\.[0-9]{1,2})(?![0-9/.])(?![ ]?(?i:mm|cm|in|inch)\b|[\"'])"
)
_TPI_ALONE = re.compile(rf"(?P<tpi>[0-9]{{1,3}}(?:[ ]1/2|\.[0-9])?){_TPI_WORD}")
_THREAD = re.compile(THREAD_PATTERN)
_WORD_FIRST = re.compile(FIRST_WORD, re.I)
_SOLE = re.compile(rf"{SOLE}(?P<noun>[ ])?")
_SHORT = re.compile(rf"(?:{ORDINARY_WORDS}|m\.?e\.?)$", re.I)
#: A series named behind a screw; words that also mean something else are left to say that.
_NAMED_BEHIND = rf"[ ]?-?(?!(?i:{ORDINARY_WORDS})\b)(?i:{ANY_SERIES})(?![A-Za-z0-9_])"
_GAUGE = re.compile(GAUGE_PATTERN)
_WOOD = re.compile(
    rf"(?P<no>{_NO})?(?P<n>[0-9]{{1,2}})[ ](?:(?:brass|steel|iron|slotted|countersunk|round[ -]head)[ ])*wood[ -]?screws?\b",
    re.I,
)
_NUMBERED = re.compile(
    rf"{_NO}(?P<n>[0-9]{{1,2}})(?=[ ]?[x×][ ]?[0-9{GLYPHS}.]|[ ](?:brass[ ]|steel[ ]|machine[ ]|set[ ])?screws?\b)",
    re.I,
)
_DRILL = re.compile(
    rf"(?:drill[ ]{_NO}(?P<behind>[0-9]{{1,2}})(?![0-9./-])|(?:{_NO}(?P<n>[0-9]{{1,3}})|letter[ ]\"?(?P<letter>[A-Z])\"?|\"(?P<quoted>[A-Z])\"|(?P<alone>(?-i:[B-HJ-Z])))"
    r"[ -](?:size[ ]|twist[ ]|jobber'?s?[ ]|tap[ ]|wire[ ]|gauge[ ])*drill(?:s|ed)?\b(?:[ ](?:bit|size)s?\b)?)",
    re.IGNORECASE,
)
_CENTRE = re.compile(r"\bcent(?:er|re)[ -]$", re.IGNORECASE)
#: Found behind every number that begins one of these, within a few words: most sizes need not be tried.
_MAY_BE = re.compile(
    r"-[ ]?[0-9]|[xX×][ ]?[0-9.]|/[0-9]|(?i:t\.?p\.?i|thr?d|thread|[sam]\.?w\.?g|b\.?[wasp]\.?|b\.? ?&|whit|u\.?n|n\.?[cfep]"
    rf"|{ORDINARY_WORDS}|{PLAIN_WORDS}|m\.?e\b|msg|us\b|uss|wood|gauge|gage|ga\b|galv|zinc|stubs|cei|c\.e|cy|british|manuf|sheet|gas|w\b|w ?&)"
)
#: Where one of these may begin.
LEAD = re.compile(
    r"drill |[0-9#.\"MGR]|No\b|Nr\b|number\b|letter\b|[A-Z] drill|US|SAE|British|American|UK\b"
    rf"|Whi|{PLAIN_WORDS}",
    re.I,
)


def named_at(text: str, place: int, running: bool) -> Atom | None:
    """The thread, gauge or drill that begins at `place`, or None.

    In `running` text a screw of two whole numbers must say that it is one: pages 10-32 are none.
    """
    if place and (
        text[place - 1].isalnum()
        or text[place - 1] in "/.µ"
        or (text[place - 1] in "-," and text[place - 2 : place - 1].isdigit())
    ):
        return None
    if text[place].isdigit() and not _MAY_BE.search(text, place, place + 40):
        return None
    for read in (_drill, _tpi, _wood, _gauge, _metric_screw, _by_series, _mm_screw, _screw, _numbered):
        atom = read(text, place, running)
        if atom is not None:
            return atom
    return None


def _size_of(text: str, kind: str, place: int, end: int, called: str) -> Atom | None:
    """What a name of the language comes to; None where the tables have none, or refuse it."""
    try:
        size, note = named_size(Named(place, end, called, kind))
    except Exception as fault:
        if not isinstance(fault, ShopError) and type(fault).__name__ != "Fault":
            raise
        return None
    return Atom(kind, size, place, end, "in", called, () if note is None else (note,))


def _drill(text: str, place: int, running: bool) -> Atom | None:
    match = _DRILL.match(text, place)
    if match is None or _CENTRE.search(text, max(0, place - 8), place):
        return None  # a centre drill has a number of its own kind
    letter = match["letter"] or match["quoted"] or match["alone"]
    called = f"letter {letter.upper()} drill" if letter else f"No {int(match['n'] or match['behind'])} drill"
    return _size_of(text, "drill", place, match.end(), called)


def _tpi(text: str, place: int, running: bool) -> Atom | None:
    match = _TPI_ALONE.match(text, place)
    if match is None:
        return None
    tpi = Quantity(number_value(match["tpi"]) / units.INCH, -1)
    return Atom("per", tpi, place, match.end(), "tpi", match["tpi"])


def _wood(text: str, place: int, running: bool) -> Atom | None:
    match = _WOOD.match(text, place)
    if match is not None and running and not match["no"]:
        return None  # eight of them
    return match and _size_of(text, "gauge", place, match.end(), f"No {int(match['n'])} wood screw")


def _gauge(text: str, place: int, running: bool) -> Atom | None:
    match = _GAUGE.match(text, place)
    return match and _size_of(text, "gauge", place, match.end(), match[0])


def _numbered(text: str, place: int, running: bool) -> Atom | None:
    """`No. 8 x 1 1/4`: a screw's number alone, of which the American ones are 0.060 in and 0.013 in a number."""
    match = _NUMBERED.match(text, place)
    if match is None:
        return None
    atom = _size_of(text, "gauge", place, match.end(), f"No {int(match['n'])} wood screw")
    if atom is None or not isinstance(atom.value, Quantity):
        return None
    said = ThreadSaid(atom.value, None)
    return Atom("thread", said, place, match.end(), "in", match[0], atom.notes)


def _metric_screw(text: str, place: int, running: bool) -> Atom | None:
    match = _METRIC.match(text, place)
    if match is None:
        return None
    if running and text[place + 1] == " ":
        return None
    size, pitch = Fraction(match["size"]), match["pitch"]
    called, end = f"M{match['size']}", match.end()
    if pitch is not None and Fraction(pitch) < size / 2:
        listed = _in_tables(f"{called} x {pitch}")
        if listed is None:
            if match["class"] is None and "." not in pitch:
                end = match.start("join")  # M5 x 8: no such pitch, so a length
                return _thread_atom(text, place, end, called)
            said = ThreadSaid(Quantity(size), Quantity(Fraction(pitch)))
            return Atom("thread", said, place, end, "mm", match[0], (_unlisted(match[0]),))
        return _thread_atom(text, place, end, f"{called} x {pitch}")
    if pitch is not None:
        end = match.start("join")
    return _thread_atom(text, place, end, called)


def _mm_screw(text: str, place: int, running: bool) -> Atom | None:
    """`5mm x 0.8`: the metric thread of that pitch, where there is one."""
    match = _MM_SCREW.match(text, place)
    if match is None:
        return None
    called = f"M{match['size']} x {match['pitch']}"
    if _in_tables(called) is None:
        return None
    atom = _thread_atom(text, place, match.end(), called)
    return atom and atom.noted(doubt(f"taken for {called}; two sides are written each with its unit", called))


def _by_series(text: str, place: int, running: bool) -> Atom | None:
    """A thread as the language names it: `14BA`, `1/4 BSW`, `1/2" BSPT`, `G 1/4`."""
    match = _THREAD.match(text, place)
    if match is None:
        return None
    word_first, sole = _WORD_FIRST.match(match[0]), _SOLE.match(match[0])
    if text[match.end() - 1].isdigit() and text[place] not in "GR" and not word_first:
        return None  # with figures last it is for _screw, which knows what may follow
    if sole and running and not sole["noun"]:
        return None  # RMS is a way to tell roughness, too
    if text[place] in "Rr" and match[0].endswith('"'):
        return None  # a radius, on any drawing
    if _SHORT.search(match[0]) and not re.search("[-x×]", match[0]):
        return None  # 5/8" brass is a bar more often than a thread
    if running and text[place] in "GR" and not sole:
        return None  # R 3/8 is a radius, and plate G 3 a plate
    try:
        atom = _thread_atom(text, place, match.end(), match[0])
    except ShopError:
        return None
    if atom is None or sole or text[place] not in "Rr" or not match[0][-1].isdigit():
        return atom
    size = match[0][1:].strip()
    said = f"{match[0]} is the taper thread R {size}; on a drawing it is a radius of {size} in"
    return replace(atom, notes=(doubt(said, f"major(R {size})", f"{size} in", f"{size} mm"),))


def _screw(text: str, place: int, running: bool) -> Atom | None:
    match = _SCREW.match(text, place)
    if match is None or not _is_screw(match, text, running):
        return None
    tpi, size = int(match["tpi"] or match["tpi2"]), match["size"]
    whole = size.isdigit()
    below = whole and len(size) > 1 and set(size) == {"0"}  # No 00 is another than No 0
    number = f"No {size if below else int(size)}" if whole else size.replace("-", " ")
    bare = f"{number}-{tpi}"
    called, end = f"{bare} {_series(match)}".strip(), match.end()
    if match["series"] and _SHORT.fullmatch(match["series"]) and _in_tables(called) is None:
        called, end = bare, match.end("word") if match["word"] else match.end("tpi")  # brass, the metal
    if re.match(_NAMED_BEHIND, text[end:]):
        return None  # 6-48 BA: its series is no other's, and is not left out
    if _in_tables(called) is not None:
        atom = _thread_atom(text, place, end, called)
    else:
        atom = _outside_tables(match, number, tpi)
    if atom is None or not _doubtful(match, text):
        return atom
    if whole and match["join"] == "-":
        message = f"taken for the screw {called}; for the difference write {int(size)} - ({tpi})"
        return atom.noted(doubt(message, called, f"{int(size)} - ({tpi})"))
    return atom.noted(doubt(f"taken for the screw {called}", called))


def _crossed(match: re.Match[str]) -> bool:
    return any(sign in "xX×" for sign in match["join"] or "")


def _says_so(match: re.Match[str], text: str) -> bool:
    """Whether what is written says that it is a screw: its number sign, series, threads to the inch, or noun."""
    worded = match["no"] or match["series"] or match["first"] or match["tpi2"] or match["word"]
    return bool(worded) or _SCREW_NOUN.match(text, match.end()) is not None


def _is_screw(match: re.Match[str], text: str, running: bool) -> bool:
    """Whether a size and a number are a screw, and no two sides, fraction, page or range."""
    size, said, noun = match["size"], _says_so(match, text), _SCREW_NOUN.match(text, match.end())
    whole = size.isdigit()
    if match["no"] and not whole:
        return False  # No 1/4-20: a number and a size are two things
    if match["join"] == "/":
        return whole and noun is not None
    if "." in size:
        return bool(match["series"] or match["first"])
    if whole and match["mark"]:
        return False
    if _crossed(match) and (match["mark"] or running) and not said:
        return False  # 1/4" x 20 may be two sides
    return not (whole and running and not said)


def _doubtful(match: re.Match[str], text: str) -> bool:
    return _crossed(match) or match["join"] == "/" or (match["size"].isdigit() and not _says_so(match, text))


def _series(match: re.Match[str]) -> str:
    """The series by its word, before or behind; empty where that is none of the tables'."""
    word = match["series"] or match["first"] or ""
    return "" if re.fullmatch("USS?|SAE", word, re.I) else word


def _outside_tables(match: re.Match[str], number: str, tpi: int) -> Atom | None:
    """A screw that no table here has, by its major diameter and pitch.

    None of a series in which the size is no major, as of pipes, or whose screws have other sizes.
    """
    series = _series(match)
    if series and not any(record.size_is == "inch" and not record.sole for record in series_called(series)):
        return None
    if match["size"].isdigit():
        numbered = _in_tables(f"{number} {series}".strip()) if tpi in NUMBER_TPI else None
        major = None if numbered is None else numbered.major.inch
        if major is not None and major * tpi < _COARSEST:
            return None  # 1-24 UNC is no screw of 0.073 in
    else:
        major = number_value(match["size"]) if _likely(number, tpi) else None
    if major is None:
        return None
    value = ThreadSaid(Quantity.inches(major), Quantity.inches(Fraction(1, tpi)))
    notes = (*_lost_blank(match["size"]), _unlisted(match[0]))
    return Atom("thread", value, match.start(), match.end(), "in", match[0], notes)


#: No numbered screw that any table has is as coarse as this, in threads to its own diameter.
_COARSEST = 3
_FRACTION_FIRST = re.compile("[0-9]+/[0-9]+")


def _lost_blank(called: str) -> tuple[Note, ...]:
    """The doubt that the size before a thread's name, 11/8 BSW, has lost its blank."""
    size = _FRACTION_FIRST.match(called)
    note = None if size is None else misprint(size[0], number_value(size[0]), "in")
    return () if note is None else (note,)


def _likely(size: str, tpi: int) -> bool:
    """Whether a screw of a fraction of an inch may have so many threads to the inch: 4 to 80, fewer when large."""
    try:
        major = number_value(size)
    except ShopError:
        return False  # 9/0 and 2 33/32 are no sizes
    return (
        4 <= tpi <= 80
        and Fraction(1, 4) <= major * tpi / 2
        and major * tpi >= 2
        and Fraction(1, 16) <= major <= 4
    )


def _unlisted(text: str) -> Note:
    return echo(
        f"no thread of the tables here is {' '.join(text.split())}: it is told by its major diameter and pitch"
    )


def _in_tables(called: str) -> Thread | None:
    """A thread of that name, the customary one where several share it; None where none is made."""
    return next(iter(matching(called)), None)


def _thread_atom(text: str, place: int, end: int, called: str) -> Atom | None:
    shared = matching(called)
    if not shared:
        return None
    try:
        chosen = thread(called)
    except ShopError:
        chosen = shared[0]
    notes: tuple[Note, ...] = (
        echo(f"{called} is the thread {chosen.name}: its major diameter, {_major(chosen)}"),
    )
    others = [other.name for other in shared if other.name != chosen.name and "-" not in called]
    if others:
        notes = (doubt(f"{called} may be {chosen.name} or {' or '.join(others)}", chosen.name, *others),)
    return Atom(
        "thread",
        ThreadSaid(chosen.major, chosen.pitch, chosen),
        place,
        end,
        "mm" if _in_millimetres(chosen) else "in",
        called,
        (*notes, *_lost_blank(called)),
    )


def _in_millimetres(screw: Thread) -> bool:
    return screw.record.family in METRIC_FAMILIES


def _major(screw: Thread) -> str:
    size = screw.major
    return (
        f"{decimal(size.mm)[0]} mm"
        if _in_millimetres(screw)
        else f"{mixed(size.inch) if size.inch.denominator <= 64 else decimal(size.inch)[0]} in"
    )
