"""Lines that cut in parts as makers write them, `hole in lid: tap 6 BA at 1/2 in from left, 1/2 in from bottom`."""

from __future__ import annotations

import re
from collections.abc import Iterator

from fractions_shop.language.advice.offers import Offer
from fractions_shop.language.nodes import Name, ShownExpression, Worded
from fractions_shop.sheet.side_words import NUMBER, SAID_BY, SERIES_OR_GAUGE, THREAD, UNIT
from fractions_shop.sheet.whole_lines import Meant

_SIZE = rf"{NUMBER}\s*(?:{UNIT}\b|[\"'″′])"
_MAYBE_BARE = rf"{NUMBER}(?:\s*(?:{UNIT}\b|[\"'″′]))?"
_HEAD = re.compile(
    r"\s*(?P<word>hole|slot|notch|corner|wall)(?:e?s)?\s+in\s+(?P<part>[^:]+?)\s*:\s*(?P<rest>.*)",
    re.IGNORECASE,
)
#: `hole in plate 1/8 in at ...`, and `hole 1/8 in in plate at ...`.
_NO_COLON = re.compile(
    rf"\s*(?P<word>hole|slot|notch|corner|wall)(?:e?s)?\s+in\s+(?P<part>[A-Za-z][A-Za-z -]*?)\s+(?P<rest>(?:[Øø]\s*)?{NUMBER}.*)",
    re.IGNORECASE,
)
_SIZE_FIRST = re.compile(
    rf"\s*(?P<word>hole|slot|notch)(?:e?s)?\s+(?P<size>{_SIZE}.*?)\s+in\s+(?P<part>[A-Za-z][A-Za-z -]*?)\s+(?P<rest>at\s.*)",
    re.IGNORECASE,
)
#: `1/4 in hole in plate at ...`, and `hole in plate at ...: 1/4 in`.
_WORD_SECOND = re.compile(
    rf"\s*(?P<size>{_SIZE}.*?)\s+(?P<word>hole|slot|notch)(?:e?s)?\s+in\s+(?P<part>[A-Za-z][A-Za-z -]*?)\s+(?P<rest>at\s.*)",
    re.IGNORECASE,
)
_PLACES_FIRST = re.compile(
    r"\s*(?P<word>hole|slot|notch)(?:e?s)?\s+in\s+(?P<part>[A-Za-z][A-Za-z -]*?)\s+(?P<rest>at\s[^:]*):\s*(?P<size>\S.*)",
    re.IGNORECASE,
)
#: What is rewritten in what a line cuts, in this order; each stands alone where another form is meant beside it.
_REWRITES: tuple[tuple[str, str], ...] = (
    (r"\s*@\s*", " at "),
    (rf"(?:tap(?:ped|ping)?|threaded|screwed)\s+({THREAD})", r"tapping(\1)"),
    (rf"({THREAD})\s+(?:tapping|tapped|tap)(?:\s+(?:holes?|drill))?\b", r"tapping(\1)"),
    (rf"clear(?:ing|ance|s)?\s+({THREAD})", r"clearance(\1)"),
    (rf"({THREAD})\s+clear(?:ing|ance)?(?:\s+(?:holes?|drill))?\b", r"clearance(\1)"),
    (r"((?:No\.?\s*|#)([0-9]{1,2}))(?=\s+at\b)", r"No \2 drill"),
    (r"\s+(?:dia(?:m(?:eter)?)?\b\.?)", ""),
    (r"\bream(?:ed)?\s+", ""),
    (r",?\s+(?:thro(?:ugh)?|thru)(?:\b|(?=['’]))['’]?", ""),
    (rf",?\s+(?:csk|c'?sunk|c/s|countersunk|countersink)\.?\s+(?:to\s+)?({_SIZE})\s*(?:x|×|,|by|at)?\s*([0-9]+)\s*(?:deg\w*\.?|°)", r" sunk \1, \2 deg"),
    (rf",?\s+(?:csk|c'?sunk|c/s|countersunk|countersink)\.?\s+(?:to\s+)?({_SIZE})", r" sunk \1"),
    (rf"^({_SIZE}),?\s+(?:deep|depth)\s+({_SIZE}),?\s+(at\s.*)$", r"\1 \3 deep \2"),
    (rf",?\s+({_SIZE})\s+deep\s*$", r" deep \1"),
    (rf",?\s+(?:depth|to a depth of)\s+({_SIZE})", r" deep \1"),
    (rf"\bat\s+({_SIZE})\s+from\s+(?:the\s+)?left(?:\s+(?:end|edge|side))?\s*(?:,|and)\s*({_SIZE})\s+from\s+(?:the\s+)?(?:bottom|lower)(?:\s+edge)?", r"at \1 by \2"),
    (rf"\bat\s+({_SIZE})\s+from\s+(?:the\s+)?(?:bottom|lower)(?:\s+edge)?\s*(?:,|and)\s*({_SIZE})\s+from\s+(?:the\s+)?left(?:\s+(?:end|edge|side))?", r"at \2 by \1"),
    (rf"\bat\s+x\s*=?\s*({_SIZE})\s*,?\s*y\s*=?\s*({_SIZE})", r"at \1 by \2"),
    (rf"\(\s*({_SIZE})\s*,\s*({_SIZE})\s*\)", r"\1 by \2"),
    (rf"\bat\s+([0-9]+)\s+(?:holes\s+)?(?:equally spaced\s+)?on\s+(?:a\s+)?({_SIZE})\s+(?:PCD|P\.C\.D\.|pitch circle|bolt circle)\.?", r"at bolt_circle(\1, \2)"),
    (r",?\s+at\s+([0-9]+)\s*(?:deg\w*\.?|°)\s*$", r" turned \1 deg"),
    (r",?\s+horizontal(?:ly)?\s*$", ""),
)  # fmt: skip
_REWRITE = tuple((re.compile(pattern, re.IGNORECASE), into) for pattern, into in _REWRITES)
_UPRIGHT = re.compile(r",?\s+(?:vertical(?:ly)?|upright)\s*$", re.IGNORECASE)
_BARE = re.compile(
    rf"(?<![A-Za-z0-9_./]){NUMBER}(?!\s*(?:{UNIT}\b|[0-9/.\"'″′]|off\b|across\b|up\b|deg|°|drill|(?:{SERIES_OR_GAUGE})\b|[x×]|rows?\b))",
    re.IGNORECASE,
)
_RADIUS = re.compile(
    rf"\s*(?:R\.?|rad(?:ius)?\.?)?\s*({NUMBER})\s*({UNIT}|[\"'″′])?\s*(?:R\.?|rad(?:ius|ii)?\.?)?\s*",
    re.IGNORECASE,
)
_TWO_SIDES = re.compile(
    rf"\s*(?P<first>{_MAYBE_BARE})\s*(?P<said>[A-Za-z]*)\.?\s*(?:\bby\b|[x×]|,|(?<=[a-z])\s)\s*(?P<second>{_MAYBE_BARE})\s*(?P<also>[A-Za-z]*)\.?\s*(?P<rest>,?\s+\S.*)",
    re.IGNORECASE,
)
#: What each of two sides is said to be where they stand the other way about.
_TURNED = {"slot": ("wide", "long"), "notch": ("deep", "wide")}


