"""Whether a line that is no statement, such as `hole in tray: 3 mm`, may still become right, and what may follow.

As of statements, a few endings are tried: the rest of a word that has been begun, then what such a line needs behind it.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Collection, Iterator, Mapping
from itertools import chain
from typing import Any, NamedTuple

from fractions_shop.errors import InputError
from fractions_shop.language.trial import trial
from fractions_shop.layout.notches import EDGES
from fractions_shop.prompt.endings import Ending, endings
from fractions_shop.prompt.words_in_row import either
from fractions_shop.sheet.feature_lines import WORDS as FEATURES
from fractions_shop.sheet.lines import Line, read_lines
from fractions_shop.sheet.part_lines import SECTIONS
from fractions_shop.size.notation import as_meant

_OPENS = re.compile(r"\s*([^\W\d_]+)\b")
_PART_BEGUN = re.compile(rf"\s*({'|'.join(FEATURES)})\s+in\s*([^:#]*)", re.IGNORECASE)
_REVISION_BEGUN = re.compile(r"\s*rev\s+[^:#]*", re.IGNORECASE)
_FIGURES = re.compile(r"[0-9/.]+")
_AT = re.compile(r"\sat\s", re.IGNORECASE)
_LAST_WORD = re.compile(r"[^\W\d_]+$")
#: So many texts are tried at most: a line that nothing mends must not cost more than a key does.
_MOST_TRIED = 160
#: Of texts that must be worked out, and of what stands behind each ending of these.
_MOST_TAKEN, _MOST_TAILS = 18, 3
_SMALL = "1/16 in"
_PLACE = "1 in by 1 in"
#: Behind what is cut and how large it is; and behind the word at.
_CUT = ("", f" at {_PLACE}", f" by 1 in at {_PLACE}", f"1 in at {_PLACE}", f" 1 in at {_PLACE}", f" {_PLACE}", "1 in",
        f" 1 in by 1 in at {_PLACE}", f" drill at {_PLACE}", f"6 BA) at {_PLACE}", f"2 in) at {_PLACE}", f") at {_PLACE}")  # fmt: skip
_WHERE = ("", f" by {_SMALL}", " 1 in", "1 in", f" {_PLACE}", " 1 deg", ", 1 in", "2, 1 in)", " in by 1 in", " at 1 in",
          " 1 in, 1 in", " 2 up by 1 in", "2 up by 1 in", " up by 1 in")  # fmt: skip
#: The same of a notch, which says along which edge.
_EDGE = next(iter(EDGES))
_MOUTH = (
    f" 1 in along {_EDGE}",
    *(
        f"{tail} at 1 in along {_EDGE}"
        for tail in ("", f" by {_SMALL}", f" {_SMALL} by {_SMALL}", f" {_SMALL}", _SMALL, f" in by {_SMALL}")
    ),
)
_ALONG = ("", f" {_EDGE}", " edge", *(f"{tail} along {_EDGE}" for tail in ("", " 1 in", "1 in", " in")))
_MADE = (
    "",
    ": 1",
    " 1",
    " 1 in",
    "1 in",
    ", 1 in",
    " oak",
    " by 1 in",
    " 1 in by 1 in",
    " by 1 in by 1 in",
    " by bore 1 mm by 1 in",
)
_BAR = ("", ", 36 in long", " 36 in long", " 1 in", " long", "36 in long", " 1 in, 36 in long", "1 in, 36 in long",
        " by bore 1/64 in, 36 in long", " 1 in by bore 1/64 in, 36 in long", " bore 1/64 in, 36 in long", ": round 1 in, 36 in long", " 24 in by 12 in", ", 24 in by 12 in",
        " by 12 in", " 1 in, 24 in by 12 in", " saw 1/32 in", " round 1 in, 36 in long")  # fmt: skip


class _LineForm(NamedTuple):
    """What stands behind a line of one kind, behind the word at of one that cuts too, and the words in it."""

    tails: tuple[str, ...]
    words: tuple[str, ...]
    where: tuple[str, ...] = ()


_FEATURE = _LineForm(
    _CUT, ("in", "at", "by", "from", "deep", "sunk", "turned", "places", "across", "up", "first at"), _WHERE
)
_NOTCH = _LineForm(
    _MOUTH, ("in", "at", "by", "along", "the", *EDGES, "edge", "places", "across", "first at"), _ALONG
)
_KINDS = {
    **dict.fromkeys(FEATURES, _FEATURE),
    "notch": _NOTCH,
    "part": _LineForm(_MADE, ("of", "by", "bore", *SECTIONS)),
    "stock": _LineForm(_BAR, ("by", "bore", "long", "saw", "sheet", *SECTIONS)),
}

#: The small words of each kind of line, by the word that opens it.
LINE_SMALL_WORDS = {word: kind.words for word, kind in _KINDS.items()}


def line_standing(
    error: InputError,
    text: str,
    known: Mapping[str, Any],
    parts: Collection[str],
    fault_of: Callable[[str], InputError | None],
) -> str:
    """What may follow a line at fault that is no statement; empty for one that no ending mends, and for a statement.

    `parts` are the names of the sheet's parts, in small letters; `fault_of` tells why the sheet does not take a line.
    """
    opening = _OPENS.match(as_meant(text))
    if _REVISION_BEGUN.fullmatch(text):
        return "a colon is to follow, and what has changed"
    kind = _KINDS.get(opening[1].lower()) if opening is not None else None
    if kind is None:
        return ""
    if (begun := _PART_BEGUN.fullmatch(as_meant(text))) is not None:
        return _part_begun(" ".join(begun[2].split()), parts)
    if kind.where and _AT.search(text):
        kind = kind._replace(tails=kind.where)
    with trial():
        right = _is_right(text, known, parts)
    if right:
        # It is read, and cannot be worked out as it stands: what is tried must be worked out too.
        few = kind._replace(tails=kind.tails[:_MOST_TAILS])
        return _follows(text, few, known, parts, lambda line: _differs(fault_of(line), error), _MOST_TAKEN)
    last = len(text.rstrip()) - (len(match[0]) if (match := _LAST_WORD.search(text)) else 1)
    # Where a piece of a feature is at fault that the whole line has no place for, the place told is that of the piece.
    placed = read_lines(text)[0].fault is None or not kind.where
    if placed and error.end < last and not error.ended:
        return ""
    with trial():
        return _follows(text, kind, known, parts, lambda line: _is_right(line, known, parts), _MOST_TRIED)


def _part_begun(typed: str, parts: Collection[str]) -> str:
    """What may follow the beginning of a part's name."""
    if typed.casefold() in parts:
        return "a colon is to follow"
    names = [name for name in parts if name.startswith(typed.casefold())]
    if names and typed:
        return f"the start of {either(names)}"
    return "" if typed else "the name of a part is to follow"


