"""Words that name nothing here, and numbers with a word that is not a unit: what was probably meant."""

from __future__ import annotations

import re
from collections.abc import Iterable
from fractions import Fraction
from itertools import pairwise
from typing import Any

from fractions_shop.errors import ShopError
from fractions_shop.language.advice import near_words
from fractions_shop.language.advice.drawing_labels import BESIDE, COUNTED, VAGUE, vague_advice
from fractions_shop.language.advice.gate import LOOK_ALIKES, PARTS, WHOLES
from fractions_shop.language.advice.offers import Offer, OrExample, write
from fractions_shop.language.arithmetic import figures
from fractions_shop.language.grammar_tables import openers_or_names
from fractions_shop.language.nodes import Call, Literal, Named
from fractions_shop.size import units
from fractions_shop.size.notation import decimal, mixed
from fractions_shop.size.quantity import Quantity

_PROMPT_WORDS = (
    "help names undo redo save load open print show draw sheet more why drop rename clear "
    "readings quit exit bye close history settings"
)
#: The prompt's own words, and what people call them elsewhere.
#: Words that open a line which only a sheet has, with an example of each.
SHEET_LINES = {
    "part": "part runner: 24 of brass, 1/4 in by 11 in",
    "stock": "stock brass: round 1/4 in, 36 in long",
    "hole": "hole in lid: 3 mm at 1/2 in by 1/2 in",
    "slot": "slot in lid: 1 in by 1/8 in at 1 in by 1/2 in",
    "notch": "notch in lid: 1/2 in by 1/4 in at 1 in along lower edge",
    "corner": "corner in lid: 1/8 in",
    "wall": "wall in lid: 1/32 in",
}
PROMPT_WORDS = frozenset(_PROMPT_WORDS.split())
#: Letters that stand alone for a figure more often than for a name.
_LETTERS = {"l": "1", "I": "1", "O": "0", "o": "0"}


# A word alone


def old_unit(word: str, number: Fraction) -> tuple[str, str] | None:
    """What to say of `3 Zoll`: the old units that the word names in another language; None for other words."""
    from fractions_shop.language import old_units

    units_named = old_units.of_own_word(word)
    if not units_named:
        return None
    many = "an old unit" if len(units_named) == 1 else f"an old unit of {len(units_named)} sizes"
    offers = (Offer(f"{mixed(number)} {unit.name}", f" ({unit.size_text} each)") for unit in units_named)
    return f"{word} is {many}, which is written by its English name", write(*offers)


def unnamed(word: str, names: Iterable[str]) -> tuple[str, str]:
    """Message and advice on a word that names nothing yet."""
    names = list(names)
    if units.find(word) is not None:
        return f"{word} is a unit and needs a number before it", f"write it with a number, such as 1 {word}"
    near = near_words.advice(word, names)
    if near:
        return f"nothing is named {word} yet", near
    for look in (_middle, _prompt_word, _number_word, _marked, _thread, _function, _single, _described):
        said = look(word)
        if said is not None:
            return said
    first = f"give it a size first, such as {word} = 2 1/32 in"
    if word.lower() in SHEET_LINES:
        first += f"; as a line of a sheet, write {SHEET_LINES[word.lower()]}"
    return f"nothing is named {word} yet", OrExample(
        first
    ) if word.lower() in openers_or_names().values() else first


def opens_no_statement(word: str) -> tuple[str, str] | None:
    """Message and advice on a line whose first word is one of a prompt, or opens a line that only a sheet has."""
    if word.lower() in SHEET_LINES:
        return (
            f"{word} begins a line of a sheet, such as {SHEET_LINES[word.lower()]}",
            "put it in the sheet's file and run fractions-shop sheet FILE, or type it at the prompt",
        )
    return _prompt_word(word)


def _middle(word: str) -> tuple[str, str] | None:
    """`hole in lid: 1/8 in at centre`."""
    if word.lower() not in ("centre", "center", "middle", "mid"):
        return None
    return f"nothing is named {word} yet", "the middle of a size is half of it, such as 2 1/2 in / 2"


def _prompt_word(word: str) -> tuple[str, str] | None:
    if word.lower() in PROMPT_WORDS:
        return (
            f"{word} is not a statement: it belongs to the prompt",
            "open the prompt with fractions-shop alone, or see fractions-shop --help",
        )
    return None


