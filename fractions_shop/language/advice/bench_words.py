"""What is asked at the bench in words of its own: one table of plain forms, each with the statement that it means.

Each is told as a fault that offers the statement: nothing is taken for something else in silence. An offer is kept
only if it can be read and holds the figures that were typed. So are requests whose word has a slip in it.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Collection, Iterator
from functools import cache
from itertools import product

from fractions_shop.errors import InputError
from fractions_shop.language.advice.bench_forms import (
    A_SIZE,
    FORMS,
    NAMED,
    PIECE,
    SIDES,
    SMALLER_WORDS,
    BenchForm,
)
from fractions_shop.language.advice.fault_place import LONGEST, code_of, compiled
from fractions_shop.language.advice.gate import fits
from fractions_shop.language.advice.near_words import slips
from fractions_shop.language.advice.offers import Advice, Offer, write
from fractions_shop.language.advice.refused_lines import of_the_prompt, refused_by_name
from fractions_shop.language.grammar_tables import tables
from fractions_shop.threads.names import looks_like_thread

Reads = Callable[[str], bool]


def statements(line: str, forms: tuple[BenchForm, ...], reads: Reads) -> Iterator[tuple[str, Offer]]:
    """What is said of a line in a plain form, and each statement that it may mean, of the first form that fits."""
    code = " ".join(code_of(line).split()).rstrip("?!").strip()
    if len(code) > LONGEST:
        return  # nobody asks at such length, and some forms take long to be told from it
    named = NAMED.match(code)
    fronts = ("",) if named is None else ("", named[0])  # a form may stand behind `width = `
    for form, front in product(forms, fronts):
        match = compiled(form.pattern).fullmatch(code[len(front) :])
        if match is None:
            continue
        groups = _groups(match)
        if form.of_thread and not looks_like_thread(groups["thread"]):
            continue
        offers = []
        for template, why in form.statements:
            text = front + " ".join(template.format(**groups).split())
            worked = form.joined or form.example or _is_worked(template)
            offer = Offer(text, why.format(**groups), worked=worked, completes=form.example)
            if reads(text) and fits(offer, InputError("", line, 0, len(line)), reads):
                offers.append(offer)
        if offers:
            yield from ((form.said, offer) for offer in offers)
            return


def _is_worked(template: str) -> bool:
    """Whether a statement has a figure that was not typed: one of its own, or one made from one."""
    made = ("{between}", "{with_ends}", "{inside}", "{division}", "{many}")
    return any(sign.isdigit() for sign in template) or any(name in template for name in made)


def piece(line: str) -> str:
    """The part line that two sides may be; empty for any other line.

    >>> piece("2 x 3 in")
    'part piece: 1, 2 in by 3 in'
    """
    code = code_of(line).strip()
    match = compiled(SIDES[0].pattern).fullmatch(code)
    return "" if match is None else PIECE.format(**_groups(match))


def _groups(match: re.Match[str]) -> dict[str, str]:
    groups = {name: (text or "").strip(" ?,") for name, text in match.groupdict().items()}
    if "shared" in groups:
        groups["unit"] = groups["unit"] or groups["shared"]
    if groups.get("count", "").isdigit():  # holes stand between spaces, with one at each end or none
        groups |= {"between": str(int(groups["count"]) - 1), "with_ends": str(int(groups["count"]) + 1)}
    if groups.get("n", "").isdigit():
        groups["inside"] = str(int(groups["n"]) - 1)
    if groups.get("of") or groups.get("parts"):
        parts = int(re.sub("[a-z]", "", (groups["of"] or groups["parts"]).lower()))
        groups["division"] = f"{parts}{'nd' if parts == 32 else 'th'}"
    if "smaller" in groups:
        groups["smaller"] = re.sub(
            rf",\s*(?=(?:{SMALLER_WORDS})\b)", " ", groups["smaller"], flags=re.IGNORECASE
        )
    if "list" in groups:
        sizes = re.findall(A_SIZE, groups["list"], re.IGNORECASE)
        groups |= {"commas": ", ".join(sizes), "added": " + ".join(sizes), "many": str(len(sizes))}
    return groups


def fault(text: str, meant: str, error: InputError, reads: Reads, begins: Reads) -> InputError:
    """The fault of a line in a plain form, with the statement offered; `error` for any other, or if that offers one."""
    respelt = respelling(meant)
    if respelt is not None and begins(code_of(respelt[2])):
        word, right, whole = respelt
        start = meant.index(word)
        advice = write(whole) if reads(whole) else f"the word is {right}, and more is to follow"
        return InputError(f"{word} is not a word of the language", text, start, start + len(word), advice)
    smaller = smaller_word(meant, reads)
    if smaller is not None:
        word, start, whole = smaller
        said = f"{word} is not the word of a request"
        return InputError(said, text, start, start + len(word), write(whole))
    refused = refused_by_name(meant)
    if refused is not None:
        return refused.in_line(text)
    own = of_the_prompt(meant)
    if own is not None:
        return own.in_line(text)
    if isinstance(error.advice, Advice) and not error.advice.is_example:
        return error  # what is only another's example gives way to what was meant
    return asked(text, meant, reads, error.advice) or error


def asked(text: str, meant: str, reads: Reads, hint: str = "") -> InputError | None:
    """The fault of a line in a plain form, with what it may mean offered; None for any other. `hint` is said without an offer."""
    offered = list(statements(meant, FORMS, reads))
    if not offered:
        return None
    start = len(meant) - len(meant.lstrip())
    end = len(code_of(meant).rstrip())
    lead = "write it like this: " if offered[0][1].completes else "write "
    advice = write(*(offer for _, offer in offered), lead=lead, hint=hint)
    return InputError(offered[0][0], text, start, end, advice)


#: Words one slip from a request's word that are words of the trade by themselves.
_WORDS_OF_THE_TRADE = """plates plated tread gouge gage gages cheek back rack race shape snip drills threads gauges marks packs
checks crowns rules places sharp roll role drilled marked packed checked divided"""
_OWN = frozenset(_WORDS_OF_THE_TRADE.split())
_OPENING = re.compile(r"\s*(?:[^\W\d]\w*\s*=\s*)?(?P<word>[A-Za-z]+)(?P<rest>\s+.*)", re.DOTALL)
_VOWELS = frozenset("aeiouy")


def respelling(meant: str, further: Collection[str] = ()) -> tuple[str, str, str] | None:
    """The opening word of a line that is a request's with a slip in it, the right word, and the line with it.

    `further` are words that open a line and are no requests'.
    """
    match = _OPENING.fullmatch(meant)
    if match is None:
        return None
    right = request_word(match["word"], further)
    if right is None:
        return None
    return match["word"], right, f"{meant[: match.start('word')]}{right}{match['rest']}".strip()


def smaller_word(meant: str, reads: Reads) -> tuple[str, int, str] | None:
    """A word within a request that is one of its smaller words with a slip in it: itself, its place, the line put right."""
    for match in re.finditer(r"(?<= )[a-z]{4,}(?= |$)", code_of(meant), re.IGNORECASE):
        word = match[0].lower()
        if word in tables().words:
            continue
        for right in tables().words:
            if len(right) > 3 and abs(len(right) - len(word)) <= 2 and _is_slip(word, right):
                whole = f"{meant[: match.start()]}{right}{meant[match.end() :]}".strip()
                if reads(whole):
                    return match[0], match.start(), whole
    return None


def odd_word(meant: str, reads: Reads, begins: Reads) -> tuple[str, str, int, int] | None:
    """What is said of a line with one of the smaller words misspelt, where it was taken for a unit, and its place."""
    whole = smaller_word(meant, reads)
    last = smaller_word(meant, begins) if whole is None else whole
    if last is None:
        return None
    word, start, line = last
    right = line[len(meant[:start].lstrip()) :].split()[0]
    advice = f"the word is {right}, and more is to follow" if whole is None else write(line)
    return f"{word} is neither a unit nor a word of the language", advice, start, start + len(word)


def request_word(word: str, further: Collection[str] = ()) -> str | None:
    """The request's word, or one of `further`, that `word` is with a slip of the hand or of spelling; else None.

    A letter left out, put in (but for a plural) or out of turn, one vowel for another; in words of seven
    letters or more two of any slips.

    >>> request_word("devide"), request_word("recovr"), request_word("thred"), request_word("rack")
    ('divide', 'recover', 'thread', None)
    """
    small = word.lower()
    if len(small) < 4 or small in _OWN or small in tables().words or small in further:
        return None
    openers = (*_openers(), *further)
    near = [right for right in openers if abs(len(right) - len(small)) <= 2 and _is_slip(small, right)]
    return near[0] if len(near) == 1 else None


@cache
def _openers() -> tuple[str, ...]:
    from fractions_shop.language.advice.explain import called, openers

    return tuple(sorted(word for kind in openers() if (word := called()[kind]).isalpha()))


def _is_slip(word: str, right: str) -> bool:
    if word[0] != right[0] and sorted(word[:2]) != sorted(right[:2]):
        return False
    count = slips(word, right)
    if count == 1:
        if len(word) == len(right):
            differ = [(a, b) for a, b in zip(word, right, strict=True) if a != b]
            return len(differ) == 2 or {*differ[0]} <= _VOWELS or len(word) >= 6
        return word != f"{right}s"
    return count == 2 and min(len(word), len(right)) >= 7