def _follows(
    text: str,
    kind: _LineForm,
    known: Mapping[str, Any],
    parts: Collection[str],
    fits: Callable[[str], bool],
    most: int,
) -> str:
    """The words that the end may be the start of, or else the first ending that makes the line right."""
    words: list[str] = []
    left = most
    for ending in chain(_words(text, kind, parts), (Ending("", "more"),), endings(as_meant(text), known)):
        left -= len(kind.tails)
        if (words and not ending.word) or left < 0:
            break
        if ending.word in words or not any(fits(f"{text}{ending.text}{tail}") for tail in kind.tails):
            continue
        if not ending.word:
            return f"{ending.called} is to follow"
        words.append(ending.word)
    return f"the start of {either(words)}" if words else ""


def _words(text: str, kind: _LineForm, parts: Collection[str]) -> Iterator[Ending]:
    begun = _LAST_WORD.search(text)
    typed = begun[0].lower() if begun else ""
    yield from (
        Ending(word[len(typed) :], word=word)
        for word in kind.words
        if typed and word.startswith(typed) and word != typed
    )


def _differs(fault_now: InputError | None, error: InputError) -> bool:
    """Whether a fault is gone, or another: one of the same words about other figures is the same."""
    if fault_now is None:
        return True
    return fault_now.start != error.start or _FIGURES.sub("", fault_now.message) != _FIGURES.sub(
        "", error.message
    )


def _is_right(text: str, known: Mapping[str, Any], parts: Collection[str]) -> bool:
    """Whether a line can be read and speaks of nothing that there is not."""
    line: Line = read_lines(text)[0]
    if line.kind not in ("part", "feature", "stock") or line.fault is not None:
        return False
    cut_in = line.cut_in.casefold()
    return all(name in known for name in line.uses) and (not cut_in or cut_in in parts)