def _number_word(word: str) -> tuple[str, str] | None:
    number = WHOLES.get(word.lower())
    if number:
        return f"{word} is written in figures", write(f"{number}")
    part = PARTS.get(word.lower())
    return (f"{word} is written in figures", write(f"1/{part}")) if part else None


def part_word(word: str, size: str) -> tuple[str, str] | None:
    """What to say of `half of 3/8 in`, whose size is written `size`; None for a word that is no number."""
    figure = WHOLES.get(word.lower()) or (f"1/{PARTS[word.lower()]}" if word.lower() in PARTS else None)
    return (f"{word} is written in figures", write(f"{figure} of {size}")) if figure else None


def _marked(word: str) -> tuple[str, str] | None:
    """`Ø6`."""
    match = re.fullmatch(r"[ØøΦφ]([0-9]+)", word)
    if not match:
        return None
    advice = write(
        f"{match[1]} mm",
        f"{match[1]} in",
        lead="leave it out: write ",
        joint=" or ",
        hint="leave the sign out, or put a blank behind it",
    )
    return f"{word[0]} is not part of a size", advice


def _thread(word: str) -> tuple[str, str] | None:
    """`m6`, `M6X1`, `ba2`, `g1`: a thread, written as none is read here."""
    from fractions_shop.language.advice.drawing_labels import GAUGES
    from fractions_shop.threads.lookup import exists
    from fractions_shop.threads.names import looks_like_thread
    from fractions_shop.threads.records import BORE_LETTERS, CAPITALS, MM_LETTERS

    letters = "|".join(MM_LETTERS)
    metric = re.fullmatch(rf"({letters})([0-9]+)x([0-9]+)(x[0-9]+)?", word, re.IGNORECASE)
    name = f"{metric[1].upper()}{metric[2]} x {metric[3]}" if metric else ""
    if metric and metric[4]:
        offer = Offer(name, worked=True)
        message = "the length of a screw is not part of its thread's name"
        return message, write(offer, lead="leave it out: write ")
    if metric:
        return f"{word} is not read as a thread", write(name)
    turned = re.fullmatch(r"([a-z&]+)([0-9]+)", word, re.IGNORECASE)
    name = f"{turned[2]} {turned[1].upper()}" if turned else ""
    if turned and (turned[1].upper() in GAUGES or (turned[1].upper() in CAPITALS and exists(name))):
        return f"{word} has its number behind it", write(name)
    message, apart = f"nothing is named {word} yet", f"{word[:1]} {word[1:]}".upper()
    if looks_like_thread(word.upper()):
        return message, write(Offer(word.upper(), " for the thread"))
    if word[:1].upper() in BORE_LETTERS and looks_like_thread(apart):
        tail = f", or give it a size first, such as {word} = 2 1/32 in"
        return message, write(Offer(apart, " for the thread"), tail=tail)
    return None


def _function(word: str) -> tuple[str, str] | None:
    from fractions_shop.language.functions import FUNCTIONS, more_functions

    function = FUNCTIONS.get(word) or more_functions().get(word)
    return (
        None
        if function is None
        else (f"nothing is named {word} yet", f"write it like this: {function.example}")
    )


def _single(word: str) -> tuple[str, str] | None:
    if word in _LETTERS:
        figure = _LETTERS[word]
        return (
            f"nothing is named {word} yet, and it looks like the figure {figure}",
            write(
                Offer(figure, " for the figure"),
                tail=f", or give it a size first, such as {word} = 2 1/32 in",
            ),
        )
    if len(word) == 1 and "A" <= word <= "Z":
        message = f"nothing is named {word} yet"
        tail = f", or give it a size first, such as {word} = 2 1/32 in"
        return message, write(Offer(f"letter {word} drill", " for the drill"), tail=tail)
    return None


def _described(word: str) -> tuple[str, str] | None:
    if word.lower() not in BESIDE | VAGUE.keys():
        return None
    return f"{word} is not a size, and nothing is named {word} yet", "write a size alone, such as 3/8 in"


# A function of the wrong things


