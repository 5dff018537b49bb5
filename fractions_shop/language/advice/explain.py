"""Words for what the parser did not expect: what stands there, and how to write it."""

from __future__ import annotations

import re
from collections.abc import Callable
from functools import cache
from typing import NamedTuple

from fractions_shop.errors import InputError
from fractions_shop.language.advice import unfinished_lines
from fractions_shop.language.advice.bench_forms import SMALLER_WORDS
from fractions_shop.language.advice.fault_place import Spot, code_of
from fractions_shop.language.advice.offers import OrExample, write
from fractions_shop.language.advice.typing_habits import special
from fractions_shop.language.advice.unknown_words import opens_no_statement
from fractions_shop.language.fault import Fault, SideBySide
from fractions_shop.language.grammar_tables import openers_or_names, tables

#: What a terminal of the grammar is called when it was expected or found, unless it is a word of its own.
_CALLED = {
    "NUMBER": "a size",
    "NAME": "a name",
    "LPAR": "'('",
    "RPAR": "')'",
    "COMMA": "','",
    "PLUS": "'+'",
    "MINUS": "'-'",
    "STAR": "'*'",
    "SLASH": "'/'",
    "CARET": "'^'",
    "EQUALS": "'='",
    "PRIME": "' for feet",
    "DPRIME": '" for inches',
    "DOTTED": "in.",
    "UNIT_PHRASE": "threads per inch",
    "OLD_UNIT": "an old unit such as Paris lines",
    "AREA": "an area such as 2 sq in",
    "RAISED_UNIT": "an area such as 2 in²",
    "OF_AN_INCH": "of an inch",
    "FRACTION_NTHS": "a fraction such as 3/16ths",
    "DEGREE": "° for degrees",
    "FEET_DASH": "feet and inches",
    "NTHS": "parts such as 64ths",
    "PLUS_MINUS": "'±'",
    "PAIR": "limits such as +1/-2 thou",
    "TAPER_NAMED": "a taper such as Morse 2",
    "TAPER_ALONE": "a taper such as MT2",
    "FROM_END": "from the large end",
    "HEAD_OR_NUT": "head or nut",
    "ACROSS_FLATS": "AF",
    "UNIT_LEADS": "inch first, mm first or inch without feet",
    "SPACES_OF": "spaces of",
    "AT_MOST": "at most",
    "FIRST_AT": "first at",
    "IS_AT_LEAST": "is at least",
    "IS_AT_MOST": "is at most",
    "BLOCKS": "blocks",
    "PER_FOOT": "per ft",
    "ZONES": "the zones of a fit such as H7/g6",
    "DESIGNATION": "a thread such as 6 BA or M3",
    "THREAD": "a thread such as 6 BA",
    "GAUGE": "a gauge such as 18 SWG",
    "DRILL": "a drill such as No 43 drill",
    "RECONCILE": "reconcile",
    "PERCENT": "'%'",
    "RATIO": "a scale such as 1:2",
    "OFF_A_PRINT": "off a print",
    "OFF_PRINT": "off print",
    "IN_INCH_WORK": "in inch work",
    "IN_METRIC_WORK": "in metric work",
    "IN_EITHER_WORK": "in either work",
    "$END": "the end of the line",
}
#: Terminals that are words of the language, though they are more than one plain word.
_PHRASES = ("SPACES_OF", "AT_MOST", "FIRST_AT", "IS_AT_LEAST", "IS_AT_MOST", "BLOCKS", "RECONCILE", "OFF_A_PRINT", "OFF_PRINT",
           "IN_INCH_WORK", "IN_METRIC_WORK", "IN_EITHER_WORK")  # fmt: skip
#: Things that are a value, so that two of them in a row lack a sign between them.
_VALUES = {"NUMBER", "FRACTION_NTHS", "NAME", "LPAR", "FEET_DASH", "THREAD", "GAUGE", "DRILL"}
#: Things that only start or join an expression; "a size" says them all.
_EXPRESSION = {*_VALUES, "MINUS", "PLUS"}
_SIGNS = {"PLUS", "MINUS", "STAR", "SLASH", "CARET", "PLUS_MINUS", "PAIR"}
_UNITS = {
    "PRIME", "DPRIME", "DOTTED", "UNIT_PHRASE", "OLD_UNIT", "AREA", "RAISED_UNIT", "OF_AN_INCH", "DEGREE", "NTHS",
}  # fmt: skip


