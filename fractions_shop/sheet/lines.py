"""A sheet's text to its lines: titles, notes, revisions, parts and statements, each with its fault if any."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from types import MappingProxyType

from fractions_shop import requests
from fractions_shop.errors import InputError, ShopError, visible
from fractions_shop.language.nodes import (
    KnownSize,
    Name,
    Named,
    Naming,
    Node,
    Request,
    Statement,
    Worded,
    nodes_in,
)
from fractions_shop.language.parser import parse_plain
from fractions_shop.language.trial import on_trial, trial
from fractions_shop.requests.reading import statement as read_statement
from fractions_shop.sheet.feature_lines import (
    CUT_HABITS,
    ONE_A_PART,
    FeatureForm,
    begins_a_feature,
    read_feature,
    word_and_part_of,
)
from fractions_shop.sheet.habits import LINE_HABITS, REVISION_HABITS, lost_alone
from fractions_shop.sheet.part_lines import PART_HABITS, PartForm, begins_a_part, name_of, read_part
from fractions_shop.sheet.revisions import Revision, begins_a_revision, read_revision
from fractions_shop.sheet.sides import read_or_offer
from fractions_shop.sheet.stock_lines import STOCK_HABITS, StockForm, begins_a_stock, read_stock
from fractions_shop.sheet.whole_lines import in_whole_lines
from fractions_shop.size.drafts import Drafted
from fractions_shop.size.frozen import Record
from fractions_shop.size.notation import as_meant, without_unseen

#: A longer sheet is refused: it would be a column of figures, not a job.
MAX_LINES = 200_000

#: Where a comment begins; a `#` before a figure is a number sign (#6-32).
_COMMENT = re.compile(r"#(?![0-9])")
_SETS = re.compile(r"\s*([^\W\d]\w*)\s*(?:(?:,\s*[^\W\d]\w*\s*)*=|\breads\b(?!\s*[-=+*/^)]))")
#: The words that check something or set the rule, as requests and not as names.
_RULE, _CHECK = (
    re.compile(rf"\s*(?:{'|'.join(words)})\b(?!\s*[-=+*/^)])", re.IGNORECASE)
    for words in (requests.RULES, requests.CHECKS)
)
#: What sets several names, one for each size of a list.
_SETS_EACH = re.compile(r"\s*([^\W\d]\w*(?:\s*,\s*[^\W\d]\w*)+)\s*=")
_TIES = re.compile(rf"\s*{requests.RECONCILE}\b(?!\s*[-=+*/^)])", re.IGNORECASE)
_NAME = re.compile(r"[^\W\d]\w*")


class Line(Record, metaclass=Drafted):
    """One line: its number from 1, its text, and what it turned out to be.

    `kind` is blank, title, note, revision, statement, part, feature (what is cut in a part) or stock. `words` is what a title or note
    says, or the comment behind a statement. `sets` is the name that the line sets,
    kept also when the rest could not be read, so that those who wait know for what.
    `uses` maps each name drawn on to where it stands. A row that sets several names has a line for each of
    them; those behind the first are `also` of it. `looks_at_names` says that the line holds what
    some name of the sheet might be meant by: a thread, or a word left out.
    """

    number: int
    text: str
    kind: str
    words: str = ""
    node: Statement | None = None
    part: PartForm | None = None
    feature: FeatureForm | None = None
    stock: StockForm | None = None
    fault: InputError | None = None
    sets: str = ""
    uses: Mapping[str, Name] = MappingProxyType({})
    also: bool = False
    looks_at_names: bool = False
    revision: Revision | None = None

    @property
    def row(self) -> int:
        """The row that it stands in, from 0."""
        return self.number - 1

    @property
    def works(self) -> bool:
        """Whether there is something to work out."""
        return self.kind in ("statement", "part", "feature", "stock")

    @property
    def statement(self) -> str:
        """The line without its comment and outer blanks."""
        text = self.text
        match = _COMMENT.search(as_meant(text)) if "#" in text or not text.isascii() else None
        return (text[: match.start()] if match else text).strip()

    @property
    def comment(self) -> str:
        """The comment behind the statement as it stands, the blanks before it included; empty for none."""
        has_one = self.works or self.kind == "revision"
        match = _COMMENT.search(as_meant(self.text)) if has_one else None
        return self.text[len(self.text[: match.start()].rstrip()) :] if match else ""

    @property
    def request(self) -> str:
        """The word of the request that the line makes or names; empty for anything else."""
        part = self.node.answer if isinstance(self.node, Naming) else self.node
        return part.word if isinstance(part, Request) else ""

    @property
    def asked(self) -> str:
        """What stands behind the word of a request, as it was written: `pitch * 5 = total` of a check."""
        indent = len(self.text) - len(self.text.lstrip())
        if self.node is None:
            check = _CHECK.match(self.statement)
            return self.statement[check.end() if check else 0 :].strip()
        return self.statement[self.node.start - indent + len(self.request) :].strip()

    @property
    def begins_a_rule(self) -> bool:
        """Whether a line that could not be read was to set the working rule."""
        return self.fault is not None and _RULE.match(as_meant(self.text)) is not None

    @property
    def begins_a_tie(self) -> bool:
        """Whether a line that could not be read was to tie names that read."""
        return self.fault is not None and _TIES.match(as_meant(self.text)) is not None

    @property
    def words_tied(self) -> tuple[str, ...]:
        """The names in a line that ties some; of one that could not be read all of its words."""
        return tuple(self.uses) if self.fault is None else tuple(_NAME.findall(self.statement))

    @property
    def is_check(self) -> bool:
        """Whether the line is a check, read or not."""
        if self.node is None:
            return self.kind == "statement" and not self.sets and _CHECK.match(self.text) is not None
        return self.request in requests.CHECKS

    @property
    def part_name(self) -> str:
        """The name of the part that the line makes, read or not; empty for other lines."""
        if self.kind != "part":
            return ""
        return self.part.name if self.part is not None else name_of(self.text)

    @property
    def feature_word(self) -> str:
        """What the line cuts in a part, read or not: hole, slot, corner or wall; empty for other lines."""
        return self._feature[0]

    @property
    def cut_in(self) -> str:
        """The name of the part that the line cuts in, read or not; empty for other lines."""
        return self._feature[1]

    @property
    def _feature(self) -> tuple[str, str]:
        if self.kind != "feature":
            return "", ""
        return (self.feature.word, self.feature.part) if self.feature else word_and_part_of(self.statement)

    @property
    def one_a_part(self) -> str:
        """What tells apart the features of which a part has one: `corner in label frame`; empty for others."""
        word, part = self._feature
        return f"{word} in {part}".casefold() if word in ONE_A_PART else ""

    @property
    def called(self) -> str:
        """What the line sets, makes or cuts: `pitch`, `tray`, `hole in tray`; empty for other lines."""
        return self.sets or self.part_name or " in ".join(filter(None, self._feature))

    @property
    def is_rule(self) -> bool:
        """Whether the line sets the working rule."""
        return isinstance(self.node, Request) and self.node.word in requests.RULES

    @property
    def is_units(self) -> bool:
        """Whether the line says which figures lead."""
        return isinstance(self.node, Request) and self.node.word == requests.UNITS


def read_lines(text: str, known: Iterable[Line] = ()) -> tuple[Line, ...]:
    """The lines of a sheet; a line that cannot be read carries its fault. ShopError if too many.

    `known` are lines already read, such as those of the sheet before a change: equal ones are not read again.
    """
    rows = rows_of(text)
    if len(rows) > MAX_LINES:
        raise ShopError(f"the sheet has {len(rows):,} lines, and {MAX_LINES:,} is the most that is read")
    by_text: dict[str, list[Line]] = {}
    for line in known:
        by_text.setdefault(line.text, []).append(line)
    lines, trying = list[Line](), on_trial()  # a row on trial is read once, by the one who keeps it
    for number, row in enumerate(map(_shown, rows), 1):
        if row in by_text:
            lines += _known(number, by_text[row])
        elif not trying and (plain := _plain_line(number, row)) is not None:
            lines.append(plain)
        else:
            lines += _lines(number, row)
    return tuple(lines)


def _known(number: int, known: list[Line]) -> list[Line]:
    first = known[0].number
    known = [line for line in known if line.number == first]
    return known if first == number else [_at(line, number) for line in known]


def _at(line: Line, number: int) -> Line:
    fault = None if line.fault is None else line.fault.at(line.text, 0, number)
    revision = None if line.revision is None else replace(line.revision, line=number)
    return line.but(number=number, fault=fault, revision=revision)


def rows_of(text: str) -> list[str]:
    """The rows of a text, whatever ends them; only a line end does, and the last one may lack it."""
    rows = text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n").split("\n")
    if rows[-1] == "":
        rows.pop()
    return rows


def _shown(row: str) -> str:
    """The row with marks for the signs that a terminal would act upon, or that turn a line about."""
    return visible(row, keep="\t")


def _lines(number: int, row: str) -> Iterator[Line]:
    """The line of a row, and one more for each further name that it sets."""
    line = _line(number, row)
    yield line
    if line.kind != "statement" or "," not in row.partition("=")[0]:
        return
    if isinstance(line.node, Naming):
        for name in line.node.each[1:]:
            yield line.but(node=line.node.but(name=name), sets=name, also=True)
    elif (match := _SETS_EACH.match(as_meant(row))) is not None:
        for name in _NAME.findall(match[1])[1:]:
            yield line.but(fault=None, sets=name, also=True)


def _plain_line(number: int, row: str) -> Line | None:
    """The line of a row that is one of the commonest statements; None for any other.

    Nothing that a part, a revision, a feature or a stock begins with is such a statement, and none sets several names.
    """
    plain = parse_plain(row)
    if plain is None or (row.isalpha() and lost_alone(row) is not None):
        return None
    node, comment = plain.statement, row[plain.at + 1 :].strip(" #")
    name = node.name if isinstance(node, Naming) else ""
    return Line(number, row, "statement", comment, node, sets=name, uses=plain.names)


def _line(number: int, row: str) -> Line:
    meant = as_meant(without_unseen(row)).strip()
    if not meant:
        return Line(number, row, "blank")
    if _COMMENT.match(meant):
        words = without_unseen(row).strip().lstrip("#＃")
        title = meant.startswith("##") and words.strip()
        return Line(number, row, "title" if title else "note", words.strip())
    if begins_a_part(meant):
        return _part_line(number, row)
    if begins_a_revision(meant):
        return _revision_line(number, row)
    if begins_a_feature(meant):
        return _feature_line(number, row)
    if begins_a_stock(meant):
        return _stock_line(number, row)
    return _statement_line(number, row)


def _statement_line(number: int, row: str) -> Line:
    try:
        if (lost := lost_alone(row)) is not None:
            raise lost
        node = read_statement(row)
    except InputError as error:
        error = error if lost is not None else in_whole_lines(error, _is_read, LINE_HABITS)
        match = _SETS.match(as_meant(row))
        return Line(
            number, row, "statement", _comment(row),
            fault=error.at(row, 0, number), sets=match[1] if match and match[1] != "ans" else "",
        )  # fmt: skip
    assert node is not None, "blank and comment lines were sorted out before"
    name = node.name if isinstance(node, Naming) else ""
    uses, looks = _draws(node)
    return Line(number, row, "statement", _comment(row), node, sets=name, uses=uses, looks_at_names=looks)


def _is_read(row: str) -> bool:
    """Whether a line can be read, of whatever kind it is."""
    with trial():
        return _line(1, row).fault is None


def _part_line(number: int, row: str) -> Line:
    try:
        part = read_or_offer(read_part, _without_comment(row), PART_HABITS)
    except InputError as error:
        return Line(number, row, "part", fault=error.at(row, 0, number))
    uses, looks = _draws(part.count, *part.sizes, *part.figures)
    looks = looks or part.otherwise is not None
    return Line(number, row, "part", _comment(row), part=part, uses=uses, looks_at_names=looks)


def _feature_line(number: int, row: str) -> Line:
    try:
        feature = read_or_offer(read_feature, _without_comment(row), CUT_HABITS)
    except InputError as error:
        return Line(number, row, "feature", fault=error.at(row, 0, number))
    uses, looks = _draws(*feature.nodes)
    return Line(number, row, "feature", _comment(row), feature=feature, uses=uses, looks_at_names=looks)


def _without_comment(row: str) -> str:
    match = _COMMENT.search(as_meant(row))
    return row[: match.start()] if match else row


def _revision_line(number: int, row: str) -> Line:
    try:
        revision = read_revision(_without_comment(row), number)
    except InputError as error:
        error = in_whole_lines(error, _is_read, REVISION_HABITS)
        return Line(number, row, "revision", _comment(row), fault=error.at(row, 0, number))
    return Line(number, row, "revision", _comment(row), revision=revision)


def _stock_line(number: int, row: str) -> Line:
    try:
        stock = read_or_offer(read_stock, _without_comment(row), STOCK_HABITS)
    except InputError as error:
        return Line(number, row, "stock", fault=error.at(row, 0, number))
    uses, looks = _draws(*stock.nodes)
    return Line(number, row, "stock", _comment(row), stock=stock, uses=uses, looks_at_names=looks)


def _comment(row: str) -> str:
    match = _COMMENT.search(as_meant(row)) if "#" in row or not row.isascii() else None
    return row[match.end() :].strip(" #＃") if match else ""


def _draws(*nodes: Node) -> tuple[dict[str, Name], bool]:
    """Every name that some nodes of a line draw on, with where it stands first, and whether they look at names.

    Where a reading tells the scale of its own name, that name stands for what is read here.
    """
    names: dict[str, Name] = {}
    looks = False
    for node in nodes:
        here = _read_here(node)
        for part in nodes_in(node):
            if isinstance(part, Name):
                known = names.get(part.word)
                if part is not here and (known is None or part.start < known.start):
                    names[part.word] = part
            elif isinstance(part, (Named, Worded)):
                looks = True
    return names, looks


def _read_here(node: Node) -> Name | None:
    if not isinstance(node, Naming) or not isinstance(node.answer, Request):
        return None
    for option in node.answer.options:
        known = option.value
        if isinstance(known, KnownSize) and isinstance(known.read, Name) and known.read.word == node.name:
            return known.read
    return None