def misused(node: Call, values: tuple[Any, ...]) -> tuple[str, int, int, str] | None:
    """Message, place and advice on a comma for a point in a function's brackets, or a share for per cent."""
    for first, second in pairwise(node.arguments):
        if (
            not (isinstance(first, Literal) and isinstance(second, Literal))
            or first.unit
            or second.start > first.end + 1
        ):
            continue
        message = "a comma between figures may mark decimals, or part two sizes"
        return (
            message,
            first.end,
            first.end + 1,
            "write a point for decimals, and put a blank behind the comma of a list",
        )
    share = values[-1]
    if (
        node.function != "tapping"
        or not isinstance(share, Quantity)
        or not 0 < share.value < 1
        or share.power
    ):
        return None
    name, part = node.arguments
    text = name.text if isinstance(name, Named) else getattr(name, "word", "")
    percent = figures(share.value * 100)
    message = "the engagement is a percentage of thread from 1 to 100"
    return message, part.start, part.end, write(Offer(f"tapping({text}, {percent})", worked=True))


# A number and a word


def odd_unit(word: str, number: Fraction) -> tuple[str, str] | None:
    """Message and advice on a number with a word that is surely no unit; None for any other."""
    if re.fullmatch("[eE][0-9]*", word):
        message = f"{decimal(number)[0]}{word} looks like a power of ten, which no drawing uses"
        return message, "write the figure out"
    small = word.lower()
    return (
        _beside(small, number)
        or _run_together(small, number)
        or _parts(small, number)
        or _gauge_letter(small, number)
    )


def _beside(word: str, number: Fraction) -> tuple[str, str] | None:
    size = figures(number)
    if word in VAGUE:
        return f"{word} is not a figure", vague_advice(size, word)
    if word in COUNTED:
        return f"{word} is not a unit", write(size, lead="leave it out: write ")
    if word in BESIDE:
        advice = write(
            f"{size} in",
            f"{size} mm",
            lead="leave it out: write ",
            joint=" or ",
            hint="leave the sign out, or put a blank behind it",
        )
        return f"{word} is not a unit", advice
    return None


def _run_together(word: str, number: Fraction) -> tuple[str, str] | None:
    """`2ft3in`."""
    match = re.fullmatch(r"(?:ft|feet|foot)([0-9]+)(?:in|ins|inch|inches)?", word)
    if not match:
        return None
    message = "feet and inches need a blank between them"
    return message, write(f"{figures(number)} ft {match[1]} in")


def _parts(word: str, number: Fraction) -> tuple[str, str] | None:
    """`3 sixteenths`, which are parts of an inch when they are written as such."""
    bottom = PARTS.get(word.removesuffix("s"))
    if word == "tenths" or not bottom:
        return None
    return f"{word} is written in figures", write(Offer(f"{mixed(number / bottom)} in", worked=True))


def _gauge_letter(word: str, number: Fraction) -> tuple[str, str] | None:
    """`16 g`, as a sheet of metal is ordered: a gauge that lacks its series."""
    if word != "g" or number.denominator != 1:
        return None
    from fractions_shop.tables.gauges import find_gauge

    try:
        find_gauge(f"{number} gauge")
    except ShopError as fault:
        return str(fault), ""
    return None


def no_unit(word: str, number: Fraction, line: str) -> tuple[str, str]:
    """Message and advice on a word that is not a unit anywhere, in the whole `line`."""
    message = f"{word} is not a unit known here"
    from fractions_shop.threads.lookup import exists

    if exists(line):  # 1-14 special: the trade's words belong to a thread's name behind `thread` alone
        return message, write(f"thread {line.strip()}")
    from fractions_shop.threads.records import MM_LETTERS

    if word in MM_LETTERS:
        thread = Offer(f"{word}{figures(number)}", " for the thread")
        lead = "m for metres, mm for millimetres, or " if units.find(word.lower()) else ""
        return message, write(thread, lead=f"write {lead}")
    letter = word.translate(LOOK_ALIKES)
    if letter.isdigit():
        return message, write(
            Offer(letter, f" for {word}"), lead="a letter was written where a figure was meant: write "
        )
    return message, near_words.unit_advice(word) or "write in, ft, thou, mm, cm, m or um"
