"""What a part or stock line that can be read would lose, and the words behind its sizes that are a note.

The patterns are plain text: few lines ask for them, and `re` compiles each when it is first asked for.
"""

from __future__ import annotations

import re

from fractions_shop.language.nodes import Name, ShownExpression, Worded
from fractions_shop.sheet.side_words import NUMBER, SAID_BY, SERIES_OR_GAUGE, SHAPES, UNIT, known_word

#: Sizes in what should be a material: two that are joined, or one behind its words.
_SIZED = rf"{NUMBER}\s*(?:{UNIT}\b|[\"'″′]|(?:{SERIES_OR_GAUGE})\b)"
_SIZES_JOINED = (
    rf"{_SIZED}(?:\s+[a-z]+\.?){{0,2}}\s*(?:\bby\b|[x×])\s*[0-9.]|[0-9]\s*(?:\bby\b|[x×])\s*{_SIZED}"
    r"|[0-9](?:\s+[a-z]+\.?){1,2}\s+(?:by|[x×])\s+[0-9.]|[0-9]/[0-9]+\s*(?:\bby\b|[x×])\s*[0-9.]|[0-9]\s*[x×]\s*[0-9./ ]+[x×]\s*[0-9.]"
)
#: A size that a word tells to be one, and abbreviations that the reader of sizes takes apart.
_SIZE_SAID = rf"{NUMBER}\s*(?:{UNIT}\.?|[\"'″′])?\s*\b(?:{'|'.join(SAID_BY)})\b"
_LETTERS_SAID = r"(?<![A-Za-z])(?:o\.\s?d|i\.\s?d|o/d|i/d|a/f)\b"
_SIZE_LAST = rf"(?:^|[A-Za-z0-9])\s*(?<![A-Za-z0-9_./]){NUMBER}\s*(?:{UNIT}|[\"'″′])(?:\s+(?:{'|'.join(SAID_BY)})\.?)?$"
#: What each shape of section is told by beside its own word.
_SHAPE_SAYS = {
    "round": {"round"}, "hex": {"hex"}, "square": {"square"}, "tube": {"tube", "outside", "bore", "round"}, "": set[str](),
}  # fmt: skip
_COUNT_FIRST = r"\s*[0-9]+\s*(?:off|pcs|pieces|req'?d|required|bars?|lengths?)\b"
#: What is said of a size that is measured within a thing.
_NOT_CUT = ("inside", "internal", "internally", "clear", "opening")
_COUNT_WORDS = frozenset(("pc", "pcs", "piece", "pieces", "nr", "reqd", "req'd", "required"))
_COUNTS = ("off", "pcs", "piece", "req", "bar", "length")
_MATERIAL_FIRST = r"\s*[A-Za-z][A-Za-z ]*,"


def begins_with_a_count(said: str) -> bool:
    """Whether what should be sizes begins with how many there are: `2 off 1/16 in by 1/4 in`."""
    low = said.lower()
    return any(word in low for word in _COUNTS) and re.match(_COUNT_FIRST, said, re.IGNORECASE) is not None


def count_word(meant: str, start: int, end: int) -> tuple[int, int] | None:
    """Where a word stands that is said beside a number for so many pieces (`24 pcs`); None where there is none."""
    words = meant[start:end].split()
    if len(words) < 2 or words[-1].lower().strip(".") not in _COUNT_WORDS or not words[-2].isdigit():
        return None
    place = meant.rindex(words[-1], start, end)
    return place, place + len(words[-1])


def holds_sizes(note: str) -> bool:
    """Whether sizes that are joined stand in the words of a note."""
    return _has_a_figure(note) and re.search(_SIZES_JOINED, note, re.IGNORECASE) is not None


def _has_a_figure(text: str) -> bool:
    return any(sign.isdigit() for sign in text)


def lost(material: str, said: str, section: str, sizes: tuple[ShownExpression, ...]) -> str:
    """What a part line that can be read would lose, in words; empty where nothing is lost.

    Sizes that stand in its material, a word that tells a shape, or a material among the sizes, which are what it has `said`.
    """
    if _has_a_figure(material):
        joined, last = (re.search(sign, material, re.IGNORECASE) for sign in (_SIZES_JOINED, _SIZE_LAST))
        if last or (not sizes and (joined or re.search(_SIZE_SAID, material, re.IGNORECASE))):
            return "sizes stand behind a comma, joined by the word by, and not in the material"
    shaped = [word for word in material.split() if known_word(word) in ("round", "hex", "square", "tube")]
    if shaped and sizes and not section:
        return f"{shaped[0]} tells the shape of a section, which stands before its size"
    if not material and sizes and _left_out(sizes[0]) and re.match(_MATERIAL_FIRST, said, re.IGNORECASE):
        return "the material of a part stands behind its count and the word of"
    for word in (word for node in sizes for word in _left_out(node)):
        if word.word.lower() in _NOT_CUT:
            return f"a size that is {word.word} is not what the piece is cut to: work it out, and say the size of the piece"
        shape = known_word(word.word)
        if shape in SHAPES and shape not in _SHAPE_SAYS[section]:
            return f"{word.word} tells the shape of a section, which stands before its size"
    low = said.lower()
    lettered = any(sign in low for sign in ("o.", "i.", "o/", "i/", "a/")) and re.search(_LETTERS_SAID, low)
    if not section and (lettered or any(sign in said for sign in "Øø⌀")):
        return "the shape of a section stands before its size"
    return ""


def words_begin(node: ShownExpression) -> int | None:
    """Where words begin that stand behind a size and say nothing of it (`3/4 in finished`): they are a note; None for others."""
    words, part = _left_out(node), node.expression
    if not words or not isinstance(part, Worded) or words[0].start < part.size.end:
        return None
    if any(note.kind != "echo" for note in part.notes):
        return None  # what a word casts doubt on is told with it
    return None if any(known_word(word.word) is not None for word in words) else words[0].start


def _left_out(node: ShownExpression) -> tuple[Name, ...]:
    return node.expression.words if isinstance(node.expression, Worded) else ()


#: Words behind the last size, and what parts them from it; a single word behind a dash may be a name taken off.
_NOTE_BEHIND = (
    r"(?:(?:,|\.)\s+|\s+[-–—]\s+(?=[A-Za-z]+\s+[A-Za-z]))(?P<words>[A-Za-z][^0-9;:=*/+^[\]()]*)$"
    r"|\s*\((?P<inside>[^0-9=*/+^()[\]]*[A-Za-z][^0-9=*/+^()[\]]*)\)[\s.]*$"
)
_JOINED = r"\b(?:by|x)\b|×"


def note_behind(text: str) -> tuple[int, str]:
    """Where the sizes of a text end, and the words behind them that are no size but a note; its whole length for none.

    >>> note_behind('1/4 in by 11 in, ease the back edge'), note_behind('1/4 in by 11 in - lip')
    ((15, 'ease the back edge'), (21, ''))
    """
    parted = any(sign in text for sign in (",", "(", ". ", " - ", " – ", " — "))
    match = re.search(_NOTE_BEHIND, text, re.IGNORECASE) if parted else None
    words = "" if match is None else (match["words"] or match["inside"]).strip(" .,")
    if (
        match is None
        or not words
        or re.search(_JOINED, words, re.IGNORECASE)
        or any(known_word(word) for word in re.findall(r"[A-Za-z./]+", words))
    ):
        return len(text), ""
    return match.start(), words