def cut_habits(line: str) -> Iterator[Meant]:
    """What a line that cuts may mean that is not in the form of the language.

    >>> [offer.text for meant in cut_habits("hole in lid: tap 6 BA @ 1/2 in by 1/2 in") for offer in meant.offers]
    ['hole in lid: tapping(6 BA) at 1/2 in by 1/2 in']
    """
    for word, part, rest in _read_in_any_order(line):
        head = f"{word} in {part}: "
        if word == "corner":
            yield from _corner(head, rest)
            continue
        if word in _TURNED and (turned := _sides_turned(word, rest)):
            yield Meant((Offer(head + turned),))
        rest = turned_or(word, rest)
        upright = _UPRIGHT.search(rest) if word == "slot" else None
        body = _rewritten(rest[: upright.start()] if upright else rest)
        whole = head + body + (" turned 90 deg" if upright else "")
        if whole != line.strip() or upright:
            yield Meant((Offer(whole, worked=upright is not None),))
        if "/" in body and (inches := _in_inches(body)) != body:
            yield Meant((Offer(head + inches),), sure=True)


def turned_or(word: str, rest: str) -> str:
    """What a line says, its two sides as it is to be told by them."""
    return (_sides_turned(word, rest) if word in _TURNED else "") or rest


def _read_in_any_order(line: str) -> Iterator[tuple[str, str, str]]:
    sized = _PLACES_FIRST.fullmatch(line) or _SIZE_FIRST.fullmatch(line) or _WORD_SECOND.fullmatch(line)
    match = None if sized is not None else _HEAD.fullmatch(line) or _NO_COLON.fullmatch(line)
    if match is not None:
        yield match["word"].lower(), " ".join(match["part"].split()), match["rest"].strip()
        return
    match = sized
    if match is not None:
        yield (
            match["word"].lower(),
            " ".join(match["part"].split()),
            f"{match['size']} {match['rest']}".strip(),
        )


def _rewritten(rest: str) -> str:
    for pattern, into in _REWRITE:
        rest = pattern.sub(into, rest)
    return " ".join(rest.split())


def _in_inches(body: str) -> str:
    """Numbers alone as inches, where one of them is a fraction and no unit is metric."""
    bare = _BARE.findall(body)
    if not any("/" in number for number in bare) or re.search(r"\b(?:mm|cm|m)\b", body):
        return body
    return _BARE.sub(r"\g<0> in", body)


def _corner(head: str, rest: str) -> Iterator[Meant]:
    match = _RADIUS.fullmatch(rest)
    if match is not None:
        units = [match[2]] if match[2] else ["in"] if "/" in match[1] else ["in", "mm"]
        said = "" if match[2] else "a radius is a length with its unit"
        yield Meant(tuple(Offer(f"{head}{match[1]} {unit}") for unit in units), said)


