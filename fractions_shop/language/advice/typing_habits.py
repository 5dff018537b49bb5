"""Faults that deserve their own advice: a decimal comma, 2e3, x for *, and their like."""

from __future__ import annotations

import re
from collections.abc import Callable

from fractions_shop.language.advice import drawing_labels, phrases, reading_words
from fractions_shop.language.advice.fault_place import Said, Spot
from fractions_shop.language.advice.gate import LOOK_ALIKES, number_meanings
from fractions_shop.language.advice.offers import Offer, write
from fractions_shop.language.grammar_tables import openers_or_names, tables
from fractions_shop.size import units

_COMMA_NUMBER = re.compile(r"(?<![0-9.])[0-9][0-9.]*(?:,[0-9.]*[0-9])+")
# These two search a line of any digits: each run of figures is taken whole (++) and begun
# only at its front, or a thousand figures would be tried from every place to every other.
_TIMES = re.compile(r"""(?<![0-9./])((?:[0-9]++[ -])?[0-9./]++) *[xX×] *([0-9][0-9./ ]*(?:[a-z]+|"|')?)""")
_TEN_POWER = re.compile(r"(?<![0-9])(?:[0-9]++(?:\.[0-9]*+)?|\.[0-9]++)[eE][-+]?[0-9]+")
#: `2 x 3 in` may be two sizes, or a count and a size: which of them is for the maker to say.
BY = "write each size alone, or put * for a product"
_APOSTROPHES = re.compile(r"(?<![0-9.,'])[1-9][0-9]{0,2}(?:'[0-9]{3})+(?![0-9.,'])(?! *(?:\"|in\b))")
_SPACED_BAR = re.compile(r"([0-9]+) */ *([0-9]+)")
_LETTERED = re.compile(
    r"(?<![A-Za-z_])(?:[0-9.]+(?:/[OolISZ]|[OIlS]/?)[0-9OIlS]*|[OolI]\.[0-9]+"
    rf"|[lI](?= +(?:{units.alternatives(letters=True)})\b(?! +(?:in|to|into|as)\b)))(?![A-Za-z_])"
)
_SIGNS = {
    "²": ("² is not read as a power", "write it like this: (2 in)^2"),
    "³": ("³ is not read as a power", "write it like this: (2 in)^3"),
    ".": ("there is a point here without a figure", "write decimals such as 0.5 in"),
}


def special(spot: Spot) -> Said | None:
    """What to say of a fault that has its own advice, or None."""
    return next((said for look in _LOOKS if (said := look(spot)) is not None), None)


def comma_advice(figures: str) -> tuple[str, str]:
    """Message and advice on `51,5`, `1,000` and `1.234,5`."""
    meanings = number_meanings(figures)
    if "." in figures or figures.count(",") > 1:
        message = f"{figures} has a comma, which is not read here"
        return message, write(*meanings) if meanings else "write one point at most, and no comma in figures"
    message = f"{figures} has a comma, which may mark decimals, thousands or two figures"
    offers = [Offer(m, " for decimals" if "." in m else " for thousands") for m in meanings]
    if len(offers) > 1:
        return message, write(*offers)
    return message, write(*offers, tail=", and put a blank behind the comma of a list")


def _comma(spot: Spot) -> Said | None:
    """A comma that touches figures on both sides, in a line that cannot be read."""
    for match in _COMMA_NUMBER.finditer(spot.meant):
        called = re.search(r"[A-Za-z]\([^()]*$", spot.meant[: match.start()])
        if match.start() <= spot.start <= match.end() or not called:
            return *comma_advice(match[0]), match.start(), match.end()
    return None


def _apostrophe(spot: Spot) -> Said | None:
    """`1'234 mm`: an apostrophe that parts thousands, as it is written in Switzerland."""
    for match in _APOSTROPHES.finditer(spot.meant):
        if match.start() <= spot.end and spot.start <= match.end():
            message = f"{match[0]} has an apostrophe, which is read as feet"
            return message, write(*number_meanings(match[0])), match.start(), match.end()
    return None


def _parted_unit(spot: Spot) -> Said | None:
    """`5 m m`: a unit with a blank in it."""
    for match in re.finditer(r"(?<![A-Za-z])([A-Za-z]{1,2}) +([A-Za-z]{1,2})(?![A-Za-z])", spot.meant):
        whole = f"{match[1]}{match[2]}"
        if match.start() <= spot.start <= match.end() and units.find(whole) is not None:
            return f"{whole} is one word", write(whole), match.start(), match.end()
    return None


def _percent(spot: Spot) -> Said | None:
    """`tapping(M6, 65 %)`, where the figure alone is the percentage; elsewhere a share."""
    if spot.piece != "%":
        return None
    share = re.search(r"([0-9]+(?:\.[0-9]+)?) *$", spot.meant[: spot.start])
    if not share:
        return "% is not used here", "write 0.75 for 75 in the hundred", spot.start, spot.end
    if re.search(r"tapping *\([^()]*$", spot.meant[: spot.start], re.IGNORECASE):
        text = spot.meant[: share.end(1)] + spot.meant[spot.end :]
        return "how much thread is given without %", write(text.strip()), spot.start, spot.end
    text = f"{share[1]}/100" if "." not in share[1] else f"({share[1]} / 100)"
    offer = Offer(text, f" for {share[1]} in the hundred", worked=True)
    return "% is not used here", write(offer), share.start(), spot.end