@cache
def called() -> dict[str, str]:
    """What every terminal is called: a word of the language by itself, the shortest of its forms."""
    words = sorted(tables().words.items(), key=lambda pair: -len(pair[0]))
    return {kind: word for word, kind in words} | openers_or_names() | _CALLED


@cache
def phrases() -> tuple[str, ...]:
    """The terminals that are words of the language though their patterns are more than one plain word."""
    return (*openers_or_names(), *_PHRASES)


@cache
def openers() -> frozenset[str]:
    """The terminals of the words that open a request."""
    return frozenset((*tables().words.values(), *phrases())) & frozenset(tables().states[tables().start])


#: Advice for two sizes in a row that nothing parts.
NO_SIGN = "put + - * or / between them; side by side never multiplies"

#: The zone of a hole or a shaft as ISO 286 names it.
_ZONE = re.compile(r"[A-Za-z]{1,2}[0-9]{1,2}")
#: Tells whether a line can be read.
Reads = Callable[[str], bool]


class ParserStop(NamedTuple):
    """Where reading stopped: the `kind` of what stands there and of what stood `before`, and what was `expected`."""

    start: int
    end: int
    kind: str
    before: str
    expected: frozenset[str]


def explain(text: str, meant: str, stop: ParserStop, reads: Reads) -> InputError:
    """The error to show for a token that does not fit where it stands."""
    start, end, kind, before, expected = stop
    if kind == "$END" or start < 0:
        return _too_soon(text, meant, expected, reads)
    end = min(end, len(text))
    piece = text[start:end]
    if kind == "EQUALS" and before in openers():
        return _opener_as_name(text, meant, start, before)
    said = special(Spot(meant, start, kind, piece, before, reads))
    if said is not None:
        message, advice, start, end = said
        return InputError(message, text, start, max(end, start + 1), advice)
    if kind == "":
        return InputError(
            f"{piece!r} is not a sign used here", text, start, end,
            "write sizes such as 2 1/32 in or 51.5 mm, joined by + - * / ^ and brackets",
        )  # fmt: skip
    if first := _first_word(meant[:start]):
        return InputError(first[0], text, first[2], first[3], first[1])
    if kind in _VALUES and before in ("size", "NAME", "RPAR", "NUMBER", *_UNITS):
        advice = _comma_between(meant, start, reads) or _as_a_fit(meant, start, piece) or NO_SIGN
        message = f"{piece!r} follows a size without a sign between them"
        return InputError(message, text, start, end, advice)
    wanted = _with_reason(_expected(expected))
    return InputError(f"expected {wanted}, not {piece!r}", text, start, end, OrExample())


def _first_word(before: str) -> tuple[str, str, int, int] | None:
    """What is said of a line where all before the fault is one word that opens no statement, and where that stands."""
    match = re.fullmatch(r"\s*([^\W\d]\w*)\s+(?:in\s+)?", before)
    said = opens_no_statement(match[1]) if match else None
    return (*said, *match.span(1)) if match and said else None


def _as_a_fit(meant: str, start: int, piece: str) -> str:
    """How the limits of a size in a zone are asked for, where the zone ends the line: `fit 3 mm H7`."""
    if not _ZONE.fullmatch(piece) or meant[start + len(piece) :].strip():
        return ""
    name, _, size = meant[:start].rpartition("=")
    named = f"{name.strip()} = " if name.strip() else ""
    return write(f"{named}fit {size.strip()} {piece}", hint=NO_SIGN)


def explain_fault(fault: Fault, text: str, meant: str, reads: Reads) -> InputError:
    """The error for two sizes side by side, which the parser took for feet and inches."""
    if not isinstance(fault, SideBySide):
        return fault.in_line(text)
    said = special(Spot(meant, fault.start, "NUMBER", text[fault.start : fault.end], "size", reads))
    if said is not None:
        message, advice, start, end = said
        return InputError(message, text, start, max(end, start + 1), advice)
    advice = _comma_between(meant, fault.start, reads) or fault.advice
    return InputError(str(fault), text, fault.start, fault.end, advice)