def _sides_turned(word: str, rest: str) -> str:
    """The two sides of a slot or a notch the other way about, where their words say so: `1/8 in wide by 1 in long`."""
    match = _TWO_SIDES.fullmatch(rest)
    if match is None:
        return ""
    said, also = (SAID_BY.get(match[name].lower(), "") for name in ("said", "also"))
    first, second = _TURNED[word]
    if (said, also) not in ((first, second), (first, ""), ("", second)) or match["rest"].lstrip(
        " ,"
    ).lower().startswith(("by", "x")):
        return ""
    return f"{match['second']} by {match['first']}{match['rest']}"


#: Words beside a hole's diameter that ask for another hole than a plain one of that size.
_OTHER_HOLE = """tap tapped tapping thread threaded screwed clear clearance clearing csk csunk sunk countersunk countersink
counterbore counterbored cbore spotface spotfaced blind deep depth square slot slots oval oblong taper tapered pcd"""
_OTHER = frozenset(_OTHER_HOLE.split())


def changes_the_cut(word: str, sizes: tuple[ShownExpression, ...]) -> tuple[Name, str] | None:
    """The first word left out that asks for another cut, and what is said of it; None where none does."""
    for place, node in enumerate(sizes):
        left = node.expression.words if isinstance(node.expression, Worded) else ()
        for name in left:
            small = re.sub(r"[^a-z]", "", name.word.lower())
            if word == "hole" and small in _OTHER:
                return name, _said_of_hole(small)
            if word == "corner" and small in ("chamfer", "chamfered", "bevel", "bevelled", "mitre", "square"):
                return name, f"a corner is rounded, and {small} would be lost: say it in the note of the part"
            said = SAID_BY.get(small, "")
            if word in _TURNED and said in ("deep", "wide", "long") and said != _RIGHT[word][place]:
                return name, f"the {' and the '.join(_CALLED[word])} of a {word} stand in this order"
    return None


_RIGHT = {"slot": ("long", "wide"), "notch": ("wide", "deep")}
_CALLED = {"slot": ("length over all", "width"), "notch": ("width along the edge", "depth")}


def _said_of_hole(small: str) -> str:
    if small.startswith(("tap", "thread", "screw")) and not small.startswith("taper"):
        return "a hole to be tapped has the size of the tapping drill of its thread"
    if small.startswith("clear"):
        return "a hole that clears a thread has the size of its clearance"
    if "sunk" in small or small in ("csk", "countersink"):
        return "a countersink stands behind the places, with its diameter: sunk 1/4 in, 90 deg"
    if small in ("deep", "depth", "blind"):
        return "how deep a hole is stands behind its places: deep 1/4 in"
    if small == "pcd":
        return "holes on a circle are placed by bolt_circle"
    return f"a hole here is round and of one size, and {small} would be lost: say it in the note of the part"


_ROWS = "holes in a row are told by how many, how far from one to the next, and where the first stands"
ROWS_SO = "write it like this: hole in label frame: 3 mm at 4 across by 3/8 in first at 1/4 in, 1/4 in"
_ENDS = "places are counted from one corner of the part, the lower left, and each is said"
_ENDS_SO = "write it like this: hole in label frame: 3 mm at 1/4 in by 1/4 in, 1 3/4 in by 1/4 in"
_MIDDLE = "the middle of a part is half of each of its sizes"
_MIDDLE_SO = "write it like this: hole in label frame: 3 mm at 2 in / 2 by 7/8 in / 2"
_ROWS_SAID = re.compile(
    r"\b(?:ctrs|crs|centers|centres|c/c|c\s?to\s?c|apart|spacing|spaced|pitch)\.?\s*$", re.IGNORECASE
)
_ENDS_SAID = re.compile(
    r"\b(?:each|both|either|all|the|four)\s+(?:ends?|corners?|sides?|edges?)\b", re.IGNORECASE
)
_MIDDLE_SAID = re.compile(
    r"\b(?:in|at|on)\s+(?:the\s+)?(?:cent(?:re|er)|middle|mid(?:point)?)\b(?:\s+of\b.*)?\s*$|\bcent(?:re|er)\s?line\b|,\s*cent(?:re|er)\s+of\b.*$|\bhalf\s?way\b",
    re.IGNORECASE,
)
_LAST_WORD = re.compile(r"(?<=[A-Za-z\"'″′0-9])\s+(?P<word>[A-Za-z][A-Za-z/'.]*)\s*$")


def places_in_words(said: str, word: str) -> tuple[str, str] | None:
    """What is said of places that are told in words, and an example; None for any other. `word` is what is cut."""
    if word not in ("hole", "slot"):
        return None
    if _ROWS_SAID.search(said):
        return _ROWS, ROWS_SO
    if _ENDS_SAID.search(said):
        return _ENDS, _ENDS_SO
    if _MIDDLE_SAID.search(said):
        return _MIDDLE, _MIDDLE_SO
    last = _LAST_WORD.search(said)
    small = "" if last is None else re.sub(r"[^a-z]", "", last["word"].lower())
    if word == "hole" and small in _OTHER:
        return _said_of_hole(
            small
        ), "write it like this: hole in label frame: 3 mm at 1/4 in by 1/4 in sunk 5 mm, 90 deg"
    return None
