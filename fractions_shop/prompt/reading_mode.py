"""Reading mode: one figure a line, as an instrument says them; each becomes a line of the sheet at once."""

from __future__ import annotations

import re
from dataclasses import dataclass

from fractions_shop.errors import InputError, NoAnswer
from fractions_shop.prompt.own_words import Refused
from fractions_shop.prompt.words_in_row import MOST_TOLD, either
from fractions_shop.requests import READS
from fractions_shop.requests import help as request_help
from fractions_shop.sheet.lines import Line
from fractions_shop.sheet.read_together import request_of
from fractions_shop.sheet.session import Session
from fractions_shop.sheet.states import State
from fractions_shop.size import units

#: What a figure without a name is called, before its number.
_CALLED = "r"
_NAMED = re.compile(r"\s*(?:([^\W\d]\w*)\s*[:=]?\s+)?(\S.*?)\s*$")
#: One figure with its unit or without: 10.3, 2 1/32 in, 75.3 mm.
_FIGURE = re.compile(r"-?[0-9.]+(?:[ -][0-9]+/[0-9]+|/[0-9]+)?(?:\s*(?:[^\W\d_]+|[\"'″′]))?")
#: What may be said of the instrument, by the words that open it; and a line whose figure is still to come, or has begun.
_OPENINGS = ("by", "within", "worn", "made", "shrunk", "plated", "off", "scale", "among",
             "in inch work", "in metric work", "in either work")  # fmt: skip
_OPTIONS = re.compile(rf"(?:^|\s)(?:{'|'.join(_OPENINGS)})\b.*$", re.IGNORECASE)
_FRACTION_BEGUN = re.compile(r"[0-9] +[0-9]+/[0-9]+$")
#: Words at the end of a line behind a figure.
_LAST_WORDS = re.compile(r"(?<=[0-9.\s\"'″′])[^\W\d_]+(?: [^\W\d_]+)*$")
_BEGUN = re.compile(r"\s*(?:[^\W\d]\w*)?\s*[:=]?\s*|.*[/-]\s*")
_FORM = re.compile(r"(?:in\s+(\S+))?\s*(.*)$", re.IGNORECASE)
EXAMPLE_OF_ONE = "bay 10.3"
EXAMPLE = "write readings in mm by caliper"


@dataclass(frozen=True)
class ReadingMode:
    """The unit of figures that have none of their own, and what is said of the instrument: `by caliper`."""

    unit: str
    options: str

    def statement(self, text: str, state: State) -> str:
        """What a line of figures says as a line of the sheet: `bay 10.3` is `bay reads 10.3 mm by caliper`.

        A name that was read so before has been read again. What is said of the instrument behind the figures
        (`stile 92 by rule`) serves that line alone. InputError for a line without a figure, `ended` where one may
        still follow.
        """
        match = _NAMED.match(text)
        name, rest = (match[1], match[2]) if match is not None else (None, "")
        behind = _OPTIONS.search(rest)
        options = self.options if behind is None else behind[0].strip()
        rest = rest if behind is None else rest[: behind.start()]
        figures = [self._with_unit(figure) for figure in _FIGURE.findall(rest)]
        if not figures or _FIGURE.sub("", rest).strip(" ,;\t"):
            begun = _BEGUN.fullmatch(text) is not None
            raise InputError(
                "a name and what was read of it are expected here", text, 0, max(1, len(text)),
                f"write it like this: {EXAMPLE_OF_ONE} for {self._with_unit('10.3')}; an empty line ends the readings",
                ended=begun, expected="a figure" if begun else "",
            )  # fmt: skip
        name = name or _free(state)
        before = _read_before(state, name, options)
        said = ", ".join([*before, *figures])
        return f"{name} reads {said} {options}".rstrip()

    def _with_unit(self, figure: str) -> str:
        return figure if re.search(r"[^\W\d_]|[\"'″′]", figure) else f"{figure.strip()} {self.unit}"


def words_begun(text: str) -> str:
    """What is said of a line of figures whose end is the start of a fraction, a unit or what is said of the instrument."""
    if _FRACTION_BEGUN.search(text):
        return "the rest of a fraction is to follow"
    last = _LAST_WORDS.search(text)
    if last is None or not any(sign.isdigit() for sign in text[: last.start()]):
        return ""
    typed = {last[0].lower(), last[0].lower().rpartition(" ")[2]}
    words = (*request_help.unit_words(old=False), *_OPENINGS)
    begun_by = [word for word in words if any(word.startswith(each) and word != each for each in typed)]
    return f"the start of {either(begun_by[:MOST_TOLD])}" if begun_by else ""


def begun(rest: str) -> ReadingMode:
    """The mode that `readings in mm by caliper` asks for; Refused where that cannot be read."""
    match = _FORM.match(rest.strip())
    unit, options = (match[1] or "", match[2].strip()) if match is not None else ("", "")
    if units.find(unit) is None:
        raise Refused(f"readings needs the unit that the figures are in; {EXAMPLE}")
    try:
        Session().answer(f"x reads 1 {unit} {options}")
    except NoAnswer:
        pass  # that 1 of it is no round size says nothing against the rest
    except InputError as error:
        raise Refused(f"{options} cannot stand behind a reading: {error.message}; {EXAMPLE}") from None
    return ReadingMode(unit, options)


def _read_before(state: State, name: str, options: str) -> list[str]:
    """The figures that a name reads already, if it was read with the same instrument."""
    home = state.homes.get(name)
    line = None if home is None else state.lines[home]
    if line is None or line.request != READS:
        return []
    request = request_of(line)
    last = request.subjects[-1]
    if line.statement[last.end - _indent(line) :].strip() != options:
        return []
    return [line.text[subject.start : subject.end].strip() for subject in request.subjects]


def _indent(line: Line) -> int:
    return len(line.text) - len(line.text.lstrip())


def _free(state: State) -> str:
    number = 1
    while f"{_CALLED}{number}" in state.homes:
        number += 1
    return f"{_CALLED}{number}"
