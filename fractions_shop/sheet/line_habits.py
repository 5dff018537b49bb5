"""Lines of a sheet that are no statements of the language, as makers write them: title blocks, notes, parts without their word."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator

from fractions_shop import requests
from fractions_shop.errors import InputError
from fractions_shop.language.advice.offers import Offer, write
from fractions_shop.language.grammar_tables import tables
from fractions_shop.sheet.cut_habits import cut_habits
from fractions_shop.sheet.part_habits import SAID as SAID_OF_PARTS
from fractions_shop.sheet.part_habits import parts_without_the_word
from fractions_shop.sheet.proposed_part import part_line
from fractions_shop.sheet.prose import is_prose
from fractions_shop.sheet.side_words import SIZE
from fractions_shop.sheet.statement_habits import statement_habits
from fractions_shop.sheet.whole_lines import Meant
from fractions_shop.size import units
from fractions_shop.size.notation import as_meant

#: What a drawing says of itself, and what is done to all of a thing: no size of it is one of the sheet's.
_LABEL_WORDS = r"""mat'?l|mat|materials?|finish(?:es)?|scale|drg|drawing|dwg|date|drawn|checked|traced|tools?|tol|tolerances?
|general\s+tolerances?|ref|sheet|nts|not\s+to\s+scale|break|deburr|remove|chamfer|bevel|ease|polish|clean|fit\s+and|assemble|glue|qty
|quantity|no\.?\s+off|make|do\s+not|see|as\s+drg|as\s+drawing|typ|all"""
_LABEL = re.compile(
    rf"\s*(?P<label>{''.join(_LABEL_WORDS.split(chr(10)))})\b\.?(?P<colon>\s*:)?(?!\s*(?:[-+*/^)=]|(?:reads|as|of|clears)\b))(?P<rest>.*)",
    re.IGNORECASE,
)
#: Those of them that hold a size which would be read with its words left out.
_LOST_LABEL = re.compile(
    rf"\s*(?:mat'?l|mat|materials?|tools?|tol|tolerances?|general\s+tolerances?|(?:break|chamfer|bevel|ease|remove)\s+(?:all\s+|sharp\s+|the\s+)*(?:edges?|corners?|arrises|arris))\b\s*:?\s*(?:[A-Za-z/ ]*?)(?:±|\+/?-)?\s*{SIZE}",
    re.IGNORECASE,
)
_SAW = re.compile(
    rf"\s*(?:(?:the\s+)?(?:saw\s+)?kerf|saw(?:\s+cuts?)?|allow)\s*:?\s+(?P<size>{SIZE})(?P<rest>\s+(?:for\s+(?:the\s+)?(?:saw|kerf|sawing)(?:\s*cuts?)?|waste\s+per\s+cut|per\s+(?:saw\s+)?cut))?\s*"
    rf"|\s*(?:saw\s+)?kerf\s*:\s*(?P<also>{SIZE})\s*",
    re.IGNORECASE,
)
_CORNERS = re.compile(
    rf"\s*(?:(?:radius(?:ed)?|round(?:ed)?)\s+(?:all\s+)?corners?|corners?)\s*:?\s+{SIZE}.*", re.IGNORECASE
)
_OTHER_CUT = re.compile(
    rf"\s*(?P<cut>[A-Za-z]+)\s+in\s+(?:the\s+)?[A-Za-z][A-Za-z -]*:\s*{SIZE}.*", re.IGNORECASE
)
_BULLET = re.compile(r"\s*(?:[-*•–]|[0-9]{1,2}[.)])\s+(?=[^\W\d])")
_REMARK = re.compile(r"\s*(?://+|--+|;+|!+|%+|['\"‘“])\s*(?P<words>[A-Za-z].*?)['\"’”]?\s*")
_NOTE_WORD = re.compile(r"\s*(?:notes?|remarks?|n\.?b\.?)\s*:\s*(?P<words>\S.*)", re.IGNORECASE)
_RULED_TITLE = re.compile(r"\s*[=*_~-]{2,}\s*(?P<words>[A-Za-z0-9].*?)\s*[=*_~-]{2,}\s*")
_RULED = re.compile(r"\s*(?P<sign>[-=_*~])(?:\s*(?P=sign)){2,}\s*")
_TITLE = re.compile(r"\s*title\b\s*:?\s*(?P<words>[A-Za-z].*)", re.IGNORECASE)
_UNITS = re.compile(
    r"\s*(?:all\s+)?(?:units?|dims?\.?|dimensions|sizes|measurements|figures)\s*(?:are\s+)?(?::|=|in\b)?\s*(?:in\s+)?"
    r"(?P<unit>inch(?:es)?|in|imperial|mm|millimetres?|millimeters?|metric)\b\.?(?:\s+(?:unless|except)\b.*)?\s*",
    re.IGNORECASE,
)
_REVISION = re.compile(
    r"\s*(?:rev(?:ision)?\.?|issue|iss\.?|mod\.?|alteration|alt\.?)\s+(?P<label>[A-Za-z]|[0-9]{1,3})\s*(?:[-–—:,]\s*|\s)(?P<words>[^\s=].*)",
    re.IGNORECASE,
)
_ASSIGNED = re.compile(
    r"\s*(?:let|set|assume|say|put)?\s*(?P<name>[A-Za-z_]\w*)\s*(?::=|->|=>|==|<-|:)\s*(?P<rest>\S.*)",
    re.IGNORECASE,
)
_NAMED_SIZE = re.compile(rf"\s*(?P<name>[A-Za-z_]\w*)\s+(?P<rest>{SIZE}\s*)")
_REQUEST = re.compile(r"\s*(?P<word>[A-Za-z_]+)\s*(?:[:=]|\bin\b)\s*(?P<rest>\S.*)")
_RULE = re.compile(
    r"\s*rule\s*[:=]?\s*(?:in\s+)?1/(?P<parts>[0-9]+)(?:ths?|\s*in(?:ch)?\.?|\")?\s*", re.IGNORECASE
)
_SAID_OF_NOTES = "this is no statement: what a drawing says in words is a note, which stands behind a #"
_SAID_OF_UNITS = "which figure comes first is said by units"
_SAID_OF_REVISIONS = "a revision is told by rev, its letter or number, and a colon"
_COUNTED = re.compile(
    r"\s*[0-9]{1,3}\s*(?:off|req'?d\.?|required|no\.?\s+off)\b['.]?(?:\s*,?\s*[A-Za-z].*)?", re.IGNORECASE
)
#: Words of requests that also open a sentence, and words of the language that stand in one.
_ALSO_SAID = ("check", "fit", "mark", "drill", "pack")
_IN_SENTENCES = ("check", "fit", "mark", "drill", "in", "on", "to", "each", "for", "and", "with", "at", "of")
_ALL_LIMITS = re.compile(
    r"\s*(?:all\s+)?(?:general\s+)?(?:limits?|lims|tol\w*)\s*:?\s*(?:±|\+/?-).*", re.IGNORECASE
)
#: A sentence with figures in it has at least so many words; a label stands before a colon or a dash.
_LEAST_WORDS = 4
_LABELLED = re.compile(r"\s*[A-Z][A-Za-z ]*(?::|\s[-–—])\s")
_HAS_FIGURE = re.compile("[0-9]")


def asks_elsewhere(row: str) -> InputError | None:
    """The fault of a line that would be read as a size alone, though it asks for what a sheet has elsewhere; None for any other."""
    line = as_meant(row).partition("#")[0].rstrip()
    if not _MAY_BE_LOST.match(line):
        return None
    start, end = len(line) - len(line.lstrip()), len(line)
    if _ALONE.fullmatch(line):
        return InputError(_SAID_OF_NOTES, row, start, end, write(_as_note(line)))
    saw = _SAW.fullmatch(line)
    if saw is not None and (saw["rest"] or not line.lstrip().lower().startswith("allow")):
        size = saw["size"] or saw["also"]
        return InputError(
            "what the saw takes stands in the line of the stock, behind the length of a bar", row, start, end,
            write(f"kerf = {size}", lead="give it a name, ", tail=", and write saw kerf in that line"),
        )  # fmt: skip
    if _CORNERS.fullmatch(line):
        return InputError(
            "corners are of a part, and the line names none", row, start, end,
            "write it like this: corner in label frame: 1/8 in",
        )  # fmt: skip
    unit = _UNITS.fullmatch(line)
    if unit is not None:
        return InputError(_SAID_OF_UNITS, row, start, end, write(_leading(unit)))
    issue = _REVISION.fullmatch(line)
    if issue is not None and not line.lstrip().lower().startswith("rev"):
        return InputError(
            _SAID_OF_REVISIONS, row, start, end, write(f"rev {issue['label']}: {issue['words'].strip()}")
        )
    if _LOST_LABEL.match(line):
        return InputError(
            "no size of the sheet would have this one, which is left as words", row, start, end,
            write(f"# {line.strip()}", lead="as a note, write "),
        )  # fmt: skip
    cut = _OTHER_CUT.fullmatch(line)
    if cut is not None and cut["cut"].lower() not in (
        "hole",
        "slot",
        "notch",
        "corner",
        "wall",
        "part",
        "stock",
    ):
        return InputError(
            f"no line cuts a {cut['cut'].lower()}: hole, slot, notch, corner and wall are what is cut in a part", row, *cut.span("cut"),
            write(f"# {line.strip()}", lead="say it in the note of the part, after a semicolon, or as a note, "),
        )  # fmt: skip
    return None


#: Words that stand alone in a line of a drawing; no size is called so.
_ALONE = re.compile(r"\s*(?:deburr|nts|n\.t\.s\.)\.?\s*", re.IGNORECASE)
#: How lines begin that may be lost so; most lines of a sheet begin with none of it.
_MAY_BE_LOST = re.compile(
    r"\s*(?:the\s+)?(?:saw|kerf|allow|radius|round|corner|mat|tool|tol|general|break|chamfer|bevel|ease|remove|deburr|nts|n\.t\.s|issue|iss|alt|mod|units?\s*=)|[^=:]*\bin\b[^=:]*:",
    re.IGNORECASE,
)


def line_habits(line: str) -> Iterator[Meant]:
    """What a line that cannot be read may mean: another kind of line, a statement in other signs, or a note."""
    line = line.partition("#")[0].rstrip() if "#" in line and not re.search("#[0-9]", line) else line
    for look in _LOOKS:
        yield from look(line)


def _parts(line: str) -> Iterator[Meant]:
    said = f"this is a line of the parts list: {SAID_OF_PARTS}"
    yield Meant(tuple(map(Offer, dict.fromkeys(parts_without_the_word(line)))), said, sure=True)
    # What is counted may be called by its screw alone, and stands in the note once more.
    if bought := part_line(line):
        yield Meant((Offer(bought, worked=True),), said, sure=True)


def _cuts(line: str) -> Iterator[Meant]:
    for meant in cut_habits(line):
        yield Meant(meant.offers, meant.said or "a line that cuts says in which part first", sure=True)


def _other_signs(line: str) -> Iterator[Meant]:
    if (bullet := _BULLET.match(line)) is not None:
        yield Meant(
            (Offer(line[bullet.end() :].strip(), worked=True),),
            "a line begins with its statement, without a mark before it",
        )
    if (rule := _RULE.fullmatch(line)) is not None:
        yield Meant((Offer(f"rule {rule['parts']}ths", worked=True),), "a rule is called by its parts")
    if (unit := _UNITS.fullmatch(line)) is not None:
        yield Meant((_leading(unit),), _SAID_OF_UNITS, sure=True)
    request = _REQUEST.fullmatch(line)
    if request is not None and request["word"].lower() in requests.words():
        yield Meant(
            (Offer(f"{request['word']} {request['rest']}"),),
            "what is asked stands behind its word without a sign between",
        )
    for pattern in (_ASSIGNED, _NAMED_SIZE):
        match = pattern.fullmatch(line)
        if (
            match is not None
            and match["name"].lower() not in requests.words()
            and units.find(match["name"]) is None
        ):
            yield Meant(
                (Offer(f"{match['name']} = {match['rest'].strip()}"),), "a name is given its size by ="
            )


def _leading(match: re.Match[str]) -> Offer:
    return Offer(f"units {'mm' if match['unit'].lower().startswith('m') else 'inch'} first")


def _revision(line: str) -> Iterator[Meant]:
    match = _REVISION.fullmatch(line)
    if match is not None:
        yield Meant(
            (Offer(f"rev {match['label']}: {match['words'].strip()}"),), _SAID_OF_REVISIONS, sure=True
        )


def revision_habits(line: str) -> Iterator[Meant]:
    """The same of a line that begins as a revision, whose own fault says what is wrong with it."""
    for meant in _revision(line):
        yield meant._replace(said="")


def _note(line: str) -> Iterator[Meant]:
    title = _TITLE.fullmatch(line) or _RULED_TITLE.fullmatch(line)
    if title is not None:
        yield Meant(
            (Offer(f"## {title['words'].strip()}", worked=True),), "a title stands behind ##", sure=True
        )
    remark = _REMARK.fullmatch(line) or _NOTE_WORD.fullmatch(line)
    if remark is not None:
        yield Meant((_as_note(remark["words"]),), "a note stands behind a #", sure=True)
    label = _LABEL.fullmatch(line)
    said = label is not None and (label["colon"] or label["rest"][:1] in ("", " ", ","))
    if _RULED.fullmatch(line) or said or _COUNTED.fullmatch(line) or _ALL_LIMITS.fullmatch(line):
        yield Meant((_as_note(line),), _SAID_OF_NOTES, sure=True)
    elif "=" not in line and is_prose(line) and _is_no_request(line) and _is_told(line):
        yield Meant((_as_note(line),), _SAID_OF_NOTES, note=True)


def _is_told(line: str) -> bool:
    """Whether a line has no figure, or is a sentence or what stands behind a label, with its figures in it."""
    return (
        not _HAS_FIGURE.search(line)
        or _LABELLED.match(line) is not None
        or len(re.findall("[A-Za-z]{3,}", line)) >= _LEAST_WORDS
    )


def _as_note(words: str) -> Offer:
    # Nothing of a note is worked out, so that none of its figures can be lost.
    return Offer(f"# {words.strip()}", worked=True)


def _is_no_request(line: str) -> bool:
    """Whether a line is no request with a slip in it: it opens with none of their words, or goes on as a sentence does."""
    first, *rest = re.findall(r"[a-z_]+", line.lower())
    if first not in requests.words():
        return True
    return first in _ALSO_SAID and not any(
        word in tables().words and word not in _IN_SENTENCES for word in rest
    )


_LOOKS: tuple[Callable[[str], Iterator[Meant]], ...] = (
    _parts, _cuts, statement_habits, _other_signs, _revision, _note,
)  # fmt: skip
