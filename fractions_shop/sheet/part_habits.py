"""Part lines as makers write them, `part pegs: 8 off 1/4 in dia x 1 in lg brass rod`, in the order of the language."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import NamedTuple

from fractions_shop.language.advice.gate import WHOLES
from fractions_shop.language.advice.offers import Offer
from fractions_shop.sheet.side_words import NUMBER, SERIES_OR_GAUGE, UNIT
from fractions_shop.sheet.sides_in_words import Sides, sides_in, split_sides
from fractions_shop.sheet.whole_lines import Meant

SAID = "how many and of what come first, then a comma and the sizes, joined by the word by"
NO_COUNT = "a part line says how many behind its colon"

_COUNT_WORDS = (
    r"(?:off|req'?d\b\.?|required|pcs\b\.?|pieces?|nr\b\.?|no\b\.?(?=\s*(?:of\b|,|off\b))|x(?=\s)|×)"
)
_WHOLE = "|".join(word for word in WHOLES)
#: How many, at the head of what a line says or between commas.
_COUNT = re.compile(
    rf"(?:(?:qty|quantity|number(?:\s+off)?|no\.?\s+off|make)\b\.?\s*:?\s*)?(?P<n>[0-9]{{1,5}}|(?:{_WHOLE})(?![A-Za-z])|(?:a\s+)?pair(?![A-Za-z]))"
    rf"(?P<word>\s*{_COUNT_WORDS})?(?:\s+of\b)?",
    re.IGNORECASE,
)
_SIZE_FOLLOWS = re.compile(
    rf"\s*(?:[0-9./]|{UNIT}\b|[\"'″′]|[x×]\s*[0-9]|(?:{SERIES_OR_GAUGE})\b)", re.IGNORECASE
)
_OFF = re.compile(r"[0-9]+\s*(?:off|req'?d\b|required|pcs\b|pieces)", re.IGNORECASE)
#: Where the sizes begin: a figure, the sign of a diameter, or the word of a shape before one.
_SIZES_BEGIN = re.compile(
    rf"(?:(?:round|hex|square|tube|dia\.?|diam\.?|rod|bar)\s+)?(?:[Øø⌀]\s*)?(?<![A-Za-z0-9_.])(?:No\.?\s*)?{NUMBER}"
    r"|(?<![A-Za-z0-9_])M[0-9]",
    re.IGNORECASE,
)
_WITH_COLON = re.compile(r"\s*part\s+(?P<name>[^:;,]*?)\s*:\s*(?P<rest>.*)", re.IGNORECASE)
_NAME_BEHIND = re.compile(r"\s*part\s*:\s*(?P<name>[A-Za-z][^:;,]*?)\s*,\s*(?P<rest>.*)", re.IGNORECASE)
_NO_COLON = re.compile(
    rf"\s*part\s+(?P<name>[A-Za-z][\w -]*?)\s*(?:\s[-–—]\s|[,(]|\s)\s*(?P<rest>(?:qty\s*)?(?:[0-9]+\b|(?:{_WHOLE})\b).*)",
    re.IGNORECASE,
)
_ALONE = re.compile(
    r"\s*(?P<name>[A-Za-z][A-Za-z -]*?)\s*:\s*(?P<rest>[0-9]{1,5}\s*(?:off|of|req'?d|pcs|x)\s.*)",
    re.IGNORECASE,
)
_COUNTED = re.compile(
    r"\s*(?P<n>[0-9]{1,5})\s+(?:off\s+|pcs\.?\s+|req'?d\.?\s+)?(?P<name>[A-Za-z][A-Za-z -]*?)(?:\s+of\s+|\s*,\s*)(?P<rest>[A-Za-z][A-Za-z -]*,\s*\S.*)",
    re.IGNORECASE,
)
#: What a word in brackets behind the count tells.
_BRACKETED = re.compile(r"\((?P<words>[^()]*)\)")
#: So many of these are more pieces than that.
_SEVERAL_EACH = re.compile(r"\s*(?:pairs?|prs?|sets?|doz(?:en)?s?|gross)\b", re.IGNORECASE)
_SHAPE_SAID = re.compile(r"\b(?:round|rod|hex|hexagon|hexagonal|square|tube|tubing)\b", re.IGNORECASE)
_CROSSED = re.compile(r"[0-9]\s*[x×]\s*[0-9.]", re.IGNORECASE)
_PAIR = re.compile(r":\s*(?:a\s+)?pair\b", re.IGNORECASE)
_CLEAN = " ,.;:-–—"


class _PartSaid(NamedTuple):
    """What a line says: the count, the material and the sizes in words, and the note."""

    many: str
    material: str
    sizes: str
    note: str


def part_habits(line: str) -> Iterator[Meant]:
    """What a part line may mean that is not in the order of the language."""
    lines = tuple(dict.fromkeys(meant_parts(line)))
    in_units = len(lines) > 1
    said = "numbers alone say no unit" if in_units else "" if line.strip() in lines else SAID
    pair = _PAIR.search(line) is not None
    # Between the sizes of a part an x is never a product, nor how many there are.
    yield Meant(
        tuple(Offer(whole, worked=pair) for whole in lines), said, sure=_CROSSED.search(line) is not None
    )
    counted = with_a_count(line)
    if counted:
        yield Meant((Offer(counted, " for one of it", completes=True),), NO_COUNT)


def meant_parts(line: str) -> Iterator[str]:
    """The part lines that a line may mean; none where it cannot be told.

    >>> list(meant_parts("part pegs: 8 off 1/4 in dia x 1 in lg brass rod"))
    ['part pegs: 8 of brass, round 1/4 in by 1 in']
    """
    for pattern in (_WITH_COLON, _NAME_BEHIND, _NO_COLON):
        match = pattern.fullmatch(line.rstrip())
        if match is not None and match["name"].strip():
            yield from _lines(" ".join(match["name"].split()), match["rest"])


def parts_without_the_word(line: str) -> Iterator[str]:
    """The same of a line that does not begin with part: `runner: 24 off brass, 1/4 in x 11 in`, `2 off shelf, pine, ...`."""
    alone = _ALONE.fullmatch(line.rstrip())
    if alone is not None:
        yield from _lines(" ".join(alone["name"].split()), alone["rest"])
        return
    counted = _COUNTED.fullmatch(line.rstrip())
    if counted is not None:
        yield from _lines(" ".join(counted["name"].split()), f"{counted['n']} off {counted['rest']}")


def _lines(name: str, rest: str) -> Iterator[str]:
    said = _said(rest)
    if said is None:
        return
    count, material, sizes, note = said
    if not sizes:
        yield _line(name, count, material, "", note)
        return
    shape = _SHAPE_SAID.search(material)
    if shape is not None:  # `2 of brass rod, 1/4 in by 12 in`
        material = " ".join(f"{material[: shape.start()]} {material[shape.end() :]}".split())
        sizes = f"{shape[0]} {sizes}"
    for sides in sides_in(sizes):
        # Behind the last size the material may stand, where none was said before.
        of, words = (sides.behind, "") if not material and _is_material(sides) else (material, sides.behind)
        yield _line(name, count, of, sides.joined, "; ".join(filter(None, (words, note))))


def _line(name: str, count: str, material: str, sizes: str, note: str) -> str:
    of = f" of {material}" if material else ""
    sized = f", {sizes}" if sizes else ""
    noted = f"; {note}" if note else ""
    return f"part {name}: {count}{of}{sized}{noted}"


def _is_material(sides: Sides) -> bool:
    words = sides.behind.lower()
    return words in _MATERIALS or (
        words.partition(" ")[0] in _MATERIALS
        and re.fullmatch(r"[a-z]+ (?:bar|rod|strip|sheet|plate|stock)", words) is not None
    )


_MATERIAL_WORDS = """brass steel copper bronze aluminium aluminum iron tin zinc lead nickel silver bone ivory ebony oak ash
beech pine deal mahogany walnut cherry maple box boxwood lime sycamore ply plywood teak cedar birch elm"""
_MATERIALS = frozenset(
    (*_MATERIAL_WORDS.split(), "mild steel", "silver steel", "cast iron", "gunmetal", "nickel silver")
)


def _said(rest: str) -> _PartSaid | None:
    """How many, of what, the sizes and the note, in whatever order a line has them; None without a count."""
    body, _, note = rest.partition(";")
    note = note.strip()
    counted = _count(body)
    if counted is None or _SEVERAL_EACH.match(counted[1]):
        return None
    count, body = counted
    body = body.strip(_CLEAN)
    bracketed = _BRACKETED.match(body)
    if bracketed is not None:
        note = "; ".join(filter(None, (bracketed["words"].strip(), note)))
        body = body[bracketed.end() :].strip(_CLEAN)
    begin = _SIZES_BEGIN.search(body)
    if begin is None:
        material, _, behind = body.partition(",")
        # Sizes that are names stand behind a comma.
        sizes = behind.strip() if behind and split_sides(behind)[0] else ""
        if behind.strip() and not sizes and re.fullmatch(r"[A-Za-z][A-Za-z .'-]*", behind.strip()):
            return _PartSaid(
                count, material.strip(_CLEAN), "", "; ".join(filter(None, (behind.strip(), note)))
            )
        return _PartSaid(count, material.strip(_CLEAN), sizes, note) if sizes or not behind.strip() else None
    material, sizes = body[: begin.start()], body[begin.start() :]
    named = re.fullmatch(
        r"(?P<of>[^,]*),(?P<names>.*(?:\bby|[x×])\s+)", material.strip() + " ", re.IGNORECASE
    )
    if named is not None:  # the first of the sizes is a name: `brass, width by 1/4 in`
        material, sizes = named["of"], f"{named['names'].strip()} {sizes}"
    return _PartSaid(count, re.sub(r"^of\s+", "", material.strip(_CLEAN)).strip(_CLEAN), sizes, note)


def _count(body: str) -> tuple[str, str] | None:
    """How many, and what a line says without it."""
    text = body.strip()
    first = _COUNT.match(text.lstrip("("))
    if first is not None:
        rest = re.sub(r"^\s*\)", "", text.lstrip("(")[first.end() :])
        if first["word"] or not _SIZE_FOLLOWS.match(rest):
            return _figure(first["n"]), rest
    for match in re.finditer(r"(?:^|,)\s*([^,]*?)\s*(?=,|$)", text):
        piece = match[1]
        if _OFF.fullmatch(piece.strip(" .")):
            n = re.match("[0-9]+", piece.strip())
            return (n[0] if n else ""), f"{text[: match.start()]}{text[match.end() :]}"
    return None


def _figure(word: str) -> str:
    small = word.lower()
    return "2" if small.endswith("pair") else str(WHOLES.get(small, word))


def with_a_count(line: str) -> str:
    """The line with a count of one, where its sizes stand behind the colon at once; empty for any other."""
    match = _WITH_COLON.fullmatch(line.rstrip())
    if match is None or _SIZES_BEGIN.match(match["rest"]) is None or _count(match["rest"]) is not None:
        return ""
    sized = next(sides_in(match["rest"].partition(";")[0]), None)
    return f"part {match['name']}: 1, {sized.joined}" if sized is not None and not sized.behind else ""