def _last_point(spot: Spot) -> Said | None:
    """`5 mm.`: the stop of a sentence."""
    line = spot.code.rstrip(" .,;:!?")
    if not line or spot.start < len(line) or not spot.reads(line):
        return None
    return "no sign follows a statement", write(line.strip()), spot.start, len(spot.code)


def _equals(spot: Spot) -> Said | None:
    if spot.kind != "EQUALS":
        return None
    name = re.fullmatch(r" *([A-Z]+[0-9]*) *", spot.meant[: spot.start])
    if name and spot.before == "size" and _is_thread(name[1]):
        letters = name[1].rstrip("0123456789")
        figures = name[1][len(letters) :]
        advice = write(letters.lower() + (f"_{figures}" if figures else ""), tail=" or another word")
        return f"{name[1]} is read as a thread, so it cannot be a name", advice, name.start(1), name.end(1)
    return (
        "'=' can only follow a single name",
        "write it like this: width = 2 1/32 in, or check 2 in = 50.8 mm",
        spot.start,
        spot.end,
    )


def _is_thread(word: str) -> bool:
    from fractions_shop.threads.names import looks_like_thread

    return re.fullmatch("[MGR][0-9]+", word) is not None or looks_like_thread(word)


_NAMED_BY_WORDS = re.compile(r" *([A-Za-z_]\w*(?: +(?!reads\b)[A-Za-z_]\w*)+) *(=(?!=)|reads\b)")


def one_word_name(line: str) -> tuple[str, str, int, int] | None:
    """`tray height = 7/16 in` with its name in one word: the name and sign, the line, and where the name stands."""
    match = _NAMED_BY_WORDS.match(line)
    if match is None:
        return None
    words = match[1].split()
    opens = words[0].lower() in {*openers_or_names().values(), *tables().words}
    if opens or (match[2] != "=" and any(word.lower() in tables().words for word in words)):
        return None
    named = f"{'_'.join(words)} {match[2]}"
    return named, f"{named}{line[match.end() :]}", match.start(1), match.end(1)


def _two_words(spot: Spot) -> Said | None:
    """`tray height = 7/16 in`, `tray height reads 11 mm`: a name of two words."""
    said = one_word_name(spot.meant)
    if said is None or spot.kind not in ("NAME", "EQUALS") or spot.start > said[3] + 2:
        return None
    named, _, start, end = said
    whole = (one_word_name(spot.code) or said)[1]
    return "a name is one word", write(whole) if spot.reads(whole) else f"write {named} ...", start, end


def _bracket(spot: Spot) -> Said | None:
    if spot.kind != "RPAR":
        return None
    if spot.before == "LPAR":
        return (
            "there is nothing between the brackets",
            "write it like this: (2 in + 3 in)",
            spot.start - 1,
            spot.end,
        )
    return (
        "')' closes a bracket that was never opened",
        "take it away, or open one with '('",
        spot.start,
        spot.end,
    )


def _times(spot: Spot) -> Said | None:
    match = _TIMES.search(spot.meant)
    if spot.kind not in ("NAME", "NUMBER") or not match:
        return None
    if match.start() >= spot.end or spot.start >= match.end():
        return None
    return "x does not multiply", BY, match.start(), match.end()


def _ten_power(spot: Spot) -> Said | None:
    match = _TEN_POWER.search(spot.meant[: spot.end])
    if spot.kind not in ("NAME", "NUMBER", "$END") or not match or match.end() < spot.start - 1:
        return None
    return (
        f"{match[0]} is a power of ten, which no drawing uses",
        "write the figure out",
        match.start(),
        match.end(),
    )


def _letter(spot: Spot) -> Said | None:
    """`2 1/O in`: a letter typed or scanned for a figure, beside the place of the fault."""
    for match in _LETTERED.finditer(spot.meant):
        if match.start() <= spot.end and spot.start <= match.end() + 1:
            message = f"{match[0]} has a letter where a figure was meant"
            advice = write(match[0].translate(LOOK_ALIKES), hint="write figures alone")
            return message, advice, match.start(), match.end()
    return None


def _sign(spot: Spot) -> Said | None:
    if spot.kind or spot.piece not in _SIGNS:
        return None
    message, advice = _SIGNS[spot.piece]
    return message, advice, spot.start, spot.end


def _spaced_bar(spot: Spot) -> Said | None:
    bar = _SPACED_BAR.match(spot.meant, spot.start)
    whole = re.search(r"([0-9]+) *$", spot.meant[: spot.start])
    if spot.kind != "NUMBER" or "/" in spot.piece or not bar or not whole:
        return None
    return (
        "blanks around the bar make a division of it, and two numbers stand side by side",
        write(Offer(f"{whole[1]} {bar[1]}/{bar[2]}", " without blanks around the bar")),
        whole.start(1), bar.end(),
    )  # fmt: skip


_LOOKS: tuple[Callable[[Spot], Said | None], ...] = (
    _comma, _apostrophe, _parted_unit, _percent, _last_point, _letter, drawing_labels.screw_length, drawing_labels.number_alone,
    reading_words.vague, reading_words.between, drawing_labels.vague,
    drawing_labels.beside, drawing_labels.feet_run_together, drawing_labels.turned_about, phrases.phrase, drawing_labels.part_of_thread,
    drawing_labels.two_units, drawing_labels.called, _two_words, _equals, _bracket, _times, _ten_power, _sign, _spaced_bar,
)  # fmt: skip