def _too_soon(text: str, meant: str, expected: frozenset[str], reads: Reads) -> InputError:
    place = len(code_of(meant))
    if re.search(r"\b(?:to|on|rule|as) *$", meant[:place], re.IGNORECASE):
        return _ended(text, place, "a rule or a unit", "write 64ths, 32nds, 100ths, mm or half mm")
    rule = unfinished_lines.alone_is_no_rule(meant[:place])
    if rule:
        return InputError(rule[0], text, rule[2], place, rule[1])
    last = re.search(r"[0-9./]+ *$", meant[:place])
    feet = re.search(r"(?:'|\b(?:ft\.?|feet|foot)) *(?:[0-9]+ )?[0-9./]+ *$", meant[:place])
    if last and feet and expected <= {"NAME", *_UNITS}:
        return _ended(text, place, "the unit of the inches", write(f"{meant[:place].strip()} in"))
    if last and expected and expected <= {"NAME", *_UNITS}:
        # `2 in 5`: the parser took it for feet and inches, but a word or a sign was left out.
        return InputError(
            f"{last[0].strip()!r} follows a size without a sign between them",
            text, last.start(), place,
            _comma_between(meant, last.start(), reads) or OrExample("put + - * or / between them"),
        )  # fmt: skip
    advice = next((said for look in _ENDINGS if (said := look(meant[:place], reads))), "")
    return _ended(text, place, _expected(expected), advice or OrExample())


def _ended(text: str, place: int, expected: str, advice: str) -> InputError:
    """The fault of a line that stops where something is still to follow."""
    return InputError(
        f"the line ends too soon: expected {_with_reason(expected)}", text, place, place,
        advice, ended=True, expected=expected,
    )  # fmt: skip


_ENDINGS = (
    unfinished_lines.only_a_diameter,
    unfinished_lines.divided_by_a_sign,
    unfinished_lines.of_a_reading,
    unfinished_lines.example,
)


def _opener_as_name(text: str, meant: str, start: int, before: str) -> InputError:
    word = re.search(r"[A-Za-z]+ *$", meant[:start])
    first = word.start() if word else start
    return InputError(
        f"{called()[before]} is the word of a request, so it cannot be a name",
        text,
        first,
        start,
        "choose another name",
    )


def _comma_between(meant: str, start: int, reads: Reads) -> str:
    """Advice to part two sizes of a list by a comma, where the line can be read so; else nothing."""
    if re.search(rf", *(?:{SMALLER_WORDS}) *$", meant[:start]):
        return ""  # `, within 0.1 mm`: the comma is one too many
    whole = f"{meant[:start].rstrip()}, {code_of(meant)[start:]}".strip()
    said = "the sizes of a list are parted by commas"
    if reads(whole):
        return write(whole, lead=f"{said}: write ", hint=f"{said}, and each has its unit")
    in_list = re.match(r" *(?:[A-Za-z_]\w* *= *)?(?:recover|pack|identify)\b", meant, re.IGNORECASE)
    return f"{said}, and each has its unit" if in_list else ""


#: The sign that ends what stands in brackets.
_CLOSING = "')'"


def _with_reason(expected: str) -> str:
    """What was expected, and of a bracket why."""
    return f"{expected} to close the bracket" if expected == _CLOSING else expected


def _expected(kinds: frozenset[str]) -> str:
    """`a size or '('`: at most a few words for what could have stood there."""
    words: list[str] = []
    given = kinds
    if "RPAR" in kinds and "NUMBER" not in kinds:
        return _CLOSING
    if "NUMBER" in kinds or kinds == {"LPAR"}:
        words.append("a size")
        kinds -= _EXPRESSION
    elif kinds & _SIGNS:
        words.append("a sign such as + or /")
        kinds -= _EXPRESSION
    kinds = kinds - _SIGNS - {"OF", "PER_FOOT", "SPACES_OF"} - (_UNITS if words else set())
    rest = [called().get(kind, kind.lower()) for kind in sorted(kinds)]
    if len(rest) > 6:
        rest = [called()["$END"]] if "$END" in kinds and words else []
    words += [word for word in rest if word not in words]
    if called()["$END"] in words:  # the end comes last, and a comma is told only where little else may stand
        words = [word for word in words if word != called()["$END"]] + [called()["$END"]]
        words = [word for word in words if len(words) < 5 or word != called()["COMMA"]]
    if not words:
        return "of" if "OF" in given else "something else"
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} or {words[-1]}"
