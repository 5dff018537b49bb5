"""Feature lines: what is cut in a part of the sheet, and where.

`hole in PART: SIZE at PLACES [from X, Y] [deep SIZE] [sunk SIZE[, ANGLE]]`,
`slot in PART: LENGTH by WIDTH at PLACES [from X, Y] [turned ANGLE] [deep SIZE] [square]`,
`notch in PART: WIDTH by DEPTH at DISTANCES along EDGE`,
`corner in PART: RADIUS`, `wall in PART: LEAST`. Places are what `places` takes: a name, distances, rows.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from fractions_shop.errors import InputError
from fractions_shop.language.advice.gate import figures
from fractions_shop.language.advice.offers import write
from fractions_shop.language.nodes import Call, Node, Request, ShownExpression
from fractions_shop.language.parser import refuse_long
from fractions_shop.requests.reading import statement
from fractions_shop.sheet.habits import cut_means, lost_in_a_cut, places_said
from fractions_shop.sheet.notch_edges import edge_of, refuse_edge_said_else
from fractions_shop.sheet.part_lines import COMMA, LONGEST_NAME, expression, outside_brackets
from fractions_shop.sheet.sides import joined_by
from fractions_shop.sheet.whole_lines import Habits
from fractions_shop.size import units
from fractions_shop.size.notation import as_meant, without_unseen

#: What each word cuts or asks for, and how it is written; of the last two a part has one.
EXAMPLES = {
    "hole": "hole in label frame: 3 mm at 1/4 in by 1/4 in, 1 3/4 in by 1/4 in",
    "slot": "slot in label frame: 1/2 in by 1/8 in at 1 in by 3/8 in",
    "notch": "notch in label frame: 1/2 in by 1/4 in at 1 in along lower edge",
    "corner": "corner in label frame: 1/8 in",
    "wall": "wall in label frame: 1/16 in",
}
WORDS = tuple(EXAMPLES)
ONE_A_PART = ("corner", "wall")
#: The smaller words of each, which stand behind the places in any order.
_OPTIONS = {
    "hole": ("from", "deep", "sunk"), "slot": ("from", "turned", "deep", "square"), "notch": ("along",),
}  # fmt: skip
#: What is told by two sizes, and what these are.
_TWO_SIZES = {"slot": ("length over all", "width"), "notch": ("width along the edge", "depth")}

_EACH = "|".join(WORDS)
_BEGINS = re.compile(rf"({_EACH})\s+in\b\s*(.*)", re.IGNORECASE | re.DOTALL)
_SEVERAL = re.compile(
    rf"\s*((?P<word>{_EACH})e?s|[0-9]+\s+(?P<counted>{_EACH})(?:e?s)?)\s+in\s[^=#]*:", re.IGNORECASE
)
_NO_PART = re.compile(rf"\s*({_EACH})\s*:", re.IGNORECASE)
_AT = re.compile(r"\sat(?=\s|$)", re.IGNORECASE)
_BY = re.compile(r"\sby(?=\s|$)", re.IGNORECASE)
_ROUNDED = re.compile(
    r",?\s+((?:with\s+)?(?:rounded|round|radiused|full[ -]radius)(?:\s+ends?)?)(?=\s|,|$)", re.IGNORECASE
)
_DEEP_FIRST = re.compile(r"\s*(\S.*?)\s*,?\s*(?:\b(?:x|by)\b|×|,)\s*([0-9.].*?)\s+deep\s*", re.IGNORECASE)
#: How many there are, before the size of each: `4 off 1/8 in`, `4 x 1/8 in`, `4 holes 1/8 in`.
_MANY = re.compile(
    rf"\s*(?P<many>[0-9]{{1,4}})\s*(?:off\b|of\b|[x×](?=\s)|(?:{_EACH})(?:e?s)?(?:\s+of)?\b)\s*(?=\S)",
    re.IGNORECASE,
)
#: That a cut goes through, which all do that are not deep.
_THROUGH = re.compile(r",?\s+(?:through|thru|thro)\b['’]?\s*$", re.IGNORECASE)
_WORD_LAST = re.compile(r",\s*[A-Za-z']+\s*$")
_PLACES = "places "
_CIRCLE = "bolt_circle"
_OWN_WORD = re.compile(r"\s*places\s+", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class FeatureForm:
    """A feature line as read, its sizes still to be worked out.

    `word` is hole, slot, notch, corner or wall; `part` what it is cut in, from `part_start` to `part_end` of the
    line; `sizes` the diameter, length and width, radius or wall. `places` is what `places` is asked, and
    stands in `places_text` where it stands in the line, at `places_span`. `start` is what the places are counted from,
    and `square` says that a slot has square corners. `edge` is the one that a notch is cut in. `many` is how many the line
    says there are (`4 off 1/8 in`), which the places must bear out.
    """

    word: str
    part: str
    part_start: int
    part_end: int
    sizes: tuple[ShownExpression, ...]
    places: Request | ShownExpression | None = None
    places_text: str = ""
    places_span: tuple[int, int] = (0, 0)
    start: tuple[ShownExpression, ...] = ()
    deep: ShownExpression | None = None
    sunk: ShownExpression | None = None
    angle: ShownExpression | None = None
    square: bool = False
    edge: str = ""
    many: int | None = None

    @property
    def nodes(self) -> tuple[Node, ...]:
        """All that it is worked out from, in the order of the line as far as that matters."""
        own = (*self.sizes, self.places, *self.start, self.deep, self.sunk, self.angle)
        return tuple(node for node in own if node is not None)


def begins_a_feature(meant: str) -> bool:
    """Whether a line is a feature line, well formed or not; `slot in mm` shows a size called slot."""
    match = _BEGINS.match(meant)
    if match is None:
        return _SEVERAL.match(meant) is not None or _NO_PART.match(meant) is not None
    return bool(match[2]) and units.find(match[2].strip()) is None


def word_and_part_of(text: str) -> tuple[str, str]:
    """The word and the part of a line, well formed or not; the part is empty where none is said."""
    match = _BEGINS.match(as_meant(text).strip())
    if match is None:
        return "", ""
    return match[1].lower(), " ".join(match[2].partition(":")[0].split())


def read_feature(text: str) -> FeatureForm:
    """The form of a feature line; InputError, with the place, when it is not one."""
    refuse_long(text, "take it in several lines")
    meant = as_meant(text.rstrip())
    several = _SEVERAL.match(meant)
    if several is not None:
        word = (several["word"] or several["counted"]).lower()
        raise InputError(
            f"a line that cuts begins with {word}", text, several.start(1), several.end(1),
            _one_line(word),
        )  # fmt: skip
    unnamed = _NO_PART.match(meant)
    if unnamed is not None:
        word = unnamed[1].lower()
        raise InputError(
            f"a {word} is of a part, and the line names none", text, unnamed.end() - 1, unnamed.end(), _advice(word),
        )  # fmt: skip
    match = _BEGINS.search(meant)
    if match is None:
        raise InputError(
            "a line that cuts says what, and in which part", text, 0, len(meant), _advice("hole")
        )
    word, start = match[1].lower(), match.start(2)
    colon = meant.find(":", start)
    if colon < 0:
        raise InputError(
            f"a {word} line needs a colon after the part's name", text, start, len(meant), _advice(word)
        )
    name = " ".join(text[start:colon].split())
    if not name or len(name) > LONGEST_NAME:
        said = "the part's name is too long" if name else f"a {word} is cut in a part: its name is missing"
        raise InputError(said, text, start if name else colon, colon if name else colon + 1, _advice(word))
    part_end = start + len(text[start:colon].rstrip())
    return _read(text, meant, word, name, (start, part_end), colon + 1)


def _read(text: str, meant: str, word: str, name: str, span: tuple[int, int], start: int) -> FeatureForm:
    end = len(meant)
    at = next(outside_brackets(meant, _AT, start, end), None)
    if word in ONE_A_PART:
        what = "the radius" if word == "corner" else "the least wall"
        size = expression(text, meant, start, end, what, _advice(word))
        if (lost := lost_in_a_cut(word, (size,))) is not None:
            raise InputError(lost[1], text, lost[0].start, lost[0].end, _advice(word))
        return FeatureForm(word, name, *span, (size,))
    if word == "notch":
        refuse_edge_said_else(text, meant, start, _reads)
    said = _MANY.match(meant, start)
    many = None
    if said is not None:
        many, start = int(said["many"]), said.end()
    if at is None and (in_words := places_said(meant[start:], word)):
        raise InputError(in_words[0], text, start, end, in_words[1])
    if at is None:
        raise InputError(
            f"a {word} line says where behind the word at", text, start, max(end, start + 1), _advice(word)
        )
    sizes = tuple(_sizes(text, meant, word, start, at.start()))
    lost = lost_in_a_cut(word, sizes)
    if lost is not None:
        raise InputError(lost[1], text, lost[0].start, lost[0].end, _advice(word))
    through = _THROUGH.search(meant, at.end())
    if through is not None:
        end = through.start()
    pieces = dict(_options(text, meant, word, at.end(), end))
    if through is not None and "deep" in pieces:
        raise InputError(
            "what goes through has no depth", text, through.start(), through.end(), "leave one of them out"
        )
    edge = (
        edge_of(text, meant, pieces.pop("along", None), end, _reads, _advice("notch"))
        if word == "notch"
        else ""
    )
    square = pieces.get("square")
    if square is not None and meant[slice(*square)].strip():
        raise InputError("nothing stands behind square", text, *square, _advice(word))
    places, places_text, places_span = _places(text, meant, word, *pieces.pop(""))
    start_at, depth, sink, turned = (pieces.get(key) for key in ("from", "deep", "sunk", "turned"))
    sunk = () if sink is None else tuple(_listed(text, meant, word, *sink, most=2, what="a diameter"))
    turned_by = () if turned is None else (_one(text, meant, word, *turned, "an angle"),)
    return FeatureForm(
        word, name, *span, sizes, places, places_text, places_span,
        () if start_at is None else _origin(text, meant, word, *start_at),
        None if depth is None else _one(text, meant, word, *depth, "a depth"),
        sunk[0] if sunk else None,
        next(iter((*sunk[1:], *turned_by)), None),
        square is not None,
        edge,
        many,
    )  # fmt: skip


def _sizes(text: str, meant: str, word: str, start: int, end: int) -> Iterator[ShownExpression]:
    if word == "hole":
        _refuse_depth_first(text, meant, start, end)
        yield _one(text, meant, word, start, end, "the diameter")
        return
    by = next(outside_brackets(meant, _BY, start, end), None)
    if by is None:
        raise InputError(
            f"a {word} is told by its {_TWO_SIZES[word][0]} and its {_TWO_SIZES[word][1]}",
            text,
            start,
            max(end, start + 1),
            _advice(word),
        )
    for first, last, what in zip((start, by.end()), (by.start(), end), _TWO_SIZES[word], strict=True):
        yield _one(text, meant, word, first, last, f"the {what}")


def _refuse_depth_first(text: str, meant: str, start: int, end: int) -> None:
    """InputError for `1/4 in x 1 in deep at ...`: the depth stands behind the places."""
    said = _DEEP_FIRST.fullmatch(meant, start, end)
    if said is None:
        return
    whole = joined_by(f"{meant[:start].rstrip()} {said[1]}{meant[end:].rstrip()} deep {said[2]}")
    if _reads(whole):
        raise InputError(
            "how deep a hole is stands behind its places", text, said.start(2), end, write(whole.strip())
        )


def _options(text: str, meant: str, word: str, start: int, end: int) -> Iterator[tuple[str, tuple[int, int]]]:
    """Where the places stand (under no word), and what stands behind each smaller word."""
    # The places of a hole may go along a length; of a notch the word says along which edge.
    listed = dict.fromkeys(o for each in _OPTIONS.values() for o in each if o != "along" or word == "notch")
    every = re.compile(rf",?\s+({'|'.join(listed)})(?=\s|$)", re.IGNORECASE)
    _refuse_round_ends(text, meant, word, start, end)
    options = list(outside_brackets(meant, every, start, end))
    ends = [*(match.start() for match in options), end]
    yield "", (start, ends[0])
    seen: set[str] = set()
    for match, stop in zip(options, ends[1:], strict=True):
        option = match[1].lower()
        if option not in _OPTIONS[word] or option in seen:
            said = f"{option} is given here twice" if option in seen else f"a {word} is not {option}"
            if option == "from" and option not in seen:
                said = f"a {word} has no from"
            raise InputError(said, text, match.start(1), match.end(1), _advice(word))
        seen.add(option)
        yield option, (match.end(), stop)


def _reads(line: str) -> bool:
    try:
        read_feature(line)
    except InputError:
        return False
    return True


def _refuse_round_ends(text: str, meant: str, word: str, start: int, end: int) -> None:
    """InputError for a slot that is said to be rounded, which all are that are not square."""
    said = _ROUNDED.search(meant, start, end) if word == "slot" else None
    if said is None:
        return
    rest = f"{meant[: said.start()]}{meant[said.end() :]}"
    raise InputError(
        "a slot has round ends unless it is said to be square", text, said.start(1), said.end(1),
        write(rest.strip(), lead="leave it out: write "),
    )  # fmt: skip


def _places(
    text: str, meant: str, word: str, start: int, end: int
) -> tuple[Request | ShownExpression, str, tuple[int, int]]:
    """The request for the places that a line says, worked out as if `places` stood before them."""
    own = _OWN_WORD.match(meant, start, end)
    start = own.end() if own else start
    piece = meant[start:end].strip()
    if not piece:
        raise InputError("the places are missing here", text, start, max(end, start + 1), _advice(word))
    start += len(meant[start:end]) - len(meant[start:end].lstrip())
    own_places = _own_places(" " * start + piece)
    if own_places is not None:
        return own_places, " " * start + piece, (start, start + len(piece))
    padded = f"{' ' * (start - len(_PLACES))}{_PLACES}{piece}"
    try:
        node = statement(padded)
    except InputError as error:
        if in_words := places_said(f" at {piece}", word):
            raise InputError(in_words[0], text, start, start + len(piece), in_words[1]) from None
        raise InputError(
            error.message,
            text,
            error.start,
            min(error.end, max(end, error.start)),
            _in_the_line(error, meant, start, end) or _advice(word),
        ) from None
    if not isinstance(node, Request) or node.word != _PLACES.strip():
        raise InputError("these are no places", text, start, end, _advice(word))
    return node, padded, (start, start + len(piece))


def _in_the_line(error: InputError, meant: str, start: int, end: int) -> str:
    """What is offered for the places of a line, in that line; nothing where the whole cannot be read, or has other figures."""
    typed = sorted(map(str, figures(meant)))
    kept = []
    for offer in getattr(error.advice, "offers", ()):
        said = offer.text.removeprefix(_PLACES)
        for first, last in ((start, end), (error.start, error.end)):
            line = f"{meant[:first]}{said}{meant[last:]}".strip()
            # A word behind the places is no further place.
            if sorted(map(str, figures(line))) == typed and not _WORD_LAST.search(line) and _reads(line):
                kept.append(line)
                break
    return write(*kept) if kept else ""


def _own_places(text: str) -> ShownExpression | None:
    """A bolt circle, which gives places without the word; None for anything else."""
    if _CIRCLE not in without_unseen(text).lower():
        return None  # nearly every line: it need not be read for that
    try:
        node = statement(text)
    except InputError:
        return None
    if isinstance(node, ShownExpression) and isinstance(node.expression, Call):
        return node if node.expression.function == _CIRCLE else None
    return None


def _origin(text: str, meant: str, word: str, start: int, end: int) -> tuple[ShownExpression, ...]:
    both = tuple(_listed(text, meant, word, start, end, most=2, what="a distance"))
    if len(both) < 2:
        raise InputError(
            "what places are counted from has two distances, across and up", text, start, max(end, start + 1),
            "write it like this: from 1/2 in, 1/4 in",
        )  # fmt: skip
    return both


def _listed(
    text: str, meant: str, word: str, start: int, end: int, most: int, what: str
) -> Iterator[ShownExpression]:
    """Sizes with commas between them."""
    commas = list(outside_brackets(meant, COMMA, start, end))
    if len(commas) >= most:
        raise InputError(f"only {most} stand here", text, commas[most - 1].start(), end, _advice(word))
    edges = [start, *(place for comma in commas for place in comma.span()), end]
    for k in range(0, len(edges), 2):
        yield _one(text, meant, word, edges[k], edges[k + 1], what)


def _one(text: str, meant: str, word: str, start: int, end: int, what: str) -> ShownExpression:
    return expression(text, meant, start, end, what, _advice(word))


def _advice(word: str) -> str:
    return f"write it like this: {EXAMPLES[word]}"


def _one_line(word: str) -> str:
    return f"write {word}: one line may have many places"


def _example(line: str) -> str:
    return _advice(word_and_part_of(line)[0] or "hole")


CUT_HABITS = Habits(cut_means, frozenset((*map(_advice, WORDS), *map(_one_line, WORDS))), _example)
